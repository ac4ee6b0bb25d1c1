//! Raw HTML in prose: which tags it has, and which of them readers get.

use std::ops::Range;

/// Raw HTML that may stand inside a line.
const KEPT_INLINE: [&str; 17] = [
    "abbr", "b", "br", "code", "del", "em", "ins", "kbd", "mark", "q", "s", "small", "span", "strong", "sub",
    "sup", "wbr",
];

/// Raw HTML that may stand in a block of its own, beside [`KEPT_INLINE`].
const KEPT_BLOCK: [&str; 22] = [
    "a",
    "blockquote",
    "caption",
    "dd",
    "details",
    "div",
    "dl",
    "dt",
    "hr",
    "li",
    "ol",
    "p",
    "pre",
    "summary",
    "table",
    "tbody",
    "td",
    "tfoot",
    "th",
    "thead",
    "tr",
    "ul",
];

/// Where a tag of raw HTML stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HtmlPlace {
    Inline,
    Block,
}

/// True when pages keep a tag of that name there. Whatever else raw HTML can do (scripts, frames, media
/// of other sites, forms) has no place in prose.
pub fn keeps(name: &str, place: HtmlPlace) -> bool {
    KEPT_INLINE.contains(&name) || (place == HtmlPlace::Block && KEPT_BLOCK.contains(&name))
}

/// The names of all tags that a block may hold.
pub fn kept_in_blocks() -> impl Iterator<Item = &'static str> {
    KEPT_INLINE.into_iter().chain(KEPT_BLOCK)
}

/// The tags in a piece of raw HTML: each name in small letters, with its place in the text. Comments and
/// closing tags are none.
pub fn opening_tags(html: &str) -> Vec<(String, Range<usize>)> {
    let mut tags = Vec::new();
    for (at, _) in html.match_indices('<') {
        let rest = &html[at + 1..];
        let name: String = rest.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
        if name.starts_with(|c: char| c.is_ascii_alphabetic()) {
            tags.push((name.to_ascii_lowercase(), at..at + 1 + name.len()));
        }
    }
    tags
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_are_found_by_name() {
        let names: Vec<String> =
            opening_tags("<DIV class=x><b>a < b</b><!-- <i> --><br/>").into_iter().map(|t| t.0).collect();
        assert_eq!(names, ["div", "b", "i", "br"]);
    }
}
