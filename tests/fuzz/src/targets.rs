//! What is done with an input: the same as the program does with a file of that name.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::PathBuf;
use std::sync::{Arc, LazyLock, Mutex};

use jiff::civil::{Date, date};
use steadyleaf::drawing::{self, Colors, Motion, Panels, Picture, Size, svg};
use steadyleaf::edition::{Edition, SiteFacts, read_words};
use steadyleaf::entry;
use steadyleaf::model::Model;
use steadyleaf::model::catalogue::Catalogue;
use steadyleaf::model::finding::{Finding, Level};
use steadyleaf::model::site::Site;
use steadyleaf::model::source::FileId;
use steadyleaf::model::vocabulary::{Extent, Paper};
use steadyleaf::model::words::{Lists, Words};
use steadyleaf::outputs::{self, Address};
use steadyleaf::pages::inspect::inspect;
use steadyleaf::pages::{Prepared, Sheets};
use steadyleaf::print::{Order, Person, Photos, Subject, Unprinted};
use steadyleaf::reckon::figure::Scene;
use steadyleaf::review::report::text::{Look, render};
use steadyleaf::review::report::{json, sarif};
use steadyleaf::workspace::theme::Theme;
use steadyleaf::workspace::{Bytes, Texts, sample};

const TODAY: Date = date(2026, 1, 14);

/// The name under which captions are read when an input has none that is known.
const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

static THEME: LazyLock<Arc<Theme>> = LazyLock::new(|| Arc::new(Theme::built_in()));
static WORDS: LazyLock<Arc<Words>> = LazyLock::new(|| Arc::new(read_words(&THEME, "en").unwrap()));
static SAMPLE: LazyLock<Vec<(String, Vec<u8>)>> = LazyLock::new(sample::files);
static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fn facts() -> SiteFacts {
    SiteFacts { today: TODAY, draft: true, program: blake3::hash(&[]) }
}

/// What is read of the settings; those of the sample are read once for each place in the list of files, since reading
/// them takes longer than most inputs do.
fn site(texts: &Texts) -> (Site, Vec<Finding>) {
    static READ: Mutex<BTreeMap<u32, Site>> = Mutex::new(BTreeMap::new());
    let Some(file) = texts.site() else { return entry::read_site(texts) };
    if Some(texts.sources.get(file.id).text.as_str()) != sample::text("site.toml") {
        return entry::read_site(texts);
    }
    let mut read = READ.lock().unwrap();
    let site = read.entry(file.id.0).or_insert_with(|| entry::read_site(texts).0);
    (site.clone(), Vec::new())
}

fn texts(files: Vec<(String, Vec<u8>)>) -> Texts {
    let attachments = BTreeSet::from(["media/clinic.jpg".to_string(), "media/film.mp4".to_string()]);
    Texts::sorted(files.into_iter().map(|(n, b)| (n, Bytes::of(b))).collect(), attachments)
}

/// A workspace in memory.
struct Read(Edition);

impl Read {
    fn of(files: Vec<(String, Vec<u8>)>, words: &Arc<Words>) -> Read {
        let texts = texts(files);
        let site = site(&texts);
        Read(Edition::settled(PathBuf::new(), texts, site, Arc::clone(&THEME), Arc::clone(words)))
    }

    /// The sample with one file in the place of its own, or beside them.
    fn with(name: &str, bytes: &[u8]) -> Read {
        let mut files = SAMPLE.clone();
        files.retain(|(known, _)| known != name);
        files.push((name.to_string(), bytes.to_vec()));
        Read::of(files, &WORDS)
    }

    /// One file beside those of the sample that it cannot be read without.
    fn beside(needed: &[&str], name: &str, bytes: &[u8]) -> Read {
        let needed = needed.iter().filter(|n| **n != name);
        let needed = needed.filter_map(|n| SAMPLE.iter().find(|(known, _)| known == n).cloned());
        Read::of(needed.chain([(name.to_string(), bytes.to_vec())]).collect(), &WORDS)
    }

    fn model(&self) -> &Model {
        self.0.model()
    }

    /// What the rules say, in every form in which it is told. True when there is an error.
    fn reviewed(&self, data: &[u8]) -> bool {
        let (review, sources) = (self.0.review(TODAY), self.0.sources());
        let text = render(&review, sources, Look { color: false, width: 100 });
        assert!(!text.contains('\u{1b}'), "a raw escape reaches the terminal");
        if one_in(8, REPORT, data) {
            render(&review, sources, Look { color: true, width: 60 });
            let said: serde_json::Value = serde_json::from_str(&json::render(&review, sources)).unwrap();
            assert!(said.is_object());
            sarif::render(&review, sources);
        }
        review.findings.iter().any(|f| f.level == Level::Error)
    }

    /// Pages, looked at as `make` does.
    fn shown(&self, which: impl Fn(&Address) -> bool) {
        let made = Prepared { photos: BTreeMap::new(), sheets: Sheets::WhenAsked };
        let site = self.0.site(&facts(), made).unwrap();
        for address in outputs::pages(self.model()).iter().filter(|a| which(a)) {
            let html = site.pages().render(address).unwrap();
            for forbidden in [
                "href=\"javascript:",
                "href=\"data:",
                " onerror=",
                "<iframe",
                "<object",
                "<base",
                "http-equiv=\"refresh",
            ] {
                assert!(!html.contains(forbidden), "{address:?} has {forbidden}");
            }
            inspect(&address.path(), &html, "", &Default::default());
        }
    }

    /// The sheet of a page, set. What the typesetter refuses must be told at the author's line.
    fn printed(&self, of: &Address) {
        let photos = Photos::default();
        let press = self.0.press(&facts(), &photos).unwrap();
        let Some(subject) = Subject::of(of, self.model()) else { return };
        let order = Order::of(subject, Extent::Full, 24, Paper::A4);
        let Ok(manuscript) = press.handout(&order) else { return };
        match press.print(&manuscript) {
            Ok(_) | Err(Unprinted::Findings(_)) => {}
            Err(Unprinted::Theme(error)) => panic!("a review without errors, and then: {error}"),
        }
    }
}

/// True for one input in so many, always the same ones: dear work is done for some of them. Such a work has a number of
/// its own, so that its inputs are not those of another.
fn one_in(many: u32, work: usize, data: &[u8]) -> bool {
    let hash = blake3::hash(data);
    let part = &hash.as_bytes()[work * 4..work * 4 + 4];
    u32::from_le_bytes([part[0], part[1], part[2], part[3]]).is_multiple_of(many)
}

const REVIEW: usize = 0;
const PAGES: usize = 1;
const SHEET: usize = 2;
const REPORT: usize = 3;

/// An input's name, where it is one of these, and its text.
fn split<'d>(data: &'d [u8], known: impl Fn(&str) -> bool, other: &'d str) -> (&'d str, &'d [u8]) {
    let end = data.iter().position(|b| *b == b'\n').unwrap_or(0);
    match std::str::from_utf8(&data[..end]) {
        Ok(name) if known(name) => (name, &data[end + 1..]),
        _ => (other, data),
    }
}

fn is_sample(name: &str) -> bool {
    SAMPLE.iter().any(|(known, _)| known == name)
}

/// The page on which an entry of the sample is seen.
fn page_of(name: &str) -> Address {
    let stem = name.rsplit('/').next().and_then(|file| file.strip_suffix(".md")).unwrap_or("");
    match name.split('/').nth(1) {
        Some("exercises") => Address::Exercise(stem.into()),
        Some("pages") => Address::Free(stem.into()),
        _ if !stem.is_empty() => Address::Week { series: "first-steps".into(), id: stem.into() },
        _ => Address::Series("first-steps".into()),
    }
}

/// One entry, from its bytes to its page and its sheet.
pub(crate) fn entries(data: &[u8]) {
    let (name, text) = split(data, is_sample, "content/exercises/heel-drop.md");
    if !name.starts_with("content/") || name.ends_with(".bib") {
        return;
    }
    whole(name, text, data, &page_of(name));
}

fn whole(name: &str, text: &[u8], data: &[u8], page: &Address) {
    Read::beside(&["site.toml", "content/series/first-steps/series.toml"], name, text);
    let (shown, printed) = (one_in(48, PAGES, data), one_in(64, SHEET, data));
    if !shown && !printed && !one_in(24, REVIEW, data) {
        return;
    }
    let read = Read::with(name, text);
    let has_errors = read.reviewed(data);
    if shown {
        read.shown(|address| address == page || *address == Address::Safety);
    }
    // Nothing with an error is printed.
    if printed && !has_errors {
        read.printed(page);
    }
}

/// `references.bib`, and the page that shows all of it.
pub(crate) fn references(data: &[u8]) {
    const NAME: &str = "content/references.bib";
    let read = Read::beside(&["site.toml"], NAME, data);
    if one_in(4, PAGES, data) {
        steadyleaf::outputs::blocks::evidence::format(&read.model().references, &WORDS);
    }
    if one_in(48, REVIEW, data) {
        let read = Read::with(NAME, data);
        read.reviewed(data);
        read.shown(|address| *address == Address::Evidence);
    }
}

pub(crate) fn captions(data: &[u8]) {
    let known =
        |name: &str| name.starts_with("content/") && (name.ends_with(".vtt") || name.ends_with(".srt"));
    let (name, text) = split(data, known, CAPTIONS);
    let read = Read::beside(&["site.toml"], name, text);
    for captions in read.model().captions.values() {
        let written = steadyleaf::feeds::webvtt::captions(captions);
        if captions.sound {
            // What is read without a finding is written so that it reads the same.
            let again = Read::beside(&["site.toml"], CAPTIONS, written.as_bytes());
            let other = again.model().captions.values().next().unwrap();
            assert!(other.sound, "captions that cannot be read again: {written}");
            assert_eq!(other.cues.len(), captions.cues.len());
        }
    }
    if one_in(64, REVIEW, data) {
        read.reviewed(data);
    }
}

/// The figures of an exercise, from their words to the drawing.
pub(crate) fn figures(data: &[u8]) {
    let name = "content/exercises/heel-drop.md";
    let (_, sample) = SAMPLE.iter().find(|(n, _)| n == name).unwrap();
    let sample = String::from_utf8_lossy(sample);
    let start = sample.find("[[figure]]").unwrap();
    let end = start + sample[start..].find("```").unwrap();
    let mut text = sample[..start].as_bytes().to_vec();
    text.extend_from_slice(data);
    text.push(b'\n');
    text.extend_from_slice(&sample.as_bytes()[end..]);
    if one_in(16, REVIEW, data) {
        Read::with(name, &text).reviewed(data);
        return;
    }
    let read = Read::beside(&["site.toml"], name, &text);
    for exercise in read.model().exercises.values() {
        for drawing in exercise.all_figures().filter_map(|figure| figure.drawing()) {
            let scene = Scene::of(drawing);
            let (picture, motion) = (Picture::of(&scene), Motion::of(&scene));
            let words = drawing::Words { id: "a", title: "", description: "" };
            let moving = Panels::of(&picture, Size::Large).with(words, motion.as_ref()).concat();
            for drawn in [svg(&picture, Colors::Paper, None), moving] {
                assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "a number that is none: {drawn}");
            }
        }
    }
    if one_in(16, PAGES, data) {
        read.shown(|address| *address == page_of(name) || *address == Address::Figures);
    }
}

/// A profile, the forms that are chosen by it, and the sheet.
pub(crate) fn profiles(data: &[u8]) {
    static READ: LazyLock<Read> = LazyLock::new(|| Read::of(SAMPLE.clone(), &WORDS));
    let Ok(text) = std::str::from_utf8(data) else { return };
    let (client, findings) = entry::read_client(text, FileId(u32::MAX), &CATALOGUE);
    assert!(client.is_none() || findings.is_empty(), "a profile with a finding is none");
    let Some(client) = client else {
        assert!(!findings.is_empty(), "a profile is refused without a word");
        return;
    };
    let week = Address::Week { series: "first-steps".into(), id: "week-01".into() };
    let subject = Subject::of(&week, READ.model()).unwrap();
    let person = Person::of(&client, &subject, READ.model(), TODAY);
    let photos = Photos::default();
    let press = READ.0.press(&facts(), &photos).unwrap();
    let size = client.size.unwrap_or(24);
    let order = Order {
        person: Some(person),
        ..Order::of(subject, Extent::Full, size, client.paper.unwrap_or(Paper::A4))
    };
    let manuscript = press.handout(&order).unwrap();
    assert!(manuscript.absent().is_empty(), "a sheet tells of a form that is not on it");
    if one_in(128, SHEET, data) {
        press.print(&manuscript).map_err(|e| format!("{e:?}")).unwrap();
    }
}

/// `site.toml` and `series.toml`.
pub(crate) fn settings(data: &[u8]) {
    let (name, text) = split(data, is_sample, "site.toml");
    if !name.ends_with(".toml") {
        return;
    }
    Read::beside(&["site.toml"], name, text);
    if one_in(24, REVIEW, data) {
        let read = Read::with(name, text);
        read.reviewed(data);
        read.shown(|address| {
            matches!(address, Address::Home | Address::Series(_) | Address::Safety | Address::Plan)
        });
    }
}

/// The words of a theme, and a review with them.
pub(crate) fn words(data: &[u8]) {
    let (name, text) = split(data, |name| THEME.text(name).is_some(), "words/en.ftl");
    let Ok(text) = std::str::from_utf8(text) else { return };
    let mut lists: Lists<'_> = THEME.lists("en");
    let mut fluent = THEME.text("words/en.ftl").unwrap();
    match name.trim_start_matches("words/").split('.').next() {
        Some("claims") => lists.claims = text,
        Some("evidence") => lists.evidence = text,
        Some("breath") => lists.breath = text,
        Some("forms") => lists.forms = text,
        Some("demands") => lists.demands = text,
        Some("terms") => lists.terms = text,
        Some("syllables") => lists.syllables = text,
        Some("doses") => lists.doses = text,
        Some("titles") => lists.titles = vec![text],
        Some("things") => lists.things = vec![text],
        Some("sentences") => lists.sentences = text,
        Some("steps") => lists.steps = text,
        Some("explained") => lists.explained = text,
        Some("spoken") => lists.spoken = text,
        Some("units") => lists.units = text,
        Some("numerals") => lists.numerals = text,
        Some("endings") => (lists.endings, lists.plurals) = (text, vec![text]),
        _ => fluent = text,
    }
    let Ok(words) = Words::read("en", fluent, lists) else { return };
    let mut said = String::new();
    for (id, text) in words.plain() {
        writeln!(said, "{id} {text}").unwrap();
    }
    if one_in(48, REVIEW, data) {
        let words =
            words.or_else(Words::read("en", THEME.text("words/en.ftl").unwrap(), Lists::default()).unwrap());
        let read = Read::of(SAMPLE.clone(), &Arc::new(words));
        read.reviewed(data);
        read.shown(|address| {
            *address == Address::Home || *address == page_of("content/exercises/heel-drop.md")
        });
    }
}
