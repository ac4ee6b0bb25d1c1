//! The tree of a prose beside the events that it was grown from, and what its lists say.

use proptest::prelude::*;
use pulldown_cmark::Event;

use super::drawn::{markdown, read_within};
use super::*;
use crate::entry::markdown::events;
use crate::model::link::Target;
use crate::model::prose::{Image, Inline, ParagraphKind};

fn read_page(text: &str) -> Prose {
    read_within(text, 0, FileId(0)).expect("prose within the limits")
}

/// Every text and code of words, with its place.
fn texts_of(words: &[Spanned<Inline>], out: &mut Vec<(String, Range<usize>)>) {
    for word in words {
        match &word.value {
            Inline::Text(text) | Inline::Code(text) => out.push((text.clone(), word.span.range())),
            Inline::Emphasis(words) | Inline::Strong(words) | Inline::Link(_, words) => texts_of(words, out),
            Inline::Citation(cited) => texts_of(&cited.words, out),
            Inline::Picture(picture) => texts_of(&picture.words, out),
            Inline::Note(_) | Inline::SoftBreak | Inline::HardBreak | Inline::Html(_) => {}
        }
    }
}

/// Every text and code of blocks, with its place, and raw HTML outside of lines.
fn texts_in<'b>(blocks: impl IntoIterator<Item = &'b Spanned<Block>>, out: &mut Vec<(String, Range<usize>)>) {
    for block in blocks {
        match &block.value {
            Block::Paragraph(words) | Block::Words(words) | Block::Heading(_, words) => texts_of(words, out),
            Block::List(list) => list.items.iter().for_each(|item| texts_in(&item.value, out)),
            Block::Quote(blocks) | Block::Footnote(_, blocks) => texts_in(blocks, out),
            Block::Table(table) => {
                let cells = table.head.iter().chain(table.rows.iter().flatten());
                cells.for_each(|cell| texts_of(&cell.value, out));
            }
            Block::Code(code) => out.extend(code.text.iter().map(|t| (t.value.clone(), t.span.range()))),
            Block::Html(lines) => out.extend(lines.iter().map(|t| (t.value.clone(), t.span.range()))),
            Block::Definitions(list) => list.iter().for_each(|part| match &part.value {
                Definition::Title(words) => texts_of(words, out),
                Definition::Text(blocks) => texts_in(blocks, out),
            }),
            Block::Rule => {}
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_tree_has_every_word_of_its_events_at_its_place(text in markdown(true)) {
        let expected: Vec<_> = events(&text)
            .filter_map(|(event, at)| match event {
                Event::Text(words) | Event::Code(words) | Event::Html(words) => Some((words.to_string(), at)),
                _ => None,
            })
            .collect();
        let mut found = Vec::new();
        texts_in(read_page(&text).blocks(), &mut found);
        prop_assert_eq!(found, expected);
    }
}

#[test]
fn a_section_owns_its_title_its_content_and_its_place() {
    let text =
        "Intro.\n\n## Set *up* [@a]\n\n1. Sit.\n   1. Tall.\n2. Rise.\n\n> 1. Go.\n\nMove\n----\nGo.\n";
    let prose = read_page(text);
    assert_eq!(prose.opening.len(), 1);
    let [first, second] = prose.sections.as_slice() else { panic!("{:?}", prose.sections) };
    assert_eq!((first.title.value.as_str(), first.anchor.as_str(), first.steps), ("Set up", "set-up", 3));
    assert_eq!(&text[first.title.span.range()], "## Set *up* [@a]");
    assert_eq!(&text[first.body.range()], "\n1. Sit.\n   1. Tall.\n2. Rise.\n\n> 1. Go.\n\n");
    assert_eq!(first.blocks.len(), 2);
    assert_eq!((second.title.value.as_str(), &text[second.body.range()]), ("Move", "Go.\n"));
    assert_eq!(second.blocks.len(), 1);
    assert_eq!(prose.blocks().count(), 6);
    let steps = prose.paragraphs.iter().filter(|p| p.kind == ParagraphKind::Step);
    let steps: Vec<&str> = steps.map(|p| &text[p.span.range()]).collect();
    assert_eq!(steps, ["Sit.", "Rise.", "Go."]);
}

#[test]
fn links_are_resolved_as_they_are_read() {
    let prose =
        read_page("[a](../exercises/heel-drop.md#feel) [b](x.md \"B\") <c@d.example> [e](javascript:f)");
    let leads: Vec<_> = prose.links.iter().map(|l| l.leads.as_ref().map(|found| &found.target)).collect();
    assert_eq!(leads[0], Ok(&Target::Exercise("heel-drop".to_string())));
    assert_eq!(leads[1], Ok(&Target::Page("x".to_string())));
    assert_eq!(leads[2], Ok(&Target::Elsewhere("mailto:c@d.example".to_string())));
    assert!(leads[3].is_err());
    assert_eq!(prose.links[0].leads.as_ref().unwrap().fragment.as_deref(), Some("feel"));
    assert_eq!(prose.links[1].title.as_deref(), Some("B"));
}

#[test]
fn notes_and_tables_are_numbered_over_the_whole_prose() {
    let table = "| a |\n| - |\n| b |\n";
    let notes = "c[^one] d[^two] e[^one]\n\n[^two]: f\n\n[^one]: g\n\n[^y]: h\n";
    let prose = read_page(&format!("{table}\n## i\n\n{table}\n{notes}"));
    let mut notes = Vec::new();
    let mut tables = Vec::new();
    for block in prose.blocks() {
        match &block.value {
            Block::Footnote(note, _) => notes.push((note.number, note.anchor.as_str())),
            Block::Table(table) => tables.push(table.number),
            _ => {}
        }
    }
    assert_eq!(notes, [(2, "note.two"), (1, "note.one"), (3, "note.y")]);
    assert_eq!(tables, [1, 2]);
}

#[test]
fn of_pictures_in_each_other_the_outer_one_is_shown_with_all_words() {
    let prose = read_page("![a ![b *c*](b.jpg) [d](e.md)](a.jpg) f");
    let [Image { address, description }] = prose.images.as_slice() else { panic!("{:?}", prose.images) };
    assert_eq!((address.value.as_str(), description.as_str()), ("a.jpg", "a b c d"));
    assert_eq!(prose.links.len(), 1);
    assert_eq!(prose.paragraphs[0].seen.len(), 1);
}

/// Neither growing nor dropping a tree may need a stack as deep as what an author can nest.
#[test]
fn pictures_without_end_in_each_other_do_not_fill_the_stack() {
    let deep = 1_500;
    let text = format!("{}x{}", "![".repeat(deep), "](a.jpg)".repeat(deep));
    let small = std::thread::Builder::new().stack_size(256 * 1024);
    let images = small.spawn(move || read_page(&text).images.len()).unwrap().join().unwrap();
    assert_eq!(images, 1);
}

#[test]
fn nothing_is_read_of_a_prose_beyond_the_limits() {
    let mut findings = Vec::new();
    let text = format!("[a](b.md)\n\n{} c", ">".repeat(11));
    let origin = Origin { file: FileId(0), name: "" };
    let prose = read(&text, 0..text.len(), origin, &[], &mut findings);
    assert_eq!((findings.len(), &prose), (1, &Prose::empty(prose.span)));
}
