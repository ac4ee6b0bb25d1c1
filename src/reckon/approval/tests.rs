//! What changes the fingerprint of an exercise and what does not.

use std::collections::BTreeSet;

use super::{fingerprint, has_changed, standing};
use crate::model::exercise::Exercise;
use crate::review::testing::with_sample;

const FILE: &str = "content/exercises/heel-drop.md";

/// An exercise with every field but a photo. Each value is another than that of a field that is not there.
const WHOLE: &str = r#"```toml
title = "Heel slides"
component = "strength"
position = "lying"
surface = "bed"
support = ["rail"]
equipment = ["sheet"]
demands = ["lying-flat", "deep-hip-bend"]
trains = ["thighs"]
summary = "Slide one heel toward you."
[dose]
reps = "8-10"
hold = "3-5 s"
time = "5 min"
sets = 2
sides = "alternating"
rest = "60 s"
pace = "4 s"
days = "3-4"
rest_days = 1
effort = "5-6"
[[variation]]
title = "Seated slide"
text = "The same on a chair."
position = "seated"
support = []
equipment = ["sturdy chair"]
removes = ["lying-flat"]
adds = ["quick-rise"]
steps = ["Sit tall.", "Slide one foot."]
[variation.dose]
reps = 5
[[variation.figure]]
description = "She sits."
[[variation.figure.pose]]
base = "seated"
[[variation]]
title = "Side slide"
text = "On your side."
position = "side-lying"
surface = "bed"
keeps_steps = true
[[regression]]
text = "Slide less far."
adds = ["long-hold"]
[regression.dose]
reps = 4
[[regression]]
exercise = "tall-sit"
text = "Sit instead."
removes = ["lying-flat"]
[[progression]]
text = "Lift the foot."
[[caution]]
for = ["hip-replacement"]
level = "adapt"
about = ["deep-hip-bend"]
use = "Seated slide"
form = "Side slide"
text = "Do the seated slide."
[caution.dose]
reps = 3
[[caution]]
for = "everyone"
level = "adapt"
text = "Stop if it hurts."
[[figure]]
description = "She lies on a bed."
caption = "The start"
view = "front"
layout = "over"
rounded_back = 10
props = ["bed", { thing = "cushion", place = "ahead", distance = 20, height = 10 }]
arrows = ["left-foot"]
labels = [{ at = "left-knee", text = "Bend" }]
[[figure.pose]]
base = "lying"
stance = "hip-width"
front_foot = "left"
weight = "right"
back = "wall"
left_foot = "flat"
right_hold = "thigh"
right_hold_at = 20
hips_raised = 5
jump = 2
knee.flexion = 40
left_hip.flexion = 50
```
A slide for your knees.

## Set up
Lie on your back.

## Move
1. Slide your left heel.
2. Slide it back.
"#;

fn look<T>(text: &str, look: impl FnOnce(&Exercise) -> T) -> T {
    let mut found = None;
    with_sample(&[(FILE, text)], |model| found = Some(look(&model.exercises["heel-drop"])));
    found.expect("an exercise")
}

fn of(text: &str) -> String {
    look(text, fingerprint)
}

/// The text with one passage replaced, which must stand in it.
fn with(old: &str, new: &str) -> String {
    assert!(WHOLE.contains(old), "{old}");
    WHOLE.replacen(old, new, 1)
}

fn prose_starts() -> usize {
    WHOLE.find("A slide for").expect("the prose")
}

#[test]
fn every_line_of_the_fields_counts_but_the_title() {
    let known = of(WHOLE);
    let lines: Vec<&str> = WHOLE[..prose_starts()].split_inclusive('\n').collect();
    let mut counted = 0;
    for (at, line) in lines.iter().enumerate().filter(|(_, line)| line.contains(" = ")) {
        let without: String = [&lines[..at], &lines[at + 1..]].concat().concat() + &WHOLE[prose_starts()..];
        match at {
            // The title of the exercise, that of a variation not being one.
            1 => assert_eq!(of(&without), known, "{line}"),
            _ => assert_ne!(of(&without), known, "{line}"),
        }
        counted += 1;
    }
    assert!(counted > 60, "only {counted} lines");
}

#[test]
fn every_word_of_the_prose_counts() {
    let mut seen = BTreeSet::from([of(WHOLE)]);
    let prose = &WHOLE[prose_starts()..];
    let words: Vec<&str> =
        prose.split_whitespace().filter(|word| word.starts_with(char::is_alphabetic)).collect();
    for word in &words {
        let at = word.as_ptr() as usize - WHOLE.as_ptr() as usize;
        let changed = format!("{}un{}", &WHOLE[..at], &WHOLE[at..]);
        assert!(seen.insert(of(&changed)), "{word}");
    }
    assert!(words.len() > 15);
}

#[test]
fn each_value_inside_a_line_counts_and_so_does_the_order_of_what_is_tried() {
    let mut seen = BTreeSet::from([of(WHOLE)]);
    let whole_variation = |title: &str| {
        let start = WHOLE.find(&format!("[[variation]]\ntitle = \"{title}\"")).expect("a variation");
        let end = WHOLE[start + 1..].find("\n[[variation]]").or(WHOLE[start + 1..].find("\n[[regression]]"));
        WHOLE[start..start + 2 + end.expect("its end")].to_string()
    };
    let (first, second) = (whole_variation("Seated slide"), whole_variation("Side slide"));
    for changed in [
        with("\"8-10\"", "\"8-12\""),
        with("\"8-10\"", "\"7-10\""),
        with("\"60 s\"", "\"61 s\""),
        // The same time is read out in another unit.
        with("\"60 s\"", "\"1 min\""),
        with("\"Sit tall.\", \"Slide one foot.\"", "\"Sit tall. Slide one foot.\""),
        with("[\"lying-flat\", \"deep-hip-bend\"]", "[\"lying-flat\"]"),
        with("height = 10", "height = 11"),
        with("distance = 20", "distance = 21"),
        with("place = \"ahead\"", "place = \"behind\""),
        with("thing = \"cushion\"", "thing = \"towel\""),
        with("at = \"left-knee\"", "at = \"right-knee\""),
        with("\"Bend\"", "\"Bent\""),
        with("left_hip.flexion", "right_hip.flexion"),
        with("left_hip.flexion", "left_hip.abduction"),
        with("flexion = 50", "flexion = 51"),
        with("support = []\n", ""),
        with("\"The start\"", "\"A start\""),
        with("exercise = \"tall-sit\"", "exercise = \"heel-raise\""),
        with(&format!("{first}{second}"), &format!("{second}{first}")),
        with("[[progression]]\ntext = \"Lift the foot.\"\n", "[[regression]]\ntext = \"Lift the foot.\"\n"),
    ] {
        assert!(seen.insert(of(&changed)), "{changed}");
    }
}

#[test]
fn what_no_client_reads_does_not_count() {
    let known = of(WHOLE);
    for changed in [
        with("Heel slides", "Heel slide, on your back"),
        with("summary", "also_called = [\"Heel glide\", \"Foot slide\"]\nsummary"),
        with("summary", "reviewed = { by = \"A. Reviewer, PT\", on = 2026-01-05 }\nsummary"),
        with("summary", "accept = [{ finding = \"hard-to-read\", because = \"So.\" }]\nsummary"),
        with(
            "support = [\"rail\"]\nequipment = [\"sheet\"]",
            "equipment = [\"sheet\"]\nsupport = [\"rail\"]",
        ),
        with("knee.flexion = 40\nleft_hip.flexion = 50", "left_hip.flexion = 50\nknee.flexion = 40"),
        with("[dose]\n", "\n# How much.\n[dose] # this\n\n"),
        with("reps = \"8-10\"", "reps    =    '8-10'   "),
        with("sets = 2", "sets = \"2\""),
        with("\"lying-flat\", \"deep-hip-bend\"", "\n  \"lying-flat\", # yes\n  \"deep-hip-bend\",\n"),
        with("## Move\n", "\n\n## Move   \n\n"),
        with("Lie on your back.\n", "Lie on your back.  \t\n<!-- Which pillow? -->\n"),
        with("## Move\n", "<!--\nTo do:\n\n- a photo\n-->\n\n## Move\n"),
        with("your back.\n", "your <!-- own --> back.\n")
            .replace("  back", " back")
            .replace("your <", "your<"),
        WHOLE.replace('\n', "\r\n"),
        format!("\u{feff}{WHOLE}\n\n"),
    ] {
        assert_eq!(of(&changed), known, "{changed}");
    }
    // Words in a comment of the fields are none of the prose, and words after a comment are.
    assert_ne!(of(&with("Lie on your back.\n", "Lie on your back. <!-- a --> Gently.\n")), known);
    assert_ne!(of(&with("Lie on your back.\n", "`<!-- a -->` Lie on your back.\n")), known);
}

#[test]
fn it_is_the_same_on_every_machine() {
    assert_eq!(of(WHOLE), "ac5d9bdc6823335c");
}

#[test]
fn a_review_stands_until_the_content_is_another_and_one_without_a_fingerprint_stands() {
    let reviewed = |of: &str| {
        with("summary", &format!("reviewed = {{ by = \"A. Reviewer, PT\", on = 2026-01-05{of} }}\nsummary"))
    };
    let told = |text: &str| look(text, |e| (has_changed(e), standing(e).is_some()));
    let fits = reviewed(&format!(", of = \"{}\"", of(WHOLE)));
    assert_eq!(told(&fits), (false, true));
    assert_eq!(told(&fits.replacen("Heel slides", "Slides", 1)), (false, true));
    assert_eq!(told(&fits.replacen("back.", "side.", 1)), (true, false));
    assert_eq!(told(&reviewed("")), (false, true));
    assert_eq!(told(WHOLE), (false, false));
    assert_eq!(told(&reviewed(", of = 7")), (false, false), "a review that cannot be read is none");
}
