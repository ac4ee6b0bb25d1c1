//! A round answers while the review goes on, and tells of it when it is over.

#![expect(
    clippy::disallowed_methods,
    reason = "tests write the workspace that they preview, and a change has a time"
)]

use std::time::Instant;

use tokio::sync::oneshot;

use super::super::super::{Common, When};
use super::super::snapshot::Photos;
use super::*;
use crate::edition::Edition;
use crate::workspace::sample;

const PAGE: &str = "exercises/heel-drop.html";
const FILE: &str = "content/exercises/heel-drop.md";

/// The sample in a folder, with a door that nobody knocks at but the test.
struct House {
    root: tempfile::TempDir,
    edition: Edition,
    door: Door,
    terminal: Terminal,
    carried: Carried,
}

impl House {
    fn open() -> House {
        let root = tempfile::tempdir().unwrap();
        for (name, bytes) in sample::files() {
            let path = root.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, bytes).unwrap();
        }
        let today = Some(jiff::civil::date(2026, 1, 12));
        let common = Common { workspace: None, today, quiet: true, color: When::Never };
        House {
            edition: Edition::open(root.path().to_path_buf()).unwrap(),
            root,
            door: proof::open(0).unwrap(),
            terminal: Terminal::new(&common),
            carried: Carried::default(),
        }
    }

    /// A round in which all this happens at once: it ends with the last of it. `change` is what it begins with.
    fn round(&mut self, change: Option<&str>, events: Vec<Event>) -> End {
        let photos = Photos::new();
        let now = Snapshot::of(&self.edition, &photos, self.terminal.today);
        let mut round = Round::new(&now, None, &mut self.carried, &self.door, None);
        let change = change.map(|name| Save { files: vec![name.to_string()], start: Instant::now() });
        round.show(change, &[]);
        for event in events {
            self.door.sender().send(event).unwrap();
        }
        round.answer_all(&self.terminal).ok().unwrap()
    }

    /// The review of the round that comes next, or of one so many before it.
    fn reviewed(&self, before: u64) -> Event {
        let review = Some(self.edition.review(self.terminal.today));
        Event::Reviewed { number: self.carried.number + 1 - before, review }
    }
}

fn ask(wanted: Wanted) -> (Event, oneshot::Receiver<Reply>) {
    let (asker, answer) = oneshot::channel();
    (Event::Wanted(wanted, asker), answer)
}

fn saved(name: &str) -> Event {
    Event::Saved([name.to_string()].into())
}

fn piece(answer: &mut oneshot::Receiver<Reply>) -> String {
    match answer.try_recv() {
        Ok(Reply::Piece(html)) => html,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_page_does_not_wait_for_the_review_and_the_first_panel_does() {
    let mut house = House::open();
    let (panel, mut shown_panel) = ask(Wanted::Panel { page: PAGE.to_string() });
    let (page, mut shown_page) = ask(Wanted::File { path: PAGE.to_string() });
    let end = house.round(Some(FILE), vec![panel, page, saved(FILE)]);
    assert!(matches!(end, End::Saved(names) if names.contains(FILE)));
    assert!(matches!(shown_page.try_recv(), Ok(Reply::Shown { path }) if path == PAGE));
    assert!(shown_panel.try_recv().is_err());
    assert!(house.carried.untold.is_some());

    // The review of the round before has come too late; this one's tells the panel, and the terminal what was saved.
    let late = house.reviewed(1);
    assert!(matches!(house.round(None, vec![late, Event::Stop]), End::Stopped));
    assert!(house.carried.untold.is_some() && shown_panel.try_recv().is_err());
    let own = house.reviewed(0);
    house.round(None, vec![own, Event::Stop]);
    assert!(house.carried.untold.is_none());
    assert!(piece(&mut shown_panel).contains("Review: "));
}

#[test]
fn until_the_review_is_done_a_panel_and_its_lines_are_those_of_the_last() {
    let mut house = House::open();
    let text = std::fs::read_to_string(house.root.path().join(FILE)).unwrap();
    let file = house.edition.sources().find(FILE).unwrap();
    house
        .edition
        .put(file, text.replace("\"impact-low\", \"tiptoe\"", "\"impact-loud\", \"tiptoe\""))
        .unwrap();
    let own = house.reviewed(0);
    house.round(None, vec![own, Event::Stop]);

    // Everything stands some lines further down, and one finding is gone.
    let moved = text.replace("```toml\n", &format!("```toml\n{}", "# A remark.\n".repeat(30)));
    house.edition.put(file, moved).unwrap();
    let (panel, mut shown) = ask(Wanted::Panel { page: PAGE.to_string() });
    house.round(None, vec![panel, Event::Stop]);
    let html = piece(&mut shown);
    assert!(html.contains("On this page") && html.contains("<code>impact-loud</code>"), "{html}");
    let excerpt = html.split("data-excerpt=\"/-/excerpt/").nth(1).unwrap().split('"').next().unwrap();
    let (review, finding) = excerpt.split_once('/').unwrap();
    let wanted = Wanted::Excerpt { review: review.parse().unwrap(), finding: finding.parse().unwrap() };
    let (lines, mut shown) = ask(wanted);
    house.round(None, vec![lines, Event::Stop]);
    let html = piece(&mut shown);
    assert!(html.contains("<mark>") && html.contains("impact-loud"), "{html}");

    let own = house.reviewed(0);
    let (panel, mut shown) = ask(Wanted::Panel { page: PAGE.to_string() });
    house.round(None, vec![own, panel, Event::Stop]);
    assert!(!piece(&mut shown).contains("impact-loud"));
}

#[test]
fn what_nothing_reads_does_not_end_the_review() {
    let mut house = House::open();
    let (page, mut shown) = ask(Wanted::File { path: PAGE.to_string() });
    let end = house.round(None, vec![saved("content/exercises/heel-drop.md~"), page, Event::Stop]);
    assert!(matches!(end, End::Stopped));
    assert!(shown.try_recv().is_ok());
}
