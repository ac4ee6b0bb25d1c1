//! The first page of a library that stands on several: it leads to the pages of each component, and searches them all.
//!
//! Pages are opened from a disk too, where no script may read another file. So what the search needs of each exercise
//! stands in this page, little more than 100 bytes for one; its cards stand on the pages of its component alone.

use std::collections::BTreeSet;

use serde::Serialize;

use super::answering;
use super::filter::{Answering, Filter, Offered, equipment_ids, support_ids};
use super::words;
use crate::model::vocabulary::Vocabulary;
use crate::outputs::address::Links;
use crate::outputs::blocks::exercise::also_called;
use crate::outputs::lists::in_order;
use crate::outputs::{Address, List};
use crate::pages::frame::{About, frame};
use crate::pages::lists::{ComponentPages, kinds};
use crate::pages::{Filled, LabeledId, Pages};

#[derive(Serialize)]
pub(in crate::pages) struct Find {
    filter: Filter,
    kinds: Vec<ComponentPages>,
    /// What the search reads, as JSON that can stand inside a page.
    list: String,
}

/// Every exercise, and what the numbers in its rows stand for.
#[derive(Serialize)]
struct Rows<'a> {
    component: &'a [LabeledId],
    position: &'a [LabeledId],
    support: &'a [LabeledId],
    equipment: &'a [LabeledId],
    precaution: &'a [LabeledId],
    /// What one exercise or several have.
    sets: &'a [Set],
    exercises: Vec<Row<'a>>,
}

/// For each kind of choice, in the order above, the places in its list.
type Set = [Vec<usize>; 5];

/// Address, title and summary of an exercise, the place of what it has among the sets, and where it has them "Also called: …"
/// and the words that people say for what its page says. The words of its page itself would make this one too heavy.
#[derive(Serialize)]
struct Row<'a>(
    String,
    &'a str,
    &'a str,
    usize,
    #[serde(skip_serializing_if = "Option::is_none")] Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")] Option<String>,
);

pub(in crate::pages) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Find> {
    let links = pages.links(address);
    let exercises = answering(pages, in_order(pages.model.exercises.values()));
    let body = Find {
        filter: Filter::of_search(pages, &exercises),
        kinds: kinds(pages, &links, List::Library),
        list: list(pages, &links, &Offered::by(pages, &exercises), &exercises),
    };
    let about = About {
        description: Some(pages.words.say("library-find-lead")),
        ..About::titled(pages.words.say("library-title"))
    };
    frame(pages, address, about, body)
}

fn list<'m>(pages: &Pages<'_>, links: &Links, offered: &Offered, exercises: &[Answering<'m>]) -> String {
    let Offered { components, positions, supports, equipment, precautions } = offered;
    let set = |Answering { exercise: e, precautions: answered }: &Answering<'_>| -> Set {
        let (held, needed) = (support_ids(e), equipment_ids(e));
        [
            places(components, |id| id == e.component.value.word()),
            places(positions, |id| id == e.position.value.word()),
            places(supports, |id| held.iter().any(|one| one == id)),
            places(equipment, |id| needed.iter().any(|one| one == id)),
            places(precautions, |id| answered.contains(id)),
        ]
    };
    let sets: Vec<Set> = exercises.iter().map(set).collect::<BTreeSet<_>>().into_iter().collect();
    let row = |one: &Answering<'m>| {
        let e = one.exercise;
        let href = links.to(&Address::Exercise(e.id.clone()));
        let at = sets.binary_search(&set(one)).unwrap_or_default();
        let everyday = words::everyday(pages, e);
        // An empty name keeps the place of the words behind it.
        let names = also_called(e, pages.say()).map(|names| names.value);
        let names = names.or_else(|| everyday.as_ref().map(|_| String::new()));
        Row(href, e.title.value.as_str(), e.summary.value.as_str(), at, names, everyday)
    };
    let rows = Rows {
        component: components,
        position: positions,
        support: supports,
        equipment,
        precaution: precautions,
        exercises: exercises.iter().map(row).collect(),
        sets: &sets,
    };
    // Words, numbers and lists of them can always be written as JSON.
    serde_json::to_string(&rows).unwrap_or_default().replace('<', "\\u003c")
}

fn places(choices: &[LabeledId], has: impl Fn(&str) -> bool) -> Vec<usize> {
    choices.iter().enumerate().filter(|(_, choice)| has(&choice.id)).map(|(at, _)| at).collect()
}
