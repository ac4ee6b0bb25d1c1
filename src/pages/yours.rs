//! What is true for the reader: the page on which she says it, and what other pages carry so that their script can show the
//! form that is hers first. Without scripts they show every form, each with whom it is not for.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::exercise::block_id;
use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::prose::{ProseContext, html};
use super::{Filled, LabeledId, Pages};
use crate::model::exercise::{Applies, Exercise};
use crate::model::form::Form;
use crate::model::week::WeekExercise;
use crate::outputs::Address;
use crate::outputs::blocks::way::not_for;
use crate::outputs::blocks::yours::{Asked, FormBlock, Table, joined};
use crate::reckon::choice::lookup::{Lookup, words_at_home};
use crate::reckon::safety::Offer;

/// What a page carries for some exercises.
pub(super) struct Mine<'m> {
    /// As JSON that can stand inside a page.
    pub(super) table: String,
    /// For each exercise.
    pub(super) places: Vec<Place<'m>>,
}

/// Where a page shows the form of an exercise that is the reader's.
#[derive(Serialize)]
pub(super) struct Place<'m> {
    id: &'m str,
    title: &'m str,
    /// To the page on which she says what is true for her.
    say: String,
    /// "This exercise is not for you as it is shown if you have …".
    not_for: Option<String>,
    forms: Vec<FormView<'m>>,
}

/// A form that somebody may get.
#[derive(Serialize)]
struct FormView<'m> {
    /// Its place in the table.
    at: usize,
    #[serde(flatten)]
    block: FormBlock<'m>,
    /// To the exercise that it is of, where that is another.
    href: Option<String>,
    exercise_title: &'m str,
    figures: Vec<FigureView>,
    sections: Vec<StepsView>,
}

/// A part of the steps of an exercise.
#[derive(Serialize)]
struct StepsView {
    title: String,
    html: String,
}

/// The table for some exercises alone, each as a week uses it or by itself; `have` is what everybody has for whom the page
/// is.
pub(super) fn table<'m>(
    pages: &Pages<'m>,
    address: &Address,
    exercises: &[(&'m Exercise, Option<&'m WeekExercise>)],
    have: &[&str],
) -> String {
    read(pages, address, exercises, have).0.json()
}

fn read<'m>(
    pages: &Pages<'m>,
    address: &Address,
    exercises: &[(&'m Exercise, Option<&'m WeekExercise>)],
    have: &[&str],
) -> (Table<'m>, Vec<Asked<'m>>) {
    let links = pages.links(address);
    let href = |id: &str| links.to(&Address::Exercise(id.to_string()));
    Table::of(exercises, have, pages.model, pages.say(), href)
}

impl<'m> Mine<'m> {
    /// The table with a place for each exercise.
    pub(super) fn of(
        pages: &Pages<'m>,
        address: &Address,
        exercises: &[(&'m Exercise, Option<&'m WeekExercise>)],
        have: &[&str],
    ) -> Mine<'m> {
        let (table, asked) = read(pages, address, exercises, have);
        let say = pages.links(address).to(&Address::Yours);
        let place = |asked: &Asked<'m>| {
            let base = Offer::base(asked.exercise, asked.lookup.forms.first().and_then(|f| f.offer.changed));
            let forms = asked.lookup.forms.iter().zip(&asked.rows);
            Place {
                id: &asked.exercise.id,
                title: &asked.exercise.title.value,
                say: say.clone(),
                not_for: not_for("care-another", &base, pages.model, pages.say()),
                forms: forms.map(|(form, &at)| form_view(pages, address, asked, &form.offer, at)).collect(),
            }
        };
        Mine { table: table.json(), places: asked.iter().map(place).collect() }
    }
}

fn form_view<'m>(
    pages: &Pages<'m>,
    address: &Address,
    asked: &Asked<'m>,
    offer: &Offer<'m>,
    at: usize,
) -> FormView<'m> {
    let exercise = offer.form.exercise;
    let block = FormBlock::of(offer, asked.exercise, pages.model, pages.say());
    let links = pages.links(address);
    let prefix = format!("{}.yours.{at}.", block_id(&asked.exercise.id));
    let title = offer.form.title().value.as_str();
    let mut figures = Vec::new();
    let mut sections = Vec::new();
    if let Some(whole) = &block.whole {
        let entry =
            ProseContext { address, deeper: 2, label: exercise.title.value.clone(), prefix: prefix.clone() };
        let drawn = whole.figures.iter().enumerate();
        figures = drawn
            .filter_map(|(n, f)| {
                figure::view(pages, &links, f, &format!("{prefix}figure.{}", n + 1), title, false)
            })
            .collect();
        sections = whole
            .sections
            .iter()
            .map(|section| StepsView {
                title: section.title.value.clone(),
                html: html(pages, &entry, &section.blocks),
            })
            .collect();
    }
    let is_other = exercise.id != asked.exercise.id;
    FormView {
        at,
        block,
        href: is_other.then(|| links.to(&Address::Exercise(exercise.id.clone()))),
        exercise_title: &exercise.title.value,
        figures,
        sections,
    }
}

/// The page on which a reader says what is true for her.
#[derive(Serialize)]
pub(super) struct Yours {
    /// Precautions, a screen for each kind.
    groups: Vec<Group>,
    /// By the words that they are compared by.
    things: Vec<LabeledId>,
    /// "These exercises are made for people with …".
    all_have: Option<String>,
    /// How many screens there are.
    count: usize,
}

#[derive(Serialize)]
struct Group {
    id: &'static str,
    title: String,
    precautions: Vec<LabeledId>,
}

/// The kinds of precautions, each with those the program comes with; what a workspace adds stands in the last.
const GROUPS: [(&str, &[&str]); 5] = [
    (
        "bones",
        &[
            "low-bone-density",
            "spine-fracture",
            "other-fracture",
            "wrist-fracture",
            "rounded-upper-back",
            "spinal-stenosis",
            "bone-cancer",
        ],
    ),
    ("joints", &["hip-replacement", "hip-arthritis", "knee-replacement", "knee-arthritis", "shoulder-pain"]),
    (
        "balance",
        &[
            "unsteady",
            "no-floor",
            "dizziness",
            "dizzy-on-standing",
            "foot-numbness",
            "parkinsons",
            "stroke",
            "memory",
        ],
    ),
    (
        "heart",
        &[
            "high-blood-pressure",
            "heart-or-lung",
            "hernia-or-aneurysm",
            "recent-surgery",
            "pelvic-floor-symptoms",
            "glaucoma",
            "eye-surgery",
        ],
    ),
    ("more", &[]),
];

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Yours> {
    let say = pages.say();
    let site = &pages.model.site;
    let everyone = everyone_has(pages);
    let asked: Vec<&str> = mattering(pages).into_iter().filter(|id| !everyone.contains(id)).collect();
    let named = |id: &str| GROUPS.iter().any(|(_, ids)| ids.contains(&id));
    let label = |id: &str| LabeledId { id: id.to_string(), word: say.capital(&say.precaution(site, id)) };
    let groups = GROUPS.iter().map(|&(id, ids)| Group {
        id,
        title: pages.words.say(&format!("yours-group-{id}")),
        precautions: match ids {
            [] => asked.iter().filter(|id| !named(id)).map(|id| label(id)).collect(),
            ids => ids.iter().filter(|id| asked.contains(id)).map(|id| label(id)).collect(),
        },
    });
    let groups: Vec<Group> = groups.filter(|group| !group.precautions.is_empty()).collect();
    let things = things(pages);
    let who: Vec<String> = everyone.iter().map(|id| say.precaution(site, id)).collect();
    let body = Yours {
        count: groups.len() + usize::from(!things.is_empty()),
        groups,
        things,
        all_have: (!who.is_empty())
            .then(|| pages.words.say_with("yours-all-have", &[("who", say.and(&who).into())])),
    };
    let mut about = About::titled(pages.words.say("yours-title"));
    about.description = Some(pages.words.say("yours-lead"));
    frame(pages, address, about, body)
}

/// What everybody has for whom any exercise of the site is: nobody need say it.
fn everyone_has<'m>(pages: &Pages<'m>) -> BTreeSet<&'m str> {
    let mut all = pages.model.series.values().map(|series| series.all_have_ids().collect::<BTreeSet<_>>());
    let first = all.next().unwrap_or_default();
    all.fold(first, |left, have| left.intersection(&have).copied().collect())
}

/// The precautions that change anything: by which some form is refused, or of which a caution speaks.
fn mattering<'m>(pages: &Pages<'m>) -> BTreeSet<&'m str> {
    let mut all = BTreeSet::new();
    for exercise in pages.model.exercises.values() {
        let lookup = Lookup::of(exercise, None, pages.model);
        all.extend(lookup.forms.iter().flat_map(|form| form.refusals.keys().copied()));
        for caution in &exercise.cautions {
            if let Applies::Precautions(who) = &caution.applies {
                all.extend(who.iter().map(|p| p.value.as_str()));
            }
        }
    }
    all.retain(|id| pages.model.site.catalogue.precautions.contains_key(*id));
    all
}

/// The things that some form needs; of those with the same words, the one that is said shortest.
fn things(pages: &Pages<'_>) -> Vec<LabeledId> {
    let mut all: BTreeMap<String, &str> = BTreeMap::new();
    for thing in pages.model.exercises.values().flat_map(Form::all).flat_map(|form| form.equipment()) {
        let Some(words) = words_at_home(&thing.value, pages.model) else { continue };
        let told = thing.value.as_str();
        let known = all.entry(joined(&words)).or_insert(told);
        *known = std::cmp::min_by_key(*known, told, |told| (told.len(), *told));
    }
    let mut all: Vec<LabeledId> =
        all.into_iter().map(|(id, word)| LabeledId { id, word: pages.say().capital(word) }).collect();
    all.sort_by(|a, b| a.word.cmp(&b.word));
    all
}
