//! What the pages that count say, of the sample and of the demonstration.

use std::collections::BTreeSet;

use super::*;
use crate::review::testing::{demonstration, page, words};

fn week() -> Address {
    Address::WeekPractice { series: "first-steps".into(), id: "week-02".into() }
}

fn data_of(html: &str) -> Value {
    let (_, rest) = html.split_once("<script type=\"application/json\" id=\"practice.data\">").unwrap();
    serde_json::from_str(rest.split_once("</script>").unwrap().0).unwrap()
}

#[test]
fn the_script_gets_every_word_that_is_meant_for_it_and_asks_for_no_other() {
    let plain = words().plain();
    let written: BTreeSet<&str> = plain.keys().filter_map(|id| id.strip_prefix("now_js_")).collect();
    let given = data_of(&page(&week()));
    let given: BTreeSet<&str> = given["words"].as_object().unwrap().keys().map(String::as_str).collect();
    assert_eq!(given, written);
    let script = [
        include_str!("../../../themes/wideleaf/script/practice.js"),
        include_str!("../../../themes/wideleaf/script/practice_log.js"),
        include_str!("../../../themes/wideleaf/script/practice_steps.js"),
    ]
    .concat();
    // Those whose name is put together are asked for by what a part is, and by the speed.
    let asked = |id: &str| {
        script.contains(&format!("words.{id}")) || id.starts_with("do_") || id.starts_with("speed_")
    };
    let unused: Vec<&&str> = given.iter().filter(|id| !asked(id)).collect();
    assert!(unused.is_empty(), "{unused:?}");
    let named = script.split("words.").skip(1).map(|rest| {
        let end = rest.find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap();
        &rest[..end]
    });
    let unknown: Vec<&str> =
        named.filter(|id| !given.contains(id) && !["lang", "voice"].contains(id)).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
}

/// Second week: feet together 3 x 15 s with 10 s between, heel drop 2 x 10 x 4 s with 60 s between.
#[test]
fn a_week_is_counted_in_its_own_doses() {
    let data = data_of(&page(&week()));
    assert_eq!(data["of"], json!({ "series": "first-steps", "week": "week-02" }));
    let exercises = data["exercises"].as_array().unwrap();
    let of = |id: &str| exercises.iter().find(|e| e["id"] == id).unwrap()["forms"][0]["parts"].clone();
    let drops = json!(["reps", 10, 40_000, 0, 0, false]);
    assert_eq!(of("heel-drop"), json!([["ready", 60_000], drops, ["rest", 60_000], drops]));
}

#[test]
fn the_page_says_the_same_parts_in_words() {
    let html = page(&Address::ExercisePractice("heel-drop".into()));
    for line in
        ["<li>Get ready: 60 seconds</li>", "<li>10 times: 4 seconds each</li>", "<li>Rest: 60 seconds</li>"]
    {
        assert!(html.contains(line), "{line}");
    }
}

#[test]
fn every_form_stands_beside_its_cautions_and_the_number_to_call_before_all() {
    for address in [week(), Address::ExercisePractice("heel-drop".into())] {
        let html = page(&address);
        let forms: Vec<&str> = html.split("<article class=\"practice-form").skip(1).collect();
        let data = data_of(&html);
        let count: usize =
            data["exercises"].as_array().unwrap().iter().map(|e| e["forms"].as_array().unwrap().len()).sum();
        assert_eq!(forms.len(), count);
        // A form without a caution of its own says all the same that she stops when something feels wrong.
        for form in &forms {
            let care = form.split("class=\"form-care\"").nth(1).unwrap();
            assert!(care.contains("<div class=\"caution ") || care.contains("Stop at once"), "{form}");
        }
        let at = |text: &str| html.find(text).unwrap_or_else(|| panic!("no {text}"));
        assert!(at("Call 911.") < at("<h1") && at("<h1") < at("id=\"practice.start\""));
        assert!(at("Before you start") < at("id=\"practice.start\""));
    }
}

#[test]
fn a_week_and_an_exercise_lead_to_the_page_that_counts_them() {
    let week = page(&Address::Week { series: "first-steps".into(), id: "week-02".into() });
    assert!(week.contains("href=\"week-02-practice.html\""));
    assert!(page(&Address::Exercise("heel-drop".into())).contains("href=\"practice/heel-drop.html\""));
}

/// A page is read on a phone, whose owner pays for each byte.
#[test]
fn no_page_that_counts_is_heavy() {
    let edition = demonstration();
    let theme = crate::workspace::theme::Theme::built_in();
    let made = crate::pages::Prepared::default();
    let pages = Pages::new(
        edition.model(),
        edition.sources(),
        words(),
        &theme,
        made,
        crate::review::testing::TODAY,
        false,
    )
    .unwrap();
    for (series, week) in edition.model().weeks() {
        let html = pages.render(&Address::week(series, week).practice().unwrap()).unwrap();
        let forms = html.matches("<article").count();
        // Scripts and what is the same on every page; the movement of each exercise; a picture and its words for each form.
        let most = 75_000 + 25_000 * week.exercises.len() + 9_000 * forms;
        assert!(html.len() < most, "{} has {} bytes with {forms} forms", week.id, html.len());
        assert!(html.matches("data-paces=\"").count() <= week.exercises.len(), "{}", week.id);
    }
}
