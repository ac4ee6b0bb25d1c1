//! Every kind of prose as pieces, where each was written, and that no word is lost.

use std::fmt::Write;

use proptest::prelude::*;
use pulldown_cmark::{Event, LinkType, Tag, TagEnd};

use super::*;
use crate::entry::drawn::{markdown, read_within};
use crate::entry::links::resolve;
use crate::entry::{CITATION, events};
use crate::model::link::Target;
use crate::model::source::{FileId, Source, Sources};

/// What stands before the prose in its file.
const OPENING: &str = "```toml\ntitle = \"Élan\"\n```\n";

/// The pieces of a prose below [`OPENING`], with their places and the text that those lead into. A
/// photo called `counter.jpg` is on the sheet.
fn pieces(prose: &str, level: u8, divided: bool) -> (Vec<Vec<Piece>>, Places, Sources) {
    let cite = |list: &[Citation]| {
        let one = |c: &Citation| c.part.as_ref().map_or(c.key.clone(), |part| format!("{}, {part}", c.key));
        format!("({})", list.iter().map(one).collect::<Vec<_>>().join("; "))
    };
    let note = |number: usize| format!("Note {number}");
    let mut photo = |address: &str| address.ends_with("counter.jpg").then(|| "photo-0.jpg".to_string());
    let mut sources = Sources::default();
    let text = format!("{OPENING}{prose}");
    let file = sources.add(Source::new("a.md".to_string(), text.clone()));
    let prose = read_within(&text, OPENING.len(), file).expect("prose within the limits");
    let setting = Setting { cite: &cite, note: &note, level };
    let mut places = Places::default();
    let mut parts = Vec::new();
    if divided {
        parts.push(set(&prose.opening, &setting, Sheet { places: &mut places, photo: &mut photo }));
        for section in &prose.sections {
            parts.push(set_section(section, &setting, Sheet { places: &mut places, photo: &mut photo }));
        }
    } else {
        parts.push(set(prose.blocks(), &setting, Sheet { places: &mut places, photo: &mut photo }));
    }
    (parts, places, sources)
}

/// Pieces as lines, one for each, with strong words between stars.
fn drawn(pieces: &[Piece], depth: usize, out: &mut String) {
    let indent = "  ".repeat(depth);
    for piece in pieces {
        out.push_str(&indent);
        match piece {
            Piece::Paragraph { words, .. } => writeln!(out, "paragraph  {}", line(words)),
            Piece::Heading { level, words, .. } => writeln!(out, "heading {level}  {}", line(words)),
            Piece::Picture { photo, description, .. } => writeln!(out, "picture {photo}  {description}"),
            Piece::Quote { pieces } => {
                out.push_str("quote\n");
                drawn(pieces, depth + 1, out);
                Ok(())
            }
            Piece::List { first, items, .. } => {
                match first {
                    Some(first) => writeln!(out, "list from {first}"),
                    None => writeln!(out, "list"),
                }
                .unwrap();
                for item in items {
                    writeln!(out, "{indent}  item").unwrap();
                    drawn(&item.pieces, depth + 2, out);
                }
                Ok(())
            }
            Piece::Table { head, rows, .. } => {
                let row = |row: &Vec<Vec<Run>>| row.iter().map(|c| line(c)).collect::<Vec<_>>().join(" | ");
                writeln!(out, "table  {}", row(head)).unwrap();
                rows.iter().try_for_each(|r| writeln!(out, "{indent}  row  {}", row(r)))
            }
        }
        .unwrap();
    }
}

fn line(words: &[Run]) -> String {
    let run = |run: &Run| match (run.text.as_str(), run.strong) {
        ("\n", _) => " / ".to_string(),
        (text, true) => format!("*{text}*"),
        (text, false) => text.to_string(),
    };
    words.iter().map(run).collect()
}

fn shown(prose: &str) -> String {
    let (parts, ..) = pieces(prose, 2, false);
    let mut out = String::new();
    parts.iter().for_each(|part| drawn(part, 0, &mut out));
    out
}

/// Every kind of piece that an author can write.
const EVERYTHING: &str = "\
Small *thuds* tell your **hip *bones***  
to stay strong. [@brooke-2022, Table 4; @kim-2015] Or `code`<br>and <b>raw</b> &amp; more.

# A heading of level 1

## Set up

### Feet

##### Toes

- tight one
- tight two
  1. inside one
  2. inside two
- tight three
  ## A heading in an item
  and after it

7. loose seven

   with a second paragraph

8. loose eight

> quoted words
>
> - listed in it

See [our page](../pages/about.md), [this guide](https://guide.example/a), <https://plain.example/>,
[write](mailto:ana@clinic.example) or <bo@clinic.example>.[^one]

[^one]: The *note* itself.

    And more of it.

Heel
: the back of the foot
: a drop

| Day | What you do |
| --- | --- |
| Monday | **Ten** |
| Tuesday ![A cell](../media/counter.jpg) | rest |

![A counter](../media/counter.jpg) stands beside ![a lost photo](../media/lost.jpg) here.

<div>Raw <b>block</b> words
on two lines</div>
<ul><li>Raw one</li><li>Raw two &lt; three</li></ul>

```text
Code block
```

***

#### ![Headed](../media/counter.jpg)
";

#[test]
fn every_kind_of_prose_is_a_piece_that_can_be_set() {
    insta::assert_snapshot!(shown(EVERYTHING));
}

#[test]
fn what_leads_out_of_the_site_can_be_clicked_with_its_words() {
    let (parts, ..) = pieces(
        "See our [page](../pages/about.md), [**this** guide](https://guide.example/a) or <bo@clinic.example>.",
        2,
        false,
    );
    let [part] = parts.as_slice() else { panic!("{parts:?}") };
    let [Piece::Paragraph { words, .. }] = part.as_slice() else { panic!("{parts:?}") };
    let runs: Vec<_> = words.iter().map(|run| (run.text.as_str(), run.link.as_deref())).collect();
    let guide = Some("https://guide.example/a");
    assert_eq!(
        runs,
        [
            ("See our page, ", None),
            ("this", guide),
            (" guide (https://guide.example/a)", guide),
            (" or ", None),
            ("bo@clinic.example", Some("mailto:bo@clinic.example")),
            (".", None),
        ]
    );
}

#[test]
fn blocks_of_a_tight_item_do_not_run_into_its_words() {
    for (block, expected) in [
        ("# b", "paragraph  a\n    paragraph  *b*\n    paragraph  c\n"),
        ("***", "paragraph  a\n    paragraph  c\n"),
        ("```\n  b\n  ```", "paragraph  a\n    paragraph  b\n    paragraph  c\n"),
    ] {
        assert_eq!(
            shown(&format!("- a\n  {block}\n  c\n")),
            format!("list\n  item\n    {expected}"),
            "{block}"
        );
    }
    let html = shown("- a\n  <div>b</div>\n");
    assert_eq!(html, "list\n  item\n    paragraph  a\n    paragraph  b\n");
}

/// Each piece with its words and with the author's text at its place.
fn placed(pieces: &[Piece], places: &Places, sources: &Sources) -> Vec<(String, String)> {
    let text = |place: &Place| sources.slice(places.get(*place).expect("a place that is known")).to_string();
    let mut all = Vec::new();
    for piece in pieces {
        match piece {
            Piece::Paragraph { place, words } | Piece::Heading { place, words, .. } => {
                all.push((plain_words(words), text(place)));
            }
            Piece::Picture { place, description, .. } => all.push((description.clone(), text(place))),
            Piece::Table { place, head, rows } => {
                let cells = head.iter().chain(rows.iter().flatten());
                all.push((cells.map(|c| plain_words(c)).collect::<Vec<_>>().join(" "), text(place)));
            }
            Piece::Quote { pieces } => all.extend(placed(pieces, places, sources)),
            Piece::List { place, items, .. } => {
                for (number, item) in items.iter().enumerate() {
                    let inside = placed(&item.pieces, places, sources);
                    let first = inside[0].0.clone();
                    if number == 0 {
                        all.push((first.clone(), text(place)));
                    }
                    all.push((first, text(&item.place)));
                    all.extend(inside);
                }
            }
        }
    }
    all
}

#[test]
fn every_piece_leads_back_to_the_words_of_the_author() {
    let (parts, places, sources) = pieces(EVERYTHING, 2, false);
    let all: Vec<_> = parts.iter().flat_map(|part| placed(part, &places, &sources)).collect();
    assert!(all.len() > 40, "{all:#?}");
    for (words, text) in &all {
        let own = words.strip_prefix("Note 1. ").unwrap_or(words);
        let first = own.split_whitespace().next().expect("words");
        assert!(text.contains(first), "`{first}` is not in `{text}`");
        let whole = !text.ends_with(char::is_whitespace) && !text.starts_with(char::is_whitespace);
        assert!(whole, "`{text}` has space around it");
    }
}

#[test]
fn words_before_a_list_in_their_item_have_a_place_of_their_own() {
    let (parts, places, sources) = pieces("1. Step out.\n   - Not far.\n2. Back.\n", 2, false);
    let all = placed(&parts[0], &places, &sources);
    assert!(all.contains(&("Step out.".to_string(), "Step out.".to_string())), "{all:#?}");
}

#[test]
fn level_2_divides_the_prose_only_where_a_section_begins() {
    let prose = "Intro.\n\n## Set up\nStand.\n\n> ## Quoted\n> words\n\n- ## Listed\n\n## Move\n1. Go.\n";
    let (parts, ..) = pieces(prose, 2, true);
    let shown: Vec<String> = parts
        .iter()
        .map(|part| {
            let mut out = String::new();
            drawn(part, 0, &mut out);
            out
        })
        .collect();
    assert_eq!(
        shown,
        [
            "paragraph  Intro.\n",
            "paragraph  Stand.\nquote\n  paragraph  *Quoted*\n  paragraph  words\nlist\n  item\n    paragraph  *Listed*\n",
            "list from 1\n  item\n    paragraph  Go.\n",
        ]
    );
}

/// The letters of all words that the grammar sees, without space, and the addresses that are written out.
fn letters_of_the_text(text: &str) -> String {
    let mut letters = String::new();
    let (mut citing, mut picture) = (false, 0);
    let mut links: Vec<(Option<String>, usize)> = Vec::new();
    for (event, _) in events(text) {
        match event {
            Event::Start(Tag::Link { dest_url, .. }) if dest_url.starts_with(CITATION) && picture == 0 => {
                citing = true;
            }
            Event::Start(Tag::Link { dest_url, link_type, .. }) if picture == 0 => {
                let written = Some(dest_url.to_string()).filter(|_| link_type != LinkType::Email);
                links.push((written, letters.len()));
            }
            Event::End(TagEnd::Link) if citing => citing = false,
            Event::End(TagEnd::Link) if picture == 0 => {
                let (address, before) = links.pop().expect("a link that is open");
                let target = address.and_then(|address| Some(resolve("a.md", &address).ok()?.target));
                if let Some(Target::Elsewhere(address)) = target
                    && !letters[before..].contains(&address)
                {
                    letters.push_str(&format!("({address})"));
                }
            }
            Event::Start(Tag::Image { .. }) => picture += 1,
            Event::End(TagEnd::Image) => picture -= 1,
            Event::Text(words) | Event::Code(words) if !citing => letters.push_str(&words),
            _ => {}
        }
    }
    letters.retain(|c| !c.is_whitespace());
    letters
}

/// The letters of all pieces, without space.
fn letters_of_the_pieces(pieces: &[Piece]) -> String {
    let said = |words: &Vec<Run>| words.iter().map(|run| run.text.as_str()).collect::<String>();
    let piece = |piece: &Piece| match piece {
        Piece::Paragraph { words, .. } | Piece::Heading { words, .. } => said(words),
        Piece::Table { head, rows, .. } => head.iter().chain(rows.iter().flatten()).map(said).collect(),
        Piece::Picture { description, .. } => description.clone(),
        Piece::Quote { pieces } => letters_of_the_pieces(pieces),
        Piece::List { items, .. } => items.iter().map(|i| letters_of_the_pieces(&i.pieces)).collect(),
    };
    let mut letters: String = pieces.iter().map(piece).collect();
    letters.retain(|c| !c.is_whitespace());
    letters
}

/// Sets a prose for a sheet without photos, where all that it adds can be told from the author's words.
fn letters(text: &str) -> String {
    let cite = |_: &[Citation]| "\u{e000}".to_string();
    let note = |_: usize| "\u{e001}".to_string();
    let setting = Setting { cite: &cite, note: &note, level: 2 };
    let sheet = Sheet { places: &mut Places::default(), photo: &mut |_| None };
    let prose = read_within(text, 0, FileId(0)).expect("prose within the limits");
    let mut out = letters_of_the_pieces(&set(prose.blocks(), &setting, sheet));
    ["(\u{e001})", "\u{e001}.", "\u{e000}"].iter().for_each(|added| out = out.replace(added, ""));
    out
}

fn is_subsequence(few: &str, many: &str) -> bool {
    let mut many = many.chars();
    few.chars().all(|c| many.any(|m| m == c))
}

/// The levels of the headings, each after the one before it.
fn levels(pieces: &[Piece]) -> Vec<u8> {
    let level = |piece: &Piece| match piece {
        Piece::Heading { level, .. } => Some(*level),
        _ => None,
    };
    pieces.iter().filter_map(level).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_word_is_lost_and_none_changes_its_place(text in markdown(false)) {
        prop_assert_eq!(letters(&text), letters_of_the_text(&text));
    }

    #[test]
    fn raw_html_takes_no_word_away(text in markdown(true)) {
        let (all, found) = (letters_of_the_text(&text), letters(&text));
        prop_assert!(is_subsequence(&all, &found), "{} is not in {}", all, found);
    }

    #[test]
    fn any_bytes_can_be_set(text in "\\PC*") {
        prop_assume!(read_within(&text, 0, FileId(0)).is_some());
        let (all, found) = (letters_of_the_text(&text), letters(&text));
        prop_assert!(is_subsequence(&all, &found), "{} is not in {}", all, found);
    }

    #[test]
    fn every_picture_of_a_prose_is_on_its_sheet(text in markdown(true)) {
        let (parts, ..) = pieces(&text, 2, false);
        let shown = format!("{parts:?}").matches("Picture {").count();
        let (mut expected, mut depth, mut described, mut citing, mut here) = (0, 0, false, false, false);
        for (event, _) in events(&text) {
            match event {
                Event::Start(Tag::Link { dest_url, .. }) if depth == 0 && dest_url.starts_with(CITATION) => {
                    citing = true;
                }
                Event::End(TagEnd::Link) if depth == 0 => citing = false,
                Event::Start(Tag::Image { dest_url, .. }) if !citing => {
                    if depth == 0 {
                        (described, here) = (false, dest_url.ends_with("counter.jpg"));
                    }
                    depth += 1;
                }
                Event::End(TagEnd::Image) if !citing => {
                    depth -= 1;
                    expected += usize::from(depth == 0 && described && here);
                }
                Event::Text(words) | Event::Code(words) if depth > 0 => described |= !words.trim().is_empty(),
                _ => {}
            }
        }
        prop_assert_eq!(shown, expected);
    }

    #[test]
    fn no_heading_skips_a_level(text in markdown(true), level in 1_u8..=2, divided in any::<bool>()) {
        let (parts, ..) = pieces(&text, level, divided);
        for (number, part) in parts.iter().enumerate() {
            // The intro stands below the heading of its exercise, a section below its own.
            let mut before = if number == 0 { level - 1 } else { level };
            for found in levels(part) {
                prop_assert!((1..=before + 1).contains(&found), "{} after {} in {:?}", found, before, part);
                before = found;
            }
        }
    }
}
