//! The proposals for the next week in plain letters.

use super::{GAP, INDENT, bold, hanging, paragraph, range, section};
use crate::model::vocabulary::Vocabulary;
use crate::reckon::between::Between;
use crate::reckon::dose::{Practice, Session};
use crate::reckon::proposal::{Candidate, List, Proposal, Refused, Unknown};
use crate::review::report::text::Look;

/// The section about them.
pub(super) fn proposals(proposal: &Result<Proposal<'_>, Unknown<'_>>, look: Look) -> String {
    match proposal {
        Ok(proposal) => {
            let title = format!("Proposals for week {}, from {}", proposal.week, proposal.date);
            let lists: Vec<String> =
                proposal.lists.iter().map(|list| self::list(proposal, list, look)).collect();
            section(&title, &key(proposal), &lists.join("\n"), look)
        }
        Err(unknown) => {
            let why = format!(
                "None, since what came before is not known: {unknown}. Run `steadyleaf review` and fix it first."
            );
            section("Proposals", "", &hanging(&why, INDENT, look), look)
        }
    }
}

/// The chosen exercises, by component, and the time of the session.
pub(in crate::cli::plan) fn chosen(session: &Session<'_>) -> String {
    let lines = session.practices.iter().map(|(exercise, _)| {
        let component = exercise.component.value.word();
        format!("{INDENT}{component:<8}{GAP}{} ({})\n", exercise.title.value, exercise.id)
    });
    let minutes = minutes(session.sum(Practice::whole));
    lines.collect::<String>() + &format!("{INDENT}{:<8}{GAP}{minutes} min a session\n", "in all")
}

fn key(proposal: &Proposal<'_>) -> String {
    let wish = &proposal.wish;
    let choice = match &proposal.choice {
        Ok(session) => format!(
            "Those chosen fit together: {} min a session, within {}.",
            minutes(session.sum(Practice::whole)),
            wish.minutes
        ),
        Err(unfit) => format!("No choice fits: {unfit}. {}.", capital(&unfit.help(wish))),
    };
    format!("For a licensed clinician to judge; the best first. {choice}")
}

fn list(proposal: &Proposal<'_>, list: &List<'_>, look: Look) -> String {
    let mut text = format!("{INDENT}{}\n", bold(list.component.word(), look));
    let best = proposal.best(list);
    for (at, one) in best.iter().enumerate() {
        text.push_str(&candidate(at + 1, one, proposal.chooses(one.exercise), look));
    }
    match list.candidates.len() - best.len() {
        0 => {}
        more => text.push_str(&format!("{BELOW}and {more} more\n")),
    }
    if list.candidates.is_empty() {
        text.push_str(&format!("{BELOW}nothing to propose\n"));
    }
    for one in proposal.behind(list) {
        text.push_str(&hanging(
            &format!("further down, `{}`: {}", one.exercise.id, joined(&one.reasons)),
            BELOW,
            look,
        ));
    }
    for Refused { exercise, why } in &list.refused {
        text.push_str(&hanging(&format!("not `{}`: {}", exercise.id, joined(why)), BELOW, look));
    }
    text
}

/// What stands before the lines below an exercise's own.
const BELOW: &str = "     ";

fn candidate(rank: usize, one: &Candidate<'_>, chosen: bool, look: Look) -> String {
    let exercise = one.exercise;
    let time = minutes(one.practice.whole());
    let chosen = if chosen { ", chosen" } else { "" };
    let head = format!("{rank}. {} (`{}`), {time} min{chosen}", exercise.title.value, exercise.id);
    hanging(&head, INDENT, look) + &paragraph(&joined(&one.reasons), BELOW, look)
}

fn joined(reasons: &[impl ToString]) -> String {
    reasons.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}

fn minutes(time: Between) -> String {
    let (low, high) = time.minutes();
    range(Between::new(low, high))
}

fn capital(help: &str) -> String {
    let mut letters = help.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
