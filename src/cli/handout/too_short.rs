//! What a person's week cannot hold as often as it is to be done, and what would do.

use crate::model::vocabulary::Vocabulary;
use crate::print::Person;
use crate::reckon::days::DaySet;
use crate::reckon::personal::Chosen;
use crate::reckon::practice::{Remedy, Short};

/// The lines for each exercise that her week has too few days for; `profile` is the file that says her days.
pub(super) fn too_short(person: &Person<'_>, profile: &str) -> Vec<String> {
    let practice = &person.practice;
    let lines = |short: &Short| {
        let chosen = practice.chosen.get(short.request)?;
        Some(std::iter::once(what(short, chosen)).chain(what_would_do(short, chosen, profile)))
    };
    practice.plan.short.iter().filter_map(lines).flatten().collect()
}

fn what(short: &Short, chosen: &Chosen<'_>) -> String {
    let room = match short.got {
        0 => "there is room for none; the handout leaves it out".to_string(),
        got => format!("there is room for {got}; the handout asks for {got}"),
    };
    format!("  {} is to be done on {} a week, and {room}", chosen.title().value, days(short.wanted))
}

fn what_would_do(short: &Short, chosen: &Chosen<'_>, profile: &str) -> Option<String> {
    let id = &chosen.form.exercise.id;
    let in_words = |remedy: &Remedy| match *remedy {
        // The sheet does so already.
        Remedy::Days(n) if n == short.got => None,
        Remedy::Days(n) => Some(format!("do it on {} a week", days(n))),
        Remedy::FreeDays(more) => Some(format!("add {} to `days` in {profile}", quoted(more))),
        Remedy::RestDays(n) => Some(format!(
            "leave {} free in between, if that is enough for all who do `{id}` (`rest_days`)",
            days(n)
        )),
        Remedy::Minutes(n) => Some(format!("write `minutes = {n}` in {profile}")),
    };
    let remedies: Vec<String> = short.remedies.iter().filter_map(in_words).collect();
    match remedies.as_slice() {
        [] => None,
        [one] => Some(format!("    this would do: {one}")),
        several => Some(format!("    each of these would do: {}", several.join("; "))),
    }
}

fn days(n: u32) -> String {
    format!("{n} {}", if n == 1 { "day" } else { "days" })
}

fn quoted(days: DaySet) -> String {
    let days: Vec<String> = days.iter().map(|day| format!("`\"{}\"`", day.word())).collect();
    days.join(" and ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry;
    use crate::model::source::FileId;
    use crate::print::Subject;
    use crate::review::testing::{edited, with_sample};

    const STAND: &str = "content/exercises/sit-to-stand.md";

    /// What is told to the educator of a person who is to do these exercises of the sample.
    fn told(ids: &[&str], rest_days: u32, fields: &str) -> Vec<String> {
        let text = edited(STAND, &[("rest_days = 1", &format!("rest_days = {rest_days}"))]);
        let mut lines = Vec::new();
        with_sample(&[(STAND, &text)], |model| {
            let profile = format!("name = \"J. K.\"\nprecautions = []\n{fields}");
            let (client, findings) = entry::read_client(&profile, FileId(0), &model.site.catalogue);
            assert_eq!(findings, []);
            let client = client.unwrap();
            let exercises = ids.iter().map(|id| &model.exercises[*id]).collect();
            let person =
                Person::of(&client, &Subject::Exercises(exercises), model, jiff::civil::date(2027, 2, 15));
            lines = too_short(&person, "clients/j.toml");
        });
        lines
    }

    #[test]
    fn what_does_not_fit_is_told_with_what_would_do() {
        let both = ["sit-to-stand", "tall-sit"];
        assert_eq!(told(&both, 1, ""), [""; 0]);
        assert_eq!(
            told(&both, 1, "days = [\"monday\", \"tuesday\"]\n"),
            [
                "  Sit to stand is to be done on 2 days a week, and there is room for 1; the handout asks for 1",
                "    this would do: add `\"wednesday\"` to `days` in clients/j.toml",
                "  Tall sit is to be done on 5 days a week, and there is room for 2; the handout asks for 2",
                "    this would do: add `\"wednesday\"` and `\"thursday\"` and `\"friday\"` to `days` in clients/j.toml",
            ]
        );
    }

    #[test]
    fn rest_days_and_minutes_are_named_where_they_would_do() {
        assert_eq!(
            told(&["sit-to-stand"], 2, "days = [\"monday\", \"wednesday\"]\n"),
            [
                "  Sit to stand is to be done on 2 days a week, and there is room for 1; the handout asks for 1",
                "    each of these would do: add `\"thursday\"` to `days` in clients/j.toml; \
                 leave 1 day free in between, if that is enough for all who do `sit-to-stand` (`rest_days`)",
            ]
        );
        assert_eq!(
            told(&["sit-to-stand"], 1, "minutes = 1\n"),
            [
                "  Sit to stand is to be done on 2 days a week, and there is room for none; the handout leaves it out",
                "    this would do: write `minutes = 2` in clients/j.toml",
            ]
        );
    }
}
