//! What was chosen for a person, and why: told to the educator before the sheet goes out.

use crate::cli::load::Loaded;
use crate::cli::outcome::Failure;
use crate::cli::terminal::Terminal;
use crate::model::catalogue::Catalogue;
use crate::model::client::Client;
use crate::model::vocabulary::Vocabulary;
use crate::print::Order;
use crate::reckon::choice::Choice;

/// Prints the table of a sheet for a person: exercise, form chosen, reason.
pub(super) fn print(order: &Order<'_>, loaded: &Loaded, terminal: &Terminal) -> Result<(), Failure> {
    let Some(person) = &order.person else { return Ok(()) };
    let file = &loaded.sources.get(person.client.file).name;
    terminal.say(&format!("{} ({file})", person.client.name.value))?;
    terminal.say(&table(person.client, &person.choices, &loaded.model.site.catalogue))
}

fn table(client: &Client, choices: &[Choice<'_>], catalogue: &Catalogue) -> String {
    let mut rows = vec![["Exercise".to_string(), "Form chosen".to_string(), "Reason".to_string()]];
    rows.extend(choices.iter().map(|choice| row(client, choice, catalogue)));
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let (first, second) = (width(0), width(1));
    rows.iter().map(|[a, b, c]| format!("  {a:<first$}  {b:<second$}  {c}\n")).collect()
}

fn row(client: &Client, choice: &Choice<'_>, catalogue: &Catalogue) -> [String; 3] {
    let asked = choice.asked.title.value.clone();
    let why = choice.refused.first().and_then(|refused| refused.why.first()).map(ToString::to_string);
    let Some(form) = &choice.form else {
        return [asked, "left out".to_string(), why.unwrap_or_default()];
    };
    let mut reasons: Vec<String> = why.into_iter().collect();
    // What a caution answers is told, so that the educator sees what the sheet rests on.
    for precaution in client.precautions() {
        for demand in form.demands() {
            if let Some(row) = catalogue.row(precaution, demand) {
                let by = row.by.word();
                reasons.push(format!("`{precaution}` says `{by}` of `{demand}`, and a caution answers it"));
            }
        }
    }
    let at_home = |thing: &str| client.equipment.iter().any(|own| own.value.eq_ignore_ascii_case(thing));
    let lacking: Vec<&str> = form.exercise.equipment.iter().map(|thing| thing.value.as_str()).collect();
    for thing in lacking.into_iter().filter(|thing| !client.equipment.is_empty() && !at_home(thing)) {
        reasons.push(format!("needs `{thing}`, which the profile does not list"));
    }
    let chosen = match (form.variation, form.exercise.id == choice.asked.id) {
        (None, true) => "as it stands".to_string(),
        (None, false) => form.exercise.title.value.clone(),
        (Some(variation), true) => variation.title.value.clone(),
        (Some(variation), false) => format!("{}: {}", form.exercise.title.value, variation.title.value),
    };
    if reasons.is_empty() {
        reasons.push("nothing speaks against it".to_string());
    }
    [asked, chosen, reasons.join("; ")]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry;
    use crate::model::source::FileId;
    use crate::reckon::choice::choose;
    use crate::reckon::choice::drawn::model;

    #[test]
    fn the_table_tells_the_form_and_the_reason_of_each_exercise() {
        let model = model("Walk:\nJump: impact-high\nDrop: impact-low\n  caution spine-fracture: ask\n");
        let profile = "name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\n";
        let (client, findings) = entry::read_client(profile, FileId(0), &model.site.catalogue);
        assert_eq!(findings, []);
        let choices: Vec<_> = ["Walk", "Jump", "Drop"]
            .iter()
            .map(|id| choose(&model.exercises[*id], &["spine-fracture"], &model))
            .collect();
        assert_eq!(
            table(&client.unwrap(), &choices, &model.site.catalogue),
            "  Exercise  Form chosen   Reason\n\
             \x20 Walk      as it stands  nothing speaks against it\n\
             \x20 Jump      left out      `spine-fracture` says to avoid `impact-high`\n\
             \x20 Drop      as it stands  `spine-fracture` says `ask` of `impact-low`, and a caution answers it\n"
        );
    }
}
