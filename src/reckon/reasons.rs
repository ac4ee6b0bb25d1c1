//! What an educator is told of each form that was chosen for a person: why this one, or why none, and which clearances it
//! rests on.

use jiff::civil::Date;

use super::choice::{Because, Choice};
use super::personal::Personal;
use super::safety::Why;
use crate::model::client::{Clearance, Cleared, Client, Ending};
use crate::model::form::Form;

/// One reason: a word for programs, a sentence for people.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reason {
    pub kind: &'static str,
    pub text: String,
}

/// Why a form was chosen, or why there is none, the weightiest reasons first.
pub fn reasons(practice: &Personal<'_>, choice: &Choice<'_>) -> Vec<Reason> {
    let mut all: Vec<Reason> = Vec::new();
    let mut add = |kind, text: String| all.push(Reason { kind, text });
    if choice.chosen.is_some() {
        match choice.because {
            Because::Preference(p) => {
                add("preferred", format!("preferred: {}", p.because.value.trim_end_matches('.')))
            }
            Because::Order | Because::Caution => {}
        }
    }
    if !choice.is_base() {
        for why in &choice.against_base {
            add(kind(why), why.to_string());
        }
        // In the order of forms a variation may be passed over before the chosen one.
        for refused in choice.refused.iter().filter(|r| !r.offer.form.is(&Form::base(choice.asked))) {
            add(kind(&refused.why[0]), format!("{}: {}", refused.offer.form, refused.why[0]));
        }
    }
    for (offer, things) in &choice.lacking {
        let things: Vec<String> = things.iter().map(|thing| format!("`{}`", thing.value)).collect();
        add(
            "lacks-equipment",
            format!("{} needs {}, which the profile does not list", offer.form, things.join(" and ")),
        );
    }
    for clearance in &choice.cleared {
        add("cleared", format!("rests on the clearance {}", told(clearance)));
    }
    for preference in &choice.unknown {
        add("unknown-preference", format!("the preferred form `{}` is no form of it", preference.form.value));
    }
    if practice.chosen_for(choice).is_some_and(|chosen| chosen.days.is_empty()) {
        add("no-days", "the week has no room for it, so that the handout leaves it out".to_string());
    }
    if all.is_empty() {
        all.push(Reason { kind: "nothing-against", text: "no reason against it".to_string() });
    }
    all
}

/// What is to be said of clearances: those that have ended, and those that end soon.
pub fn clearances(client: &Client, today: Date) -> Vec<Reason> {
    let of = |clearance: &Clearance| {
        let (kind, ends) = match clearance.ending(today)? {
            Ending::Past => ("clearance-ended", "has ended"),
            Ending::Soon => ("clearance-ends", "ends soon"),
        };
        Some(Reason { kind, text: format!("the clearance {} {ends}; ask for a new one", told(clearance)) })
    };
    client.cleared.iter().filter_map(of).collect()
}

/// "for `impact-low` with `spine-fracture` by Dr. A. Reviewer, until 2027-03-01".
fn told(clearance: &Clearance) -> String {
    let what = match &clearance.what {
        Cleared::Exercise(id) => &id.value,
        Cleared::Demand(demand) => &demand.value,
    };
    let of: Vec<String> = clearance.of.iter().map(|p| format!("`{}`", p.value)).collect();
    format!("for `{what}` with {} by {}, until {}", of.join(" and "), clearance.by.value, clearance.until)
}

fn kind(why: &Why<'_>) -> &'static str {
    match why {
        Why::Unknown { .. } => "unknown-precaution",
        Why::Unread { .. } => "unread",
        Why::Lost { .. } => "lost-demand",
        Why::Bare => "no-steps",
        Why::Stop { .. } => "stop",
        Why::Avoid { .. } => "avoid",
        Why::Instead { .. } => "other-form",
        Why::AskFirst { .. } | Why::Ask { .. } => "ask",
        Why::NoCaution { .. } => "no-caution",
    }
}
