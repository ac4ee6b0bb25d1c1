//! What a page carries for a reader who has said what is true for her: the table in which its script looks up the form that
//! is hers, with the words that it needs, and each form that somebody may get in the reader's words. Which form that
//! is, `reckon` says; here it is put into words.

use std::collections::{BTreeMap, BTreeSet};

use fluent_bundle::FluentValue;
use serde::Serialize;

use super::dose::DoseBlock;
use super::figure::FigureBlock;
use super::form::{equipment, holds, position};
use super::phrases::Phrases;
use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Exercise};
use crate::model::form::Form;
use crate::model::prose::Section;
use crate::model::source::Spanned;
use crate::model::vocabulary::{CautionLevel, SectionName};
use crate::model::week::WeekExercise;
use crate::reckon::choice::lookup::{Lookup, Tried, words_of};
use crate::reckon::dose::Practice;
use crate::reckon::safety::{self, Offer, Why};

/// The table of a page. Numbers are places in its lists.
#[derive(Clone, Debug, Serialize)]
pub struct Table<'m> {
    /// The precautions that everybody has for whom the page is.
    have: Vec<usize>,
    /// Every precaution that the workspace knows: its id, and what a client calls it.
    precautions: Vec<(&'m str, String)>,
    demands: Vec<String>,
    /// The words by which a thing is compared, and what it is called.
    things: Vec<(String, String)>,
    /// The weightiest first: whether it says to ask, and the sentence, with `{who}` and `{demand}` in it.
    reasons: Vec<(bool, String)>,
    /// By id: the title, and where its page is.
    exercises: BTreeMap<&'m str, (&'m str, String)>,
    forms: Vec<Row<'m>>,
    /// For each exercise of the page, what is tried: at each exercise on the way down whom a caution sends where, then
    /// its forms.
    asked: BTreeMap<&'m str, Vec<RungRow>>,
    /// What the script says beside the reasons.
    say: BTreeMap<&'static str, String>,
}

/// At an exercise: the people whom a caution sends to a form, and the form; then the forms as written.
type RungRow = (Vec<(Vec<usize>, usize)>, Vec<usize>);

/// A form.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
struct Row<'m> {
    of: &'m str,
    /// The place of its variation; none for the exercise as it stands.
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<&'m str>,
    /// It is for nobody.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    never: bool,
    no: Vec<Refusal>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    needs: Vec<usize>,
    /// The precautions by which a caution changes its dose.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    doses: Vec<usize>,
}

/// A precaution, the weightiest reason, and the demand that it is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
struct Refusal(usize, usize, #[serde(skip_serializing_if = "Option::is_none")] Option<usize>);

/// What is tried for an exercise, with the places of its forms in the table.
#[derive(Clone, Debug)]
pub struct Asked<'m> {
    pub exercise: &'m Exercise,
    pub lookup: Lookup<'m>,
    pub rows: Vec<usize>,
}

impl<'m> Table<'m> {
    /// The table for some exercises, each as a week uses it or by itself. `have` is what everybody has for whom the page is;
    /// `href` leads to the page of an exercise.
    pub fn of(
        exercises: &[(&'m Exercise, Option<&'m WeekExercise>)],
        have: &[&str],
        model: &'m Model,
        say: Phrases<'_>,
        href: impl Fn(&str) -> String,
    ) -> (Table<'m>, Vec<Asked<'m>>) {
        let site = &model.site;
        let known = site.catalogue.precautions.keys();
        let mut table = Table {
            have: Vec::new(),
            precautions: known.map(|id| (id.as_str(), say.precaution(site, id))).collect(),
            demands: Vec::new(),
            things: Vec::new(),
            reasons: REASONS.iter().map(|&(asks, id)| (asks, sentence(id, say))).collect(),
            exercises: BTreeMap::new(),
            forms: Vec::new(),
            asked: BTreeMap::new(),
            say: SAID.iter().map(|&id| (id, said(id, say))).collect(),
        };
        table.have = table.places(have.iter().copied());
        let mut rows = BTreeMap::new();
        let asked = exercises.iter().map(|&(exercise, used)| {
            let lookup = Lookup::of(exercise, used, model);
            let places: Vec<usize> = lookup
                .forms
                .iter()
                .map(|form| {
                    let e = form.form().exercise;
                    let named = || (e.title.value.as_str(), href(&e.id));
                    table.exercises.entry(&e.id).or_insert_with(named);
                    let row = table.row(form, model, say);
                    *rows.entry(row).or_insert_with_key(|row| {
                        table.forms.push(row.clone());
                        table.forms.len() - 1
                    })
                })
                .collect();
            let rungs = lookup.rungs.iter().map(|rung| {
                let named =
                    rung.named.iter().map(|(who, at)| (table.places(who.iter().copied()), places[*at]));
                (named.collect(), rung.own.iter().map(|&at| places[at]).collect())
            });
            let rungs = rungs.collect();
            table.asked.insert(&exercise.id, rungs);
            Asked { exercise, lookup, rows: places }
        });
        let asked = asked.collect();
        (table, asked)
    }

    /// As JSON that can stand inside a page.
    pub fn json(&self) -> String {
        // Words, numbers and lists of them can always be written as JSON.
        serde_json::to_string(self).unwrap_or_default().replace('<', "\\u003c")
    }

    fn row(&mut self, form: &Tried<'m>, model: &Model, say: Phrases<'_>) -> Row<'m> {
        let Form { exercise, variation } = form.form();
        let mut no = Vec::new();
        for (place, (id, _)) in self.precautions.iter().enumerate() {
            // The weightiest stands first.
            let Some(why) = form.refusals.get(id).and_then(|why| why.first()) else { continue };
            let demand = why.demand().map(|demand| say.demand(&model.site, demand.id));
            no.push(Refusal(place, reason(why), demand.map(|demand| place_in(&mut self.demands, demand))));
        }
        let needs = form.needs().iter().map(|need| {
            let words = joined(&words_of(&need.value, model));
            place_in(&mut self.things, (words, need.value.clone()))
        });
        let needs = needs.collect();
        let all: Vec<&str> = self.precautions.iter().map(|(id, _)| *id).collect();
        let mut changing = form.offer.cautions(&all, model);
        changing.retain(|caution| caution.dose.is_some());
        let changed = all.iter().copied().filter(|p| changing.iter().any(|caution| caution.names(p)));
        Row {
            doses: self.places(changed),
            of: &exercise.id,
            at: variation.and_then(|v| exercise.variations.iter().position(|other| other.span == v.span)),
            title: variation.map(|v| v.title.value.as_str()),
            never: !form.against_all.is_empty(),
            needs,
            no,
        }
    }

    fn places<'p>(&self, precautions: impl Iterator<Item = &'p str>) -> Vec<usize> {
        let place = |id: &str| self.precautions.iter().position(|(known, _)| *known == id);
        precautions.filter_map(place).collect::<BTreeSet<_>>().into_iter().collect()
    }
}

fn place_in<T: PartialEq>(list: &mut Vec<T>, item: T) -> usize {
    list.iter().position(|known| *known == item).unwrap_or_else(|| {
        list.push(item);
        list.len() - 1
    })
}

/// The words by which things are compared, as one text: a script splits it at its spaces.
pub fn joined(words: &BTreeSet<String>) -> String {
    words.iter().map(String::as_str).collect::<Vec<_>>().join(" ")
}

/// Why a form is not for her, in the order of their weight, and whether it says to ask.
const REASONS: [(bool, &str); 7] = [
    (false, "yours-unsure"),
    (false, "yours-stop"),
    (false, "yours-avoid"),
    (false, "yours-other-way"),
    (true, "yours-ask-first"),
    (true, "yours-ask"),
    (true, "yours-modify"),
];

/// The place of its sentence among the reasons.
fn reason(why: &Why<'_>) -> usize {
    match why {
        Why::Unknown { .. } | Why::Unread { .. } | Why::Lost { .. } | Why::Bare => 0,
        Why::Stop { .. } => 1,
        Why::Avoid { .. } => 2,
        Why::Instead { .. } => 3,
        Why::AskFirst { .. } => 4,
        Why::Ask { .. } => 5,
        Why::NoCaution { .. } => 6,
    }
}

fn sentence(id: &str, say: Phrases<'_>) -> String {
    say.words.say_with(id, &[("precaution", "{who}".into()), ("demand", "{demand}".into())])
}

/// What the script says, with `{title}` and `{things}` in it.
const SAID: [&str; 9] = [
    "yours-none",
    "yours-not",
    "yours-ask-before",
    "yours-lacks",
    "yours-show",
    "yours-hide",
    "yours-card-fine",
    "yours-card-form",
    "yours-card-not",
];

fn said(id: &str, say: Phrases<'_>) -> String {
    let named = |name| (name, FluentValue::from(format!("{{{name}}}")));
    let arguments = ["title", "things"].map(named);
    say.words.say_with(id, &arguments)
}

/// A form that somebody may get, in the reader's words.
#[derive(Clone, Debug, Serialize)]
pub struct FormBlock<'m> {
    /// "For you: Seated heel press"; of the exercise as it stands, "For you".
    pub title: String,
    /// None of the exercise as it stands, whose words are on the page already: nothing but what is said to her alone.
    pub whole: Option<WholeForm<'m>>,
    /// The cautions that belong to it and tell somebody how to do it, the strictest first.
    pub cautions: Vec<FormCaution<'m>>,
    /// Her dose: each of them for those whom these cautions name and no others that change it. Empty of the exercise as it
    /// stands where no caution changes it, and where there are too many to say.
    pub doses: Vec<FormDose>,
}

/// All that is said of a form that is not the one which its page shows.
#[derive(Clone, Debug, Serialize)]
pub struct WholeForm<'m> {
    /// What it is; of a variation that keeps the steps, the one change.
    pub text: &'m Spanned<String>,
    pub keeps_steps: bool,
    /// Its position, what to hold and what to have.
    pub needs: String,
    /// The steps of a variation that has its own.
    pub steps: &'m [Spanned<String>],
    #[serde(skip)]
    pub figures: Vec<FigureBlock<'m>>,
    /// The steps of an exercise: set up, move, finish.
    #[serde(skip)]
    pub sections: Vec<&'m Section>,
}

/// A caution of a form.
#[derive(Clone, Debug, Serialize)]
pub struct FormCaution<'m> {
    /// The ids of the precautions whose people it names, with spaces between them; empty for everyone.
    pub who: String,
    pub text: &'m Spanned<String>,
    /// The number among those that change the dose.
    pub dose: Option<String>,
}

/// A dose, and the numbers of the cautions that change it so.
#[derive(Clone, Debug, Serialize)]
pub struct FormDose {
    pub when: String,
    pub dose: DoseBlock,
}

/// So many cautions of one form may change its dose: each set of them gives a dose.
const DOSE_CHANGES: usize = 4;

impl<'m> FormBlock<'m> {
    /// A form that is tried for an exercise.
    pub fn of(offer: &Offer<'m>, asked: &Exercise, model: &'m Model, say: Phrases<'_>) -> FormBlock<'m> {
        let form = offer.form;
        let is_shown = form.is(&Form::base(asked));
        let all: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
        let mut changes: Vec<&Caution> = Vec::new();
        let cautions: Vec<FormCaution<'m>> = offer
            .cautions(&all, model)
            .into_iter()
            .filter(|caution| caution.level.value == CautionLevel::Adapt && !leads_on(caution, offer, model))
            .map(|caution| {
                let dose = caution.dose.as_ref().filter(|_| caution.applies != Applies::Everyone);
                FormCaution {
                    who: who(caution),
                    text: &caution.text,
                    dose: dose.map(|_| {
                        changes.push(caution);
                        (changes.len() - 1).to_string()
                    }),
                }
            })
            .collect();
        let has_own = !is_shown || !changes.is_empty();
        let doses = if has_own { doses(offer, &changes, model, say) } else { Vec::new() };
        FormBlock {
            title: match is_shown {
                true => say.words.say("for-you"),
                false => say.words.say_with("yours-form", &[("title", form.title().value.as_str().into())]),
            },
            whole: (!is_shown).then(|| WholeForm::of(form, say)),
            cautions,
            doses,
        }
    }
}

impl<'m> WholeForm<'m> {
    fn of(form: Form<'m>, say: Phrases<'_>) -> WholeForm<'m> {
        let support = holds(&form, say).map(|s| format!("{}: {s}", say.words.say("hold-on-to")));
        let things = (!form.equipment().is_empty())
            .then(|| format!("{}: {}", say.words.say("what-you-need"), equipment(&form, say)));
        let needs: Vec<String> =
            [Some(position(&form, say)), support, things].into_iter().flatten().collect();
        let is_step = |section: &&Section| {
            matches!(section.name, Some(SectionName::SetUp | SectionName::Move | SectionName::Finish))
        };
        let exercise = form.exercise;
        WholeForm {
            text: form.variation.map_or(&exercise.summary, |variation| &variation.text),
            keeps_steps: form.variation.is_some() && form.keeps_steps(),
            needs: format!("{}.", needs.join(". ")),
            steps: form.variation.map_or(&[], |variation| variation.steps()),
            figures: form.figures().iter().map(FigureBlock::of).collect(),
            sections: match form.keeps_steps() {
                true => exercise.prose.sections.iter().filter(is_step).collect(),
                false => Vec::new(),
            },
        }
    }
}

/// True for a caution that sends those it names to another form than this, which is then not theirs.
fn leads_on(caution: &Caution, offer: &Offer<'_>, model: &Model) -> bool {
    let other = safety::instead(caution, offer.form.exercise, model);
    other.is_some_and(|other| !other.form.is(&offer.form))
}

fn who(caution: &Caution) -> String {
    match &caution.applies {
        Applies::Everyone => String::new(),
        Applies::Precautions(list) => list.iter().map(|p| p.value.as_str()).collect::<Vec<_>>().join(" "),
    }
}

/// The dose for each set of the cautions that change it, beside those for everyone, which always do. As the sheet of a
/// person has it.
fn doses(offer: &Offer<'_>, changes: &[&Caution], model: &Model, say: Phrases<'_>) -> Vec<FormDose> {
    if changes.len() > DOSE_CHANGES {
        return Vec::new();
    }
    let form = offer.form;
    let mut everyone = offer.cautions(&[], model);
    everyone.retain(|caution| caution.level.value == CautionLevel::Adapt);
    let of_set = |set: usize| {
        let hers = changes.iter().enumerate().filter(|(at, _)| set >> at & 1 == 1).map(|(_, c)| *c);
        let hers: Vec<&Caution> = hers.chain(everyone.iter().copied()).collect();
        let changed = hers.iter().filter_map(|caution| caution.dose.as_ref());
        let dose: Dose = changed.fold(offer.dose(), |dose, change| dose.overridden_by(change));
        let sound = form.exercise.standing.is_sound("dose");
        let length = sound.then(|| Practice::of_form(&form, &dose).whole());
        let when: Vec<String> =
            (0..changes.len()).filter(|at| set >> at & 1 == 1).map(|at| at.to_string()).collect();
        FormDose { when: when.join(" "), dose: DoseBlock::of(&dose, length, false, say) }
    };
    (0..1 << changes.len()).map(of_set).collect()
}
