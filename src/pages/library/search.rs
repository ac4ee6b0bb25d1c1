//! The first page of a library that stands on several: it leads to the pages of each component, and searches them all.
//!
//! Pages are opened from a disk too, where no script may read another file. So what the search needs of each exercise
//! stands in this page, some 120 bytes for one; its cards stand on the pages of its component alone.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::answering;
use super::filter::{Answering, Filter, Offered, equipment_ids, support_ids};
use super::words;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::vocabulary::Vocabulary;
use crate::outputs::address::Links;
use crate::outputs::blocks::exercise::also_called;
use crate::outputs::blocks::yours::joined;
use crate::outputs::lists::in_order;
use crate::outputs::{Address, List};
use crate::pages::frame::{About, frame};
use crate::pages::lists::{ComponentPages, kinds};
use crate::pages::{Filled, LabeledId, Pages};
use crate::reckon::choice::lookup::{Lookup, words_of};

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
    /// The ids of every precaution that the workspace knows, and the words of the things that forms need.
    known: &'a [&'a str],
    things: &'a [String],
    /// What people say for what pages say.
    everyday: &'a [&'a str],
    /// Forms: the precautions that refuse one, and the things that it needs.
    forms: &'a [Refusing],
    /// What one exercise or several have.
    sets: &'a [Set],
    exercises: Vec<Row<'a>>,
}

/// For each kind of choice, in the order above, the places in its list; last the forms that somebody may get.
type Set = [Vec<usize>; 6];

type Refusing = (Vec<usize>, Vec<usize>);

/// Address, title and summary of an exercise, the place of what it has among the sets, the places of the words that people
/// say for what its page says, and "Also called: …" where it has other names. The words of its page itself would make this
/// one too heavy.
#[derive(Serialize)]
struct Row<'a>(
    String,
    &'a str,
    &'a str,
    usize,
    Vec<usize>,
    #[serde(skip_serializing_if = "Option::is_none")] Option<String>,
);

pub(in crate::pages) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Find> {
    let links = pages.links(address);
    let exercises = answering(pages, in_order(pages.model.exercises.values()));
    let body = Find {
        filter: Filter::of_search(pages, &exercises).with(links.to(&Address::Yours)),
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
    let mut forms = Forms::of(pages.model);
    let ways: Vec<Vec<usize>> = exercises.iter().map(|one| forms.ways(one.exercise)).collect();
    let set = |Answering { exercise: e, precautions: answered }: &Answering<'_>, ways: &[usize]| -> Set {
        let (held, needed) = (support_ids(e), equipment_ids(e));
        [
            places(components, |id| id == e.component.value.word()),
            places(positions, |id| id == e.position.value.word()),
            places(supports, |id| held.iter().any(|one| one == id)),
            places(equipment, |id| needed.iter().any(|one| one == id)),
            places(precautions, |id| answered.contains(id)),
            ways.to_vec(),
        ]
    };
    let each = || exercises.iter().zip(&ways);
    let sets: BTreeSet<Set> = each().map(|(one, ways)| set(one, ways)).collect();
    let sets: Vec<Set> = sets.into_iter().collect();
    let said: Vec<BTreeSet<&str>> =
        exercises.iter().map(|one| words::everyday(pages, one.exercise)).collect();
    let everyday: BTreeSet<&str> = said.iter().flatten().copied().collect();
    let everyday: Vec<&str> = everyday.into_iter().collect();
    let row = |((one, ways), said): ((&Answering<'m>, &Vec<usize>), &BTreeSet<&str>)| {
        let e = one.exercise;
        let href = links.to(&Address::Exercise(e.id.clone()));
        let at = sets.binary_search(&set(one, ways)).unwrap_or_default();
        let said = said.iter().filter_map(|word| everyday.binary_search(word).ok()).collect();
        let names = also_called(e, pages.say()).map(|names| names.value);
        Row(href, e.title.value.as_str(), e.summary.value.as_str(), at, said, names)
    };
    let rows = Rows {
        component: components,
        position: positions,
        support: supports,
        equipment,
        precaution: precautions,
        known: &forms.known,
        things: &forms.things,
        forms: &forms.all,
        everyday: &everyday,
        exercises: each().zip(&said).map(row).collect(),
        sets: &sets,
    };
    // Words, numbers and lists of them can always be written as JSON.
    serde_json::to_string(&rows).unwrap_or_default().replace('<', "\\u003c")
}

/// The forms of many exercises, each kind of them once: whether something suits a reader needs no more.
struct Forms<'m> {
    model: &'m Model,
    known: Vec<&'m str>,
    things: Vec<String>,
    all: Vec<Refusing>,
    places: BTreeMap<Refusing, usize>,
}

impl<'m> Forms<'m> {
    fn of(model: &'m Model) -> Forms<'m> {
        let known = model.site.catalogue.precautions.keys().map(String::as_str).collect();
        Forms { model, known, things: Vec::new(), all: Vec::new(), places: BTreeMap::new() }
    }

    /// The forms that somebody may get who has what everybody has.
    fn ways(&mut self, exercise: &'m Exercise) -> Vec<usize> {
        let have = self.model.all_have();
        let lookup = Lookup::of(exercise, None, self.model);
        let given = lookup.forms.iter().filter(|form| {
            form.against_all.is_empty() && !have.iter().any(|p| form.refusals.contains_key(p))
        });
        let ways: BTreeSet<usize> = given
            .map(|form| {
                let no = self.known.iter().enumerate().filter(|(_, p)| form.refusals.contains_key(*p));
                let no = no.map(|(place, _)| place).collect();
                let needs = form.needs().iter().map(|need| {
                    let words = joined(&words_of(&need.value, self.model));
                    self.things.iter().position(|known| *known == words).unwrap_or_else(|| {
                        self.things.push(words);
                        self.things.len() - 1
                    })
                });
                let form = (no, needs.collect());
                *self.places.entry(form).or_insert_with_key(|form| {
                    self.all.push(form.clone());
                    self.all.len() - 1
                })
            })
            .collect();
        ways.into_iter().collect()
    }
}

fn places(choices: &[LabeledId], has: impl Fn(&str) -> bool) -> Vec<usize> {
    choices.iter().enumerate().filter(|(_, choice)| has(&choice.id)).map(|(at, _)| at).collect()
}
