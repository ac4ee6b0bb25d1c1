//! The lines of a finding as HTML: numbered, the place marked, the author's markup in colors.

use std::ops::Range;
use std::sync::LazyLock;

use syntect::easy::ScopeRegionIterator;
use syntect::parsing::{ParseState, Scope, ScopeStack, SyntaxReference, SyntaxSet};

use super::dress::escaped;
use crate::model::source::{Source, Span};

/// Lines shown before and after the place.
const AROUND: usize = 2;

/// Long lines of a broken file may hold a whole book: more of one is not shown.
const MOST_OF_A_LINE: usize = 2_000;

static SYNTAXES: LazyLock<SyntaxSet> = LazyLock::new(two_face::syntax::extra_newlines);

/// What a part of a text is, as the style sheet names it; the first that fits the innermost scope.
static KINDS: LazyLock<Vec<(Scope, &str)>> = LazyLock::new(|| {
    let kinds = [
        ("comment", "remark"),
        ("string", "words"),
        ("constant", "value"),
        ("markup.heading", "name"),
        ("markup.underline.link", "words"),
        ("entity.name", "name"),
        ("entity.other", "name"),
        ("variable", "name"),
        ("support", "name"),
        ("keyword", "value"),
    ];
    kinds.iter().filter_map(|(scope, kind)| Some((Scope::new(scope).ok()?, *kind))).collect()
});

/// The lines around a place.
pub fn html(source: &Source, span: Span) -> String {
    let (first, last) = (source.position(span.start as usize).line, source.position(span.end as usize).line);
    let shown = source.lines(first.saturating_sub(AROUND).max(1), last + AROUND);
    let pieces = pieces(source, shown.end);
    let mut html = String::from("<pre class=\"proof-lines\">");
    let mut at = shown.start;
    let lines = source.text[shown].split_inclusive('\n');
    for (number, line) in (first.saturating_sub(AROUND).max(1)..).zip(lines) {
        let place = if (first..=last).contains(&number) { " proof-here" } else { "" };
        html.push_str(&format!(
            "<span class=\"proof-line{place}\"><span class=\"proof-number\">{number}</span> "
        ));
        let text = at..at + line.trim_end_matches(['\n', '\r']).len().min(MOST_OF_A_LINE);
        draw(&source.text, text, &pieces, span.range(), &mut html);
        html.push_str("</span>");
        at += line.len();
    }
    html.push_str("</pre>");
    html
}

/// Draws one line: cut where a piece or the marked place begins or ends.
fn draw(
    text: &str,
    line: Range<usize>,
    pieces: &[(Range<usize>, Option<&str>)],
    place: Range<usize>,
    html: &mut String,
) {
    let line = line.start..text.floor_char_boundary(line.end);
    let around = pieces.partition_point(|(at, _)| at.end <= line.start);
    let mut marked = false;
    for (at, kind) in pieces[around..].iter().take_while(|(at, _)| at.start < line.end) {
        let at = at.start.max(line.start)..at.end.min(line.end);
        let cuts = [at.start, place.start.clamp(at.start, at.end), place.end.clamp(at.start, at.end), at.end];
        for (n, cut) in cuts.windows(2).enumerate() {
            let Some(part) = text.get(cut[0]..cut[1]).filter(|part| !part.is_empty()) else { continue };
            // One mark for the place, whatever it is made of.
            if marked != (n == 1) {
                html.push_str(if marked { "</mark>" } else { "<mark>" });
                marked = !marked;
            }
            match kind {
                Some(kind) => {
                    html.push_str(&format!("<span class=\"proof-{kind}\">{}</span>", escaped(part)));
                }
                None => html.push_str(&escaped(part)),
            }
        }
    }
    if marked {
        html.push_str("</mark>");
    }
}

/// The text up to `end` in pieces of one kind each. An entry's fields are TOML, its prose is Markdown.
fn pieces(source: &Source, end: usize) -> Vec<(Range<usize>, Option<&'static str>)> {
    let name = source.name.as_str();
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    let syntax = |name: &str| SYNTAXES.find_syntax_by_extension(name);
    let mut pieces = Vec::new();
    let found = (ending == "md").then(|| fields(&source.text)).flatten();
    let fields = found.clone().unwrap_or(0..0);
    add(&source.text, 0..fields.start.min(end), None, &mut pieces);
    add(&source.text, fields.start.min(end)..fields.end.min(end), syntax("toml"), &mut pieces);
    // The line that closes the fields would open a block for whoever begins to read there.
    let closing = source.text[fields.end..].find('\n').map_or(source.text.len(), |at| fields.end + at + 1);
    let prose = if found.is_some() { closing } else { 0 };
    add(&source.text, fields.end.min(end)..prose.min(end), None, &mut pieces);
    add(&source.text, prose.min(end)..end, syntax(ending), &mut pieces);
    pieces
}

/// Where the lines of an entry's fields are.
fn fields(text: &str) -> Option<Range<usize>> {
    let opening = text.find("```")?;
    let start = opening + text[opening..].find('\n')? + 1;
    let end = text[start..].find("\n```").map_or(text.len(), |at| start + at + 1);
    text[..opening].trim().is_empty().then_some(start..end)
}

fn add(
    text: &str,
    at: Range<usize>,
    syntax: Option<&SyntaxReference>,
    pieces: &mut Vec<(Range<usize>, Option<&'static str>)>,
) {
    let mut parser = syntax.map(ParseState::new);
    let mut stack = ScopeStack::new();
    let mut start = at.start;
    for line in text[at].split_inclusive('\n') {
        let parsed = parser.as_mut().filter(|_| line.len() <= MOST_OF_A_LINE);
        match parsed.and_then(|parser| parser.parse_line(line, &SYNTAXES).ok()) {
            Some(changes) => {
                for (part, change) in ScopeRegionIterator::new(&changes, line) {
                    // A grammar that closes what it never opened leaves the colors as they are.
                    let _ = stack.apply(change);
                    if !part.is_empty() {
                        pieces.push((start..start + part.len(), kind(&stack)));
                        start += part.len();
                    }
                }
            }
            None => {
                pieces.push((start..start + line.len(), None));
                start += line.len();
            }
        }
    }
}

fn kind(stack: &ScopeStack) -> Option<&'static str> {
    stack
        .as_slice()
        .iter()
        .rev()
        .find_map(|scope| KINDS.iter().find(|(known, _)| known.is_prefix_of(*scope)).map(|(_, kind)| *kind))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::source::FileId;

    const TEXT: &str =
        "```toml\ntitle = \"Größe <b>\"\nreps = 10 # ten\n```\nProse.\n\n## Set up\nStand \"tall\".\n";

    fn excerpt(words: &str) -> String {
        let source = Source::new("content/exercises/a.md".into(), TEXT.into());
        let at = TEXT.find(words).unwrap();
        html(&source, Span::new(FileId(0), at..at + words.len()))
    }

    #[test]
    fn the_place_is_marked_in_its_line_between_lines_with_their_numbers() {
        let html = excerpt("Größe");
        let lines: Vec<&str> = html.split("<span class=\"proof-line").skip(1).collect();
        assert_eq!(lines.len(), 4, "{html}");
        assert!(lines[1].contains("proof-here\"><span class=\"proof-number\">2</span>"), "{html}");
        assert!(lines[1].contains("<mark><span class=\"proof-words\">Größe</span></mark>"), "{html}");
        assert!(lines[1].contains("&lt;b&gt;") && !lines[0].contains("<mark>"), "{html}");
    }

    #[test]
    fn a_place_of_several_kinds_of_words_has_one_mark() {
        let html = excerpt("reps = 10");
        assert_eq!(html.matches("<mark>").count(), 1, "{html}");
        let marked = html.split("<mark>").nth(1).unwrap().split("</mark>").next().unwrap();
        assert!(marked.contains("reps") && marked.contains("10") && !marked.contains("ten"), "{html}");
    }

    #[test]
    fn fields_and_prose_have_the_colors_of_their_own_markup() {
        let fields = excerpt("reps");
        assert!(fields.contains("<mark><span class=\"proof-name\">reps</span></mark>"), "{fields}");
        assert!(fields.contains("<span class=\"proof-value\">10</span>"), "{fields}");
        assert!(fields.contains("proof-remark") && fields.contains("ten"), "{fields}");
        let prose = excerpt("Stand");
        assert!(prose.contains("<span class=\"proof-name\">Set up</span>"), "{prose}");
        assert!(prose.contains("<mark>Stand</mark> &quot;tall&quot;."), "{prose}");
    }

    #[test]
    fn a_place_at_the_end_or_outside_of_a_text_is_shown_without_a_mark() {
        for text in ["", "a", "a\n", "```toml\n", "é"] {
            let source = Source::new("content/a.md".into(), text.into());
            for at in [0, text.len(), 99] {
                let html = html(&source, Span::new(FileId(0), at..at));
                assert!(
                    html.starts_with("<pre") && html.ends_with("</pre>") && !html.contains("<mark>"),
                    "{html}"
                );
            }
        }
    }
}
