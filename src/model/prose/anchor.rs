//! Fragments, made from the words of a heading or of a label.

/// Words in small letters with hyphens between them, and nothing else.
pub fn hyphenated(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    out.truncate(out.trim_end_matches('-').len());
    out
}
