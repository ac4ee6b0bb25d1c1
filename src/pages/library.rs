//! The exercise library: every exercise in one list, with what the filters need.

use std::collections::BTreeSet;

use serde::Serialize;

use super::frame::{About, frame};
use super::series::named;
use super::{Filled, Named, Pages};
use crate::entry::markdown::hyphenated;
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::vocabulary::{Component, Position, Support, Vocabulary};
use crate::outputs::Address;
use crate::outputs::blocks::dose::glance;
use crate::outputs::blocks::exercise::also_called;
use crate::reckon::choice::is_answered;

#[derive(Serialize)]
pub(super) struct Library {
    components: Vec<Named>,
    fields: Vec<Field>,
    exercises: Vec<Item>,
}

#[derive(Serialize)]
struct Field {
    name: &'static str,
    label: String,
    help: Option<String>,
    choices: Vec<Named>,
}

#[derive(Serialize)]
struct Item {
    href: String,
    title: String,
    /// "Also called: …"; the search reads it with all that is seen of the item.
    also_called: Option<String>,
    summary: String,
    component: Named,
    position: Named,
    dose: String,
    /// Its first drawing, for those who see it.
    figure: Option<String>,
    /// Ids with spaces between them, as the filters compare them.
    support_ids: String,
    equipment_ids: String,
    precaution_ids: String,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Library> {
    let links = pages.links(address);
    let mut exercises: Vec<&Exercise> = pages.model.exercises.values().collect();
    exercises.sort_by_key(|e| (e.component.value, e.title.value.to_lowercase(), &e.id));
    let items = exercises.iter().map(|e| Item {
        href: links.to(&Address::Exercise(e.id.clone())),
        title: e.title.value.clone(),
        also_called: also_called(e, pages.say()).map(|names| names.value),
        summary: e.summary.value.clone(),
        component: named(pages, e.component.value),
        position: position(pages, e.position.value),
        dose: glance(&e.dose, pages.say()),
        figure: super::figure::small(e),
        support_ids: joined(support_ids(e)),
        equipment_ids: joined(e.equipment.iter().map(|q| equipment_id(&q.value))),
        precaution_ids: joined(answered(pages, e).into_iter().map(str::to_string)),
    });
    let body = Library {
        components: Component::ALL.iter().map(|&c| named(pages, c)).collect(),
        fields: fields(pages, &exercises),
        exercises: items.collect(),
    };
    let mut about = About::titled(pages.words.say("library-title"));
    about.description = Some(pages.words.say("library-lead"));
    frame(pages, address, about, body)
}

/// The choices that at least one exercise fits.
fn fields(pages: &Pages<'_>, exercises: &[&Exercise]) -> Vec<Field> {
    let words = pages.words;
    let positions: BTreeSet<Position> = exercises.iter().map(|e| e.position.value).collect();
    let mut held: Vec<Named> = Support::ALL
        .iter()
        .filter(|s| exercises.iter().any(|e| supports(e).any(|held| held == **s)))
        .map(|&s| support(pages, s))
        .collect();
    if exercises.iter().any(|e| supports(e).next().is_none()) {
        held.push(Named { id: NOTHING.to_string(), word: pages.say().capital(&words.say("support-none")) });
    }
    let equipment: BTreeSet<&str> =
        exercises.iter().flat_map(|e| e.equipment.iter().map(|q| q.value.as_str())).collect();
    let precautions: BTreeSet<&str> = exercises.iter().flat_map(|e| answered(pages, e)).collect();
    let field = |name, label: &str, help: Option<&str>, choices: Vec<Named>| Field {
        name,
        label: words.say(label),
        help: help.map(|h| words.say(h)),
        choices,
    };
    let all = [
        field(
            "position",
            "library-position",
            None,
            positions.into_iter().map(|p| position(pages, p)).collect(),
        ),
        field("support", "library-support", None, held),
        field(
            "equipment",
            "library-equipment",
            None,
            equipment
                .into_iter()
                .map(|q| Named { id: equipment_id(q), word: pages.say().capital(q) })
                .collect(),
        ),
        field(
            "precaution",
            "library-precaution",
            Some("library-precaution-help"),
            precautions
                .into_iter()
                .map(|p| Named {
                    id: p.to_string(),
                    word: pages.say().capital(&pages.say().precaution(&pages.model.site, p)),
                })
                .collect(),
        ),
    ];
    all.into_iter().filter(|f| !f.choices.is_empty()).collect()
}

/// Stands for no support among the ids of supports.
const NOTHING: &str = "none";

fn support_ids(e: &Exercise) -> impl Iterator<Item = String> {
    let held: Vec<String> = supports(e).map(|s| s.word().to_string()).collect();
    let nothing = held.is_empty().then(|| NOTHING.to_string());
    held.into_iter().chain(nothing)
}

/// What the base form or a variation holds on to.
fn supports(e: &Exercise) -> impl Iterator<Item = Support> {
    let all = Form::all(e).flat_map(|form| form.support());
    all.map(|s| s.value).collect::<BTreeSet<_>>().into_iter()
}

/// The precautions whose people have a safe form of the exercise, or of an easier one that it leads to.
fn answered<'p>(pages: &'p Pages<'_>, e: &'p Exercise) -> BTreeSet<&'p str> {
    let precautions = pages.model.site.catalogue.precautions.keys().map(String::as_str);
    precautions.filter(|precaution| is_answered(e, None, precaution, pages.model)).collect()
}

fn position(pages: &Pages<'_>, position: Position) -> Named {
    let id = position.word();
    Named { id: id.to_string(), word: pages.words.say(&format!("position-{id}")) }
}

fn support(pages: &Pages<'_>, support: Support) -> Named {
    let id = support.word();
    Named { id: id.to_string(), word: pages.say().capital(&pages.words.say(&format!("support-{id}"))) }
}

/// An id without spaces: the filters split lists of ids at spaces.
fn equipment_id(words: &str) -> String {
    hyphenated(words)
}

fn joined(ids: impl Iterator<Item = String>) -> String {
    ids.collect::<Vec<_>>().join(" ")
}
