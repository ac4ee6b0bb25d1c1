//! The names that a person's sheet may say: those of the forms that stand on it. A sheet that names another form sends
//! its reader to what is not for her, or is not there.

use std::collections::BTreeSet;

use serde_json::Value;

use super::places::Places;
use super::sheet::Handout;
use super::{Order, Person, Subject};
use crate::model::Model;
use crate::model::finding::Finding;
use crate::model::form::Form;
use crate::model::source::{Sources, Span};
use crate::model::subject;
use crate::model::words::Words;
use crate::review::named::{Named, Titles};

/// Titles of forms that stand on a person's sheet, and of those that do not.
pub(super) struct Names<'m> {
    there: Titles<'m>,
    absent: Titles<'m>,
    titles: Vec<&'m str>,
}

/// A text that is left off a person's sheet, since it names what she does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unsaid {
    /// "the welcome", "what opens `heel-drop`".
    pub what: String,
    pub names: String,
}

impl<'m> Names<'m> {
    /// The names of a person's sheet. Absent are all other exercises of the workspace, and the other variations of what
    /// the sheet was asked for or shows.
    pub(super) fn of(person: &Person<'m>, model: &'m Model, words: &'m Words) -> Names<'m> {
        let shown: Vec<Form<'m>> = person.shown().map(|chosen| chosen.form).collect();
        let there: Vec<&str> = shown.iter().map(|form| form.title().value.as_str()).collect();
        let asked: BTreeSet<&str> = person.choices.iter().map(|choice| choice.asked.id.as_str()).collect();
        let near = |id: &str| asked.contains(id) || shown.iter().any(|form| form.exercise.id == id);
        let bases = model.exercises.values().map(Form::base);
        let others = model.exercises.values().filter(|e| near(&e.id)).flat_map(Form::all);
        let mut absent: Vec<&str> = bases.chain(others).map(|form| form.title().value.as_str()).collect();
        absent.retain(|title| !there.iter().any(|known| known.eq_ignore_ascii_case(title)));
        absent.sort_unstable();
        absent.dedup();
        let of = |titles: &[&str]| Titles::of(titles, &words.titles);
        Names { there: of(&there), absent: of(&absent), titles: absent }
    }

    /// The first title of an absent form that a text names.
    pub(super) fn absent_in(&self, text: &str) -> Option<&'m str> {
        let there = self.there.named(text);
        let inside = |n: &Named| there.iter().any(|known| known.at.contains(&n.at.start));
        let absent = self.absent.named(text).into_iter().filter(|n| !inside(n));
        let mut absent = absent.filter_map(|n| Some((*self.titles.get(n.title)?, n)));
        absent.find(|(title, n)| is_a_name(text, title, n)).map(|(title, _)| title)
    }
}

/// False where the words of a title stand in a text by chance: "stand up" in a step is no "Stand up from a high seat", and
/// "along the wall. Slide down" is no "Wall slide". The words before where or how are a name only with an article, or
/// where there are several of it.
fn is_a_name(text: &str, title: &str, found: &Named) -> bool {
    let written = &text[found.at.clone()];
    let parted = |mark: &str| written.contains(mark) && !title.contains(mark);
    if [".", ",", ";", ":", "!", "?", "\n\n"].into_iter().any(parted) {
        return false;
    }
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let several = || !plain(title).starts_with(&plain(written));
    found.whole || found.with_article || several()
}

/// What of the author's texts is left off a person's sheet, for the educator to know.
pub fn unsaid(order: &Order<'_>, model: &Model, sources: &Sources, words: &Words) -> Vec<Unsaid> {
    let Some(person) = &order.person else { return Vec::new() };
    let names = Names::of(person, model, words);
    let mut all = Vec::new();
    let mut look = |what: String, text: &str| {
        if let Some(title) = names.absent_in(text) {
            all.push(Unsaid { what, names: title.to_string() });
        }
    };
    if let Subject::Week(_, week) = &order.subject {
        look("the welcome of the week".to_string(), sources.slice(week.prose.span));
    }
    for chosen in person.shown().filter(|chosen| chosen.form.keeps_steps()) {
        let e = chosen.form.exercise;
        look(format!("what opens `{}`", e.id), sources.slice(e.prose.intro));
    }
    all
}

/// The last look at the words of a person's sheet: a finding for each text that names a form which is not on it. What
/// was left out for her is named there, and only there.
pub(super) fn look(
    handout: &Handout,
    person: &Person<'_>,
    model: &Model,
    words: &Words,
    places: &Places,
    whole: Span,
) -> Vec<Finding> {
    let names = Names::of(person, model, words);
    let mut findings = Vec::new();
    let Ok(mut sheet) = serde_json::to_value(handout) else { return findings };
    if let Some(left_out) = sheet.pointer_mut("/person/left_out") {
        *left_out = Value::Null;
    }
    each_text(&sheet, None, &mut |text, place| {
        let Some(title) = names.absent_in(text) else { return };
        let span = place.and_then(|place| places.get(place)).unwrap_or(whole);
        let name = &person.client.name.value;
        let finding = Finding::new(
            "absent-form",
            span,
            format!("this names `{title}`, which is not on the handout of `{name}`"),
            "say how she does what is on her handout, and name no other form",
        );
        let (form, whose) = (title.to_string(), name.clone());
        findings.push(finding.about([subject::Subject::Title(form), subject::Subject::Person(whose)]));
    });
    findings
}

/// Every text of a value with the place that stands nearest above it.
fn each_text(value: &Value, place: Option<usize>, take: &mut impl FnMut(&str, Option<usize>)) {
    match value {
        Value::String(text) => take(text, place),
        Value::Array(list) => list.iter().for_each(|item| each_text(item, place, take)),
        Value::Object(fields) => {
            let own = fields.get("place").and_then(Value::as_u64).and_then(|p| usize::try_from(p).ok());
            fields.values().for_each(|field| each_text(field, own.or(place), take));
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::{Names, Titles};
    use crate::review::testing::words;

    #[test]
    fn an_absent_form_is_named_by_its_title_and_not_by_words_that_happen_to_be_in_it() {
        let absent =
            vec!["Heel drop at the counter", "Slide, do not lift", "Stand up from a high seat", "Wall slide"];
        let of = |titles: &[&str]| Titles::of(titles, &words().titles);
        let there = of(&["Seated heel press", "Low wall slide"]);
        let names = Names { there, absent: of(&absent), titles: absent };
        for (text, expected) in [
            ("Do the heel drop on three days.", Some("Heel drop at the counter")),
            ("Do the heel\ndrop on three days.", Some("Heel drop at the counter")),
            ("Begin with heel drops.", Some("Heel drop at the counter")),
            ("Heel drop at the counter: two sets.", Some("Heel drop at the counter")),
            ("If it hurts, slide, do not lift.", Some("Slide, do not lift")),
            ("Do a wall slide.", Some("Wall slide")),
            ("Press with your feet and stand up.", None),
            ("Let each heel drop.", None),
            ("Lean on the wall. Slide down a little.", None),
            ("Lean on a wall, slide down a little.", None),
            ("The low wall slide is for you.", None),
            ("The low wall slide comes after the wall slide.", Some("Wall slide")),
        ] {
            assert_eq!(names.absent_in(text), expected, "{text}");
        }
    }
}
