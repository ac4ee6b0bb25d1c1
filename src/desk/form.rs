//! A form over the fields of one entry: what each holds now, what she has changed of them, and what that makes of the text.
//!
//! Every field is sent twice, as it was when the page was made and as it is now. Only what differs is changed, in the text
//! as it stands when it is saved: what somebody else has changed meanwhile stays, and where both changed the same
//! field, both are shown and nothing is written.

use serde::Serialize;
use toml::Value;

use super::request::Fields;
use crate::entry::edit::{Change, Place};

/// A field of an entry as the form shows it.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Control {
    /// Where it stands in the entry, such as `dose.reps`; `## Move` for a section of the prose.
    pub(super) place: String,
    pub(super) label: String,
    pub(super) help: String,
    pub(super) kind: Kind,
    pub(super) choices: Vec<Choice>,
    /// What it holds: one line or text, or several items.
    pub(super) holds: Vec<String>,
    /// The same as the browser keeps it, to tell what she has changed.
    pub(super) was: String,
    /// What the review has found there.
    pub(super) found: Vec<super::marks::Mark>,
    /// What somebody else has written there meanwhile.
    pub(super) theirs: Option<String>,
}

/// How a field is filled in, and how it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Kind {
    Line,
    Text,
    /// A number, or a range or length as the entry writes it.
    Amount,
    Day,
    /// One of the choices, or none.
    One,
    /// Some of the choices; written as a list.
    Some,
    /// The same; everyone stands by itself.
    Whom,
    /// Each line an item.
    Lines,
    /// Each item a field of its own, in their order.
    Steps,
    /// Yes or not said.
    Yes,
    /// A section of the prose, in Markdown.
    Section,
    /// A section that is one numbered list.
    NumberedSection,
    /// What stands before the first section.
    Opening,
}

/// A word that can be chosen.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Choice {
    pub(super) value: String,
    pub(super) word: String,
    pub(super) chosen: bool,
}

/// A field that she and somebody else have changed.
#[derive(Debug)]
pub(super) struct Clash {
    pub(super) place: String,
    pub(super) theirs: String,
}

/// What stands for all people in a caution.
const EVERYONE: &str = "everyone";

impl Control {
    pub(super) fn new(place: &str, kind: Kind, label: &str, help: &str) -> Control {
        Control {
            place: place.to_string(),
            label: label.to_string(),
            help: help.to_string(),
            kind,
            choices: Vec::new(),
            holds: Vec::new(),
            was: String::new(),
            found: Vec::new(),
            theirs: None,
        }
    }

    /// The words to choose from, each with its value.
    pub(super) fn with(mut self, choices: impl IntoIterator<Item = (String, String)>) -> Control {
        let choice = |(value, word)| Choice { value, word, chosen: false };
        self.choices = choices.into_iter().map(choice).collect();
        self
    }

    /// Holds what these fields say at its place.
    pub(super) fn of(self, table: &toml::Table) -> Control {
        let value = self.place.split('.').try_fold(None, |at: Option<&Value>, step| {
            let next = match at {
                None => table.get(step),
                Some(Value::Array(items)) => items.get(step.parse::<usize>().ok()?),
                Some(value) => value.as_table().and_then(|table| table.get(step)),
            };
            next.map(Some)
        });
        let items = match value.flatten() {
            None => Vec::new(),
            Some(Value::Array(items)) => items.iter().map(plain).collect(),
            Some(value) => vec![plain(value)],
        };
        self.holding(items)
    }

    /// Holds these items. Empty quotes, as a new entry has them, are nothing.
    pub(super) fn holding(mut self, holds: Vec<String>) -> Control {
        let holds: Vec<String> = holds.into_iter().filter(|item| !item.trim().is_empty()).collect();
        for value in &holds {
            match self.choices.iter_mut().find(|choice| choice.value == *value) {
                Some(choice) => choice.chosen = true,
                // What the entry says and the program does not know stays, and is shown as it is.
                None if matches!(self.kind, Kind::One | Kind::Some | Kind::Whom) => {
                    let (value, word) = (value.clone(), value.clone());
                    self.choices.push(Choice { value, word, chosen: true });
                }
                None => {}
            }
        }
        self.was = serde_json::to_string(&holds).unwrap_or_default();
        self.holds = holds;
        self
    }

    /// What a form sent for it, before and now; `None` where it sent nothing.
    fn sent(&self, form: &Fields) -> Option<(Vec<String>, Vec<String>)> {
        let was = serde_json::from_str(form.get(&format!("was:{}", self.place))?).ok()?;
        let name = format!("now:{}", self.place);
        let items = form.all(&name);
        let tidy = |items: &mut dyn Iterator<Item = &str>| -> Vec<String> {
            items.map(str::trim).filter(|item| !item.is_empty()).map(str::to_string).collect()
        };
        let now = match self.kind {
            Kind::Lines => items
                .flat_map(str::lines)
                .map(str::trim)
                .filter(|l| !l.is_empty())
                .map(str::to_string)
                .collect(),
            Kind::Section | Kind::Opening | Kind::Text => items
                .map(|text| text.trim_matches('\n').trim_end().to_string())
                .filter(|t| !t.is_empty())
                .collect(),
            _ => tidy(&mut form.all(&name)),
        };
        Some((was, now))
    }

    /// What it takes to write what she has changed; nothing where she has changed nothing.
    pub(super) fn changes(&self, form: &Fields) -> Result<Option<Change>, Clash> {
        let Some((was, now)) = self.sent(form) else { return Ok(None) };
        if now == was || now == self.holds {
            return Ok(None);
        }
        if was != self.holds {
            return Err(Clash { place: self.place.clone(), theirs: self.holds.join("\n") });
        }
        Ok(self.written(now))
    }

    /// What a form says of a field that is not in the entry yet.
    pub(super) fn typed(&self, form: &Fields) -> Option<Change> {
        let (_, now) = self.sent(form)?;
        if now.is_empty() { None } else { self.written(now) }
    }

    /// The change that makes it hold these items.
    pub(super) fn written(&self, items: Vec<String>) -> Option<Change> {
        let text = items.join("\n");
        let title = || self.place.trim_start_matches("## ").to_string();
        match self.kind {
            Kind::Opening => return Some(Change::Opening { text }),
            Kind::Section => {
                let text = (!text.is_empty()).then_some(text);
                return Some(Change::Section { title: title(), text });
            }
            Kind::NumberedSection => {
                let lines = items.iter().enumerate().map(|(at, step)| numbered(at + 1, step));
                let text = lines.collect::<Vec<_>>().join("\n");
                return Some(Change::Section { title: title(), text: Some(text) });
            }
            _ => {}
        }
        let at: Place = self.place.parse().ok()?;
        let list = || Value::Array(items.iter().cloned().map(Value::String).collect());
        let value = match self.kind {
            Kind::Whom if items.iter().any(|item| item == EVERYONE) => Value::String(EVERYONE.to_string()),
            // A list that is asked for is there, and may be empty.
            Kind::Whom => list(),
            Kind::Some if self.place == "demands" => list(),
            _ if items.is_empty() => return Some(Change::Remove { at }),
            Kind::Some | Kind::Lines | Kind::Steps => list(),
            Kind::Yes => Value::Boolean(true),
            Kind::Amount => items[0].parse().map_or_else(|_| Value::String(text), Value::Integer),
            Kind::Day => items[0].parse().map_or_else(|_| Value::String(text), Value::Datetime),
            _ => Value::String(text),
        };
        Some(Change::Set { at, value })
    }
}

/// A step of a list, its further lines below its words.
fn numbered(number: usize, step: &str) -> String {
    let mark = format!("{number}. ");
    let indent = format!("\n{}", " ".repeat(mark.len()));
    format!("{mark}{}", step.lines().map(str::trim).collect::<Vec<_>>().join(&indent))
}

fn plain(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// The steps of a section that is one numbered list of plain items; `None` where there is more to it.
pub(super) fn steps(markdown: &str) -> Option<Vec<String>> {
    let mut steps: Vec<String> = Vec::new();
    for line in markdown.lines() {
        let digits = line.len() - line.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let step = line[digits..].strip_prefix(". ").filter(|_| digits > 0);
        match (step, line.trim()) {
            (Some(step), _) => steps.push(step.trim().to_string()),
            (None, "") => {}
            // The second line of a step, which Markdown joins to its first.
            (None, rest) if line.starts_with("   ") && !rest.starts_with(['-', '*', '+', '!', '>', '`']) => {
                let last = steps.last_mut()?;
                last.push(' ');
                last.push_str(rest);
            }
            (None, _) => return None,
        }
    }
    (!steps.is_empty()).then_some(steps)
}

/// What her form changes, or the fields in which somebody else was first.
pub(super) fn changes(controls: &[Control], form: &Fields) -> Result<Vec<Change>, Vec<Clash>> {
    let mut changes = Vec::new();
    let mut clashes = Vec::new();
    for control in controls {
        match control.changes(form) {
            Ok(change) => changes.extend(change),
            Err(clash) => clashes.push(clash),
        }
    }
    if clashes.is_empty() { Ok(changes) } else { Err(clashes) }
}

/// The controls as the browser has them now: with what she typed, and what somebody else wrote where both did.
pub(super) fn kept(controls: &mut [Control], form: &Fields, clashes: &[Clash]) {
    for control in controls {
        let Some((was, now)) = control.sent(form) else { continue };
        let clash = clashes.iter().find(|clash| clash.place == control.place);
        if now == was && clash.is_none() {
            continue;
        }
        let there = control.was.clone();
        for choice in &mut control.choices {
            choice.chosen = false;
        }
        let mut shown = control.clone().holding(now);
        // What it was stays what is in the entry, so that pressing Save once more writes what she sees.
        shown.was = there;
        shown.theirs = clash.map(|clash| clash.theirs.clone());
        *control = shown;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn form(pairs: &[(&str, &str)]) -> Fields {
        Fields::of(pairs.iter().map(|(name, value)| (name.to_string(), value.to_string())))
    }

    fn table(text: &str) -> toml::Table {
        text.parse().unwrap()
    }

    #[test]
    fn only_what_she_has_changed_is_written() {
        let fields = table("title = \"A\"\nsupport = [\"wall\"]\n[dose]\nreps = 5\n");
        let title = || Control::new("title", Kind::Line, "", "").of(&fields);
        let sent = |was: &str, now: &str| form(&[("was:title", was), ("now:title", now)]);
        assert!(title().changes(&form(&[])).is_ok_and(|c| c.is_none()));
        assert!(title().changes(&sent("[\"A\"]", " A ")).is_ok_and(|c| c.is_none()));
        assert!(
            matches!(title().changes(&sent("[\"A\"]", "B")), Ok(Some(Change::Set { value, .. })) if value == Value::String("B".into()))
        );
        assert!(matches!(title().changes(&sent("[\"A\"]", "")), Ok(Some(Change::Remove { .. }))));
        // Somebody else changed it: to the same, or to something else.
        assert!(title().changes(&sent("[\"Z\"]", "A")).is_ok_and(|c| c.is_none()));
        assert!(title().changes(&sent("[\"Z\"]", "Z")).is_ok_and(|c| c.is_none()), "hers is as it was");
        assert_eq!(title().changes(&sent("[\"Z\"]", "B")).err().unwrap().theirs, "A");
    }

    #[test]
    fn a_value_is_written_as_entries_write_it() {
        let amount = Control::new("dose.reps", Kind::Amount, "", "");
        let value = |control: &Control, items: &[&str]| match control
            .written(items.iter().map(|i| i.to_string()).collect())
        {
            Some(Change::Set { value, .. }) => value.to_string(),
            other => format!("{other:?}"),
        };
        assert_eq!(value(&amount, &["10"]), "10");
        assert_eq!(value(&amount, &["8-12"]), "\"8-12\"");
        assert_eq!(value(&Control::new("date", Kind::Day, "", ""), &["2027-02-15"]), "2027-02-15");
        let whom = Control::new("caution.0.for", Kind::Whom, "", "");
        assert_eq!(value(&whom, &["unsteady", "everyone"]), "\"everyone\"");
        assert_eq!(value(&whom, &["unsteady"]), "[\"unsteady\"]");
        assert_eq!(value(&Control::new("demands", Kind::Some, "", ""), &[]), "[]");
        let steps = Control::new("## Move", Kind::NumberedSection, "", "");
        assert!(matches!(
            steps.written(vec!["Rise.".into(), "Sit\ndown.".into()]),
            Some(Change::Section { title, text: Some(text) }) if title == "Move" && text == "1. Rise.\n2. Sit\n   down."
        ));
    }

    #[test]
    fn a_plain_list_has_a_field_for_each_step_and_anything_else_none() {
        assert_eq!(steps("\n1. Rise.\n2. Sit\n   down.\n"), Some(vec!["Rise.".into(), "Sit down.".into()]));
        for more in ["", "Rise.\n", "1. Rise.\n\n![a](b.jpg)\n", "1. Rise.\n   - So.\n", "Then:\n1. Rise.\n"]
        {
            assert_eq!(steps(more), None, "{more}");
        }
    }

    #[test]
    fn what_the_program_does_not_know_stays() {
        let support = Control::new("support", Kind::Some, "", "")
            .with([("wall".to_string(), "a wall".to_string())])
            .of(&table("support = [\"broom\"]"));
        assert_eq!(
            support.choices.iter().filter(|c| c.chosen).map(|c| &c.value).collect::<Vec<_>>(),
            ["broom"]
        );
    }

    #[test]
    fn what_she_typed_is_shown_again_beside_what_somebody_else_wrote() {
        let mut controls = [Control::new("title", Kind::Line, "", "").of(&table("title = \"Theirs\""))];
        let sent = form(&[("was:title", "[\"Old\"]"), ("now:title", "Hers")]);
        let clashes = changes(&controls, &sent).unwrap_err();
        kept(&mut controls, &sent, &clashes);
        assert_eq!(controls[0].holds, ["Hers"]);
        assert_eq!(controls[0].theirs.as_deref(), Some("Theirs"));
        // Sent once more, hers is written: she has seen both.
        let again = form(&[("was:title", &controls[0].was), ("now:title", "Hers")]);
        let mut now = [Control::new("title", Kind::Line, "", "").of(&table("title = \"Theirs\""))];
        assert_eq!(changes(&now, &again).unwrap().len(), 1);
        kept(&mut now, &again, &[]);
    }
}
