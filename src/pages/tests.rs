//! What pages say, of the sample.

use super::*;
use crate::model::vocabulary::{Extent, Paper};
use crate::print::{Order, Press, Subject};
use crate::review::testing::{edited, page, page_of};

#[test]
fn an_exercise_named_twice_is_numbered_alike_on_page_and_sheet() {
    const WEEK: &str = "content/series/first-steps/week-01.md";
    let twice = edited(
        WEEK,
        &[("  { id = \"heel-raise\" },", "  { id = \"sit-to-stand\" },\n  { id = \"heel-raise\" },")],
    );
    let files = [(WEEK, twice.as_str())];
    let address = Address::Week { series: "first-steps".into(), id: "week-01".into() };
    let html = page_of(&files, &address);
    let mut said = String::new();
    crate::review::testing::with_case(&files, |case| {
        let (photos, theme) = (crate::print::Photos::default(), Theme::built_in());
        let program = blake3::hash(&[]);
        let press =
            Press::new(case.model, case.sources, case.words, &theme, &photos, false, &program).unwrap();
        let subject = Subject::of(&address, case.model).unwrap();
        let order = Order::of(subject, Extent::Full, 18, Paper::A4);
        said = String::from_utf8_lossy(press.handout(&order).unwrap().said()).into_owned();
    });
    for line in ["Exercise 1 of 4", "Exercise 3 of 4", "Exercise 4 of 4"] {
        assert_eq!(html.matches(line).count(), 1, "{line} on the page");
        assert_eq!(said.matches(line).count(), 1, "{line} on the sheet");
    }
    assert!(!html.contains("of 5") && !said.contains("of 5"));
}

/// The part of a page that is its own, and the head that browsers and search engines read. Of drawings the words
/// alone: nobody reads their lines, and they have tests of their own.
fn own(html: &str) -> String {
    let head = &html[html.find("<meta http-equiv").unwrap()..html.find("<link rel=\"icon\"").unwrap()];
    let main = &html[html.find("<main").unwrap()..html.find("</main>").unwrap()];
    let mut parts = main.split(r#"<g class="drawn""#);
    let mut told = format!("{head}\n{}", parts.next().unwrap());
    for part in parts {
        let (_, rest) = part.split_once("</svg>").unwrap();
        told.extend(["…</svg>", rest]);
    }
    format!("{told}</main>\n")
}

#[test]
fn an_exercise_page_says_what_its_entry_says() {
    insta::assert_snapshot!(own(&page(&Address::Exercise("heel-drop".into()))));
}

#[test]
fn other_names_stand_under_the_title_of_an_exercise_and_the_library_finds_it_by_them() {
    const FILE: &str = "content/exercises/heel-drop.md";
    let title = "title = \"Heel drop at the counter\"\n";
    let named = edited(FILE, &[(title, &format!("{title}also_called = [\"Heel bump\", \"Light thud\"]\n"))]);
    let line = "\n<p class=\"soft\">Also called: Heel bump, Light thud</p>\n";
    let week = Address::Week { series: "first-steps".into(), id: "week-02".into() };
    for (address, title) in [
        (Address::Exercise("heel-drop".into()), "Heel drop at the counter</h1>"),
        (week, "Heel drop at the counter</h2>"),
        // Its script looks for words in all that an item of the list says.
        (Address::Library, "Heel drop at the counter</a></h3>"),
    ] {
        let (before, after) = (page(&address), page_of(&[(FILE, &named)], &address));
        assert!(!before.contains("Also called"), "{}", address.path());
        assert_eq!(after.matches("Also called").count(), 1, "{}", address.path());
        assert!(after.contains(&format!("{title}{line}")), "{}", address.path());
    }
}

#[test]
fn a_week_page_shows_its_exercises_at_a_glance_then_when_to_stop_then_each_of_them_whole() {
    let week = Address::Week { series: "first-steps".into(), id: "week-02".into() };
    let html = page(&week);
    let at = |text: &str| html.find(text).unwrap_or_else(|| panic!("no {text}"));
    assert!(
        at("class=\"glance\"") < at("class=\"signs-short\"") && at("class=\"signs-short\"") < at("<article")
    );
    insta::assert_snapshot!(own(&html));
}

#[test]
fn programs_are_told_each_step_in_the_letters_that_a_reader_gets() {
    const FILE: &str = "content/exercises/tall-sit.md";
    let step = "2. Draw your shoulders back and down.";
    let written = "2. Draw *both* shoulders back &amp;\n   [down](/pages/about.md).\n   - Slowly.";
    let html = page_of(&[(FILE, &edited(FILE, &[(step, written)]))], &Address::Exercise("tall-sit".into()));
    assert!(html.contains(r#""position":2,"text":"Draw both shoulders back & down.""#), "{html}");
    assert!(html.contains(r#""position":4,"text":"Let go and rest.""#), "{html}");
}

#[test]
fn a_page_names_no_reviewer_of_an_exercise_that_has_changed_since() {
    const FILE: &str = "content/exercises/tall-sit.md";
    let reviewed = "on = 2026-01-05 }";
    let pages = [
        Address::Exercise("tall-sit".into()),
        Address::Week { series: "first-steps".into(), id: "week-01".into() },
    ];
    let checked = |html: &str| html.matches("Checked by A. Reviewer, PT on January 5, 2026.").count();
    let of = |html: &str| ["reviewedBy", "This page was last checked on"].map(|words| html.contains(words));
    let changed = edited(FILE, &[(reviewed, "on = 2026-01-05, of = \"52c85c32e4e7b1a9\" }")]);
    for address in &pages {
        let (before, after) = (page(address), page_of(&[(FILE, &changed)], address));
        assert_eq!(of(&before), [true, true], "{}", address.path());
        assert_eq!(of(&after), [false, false], "{}", address.path());
        assert_eq!(checked(&after), checked(&before) - 1, "{}", address.path());
        assert_eq!(after.matches("Changed since it was checked.").count(), 1, "{}", address.path());
    }
}

/// References are the text of others: whatever stands in them, a reader sees words.
#[test]
fn no_reference_brings_markup_or_leads_astray() {
    let bib = r#"@article{evil,
  title = {X <meta http-equiv="refresh" content="0;url=https://elsewhere.example/"> <script src="media/leaf.pdf"></script> $<b onclick=x>$},
  author = {Doe, Jane <img src=x onerror=y>},
  journaltitle = {<iframe src=x>},
  date = {2022},
  url = {javascript:alert(1)},
}
@article{data, title = {D}, author = {Roe, R.}, date = {2021}, url = {data:text/html,<script>x</script>}}
@article{plain, title = {Walks \& talks}, author = {Roe, R.}, date = {2020}, url = {https://a.example/x?a=1&b=2}}
"#;
    let html = page_of(&[("content/references.bib", bib)], &Address::Evidence);
    let main = &html[html.find("<main").unwrap()..html.find("</main>").unwrap()];
    for tag in ["<meta", "<script", "<b ", "<img", "<iframe", "href=\"javascript", "href=\"data"] {
        assert!(!main.contains(tag), "{tag} in {main}");
    }
    for words in ["&lt;meta http-equiv", "&lt;script src", "&lt;iframe ", "Walks &amp; talks"] {
        assert!(main.contains(words), "no {words} in {main}");
    }
    assert!(main.contains("href=\"https://a.example/x?a=1&amp;b=2\""), "{main}");
}

#[test]
fn the_plan_shows_its_figures_as_drawings_and_as_a_table() {
    insta::assert_snapshot!(own(&page(&Address::Plan)));
}

#[test]
fn no_page_shows_the_name_of_a_missing_word() {
    let addresses = [
        Address::Home,
        Address::Library,
        Address::Evidence,
        Address::Safety,
        Address::Saved,
        Address::Yours,
        Address::Days,
        Address::Plan,
        Address::NotFound,
        Address::Series("first-steps".into()),
        Address::Free("about".into()),
    ];
    for address in addresses {
        let html = page(&address);
        // A script looks for what it fills by marks that look alike.
        let spoken: String = html
            .split("<script")
            .map(|part| part.split_once("</script>").map_or(part, |(_, rest)| rest))
            .collect();
        let shown = spoken.split('[').skip(1).find(|rest| {
            let id = rest.split(']').next().unwrap_or("");
            id.contains('-') && id.bytes().all(|b| b.is_ascii_lowercase() || b == b'-')
        });
        assert_eq!(shown, None, "{}", address.path());
    }
}
