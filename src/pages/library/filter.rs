//! What can be chosen among exercises, and what each of them has of it.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::prose::anchor::hyphenated;
use crate::model::vocabulary::{Component, Position, Support, Vocabulary};
use crate::pages::series::named;
use crate::pages::{LabeledId, Pages};
use crate::reckon::choice::is_answered;

/// The form that filters a list.
#[derive(Serialize)]
pub(super) struct Filter {
    title: String,
    /// What the button says that takes all choices back.
    clear: String,
    /// What is said when nothing is found, one exercise, and `{n}` of them.
    none: String,
    one: String,
    many: String,
    /// None where the list is of one component.
    components: Vec<LabeledId>,
    fields: Vec<Field>,
    /// The names of fields that offer nothing: the script asks the form for them all the same.
    without: Vec<&'static str>,
    /// Where a reader says what is true for her.
    yours: Option<String>,
}

#[derive(Serialize)]
struct Field {
    name: &'static str,
    label: String,
    help: Option<String>,
    choices: Vec<LabeledId>,
}

/// An exercise, with the precautions that it answers: to find these out is the most work.
pub(super) struct Answering<'m> {
    pub(super) exercise: &'m Exercise,
    pub(super) precautions: BTreeSet<&'m str>,
}

impl<'m> Answering<'m> {
    /// An exercise and the precautions whose people have a safe form of it, or of an easier one that it leads to.
    pub(super) fn of(pages: &Pages<'m>, exercise: &'m Exercise) -> Answering<'m> {
        let all = pages.model.site.catalogue.precautions.keys().map(String::as_str);
        let precautions = all.filter(|id| is_answered(exercise, None, id, pages.model)).collect();
        Answering { exercise, precautions }
    }
}

impl Filter {
    /// That of a list with every component.
    pub(super) fn of_all(pages: &Pages<'_>, exercises: &[Answering<'_>]) -> Filter {
        Filter { components: components(pages), ..Filter::new("library", pages, exercises) }
    }

    /// That of the page which searches all lists: without a choice it shows no exercise, so none can be shown again.
    pub(super) fn of_search(pages: &Pages<'_>, exercises: &[Answering<'_>]) -> Filter {
        Filter { clear: pages.words.say("library-find-clear"), ..Filter::of_all(pages, exercises) }
    }

    /// That of a page with exercises of one component, beside which there are others.
    pub(super) fn of_part(pages: &Pages<'_>, exercises: &[Answering<'_>]) -> Filter {
        let mut filter = Filter::new("library-part", pages, exercises);
        filter.without.insert(0, "component");
        filter
    }

    /// The same, with where a reader says what is true for her.
    pub(super) fn with(self, yours: String) -> Filter {
        Filter { yours: Some(yours), ..self }
    }

    /// Without components. `said` begins the names of the words that say what is filtered.
    fn new(said: &str, pages: &Pages<'_>, exercises: &[Answering<'_>]) -> Filter {
        let say = |what: &str| pages.words.say(&format!("{said}-{what}"));
        let (fields, without) = fields(pages, exercises);
        Filter {
            title: say("filter-title"),
            clear: pages.words.say("library-clear"),
            none: say("count-none"),
            one: say("count-one"),
            many: say("count-many"),
            components: Vec::new(),
            fields,
            without,
            yours: None,
        }
    }
}

fn components(pages: &Pages<'_>) -> Vec<LabeledId> {
    Component::ALL.iter().map(|&c| named(pages, c)).collect()
}

/// The choices that at least one exercise fits, and the names of fields without one.
fn fields(pages: &Pages<'_>, exercises: &[Answering<'_>]) -> (Vec<Field>, Vec<&'static str>) {
    let field = |name, label: &str, help: Option<&str>, choices: Vec<LabeledId>| Field {
        name,
        label: pages.words.say(label),
        help: help.map(|h| pages.words.say(h)),
        choices,
    };
    let Offered { positions, supports, equipment, precautions, .. } = Offered::by(pages, exercises);
    let all = [
        field("position", "library-position", None, positions),
        field("support", "library-support", None, supports),
        field("equipment", "library-equipment", None, equipment),
        field("precaution", "library-precaution", Some("library-precaution-help"), precautions),
    ];
    let (without, fields): (Vec<Field>, Vec<Field>) = all.into_iter().partition(|f| f.choices.is_empty());
    (fields, without.into_iter().map(|f| f.name).collect())
}

/// The choices of each field.
pub(super) struct Offered {
    pub(super) components: Vec<LabeledId>,
    pub(super) positions: Vec<LabeledId>,
    pub(super) supports: Vec<LabeledId>,
    pub(super) equipment: Vec<LabeledId>,
    pub(super) precautions: Vec<LabeledId>,
}

impl Offered {
    /// What these exercises have.
    pub(super) fn by(pages: &Pages<'_>, all: &[Answering<'_>]) -> Offered {
        let say = pages.say();
        let exercises = || all.iter().map(|answering| answering.exercise);
        let positions: BTreeSet<Position> = exercises().map(|e| e.position.value).collect();
        let held: BTreeSet<Support> = exercises().flat_map(supports).collect();
        let mut supports_held: Vec<LabeledId> = held.into_iter().map(|s| support(pages, s)).collect();
        if exercises().any(|e| supports(e).next().is_none()) {
            let word = say.capital(&pages.words.say("support-none"));
            supports_held.push(LabeledId { id: NOTHING.to_string(), word });
        }
        let equipment: BTreeSet<&str> =
            exercises().flat_map(|e| e.equipment.iter().map(|q| q.value.as_str())).collect();
        let precautions: BTreeSet<&str> =
            all.iter().flat_map(|one| one.precautions.iter().copied()).collect();
        Offered {
            components: components(pages),
            positions: positions.into_iter().map(|p| position(pages, p)).collect(),
            supports: supports_held,
            equipment: equipment
                .into_iter()
                .map(|q| LabeledId { id: equipment_id(q), word: say.capital(q) })
                .collect(),
            precautions: precautions
                .into_iter()
                .map(|p| LabeledId {
                    id: p.to_string(),
                    word: say.capital(&say.precaution(&pages.model.site, p)),
                })
                .collect(),
        }
    }
}

/// Stands for no support among the ids of supports.
const NOTHING: &str = "none";

pub(super) fn support_ids(e: &Exercise) -> Vec<String> {
    let held: Vec<String> = supports(e).map(|s| s.word().to_string()).collect();
    if held.is_empty() { vec![NOTHING.to_string()] } else { held }
}

/// What the base form or a variation holds on to.
fn supports(e: &Exercise) -> impl Iterator<Item = Support> + use<> {
    let all = Form::all(e).flat_map(|form| form.support());
    all.map(|s| s.value).collect::<BTreeSet<_>>().into_iter()
}

pub(super) fn position(pages: &Pages<'_>, position: Position) -> LabeledId {
    let id = position.word();
    LabeledId { id: id.to_string(), word: pages.words.say(&format!("position-{id}")) }
}

fn support(pages: &Pages<'_>, support: Support) -> LabeledId {
    let id = support.word();
    LabeledId { id: id.to_string(), word: pages.say().capital(&pages.words.say(&format!("support-{id}"))) }
}

pub(super) fn equipment_ids(e: &Exercise) -> Vec<String> {
    e.equipment.iter().map(|q| equipment_id(&q.value)).collect()
}

/// An id without spaces: the filters split lists of ids at spaces.
fn equipment_id(words: &str) -> String {
    hyphenated(words)
}
