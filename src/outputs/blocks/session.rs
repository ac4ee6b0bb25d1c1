//! What is said of exercises while they are counted out: each form that may be somebody's, with its cautions, its steps
//! and its parts in seconds.

use serde::Serialize;

use super::caution::{CautionBlock, in_order};
use super::dose::count;
use super::exercise::{ExerciseBlock, SectionBlock, block};
use super::figure::FigureBlock;
use super::form::{equipment, holds, position};
use super::minutes::about;
use super::phrases::Phrases;
use super::practice::{self, Spread};
use super::turn::on_days;
use super::used::UsedExercise;
use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Way};
use crate::model::form::Form;
use crate::model::source::Spanned;
use crate::model::vocabulary::{Day, SectionName, Vocabulary};
use crate::model::week::Week;
use crate::reckon::choice::lookup::Lookup;
use crate::reckon::days::DaySet;
use crate::reckon::dose::{Practice, Session};
use crate::reckon::safety::{Offer, belongs};
use crate::reckon::session::{Ends, Part, Reps, Timeline};

/// One session.
#[derive(Clone, Debug)]
pub struct SessionBlock<'m> {
    /// "About 20 to 30 minutes for all the exercises together."
    pub time: Option<String>,
    pub exercises: Vec<AskedBlock<'m>>,
}

/// An exercise that is asked for, with its forms.
#[derive(Clone, Debug)]
pub struct AskedBlock<'m> {
    pub exercise: &'m Exercise,
    /// "Exercise 2 of 4"; `None` for one by itself.
    pub number_line: Option<String>,
    /// The days on which one way to spread the week has it, and what is said on all others; `None` where there is none.
    pub days: Option<(DaySet, String)>,
    /// The exercise as it stands first; never empty.
    pub forms: Vec<CountedForm<'m>>,
}

/// A form that can be counted out.
#[derive(Clone, Debug, Serialize)]
pub struct CountedForm<'m> {
    #[serde(skip)]
    pub exercise: &'m Exercise,
    /// Which of the exercise's variations it is, from 0; `None` for the exercise as it stands.
    #[serde(skip)]
    pub variation: Option<usize>,
    pub title: &'m Spanned<String>,
    /// "8 to 12 times, 2 sets": what is done on one day.
    pub dose: String,
    /// That the fewest are counted, where the dose is a range.
    pub fewest: Option<String>,
    pub position_word: String,
    pub support_text: Option<String>,
    pub equipment_text: String,
    /// The cue of the week, for the exercise as it stands.
    pub focus: Option<&'m Spanned<String>>,
    /// What a variation is, in a sentence.
    pub text: Option<&'m Spanned<String>>,
    /// The steps of a variation that has its own.
    pub steps: &'m [Spanned<String>],
    /// How to get into place, to move and to finish, where the steps are those of the exercise.
    #[serde(skip)]
    pub sections: Vec<SectionBlock<'m>>,
    #[serde(skip)]
    pub cautions: Vec<CautionBlock<'m>>,
    /// The precautions for which one of them changes the dose, so that it is not to be counted as it stands.
    #[serde(skip)]
    pub other_doses: Vec<&'m str>,
    #[serde(skip)]
    pub figure: Option<FigureBlock<'m>>,
    /// What is counted first, and a line of words for each part of it.
    #[serde(skip)]
    pub timeline: Timeline,
    pub parts: Vec<String>,
    /// All that the dose allows, where that is more.
    #[serde(skip)]
    pub most: Option<(Timeline, Vec<String>)>,
    /// In words, or another of the forms that are carried.
    #[serde(skip)]
    pub easier: Vec<EasierWay<'m>>,
}

/// An easier way.
#[derive(Clone, Copy, Debug)]
pub enum EasierWay<'m> {
    Text(&'m str),
    /// The place of a form among those of the exercise that is asked for.
    Form(usize),
}

impl<'m> SessionBlock<'m> {
    /// The exercises of a week in its doses.
    pub fn of_week(model: &'m Model, week: &'m Week, say: Phrases<'_>) -> SessionBlock<'m> {
        let used = UsedExercise::of_week(model, week);
        let spread = practice::of_week(model, week, say).and_then(|practice| practice.spread);
        let whole = Session::of(model, week).sum(Practice::whole);
        let known = used.iter().all(|used| used.length().is_some()) && !used.is_empty();
        let minutes = super::minutes::minutes(whole, None, say);
        SessionBlock {
            time: known.then(|| say.words.say_with("practice-together", &[("minutes", minutes.into())])),
            exercises: used.iter().map(|used| asked(used, spread.as_ref(), model, say)).collect(),
        }
    }

    /// The forms that were chosen for a person, each in her dose and with her cautions. There is no easier way: she does what
    /// was chosen for her.
    pub fn of_person(
        used: &[UsedExercise<'_, 'm>],
        model: &'m Model,
        say: Phrases<'_>,
    ) -> Vec<CountedForm<'m>> {
        let hers = |used: &UsedExercise<'_, 'm>| {
            let chosen = used.chosen?;
            let cautions = chosen.cautions.iter().map(|caution| CautionBlock::hers(caution)).collect();
            let focus = block(used, model, say).focus;
            Some(CountedForm { cautions, focus, ..in_dose(&chosen.form, &chosen.dose, model, say) })
        };
        used.iter().filter_map(hers).collect()
    }

    /// One exercise in its own dose.
    pub fn of_exercise(model: &'m Model, exercise: &'m Exercise, say: Phrases<'_>) -> SessionBlock<'m> {
        let used = UsedExercise::alone(exercise);
        SessionBlock {
            time: used.length().map(|length| format!("{}.", about(length, None, say))),
            exercises: vec![asked(&used, None, model, say)],
        }
    }
}

/// The days of an exercise in a way to spread the week.
fn days_of(exercise: &Exercise, spread: &Spread<'_>) -> DaySet {
    let all = Day::ALL.iter().zip(&spread.days);
    let its = all.filter(|(_, day)| day.exercises.iter().any(|done| done.title.span == exercise.title.span));
    DaySet::of(its.map(|(day, _)| *day))
}

fn asked<'m>(
    used: &UsedExercise<'_, 'm>,
    spread: Option<&Spread<'m>>,
    model: &'m Model,
    say: Phrases<'_>,
) -> AskedBlock<'m> {
    let lookup = Lookup::of(used.exercise, used.in_week, model);
    let mut offers: Vec<Offer<'m>> = lookup.forms.iter().map(|tried| tried.offer).collect();
    // What the exercise offers as easier is there, whether or not it would be chosen for anybody.
    for change in &used.exercise.regressions {
        let Some(easier) = change.exercise().and_then(|id| model.exercises.get(&id.value)) else { continue };
        let offer = Offer { form: Form::base(easier), link: Some(change), changed: None };
        if !offers.iter().any(|known| known.form.is(&offer.form)) {
            offers.push(offer);
        }
    }
    let forms: Vec<Form<'m>> = offers.iter().map(|offer| offer.form).collect();
    let days = spread.map(|spread| days_of(used.exercise, spread));
    let not_today = |days| say.words.say_with("now-not-today", &[("days", on_days(days, say).into())]);
    AskedBlock {
        exercise: used.exercise,
        number_line: used.number_line(say),
        days: days.map(|days| (days, not_today(days))),
        forms: offers.iter().map(|offer| counted(used, offer, &forms, model, say)).collect(),
    }
}

fn counted<'m>(
    used: &UsedExercise<'_, 'm>,
    offer: &Offer<'m>,
    forms: &[Form<'m>],
    model: &'m Model,
    say: Phrases<'_>,
) -> CountedForm<'m> {
    let form = offer.form;
    let demands = offer.demands(model);
    let own = |c: &&Caution| belongs(c, &form, &demands);
    let as_it_stands = form.is(&Form::base(used.exercise));
    CountedForm {
        focus: used.in_week.filter(|_| as_it_stands).and_then(|row| row.focus.as_ref()),
        cautions: in_order(form.exercise.cautions.iter().filter(own), model, say),
        other_doses: form
            .exercise
            .cautions
            .iter()
            .filter(|c| own(c) && c.dose.is_some())
            .flat_map(|c| match &c.applies {
                Applies::Everyone => &[][..],
                Applies::Precautions(who) => who.as_slice(),
            })
            .map(|precaution| precaution.value.as_str())
            .collect(),
        easier: easier(&form, forms, model),
        ..in_dose(&form, &offer.dose(), model, say)
    }
}

/// A form in a dose, before anybody has said whose it is.
fn in_dose<'m>(form: &Form<'m>, dose: &Dose, model: &'m Model, say: Phrases<'_>) -> CountedForm<'m> {
    let written: ExerciseBlock<'m> = block(&UsedExercise::alone(form.exercise), model, say);
    let with = |ends| Timeline::of(form, dose, ends);
    let (timeline, most) = (with(Ends::FEWEST), with(Ends::MOST));
    let most = Some(most).filter(|most| *most != timeline);
    CountedForm {
        exercise: form.exercise,
        variation: form
            .variation
            .and_then(|v| form.exercise.variations.iter().position(|w| w.span == v.span)),
        title: form.title(),
        dose: count(dose, say),
        fewest: most.as_ref().map(|_| fewest(dose, say)),
        position_word: position(form, say),
        support_text: holds(form, say).map(|s| say.capital(&s)),
        equipment_text: equipment(form, say),
        focus: None,
        text: form.variation.map(|variation| &variation.text),
        steps: form.variation.map_or(&[], |variation| variation.steps()),
        sections: written.sections.into_iter().filter(|s| form.keeps_steps() && is_done(s)).collect(),
        cautions: Vec::new(),
        other_doses: Vec::new(),
        figure: form.figures().first().map(FigureBlock::of),
        parts: lines(&timeline, say),
        timeline,
        most: most.map(|most| {
            let lines = lines(&most, say);
            (most, lines)
        }),
        easier: Vec::new(),
    }
}

/// What is done, rather than what is felt or known.
fn is_done(section: &SectionBlock<'_>) -> bool {
    matches!(section.section.name, Some(SectionName::SetUp | SectionName::Move | SectionName::Finish))
}

/// The easier ways of a form: those of its exercise in the order written, then its variations.
fn easier<'m>(form: &Form<'m>, forms: &[Form<'m>], model: &'m Model) -> Vec<EasierWay<'m>> {
    let exercise = form.exercise;
    let place = |other: Form<'m>| forms.iter().position(|known| known.is(&other)).map(EasierWay::Form);
    let regression = |change: &'m Change| match &change.way {
        Way::Text(text) => Some(EasierWay::Text(&text.value)),
        Way::Exercise { id, .. } => place(Form::base(model.exercises.get(&id.value)?)),
    };
    let variations = exercise.variations.iter().filter(|_| form.variation.is_none());
    let variations = variations.filter_map(|v| place(Form { exercise, variation: Some(v) }));
    exercise.regressions.iter().filter_map(regression).chain(variations).collect()
}

/// "The voice counts 8 times, 2 sets. When that is easy, do as many as 12 times, 3 sets."
fn fewest(dose: &Dose, say: Phrases<'_>) -> String {
    let at = |high: bool| {
        let mut dose = dose.clone();
        for amount in [&mut dose.reps, &mut dose.sets].into_iter().flatten() {
            let one = if high { amount.value.high } else { amount.value.low };
            (amount.value.low, amount.value.high) = (one, one);
        }
        for time in [&mut dose.hold, &mut dose.time].into_iter().flatten() {
            let one = if high { time.value.high } else { time.value.low };
            (time.value.low, time.value.high) = (one, one);
        }
        count(&dose, say)
    };
    say.words.say_with("now-fewest", &[("few", at(false).into()), ("many", at(true).into())])
}

/// Each part in words, with its seconds.
fn lines(timeline: &Timeline, say: Phrases<'_>) -> Vec<String> {
    timeline.parts.iter().map(|part| line(part, say)).collect()
}

fn line(part: &Part, say: Phrases<'_>) -> String {
    let lasting = |id: &str, length: u64| say.words.say_with(id, &[("time", time(length, say).into())]);
    match *part {
        Part::Ready(length) => lasting("now-part-ready", length),
        Part::Time(length) => lasting("now-part-time", length),
        Part::Change(length) => lasting("now-part-change", length),
        Part::Rest(length) => lasting("now-part-rest", length),
        Part::Reps(reps) => repeated(reps, say),
    }
}

fn repeated(reps: Reps, say: Phrases<'_>) -> String {
    let each = reps.work / reps.count.max(1);
    let whole = reps.hold >= each;
    if whole && reps.count == 1 {
        return say.words.say_with("now-part-hold", &[("time", time(each, say).into())]);
    }
    let id = match (reps.hold, whole) {
        (0, _) => "now-part-reps",
        (_, true) => "now-part-holds",
        (_, false) => "now-part-held",
    };
    let mut text = say.words.say_with(
        id,
        &[
            ("amount", reps.count.to_string().into()),
            ("count", (reps.count as f64).into()),
            ("time", time(each, say).into()),
            ("hold", time(reps.hold, say).into()),
        ],
    );
    if reps.alternating {
        text = say.words.say_with("now-part-alternating", &[("part", text.into())]);
    }
    if reps.rest > 0 {
        let both = [("part", text.into()), ("time", time(reps.rest, say).into())];
        text = say.words.say_with("now-part-between", &both);
    }
    text
}

/// "5.5 seconds", or "5 minutes" for what lasts two minutes and more and has no odd second.
fn time(length: u64, say: Phrases<'_>) -> String {
    if length >= 120_000 && length.is_multiple_of(60_000) {
        let minutes = length / 60_000;
        return say.counted("dose-minutes", minutes.to_string(), minutes as f64);
    }
    let seconds = length as f64 / 1000.0;
    say.counted("dose-seconds", say.decimal(seconds), seconds)
}
