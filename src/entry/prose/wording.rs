//! The hash of a prose's words, by which a clinical review knows that they have changed.

use std::ops::Range;

use crate::model::prose::settled;

/// The hash of the words of the prose at `range`; `html` is where raw HTML stands, which may hold comments.
pub(super) fn hash(text: &str, range: Range<usize>, html: &[Range<usize>]) -> blake3::Hash {
    blake3::hash(settled(&without_comments(text, range, html)).as_bytes())
}

/// The text of the prose without the comments in its raw HTML. One that spans lines comes in several pieces.
fn without_comments(text: &str, prose: Range<usize>, html: &[Range<usize>]) -> String {
    let mut kept = String::new();
    let mut from = prose.start;
    let mut open = false;
    for piece in html {
        let Some(before) = text.get(from..piece.start) else { continue };
        kept.push_str(before);
        // Words end a comment that was never closed; the indent of a list does not.
        open = open && before.trim().is_empty();
        let mut rest = &text[piece.clone()];
        while !rest.is_empty() {
            let mark = if open { "-->" } else { "<!--" };
            let (before, after) = rest.split_once(mark).unwrap_or((rest, ""));
            if !open {
                kept.push_str(before);
            }
            open = (before.len() < rest.len()) != open;
            rest = after;
        }
        from = piece.end;
    }
    kept.push_str(&text[from..prose.end]);
    kept
}
