//! The choice, case by case: the order of the forms, each reason to refuse one, and the published
//! precautions.

use super::drawn::{chosen, opening, read, show};
use super::*;

/// Checks each drawn case: what it shows, the exercises, the person's precautions, the choice.
fn check(cases: &[(&str, &str, &[&'static str], &str)]) {
    for (what, drawn, precautions, expected) in cases {
        assert_eq!(chosen(drawn, precautions), *expected, "{what}");
    }
}

#[test]
fn the_forms_are_tried_in_their_order_and_the_first_safe_one_is_taken() {
    const LADDER: &str = "
top: impact-high
  variation By the wall: -impact-high +impact-moderate
  variation Seated: -impact-high
  regression middle:
  regression side:
middle: impact-moderate
  variation Slower: -impact-moderate
  regression low:
side: impact-low
low:
";
    let safe_from = |first: &str, replaced: &[(&str, &str)]| {
        let drawn = replaced.iter().fold(LADDER.to_string(), |d, (old, new)| d.replace(old, new));
        let shown = chosen(&drawn, &["spine-fracture"]);
        assert!(shown.ends_with(&format!("-> {first}")), "{first}: {shown}");
        shown
    };
    assert_eq!(chosen(LADDER, &[]), "-> `top`");
    safe_from("`top` (Seated)", &[]);
    safe_from("`top` (By the wall)", &[(" +impact-moderate", "")]);
    let no_seat = ("  variation Seated: -impact-high\n", "");
    safe_from("`middle` (Slower)", &[no_seat]);
    let no_slow = ("  variation Slower: -impact-moderate\n", "");
    let all = safe_from("`low`", &[no_seat, no_slow]);
    assert_eq!(
        all,
        "`top`: `spine-fracture` says to avoid `impact-high`\n\
         `top` (By the wall): `spine-fracture` says to avoid `impact-moderate`\n\
         `middle`: `spine-fracture` says to avoid `impact-moderate`\n\
         `side`: `spine-fracture` says to ask about `impact-low`, and no caution of it names `spine-fracture`\n\
         -> `low`",
        "the nearest rungs before those below them"
    );
    let spoilt = safe_from("left out", &[no_seat, no_slow, ("\nlow:", "\nlow: loaded-flexion")]);
    assert_eq!(spoilt.lines().count(), 6, "{spoilt}");
}

#[test]
fn each_reason_refuses_a_form() {
    check(&[
        ("nothing is asked, nothing refused", "a:", &["spine-fracture", "unsteady"], "-> `a`"),
        ("a demand that nobody restricts", "a: quick-rise", &["spine-fracture"], "-> `a`"),
        (
            "avoid, with a caution all the same",
            "a: impact-high\n  caution spine-fracture: adapt",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n-> left out",
        ),
        (
            "modify without a caution",
            "a: floor-transfer",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to modify `floor-transfer`, and no caution of it names `spine-fracture`\n-> left out",
        ),
        (
            "modify with a caution for everyone, who is nobody",
            "a: floor-transfer\n  caution everyone: adapt",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to modify `floor-transfer`, and no caution of it names `spine-fracture`\n-> left out",
        ),
        (
            "modify with a caution for another precaution",
            "a: floor-transfer\n  caution unsteady: adapt",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to modify `floor-transfer`, and no caution of it names `spine-fracture`\n-> left out",
        ),
        (
            "modify with its caution",
            "a: floor-transfer\n  caution unsteady spine-fracture: adapt",
            &["spine-fracture"],
            "-> `a`",
        ),
        (
            "ask with its caution",
            "a: impact-low\n  caution spine-fracture: ask",
            &["spine-fracture"],
            "-> `a`",
        ),
        (
            "two precautions, one of them without its caution",
            "a: floor-transfer\n  caution spine-fracture: adapt",
            &["spine-fracture", "unsteady"],
            "`a`: `unsteady` says to modify `floor-transfer`, and no caution of it names `unsteady`\n-> left out",
        ),
        (
            "a caution to stop is for the exercise and all its variations",
            "a:\n  variation Seated:\n  caution unsteady: stop",
            &["unsteady"],
            "`a`: its caution for `unsteady` says to stop\n`a` (Seated): its caution for `unsteady` says to stop\n-> left out",
        ),
        ("a caution to stop for another", "a:\n  caution unsteady: stop", &["spine-fracture"], "-> `a`"),
        (
            "a caution to stop for everyone names nobody",
            "a:\n  caution everyone: stop",
            &["unsteady"],
            "-> `a`",
        ),
        (
            "a caution to stop ends at its exercise",
            "a:\n  regression b:\n  caution unsteady: stop\nb:",
            &["unsteady"],
            "`a`: its caution for `unsteady` says to stop\n-> `b`",
        ),
        (
            "the cautions of the exercise above do not speak for the one below",
            "a: impact-high\n  regression b:\n  caution spine-fracture: ask\nb: impact-low",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n\
             `b`: `spine-fracture` says to ask about `impact-low`, and no caution of it names `spine-fracture`\n\
             -> left out",
        ),
        (
            "the weightiest reason is told: stop before avoid, avoid before what lacks a caution",
            "a: floor-transfer impact-high\n  regression b:\n  caution unsteady: stop\nb: floor-transfer impact-high",
            &["unsteady"],
            "`a`: its caution for `unsteady` says to stop\n`b`: `unsteady` says to avoid `impact-high`\n-> left out",
        ),
        (
            "a precaution that the workspace does not know",
            "a:",
            &["spine-fractures"],
            "`a`: `spine-fractures` is no precaution of this workspace\n-> left out",
        ),
    ]);
}

#[test]
fn variations_and_links_change_what_is_asked() {
    check(&[
        (
            "a variation that adds what is to be avoided",
            "a: impact-high\n  variation Jump: -impact-high +end-range-twist",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n`a` (Jump): `spine-fracture` says to avoid `end-range-twist`\n-> left out",
        ),
        (
            "a variation that removes something else",
            "a: impact-high\n  variation Bent: -end-range-twist",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n`a` (Bent): `spine-fracture` says to avoid `impact-high`\n-> left out",
        ),
        (
            "a regression in words is no form, whatever it removes",
            "a: impact-high\n  words: -impact-high",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n-> left out",
        ),
        (
            "what a regression adds counts at the exercise it leads to",
            "a: impact-high\n  regression b: +loaded-flexion\nb:\n  variation Seated: -loaded-flexion",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n\
             `b`: `spine-fracture` says to avoid `loaded-flexion`\n\
             `b` (Seated): `spine-fracture` says to avoid `loaded-flexion`\n-> left out",
        ),
        (
            "what the exercise says itself too, its variation does take away",
            "a: impact-high\n  regression b: +loaded-flexion\nb: loaded-flexion\n  variation Seated: -loaded-flexion",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n`b`: `spine-fracture` says to avoid `loaded-flexion`\n-> `b` (Seated)",
        ),
        (
            "what a regression removes, the exercise may still say of itself",
            "a: impact-high\n  regression b: -impact-high\nb: impact-high",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n`b`: `spine-fracture` says to avoid `impact-high`\n-> left out",
        ),
        (
            "what a link adds is left behind on the next rung",
            "a: impact-high\n  regression b: +loaded-flexion\nb:\n  regression c:\nc:",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n`b`: `spine-fracture` says to avoid `loaded-flexion`\n-> `c`",
        ),
    ]);
}

#[test]
fn a_loop_ends_and_a_link_to_nothing_is_passed_over() {
    check(&[
        (
            "a loop of three, and one to itself",
            "a: impact-high\n  regression a:\n  regression b:\nb: impact-high\n  regression c:\nc: impact-high\n  regression a:\n  regression b:",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n\
             `b`: `spine-fracture` says to avoid `impact-high`\n\
             `c`: `spine-fracture` says to avoid `impact-high`\n-> left out",
        ),
        (
            "an exercise that is not there",
            "a: impact-high\n  regression gone:\n  regression b:\nb:",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n-> `b`",
        ),
    ]);
    let above = format!(
        "```toml\n{}[[regression]]\nexercise = \"lost\"\n[[regression]]\nexercise = \"b\"\n```\n",
        opening("a", "[\"impact-high\"]")
    );
    let below = format!("```toml\n{}```\n", opening("b", "[]"));
    let lost = "title = \"without its block\"\n";
    let model = read([("a", above.as_str()), ("b", &below), ("lost", lost)].map(owned).to_vec());
    assert!(model.unreadable.contains("lost"));
    let choice = choose(&model.exercises["a"], None, &Need::only(&["spine-fracture"]), &model);
    assert_eq!(show(&choice), "`a`: `spine-fracture` says to avoid `impact-high`\n-> `b`");
}

fn owned((id, text): (&str, &str)) -> (String, String) {
    (id.to_string(), text.to_string())
}

/// Whatever could not be read might have been what makes the exercise wrong for somebody.
#[test]
fn an_exercise_that_could_not_all_be_read_is_never_safe() {
    let tables = "[[variation]]\ntitle = \"V\"\ntext = \"Sit.\"\nadds = [\"kneeling\"]\n\
                  [[caution]]\nfor = [\"unsteady\"]\nlevel = \"stop\"\ntext = \"Mind.\"\n";
    let whole = format!("{}{tables}", opening("a", "[\"impact-high\"]"));
    let with = |old: &str, new: &str| {
        assert_eq!(whole.matches(old).count(), 1, "{old}");
        let text = format!("```toml\n{}```\n", whole.replace(old, new));
        let model = read(vec![("a".to_string(), text)]);
        show(&choose(&model.exercises["a"], None, &Need::only(&[]), &model))
    };
    assert_eq!(with("title = \"a\"", "title = \"b\""), "-> `a`", "all of it read, nobody's precaution");
    for (old, new, field) in [
        ("demands = [\"impact-high\"]\n", "", "demands"),
        ("demands = ", "demand = ", "demands"),
        ("[\"impact-high\"]", "[\"impact-hihg\"]", "demands"),
        ("[\"impact-high\"]", "[\"a hard thud\"]", "demands"),
        ("[\"impact-high\"]", "\"impact-high\"", "demands"),
        ("[[variation]]", "[[variations]]", "variation"),
        ("adds = ", "add = ", "variation"),
        ("\"kneeling\"", "\"kneling\"", "variation"),
        ("[[caution]]", "[caution]", "caution"),
        ("[[caution]]", "[[cautions]]", "caution"),
        ("[\"unsteady\"]", "[]", "caution"),
        ("[\"unsteady\"]", "[\"unsteadi\"]", "caution"),
        ("level = \"stop\"", "level = \"halt\"", "caution"),
        ("[[variation]]", "[[variation]", "demands"),
    ] {
        let shown = with(old, new);
        assert!(shown.starts_with(&format!("`a`: its `{field}` could not be read\n")), "{new}: {shown}");
        assert!(shown.ends_with("-> left out"), "{new}: {shown}");
    }
}

#[test]
fn a_regression_that_could_not_all_be_read_leads_nowhere() {
    for (adds, expected) in [
        ("adds = [\"kneeling\"]", "-> `b`"),
        ("add = [\"kneeling\"]", "-> left out"),
        ("adds = [\"kneling\"]", "-> left out"),
        ("adds = [\"loaded-flexions\", 3]", "-> left out"),
    ] {
        let above = format!(
            "```toml\n{}[[regression]]\nexercise = \"b\"\n{adds}\n```\n",
            opening("a", "[\"impact-high\"]")
        );
        let below = format!("```toml\n{}```\n", opening("b", "[]"));
        let model = read([("a", above.as_str()), ("b", &below)].map(owned).to_vec());
        let shown = show(&choose(&model.exercises["a"], None, &Need::only(&["spine-fracture"]), &model));
        assert!(shown.ends_with(expected), "{adds}: {shown}");
    }
}

/// Sources: the table of movement precautions of which the rows cite Giangregorio et al. 2015, Osteoporos
/// Int 26(3):891-910, Tables 4 and 5; Brooke-Wavell et al. 2022, Br J Sports Med 56(15):837-846, abstract;
/// Eannucci et al. 2019, HSS J 15:247-253; Jasien et al. 2015, PLoS ONE 10(12):e0144505; National
/// Institute on Aging strength tips. P14, P15, P17, P20: common practice, no source.
#[test]
fn the_published_precautions_decide() {
    for (what, demand, precaution, caution, safe) in [
        // P1: bending to the end of the range; with low bone density alone, only as the caution says.
        ("P1", "end-range-flexion", "spine-fracture", "adapt", false),
        ("P1", "end-range-flexion", "low-bone-density", "adapt", true),
        ("P1, no caution", "end-range-flexion", "low-bone-density", "", false),
        // P3: bending with a load, lifting above the head, a heavy lift.
        ("P3", "loaded-flexion", "spine-fracture", "adapt", false),
        ("P3", "loaded-flexion", "low-bone-density", "adapt", false),
        ("P3", "overhead-load", "spine-fracture", "adapt", false),
        ("P3", "heavy-load", "spine-fracture", "adapt", false),
        // P5, vector V13: a low jump is an impact above that of brisk walking; brisk walking itself goes,
        // once the person's clinician agrees, which the caution says.
        ("P5, V13: a low jump", "impact-moderate", "spine-fracture", "ask", false),
        ("P5: a high jump", "impact-high", "spine-fracture", "ask", false),
        ("P5, V13: brisk walking", "impact-low", "spine-fracture", "ask", true),
        ("P5: brisk walking, no caution", "impact-low", "spine-fracture", "", false),
        // P9: holding the breath; a long hold.
        ("P9", "breath-strain", "high-blood-pressure", "adapt", false),
        ("P9", "long-hold", "high-blood-pressure", "adapt", true),
        ("P9, no caution", "long-hold", "high-blood-pressure", "", false),
        // P11, vector V14: beyond 90 degrees at the hip, and across the midline.
        ("P11, V14: a knee lift to 100 degrees", "deep-hip-bend", "hip-replacement", "adapt", false),
        ("P11, V14: a knee lift to 90 degrees", "", "hip-replacement", "", true),
        ("P11", "crossing-midline", "hip-replacement", "adapt", false),
        // P14: kneeling, a deep bend, a high impact.
        ("P14", "kneeling", "knee-replacement", "adapt", false),
        ("P14", "deep-knee-bend", "knee-replacement", "adapt", false),
        ("P14", "impact-high", "knee-replacement", "ask", false),
        // P15: weight through the bent wrist, only on a fist, the forearm or an edge.
        ("P15", "wrist-load", "wrist-fracture", "adapt", true),
        ("P15, no caution", "wrist-load", "wrist-fracture", "", false),
        // P16: one leg and heel to toe only with a support; the eyes stay open.
        ("P16", "single-leg-stance", "unsteady", "adapt", true),
        ("P16, no caution", "single-leg-stance", "unsteady", "", false),
        ("P16, no caution", "narrow-stance", "unsteady", "", false),
        ("P16, no caution", "head-turn", "unsteady", "", false),
        ("P16", "eyes-closed", "unsteady", "adapt", false),
        // P17: nothing on the floor for those who cannot get up from it.
        ("P17", "floor-transfer", "no-floor", "adapt", false),
        // P20: rising in stages.
        ("P20", "quick-rise", "dizzy-on-standing", "adapt", true),
        ("P20, no caution", "quick-rise", "dizzy-on-standing", "", false),
        // P22: the head below the heart, and straining.
        ("P22", "head-below-heart", "glaucoma", "adapt", false),
        ("P22", "breath-strain", "glaucoma", "adapt", false),
    ] {
        let caution = match caution {
            "" => String::new(),
            level => format!("  caution {precaution}: {level}\n"),
        };
        let shown = chosen(&format!("a: {demand}\n{caution}"), &[precaution]);
        assert_eq!(shown == "-> `a`", safe, "{what}, {demand}, {precaution}: {shown}");
    }
}

#[test]
fn a_bed_in_place_of_the_floor_and_a_wall_in_place_of_the_hands_are_found() {
    check(&[
        (
            "P17: a bed",
            "a: floor-transfer lying-flat\n  variation On the bed: -floor-transfer",
            &["no-floor"],
            "`a`: `no-floor` says to avoid `floor-transfer`\n-> `a` (On the bed)",
        ),
        (
            "P15: forearms on the wall",
            "a: wrist-load\n  variation On the forearms: -wrist-load",
            &["wrist-fracture"],
            "`a`: `wrist-fracture` says to modify `wrist-load`, and no caution of it names `wrist-fracture`\n-> `a` (On the forearms)",
        ),
    ]);
}

