//! Lines as a terminal can show them: of a long line a window around the place, and no mark that a terminal obeys.

use std::ops::Range;

/// Bytes of a line that are shown whole.
const LONGEST: usize = 400;
/// Of a longer line, about as many bytes before the place and from its start on.
const BEFORE: usize = 80;
const FROM: usize = 240;
/// Bytes of a message.
const MESSAGE: usize = 2_000;

/// Some lines and the place in them, as they are shown.
pub(super) fn window(text: &str, place: Range<usize>) -> (String, Range<usize>) {
    let mut shown = String::with_capacity(text.len().min(8 * LONGEST));
    let mut ends = [None, None];
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let whole = at..at + line.trim_end_matches(['\n', '\r']).len();
        let kept = kept(text, &whole, &place);
        if kept.start > whole.start {
            shown.push('…');
        }
        for (offset, letter) in text[kept.clone()].char_indices() {
            note(&mut ends, &place, kept.start + offset, shown.len());
            shown.push(plain(letter));
        }
        note(&mut ends, &place, kept.end, shown.len());
        if kept.end < whole.end {
            // A place that goes on beyond the window ends with it.
            shown.push('…');
        }
        shown.push_str(&line[whole.len()..]);
        at += line.len();
    }
    let end = ends[1].unwrap_or(shown.len());
    (shown, ends[0].unwrap_or(end)..end)
}

/// What is shown of a line: all of it, or a part around where the place begins.
fn kept(text: &str, line: &Range<usize>, place: &Range<usize>) -> Range<usize> {
    if line.len() <= LONGEST {
        return line.clone();
    }
    let focus = if line.contains(&place.start) || place.start == line.end { place.start } else { line.start };
    let start = text.floor_char_boundary(focus.saturating_sub(BEFORE).max(line.start));
    start..text.floor_char_boundary((focus + FROM).min(line.end))
}

/// Notes where the ends of the place have come to, once the text is shown as far as that.
fn note(ends: &mut [Option<usize>; 2], place: &Range<usize>, at: usize, shown: usize) {
    for (end, meant) in ends.iter_mut().zip([place.start, place.end]) {
        if end.is_none() && at >= meant {
            *end = Some(shown);
        }
    }
}

/// The text of a message or a name, without marks that a terminal obeys and without what goes on for pages, such as an
/// address that holds a whole picture.
pub(super) fn plain_text(text: &str) -> String {
    let end = text.floor_char_boundary(MESSAGE);
    let mut shown: String = text[..end].chars().map(plain).collect();
    if end < text.len() {
        shown.push('…');
    }
    shown
}

/// Control characters as the pictures that Unicode has of them; the end of a line and the tab stay.
fn plain(letter: char) -> char {
    match letter {
        '\n' | '\t' => letter,
        '\u{7f}' => '\u{2421}',
        c if u32::from(c) < 0x20 => char::from_u32(0x2400 + u32::from(c)).unwrap_or('\u{fffd}'),
        c if c.is_control() => '\u{fffd}',
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_long_line_a_window_is_shown_around_the_place() {
        let text = format!("short\n{}WRONG{}\nafter\n", "é".repeat(50_000), "x".repeat(50_000));
        let start = text.find("WRONG").unwrap();
        let (shown, at) = window(&text, start..start + 5);
        assert_eq!(&shown[at], "WRONG");
        assert!(shown.len() < 600, "{}", shown.len());
        assert!(shown.starts_with("short\n…é") && shown.ends_with("x…\nafter\n"), "{shown}");
    }

    #[test]
    fn a_place_longer_than_the_window_ends_with_it() {
        let text = "y".repeat(100_000);
        let (shown, at) = window(&text, 10..99_000);
        assert!(at.start == 10 && at.end <= shown.len() && shown.len() < 500, "{at:?} in {}", shown.len());
    }

    #[test]
    fn short_lines_stay_as_they_are_and_the_place_with_them() {
        let text = "a\r\nbé = wrong\n\n";
        for place in [0..1, 3..6, 9..14, 14..14, text.len()..text.len()] {
            assert_eq!(window(text, place.clone()), (text.to_string(), place));
        }
    }

    #[test]
    fn no_mark_reaches_the_terminal_that_it_would_obey() {
        let (shown, at) = window("a\u{1b}[2Jb\u{9b}c", 2..6);
        assert_eq!(shown, "a\u{241b}[2Jb\u{fffd}c");
        assert_eq!(&shown[at], "[2Jb");
        assert_eq!(plain_text("x\u{7}\u{7f}"), "x\u{2407}\u{2421}");
        assert_eq!(plain_text(&"x".repeat(5_000)), format!("{}…", "x".repeat(MESSAGE)));
    }
}
