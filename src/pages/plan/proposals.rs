//! What can come next in a series, for its educator to judge.

use serde::Serialize;

use super::{amount, in_minutes};
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::pages::series::named;
use crate::pages::{LabeledId, Link, Pages};
use crate::reckon::between::Between;
use crate::reckon::dose::Practice;
use crate::reckon::proposal::{Candidate, List, Proposal, Reason, Refusal, Refused, Unfit, Wish};

#[derive(Serialize)]
pub(super) struct Proposals {
    title: String,
    /// How long the choice takes, or why there is none.
    choice: String,
    lists: Vec<ListView>,
}

/// One component.
#[derive(Serialize)]
struct ListView {
    component: LabeledId,
    best: Vec<CandidateView>,
    /// "And 3 more".
    more: Option<String>,
    /// Next rungs that are not among the best, and why.
    others: Vec<CandidateView>,
}

#[derive(Serialize)]
struct CandidateView {
    exercise: Link,
    chosen: bool,
    minutes: Option<String>,
    reasons: Vec<String>,
}

pub(super) fn proposals(pages: &Pages<'_>, links: &Links, overview: &super::Overview<'_>) -> Proposals {
    let words = pages.words;
    let propose = |series| {
        let wish = Wish::of(series, &pages.model.site);
        Proposal::of(pages.model, pages.ladders(), &pages.answers, series, &wish).ok()
    };
    // As the pages keep it, so that what they remember of it lasts as long as they do.
    match pages.model.series.get(&overview.series.id).and_then(propose) {
        Some(proposal) => Proposals {
            title: words.say_with("plan-proposals-week", &[("number", proposal.week.to_string().into())]),
            choice: choice(pages, &proposal),
            lists: proposal.lists.iter().map(|list| list_view(pages, links, &proposal, list)).collect(),
        },
        None => Proposals {
            title: words.say("plan-proposals"),
            choice: words.say("plan-proposals-unknown"),
            lists: Vec::new(),
        },
    }
}

fn choice(pages: &Pages<'_>, proposal: &Proposal<'_>) -> String {
    let words = pages.words;
    let most = ("most", proposal.wish.minutes.to_string().into());
    let number = |n: u64| n.to_string().into();
    match &proposal.choice {
        Ok(session) => {
            let minutes = amount(pages, in_minutes(session.sum(Practice::whole)));
            words.say_with("plan-choice", &[("amount", minutes.into()), most])
        }
        Err(Unfit::Minutes { least }) => {
            words.say_with("plan-unfit-minutes", &[("least", number(*least)), most])
        }
        Err(Unfit::Landings { least, most }) => {
            words.say_with("plan-unfit-landings", &[("least", number(*least)), ("most", number(*most))])
        }
        Err(Unfit::Nothing { components }) => {
            let kinds: Vec<String> = components.iter().map(|&c| named(pages, c).word).collect();
            words.say_with("plan-unfit-nothing", &[("components", pages.say().and(&kinds).into())])
        }
        // A page keeps nothing on purpose.
        Err(Unfit::Kept { .. } | Unfit::Work { .. }) => words.say("plan-proposals-unknown"),
    }
}

fn list_view(pages: &Pages<'_>, links: &Links, proposal: &Proposal<'_>, list: &List<'_>) -> ListView {
    let best = proposal.best(list);
    let more = list.candidates.len() - best.len();
    let view = |one: &Candidate<'_>| CandidateView {
        exercise: link(links, one.exercise),
        chosen: proposal.chooses(one.exercise),
        minutes: Some(minutes(pages, one.practice.whole())),
        reasons: one.reasons.iter().filter_map(|reason| reason_words(pages, reason)).collect(),
    };
    let behind = proposal.behind(list);
    let refused = list.refused.iter().map(|Refused { exercise, why }| CandidateView {
        exercise: link(links, exercise),
        chosen: false,
        minutes: None,
        reasons: why.iter().filter_map(|why| refusal_words(pages, why)).collect(),
    });
    ListView {
        component: named(pages, list.component),
        more: (more > 0).then(|| pages.say().counted("plan-more", more.to_string(), more as f64)),
        others: behind.into_iter().map(view).chain(refused).collect(),
        best: best.into_iter().map(view).collect(),
    }
}

fn link(links: &Links, exercise: &Exercise) -> Link {
    Link { href: links.to(&Address::Exercise(exercise.id.clone())), text: exercise.title.value.clone() }
}

/// "2 to 3 minutes".
fn minutes(pages: &Pages<'_>, time: Between) -> String {
    let minutes = in_minutes(time);
    pages.say().counted("dose-minutes", amount(pages, minutes), minutes.high as f64)
}

/// A reason in words; `None` for those that only the command line can give.
fn reason_words(pages: &Pages<'_>, reason: &Reason<'_>) -> Option<String> {
    let words = pages.words;
    let week = |last: &u32| ("week", last.to_string().into());
    let people =
        |precaution: &str| ("precaution", pages.say().precaution(&pages.model.site, precaution).into());
    Some(match reason {
        Reason::Kept | Reason::SameDose { .. } => return None,
        Reason::NextRung { from } => {
            words.say_with("plan-next-rung", &[("exercises", titles(pages, from).into())])
        }
        Reason::SameRung { last } => words.say_with("plan-same-rung", &[week(last)]),
        Reason::NewMovement => words.say("plan-new-movement"),
        Reason::LowerRung { last } => words.say_with("plan-lower-rung", &[week(last)]),
        Reason::AtHand { things } if things.is_empty() => words.say("plan-needs-nothing"),
        Reason::AtHand { things } => {
            words.say_with("plan-at-hand", &[("things", listed(pages, things).into())])
        }
        Reason::NewEquipment { things } => {
            words.say_with("plan-new-equipment", &[("things", listed(pages, things).into())])
        }
        Reason::OtherForm { precaution, form } => {
            words.say_with("plan-other-form", &[people(precaution), ("form", form_title(form).into())])
        }
        Reason::NoForm { precaution } => words.say_with("plan-no-form", &[people(precaution)]),
    })
}

/// Why an exercise cannot come next; `None` where only the command line can ask for it.
fn refusal_words(pages: &Pages<'_>, refusal: &Refusal<'_>) -> Option<String> {
    let words = pages.words;
    let demand = |id: &str| pages.say().demand(&pages.model.site, id).into();
    let number = |n: u64| n.to_string().into();
    Some(match refusal {
        Refusal::LeftOut => return None,
        Refusal::Unread { field } => words.say_with("plan-not-unread", &[("field", (*field).into())]),
        Refusal::Unanswered { demand: None, precaution } => {
            let people = pages.say().precaution(&pages.model.site, precaution);
            words.say_with("plan-no-form", &[("precaution", people.into())])
        }
        Refusal::Unanswered { demand: Some(id), precaution } => {
            let people = pages.say().precaution(&pages.model.site, precaution);
            words.say_with("plan-not-answered", &[("demand", demand(id)), ("precaution", people.into())])
        }
        Refusal::ForNobody { precaution } => {
            let people = pages.say().precaution(&pages.model.site, precaution);
            words.say_with("plan-not-for-all", &[("precaution", people.into())])
        }
        Refusal::Rung { below } => {
            words.say_with("plan-not-rung", &[("exercises", titles(pages, below).into())])
        }
        Refusal::Impact { impact, before } => {
            words.say_with("plan-not-impact", &[("impact", demand(impact)), ("before", demand(before))])
        }
        Refusal::Recent { last, returns } => words.say_with(
            "plan-not-recent",
            &[("last", last.to_string().into()), ("returns", returns.to_string().into())],
        ),
        Refusal::SameDose { week } => {
            words.say_with("plan-not-same-dose", &[("week", week.to_string().into())])
        }
        Refusal::Landings { landings, most } => {
            words.say_with("plan-not-landings", &[("landings", number(*landings)), ("most", number(*most))])
        }
        Refusal::Work { minutes, before } => {
            words.say_with("plan-not-work", &[("minutes", number(*minutes)), ("before", number(*before))])
        }
        Refusal::Minutes { minutes } => words.say_with("plan-not-minutes", &[("minutes", number(*minutes))]),
    })
}

fn form_title(form: &Form<'_>) -> String {
    match form.variation {
        Some(variation) => variation.title.value.clone(),
        None => form.exercise.title.value.clone(),
    }
}

fn titles(pages: &Pages<'_>, ids: &[&str]) -> String {
    let titles = ids.iter().filter_map(|id| pages.model.exercises.get(id)).map(|e| e.title.value.clone());
    pages.say().and(&titles.collect::<Vec<_>>())
}

fn listed(pages: &Pages<'_>, things: &[&str]) -> String {
    pages.say().and(&things.iter().map(ToString::to_string).collect::<Vec<_>>())
}
