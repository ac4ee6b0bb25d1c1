//! Practice weeks read out.

use super::*;
use crate::entry;
use crate::model::client::Client;
use crate::model::source::FileId;
use crate::model::words::Words;
use crate::reckon::choice::{Need, choose};
use crate::review::testing::{edited, with_sample};
use crate::workspace::theme::Theme;

const DROP: &str = "content/exercises/heel-drop.md";
const STAND: &str = "content/exercises/sit-to-stand.md";

fn words(language: &str) -> Words {
    let theme = Theme::built_in();
    Words::read(language, theme.text(&format!("words/{language}.ftl")).unwrap(), theme.lists(language))
        .unwrap()
}

/// A block as a reader goes through it.
fn read(block: &PracticeBlock<'_>) -> String {
    let mut lines = vec![block.time.clone()];
    let Some(spread) = &block.spread else { return lines.remove(0) };
    lines.push(spread.title.clone());
    for day in &spread.days {
        let done: Vec<String> =
            day.exercises.iter().map(|e| format!("{} ({})", e.title.value, e.component.word())).collect();
        lines.push(format!("  {}: {}: {}", day.name, day.time, done.join(", ")));
    }
    lines.extend(spread.advice.iter().cloned());
    lines.join("\n")
}

/// The second week of the sample with `files` laid over it.
fn week(files: &[(&str, &str)], language: &str) -> String {
    let words = words(language);
    let mut text = String::new();
    with_sample(files, |model| {
        let (_, week) = model.weeks().nth(1).unwrap();
        text = read(&of_week(model, week, Phrases { words: &words }).unwrap());
    });
    text
}

fn client(fields: &str, model: &Model) -> Client {
    let profile = format!("name = \"J. K.\"\nprecautions = []\n{fields}");
    let (client, findings) = entry::read_client(&profile, FileId(0), &model.site.catalogue);
    assert_eq!(findings, []);
    client.unwrap()
}

/// The week of a person who does the second week of the sample with `files` laid over it.
fn person(files: &[(&str, &str)], fields: &str) -> Option<String> {
    let words = words("en");
    let mut text = None;
    with_sample(files, |model| {
        let (_, week) = model.weeks().nth(1).unwrap();
        let client = client(fields, model);
        let asked: Vec<_> = model.exercises_of(week).map(|(used, e)| (e, Some(used))).collect();
        let need = Need::of(&client, &[], jiff::civil::date(2026, 1, 12));
        let choices: Vec<_> = asked.iter().map(|(e, used)| choose(e, *used, &need, model)).collect();
        let personal = Personal::of(&client, &need, &asked, &choices, model);
        let most = client.minutes.as_ref().map(|minutes| minutes.value);
        text = of_person(&personal, most, Phrases { words: &words }).map(|block| read(&block));
    });
    text
}

#[test]
fn a_week_is_spread_over_its_days_in_plain_words() {
    insta::assert_snapshot!(week(&[], "en"));
    insta::assert_snapshot!(week(&[], "es"));
}

#[test]
fn a_day_without_exercises_is_a_rest_day() {
    insta::assert_snapshot!(person(&[], "days = [\"monday\", \"wednesday\", \"saturday\"]\n").unwrap());
}

#[test]
fn no_day_of_a_person_says_more_minutes_than_she_has() {
    let slow = edited(DROP, &[("pace = \"4 s\"", "pace = \"12 s\"")]);
    let monday = |minutes: &str| {
        let told = person(&[(DROP, &slow)], &format!("days = [\"monday\"]\n{minutes}")).unwrap();
        told.lines().nth(2).unwrap().to_string()
    };
    assert!(monday("").starts_with("  Monday: About 10 to 15 minutes: "), "{}", monday(""));
    assert!(
        monday("minutes = 13\n").starts_with("  Monday: About 10 to 13 minutes: "),
        "{}",
        monday("minutes = 13\n")
    );
}

#[test]
fn one_who_has_room_for_nothing_has_no_week() {
    let words = words("en");
    with_sample(&[], |model| {
        let personal = Personal::of(&client("", model), &Need::default(), &[], &[], model);
        assert!(of_person(&personal, None, Phrases { words: &words }).is_none());
    });
}

#[test]
fn a_week_that_does_not_hold_its_doses_shows_no_days() {
    let text = edited(STAND, &[("days = \"2-3\"", "days = 5")]);
    let told = week(&[(STAND, &text)], "en");
    assert!(told.contains(" for all the exercises together."), "{told}");
    assert!(!told.contains("day"), "{told}");
}

#[test]
fn exercises_with_the_same_rest_share_a_line() {
    let say_words = words("en");
    let say = Phrases { words: &say_words };
    with_sample(&[], |model| {
        let done = |id: &str| Done {
            title: &model.exercises[id].title,
            component: model.exercises[id].component.value,
        };
        let item = |id: &str, rest| Item {
            done: done(id),
            length: Between::ZERO,
            rest,
            regions: Regions::NONE,
            days: DaySet::ALL,
        };
        let items = [
            item("sit-to-stand", 1),
            item("tall-sit", 0),
            item("heel-drop", 2),
            item("feet-together-stand", 1),
        ];
        let titles = |ids: &[&str]| {
            ids.iter().map(|id| done(id).title.value.as_str()).collect::<Vec<_>>().join(" and ")
        };
        assert_eq!(
            rests(&items, say),
            [
                format!(
                    "{}: rest at least 1 day before you do the same one again.",
                    titles(&["sit-to-stand", "feet-together-stand"])
                ),
                format!("{}: rest at least 2 days before you do the same one again.", titles(&["heel-drop"])),
            ]
        );
    });
}

#[test]
fn exercises_that_train_the_same_region_are_told_to_rest_together() {
    use Region::{Arms, Chest, Hips, Thighs};
    let say_words = words("en");
    let say = Phrases { words: &say_words };
    with_sample(&[], |model| {
        let told = |regions: &[&[Region]]| {
            let ids = ["sit-to-stand", "tall-sit", "heel-drop"];
            let items = ids.iter().zip(regions).map(|(id, regions)| Item {
                done: Done { title: &model.exercises[*id].title, component: Component::Strength },
                length: Between::ZERO,
                rest: 1,
                regions: Regions::of(regions.iter().copied()),
                days: DaySet::ALL,
            });
            same_muscles(&items.collect::<Vec<_>>(), say)
        };
        let line = |titles: &str| {
            format!(
                "{titles} work some of the same muscles. Do them on the same day, or rest at least 1 day in between."
            )
        };
        assert_eq!(told(&[&[Thighs], &[Arms], &[]]), [""; 0]);
        // Two regions that they share are one line, and two of three are no line of their own.
        assert_eq!(
            told(&[&[Thighs, Hips], &[Arms], &[Hips, Thighs]]),
            [line("Sit to stand and Heel drop at the counter")]
        );
        assert_eq!(
            told(&[&[Thighs, Hips], &[Hips], &[Hips, Thighs]]),
            [line("Sit to stand, Tall sit, and Heel drop at the counter")]
        );
        assert_eq!(
            told(&[&[Thighs, Arms], &[Arms, Chest], &[Chest]]),
            [line("Sit to stand and Tall sit"), line("Tall sit and Heel drop at the counter")]
        );
    });
}
