//! What was chosen for a person, on which days and why, and what her week has no room for: told to the educator
//! before the sheet goes out.

use super::too_short::too_short;
use crate::cli::load::Loaded;
use crate::cli::outcome::Failure;
use crate::cli::terminal::Terminal;
use crate::model::catalogue::Catalogue;
use crate::model::client::Client;
use crate::model::vocabulary::{Day, Vocabulary};
use crate::print::{Order, Person};
use crate::reckon::choice::Choice;
use crate::reckon::days::DaySet;

/// Prints the table of a sheet for a person: exercise, form chosen, days, reason. Below it stands what her week
/// cannot hold, and what would do.
pub(super) fn print(order: &Order<'_>, loaded: &Loaded, terminal: &Terminal) -> Result<(), Failure> {
    let Some(person) = &order.person else { return Ok(()) };
    let file = &loaded.sources.get(person.client.file).name;
    terminal.say(&format!("{} ({file})", person.client.name.value))?;
    terminal.say(&table(person, &loaded.model.site.catalogue))?;
    for line in too_short(person, file) {
        terminal.say(&line)?;
    }
    Ok(())
}

fn table(person: &Person<'_>, catalogue: &Catalogue) -> String {
    let mut rows = vec![["Exercise", "Form chosen", "Days", "Reason"].map(str::to_string)];
    rows.extend(person.choices.iter().map(|choice| row(person, choice, catalogue)));
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let (first, second, third) = (width(0), width(1), width(2));
    let line = |[a, b, c, d]: &[String; 4]| format!("  {a:<first$}  {b:<second$}  {c:<third$}  {d}\n");
    rows.iter().map(line).collect()
}

fn row(person: &Person<'_>, choice: &Choice<'_>, catalogue: &Catalogue) -> [String; 4] {
    let client: &Client = person.client;
    let asked = choice.asked.title.value.clone();
    let why = choice.refused.first().and_then(|refused| refused.why.first()).map(ToString::to_string);
    let days = person.practice.chosen_for(choice).map(|chosen| chosen.days);
    let (Some(form), Some(days)) = (&choice.form, days) else {
        return [asked, "left out".to_string(), String::new(), why.unwrap_or_default()];
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
    if days.is_empty() {
        reasons.push("the week has no room for it, so that the sheet leaves it out".to_string());
    }
    if reasons.is_empty() {
        reasons.push("nothing speaks against it".to_string());
    }
    [asked, chosen, short_names(days), reasons.join("; ")]
}

/// "Mon Wed Fri", or "none".
fn short_names(days: DaySet) -> String {
    let short = |day: Day| {
        let word = day.word();
        format!("{}{}", word[..1].to_uppercase(), &word[1..3])
    };
    let names: Vec<String> = days.iter().map(short).collect();
    if names.is_empty() { "none".to_string() } else { names.join(" ") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry;
    use crate::model::source::FileId;
    use crate::print::Subject;
    use crate::reckon::choice::drawn::model;

    #[test]
    fn the_table_tells_the_form_the_days_and_the_reason_of_each_exercise() {
        let model = model("Walk:\nJump: impact-high\nDrop: impact-low\n  caution spine-fracture: ask\n");
        let profile =
            "name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\ndays = [\"monday\", \"thursday\"]\n";
        let (client, findings) = entry::read_client(profile, FileId(0), &model.site.catalogue);
        assert_eq!(findings, []);
        let exercises = ["Walk", "Jump", "Drop"].iter().map(|id| &model.exercises[*id]).collect();
        let client = client.unwrap();
        let person = Person::of(&client, &Subject::Exercises(exercises), &model);
        assert_eq!(
            table(&person, &model.site.catalogue),
            "  Exercise  Form chosen   Days     Reason\n\
             \x20 Walk      as it stands  Mon Thu  nothing speaks against it\n\
             \x20 Jump      left out               `spine-fracture` says to avoid `impact-high`\n\
             \x20 Drop      as it stands  Mon Thu  `spine-fracture` says `ask` of `impact-low`, and a caution answers it\n"
        );
    }
}
