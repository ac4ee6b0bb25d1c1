//! Mistakes in a theme's sheet, as whoever fixes it reads them.

use std::borrow::Cow;

use crate::model::source::{Source, Sources};
use crate::model::vocabulary::{Extent, Paper};
use crate::print::{Order, Photos, Press, Printed, Subject, Unprinted};
use crate::reckon::choice::drawn;
use crate::review::testing::words;
use crate::workspace::theme::Theme;

/// Prints the exercise "Heel drop" with these files of the theme replaced.
fn printed(files: &[(&str, &str)]) -> Result<Printed, String> {
    let model = drawn::model("drop:\n");
    let mut sources = Sources::default();
    while (sources.iter().count() as u32) <= model.exercises["drop"].file.0 {
        sources.add(Source::new("a.md".to_string(), "```toml\n```\n".to_string()));
    }
    let mut theme = Theme::built_in();
    for (name, text) in files {
        theme.files.insert(name.to_string(), Cow::Owned(text.as_bytes().to_vec()));
    }
    let photos = Photos::default();
    let program = blake3::hash(b"test");
    let press = Press::new(&model, &sources, words(), &theme, &photos, false, &program);
    let press = press.map_err(|error| error.to_string())?;
    let order = Order::of(Subject::Exercises(vec![&model.exercises["drop"]]), Extent::Full, 18, Paper::A4);
    let manuscript = press.handout(&order).map_err(|error| error.to_string())?;
    press.print(&manuscript).map_err(|unprinted| match unprinted {
        Unprinted::Theme(error) => error.to_string(),
        Unprinted::Findings(findings) => panic!("{findings:?}"),
    })
}

fn told(sheet: &str) -> String {
    printed(&[("sheet/handout.typ", sheet)]).expect_err("a mistake in the theme")
}

const FONT: &str = "#set text(font: \"Atkinson Hyperlegible Next\")\n#set document(title: \"T\")\n";

#[test]
fn an_unknown_variable_is_shown_at_its_line() {
    insta::assert_snapshot!(told("// Ours.\n#let d = json(\"/sheet.json\")\n  #strong(e.title)\n"));
}

#[test]
fn a_slip_of_grammar_is_shown_at_its_line() {
    insta::assert_snapshot!(told("#let d = json(\"/sheet.json\"\nWords.\n"));
}

#[test]
fn a_file_that_is_not_there_is_shown_where_it_is_named() {
    insta::assert_snapshot!(told("Words.\n#import \"pieces.typ\": *\n#json(\"/clients/j.json\")\n"));
}

#[test]
fn a_file_outside_the_theme_is_not_there() {
    insta::assert_snapshot!(told("#read(\"/etc/hostname\")\n"));
}

#[test]
fn a_package_is_not_there() {
    insta::assert_snapshot!(told("#import \"@preview/any:1.0.0\": *\n"));
}

/// The typesetter warns of it only, and would set the words in another font.
#[test]
fn an_unknown_font_is_a_mistake() {
    insta::assert_snapshot!(told("#set text(font: \"Élan Grotesk\")\n#set document(title: \"T\")\nWords.\n"));
}

#[test]
fn a_mistake_that_the_theme_tells_itself_is_shown_with_its_words() {
    insta::assert_snapshot!(told("#let size = 6\n#if size < 18 { panic(\"too small\", size) }\n"));
}

#[test]
fn a_mistake_inside_a_function_of_the_theme_is_shown_there() {
    let parts = "#let title(d) = {\n  strong(d.heading)\n}\n";
    let sheet = "#import \"parts.typ\": title\n#title(json(\"/sheet.json\"))\n";
    let files = [("sheet/parts.typ", parts), ("sheet/handout.typ", sheet)];
    insta::assert_snapshot!(printed(&files).expect_err("a mistake in the theme"));
}

/// What was made for an earlier program asks for what its data had then.
#[test]
fn a_name_that_the_data_of_a_sheet_does_not_have_is_told_with_where_to_look() {
    let told = told("#let d = json(\"/sheet.json\")\n#strong(d.heading)\n");
    for words in [
        "sheet/handout.typ at line 2, column 11",
        "an earlier program",
        "built-in files in sheet/",
        "`heading`",
    ] {
        assert!(told.contains(words), "`{words}` is not in:\n{told}");
    }
    let other = self::told("#let d = 1\n#strong(heading-of-mine)\n");
    assert!(!other.contains("earlier program"), "{other}");
}

#[test]
fn a_picture_without_words_is_a_mistake() {
    let picture = "#image(\"/shapes/power.svg\", width: 20pt)\n";
    insta::assert_snapshot!(told(&format!("{FONT}{picture}")));
}

#[test]
fn a_sheet_that_is_no_text_and_a_font_that_is_none_are_named() {
    let mut theme = Theme::built_in();
    theme.files.insert("sheet/parts.typ".to_string(), Cow::Borrowed(b"\xff"));
    let model = drawn::model("drop:\n");
    let sources = Sources::default();
    let photos = Photos::default();
    let program = blake3::hash(b"test");
    let press = Press::new(&model, &sources, words(), &theme, &photos, false, &program);
    assert_eq!(press.err().unwrap().to_string(), "the theme's sheet/parts.typ is not text in UTF-8");
    let font = printed(&[("fonts/ours.ttf", "no font")]).expect_err("no font");
    assert_eq!(font, "the theme's fonts/ours.ttf is no font");
}

#[test]
fn a_file_of_the_theme_that_was_replaced_is_used() {
    let four = "One \\\n two \\\n three \\\n four";
    let sheet = format!(
        "{FONT}#set page(width: 100pt, height: 150pt, margin: 5pt)\n{four} #pagebreak() {four} #pagebreak() {four}\n"
    );
    let ours = printed(&[("sheet/handout.typ", &sheet)]).expect("a sheet");
    assert_eq!(ours.pages, 3);
    let built_in = printed(&[]).expect("a sheet");
    assert_ne!(built_in.pages, 3);
}
