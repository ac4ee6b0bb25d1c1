//! Practice now: the exercises of a week, or one of them, as the page counts them out.

use serde::Serialize;
use serde_json::{Value, json};

use super::exercise::block_id;
use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::home::week_title;
use super::prose::{ProseContext, html};
use super::{Filled, Link, Pages};
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::week::{Week, WeekExercise};
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::caution::{CautionBlock, CautionsTogether, to_stop_and_to_ask};
use crate::outputs::blocks::component::ComponentBlock;
use crate::outputs::blocks::session::{AskedBlock, CountedForm, EasierWay, SessionBlock};
use crate::outputs::blocks::used::UsedExercise;
use crate::reckon::session::{Part, Reps, Timeline};

#[derive(Serialize)]
pub(super) struct PracticePage<'m> {
    /// How long it takes.
    time: Option<String>,
    exercises: Vec<AskedView<'m>>,
    /// In which the script looks up the form that is the reader's.
    yours: String,
    /// What the script plays, as a block of JSON.
    data: String,
}

/// An exercise that is asked for.
#[derive(Serialize)]
struct AskedView<'m> {
    number_line: Option<String>,
    /// That it is not planned for today, with the days on which it is.
    not_today: Option<String>,
    /// Whom it stops, and who asks first, as it stands.
    strict: Vec<CautionsTogether<'m>>,
    component: ComponentBlock,
    /// As it stands, then each that may be somebody's.
    forms: Vec<FormView<'m>>,
}

#[derive(Serialize)]
pub(super) struct FormView<'m> {
    id: String,
    #[serde(flatten)]
    block: CountedForm<'m>,
    cautions: Vec<CautionBlock<'m>>,
    pub(super) figure: Option<FigureView>,
    pub(super) sections: Vec<SectionView<'m>>,
    /// To the page with all of it, where there is one.
    pub(super) page: Option<Link>,
    /// The easier ways that are words.
    hints: Vec<&'m str>,
}

#[derive(Serialize)]
pub(super) struct SectionView<'m> {
    name: &'static str,
    title: &'m str,
    pub(super) html: String,
}

pub(super) fn of_week<'m>(
    pages: &Pages<'m>,
    address: &Address,
    series: &Series,
    week: &'m Week,
) -> Filled<PracticePage<'m>> {
    let back = Link {
        href: pages.links(address).to(&Address::week(series, week)),
        text: pages.words.say_with("now-back-to-week", &[("week", week_title(pages, week).into())]),
    };
    let session = SessionBlock::of_week(pages.model, week, pages.say());
    let of = json!({ "series": series.id, "week": week.id });
    let have: Vec<&str> = series.all_have_ids().collect();
    let asked: Vec<_> =
        UsedExercise::of_week(pages.model, week).iter().map(|used| (used.exercise, used.in_week)).collect();
    let yours = table(pages, address, &asked, &session, &have);
    page(pages, address, back, &week_title(pages, week), session, yours, of)
}

pub(super) fn of_exercise<'m>(
    pages: &Pages<'m>,
    address: &Address,
    exercise: &'m Exercise,
) -> Filled<PracticePage<'m>> {
    let title = exercise.title.value.as_str();
    let back = Link {
        href: pages.links(address).to(&Address::Exercise(exercise.id.clone())),
        text: pages.words.say_with("now-back-to-exercise", &[("title", title.into())]),
    };
    let session = SessionBlock::of_exercise(pages.model, exercise, pages.say());
    let yours = table(pages, address, &[(exercise, None)], &session, &pages.model.all_have());
    page(pages, address, back, title, session, yours, json!({ "series": null, "week": null }))
}

fn page<'m>(
    pages: &Pages<'m>,
    address: &Address,
    back: Link,
    title: &str,
    session: SessionBlock<'m>,
    yours: String,
    of: Value,
) -> Filled<PracticePage<'m>> {
    let links = pages.links(address);
    let data = data(pages, session.exercises.iter().map(asked_data).collect(), of);
    let exercises = session.exercises.into_iter().map(|asked| view(pages, address, &links, asked)).collect();
    let mut about = About::titled(pages.words.say("now-title"));
    about.head_title = Some(pages.words.say_with("now-head-title", &[("title", title.into())]));
    about.description = Some(pages.words.say_with("now-about", &[("title", title.into())]));
    about.trail = Some(back);
    frame(pages, address, about, PracticePage { time: session.time, exercises, yours, data })
}

/// The table for what is asked for, and for each exercise that is offered as easier: it may not be hers.
fn table<'m>(
    pages: &Pages<'m>,
    address: &Address,
    asked: &[(&'m Exercise, Option<&'m WeekExercise>)],
    session: &SessionBlock<'m>,
    have: &[&str],
) -> String {
    let mut all = asked.to_vec();
    for asked in &session.exercises {
        let places = asked.forms.iter().flat_map(|form| &form.easier).filter_map(|way| match way {
            EasierWay::Form(at) => asked.forms.get(*at),
            EasierWay::Text(_) => None,
        });
        for easier in places {
            if all.iter().all(|(known, _)| known.id != easier.exercise.id) {
                all.push((easier.exercise, None));
            }
        }
    }
    super::yours::table(pages, address, &all, have)
}

fn view<'m>(pages: &Pages<'m>, address: &Address, links: &Links, asked: AskedBlock<'m>) -> AskedView<'m> {
    let id = block_id(&asked.exercise.id);
    let form = |(at, form): (usize, CountedForm<'m>)| {
        // A movement weighs more than all the rest of a form: only the exercise as it stands has it.
        let form_id = format!("{id}.{}", at + 1);
        let page = Link {
            href: links.to(&Address::Exercise(form.exercise.id.clone())),
            text: pages
                .words
                .say_with("now-whole-page", &[("title", form.exercise.title.value.as_str().into())]),
        };
        let figure = form.figure.as_ref();
        let figure = figure.and_then(|f| {
            figure::counted(pages, links, f, &format!("{form_id}.figure"), &form.title.value, at == 0)
        });
        FormView { figure, page: Some(page), ..form_view(pages, address, &form_id, form) }
    };
    AskedView {
        number_line: asked.number_line,
        not_today: asked.days.map(|(_, told)| told),
        strict: to_stop_and_to_ask(asked.exercise, pages.model, pages.say()),
        component: ComponentBlock::of(asked.exercise.component.value, pages.say()),
        forms: asked.forms.into_iter().enumerate().map(form).collect(),
    }
}

/// A form without its picture and its page.
pub(super) fn form_view<'m>(
    pages: &Pages<'m>,
    address: &Address,
    id: &str,
    mut form: CountedForm<'m>,
) -> FormView<'m> {
    let title = form.title.value.as_str();
    let entry = ProseContext { address, deeper: 2, label: title.to_string(), prefix: format!("{id}.") };
    let sections = std::mem::take(&mut form.sections).into_iter().map(|section| SectionView {
        name: section.name,
        title: &section.section.title.value,
        html: html(pages, &entry, &section.section.blocks),
    });
    let hints = form.easier.iter().filter_map(|way| match way {
        EasierWay::Text(text) => Some(*text),
        EasierWay::Form(_) => None,
    });
    FormView {
        sections: sections.collect(),
        hints: hints.collect(),
        figure: None,
        cautions: std::mem::take(&mut form.cautions),
        page: None,
        id: id.to_string(),
        block: form,
    }
}

/// What the script needs and the page does not say: for each exercise its forms in the order of the page, with their parts
/// in milliseconds, and the words for what it says itself.
pub(super) fn data(pages: &Pages<'_>, exercises: Vec<Value>, of: Value) -> String {
    let words: serde_json::Map<String, Value> = SAID
        .iter()
        .map(|id| (id.replace('-', "_"), pages.words.say(&format!("now-js-{id}")).into()))
        .collect();
    let whole = json!({ "of": of, "words": words, "exercises": exercises });
    whole.to_string().replace('<', "\\u003c")
}

fn asked_data(asked: &AskedBlock<'_>) -> Value {
    let forms: Vec<Value> = asked.forms.iter().map(form_data).collect();
    let mut data = json!({ "id": asked.exercise.id, "forms": forms });
    if let Some((days, _)) = &asked.days {
        data["days"] = days.iter().map(|day| day.number()).collect();
    }
    data
}

pub(super) fn form_data(form: &CountedForm<'_>) -> Value {
    let easier = form.easier.iter().filter_map(|way| match way {
        EasierWay::Form(at) => Some(*at),
        EasierWay::Text(_) => None,
    });
    let mut data = json!({
        "exercise": form.exercise.id,
        "variation": form.variation,
        "parts": parts(&form.timeline),
    });
    let easier: Vec<usize> = easier.collect();
    if !easier.is_empty() {
        data["easier"] = json!(easier);
    }
    if !form.other_doses.is_empty() {
        data["other_doses"] = json!(form.other_doses);
    }
    if form.variation.is_some() {
        data["name"] = json!(form.exercise.title.value);
    }
    if let Some((most, lines)) = &form.most {
        data["most"] = json!({ "parts": parts(most), "lines": lines });
    }
    data
}

/// `["reps", 8, 48000, 0, 0, false]`: how many, all of them in milliseconds, the hold in each, the rest between two,
/// whether the sides take turns; of any other part its length alone.
fn parts(timeline: &Timeline) -> Value {
    let part = |part: &Part| match *part {
        Part::Ready(length) => json!(["ready", length]),
        Part::Time(length) => json!(["time", length]),
        Part::Change(length) => json!(["change", length]),
        Part::Rest(length) => json!(["rest", length]),
        Part::Reps(Reps { count, work, hold, rest, alternating }) => {
            json!(["reps", count, work, hold, rest, alternating])
        }
    };
    timeline.parts.iter().map(part).collect()
}

/// What the script says and shows, by the ids of the words behind `now-js-`.
const SAID: [&str; 52] = [
    "ready",
    "do-ready",
    "do-go",
    "do-hold",
    "do-back",
    "do-rest",
    "do-change",
    "do-time",
    "seconds",
    "of-reps",
    "set",
    "side-one",
    "side-other",
    "next",
    "next-set",
    "next-end",
    "hold",
    "hold-number",
    "back",
    "done",
    "done-last",
    "exercise",
    "exercise-alone",
    "finished",
    "then",
    "last",
    "pause",
    "go-on",
    "paused",
    "am-ready",
    "skip",
    "speed-1",
    "speed-2",
    "speed-3",
    "speed-4",
    "no-voice",
    "no-sound",
    "no-lock",
    "hidden",
    "count-most",
    "count-fewest",
    "for-you",
    "not-for-you",
    "other-dose",
    "none-for-you",
    "instead",
    "sets-one",
    "sets-many",
    "not-done",
    "kept",
    "not-kept",
    "nothing",
];

#[cfg(test)]
mod tests;
