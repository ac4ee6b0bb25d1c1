//! Sheets of broken themes, and what the last look finds on them.

use std::borrow::Cow;

use super::*;
use crate::model::vocabulary::{Extent, Paper};
use crate::model::words::Words;
use crate::print::{Order, Photos, Press, Subject, Unprinted};
use crate::reckon::choice::drawn;
use crate::review::testing::words;
use crate::workspace::theme::Theme;

/// What a sheet for tests is set with: marks as the theme's own sheet leaves them, on a page of 300 by
/// 200 points with a margin of 50.
const PAGE: &str = r#"
#set document(title: "Heel drop")
#set page(width: 300pt, height: 200pt, margin: 50pt)
#set text(font: "Atkinson Hyperlegible Next", size: 20pt, fallback: false, top-edge: 0.75em, bottom-edge: -0.25em, hyphenate: false, costs: (widow: 0%, orphan: 0%))
#set par(leading: 0pt, spacing: 0pt)
#set block(spacing: 0pt)
#let d = json("/sheet.json")
#let mark(name, part, place: none) = [#metadata((mark: name, place: place, part: part))]
#let at(place) = [#metadata((mark: "place", place: place))]
#let title = d.title.place
#let summary = d.exercises.first().places.summary
#let area = [#metadata((mark: "area", margin: 50.0))]
"#;

/// The findings of the sheet that `body` sets for an exercise "Heel drop" with `summary`, each as
/// `rule line:column message`, but for its short pages.
fn found_with(summary: &str, body: &str) -> Vec<String> {
    let all = all_found_with(summary, body);
    all.into_iter().filter(|finding| !finding.starts_with("stranded-lines ")).collect()
}

/// The pages that are found to be short.
fn stranded(body: &str) -> Vec<String> {
    let all = all_found_with("Move.", body);
    all.into_iter().filter(|finding| finding.starts_with("stranded-lines ")).collect()
}

fn all_found_with(summary: &str, body: &str) -> Vec<String> {
    let summary = format!("summary = \"{summary}\"");
    let fields = drawn::opening("Heel drop", "[]").replace("summary = \"Move.\"", &summary);
    let model = drawn::read(vec![("drop".to_string(), format!("```toml\n{fields}```\n"))]);
    // The same texts again: a drawn model keeps none.
    let mut sources = Sources::default();
    while (sources.iter().count() as u32) <= model.exercises["drop"].file.0 {
        sources.add(crate::model::source::Source::new("a.md".into(), format!("```toml\n{fields}```\n")));
    }
    let mut theme = Theme::built_in();
    theme.files.insert("sheet/handout.typ".to_string(), Cow::Owned(format!("{PAGE}{body}").into_bytes()));
    let photos = Photos::default();
    let words: &Words = words();
    let program = blake3::hash(b"test");
    let press = Press::new(&model, &sources, words, &theme, &photos, false, &program).expect("a press");
    let order = Order::of(Subject::Exercises(vec![&model.exercises["drop"]]), Extent::Full, 18, Paper::A4);
    match press.print(&press.handout(&order).expect("a manuscript")) {
        Ok(_) => Vec::new(),
        Err(Unprinted::Theme(error)) => panic!("{error}"),
        Err(Unprinted::Findings(findings)) => findings
            .iter()
            .map(|f| {
                let (at, _) = sources.positions(f.span);
                format!("{} {}:{} {}", f.rule, at.line, at.column, f.message)
            })
            .collect(),
    }
}

fn found(body: &str) -> Vec<String> {
    found_with("Move.", body)
}

#[test]
fn a_sheet_that_keeps_to_its_page_has_no_fault() {
    assert_eq!(found("#area #at(title)Words that fit."), [""; 0]);
}

#[test]
fn a_word_that_is_wider_than_the_page_is_at_its_line() {
    assert_eq!(
        found("#area #at(title)Short. #at(summary)Counterclockwiseturnings"),
        ["sheet-overflow 6:11 on page 1 this is wider than the printed page: `Counterclockwiseturnings`"]
    );
}

#[test]
fn a_box_or_a_line_off_the_page_is_found_as_words_are() {
    assert_eq!(
        found("#area #at(title)#box(width: 215pt, height: 10pt, stroke: 1pt)"),
        ["sheet-overflow 2:9 on page 1 this is wider than the printed page: `a box or a line`"]
    );
    // Its stroke, which stands on the edge, is no fault.
    assert_eq!(found("#area #at(title)#box(width: 200pt, height: 10pt, stroke: 5pt)"), [""; 0]);
}

#[test]
fn a_picture_wider_than_the_page_is_found() {
    let picture = |size: &str| {
        let svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 10'/>";
        format!("#area #at(summary)#image(bytes(\"{svg}\"), format: \"svg\", alt: \"She stands.\", {size})")
    };
    assert_eq!(
        found(&picture("width: 203pt, height: 20pt, fit: \"stretch\"")),
        ["sheet-overflow 6:11 on page 1 this is wider than the printed page: `a picture`"]
    );
    assert_eq!(found(&picture("height: 70pt")), [""; 0]);
}

#[test]
fn what_is_taller_than_the_page_is_told_so() {
    let block = "#block(breakable: false)[#at(summary)One. #linebreak() Two. #linebreak() Three. #linebreak() \
                 Four. #linebreak() Five. #linebreak() Six.]";
    assert_eq!(
        found(&format!("#area #at(title){block}")),
        ["sheet-overflow 6:11 on page 1 this runs off the printed page: `Six.`"]
    );
}

#[test]
fn words_that_lie_on_others_are_found() {
    assert_eq!(
        found("#area #at(title)Under this #place(top + left, dx: 20pt, dy: 5pt)[#at(summary)above it]"),
        ["sheet-overflow 6:11 on page 1 this runs into the words beside it: `above it`"]
    );
    assert_eq!(found("#area #at(title)Left #place(top + left, dx: 100pt)[#at(summary)right]"), [""; 0]);
}

/// A card on pages of that many, with a picture on the first and a step on the last.
fn card(pages: &str, last: &str) -> String {
    let movement = "#metadata((mark: \"movement\"))A picture.";
    let step = "#metadata((mark: \"number\"))1. #mark(\"keep\", \"start\", place: summary)Step.#mark(\"keep\", \"end\")";
    format!(
        "#area #mark(\"card\", \"start\", place: title){movement}{pages}{step}{last}#mark(\"card\", \"end\")"
    )
}

#[test]
fn a_card_on_more_sides_than_it_has_is_found() {
    assert_eq!(found(&card("", "")), [""; 0]);
    assert_eq!(
        found(&card("", "#pagebreak()More.")),
        ["sheet-split 2:9 this card begins on printed page 1 and ends on page 2, and it has 1 side at most"]
    );
}

#[test]
fn a_step_without_a_picture_of_the_movement_beside_it_is_found() {
    let marks = |sides: usize, movement: usize, step: usize| {
        let mut cards = card::Cards::of(sides);
        cards.begin(None, 2);
        cards.movement(movement);
        cards.step(step);
        cards.end(step.max(movement)).is_some()
    };
    assert!(!marks(2, 2, 3), "page 3 faces page 2");
    assert!(!marks(4, 4, 5) && marks(4, 2, 4) && marks(4, 3, 4), "page 4 is overleaf");
}

#[test]
fn a_card_that_is_too_long_says_by_how_much_and_what_to_shorten() {
    let long = "#metadata((mark: \"overflow\", place: title, lines: 3, set_up: 4, steps: 9, cautions: 2))";
    assert_eq!(
        found(&card("", &format!("#pagebreak(){long}More."))),
        [
            "card-overflow 2:9 the card of this exercise is 3 lines too long for one side: setting up has 4, the steps 9, \
          the cautions 2"
        ]
    );
}

/// Fills the page but for a line.
const ALMOST_A_PAGE: &str = "#v(80pt)";

#[test]
fn a_step_that_is_torn_apart_is_found() {
    let body = "#mark(\"keep\", \"start\", place: summary)One. #linebreak() Two.#mark(\"keep\", \"end\")";
    let torn = "sheet-split 6:11 this is torn apart: it begins on printed page 1 and ends on page 2";
    assert_eq!(found(&format!("#area {ALMOST_A_PAGE}{body}")), [torn]);
    assert_eq!(found(&format!("#area {body}")), [""; 0]);
}

#[test]
fn a_step_on_another_page_than_its_number_is_found() {
    let number = "#metadata((mark: \"number\")) 1.";
    let step = "#mark(\"keep\", \"start\", place: summary)Step out.#mark(\"keep\", \"end\")";
    assert_eq!(
        found(&format!("#area {number}#pagebreak(){step}")),
        ["sheet-split 6:11 the number of this step is on printed page 1 and its words on page 2"]
    );
    assert_eq!(found(&format!("#area {number} {step}")), [""; 0]);
}

#[test]
fn a_heading_that_is_the_last_on_its_page_is_found() {
    let heading = "#mark(\"heading\", \"start\", place: title)Set up#mark(\"heading\", \"end\")";
    let last = "sheet-split 2:9 this heading is the last on printed page 1, without what it is about";
    assert_eq!(found(&format!("#area {heading}#pagebreak()Stand tall.")), [last]);
    // Another heading is not what it is about, and the end of the sheet is none either.
    let other = heading.replace("title", "summary");
    assert_eq!(found(&format!("#area {heading}#pagebreak(){other} Stand tall.")), [last]);
    assert_eq!(found(&format!("#area {heading}")), [last]);
    assert_eq!(found(&format!("#area {heading} Stand tall.#pagebreak()More.")), [""; 0]);
}

#[test]
fn an_exercise_that_begins_in_the_middle_and_goes_on_over_the_page_is_found() {
    let body =
        "#mark(\"exercise\", \"start\", place: title)One. #pagebreak() Two.#mark(\"exercise\", \"end\")";
    assert_eq!(
        found(&format!("#area Before. {body}")),
        ["sheet-split 2:9 this exercise begins in the middle of printed page 1 and ends on page 2"]
    );
    assert_eq!(found(&format!("#area {body}")), [""; 0]);
    let whole = "#mark(\"exercise\", \"start\", place: title)One.#mark(\"exercise\", \"end\")";
    assert_eq!(found(&format!("#area Before. {whole}#pagebreak()After.")), [""; 0]);
}

#[test]
fn a_letter_that_the_font_lacks_is_found_where_it_is_written() {
    assert_eq!(
        found_with("Turn \u{e9}\u{2764} left.", "#area #at(summary)#d.exercises.first().summary"),
        ["glyph-missing 6:18 the font of the handouts has no `\u{2764}` (U+2764)"]
    );
    // Words of the theme have no line of the author's: the piece before it has to do.
    assert_eq!(
        found("#area #at(title)\u{2764}"),
        ["glyph-missing 2:9 the font of the handouts has no `\u{2764}` (U+2764)"]
    );
}

#[test]
fn only_a_header_or_footer_may_stand_in_the_margin() {
    let footer = |words: &str| format!("#set page(footer: [{words}])\n#area #at(title)Words.");
    let marked = "#mark(\"margin\", \"start\")Page 1#mark(\"margin\", \"end\")";
    assert_eq!(found(&footer(marked)), [""; 0]);
    assert_eq!(
        found(&footer("Page 1")),
        ["sheet-overflow 2:9 on page 1 this runs off the printed page: `Page 1`"]
    );
    // On the page it has to be all the same.
    let wide = "#mark(\"margin\", \"start\")#place(dx: 230pt)[Page number one]#mark(\"margin\", \"end\")";
    assert_eq!(
        found(&footer(wide)),
        [
            "sheet-overflow 2:9 there is no room for this above or below the words of page 1: `Page number one`"
        ]
    );
}

/// A name at the foot of each page, and on the first of them.
#[test]
fn what_stands_in_every_margin_is_one_finding_where_it_was_written() {
    let footer =
        "#mark(\"margin\", \"start\", place: summary)#place(dx: 230pt)[For Ada]#mark(\"margin\", \"end\")";
    let pages =
        format!("#set page(footer: [{footer}])\n#area #at(title)One.#pagebreak()Two.#pagebreak()Three.");
    assert_eq!(
        found(&pages),
        ["sheet-overflow 6:11 there is no room for this above or below the words of page 1: `For Ada`"]
    );
    let wide = format!("{pages}#pagebreak()#at(summary)Counterclockwiseturnings");
    let told = found(&wide);
    assert!(told.len() == 1 && told[0].contains("on page 4 this is wider"), "{told:?}");
    // What stands on the page after it is where it was before.
    let lacking = format!("{pages}\u{2764}");
    assert_eq!(found(&lacking)[0], "glyph-missing 2:9 the font of the handouts has no `\u{2764}` (U+2764)");
}

#[test]
fn letters_that_a_text_lacks_are_one_finding_at_the_first() {
    let summary = "Go \u{2764}\u{2192}\u{2764}\u{2190}, \u{25a0} or \u{25cf}.";
    assert_eq!(
        found_with(
            summary,
            "#area #at(summary)#d.exercises.first().summary#pagebreak()#d.exercises.first().summary"
        ),
        [
            "glyph-missing 6:15 the font of the handouts has no `\u{2764}` (U+2764), `\u{2192}` (U+2192), `\u{2190}` (U+2190) \
          and 2 more letters of this text"
        ]
    );
}

#[test]
fn a_heading_above_nothing_but_the_page_number_is_the_last() {
    let footer = "#set page(footer: [#mark(\"margin\", \"start\")Page#mark(\"margin\", \"end\")])\n";
    let heading = "#mark(\"heading\", \"start\", place: title)Set up#mark(\"heading\", \"end\")";
    assert_eq!(
        found(&format!("{footer}#area {heading}#pagebreak()Stand tall.")),
        ["sheet-split 2:9 this heading is the last on printed page 1, without what it is about"]
    );
}

#[test]
fn a_theme_that_declares_no_margin_is_held_to_the_edge_of_the_paper() {
    let deep = "#place(top + left, dx: -45pt, dy: 60pt)[Words] #at(title)Here.";
    assert_eq!(found(deep), [""; 0]);
    assert_eq!(
        found(&format!("#area #at(title){deep}")),
        ["sheet-overflow 2:9 on page 1 this is wider than the printed page: `Words`"]
    );
    assert_eq!(
        found("#at(title)#place(top + left, dx: -60pt)[Words]"),
        ["sheet-overflow 2:9 on page 1 this is wider than the printed page: `Words`"]
    );
}

#[test]
fn a_margin_is_declared_as_a_length_or_in_points() {
    for margin in ["50", "50.0", "50pt", "17.6mm"] {
        let area = format!("[#metadata((mark: \"area\", margin: {margin}))]");
        let sheet = format!("#{area} #at(title)#place(top + left, dx: -5pt)[Words]");
        assert_eq!(found(&sheet).len(), 1, "{margin}");
    }
}

#[test]
fn the_same_fault_is_told_once() {
    let wide = "#at(summary)Counterclockwiseturnings #linebreak()";
    assert_eq!(found(&format!("#area {wide}{wide}")).len(), 1);
}

#[test]
fn a_page_has_four_lines_or_a_picture_as_tall_as_they_are() {
    let of = |words: &str| format!("stranded-lines 2:9 printed page 1 has only {words}");
    let lines = |count: usize| format!("#area#at(title){}", ["Word"; 9][..count].join("\\\n"));
    assert_eq!(stranded(&lines(1)), [of("1 line on it: `Word`")]);
    assert_eq!(stranded(&lines(3)), [of("3 lines on it: `Word`")]);
    assert_eq!(stranded(&lines(4)), [""; 0]);
    // Two pieces on one line are one line, and the number of a step may be raised a little.
    let beside = "#area#at(title)#grid(columns: 2, [One\\ One], [Two\\ #text(baseline: -2pt)[Two]])";
    assert_eq!(stranded(beside), [of("2 lines on it: `One`")]);
    // A picture: 20 points, a line of 26; 79 points, three lines of 26.
    let picture = |height: u32| {
        format!("{}#image(\"/shapes/power.svg\", height: {height}pt, alt: \"Wedge\")", lines(1))
    };
    assert_eq!(stranded(&picture(20)), [of("1 line on it: `Word`")]);
    assert_eq!(stranded(&picture(79)), [""; 0]);
}

#[test]
fn what_stands_in_a_margin_is_no_line_and_an_empty_page_strands_none() {
    let foot = "#set page(footer: [#metadata((mark: \"margin\", part: \"start\"))One\\ Two\\ Three#metadata((mark: \"margin\", part: \"end\"))])\n";
    let body =
        format!("{foot}#area#at(title)Word\\ Word\\ Word\\ Word#pagebreak()#pagebreak()#at(summary)Word");
    assert_eq!(stranded(&body), ["stranded-lines 6:11 printed page 3 has only 1 line on it: `Word`"]);
}
