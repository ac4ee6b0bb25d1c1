//! The last touch to a finished PDF, byte for byte as long as it was.

/// Where the file says that it is tagged, as the typesetter writes it.
const MARKED: &[u8] = b"/MarkInfo<</Marked true/Suspects false>>";

/// The same without an entry that says what holds anyway.
///
/// ISO 32000-1:2008, table 321: `Suspects` is false where it is left out, so both files say the same, and ISO 14289-1 asks
/// only that it is not true. Some readers take the entry itself for a mistake and complain of the file.
pub(super) fn finish(mut pdf: Vec<u8>) -> Vec<u8> {
    // Two of them: an author's own words. Then it cannot be said which is the right one, and the file is good as it is.
    let mut found = memchr::memmem::find_iter(&pdf, MARKED);
    if let (Some(at), None) = (found.next(), found.next()) {
        let says = at + MARKED.len() - b"/Suspects false>>".len();
        // What follows has to stay where the file's own table says that it is.
        pdf[says..at + MARKED.len()].copy_from_slice(b">>               ");
    }
    pdf
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_entry_goes_and_nothing_moves() {
        let said = "1 0 obj<</Type/Catalog/MarkInfo<</Marked true/Suspects false>>/Lang(en)>>endobj";
        let left = "1 0 obj<</Type/Catalog/MarkInfo<</Marked true>>               /Lang(en)>>endobj";
        assert_eq!(String::from_utf8(finish(said.into())).unwrap(), left);
        let twice = format!("{said}{said}");
        assert_eq!(finish(twice.clone().into()), twice.as_bytes());
        assert_eq!(finish(b"/Suspects false".to_vec()), b"/Suspects false");
    }
}
