//! What was most likely meant by a word that is unknown.

/// The candidate that was most likely meant by `word`, if any is near: at most one edit for every
/// three letters (Damerau-Levenshtein distance).
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // No word that somebody meant is longer, and to compare long ones takes long.
    if word.len() > 100 {
        return None;
    }
    let word = word.to_lowercase();
    let most = (word.chars().count() / 3).max(1);
    candidates
        .into_iter()
        .map(|c| (strsim::damerau_levenshtein(&word, &c.to_lowercase()), c))
        .filter(|&(distance, _)| distance <= most)
        .min()
        .map(|(_, c)| c)
}

/// "did you mean `x`?", or else the words that could be meant.
pub fn suggestion<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> String {
    let candidates: Vec<&str> = candidates.into_iter().collect();
    match nearest(word, candidates.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if candidates.is_empty() => "remove it".to_string(),
        None => format!("use one of {}", quoted(&candidates)),
    }
}

/// The author's own text in backticks on one line, shortened when it is long.
pub fn shown(text: &str) -> String {
    const MOST: usize = 60;
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    let mut short: String = text.chars().take(MOST).map(plain).collect();
    if text.chars().nth(MOST).is_some() {
        short.push('…');
    }
    format!("`{short}`")
}

/// Words in backticks, with commas between them.
pub fn quoted(words: &[&str]) -> String {
    words.iter().map(|w| format!("`{w}`")).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_finds_what_was_meant() {
        assert_eq!(nearest("componet", ["component", "position"]), Some("component"));
        assert_eq!(nearest("Heel-drop", ["heel-drop"]), Some("heel-drop"));
        assert_eq!(nearest("xyz", ["component", "position"]), None);
    }

    #[test]
    fn a_long_text_is_shown_short_and_on_one_line() {
        assert_eq!(shown("a\nb"), "`a b`");
        assert_eq!(shown(&"é".repeat(60)), format!("`{}`", "é".repeat(60)));
        assert_eq!(shown(&"é".repeat(61)), format!("`{}…`", "é".repeat(60)));
    }
}
