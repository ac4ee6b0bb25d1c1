//! PDF/UA-1 (ISO 14289-1:2014), judged by a checker that knows nothing of the typesetter.

use std::collections::BTreeMap;

use page_validation::{ValidationOptions, ValidationProfile, validate_pdf_bytes};
use steadyleaf::print::workers;

use super::demonstration::{Presses, sheets, threads};

/// The rules that a PDF breaks, each once.
fn broken(pdf: &[u8]) -> Vec<String> {
    let profile = ValidationOptions::default().profile(ValidationProfile::PdfUa1);
    let report = validate_pdf_bytes(pdf, &profile).unwrap();
    let mut rules: Vec<String> = report.failures.iter().map(|f| f.rule_id.to_string()).collect();
    rules.dedup();
    assert_eq!(report.is_compliant, rules.is_empty());
    rules
}

#[test]
fn every_sheet_of_the_demonstration_is_pdf_ua_1() {
    let presses = Presses::new();
    let sheets = sheets();
    let made = workers::each(&sheets, threads(), |sheet| {
        let (pages, rules) = match presses.print(sheet) {
            Ok(printed) => (printed.pages, broken(&printed.pdf)),
            Err(why) => (0, vec![why]),
        };
        (pages, (!rules.is_empty()).then(|| format!("{}: {}", sheet.name, rules.join("; "))))
    });
    let mut pages: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (sheet, (count, _)) in sheets.iter().zip(&made) {
        let (name, size) = sheet.name.split_once(", ").unwrap();
        pages.entry(name).or_default().push(format!("{count} ({size})"));
    }
    let pages = pages.iter().map(|(name, counts)| format!("{name}: {}\n", counts.join(", ")));
    insta::assert_snapshot!("pages", pages.collect::<String>());
    let faults: Vec<String> = made.into_iter().filter_map(|(_, fault)| fault).collect();
    assert!(faults.is_empty(), "{} of {} sheets:\n{}", faults.len(), sheets.len(), faults.join("\n"));
}

/// The sheet of one exercise, with as many bytes of it replaced.
fn altered(old: &str, new: &str) -> Vec<u8> {
    let sheets = sheets();
    let sheet = sheets.iter().find(|sheet| sheet.name == "heel-drop, 18 point a4").unwrap();
    let mut pdf = Presses::new().print(sheet).unwrap().pdf;
    assert_eq!(broken(&pdf), [""; 0]);
    // What stands elsewhere in the file has to stay where the file says that it is.
    assert_eq!(old.len(), new.len());
    let found: Vec<usize> = pdf
        .windows(old.len())
        .enumerate()
        .filter(|(_, bytes)| *bytes == old.as_bytes())
        .map(|(at, _)| at)
        .collect();
    assert!(!found.is_empty(), "there is no {old} in the sheet");
    for at in found {
        pdf[at..at + new.len()].copy_from_slice(new.as_bytes());
    }
    pdf
}

#[test]
fn a_sheet_that_is_not_marked_as_tagged_fails() {
    let pdf = altered("<</Marked true>>               ", "<</Marked false>>              ");
    assert_eq!(broken(&pdf), ["ISO 14289-1:2014:6.2:1"]);
}

#[test]
fn a_code_for_phones_without_words_fails() {
    let pdf = altered("/Alt(", "/Non(");
    assert_eq!(broken(&pdf), ["ISO 14289-1:2014:7.3:1"]);
}

/// The sheet of that name, as text: its dictionaries are not packed away.
fn printed(name: &str) -> String {
    let sheets = sheets();
    let sheet = sheets.iter().find(|sheet| sheet.name == name).unwrap();
    String::from_utf8_lossy(&Presses::new().print(sheet).unwrap().pdf).into_owned()
}

#[test]
fn the_name_of_an_exercise_is_a_heading_and_a_bookmark() {
    for (name, title, levels) in [
        ("heel-drop, 18 point a4", "Heel drop at the counter", 2),
        ("week-07, 18 point a4", "Light on your feet", 3),
    ] {
        let pdf = printed(name);
        assert!(pdf.contains(&format!("/Title({title})/")), "{name}");
        for level in 1..=levels {
            assert!(pdf.contains(&format!("/S/H{level}")), "{name}: no H{level}");
        }
        // Marks around a heading are no words of it.
        assert!(!pdf.contains("/Title( ") && !pdf.contains(" )/Parent"), "{name}");
        assert!(!pdf.contains("/S/Title"), "{name}: a title is a paragraph where nobody knows that tag");
    }
    assert!(printed("week-07, 18 point a4").contains("/Title(Heel drop at the counter)/"));
}

#[test]
fn addresses_and_numbers_can_be_clicked_and_are_described() {
    let pdf = printed("heel-drop, 18 point a4");
    for address in [
        "tel:5550142",
        "mailto:hello@lantern-hill.example",
        "https://lantern-hill.example/exercises/heel-drop.html",
    ] {
        assert!(pdf.contains(&format!("/URI({address})")), "{address}");
    }
    let links = pdf.matches("/Subtype/Link").count();
    assert_eq!((links, pdf.matches("/S/Link").count()), (3, 3));
    assert!(
        pdf.contains("/Contents(Telephone 5550142)")
            && pdf.contains("/Contents(Email hello@lantern-hill.example)")
    );
}

#[test]
fn no_sheet_says_what_some_readers_take_for_a_mistake() {
    assert!(!printed("heel-drop, 18 point a4").contains("/Suspects"));
}
