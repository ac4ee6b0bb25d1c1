//! The forms that were chosen for people, for programs.

use jiff::civil::Date;
use serde::Serialize;

use crate::cli::outcome::Failure;
use crate::edition::{AskedSheet, Edition, Placed, Profile, Unplaced};
use crate::model::client::Client;
use crate::model::vocabulary::Vocabulary;
use crate::print::Person;
use crate::reckon::choice::Choice;
use crate::reckon::reasons;

/// Everyone, in the order of the command line, with what was chosen and what was printed: `{ "people": […] }`.
pub(super) fn render(
    people: &[Profile],
    sheets: &[AskedSheet<'_>],
    placed: &[Result<Placed, Unplaced>],
    edition: &Edition,
    today: Date,
) -> Result<String, Failure> {
    let mut all = Vec::new();
    for Profile { client, .. } in people {
        if let Some(hold) = &client.hold {
            all.push(One::held(client, &hold.because.value, edition));
        }
        for (sheet, placed) in sheets.iter().zip(placed) {
            let Some(person) = sheet.order.person.as_ref().filter(|p| p.client.file == client.file) else {
                continue;
            };
            let mut one = One::of(person, edition, today);
            let placed = placed.as_ref().ok();
            one.sheets.extend(placed.map(|placed| placed.path.display().to_string()));
            let page = placed.and_then(|placed| placed.page.as_ref());
            one.pages.extend(page.map(|page| page.path.display().to_string()));
            all.push(one);
        }
    }
    let text = serde_json::to_string_pretty(&People { people: all });
    Ok(format!("{}\n", text.map_err(|e| Failure::Unreadable(e.to_string()))?))
}

#[derive(Serialize)]
struct People {
    people: Vec<One>,
}

/// One person.
#[derive(Serialize)]
struct One {
    /// The file, relative to the workspace where it is below it.
    profile: String,
    name: String,
    /// The reason for which she has no handout at all.
    held: Option<String>,
    exercises: Vec<Exercise>,
    /// What is to be said of her clearances.
    clearances: Vec<Reason>,
    sheets: Vec<String>,
    pages: Vec<String>,
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

/// A word for programs, a sentence for people.
#[derive(Serialize)]
struct Reason {
    kind: &'static str,
    text: String,
}

impl From<reasons::Reason> for Reason {
    fn from(reasons::Reason { kind, text }: reasons::Reason) -> Reason {
        Reason { kind, text }
    }
}

#[derive(Serialize)]
struct Form {
    exercise: String,
    /// The title of a variation.
    variation: Option<String>,
}

impl One {
    /// A person who is not to exercise for now.
    fn held(client: &Client, because: &str, edition: &Edition) -> One {
        One {
            profile: edition.sources().get(client.file).name.clone(),
            name: client.name.value.clone(),
            held: Some(because.to_string()),
            exercises: Vec::new(),
            clearances: Vec::new(),
            sheets: Vec::new(),
            pages: Vec::new(),
        }
    }

    fn of(person: &Person<'_>, edition: &Edition, today: Date) -> One {
        let client = person.client;
        One {
            profile: edition.sources().get(client.file).name.clone(),
            name: client.name.value.clone(),
            held: None,
            exercises: person.choices.iter().map(|choice| exercise(person, choice)).collect(),
            clearances: reasons::clearances(client, today).into_iter().map(Into::into).collect(),
            sheets: Vec::new(),
            pages: Vec::new(),
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
        reasons: reasons::reasons(&person.practice, choice).into_iter().map(Into::into).collect(),
    }
}
