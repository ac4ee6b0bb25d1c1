//! What stands on the sheets of the demonstration: nothing of an entry is lost on a sheet for everyone, and
//! nothing that was not chosen for a person is on hers.

mod names;

use std::collections::BTreeSet;

use pulldown_cmark::{Event, HeadingLevel, Tag, TagEnd};
use serde_json::Value;
use typst::layout::{Frame, FrameItem};
use typst_layout::PagedDocument;

use super::*;
use crate::entry;
use crate::entry::{CITATION, events};
use crate::model::Model;
use crate::model::client::Client;
use crate::model::exercise as model;
use crate::model::exercise::Instruction;
use crate::model::form::Form;
use crate::model::source::{Source, Sources, Span};
use crate::model::vocabulary::CautionLevel;
use crate::model::vocabulary::{Extent, Paper, Restriction};
use crate::outputs::blocks::grid::Cell;
use crate::outputs::blocks::phrases::Phrases;
use crate::print::Photos;
use crate::print::demonstration::{DEMONSTRATION, Read, STRICT};
use crate::print::names::unsaid;
use crate::reckon::choice::{Choice, drawn};
use crate::reckon::demands;
use crate::review::testing::words;

fn client(fields: &str, model: &Model, sources: &mut Sources) -> Client {
    let file = sources.add(Source::new("j.toml".to_string(), fields.to_string()));
    let (client, findings) = entry::read_client(fields, file, &model.site.catalogue);
    client.unwrap_or_else(|| panic!("{findings:?}"))
}

/// The sheet of a subject for a person with these precautions.
fn for_person<'m>(
    press: &Press<'m>,
    read: &'m Read,
    client: &'m Client,
    subject: Subject<'m>,
) -> (Order<'m>, Written<'m>) {
    let person = Person::of(client, &subject, &read.model, jiff::civil::date(2027, 2, 15));
    let mut order = Order::of(subject, Extent::Full, 18, Paper::A4);
    order.person = Some(person);
    let written = write(press, &order);
    (order, written)
}

/// Every string of a sheet's data.
fn strings(value: &Value, out: &mut Vec<String>) {
    match value {
        Value::String(text) => out.push(text.clone()),
        Value::Array(list) => list.iter().for_each(|v| strings(v, out)),
        Value::Object(fields) => fields.values().for_each(|v| strings(v, out)),
        _ => {}
    }
}

fn strings_of(data: &impl serde::Serialize) -> Vec<String> {
    let mut out = Vec::new();
    strings(&serde_json::to_value(data).unwrap(), &mut out);
    out
}

/// The words of an exercise's prose, cut wherever the weight of the letters changes, a citation stands, or
/// a block ends; without the headings of its sections.
fn passages(text: &str) -> Vec<String> {
    let mut passages = Vec::new();
    let mut passage = String::new();
    let (mut citing, mut heading) = (false, false);
    for (event, _) in events(text) {
        match event {
            Event::Text(words) | Event::Code(words) if !citing && !heading => passage.push_str(&words),
            Event::SoftBreak if !citing => passage.push(' '),
            Event::Start(Tag::Link { dest_url, .. }) => {
                citing = dest_url.starts_with(CITATION);
                if citing {
                    passages.push(std::mem::take(&mut passage));
                }
            }
            Event::End(TagEnd::Link) => citing = false,
            Event::Start(Tag::Heading { level: HeadingLevel::H2, .. }) => heading = true,
            Event::End(TagEnd::Heading(HeadingLevel::H2)) => heading = false,
            Event::Start(Tag::Strong | Tag::Emphasis | Tag::List(_))
            | Event::End(
                TagEnd::Strong | TagEnd::Emphasis | TagEnd::Paragraph | TagEnd::Item | TagEnd::Heading(_),
            ) => {
                passages.push(std::mem::take(&mut passage));
            }
            _ => {}
        }
    }
    passages.push(passage);
    passages.iter().map(|p| p.trim().to_string()).filter(|p| !p.is_empty()).collect()
}

/// The words of an entry that say how it is done, beside its cautions and ways.
fn own_passages(read: &Read, e: &model::Exercise) -> Vec<String> {
    let mut all = passages(read.sources.slice(e.prose.span));
    all.push(e.summary.value.clone());
    all.extend(e.figures.iter().map(|f| f.description.value.clone()));
    all
}

/// All words of a variation: its name, what it is, its steps and its pictures.
fn words_of_variation(variation: &model::Variation) -> Vec<String> {
    let steps: &[Spanned<String>] = match &variation.instruction {
        Instruction::Steps(steps) => steps,
        Instruction::Kept | Instruction::Bare => &[],
    };
    let figures = variation.figures.iter().map(|f| &f.description);
    [&variation.title, &variation.text]
        .into_iter()
        .chain(steps)
        .chain(figures)
        .map(|t| t.value.clone())
        .collect()
}

fn words_of_change(change: &model::Change, model: &Model) -> String {
    match (change.text(), change.exercise()) {
        (Some(text), _) => text.value.clone(),
        (None, Some(id)) => model.exercises[&id.value].title.value.clone(),
        (None, None) => unreachable!("a change has words or an exercise"),
    }
}

#[test]
fn a_sheet_for_everyone_loses_nothing_of_an_entry() {
    let read = &*DEMONSTRATION;
    let press = read.press();
    let say = Phrases { words: words() };
    for (series, week) in read.model.weeks() {
        let order = Order::of(Subject::Week(series, week), Extent::Full, 18, Paper::A4);
        let sheet = write(&press, &order).handout;
        assert_eq!(sheet.exercises.len(), week.exercises.len(), "{}", week.id);
        assert_eq!(sheet.grid.rows.len(), week.exercises.len(), "{}", week.id);
        let welcome = strings_of(&sheet.welcome).join("\n");
        for passage in passages(read.sources.slice(week.prose.span)) {
            assert!(welcome.contains(&passage), "{} lacks `{passage}`", week.id);
        }
        let exercises = UsedExercise::of_week(&read.model, week);
        for (number, (used, e)) in read.model.exercises_of(week).enumerate() {
            let shown = &sheet.exercises[number];
            let text = strings_of(shown).join("\n");
            let has = |words: &str| assert!(text.contains(words), "{}: `{}` lacks `{words}`", week.id, e.id);
            own_passages(read, e).iter().for_each(|passage| has(passage));
            used.focus.iter().for_each(|focus| has(&focus.value));
            assert!(!e.cautions.is_empty() && e.prose.sections.iter().any(|s| s.steps > 0), "{}", e.id);
            let of_one = e.cautions.iter().filter(|c| c.form.is_some()).count();
            assert_eq!(shown.cautions.len() + of_one, e.cautions.len());
            e.cautions.iter().for_each(|caution| has(&caution.text.value));
            for variation in &e.variations {
                words_of_variation(variation).iter().for_each(|words| has(words));
            }
            for change in e.regressions.iter().chain(&e.progressions) {
                has(&words_of_change(change, &read.model));
            }
            let ways = shown.easier.len() + shown.other_ways.len() + shown.harder.len();
            assert_eq!(ways, e.variations.len() + e.regressions.len() + e.progressions.len(), "{}", e.id);
            // The words of the dose are those of the page, wherever they stand.
            let page = block(&exercises[number], &read.model, say).dose;
            assert_eq!(shown.block.dose, page, "{}: {}", week.id, e.id);
            let (turn, row) = (&sheet.turns[number].block, &sheet.grid.rows[number].block);
            assert!(page.glance.starts_with(&turn.count), "{}: {}", week.id, e.id);
            assert!(turn.days.as_ref().is_none_or(|days| page.glance.ends_with(&days.to_lowercase())));
            assert_eq!((row.count.as_str(), row.title), (turn.count.as_str(), turn.title));
        }
    }
}

/// A person with each precaution of the workspace, and one with all of them.
fn people(read: &Read) -> Vec<(String, Client)> {
    let precautions: Vec<&str> = read.model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let one = precautions.iter().map(std::slice::from_ref);
    // The sheets never look into the profiles' text.
    let mut sources = read.sources.clone();
    one.chain([precautions.as_slice()])
        .map(|list| {
            let days = "days = [\"monday\", \"friday\"]";
            let fields = format!("name = \"J. K.\"\nprecautions = {list:?}\n{days}\n");
            (list.join(" and "), client(&fields, &read.model, &mut sources))
        })
        .collect()
}

#[test]
fn a_person_reads_the_form_that_was_chosen_whole_and_no_word_of_another() {
    let [as_it_stands, varied, easier, left_out] = forms_met(&DEMONSTRATION);
    // Each kind of form was met, or nothing was shown of it.
    assert!(as_it_stands > 100 && varied > 100 && easier > 0, "{as_it_stands} {varied} {easier} {left_out}");
    let [as_it_stands, varied, easier, left_out] = forms_met(&STRICT);
    assert!(
        as_it_stands > 100 && varied == 0 && easier > 10 && left_out > 10,
        "{as_it_stands} {varied} {easier} {left_out}"
    );
}

/// Looks at the sheet of each exercise for each person, and counts how it is done there: as it stands, in a
/// variation, by an easier exercise, or not at all.
fn forms_met(read: &Read) -> [usize; 4] {
    let people = people(read);
    let press = read.press();
    let catalogue = &read.model.site.catalogue;
    let all_have = read.model.series.values().flat_map(|series| &series.all_have);
    let all_have: Vec<&str> = all_have.map(|p| p.value.as_str()).collect();
    let (mut as_it_stands, mut varied, mut easier, mut left_out) = (0, 0, 0, 0);
    for (name, client) in &people {
        let mut precautions = client.precautions();
        precautions.extend(&all_have);
        for e in read.model.exercises.values() {
            let (order, written) = for_person(&press, read, client, Subject::Exercises(vec![e]));
            let untold = unsaid(&order, &read.model, words());
            let sheet = written.handout;
            let about = format!("{} for {name}", e.id);
            let choice = &order.person.as_ref().unwrap().choices[0];
            let PersonSheet { block, places } = sheet.person.as_ref().unwrap();
            let all = strings_of(&sheet).join("\n");
            assert!(!all.contains('['), "{about}: a word is missing: {all}");
            let Some(form) = choice.form() else {
                left_out += 1;
                assert!(sheet.exercises.is_empty() && sheet.turns.is_empty(), "{about}");
                assert!(sheet.grid.rows.is_empty() && sheet.needs.is_empty(), "{about}");
                let [line] = block.left_out.as_slice() else { panic!("{about}: no line") };
                assert!(line.value.starts_with(&e.title.value), "{about}: {}", line.value);
                assert_eq!(written.places.get(places.left_out[0]), Some(e.title.span));
                assert_hidden(&all, std::slice::from_ref(&e.title.value), &everything(read, e), &about);
                continue;
            };
            // Reckoned anew from the tables, and not as the choice reckons it.
            for demand in asks(&form) {
                let avoided = precautions.iter().any(|precaution| {
                    catalogue.row(precaution, demand).is_some_and(|row| row.by == Restriction::Avoid)
                });
                assert!(!avoided, "{about} asks for {demand}");
            }
            assert!(block.left_out.is_empty(), "{about}");
            let [shown] = sheet.exercises.as_slice() else { panic!("{about}: not one exercise") };
            let ways = [&shown.easier, &shown.other_ways, &shown.harder];
            assert!(ways.iter().all(|list| list.is_empty()), "{about}");
            match form.variation {
                Some(_) => varied += 1,
                None if form.exercise.id == e.id => as_it_stands += 1,
                None => easier += 1,
            }
            assert_eq!(shown.block.title.value, form.title().value, "{about}");
            let mut hers = whole(read, &form);
            let prose = &form.exercise.prose;
            let end = prose.sections.first().map_or(prose.span.end, |first| first.heading.span.start);
            let opened: Vec<String> = passages(read.sources.slice(Span { end, ..prose.span }));
            // What opens the exercise is there, unless it names another form and the educator is told so.
            if form.keeps_steps() && untold.is_empty() {
                hers.extend(opened);
            }
            let figures: Vec<&str> = shown.figures.iter().map(|f| f.description.as_str()).collect();
            assert_eq!(figures, figures_of(&form), "{about}");
            hers.extend(figures.into_iter().map(str::to_string));
            assert_eq!(shown.block.cautions_title, "For you");
            let cautions = cautions_of(&form, &precautions, &read.model);
            let of_the_sheet: Vec<&str> =
                shown.cautions.iter().map(|c| c.block.text.value.as_str()).collect();
            assert_eq!(of_the_sheet, cautions, "{about}");
            let to_her = |c: &CautionBlock<'_>| c.who.is_empty() && c.level_word.is_empty();
            assert!(shown.cautions.iter().all(|c| to_her(&c.block)), "{about}");
            hers.extend(cautions.into_iter().map(str::to_string));
            hers.iter().for_each(|words| assert!(all.contains(words), "{about} lacks `{words}`"));
            for exercise in [e, form.exercise] {
                assert_hidden(&all, &hers, &everything(read, exercise), &about);
            }
        }
    }
    [as_it_stands, varied, easier, left_out]
}

/// All words by which a form is done, but for its pictures and cautions and for what opens its exercise.
fn whole(read: &Read, form: &Form<'_>) -> Vec<String> {
    let e = form.exercise;
    let mut all = vec![form.title().value.clone()];
    match form.variation {
        None => all.push(e.summary.value.clone()),
        Some(variation) => all.push(variation.text.value.clone()),
    }
    match form.variation.map(|v| &v.instruction) {
        Some(Instruction::Steps(steps)) => all.extend(steps.iter().map(|step| step.value.clone())),
        Some(Instruction::Kept) | None => {
            all.extend(
                e.prose.sections.iter().flat_map(|section| passages(read.sources.slice(section.body))),
            );
        }
        Some(Instruction::Bare) => panic!("{form} has no steps"),
    }
    all
}

/// The pictures of a form: its own, else those of the exercise whose steps it keeps.
fn figures_of<'m>(form: &Form<'m>) -> Vec<&'m str> {
    let figures = match form.variation {
        Some(v) if !v.figures.is_empty() => &v.figures,
        Some(v) if v.instruction != Instruction::Kept => return Vec::new(),
        _ => &form.exercise.figures,
    };
    figures.iter().map(|f| f.description.value.as_str()).collect()
}

/// The cautions by which she does a form: those that name it, those about what it asks, and those for everyone.
fn cautions_of<'m>(form: &Form<'m>, precautions: &[&str], model: &Model) -> Vec<&'m str> {
    let asked = demands::of(form, &form.dose(None), &model.site);
    let belongs = |c: &&model::Caution| match (&c.form, form.variation, &c.about) {
        (Some(title), variation, _) => variation.is_some_and(|v| v.title.value == title.value),
        (None, None, _) => true,
        (None, Some(_), _) if c.applies == model::Applies::Everyone => true,
        (None, Some(_), Some(about)) => about.iter().any(|d| demands::has(&asked, &d.value)),
        (None, Some(v), None) => v.instruction == Instruction::Kept,
    };
    let hers = |c: &&model::Caution| {
        let named = c.applies == model::Applies::Everyone || precautions.iter().any(|p| c.names(p));
        named && c.level.value == CautionLevel::Adapt
    };
    let mut cautions: Vec<_> = form.exercise.cautions.iter().filter(hers).filter(belongs).collect();
    // Those for everyone come last.
    cautions.sort_by_key(|c| c.applies == model::Applies::Everyone);
    cautions.into_iter().map(|c| c.text.value.as_str()).collect()
}

/// All words of an entry that could be on a sheet.
fn everything(read: &Read, e: &model::Exercise) -> Vec<String> {
    let mut all = own_passages(read, e);
    all.push(e.title.value.clone());
    all.extend(e.variations.iter().flat_map(words_of_variation));
    let changes = e.regressions.iter().chain(&e.progressions);
    all.extend(changes.map(|change| words_of_change(change, &read.model)));
    all.extend(e.cautions.iter().map(|c| c.text.value.clone()));
    all
}

/// What the form asks of the body by the words of its entry.
fn asks<'m>(form: &Form<'m>) -> BTreeSet<&'m str> {
    let mut asks: BTreeSet<&str> = form.exercise.demands.iter().map(|d| d.value.as_str()).collect();
    if let Some(variation) = form.variation {
        variation.removes.iter().for_each(|d| {
            asks.remove(d.value.as_str());
        });
        asks.extend(variation.adds.iter().map(|d| d.value.as_str()));
    }
    asks
}

/// None of `texts` is on the sheet, but for those that are a part of what may be.
fn assert_hidden(sheet: &str, allowed: &[String], texts: &[String], about: &str) {
    for text in texts.iter().filter(|text| !allowed.iter().any(|a| a.contains(text.as_str()))) {
        assert!(!sheet.contains(text.as_str()), "the sheet of {about} says `{text}`");
    }
}

#[test]
fn each_exercise_of_a_week_is_on_a_persons_sheet_or_left_out_with_a_reason() {
    [&*DEMONSTRATION, &*STRICT].into_iter().for_each(all_are_on_the_sheet_or_left_out);
}

fn all_are_on_the_sheet_or_left_out(read: &Read) {
    let people = people(read);
    let press = read.press();
    for (name, client) in &people {
        for (series, week) in read.model.weeks() {
            let (order, written) = for_person(&press, read, client, Subject::Week(series, week));
            let sheet = written.handout;
            let choices = &order.person.as_ref().unwrap().choices;
            let forms: BTreeSet<_> = choices
                .iter()
                .filter_map(|choice| choice.form())
                .map(|form| (form.exercise.id.as_str(), form.variation.map(|v| v.span)))
                .collect();
            let left_out = choices.iter().filter(|choice| choice.chosen.is_none()).count();
            let about = format!("{} for {name}", week.id);
            assert_eq!(sheet.exercises.len(), forms.len(), "{about}");
            assert_eq!(sheet.turns.len(), forms.len(), "{about}");
            assert_eq!(sheet.grid.rows.len(), forms.len(), "{about}");
            assert_eq!(sheet.person.as_ref().unwrap().block.left_out.len(), left_out, "{about}");
            // The welcome is said to her whole, unless it names what she does not have and the educator is told so. Where
            // all of it can be seen is not said.
            let untold = unsaid(&order, &read.model, words());
            let welcome = strings_of(&sheet.welcome).join("\n");
            if untold.iter().any(|one| one.what == "the welcome of the week") {
                assert!(welcome.is_empty(), "{about}");
            } else {
                let said = passages(read.sources.slice(week.prose.span));
                said.iter()
                    .for_each(|passage| assert!(welcome.contains(passage), "{about} lacks `{passage}`"));
                let absent = absent_titles(choices, read);
                let named = absent.iter().find(|title| welcome.contains(title.as_str()));
                assert_eq!(named, None, "{about}");
            }
            assert!(sheet.online.is_none(), "{about}");
            // The grid has the days of the strip, and the dose asks for no more of them.
            let strip = sheet.practice.as_ref().map_or(&[][..], |practice| &practice.block.days);
            for (row, exercise) in sheet.grid.rows.iter().zip(&sheet.exercises) {
                let row = &row.block;
                let on = |day: &&DayBlock<'_>| day.exercises.iter().any(|e| e.title.value == row.title.value);
                let days: Vec<&str> = strip.iter().filter(on).map(|day| day.name.as_str()).collect();
                let columns = sheet.grid.block.days.iter().zip(&row.cells);
                let asked: Vec<&str> = columns
                    .filter(|(_, cell)| cell.kind != Cell::Rest)
                    .map(|(day, _)| day.name.as_str())
                    .collect();
                assert_eq!(asked, days, "{about}: {}", row.title.value);
                assert_eq!(row.choose, None, "{about}");
                let hers = days.iter().all(|day| ["Monday", "Friday"].contains(day));
                assert!(hers && !days.is_empty(), "{about}: {days:?}");
                let asked = exercise.block.dose.figures.iter().find(|figure| figure.unit.contains("a week"));
                assert_eq!(asked.unwrap().number, days.len().to_string(), "{about}: {}", row.title.value);
            }
        }
    }
}

/// The names of all exercises and variations that these choices do not lead to, and that are no part of the name of one.
fn absent_titles(choices: &[Choice<'_>], read: &Read) -> Vec<String> {
    let there: Vec<&str> =
        choices.iter().filter_map(|c| c.form()).map(|f| f.title().value.as_str()).collect();
    let all = read.model.exercises.values().flat_map(Form::all).map(|form| form.title().value.clone());
    all.filter(|title| !there.iter().any(|known| known.contains(title.as_str()))).collect()
}

#[test]
fn what_is_left_out_is_told_with_its_reason_and_leads_to_its_entry() {
    let model = drawn::model("Jump: impact-high\nRow: heavy-load\nWalk:\n");
    let mut sources = Sources::default();
    let last = model.exercises.values().map(|e| e.file.0).max().unwrap();
    (0..=last).for_each(|_| {
        sources.add(Source::new("a.md".to_string(), String::new()));
    });
    let client = client(
        "name = \"J. K.\"\nprecautions = [\"spine-fracture\", \"high-blood-pressure\"]\n",
        &model,
        &mut sources,
    );
    let read = Read { model, sources, photos: Photos::default() };
    let exercises = ["Jump", "Row", "Walk"].iter().map(|id| &read.model.exercises[*id]).collect();
    let (_, written) = for_person(&read.press(), &read, &client, Subject::Exercises(exercises));
    let sheet = written.handout;
    let PersonSheet { block, places } = sheet.person.unwrap();
    let told: Vec<_> = block.left_out.iter().map(|line| line.value.as_str()).collect();
    assert_eq!(
        told,
        [
            "Jump: it includes a hard landing, as in a jump. That is not for you if you have a break in the spine.",
            "Row: it includes lifting a heavy weight. That is not for you if you have a break in the spine.",
        ]
    );
    assert_eq!(block.line.value, "For J. K.");
    assert_eq!(sheet.exercises.iter().map(|e| e.block.title.value.as_str()).collect::<Vec<_>>(), ["Walk"]);
    let place = |id: &str| Some(read.model.exercises[id].place());
    assert_eq!(written.places.get(places.left_out[0]), place("Jump"));
    assert_eq!(written.places.get(places.left_out[1]), place("Row"));
}

#[test]
fn two_exercises_that_come_to_the_same_form_are_on_the_sheet_once() {
    let model =
        drawn::model("High: impact-high\n  regression Low:\nHigher: impact-high\n  regression Low:\nLow:\n");
    let mut sources = Sources::default();
    (0..10).for_each(|_| {
        sources.add(Source::new("a.md".to_string(), String::new()));
    });
    let client = client("name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\n", &model, &mut sources);
    let read = Read { model, sources, photos: Photos::default() };
    let exercises = ["High", "Higher", "Low"].iter().map(|id| &read.model.exercises[*id]).collect();
    let (_, written) = for_person(&read.press(), &read, &client, Subject::Exercises(exercises));
    let shown = written.handout.exercises;
    assert_eq!(shown.len(), 1);
    assert_eq!(shown[0].block.title.value, "Low");
    assert_eq!(shown[0].block.form_line.as_deref(), Some("Your own way to do this exercise"));
}

#[test]
fn what_her_week_has_no_room_for_is_left_out_and_told() {
    let model = drawn::model("Jump:\nWalk:\n");
    let mut sources = Sources::default();
    (0..10).for_each(|_| {
        sources.add(Source::new("a.md".to_string(), String::new()));
    });
    let client = client("name = \"J. K.\"\nprecautions = []\nminutes = 1\n", &model, &mut sources);
    let read = Read { model, sources, photos: Photos::default() };
    let exercises = ["Jump", "Walk"].iter().map(|id| &read.model.exercises[*id]).collect();
    let (_, written) = for_person(&read.press(), &read, &client, Subject::Exercises(exercises));
    let sheet = written.handout;
    assert!(sheet.exercises.is_empty() && sheet.grid.rows.is_empty() && sheet.practice.is_none());
    let PersonSheet { block, places } = sheet.person.unwrap();
    let told: Vec<_> = block.left_out.iter().map(|line| line.value.as_str()).collect();
    assert_eq!(told, ["Jump: it does not fit into your week.", "Walk: it does not fit into your week."]);
    assert_eq!(written.places.get(places.left_out[1]), Some(read.model.exercises["Walk"].place()));
}

/// The words of a sheet as it is set, without the spaces between them: lines break anywhere.
fn letters(press: &Press<'_>, order: &Order<'_>) -> String {
    fn walk(frame: &Frame, out: &mut String) {
        for (_, item) in frame.items() {
            match item {
                FrameItem::Text(text) => out.extend(text.text.chars().filter(|c| !c.is_whitespace())),
                FrameItem::Group(group) => walk(&group.frame, out),
                _ => {}
            }
        }
    }
    let manuscript = press.handout(order).unwrap();
    let document = typst::compile::<PagedDocument>(&press.world(&manuscript).unwrap()).output.unwrap();
    let mut out = String::new();
    document.pages().iter().for_each(|page| walk(&page.frame, &mut out));
    out
}

/// What the theme says under names that begin so.
fn sentences(of: &[&str]) -> Vec<String> {
    let said = words().plain().into_iter().filter(|(id, _)| of.iter().any(|part| id.starts_with(part)));
    said.filter(|(id, _)| id != "safety_emergency_call_any").map(|(_, sentence)| sentence).collect()
}

/// Many of those who practice from paper see no page: nothing else asks them.
#[test]
fn who_asks_first_and_when_to_stop_stand_on_every_sheet() {
    let read = &*DEMONSTRATION;
    let press = read.press();
    let mut sources = Sources::default();
    let hers = client("name = \"J. K.\"\nprecautions = [\"unsteady\"]\n", &read.model, &mut sources);
    let (series, week) = read.model.weeks().next().unwrap();
    let heel_drop = &read.model.exercises["heel-drop"];
    let (personal, _) = for_person(&press, read, &hers, Subject::Week(series, week));
    let sheets = [
        Order::of(Subject::Week(series, week), Extent::Full, 18, Paper::A4),
        Order::of(Subject::Exercises(vec![heel_drop]), Extent::Full, 24, Paper::Letter),
        personal,
    ];
    let of_safety = ["safety_ask_", "safety_emergency_", "safety_stop_", "safety_tell_"];
    let full = sentences(&of_safety);
    assert!(full.len() > 40, "{full:?}");
    // Cards ask in fewer words.
    let brief = sentences(&["safety_brief_", "safety_emergency_", "safety_stop_", "safety_tell_"]);
    assert!(brief.len() > 30, "{brief:?}");
    for order in sheets {
        let cards = Order { extent: Extent::Cards, ..order.clone() };
        // One exercise has the signs to stop beside its card.
        let asked = if order.subject.week().is_some() { brief.clone() } else { sentences(&of_safety[1..]) };
        for (order, said) in [(order, full.clone()), (cards, asked)] {
            let letters = letters(&press, &order);
            for sentence in said.iter().map(String::as_str).chain(["Call 911."]) {
                let sentence: String = sentence.chars().filter(|c| !c.is_whitespace()).collect();
                assert!(letters.contains(&sentence), "{sentence}");
            }
        }
    }
}
