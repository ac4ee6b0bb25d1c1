//! The proposals for the next week as JSON.

use serde::Serialize;

use super::{Range, minutes};
use crate::model::vocabulary::Component;
use crate::reckon::dose::{Practice, Session};
use crate::reckon::proposal::{Candidate, List, Proposal, Reason, Refusal, Refused, Unfit, Unknown};

/// What can come next. Without what came before, `unknown` says why, and the rest is null or empty.
#[derive(Serialize)]
pub(super) struct ProposalsReport<'a> {
    week: Option<u32>,
    date: Option<String>,
    /// The most minutes of a session.
    minutes: Option<u32>,
    /// An exercise of the last so many weeks is not proposed.
    weeks_apart: Option<u32>,
    posture: Option<ListReport<'a>>,
    balance: Option<ListReport<'a>>,
    strength: Option<ListReport<'a>>,
    power: Option<ListReport<'a>>,
    choice: Option<ChoiceReport<'a>>,
    /// Why no choice fits.
    unfit: Option<UnfitReport>,
    unknown: Option<String>,
}

#[derive(Serialize)]
struct ListReport<'a> {
    /// All of them, the best first.
    candidates: Vec<CandidateReport<'a>>,
    not_proposed: Vec<RefusedReport<'a>>,
}

#[derive(Serialize)]
struct CandidateReport<'a> {
    id: &'a str,
    title: &'a str,
    session_minutes: Range,
    chosen: bool,
    reasons: Vec<ReasonReport>,
}

#[derive(Serialize)]
struct RefusedReport<'a> {
    id: &'a str,
    title: &'a str,
    why: Vec<ReasonReport>,
}

/// A reason: a word for programs, a sentence for people.
#[derive(Serialize)]
struct ReasonReport {
    kind: &'static str,
    text: String,
}

#[derive(Serialize)]
struct ChoiceReport<'a> {
    exercises: Vec<&'a str>,
    session_minutes: Range,
}

#[derive(Serialize)]
struct UnfitReport {
    kind: &'static str,
    text: String,
    help: String,
}

pub(super) fn report<'a>(proposal: &'a Result<Proposal<'a>, Unknown<'a>>) -> ProposalsReport<'a> {
    let known = proposal.as_ref().ok();
    let list = |component: Component| {
        let list = known.and_then(|p| p.lists.iter().find(|list| list.component == component))?;
        Some(self::list(known?, list))
    };
    ProposalsReport {
        week: known.map(|p| p.week),
        date: known.map(|p| p.date.to_string()),
        minutes: known.map(|p| p.wish.minutes),
        weeks_apart: known.map(|p| p.wish.weeks_apart),
        posture: list(Component::Posture),
        balance: list(Component::Balance),
        strength: list(Component::Strength),
        power: list(Component::Power),
        choice: known.and_then(|p| p.choice.as_ref().ok()).map(choice),
        unfit: known.and_then(|p| {
            let unfit = p.choice.as_ref().err()?;
            Some(UnfitReport { kind: unfit_word(unfit), text: unfit.to_string(), help: unfit.help(&p.wish) })
        }),
        unknown: proposal.as_ref().err().map(ToString::to_string),
    }
}

fn list<'a>(proposal: &Proposal<'_>, list: &'a List<'_>) -> ListReport<'a> {
    ListReport {
        candidates: list.candidates.iter().map(|one| candidate(proposal, one)).collect(),
        not_proposed: list.refused.iter().map(refused).collect(),
    }
}

fn candidate<'a>(proposal: &Proposal<'_>, one: &'a Candidate<'_>) -> CandidateReport<'a> {
    CandidateReport {
        id: &one.exercise.id,
        title: &one.exercise.title.value,
        session_minutes: minutes(one.practice.whole()),
        chosen: proposal.chooses(one.exercise),
        reasons: one
            .reasons
            .iter()
            .map(|r| ReasonReport { kind: reason_word(r), text: r.to_string() })
            .collect(),
    }
}

fn refused<'a>(one: &'a Refused<'_>) -> RefusedReport<'a> {
    RefusedReport {
        id: &one.exercise.id,
        title: &one.exercise.title.value,
        why: one.why.iter().map(|r| ReasonReport { kind: refusal_word(r), text: r.to_string() }).collect(),
    }
}

fn choice<'a>(session: &'a Session<'_>) -> ChoiceReport<'a> {
    ChoiceReport {
        exercises: session.practices.iter().map(|(exercise, _)| exercise.id.as_str()).collect(),
        session_minutes: minutes(session.sum(Practice::whole)),
    }
}

fn reason_word(reason: &Reason<'_>) -> &'static str {
    match reason {
        Reason::Kept => "kept",
        Reason::NextRung { .. } => "next-rung",
        Reason::SameRung { .. } => "same-rung",
        Reason::NewMovement => "new-movement",
        Reason::LowerRung { .. } => "lower-rung",
        Reason::AtHand { .. } => "at-hand",
        Reason::NewEquipment { .. } => "new-equipment",
        Reason::OtherForm { .. } => "other-form",
        Reason::NoForm { .. } => "no-form",
        Reason::SameDose { .. } => "same-dose",
    }
}

fn refusal_word(refusal: &Refusal<'_>) -> &'static str {
    match refusal {
        Refusal::Unread { .. } => "unread",
        Refusal::LeftOut => "left-out",
        Refusal::Unanswered { .. } => "unanswered",
        Refusal::ForNobody { .. } => "for-nobody",
        Refusal::Rung { .. } => "rung",
        Refusal::Impact { .. } => "impact",
        Refusal::Recent { .. } => "recent",
        Refusal::SameDose { .. } => "same-dose",
        Refusal::Landings { .. } => "landings",
        Refusal::Work { .. } => "work",
        Refusal::Minutes { .. } => "minutes",
    }
}

fn unfit_word(unfit: &Unfit<'_>) -> &'static str {
    match unfit {
        Unfit::Kept { .. } => "kept",
        Unfit::Nothing { .. } => "nothing",
        Unfit::Work { .. } => "work",
        Unfit::Landings { .. } => "landings",
        Unfit::Minutes { .. } => "minutes",
    }
}
