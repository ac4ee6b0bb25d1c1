//! The same sheet is the same bytes, and holds nothing of the machine that printed it.

use steadyleaf::print::workers;

use super::demonstration::{Presses, Sheet, sheets, threads};

/// Sheets of every kind, few enough to be printed several times.
fn some() -> Vec<Sheet> {
    let kinds = ["week-07", "heel-drop", "low-jump", "cue sheet of week-02"];
    let of = |sheet: &Sheet| kinds.iter().any(|kind| sheet.name.starts_with(kind));
    let some: Vec<Sheet> = sheets().into_iter().filter(of).collect();
    assert_eq!(some.len(), (1 + 3 + 1 + 2 + 1) * 6);
    some
}

/// The sheets' bytes, in their order, printed by presses that have printed nothing before.
fn printed(sheets: &[&Sheet], threads: usize) -> Vec<Vec<u8>> {
    // What the typesetter remembers of earlier sheets would be no second printing.
    comemo::evict(0);
    let presses = Presses::new();
    workers::each(sheets, threads, |sheet| presses.print(sheet).unwrap().pdf)
}

#[test]
fn neither_the_order_nor_the_number_of_threads_changes_a_byte() {
    let sheets = some();
    let forward: Vec<&Sheet> = sheets.iter().collect();
    let backward: Vec<&Sheet> = sheets.iter().rev().collect();
    let first = printed(&forward, 1);
    let second = printed(&forward, 2);
    let mut third = printed(&backward, 3);
    third.reverse();
    for (number, sheet) in sheets.iter().enumerate() {
        assert!(first[number] == second[number], "{} differs on two threads", sheet.name);
        assert!(first[number] == third[number], "{} differs in another order", sheet.name);
    }
    let different: std::collections::BTreeSet<&Vec<u8>> = first.iter().collect();
    assert_eq!(different.len(), sheets.len(), "two sheets are the same file");
}

#[test]
fn no_sheet_tells_when_or_where_it_was_printed() {
    let sheets = some();
    for (sheet, pdf) in sheets.iter().zip(printed(&sheets.iter().collect::<Vec<_>>(), threads())) {
        let whole = String::from_utf8_lossy(&pdf);
        // What is packed may have any bytes; what is said of the file for programs is not.
        let readable = |part: &&str| part.contains("xpacket");
        let unpacked = whole.split("endstream").map(|part| match part.split_once("stream\n") {
            Some((dictionary, _)) if !readable(&part) => dictionary,
            _ => part,
        });
        let text: String = unpacked.collect();
        assert!(text.contains("xpacket"), "{}", sheet.name);
        // Else the dictionaries would be packed away, and nothing could be seen in them.
        assert!(text.contains("/Author(Maren Oakfield)") && !text.contains("/ObjStm"), "{}", sheet.name);
        let temporary = std::env::temp_dir();
        let here = [env!("CARGO_MANIFEST_DIR"), temporary.to_str().unwrap(), "/home/", "/usr/", "/Users/"];
        let time = ["CreationDate", "ModDate", "CreateDate", "ModifyDate", "MetadataDate", "(D:"];
        for told in here.into_iter().chain(time) {
            assert!(!text.contains(told), "{} tells {told}", sheet.name);
        }
    }
}
