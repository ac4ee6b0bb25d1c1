//! A page that a preview keeps is the page that a fresh edition renders.

#![expect(clippy::disallowed_methods, reason = "tests write the workspace that they read")]

use std::collections::BTreeMap;

use jiff::civil::date;
use rayon::prelude::*;

use super::super::{Edition, SiteFacts};
use super::*;
use crate::outputs::{self, Output};
use crate::pages::{Prepared, Sheets};
use crate::workspace::sample;

/// Enough to meet every kind of edit several times.
const EDITS: usize = 40;

const EXERCISES: [&str; 5] = ["feet-together-stand", "heel-drop", "heel-raise", "sit-to-stand", "tall-sit"];
const ABOUT: &str = "content/pages/about.md";
const SERIES: &str = "content/series/first-steps/series.toml";
const WEEKS: [&str; 2] = ["content/series/first-steps/week-01.md", "content/series/first-steps/week-02.md"];
const REFERENCES: &str = "content/references.bib";

/// The sample in a folder, and an edition that follows its edits as a preview does.
struct Followed {
    root: tempfile::TempDir,
    edition: Edition,
    /// What a preview shows of every page, by its path.
    shown: BTreeMap<String, Rendered>,
}

/// How many pages were kept, and which were rendered again.
struct Counts {
    kept: usize,
    rendered: Vec<String>,
}

impl Followed {
    fn sample() -> Followed {
        let root = tempfile::tempdir().unwrap();
        for (name, bytes) in sample::files() {
            let path = root.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, bytes).unwrap();
        }
        let edition = Edition::open(root.path().to_path_buf()).unwrap();
        Followed { root, edition, shown: BTreeMap::new() }
    }

    fn text(&self, name: &str) -> String {
        let sources = self.edition.sources();
        sources.get(sources.find(name).unwrap()).text.clone()
    }

    /// Puts another text in the place of a file's; false where only opening the workspace tells what comes of it.
    fn put(&mut self, name: &str, text: &str) -> bool {
        let file = self.edition.sources().find(name).unwrap();
        let done = self.edition.put(file, text.to_string()).is_some();
        if done {
            std::fs::write(self.root.path().join(name), text).unwrap();
        }
        done
    }

    fn replace(&mut self, name: &str, old: &str, new: &str) {
        let text = self.text(name);
        assert!(text.contains(old), "{name} does not say `{old}`");
        assert!(self.put(name, &text.replacen(old, new, 1)), "{name}: {new}");
    }

    /// Brings what is shown of every page up to date, and compares it with what a fresh edition renders.
    fn compare(&mut self, told: &str) -> Counts {
        let fresh = Edition::open(self.root.path().to_path_buf()).unwrap();
        let (site, fresh) = (site(&self.edition), site(&fresh));
        let mut counts = Counts { kept: 0, rendered: Vec::new() };
        let addresses = addresses(&self.edition);
        let expected: Vec<String> = addresses.par_iter().map(|a| fresh.pages().render(a).unwrap()).collect();
        for (address, expected) in addresses.iter().zip(expected) {
            let path = address.path();
            match site.render_since(address, self.shown.get(&path)).unwrap() {
                None => counts.kept += 1,
                Some(page) => {
                    self.shown.insert(path.clone(), page);
                    counts.rendered.push(path.clone());
                }
            }
            assert!(self.shown[&path].html == expected, "{path} is not as it should be after {told}");
        }
        counts
    }
}

fn site(edition: &Edition) -> Site<'_> {
    let facts = SiteFacts { today: date(2026, 1, 12), draft: false, program: blake3::hash(&[]) };
    let made = Prepared { photos: BTreeMap::new(), sheets: Sheets::WhenAsked };
    edition.site(&facts, made).unwrap()
}

fn addresses(edition: &Edition) -> Vec<Address> {
    let page = |output| match output {
        Output::Page(address) => Some(address),
        _ => None,
    };
    outputs::previewed(edition.model(), edition.theme()).into_iter().filter_map(page).collect()
}

/// Numbers that look random and are the same every time (xorshift64*, Vigna 2016).
struct Random(u64);

impl Random {
    fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 33) as usize % end
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.below(of.len())]
    }
}

/// An edit of one entry: its name, and what it says then.
fn edit(followed: &Followed, random: &mut Random) -> (String, String) {
    let n = random.below(1000);
    let exercise = format!("content/exercises/{}.md", random.one(&EXERCISES));
    let other = random.one(&EXERCISES);
    let line = |name: &str, start: &str, new: String| {
        let text = followed.text(name);
        let old = text.lines().find(|line| line.starts_with(start)).unwrap_or_default().to_string();
        (name.to_string(), text.replacen(&old, &new, usize::from(!old.is_empty())))
    };
    match random.below(10) {
        0 | 1 => {
            let name = random.one(&[&exercise, ABOUT, WEEKS[0], WEEKS[1]]).to_string();
            let words = random.one(&[
                "A word more.",
                "See [the other](/exercises/heel-drop.md).",
                "See [a week](/series/first-steps/week-02.md).",
                "As found. [@giangregorio-2015]",
                "As nobody found. [@nobody]",
                "![A counter](/media/counter.png)",
            ]);
            let text = format!("{}\n{words} {n}.\n", followed.text(&name));
            (name, text)
        }
        2 => line(&exercise, "title = ", format!("title = \"Renamed {n}\"")),
        3 => line(&exercise, "reps = ", format!("reps = {}", 3 + n % 12)),
        4 => {
            let step = format!("[[progression]]\nexercise = \"{other}\"\n\n[dose]");
            let text = followed.text(&exercise).replacen("[dose]", &step, 1);
            (exercise, text)
        }
        5 => line(REFERENCES, "  title = ", format!("  title = {{A study {n}}},")),
        6 => {
            let week = random.one(&WEEKS);
            line(week, "  { id = ", format!("  {{ id = \"{other}\" }},"))
        }
        7 => line(SERIES, "summary = ", format!("summary = \"Words {n}.\"")),
        8 => line(ABOUT, "title = ", format!("title = \"About {n}\"")),
        _ => {
            let name = random.one(&[&exercise, ABOUT, REFERENCES, SERIES, WEEKS[0], WEEKS[1]]).to_string();
            let text = sample::text(&name).unwrap().to_string();
            (name, text)
        }
    }
}

#[test]
fn what_is_shown_of_every_page_after_an_edit_is_what_a_fresh_edition_renders() {
    let (mut followed, mut random) = (Followed::sample(), Random(0x9e37_79b9_7f4a_7c15));
    let all = followed.compare("nothing").rendered.len();
    let (mut kept, mut rendered) = (0, 0);
    for number in 0..EDITS {
        let (name, text) = edit(&followed, &mut random);
        followed.put(&name, &text);
        let counts = followed.compare(&format!("edit {number} of {name}:\n{text}"));
        kept += counts.kept;
        rendered += counts.rendered.len();
    }
    // A few entries stand on nearly every page of the sample; even so much is kept, and something always changes.
    assert!(kept > EDITS * all / 4 && rendered > EDITS, "{kept} kept and {rendered} rendered, of {all}");
}

#[test]
fn a_page_is_rendered_again_only_when_what_it_is_made_from_has_changed() {
    let mut followed = Followed::sample();
    let all = followed.compare("nothing").rendered.len();
    let again = followed.compare("nothing at all");
    assert_eq!((again.kept, again.rendered), (all, Vec::new()));

    followed.replace("content/exercises/tall-sit.md", "title = \"", "title = \"Quite ");
    let rendered = followed.compare("another title").rendered;
    for own in ["exercises/tall-sit.html", "exercises/index.html", "series/first-steps/week-01.html"] {
        assert!(rendered.iter().any(|path| path == own), "no {own} in {rendered:?}");
    }
    for other in ["exercises/heel-raise.html", "pages/about.html", "safety.html"] {
        assert!(rendered.iter().all(|path| path != other), "{other} in {rendered:?}");
    }

    // The menu names it on every page.
    followed.replace(ABOUT, "title = \"", "title = \"All ");
    assert!(followed.compare("another entry of the menu").rendered.len() > all / 2);
    // The references are formatted once for all rounds between two of their changes.
    followed.replace(REFERENCES, "UK consensus", "Some consensus");
    assert!(followed.compare("another reference").rendered.iter().any(|path| path == "evidence.html"));

    // Templates are kept until the theme is read again.
    let template =
        followed.edition.theme().text("pages/free.html").unwrap().replace("<h1", "<h1 lang=\"en\"");
    let path = followed.root.path().join("themes/wideleaf/pages/free.html");
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::fs::write(path, template).unwrap();
    followed.edition.read_theme_again().unwrap();
    assert_eq!(followed.compare("another template").kept, 0);
    assert!(followed.shown["pages/about.html"].html.contains("<h1 lang=\"en\""));
}
