//! The fields of an exercise as groups of a form, and the buttons that add, move and remove its tables.

use serde::Serialize;
use toml::Value;

use super::super::form::{Control, Kind, steps};
use super::super::request::Fields;
use crate::edition::Edition;
use crate::entry::Parts;
use crate::entry::edit::{Change, Place};
use crate::model::vocabulary::{
    CautionLevel, Component, Position, Region, SectionName, Sides, Support, Surface, Vocabulary,
};
use crate::outputs::blocks::phrases::Phrases;

/// Fields that belong together.
#[derive(Serialize)]
pub(super) struct Group {
    id: &'static str,
    title: &'static str,
    help: &'static str,
    fields: Vec<Control>,
    /// Its tables, each with fields of its own.
    rows: Vec<Row>,
    /// The kind of table that can be added, and what the button says.
    adds: Option<(&'static str, &'static str)>,
}

/// One table of a list, such as a caution.
#[derive(Serialize)]
pub(super) struct Row {
    kind: &'static str,
    /// Such as `caution.0`; the kind alone where it is not in the entry yet.
    place: String,
    title: String,
    first: bool,
    last: bool,
    fields: Vec<Control>,
}

/// The lists of tables of an exercise that the form knows.
const KINDS: [&str; 4] = ["variation", "regression", "progression", "caution"];

impl Group {
    pub(super) fn controls(&self) -> impl Iterator<Item = &Control> {
        self.fields.iter().chain(self.rows.iter().flat_map(|row| &row.fields))
    }

    pub(super) fn controls_mut(&mut self) -> impl Iterator<Item = &mut Control> {
        self.fields.iter_mut().chain(self.rows.iter_mut().flat_map(|row| &mut row.fields))
    }
}

/// Words of a closed set, as the educator reads them.
fn words<V: Vocabulary>(said: impl Fn(V) -> String) -> Vec<(String, String)> {
    V::ALL.iter().map(|&v| (v.word().to_string(), said(v))).collect()
}

fn plain<V: Vocabulary>(v: V) -> String {
    v.word().replace('-', " ")
}

fn line(place: &str, label: &str, help: &str) -> Control {
    Control::new(place, Kind::Line, label, help)
}

fn text(place: &str, label: &str, help: &str) -> Control {
    Control::new(place, Kind::Text, label, help)
}

/// What the words of the choices are taken from.
struct Known<'e> {
    edition: &'e Edition,
    say: Phrases<'e>,
}

impl Known<'_> {
    fn positions(&self) -> Vec<(String, String)> {
        words(|v: Position| self.say.words.say(&format!("position-{}", v.word())))
    }

    fn supports(&self) -> Vec<(String, String)> {
        words(|v: Support| self.say.words.say(&format!("support-{}", v.word())))
    }

    fn demands(&self) -> Vec<(String, String)> {
        let site = &self.edition.model().site;
        site.catalogue.demands.keys().map(|id| (id.clone(), self.say.demand(site, id))).collect()
    }

    fn precautions(&self) -> Vec<(String, String)> {
        let site = &self.edition.model().site;
        let ids = site.catalogue.precautions.keys();
        let mut all: Vec<(String, String)> =
            ids.map(|id| (id.clone(), self.say.capital(&self.say.precaution(site, id)))).collect();
        all.sort_by(|a, b| a.1.cmp(&b.1));
        all.insert(0, ("everyone".to_string(), "Everyone".to_string()));
        all
    }

    fn exercises(&self) -> Vec<(String, String)> {
        let exercises = self.edition.model().exercises.values();
        let mut all: Vec<_> = exercises.map(|e| (e.id.clone(), e.title.value.clone())).collect();
        all.sort_by(|a, b| a.1.cmp(&b.1));
        all
    }

    fn dose(&self, at: &str) -> Vec<Control> {
        let place = |name: &str| format!("{at}.{name}");
        let amount =
            |name: &str, label: &str, help: &str| Control::new(&place(name), Kind::Amount, label, help);
        vec![
            amount("reps", "Repetitions", "10, or 8-12"),
            amount("sets", "Sets", "2"),
            Control::new(&place("sides"), Kind::One, "Sides", "").with(words(plain::<Sides>)),
            amount("hold", "Hold", "20 s, or 10-20 s"),
            amount("time", "Time", "5 min, where it is not counted"),
            amount("pace", "One repetition takes", "4 s"),
            amount("rest", "Rest between sets", "60 s"),
            amount("days", "Days a week", "3, or 3-4"),
            amount("rest_days", "Clear days between", "1"),
            amount("effort", "Effort, 0 to 10", "5-6"),
        ]
    }

    fn fields(&self, kind: &str, at: &str) -> Vec<Control> {
        let place = |name: &str| format!("{at}.{name}");
        let some = |name: &str, label: &str, help: &str, of: Vec<(String, String)>| {
            Control::new(&place(name), Kind::Some, label, help).with(of)
        };
        match kind {
            "variation" => vec![
                line(&place("title"), "What it is called", "Seated heel press"),
                text(&place("text"), "In a sentence", "What is different, in plain words"),
                Control::new(&place("steps"), Kind::Steps, "Its own steps", "One action each"),
                Control::new(
                    &place("keeps_steps"),
                    Kind::Yes,
                    "The steps of the exercise hold",
                    "Then the sentence above says the one change",
                )
                .with([("true".to_string(), "Yes".to_string())]),
                Control::new(&place("position"), Kind::One, "Position", "").with(self.positions()),
                Control::new(&place("surface"), Kind::One, "Done on", "").with(words(plain::<Surface>)),
                some("support", "What the hands hold", "", self.supports()),
                Control::new(&place("equipment"), Kind::Lines, "Things it needs", "One on each line"),
                some("removes", "What it no longer asks of the body", "", self.demands()),
                some("adds", "What it asks beside that", "", self.demands()),
            ],
            "regression" | "progression" => vec![
                Control::new(
                    &place("exercise"),
                    Kind::One,
                    "Another exercise",
                    "Or say the change in words below",
                )
                .with(self.exercises()),
                text(&place("text"), "The change in words", "Hold on with both hands."),
                some("removes", "What it no longer asks of the body", "", self.demands()),
                some("adds", "What it asks beside that", "", self.demands()),
            ],
            _ => {
                let levels = [
                    (CautionLevel::Stop, "Not this way"),
                    (CautionLevel::Ask, "Ask first; until then not this way"),
                    (CautionLevel::Adapt, "This way, changed as the words say"),
                ];
                let levels = levels.map(|(level, words)| (level.word().to_string(), words.to_string()));
                vec![
                    Control::new(&place("for"), Kind::Whom, "For whom", "").with(self.precautions()),
                    Control::new(&place("level"), Kind::One, "What it says", "").with(levels),
                    text(
                        &place("text"),
                        "In words for the client",
                        "Ask your clinician before you do this standing.",
                    ),
                    some("about", "What of the movement it is about", "", self.demands()),
                    line(
                        &place("use"),
                        "What to do instead",
                        "The name of another safe way, or the id of an easier exercise",
                    ),
                ]
            }
        }
    }
}

/// The whole form, with what the entry says.
pub(super) fn groups(edition: &Edition, parts: &Parts) -> Vec<Group> {
    let say = Phrases { words: edition.words() };
    let known = Known { edition, say };
    let table = &parts.fields;
    let filled =
        |controls: Vec<Control>| -> Vec<Control> { controls.into_iter().map(|c| c.of(table)).collect() };
    let rows = |kind: &'static str| -> Vec<Row> {
        let count = table.get(kind).and_then(Value::as_array).map_or(0, Vec::len);
        let row = |at: usize| {
            let place = format!("{kind}.{at}");
            let fields = filled(known.fields(kind, &place));
            Row {
                kind,
                title: named(kind, at, &fields),
                place,
                first: at == 0,
                last: at + 1 == count,
                fields,
            }
        };
        (0..count).map(row).collect()
    };
    let group = |id, title, help, fields| Group { id, title, help, fields, rows: Vec::new(), adds: None };
    let list = |id, title, help, kind, adds| Group {
        id,
        title,
        help,
        fields: Vec::new(),
        rows: rows(kind),
        adds: Some((kind, adds)),
    };
    let what = filled(vec![
        line("title", "Title", "As clients say it: Heel drop at the counter"),
        text("summary", "In a sentence", "What she does, in words of an everyday talk"),
        Control::new("component", Kind::One, "Component", "")
            .with(words(|v: Component| edition.words().say(&format!("component-{}", v.word())))),
        Control::new("position", Kind::One, "Position", "").with(known.positions()),
        Control::new("surface", Kind::One, "Done on", "For what is not done standing or sitting")
            .with(words(plain::<Surface>)),
        Control::new("support", Kind::Some, "What the hands hold", "").with(known.supports()),
        Control::new("equipment", Kind::Lines, "Things it needs", "One on each line"),
        Control::new("trains", Kind::Some, "What it trains", "Strength rests by region")
            .with(words(plain::<Region>)),
    ]);
    let section = |name: SectionName| {
        let title = edition.words().section(name);
        let holds =
            parts.sections.iter().find(|section| section.title.to_lowercase() == title.to_lowercase());
        let text = holds.map(|section| section.text.as_str()).unwrap_or_default();
        let place = format!("## {title}");
        match steps(text).filter(|_| name == SectionName::Move) {
            Some(steps) => {
                Control::new(&place, Kind::NumberedSection, &title, "One action each, at most two")
                    .holding(steps)
            }
            None if name == SectionName::Move && text.is_empty() => {
                Control::new(&place, Kind::NumberedSection, &title, "One action each, at most two")
                    .holding(Vec::new())
            }
            None => {
                let holds = if text.is_empty() { Vec::new() } else { vec![text.to_string()] };
                Control::new(&place, Kind::Section, &title, "").holding(holds)
            }
        }
    };
    let opening = if parts.opening.is_empty() { Vec::new() } else { vec![parts.opening.clone()] };
    let demands = filled(vec![
        Control::new(
            "demands",
            Kind::Some,
            "What it asks of the body",
            "Whoever must not do one of these gets another way, or none",
        )
        .with(known.demands()),
    ]);
    vec![
        group("what", "What it is", "", what),
        group(
            "steps",
            "How it is done",
            "",
            [SectionName::SetUp, SectionName::Move, SectionName::Finish].map(section).into(),
        ),
        group("dose", "How much", "", filled(known.dose("dose"))),
        group("demands", "What it asks of the body", "", demands),
        list(
            "caution",
            "Take care",
            "A caution is obeyed: it decides who gets which way.",
            "caution",
            "Add a caution",
        ),
        list(
            "variation",
            "Another safe way",
            "A whole way to do it, with steps of its own.",
            "variation",
            "Add another safe way",
        ),
        list("regression", "Make it easier", "", "regression", "Add an easier way"),
        list("progression", "Make it harder", "", "progression", "Add a harder way"),
        group(
            "words",
            "What else is said",
            "",
            vec![
                Control::new("opening", Kind::Opening, "Why", "Shown above the steps").holding(opening),
                section(SectionName::Feel),
                section(SectionName::WatchFor),
            ],
        ),
    ]
}

/// What a row is called in the list of its kind.
fn named(kind: &str, at: usize, fields: &[Control]) -> String {
    let of = |name: &str| fields.iter().find(|field| field.place.ends_with(&format!(".{name}")));
    let chosen = |name: &str| -> Vec<String> {
        let choices = of(name).into_iter().flat_map(|field| &field.choices);
        choices.filter(|choice| choice.chosen).map(|choice| choice.word.clone()).collect()
    };
    let words = match kind {
        "caution" => chosen("for").join(", "),
        "variation" => of("title").map(|title| title.holds.join(" ")).unwrap_or_default(),
        _ => match chosen("exercise").join("") {
            other if other.is_empty() => of("text").map(|text| text.holds.join(" ")).unwrap_or_default(),
            other => other,
        },
    };
    if words.is_empty() { format!("{} {}", kind_word(kind), at + 1) } else { words }
}

fn kind_word(kind: &str) -> &'static str {
    match kind {
        "caution" => "Caution",
        "variation" => "Another safe way",
        "regression" => "Easier way",
        _ => "Harder way",
    }
}

/// A table to fill in, begun with what the address says; `None` for a kind that there is not.
pub(super) fn begun(kind: &str, edition: &Edition, given: &impl Fn(&str) -> String) -> Option<Row> {
    let kind = KINDS.into_iter().find(|known| *known == kind)?;
    let known = Known { edition, say: Phrases { words: edition.words() } };
    let fields = known.fields(kind, kind).into_iter().map(|control| {
        let name = control.place.rsplit('.').next().unwrap_or_default().to_string();
        let value = given(&name);
        control.holding(if value.is_empty() { Vec::new() } else { vec![value] })
    });
    let title = kind_word(kind).to_string();
    Some(Row { kind, place: kind.to_string(), title, first: true, last: true, fields: fields.collect() })
}

/// What a button does with the tables of the entry.
///
/// # Errors
/// What stands in its way.
pub(super) fn pressed(
    (act, what): (&str, &str),
    form: &Fields,
    edition: &Edition,
) -> Result<Vec<Change>, String> {
    let place = || what.parse::<Place>().map_err(|_| format!("there is no `{what}`"));
    let number = || what.rsplit('.').next().and_then(|n| n.parse::<usize>().ok());
    match act {
        "remove" => Ok(vec![Change::Remove { at: place()? }]),
        "up" | "down" => {
            let from = number().ok_or_else(|| format!("there is no `{what}`"))?;
            let to = if act == "up" { from.saturating_sub(1) } else { from + 1 };
            Ok(vec![Change::Move { at: place()?, to }])
        }
        "insert" => {
            let kind = KINDS.into_iter().find(|known| *known == what);
            let kind = kind.ok_or_else(|| format!("there is no `{what}` to add"))?;
            let known = Known { edition, say: Phrases { words: edition.words() } };
            let mut fields = Vec::new();
            for control in known.fields(kind, kind) {
                let name = control.place.rsplit('.').next().unwrap_or_default().to_string();
                let sent = control.holding(Vec::new()).typed(form);
                if let Some(Change::Set { value, .. }) = sent {
                    // An empty list is nothing that she has chosen.
                    if value.as_array().is_none_or(|items| !items.is_empty()) {
                        fields.push((name, value));
                    }
                }
            }
            if fields.is_empty() {
                return Err("fill in the new one before you add it".to_string());
            }
            let into = kind.parse::<Place>().map_err(|_| format!("there is no `{kind}`"))?;
            Ok(vec![Change::Insert { into, fields }])
        }
        // Adding and removing steps needs nothing: what the fields hold is what is written.
        _ => Ok(Vec::new()),
    }
}
