//! What was chosen for a person, on which days and why, and what her week has no room for: told to the educator
//! before the sheet goes out.

use jiff::civil::Date;

use super::too_short::too_short;
use crate::cli::outcome::Failure;
use crate::cli::terminal::Terminal;
use crate::edition::Edition;
use crate::model::exercise::Applies;
use crate::model::vocabulary::{Day, Vocabulary};
use crate::print::{self, Order, Person};
use crate::reckon::choice::Choice;
use crate::reckon::days::DaySet;
use crate::reckon::reasons::{clearances, reasons};

/// Prints the table of a sheet for a person: exercise, form chosen, days, reason. Below it stand the cautions that are
/// printed, what is to be said of clearances, what her week cannot hold, and what would do.
pub(super) fn print(order: &Order<'_>, edition: &Edition, terminal: &Terminal) -> Result<(), Failure> {
    let Some(person) = &order.person else { return Ok(()) };
    let file = &edition.sources().get(person.client.file).name;
    terminal.say(&format!("{} ({file})", person.client.name.value))?;
    terminal.say(&table(person))?;
    for unsaid in print::unsaid(order, edition.model(), edition.words()) {
        terminal.say(&format!(
            "  Not printed: {}, which names {}; that is not on her handout.",
            unsaid.what, unsaid.names
        ))?;
    }
    for line in notes(person, terminal.today).into_iter().chain(too_short(person, file)) {
        terminal.say(&line)?;
    }
    Ok(())
}

fn table(person: &Person<'_>) -> String {
    let mut rows = vec![["Exercise", "Form chosen", "Days", "Reason"].map(str::to_string)];
    rows.extend(person.choices.iter().map(|choice| row(person, choice)));
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let (first, second, third) = (width(0), width(1), width(2));
    let line = |[a, b, c, d]: &[String; 4]| format!("  {a:<first$}  {b:<second$}  {c:<third$}  {d}\n");
    rows.iter().map(line).collect()
}

fn row(person: &Person<'_>, choice: &Choice<'_>) -> [String; 4] {
    let asked = choice.asked.title.value.clone();
    let why: Vec<String> = reasons(&person.practice, choice).into_iter().map(|reason| reason.text).collect();
    let days = person.practice.chosen_for(choice).map(|chosen| chosen.days);
    let (Some(form), Some(days)) = (choice.form(), days) else {
        return [asked, "left out".to_string(), String::new(), why.join("; ")];
    };
    let chosen = match (form.variation, form.exercise.id == choice.asked.id) {
        (None, true) => "as it stands".to_string(),
        (None, false) => form.exercise.title.value.clone(),
        (Some(variation), true) => variation.title.value.clone(),
        (Some(variation), false) => format!("{}: {}", form.exercise.title.value, variation.title.value),
    };
    [asked, chosen, short_names(days), why.join("; ")]
}

/// The cautions on the sheet, form by form, and what is to be said of clearances.
fn notes(person: &Person<'_>, today: Date) -> Vec<String> {
    let mut lines = Vec::new();
    for chosen in person.shown() {
        let hers = chosen.cautions.iter().filter(|c| c.applies != Applies::Everyone);
        lines.extend(hers.map(|c| format!("  {}, for you: {}", chosen.title().value, c.text.value)));
    }
    if person.client.equipment.is_none() {
        lines.push(
            "  The profile does not say what there is at home (`equipment`), so nothing counts as lacking."
                .to_string(),
        );
    }
    lines.extend(clearances(person.client, today).into_iter().map(|said| format!("  Note: {}", said.text)));
    lines
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
    use jiff::civil::date;

    use super::*;
    use crate::entry;
    use crate::model::source::FileId;
    use crate::print::Subject;
    use crate::reckon::choice::drawn::model;

    #[test]
    fn the_table_tells_the_form_the_days_and_the_reason_of_each_exercise() {
        let model = model(
            "Walk:\nJump: impact-high\nDrop: impact-low\n  variation Seated: -impact-low\n  caution spine-fracture: ask use:Seated\n",
        );
        let profile =
            "name = \"J. K.\"\nprecautions = [\"spine-fracture\"]\ndays = [\"monday\", \"thursday\"]\n";
        let (client, findings) = entry::read_client(profile, FileId(0), &model.site.catalogue);
        assert_eq!(findings, []);
        let exercises = ["Walk", "Jump", "Drop"].iter().map(|id| &model.exercises[*id]).collect();
        let client = client.unwrap();
        let person = Person::of(&client, &Subject::Exercises(exercises), &model, date(2027, 1, 4));
        assert_eq!(
            table(&person),
            "  Exercise  Form chosen   Days     Reason\n\
             \x20 Walk      as it stands  Mon Thu  no reason against it\n\
             \x20 Jump      left out               `spine-fracture` says to avoid `impact-high`\n\
             \x20 Drop      Seated        Mon Thu  its caution for `spine-fracture` says to ask first, and nothing is cleared; `spine-fracture` says to ask about `impact-low`, and nothing is cleared\n"
        );
    }
}
