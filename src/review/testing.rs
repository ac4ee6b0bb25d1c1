//! Draws expected findings under the text, and fails on any other finding as well.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

use jiff::civil::{Date, date};

use super::rule::{Check, Example, Rule};
use super::{Case, Review, join, review, subjects};
use crate::edition::{Edition, read_words};
use crate::entry;
use crate::model::Model;
use crate::model::finding::Finding;
use crate::model::source::{FileId, Sources};
use crate::model::vocabulary::{Extent, Paper};
use crate::model::words::Words;
use crate::outputs::{self, Address, Output};
use crate::pages::inspect::inspect;
use crate::pages::{Pages, Prepared, TemplateError};
use crate::print::{Order, Person, Press, Subject, Unprinted, add_findings};
use crate::workspace::theme::Theme;
use crate::workspace::{self, Bytes, Texts, sample};

/// The day of the tests: five days after the sample was reviewed.
pub(crate) const TODAY: Date = date(2026, 1, 10);

/// A photo that drawn files may show.
pub(crate) const PHOTO: &str = "content/media/clinic.jpg";

/// A video that drawn files may show, which says where it was filmed: `moov/udta/loci` (3GPP TS 26.244) alone.
pub(crate) const FILMED: (&str, &str) = (
    "content/media/as-filmed.mp4",
    "\0\0\0\x33moov\0\0\0\x2budta\0\0\0\x23loci\0\0\0\0\0\0\0\0\0\x1e\0\0\0\0\0\0\0\0\0\0earth\0\0",
);

/// A video that drawn files may show, which says nothing.
const VIDEO: (&str, &str) = ("content/media/week-01.mp4", "");

/// Reviews the sample workspace with `files` laid over it, on the day [`TODAY`].
pub(crate) fn review_files(files: &[(&str, &str)]) -> (Review, Sources) {
    let owned = files.iter().map(|(name, text)| (name.to_string(), text.as_bytes().to_vec())).collect();
    review_bytes(owned, TODAY)
}

/// Reviews the sample workspace with `files` laid over it.
pub(crate) fn review_bytes(files: Vec<(String, Vec<u8>)>, today: Date) -> (Review, Sources) {
    with_model_on(files, today, words(), review)
}

/// Reviews the sample workspace with `files` laid over it, in the language of `words`.
pub(crate) fn review_in(words: &Arc<Words>, files: &[(&str, &str)]) -> Review {
    let owned = files.iter().map(|(name, text)| (name.to_string(), text.as_bytes().to_vec())).collect();
    with_model_on(owned, TODAY, words, review).0
}

fn with_model(
    files: Vec<(String, Vec<u8>)>,
    look: impl FnOnce(&Case<'_>, Vec<Finding>) -> Review,
) -> (Review, Sources) {
    with_model_on(files, TODAY, words(), look)
}

/// Reads the sample workspace with `files` laid over it and looks at the model.
pub(crate) fn with_model_on(
    files: Vec<(String, Vec<u8>)>,
    today: Date,
    words: &Arc<Words>,
    look: impl FnOnce(&Case<'_>, Vec<Finding>) -> Review,
) -> (Review, Sources) {
    let mut all: Vec<(String, Vec<u8>)> = sample::files();
    let (mut attachments, mut positions) = (BTreeSet::new(), BTreeSet::new());
    for (name, bytes) in files {
        if let Some(media) = name.strip_prefix("content/").filter(|m| m.starts_with("media/")) {
            attachments.insert(media.to_string());
            if workspace::video::is_looked_at(media) && workspace::video::says_where(Cursor::new(bytes)) {
                positions.insert(media.to_string());
            }
            continue;
        }
        all.retain(|(n, _)| *n != name);
        all.push((name, bytes));
    }
    let all = all.into_iter().map(|(n, b)| (n, Bytes::of(b))).collect();
    let texts = Texts { positions, ..Texts::sorted(all, attachments) };
    let edition = Edition::of_texts(PathBuf::new(), texts, theme(), Arc::clone(words));
    let review = look(&edition.case(today), edition.found_while_reading().to_vec());
    (review, edition.into_parts().1)
}

/// A file of the sample with passages replaced, each of which must stand in it once.
pub(crate) fn edited(file: &str, replaced: &[(&str, &str)]) -> String {
    let mut text = sample::text(file).unwrap_or_else(|| panic!("the sample has no {file}")).to_string();
    for (old, new) in replaced {
        assert_eq!(text.matches(old).count(), 1, "times that this stands in {file}: {old}");
        text = text.replace(old, new);
    }
    text
}

/// An exercise of the sample without its figure, which stands last in its fields.
pub(crate) fn undrawn(text: &str) -> String {
    let start = text.find("[[figure]]").expect("a figure");
    let end = start + text[start..].find("```").expect("the end of the fields");
    format!("{}{}", &text[..start], &text[end..])
}

/// The findings of the sample with `files` laid over it, each as `rule line:column message`.
pub(crate) fn found(files: &[(&str, &str)]) -> Vec<String> {
    lines(&review_files(files))
}

/// Looks at the model of the sample with `files` laid over it.
pub(crate) fn with_sample(files: &[(&str, &str)], look: impl FnOnce(&Model)) {
    with_case(files, |case| look(case.model));
}

/// Looks at the sample with `files` laid over it, its texts and words too.
pub(crate) fn with_case(files: &[(&str, &str)], look: impl FnOnce(&Case<'_>)) {
    let owned = files.iter().map(|(name, text)| (name.to_string(), text.as_bytes().to_vec())).collect();
    with_model(owned, |case, findings| {
        look(case);
        review(case, findings)
    });
}

/// The findings of a review, each as `rule line:column message`.
pub(crate) fn lines((review, sources): &(Review, Sources)) -> Vec<String> {
    let line = |f: &Finding| {
        let (start, _) = sources.positions(f.span);
        format!("{} {}:{} {}", f.rule, start.line, start.column, f.message)
    };
    review.findings.iter().map(line).collect()
}

/// These files and no others, in English with the built-in theme.
pub(crate) fn edition(files: impl IntoIterator<Item = (String, String)>) -> Edition {
    let files = files.into_iter().map(|(name, text)| (name, Bytes::of(text.into_bytes())));
    let texts = Texts::sorted(files.collect(), BTreeSet::new());
    Edition::of_texts(PathBuf::new(), texts, theme(), Arc::clone(words()))
}

/// The demonstration of this repository.
pub(crate) fn demonstration() -> Edition {
    Edition::open(Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()).expect("the demonstration")
}

/// The built-in theme.
fn theme() -> Arc<Theme> {
    static THEME: LazyLock<Arc<Theme>> = LazyLock::new(|| Arc::new(Theme::built_in()));
    Arc::clone(&THEME)
}

/// The built-in English words.
pub(crate) fn words() -> &'static Arc<Words> {
    static WORDS: LazyLock<Arc<Words>> = LazyLock::new(|| Arc::new(words_of("en")));
    &WORDS
}

/// The words of a language as the built-in theme has them.
pub(crate) fn words_of(language: &str) -> Words {
    read_words(&theme(), language).expect("words without mistakes")
}

/// Reviews an example and compares its findings, in every file, with those drawn in it.
pub(crate) fn check(rule: &str, example: &Example) {
    example.check_passages();
    check_beside(rule, example.file, &example.drawn(), example.other_file());
}

/// Reviews a file over the sample, beside another, and compares the findings in every file with those drawn.
fn check_beside(rule: &str, file: &str, drawn: &str, other: Option<(&str, String)>) {
    let (text, expected) = undraw(drawn);
    let mut files = vec![(file, text.as_str()), (PHOTO, ""), VIDEO, FILMED];
    files.extend(other.iter().map(|(file, text)| (*file, text.as_str())));
    compare(rule, file, &text, expected, review_files(&files));
}

/// Reviews an example, its finished pages too, and compares all findings with those drawn in it.
pub(crate) fn check_pages(rule: &str, example: &Example) {
    check_later(rule, example, findings_of_pages);
}

/// Reviews an example, its sheets in 18 point on A4 too, and compares all findings with those drawn in it. What a full
/// sheet has room for may be too long for a card, and only a card can be so.
pub(crate) fn check_sheets(rule: &str, example: &Example) {
    let extent = if rule == "card-overflow" { Extent::Cards } else { Extent::Full };
    check_later(rule, example, |case| findings_of_sheets(case, extent));
}

fn check_later(rule: &str, example: &Example, later: impl Fn(&Case<'_>) -> Vec<Finding>) {
    example.check_passages();
    let (text, expected) = undraw(&example.drawn());
    let files = vec![(example.file.to_string(), text.as_bytes().to_vec())];
    let found = with_model(files, |case, findings| {
        let earlier = review(case, findings);
        join(case, earlier, later(case))
    });
    compare(rule, example.file, &text, expected, found);
}

/// A page of the sample as it is published on [`TODAY`].
pub(crate) fn page(address: &Address) -> String {
    page_of(&[], address)
}

/// A page of the sample with `files` laid over it.
pub(crate) fn page_of(files: &[(&str, &str)], address: &Address) -> String {
    let mut html = String::new();
    with_case(files, |case| {
        let theme = Theme::built_in();
        html =
            plain_pages(case, &theme).expect("templates without mistakes").render(address).expect("a page");
    });
    html
}

/// Looks at the pages of the sample with `files` laid over it, which nobody reviews: that takes long for many.
pub(crate) fn with_pages(files: Vec<(String, Vec<u8>)>, look: impl FnOnce(&Pages<'_>)) {
    with_model_on(files, TODAY, words(), |case, _| {
        let theme = Theme::built_in();
        look(&plain_pages(case, &theme).expect("templates without mistakes"));
        Review::default()
    });
}

/// So many copies of an exercise of the sample, each with an id and a title of its own.
pub(crate) fn copies(id: &str, count: usize) -> Vec<(String, Vec<u8>)> {
    let file = |id: &str| format!("content/exercises/{id}.md");
    let text = edited(&file(id), &[]);
    let copy = |number: usize| {
        let text = text.replacen("title = \"", &format!("title = \"{number:03}. "), 1);
        (file(&format!("{id}-{number:03}")), text.into_bytes())
    };
    (1..=count).map(copy).collect()
}

/// The pages of the sample without photos and sheets.
fn plain_pages<'m>(case: &Case<'m>, theme: &Theme) -> Result<Pages<'m>, TemplateError> {
    Pages::new(case.model, case.sources, case.words, theme, Prepared::default(), case.today, false)
}

fn findings_of_pages(case: &Case<'_>) -> Vec<Finding> {
    let theme = Theme::built_in();
    let pages = plain_pages(case, &theme).expect("templates without mistakes");
    let outputs = outputs::all(case.model, &theme);
    let files = outputs.iter().flat_map(|o| o.paths(&BTreeMap::new())).collect();
    let inspections: Vec<_> = outputs
        .iter()
        .filter_map(|output| match output {
            Output::Page(address) => {
                let html = pages.render(address).expect("a page");
                Some(inspect(&address.path(), &html, "/", &files))
            }
            _ => None,
        })
        .collect();
    crate::pages::findings(case.model, &inspections, &files)
}

fn findings_of_sheets(case: &Case<'_>, extent: Extent) -> Vec<Finding> {
    let photos = crate::print::Photos::default();
    let theme = Theme::built_in();
    let program = blake3::hash(b"test");
    let press = Press::new(case.model, case.sources, case.words, &theme, &photos, false, &program);
    let press = press.expect("a sheet without mistakes");
    // And those of a person whom nothing restricts.
    let profile = "name = \"A. B.\"\nprecautions = []\n";
    let (client, _) = entry::read_client(profile, FileId(0), &case.model.site.catalogue);
    let client = client.expect("a profile without mistakes");
    let weeks: Vec<Subject<'_>> =
        case.model.weeks().map(|(series, week)| Subject::Week(series, week)).collect();
    let of_a_person = weeks.clone().into_iter().map(|subject| {
        let person = Person::of(&client, &subject, case.model, case.today);
        Order { person: Some(person), ..Order::of(subject, extent, 18, Paper::A4) }
    });
    let of_a_person: Vec<Order<'_>> = of_a_person.collect();
    let exercises = case.model.exercises.values().map(|e| Subject::Exercises(vec![e]));
    let orders = weeks.into_iter().chain(exercises).map(|subject| Order::of(subject, extent, 18, Paper::A4));
    let mut findings = Vec::new();
    for order in orders.chain(of_a_person) {
        let manuscript = press.handout(&order).expect("an address that fits into a code");
        match press.print(&manuscript) {
            Ok(_) => {}
            Err(Unprinted::Findings(found)) => add_findings(&mut findings, found),
            Err(Unprinted::Theme(error)) => panic!("{error}"),
        }
    }
    findings
}

fn compare(rule: &str, file: &str, text: &str, expected: Vec<Drawn>, (review, sources): (Review, Sources)) {
    let found: Vec<(usize, usize, usize, String)> = review
        .findings
        .iter()
        .map(|f| {
            let (start, end) = sources.positions(f.span);
            let width = if start.line == end.line { (end.column - start.column).max(1) } else { 1 };
            let other = &sources.get(f.span.file).name;
            let message = match other == file && f.rule == rule {
                true => f.message.clone(),
                false => format!("[{} in {other}] {}", f.rule, f.message),
            };
            (start.line, start.column, width, message)
        })
        .collect();
    let expected: Vec<_> = expected.into_iter().map(|e| (e.line, e.column, e.width, e.message)).collect();
    assert_eq!(found, expected, "\nfound on the left, drawn on the right, for `{rule}` in:\n{text}");
    let found: Vec<&Finding> = review.findings.iter().filter(|f| f.rule == rule).collect();
    check_subjects(rule, &found);
}

/// What stands in backticks in the message of a finding that can be accepted, an exception can name; and each finding of a
/// rule of safety, which is accepted by itself, can be told from the others.
fn check_subjects(rule: &str, found: &[&Finding]) {
    // Fields that stand in every message of their rule.
    const FIELDS: [&str; 3] = ["steps", "keeps_steps", "use"];
    let rule = super::rules::find(rule).expect("a rule");
    if matches!(rule.check, Check::WhileReading | Check::Limits(_) | Check::Exceptions) {
        return;
    }
    for finding in found {
        let quoted = finding.message.split('`').skip(1).step_by(2);
        for words in quoted.filter(|words| !FIELDS.contains(words)) {
            let row = format!("{} {words}", rule.name);
            assert!(subjects::fits(finding, &subjects::words(&row)), "`{row}` does not name {finding:?}");
        }
    }
    let rows = subjects::rows(found, found);
    assert!(!rule.safety || rows.len() == found.len(), "one row for several of {found:?}");
}

struct Drawn {
    line: usize,
    column: usize,
    width: usize,
    message: String,
}

/// The text without its lines of carets, and what they draw.
fn undraw(drawn: &str) -> (String, Vec<Drawn>) {
    let mut text = String::new();
    let mut expected = Vec::new();
    for line in drawn.trim_start_matches('\n').lines() {
        let carets = line.trim_start();
        if !carets.starts_with('^') {
            text.push_str(line);
            text.push('\n');
            continue;
        }
        let message = carets.trim_start_matches('^');
        expected.push(Drawn {
            line: text.lines().count(),
            column: line.chars().count() - carets.chars().count() + 1,
            width: carets.len() - message.len(),
            message: message.trim().to_string(),
        });
    }
    (text, expected)
}

/// Every rule but those of finished pages and sheets, whose examples are tested where those are made.
fn of_the_model() -> impl Iterator<Item = &'static Rule> {
    super::rules::ALL.iter().copied().filter(|r| !matches!(r.check, Check::Pages | Check::Sheets(_)))
}

#[test]
fn every_rule_finds_what_its_bad_example_draws_and_nothing_else() {
    for rule in of_the_model() {
        let drawn = rule.bad.drawn();
        assert!(drawn.contains("^ "), "{}: the bad example draws no finding", rule.name);
        check(rule.name, &rule.bad);
    }
}

#[test]
fn the_whole_review_is_content_with_every_good_example() {
    for rule in of_the_model() {
        check(rule.name, &rule.good);
    }
}

#[test]
fn the_sample_has_no_finding() {
    let (review, _) = review_files(&[]);
    assert_eq!(review.findings, []);
}

#[test]
fn rule_names_are_unique_and_say_the_defect() {
    let names: BTreeSet<&str> = super::rules::ALL.iter().map(|r| r.name).collect();
    assert_eq!(names.len(), super::rules::ALL.len());
    assert!(names.iter().all(|n| n.bytes().all(|b| b.is_ascii_lowercase() || b == b'-')));
}
