//! The forms that were chosen for people, for programs.

use serde::Serialize;

use super::reasons::{Reason, clearances, reasons};
use crate::edition::Edition;
use crate::model::client::Client;
use crate::model::vocabulary::Vocabulary;
use crate::print::Person;
use crate::reckon::choice::Choice;

/// `{ "people": […] }`.
#[derive(Serialize)]
pub(super) struct People {
    pub(super) people: Vec<One>,
}

/// One person.
#[derive(Serialize)]
pub(super) struct One {
    /// The file, relative to the workspace where it is below it.
    pub(super) profile: String,
    name: String,
    /// The reason for which she has no handout at all.
    held: Option<String>,
    exercises: Vec<Exercise>,
    /// What is to be said of her clearances.
    clearances: Vec<Reason>,
    pub(super) sheets: Vec<String>,
}

#[derive(Serialize)]
struct Exercise {
    id: String,
    form: Option<Form>,
    /// Words of the week, Monday first.
    days: Vec<&'static str>,
    cautions: Vec<String>,
    reasons: Vec<Reason>,
}

#[derive(Serialize)]
struct Form {
    exercise: String,
    /// The title of a variation.
    variation: Option<String>,
}

impl One {
    /// A person who is not to exercise for now.
    pub(super) fn held(client: &Client, because: &str, edition: &Edition) -> One {
        One {
            profile: edition.sources().get(client.file).name.clone(),
            name: client.name.value.clone(),
            held: Some(because.to_string()),
            exercises: Vec::new(),
            clearances: Vec::new(),
            sheets: Vec::new(),
        }
    }

    pub(super) fn of(person: &Person<'_>, edition: &Edition, today: jiff::civil::Date) -> One {
        let client = person.client;
        One {
            profile: edition.sources().get(client.file).name.clone(),
            name: client.name.value.clone(),
            held: None,
            exercises: person.choices.iter().map(|choice| exercise(person, choice)).collect(),
            clearances: clearances(client, today),
            sheets: Vec::new(),
        }
    }
}

fn exercise(person: &Person<'_>, choice: &Choice<'_>) -> Exercise {
    // Of two exercises that come to one form, the first has its days and cautions.
    let chosen = person.practice.chosen_for(choice);
    Exercise {
        id: choice.asked.id.clone(),
        form: choice.form().map(|form| Form {
            exercise: form.exercise.id.clone(),
            variation: form.variation.map(|v| v.title.value.clone()),
        }),
        days: chosen.map(|c| c.days.iter().map(|day| day.word()).collect()).unwrap_or_default(),
        cautions: chosen
            .map(|c| c.cautions.iter().map(|c| c.text.value.clone()).collect())
            .unwrap_or_default(),
        reasons: reasons(person, choice),
    }
}
