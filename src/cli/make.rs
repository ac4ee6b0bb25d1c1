//! `steadyleaf make`: review, then the site into `ready/`. An error stops it and leaves `ready/` as it was.

use clap::Args;

use super::Common;
use super::bars::Bars;
use super::load::root;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::{Edition, SiteFacts};
use crate::publish::{self, Left};
use crate::review::{self, Review, report};
use crate::workspace;

/// Review the workspace, then make the site into ready/
#[derive(Args)]
pub(super) struct Make {
    /// Go on in spite of errors, and mark every page as a draft
    #[arg(long)]
    draft: bool,
}

pub(super) fn run(command: &Make, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let program = workspace::program()
        .map_err(|e| Failure::Unreadable(format!("the program cannot read itself: {e}")))?;
    let root = root(common)?;
    let facts = SiteFacts { today: terminal.today, draft: command.draft, program };
    let from = facts.lies(&root, terminal.now());
    if let Some(from) = &from
        && let Ok(shelf) = publish::open(&root)
        && shelf.dropped().is_empty()
        && shelf.is_as_left(from)
    {
        terminal.say(UNCHANGED)?;
        return Ok(Outcome::Done);
    }
    let edition = Edition::open(root)?;
    let review = edition.review(terminal.today);
    if review.has_errors() && !command.draft {
        return stopped(&review, &edition, terminal);
    }
    let attachments = edition.attachments_now().map_err(|unread| Failure::Unreadable(unread.to_string()))?;
    let fingerprint = edition.fingerprint(&facts, &attachments);
    let mut shelf = publish::open(edition.root())?;
    tell_dropped(shelf.dropped(), terminal)?;
    if shelf.is_current(&fingerprint) {
        if let Some(from) = from.filter(|_| review.findings.is_empty()) {
            shelf.remember(&from);
        }
        tell(&review, &edition, terminal)?;
        terminal.say(UNCHANGED)?;
        return Ok(Outcome::Done);
    }
    let store = shelf.store();
    let staging = shelf.stage()?;
    let bars = Bars::on(terminal);
    let finished = edition.make_site(facts, &attachments, &staging, &store, &bars)?;
    let mut review = review;
    if !finished.findings.is_empty() {
        review = review::join(&edition.case(terminal.today), review, finished.findings);
        if review.has_errors() && !command.draft {
            return stopped(&review, &edition, terminal);
        }
    }
    let from = from.filter(|_| review.findings.is_empty());
    let left = finished.record.map(|made_from| Left { from, made_from });
    let published = staging.publish(&fingerprint, left)?;
    if !command.draft {
        // The sheets of a draft are kept beside those of the site itself, which will be wanted again.
        store.sweep();
    }
    tell(&review, &edition, terminal)?;
    tell_dropped(&published.dropped, terminal)?;
    terminal.say(&format!(
        "Made {} files in ready/: {} new or changed, {} as before, {} removed. Open ready/index.html.",
        published.written + published.unchanged,
        published.written,
        published.unchanged,
        published.removed
    ))?;
    Ok(Outcome::Done)
}

const UNCHANGED: &str = "Nothing has changed: ready/ is as it should be.";

/// The report, and that nothing was made.
fn stopped(review: &Review, edition: &Edition, terminal: &Terminal) -> Result<Outcome, Failure> {
    terminal.print(&report::text::render(review, edition.sources(), terminal.look()))?;
    terminal.print("Nothing was made: ready/ is as it was. Fix the errors, or see a draft with `steadyleaf make --draft`.\n")?;
    Ok(Outcome::ErrorsFound)
}

/// What the review found, short when there are no problems.
fn tell(review: &Review, edition: &Edition, terminal: &Terminal) -> Result<(), Failure> {
    if review.findings.is_empty() {
        return Ok(());
    }
    terminal.print(&report::text::render(review, edition.sources(), terminal.look()))
}

/// Which files of the author's own went with an earlier site: none but those that file browsers leave in any folder.
fn tell_dropped(files: &[String], terminal: &Terminal) -> Result<(), Failure> {
    const MOST: usize = 3;
    let named = files[..files.len().min(MOST)].join(", ").replace(char::is_control, "\u{fffd}");
    match files.len() {
        0 => Ok(()),
        1 => terminal.say(&format!("1 file of your computer's file browser was not kept: {named}.")),
        n if n <= MOST => {
            terminal.say(&format!("{n} files of your computer's file browser were not kept: {named}."))
        }
        n => terminal.say(&format!(
            "{n} files of your computer's file browser were not kept: {named} and {} more.",
            n - MOST
        )),
    }
}
