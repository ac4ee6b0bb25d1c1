//! The choice, case by case: the order of the forms, each reason to refuse one, and the published
//! precautions.

use jiff::civil::date;

use super::drawn::{chosen, model, opening, read, show};
use super::*;
use crate::model::client::Cleared;
use crate::model::source::Span;
use crate::review::testing::words;

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
         `side`: `spine-fracture` says to ask about `impact-low`, and nothing is cleared\n\
         -> `low`",
        "the nearest rungs before those below them"
    );
    let spoilt = safe_from("left out", &[no_seat, no_slow, ("\nlow:", "\nlow: loaded-flexion")]);
    assert_eq!(spoilt.lines().count(), 6, "{spoilt}");
}

#[test]
fn each_reason_refuses_a_form() {
    const NO_CAUTION: &str = "`a`: `spine-fracture` says to modify `floor-transfer`, and no caution for `spine-fracture` says how\n-> left out";
    check(&[
        ("nothing is asked, nothing refused", "a:", &["spine-fracture", "unsteady"], "-> `a`"),
        ("a demand that nobody restricts", "a: quick-rise", &["no-floor"], "-> `a`"),
        (
            "avoid, with a caution all the same",
            "a: impact-high\n  caution spine-fracture: adapt",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to avoid `impact-high`\n-> left out",
        ),
        ("modify without a caution", "a: floor-transfer", &["spine-fracture"], NO_CAUTION),
        (
            "modify with a caution for everyone, who is nobody",
            "a: floor-transfer\n  caution everyone: adapt about:floor-transfer",
            &["spine-fracture"],
            NO_CAUTION,
        ),
        (
            "modify with a caution for another precaution",
            "a: floor-transfer\n  caution unsteady: adapt",
            &["spine-fracture"],
            NO_CAUTION,
        ),
        (
            "modify with a caution about something else",
            "a: floor-transfer quick-rise\n  caution spine-fracture: adapt about:quick-rise",
            &["spine-fracture"],
            NO_CAUTION,
        ),
        (
            "modify with a caution that does not say which of two it is about",
            "a: floor-transfer quick-rise\n  caution spine-fracture: adapt",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to modify `floor-transfer`, and no caution for `spine-fracture` says how\n-> left out",
        ),
        (
            "modify with its caution",
            "a: floor-transfer\n  caution unsteady spine-fracture: adapt",
            &["spine-fracture"],
            "-> `a`",
        ),
        (
            "ask, with its caution, of which nothing is cleared",
            "a: impact-low\n  caution spine-fracture: ask",
            &["spine-fracture"],
            "`a`: its caution for `spine-fracture` says to ask first, and nothing is cleared\n-> left out",
        ),
        (
            "ask, with a caution that only changes it",
            "a: impact-low\n  caution spine-fracture: adapt",
            &["spine-fracture"],
            "`a`: `spine-fracture` says to ask about `impact-low`, and nothing is cleared\n-> left out",
        ),
        (
            "two precautions, one of them without its caution",
            "a: floor-transfer\n  caution spine-fracture: adapt",
            &["spine-fracture", "unsteady"],
            "`a`: `unsteady` says to modify `floor-transfer`, and no caution for `unsteady` says how\n-> left out",
        ),
        (
            "a caution to stop is for the exercise and the variations that keep its steps",
            "a:\n  variation Slower: keep\n  variation Seated:\n  caution unsteady: stop",
            &["unsteady"],
            "`a`: its caution for `unsteady` says to stop\n`a` (Slower): its caution for `unsteady` says to stop\n-> `a` (Seated)",
        ),
        (
            "a caution to stop is for what still asks what it is about",
            "a: narrow-stance\n  variation Slower:\n  variation Wide: keep -narrow-stance\n  caution low-bone-density: stop about:narrow-stance",
            &["low-bone-density"],
            "`a`: its caution for `low-bone-density` says to stop\n\
             `a` (Slower): its caution for `low-bone-density` says to stop\n-> `a` (Wide)",
        ),
        (
            "a caution to stop one variation",
            "a: impact-high\n  variation Slower: -impact-high\n  variation Seated: -impact-high\n  caution unsteady: stop form:Slower",
            &["unsteady"],
            "`a`: `unsteady` says to avoid `impact-high`\n`a` (Slower): its caution for `unsteady` says to stop\n-> `a` (Seated)",
        ),
        ("a caution to stop for another", "a:\n  caution unsteady: stop", &["spine-fracture"], "-> `a`"),
        (
            "a caution to stop ends at its exercise",
            "a:\n  regression b:\n  caution unsteady: stop\nb:",
            &["unsteady"],
            "`a`: its caution for `unsteady` says to stop\n-> `b`",
        ),
        (
            "the cautions of the exercise above do not speak for the one below",
            "a: impact-high narrow-stance\n  regression b:\n  caution unsteady: adapt about:narrow-stance\nb: narrow-stance",
            &["unsteady"],
            "`a`: `unsteady` says to avoid `impact-high`\n\
             `b`: `unsteady` says to modify `narrow-stance`, and no caution for `unsteady` says how\n\
             -> left out",
        ),
        (
            "the weightiest reason is told: stop before avoid, avoid before what lacks a caution",
            "a: floor-transfer impact-high\n  regression b:\n  caution unsteady: stop about:impact-high\nb: floor-transfer impact-high",
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
fn the_form_that_a_caution_names_is_tried_first() {
    check(&[
        (
            "to ask first, and until then another form",
            "a: impact-low\n  variation Slower: keep\n  variation Seated: -impact-low\n  caution spine-fracture: ask use:Seated",
            &["spine-fracture"],
            "-> `a` (Seated)",
        ),
        (
            "to do another form, although this one asks nothing",
            "a:\n  variation Seated: keep\n  caution spine-fracture: adapt use:Seated",
            &["spine-fracture"],
            "-> `a` (Seated)",
        ),
        (
            "to do an exercise further down",
            "a: impact-low\n  regression b:\n  caution spine-fracture: stop use:c\nb:\n  regression c:\nc:",
            &["spine-fracture"],
            "-> `c`",
        ),
        (
            "for somebody else",
            "a:\n  variation Seated: keep\n  caution spine-fracture: adapt use:Seated",
            &["unsteady"],
            "-> `a`",
        ),
        (
            "the form that is named is safe for one of her precautions and not for the other",
            "a: impact-low\n  variation Seated: -impact-low +head-turn\n  regression b:\n  caution spine-fracture: ask use:Seated\nb:",
            &["spine-fracture", "unsteady"],
            "`a` (Seated): `unsteady` says to modify `head-turn`, and no caution for `unsteady` says how\n\
             `a`: its caution for `spine-fracture` says to ask first, and nothing is cleared\n-> `b`",
        ),
        (
            "a caution that says which form says nothing of what to change there",
            "a: narrow-stance\n  variation Slower: keep\n  caution unsteady: adapt use:Slower",
            &["unsteady"],
            "`a` (Slower): `unsteady` says to modify `narrow-stance`, and no caution for `unsteady` says how\n\
             `a`: its caution for `unsteady` says to do `Slower`\n-> left out",
        ),
        (
            "a form that is not there",
            "a: impact-low\n  caution spine-fracture: ask use:Seated",
            &["spine-fracture"],
            "`a`: its `caution` could not be read\n-> left out",
        ),
    ]);
}

#[test]
fn what_the_fields_say_counts_without_being_declared() {
    check(&[
        (
            "on the floor",
            "a:\n  =: position = \"lying\"\n  variation In bed: keep =surface = \"bed\"",
            &["no-floor"],
            "`a`: `no-floor` says to avoid `floor-transfer`\n`a` (In bed): `no-floor` says to avoid `floor-transfer`\n-> left out",
        ),
        (
            "in bed, which takes the way to the floor away",
            "a:\n  =: position = \"lying\"\n  variation In bed: keep -floor-transfer =surface = \"bed\"",
            &["no-floor"],
            "`a`: `no-floor` says to avoid `floor-transfer`\n-> `a` (In bed)",
        ),
        (
            "nothing takes away what the form's own fields say",
            "a: floor-transfer\n  variation Lower: -floor-transfer =position = \"kneeling\"",
            &["no-floor"],
            "`a`: `no-floor` says to avoid `floor-transfer`\n`a` (Lower): `no-floor` says to avoid `floor-transfer`\n-> left out",
        ),
        (
            "a form on hands and knees bears on the wrists",
            "a: impact-low\n  variation Down: -impact-low =position = \"hands-and-knees\"",
            &["spine-fracture", "wrist-fracture"],
            "`a`: `spine-fracture` says to ask about `impact-low`, and nothing is cleared\n\
             `a` (Down): `spine-fracture` says to modify `floor-transfer`, and no caution for `spine-fracture` says how\n-> left out",
        ),
        (
            "a hold of eleven seconds is long",
            "a:\n  =: hold = \"5-11 s\"\n  variation Short: keep =dose = { hold = \"10 s\" }",
            &["high-blood-pressure"],
            "`a`: `high-blood-pressure` says to modify `long-hold`, and no caution for `high-blood-pressure` says how\n-> `a` (Short)",
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
            "a: impact-high end-range-twist\n  variation Bent: -end-range-twist",
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
            "a: impact-high\n  regression b: +loaded-flexion\nb:\n  variation Seated:",
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

/// How a precaution is met by a form that asks one demand.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Met {
    Never,
    /// By a clearance, and not by a caution alone.
    Cleared,
    /// By a caution that says how to change it.
    Changed,
    /// It is not restricted.
    Free,
}

/// Sources: the table of movement precautions of which the rows cite Giangregorio et al. 2015, Osteoporos
/// Int 26(3):891-910, Tables 4 and 5; Brooke-Wavell et al. 2022, Br J Sports Med 56(15):837-846, abstract;
/// Eannucci et al. 2019, HSS J 15:247-253; Jasien et al. 2015, PLoS ONE 10(12):e0144505; National
/// Institute on Aging strength tips. Where a line below names nothing, it is common practice, no source.
#[test]
fn the_published_precautions_decide() {
    for (what, demand, precaution, met) in [
        // Giangregorio, Tables 4 and 5: bending to the end of the range; with low bone density alone, only as the
        // caution says.
        ("bending far", "end-range-flexion", "spine-fracture", Met::Never),
        ("bending far", "end-range-flexion", "low-bone-density", Met::Changed),
        // Giangregorio, Table 5: bending with a load, lifting above the head, a heavy lift.
        ("a load in a bend", "loaded-flexion", "spine-fracture", Met::Never),
        ("a load in a bend", "loaded-flexion", "low-bone-density", Met::Never),
        ("a load overhead", "overhead-load", "spine-fracture", Met::Never),
        ("a heavy lift", "heavy-load", "spine-fracture", Met::Never),
        // Brooke-Wavell, abstract: a low jump is an impact above that of brisk walking, which the source allows for a
        // spine fracture, and goes once her clinician agrees.
        ("a low jump", "impact-moderate", "spine-fracture", Met::Never),
        ("a high jump", "impact-high", "spine-fracture", Met::Never),
        ("brisk walking", "impact-low", "spine-fracture", Met::Cleared),
        // The team of Allison 2013, Bone 53:321-328, on their project page: more than brisk walking with low bone
        // density is for a clinician to say.
        ("a low jump", "impact-moderate", "low-bone-density", Met::Cleared),
        ("brisk walking", "impact-low", "low-bone-density", Met::Free),
        // National Institute on Aging: holding the breath; a long hold.
        ("holding the breath", "breath-strain", "high-blood-pressure", Met::Never),
        ("a long hold", "long-hold", "high-blood-pressure", Met::Changed),
        // Eannucci: beyond 90 degrees at the hip, and across the midline, by the surgeon's word.
        ("a knee lift to 100 degrees", "deep-hip-bend", "hip-replacement", Met::Cleared),
        ("crossing the legs", "crossing-midline", "hip-replacement", Met::Cleared),
        // Kneeling, a deep bend, a high impact.
        ("kneeling", "kneeling", "knee-replacement", Met::Cleared),
        ("a deep bend", "deep-knee-bend", "knee-replacement", Met::Cleared),
        ("a high impact", "impact-high", "knee-replacement", Met::Cleared),
        // Weight through the bent wrist, only on a fist, the forearm or an edge.
        ("weight on the wrist", "wrist-load", "wrist-fracture", Met::Changed),
        // Giangregorio, Table 4: one leg and heel to toe only with a support; the eyes stay open.
        ("one leg", "single-leg-stance", "unsteady", Met::Changed),
        ("heel to toe", "narrow-stance", "unsteady", Met::Changed),
        ("turning the head", "head-turn", "unsteady", Met::Changed),
        ("closed eyes", "eyes-closed", "unsteady", Met::Never),
        // Nothing on the floor for those who cannot get up from it.
        ("the floor", "floor-transfer", "no-floor", Met::Never),
        // Rising in stages.
        ("rising quickly", "quick-rise", "dizzy-on-standing", Met::Changed),
        // Jasien: the head below the heart, and straining.
        ("the head down", "head-below-heart", "glaucoma", Met::Never),
        ("straining", "breath-strain", "glaucoma", Met::Never),
    ] {
        let is_safe = |caution: &str, cleared: bool| {
            let model = model(&format!("a: {demand}\n{}", caution.replace("HER", precaution)));
            let clearance = clearance(demand, precaution, model.exercises["a"].title.span);
            let clearances = if cleared { vec![&clearance] } else { Vec::new() };
            let need = Need { clearances, ..Need::only(&[precaution]) };
            choose(&model.exercises["a"], None, &need, &model).is_base()
        };
        let ways = [is_safe("", false), is_safe("  caution HER: adapt\n", false), is_safe("", true)];
        let expected = match met {
            Met::Never => [false, false, false],
            Met::Cleared => [false, false, true],
            Met::Changed => [false, true, false],
            Met::Free => [true, true, true],
        };
        assert_eq!(ways, expected, "{what}: {demand}, {precaution}");
        assert!(!is_safe("  caution HER: stop\n", true), "{what}: no clearance lifts a caution to stop");
    }
}

/// A clearance of a demand for people with a precaution.
fn clearance(demand: &str, precaution: &str, span: Span) -> Clearance {
    let written = |text: &str| Spanned::new(text.to_string(), span);
    let (on, until) = (date(2027, 1, 1), date(2028, 1, 1));
    Clearance {
        span,
        what: Cleared::Demand(written(demand)),
        of: vec![written(precaution)],
        by: written("B. Clinician"),
        on: Spanned::new(on, span),
        until,
    }
}

#[test]
fn a_bed_in_place_of_the_floor_and_a_wall_in_place_of_the_hands_are_found() {
    check(&[
        (
            "a bed",
            "a: floor-transfer lying-flat\n  variation On the bed: -floor-transfer",
            &["no-floor"],
            "`a`: `no-floor` says to avoid `floor-transfer`\n-> `a` (On the bed)",
        ),
        (
            "forearms on the wall",
            "a: wrist-load\n  variation On the forearms: -wrist-load",
            &["wrist-fracture"],
            "`a`: `wrist-fracture` says to modify `wrist-load`, and no caution for `wrist-fracture` says how\n-> `a` (On the forearms)",
        ),
    ]);
}

#[test]
fn a_thing_serves_as_what_it_is_called_and_not_as_what_is_missing() {
    let known = &words().things;
    for own in ["sturdy chair", "A sturdy chair", "sturdy chair with arms", "two sturdy chairs"] {
        assert!(serves_as(own, "sturdy chair", known), "{own}");
    }
    for own in
        ["chair", "no sturdy chair", "sturdy table", "not a sturdy chair", "bed without a sturdy chair"]
    {
        assert!(!serves_as(own, "sturdy chair", known), "{own}");
    }
    assert!(!serves_as("high chair", "firm, high chair with arms", known));
    assert!(serves_as("una silla firme con brazos", "silla firme", known));
    assert!(!serves_as("cama sin silla firme", "silla firme", known));
}
