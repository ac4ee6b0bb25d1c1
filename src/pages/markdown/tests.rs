//! What becomes of each kind of prose, and that nothing is lost or let through.

use proptest::prelude::*;

use super::*;
use crate::entry::drawn::markdown;
use crate::entry::{events, read_prose};

fn on_a_page<'b>(blocks: impl IntoIterator<Item = &'b Spanned<Block>>) -> String {
    let place = Place {
        link: &|link| {
            let address = &link.address.value;
            (!address.starts_with("javascript:")).then(|| format!("to/{address}"))
        },
        cite: &|list| format!("({})", list.iter().map(|c| c.key.as_str()).collect::<Vec<_>>().join("; ")),
        picture: &|image| format!("<img src=\"{}\" alt=\"{}\">", image.address.value, image.description),
        deeper: 1,
        prefix: "drop.",
        table_label: &|n| format!("table {n}"),
    };
    render(blocks, &place)
}

fn html(text: &str) -> String {
    on_a_page(read_prose(text).blocks())
}

/// What comes first, then what is below each level-2 heading.
fn parts(text: &str) -> Vec<String> {
    let prose = read_prose(text);
    let sections = prose.sections.iter().map(|section| on_a_page(&section.blocks));
    std::iter::once(on_a_page(&prose.opening)).chain(sections).collect()
}

#[test]
fn headings_go_deeper_and_carry_the_prefix_of_their_entry() {
    assert_eq!(
        html("### Two *words*\n\n### Two words"),
        "<h4 id=\"drop.two-words\">Two <em>words</em></h4>\n<h4 id=\"drop.two-words-2\">Two words</h4>\n"
    );
}

#[test]
fn links_citations_and_pictures_become_what_the_page_says() {
    assert_eq!(
        html("[a](b.md) [@key] ![a *leaf*](c.jpg)"),
        "<p><a href=\"to/b.md\">a</a> (key) <img src=\"c.jpg\" alt=\"a leaf\"></p>\n"
    );
    assert_eq!(
        html("<we@hill.example>"),
        "<p><a href=\"to/mailto:we@hill.example\">we@hill.example</a></p>\n"
    );
}

#[test]
fn a_link_that_may_not_be_leaves_its_words() {
    assert_eq!(html("[*a* b](javascript:alert(1)) c"), "<p><em>a</em> b c</p>\n");
    assert_eq!(html("<javascript:alert(1)>"), "<p>javascript:alert(1)</p>\n");
}

#[test]
fn a_table_can_be_scrolled_and_has_a_name() {
    let table = html("| a |\n| - |\n| 1 |\n");
    let open = "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"table 1\">";
    assert!(table.starts_with(open), "{table}");
    assert!(table.ends_with("</table>\n</div>\n"), "{table}");
    assert!(!html("| a |\n| -: |\n| 1 |\n").contains("style"));
}

#[test]
fn sections_are_cut_at_their_headings_and_share_definitions_and_footnotes() {
    let text = "Intro.\n\n## Set up\n[the sit][c] note[^a]\n\n### Tip\n\n## Move\n1. Go.[^b]\n\n### Tip\n\n[c]: x.md\n[^a]: First.\n[^b]: Second.\n";
    let parts = parts(text);
    assert_eq!(parts.len(), 3);
    assert_eq!(parts[0], "<p>Intro.</p>\n");
    assert!(parts[1].contains("<a href=\"to/x.md\">the sit</a>"), "{}", parts[1]);
    assert!(parts[1].contains("<a href=\"#drop.note.a\">1</a>"), "{}", parts[1]);
    assert!(parts[2].contains("<a href=\"#drop.note.b\">2</a>"), "{}", parts[2]);
    assert!(parts[1].contains("id=\"drop.tip\"") && parts[2].contains("id=\"drop.tip-2\""));
    assert!(parts[2].contains("id=\"drop.note.a\"") && parts[2].contains("Second."), "{}", parts[2]);
}

#[test]
fn a_level_2_heading_inside_a_quote_divides_nothing() {
    assert_eq!(parts("> ## Quoted\n").len(), 1);
}

#[test]
fn raw_html_is_made_harmless_and_no_text_is_swallowed() {
    for (dirty, clean) in [
        ("A <b>bold</b> word", "<p>A <b>bold</b> word</p>\n"),
        ("A <B onclick=\"x()\">bold", "<p>A <b>bold</b></p>\n"),
        ("Q <script> Wear shoes.\n\nNever let go.", "<p>Q  Wear shoes.</p>\n<p>Never let go.</p>\n"),
        ("A <textarea> b\n\nc", "<p>A  b</p>\n<p>c</p>\n"),
        ("a</b> x", "<p>a x</p>\n"),
        ("a <img src=x onerror=alert(1)> b", "<p>a  b</p>\n"),
    ] {
        assert_eq!(html(dirty), clean, "{dirty}");
    }
    let block = html(
        "<div style=\"color:red\" onclick=\"x()\" class=\"head\"><a href=\"javascript:x\">y</a>\n<iframe src=\"//e.example\"></iframe><img src=\"https://e.example/t.gif\"></div>\n\nAfter.",
    );
    for evil in ["onclick", "javascript", "iframe", "style", "img", "class"] {
        assert!(!block.contains(evil), "{evil} in {block}");
    }
    assert!(block.ends_with("<p>After.</p>\n"), "{block}");
    let unclosed = html("<div><textarea>\n\nNever let go.");
    assert!(unclosed.ends_with("<p>Never let go.</p>\n"), "{unclosed}");
}

#[test]
fn a_picture_inside_the_description_of_another_lends_it_its_words() {
    assert_eq!(
        html("![a ![b](b.jpg) c](a.jpg) d\n\n> ## e"),
        "<p><img src=\"a.jpg\" alt=\"a b c\"> d</p>\n<blockquote>\n<h3 id=\"drop.e\">e</h3>\n</blockquote>\n"
    );
}

#[test]
fn a_heading_in_two_lines_has_the_anchor_that_links_to_it_use() {
    assert_eq!(html("Two\nlines\n===\n"), "<h2 id=\"drop.two-lines\">Two\nlines</h2>\n");
    assert_eq!(html("### Drop [@key]\n"), "<h4 id=\"drop.drop\">Drop (key)</h4>\n");
}

#[test]
fn raw_tags_end_with_the_words_of_an_item() {
    assert_eq!(html("- a <b>b\n  - c\n"), "<ul>\n<li>a <b>b</b>\n<ul>\n<li>c</li>\n</ul>\n</li>\n</ul>\n");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, max_global_rejects: 10_000, failure_persistence: None, ..ProptestConfig::default() })]

    /// The grammar's own library writes the same events.
    #[test]
    fn the_tree_renders_plain_as_its_events_do(text in markdown(true)) {
        // Notes and citations are ours, and a tag in a picture's description is nobody's word.
        let ours = ["[^", "[@"].iter().any(|mark| text.contains(mark));
        let tags_in_pictures = text.contains("![") && text.contains('<');
        prop_assume!(!ours && !tags_in_pictures);
        let mut expected = String::new();
        pulldown_cmark::html::push_html(&mut expected, events(&text).map(|(event, _)| event));
        prop_assert_eq!(render_plain(&read_prose(&text)), expected);
    }
}
