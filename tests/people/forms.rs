//! The forms that people with each precaution get, as a table that a clinician can read; and what holds of all of them.

use std::collections::BTreeMap;
use std::fmt::Write;

use steadyleaf::model::form::Form;
use steadyleaf::model::vocabulary::{CautionLevel, Restriction};
use steadyleaf::reckon::choice::{Choice, Need, choose};

use crate::DEMONSTRATION;

/// For each exercise the forms of it that somebody gets, with the precautions that lead there, in the order of forms.
/// Everybody has low bone density, as the demonstration's series says.
#[test]
fn the_form_of_each_exercise_for_each_precaution() {
    let d = &*DEMONSTRATION;
    let mut table = String::new();
    for exercise in d.model().exercises.values() {
        let mut by_form: BTreeMap<(usize, String), Vec<&str>> = BTreeMap::new();
        for precaution in d.precautions() {
            let choice = choose(exercise, None, &Need::only(&["low-bone-density", precaution]), d.model());
            by_form.entry(told(&choice)).or_default().push(precaution);
        }
        writeln!(table, "{}", exercise.id).unwrap();
        for ((_, form), who) in by_form {
            writeln!(table, "  {form}: {}", who.join(", ")).unwrap();
        }
    }
    insta::assert_snapshot!(table);
}

/// A form in a few words, with its place in the order of the table.
fn told(choice: &Choice<'_>) -> (usize, String) {
    match choice.form() {
        None => (usize::MAX, "LEFT OUT".to_string()),
        Some(form) if form.exercise.id != choice.asked.id => (1000, format!("in its place {form}")),
        Some(Form { variation: None, .. }) => (0, "as it stands".to_string()),
        Some(Form { exercise, variation: Some(variation) }) => {
            let place = exercise.variations.iter().position(|v| v.span == variation.span).unwrap();
            (place + 1, format!("\"{}\"", variation.title.value))
        }
    }
}

/// Told a second time from the rows and the cautions alone, for each precaution and each pair.
#[test]
fn no_chosen_form_asks_what_is_to_be_avoided_or_asked_about_or_says_not_how() {
    let d = &*DEMONSTRATION;
    let catalogue = &d.model().site.catalogue;
    let mut looked = 0;
    for precautions in d.everybody() {
        for exercise in d.model().exercises.values() {
            let choice = choose(exercise, None, &Need::only(&precautions), d.model());
            let Some(offer) = choice.chosen else { continue };
            let demands: Vec<&str> = offer.demands(d.model()).iter().map(|d| d.id).collect();
            let about = format!("{} for {precautions:?}: {}", exercise.id, offer.form);
            for precaution in &precautions {
                let cautions = offer.cautions(&[*precaution], d.model());
                let hers: Vec<_> = cautions.iter().filter(|c| c.names(precaution)).collect();
                assert!(hers.iter().all(|c| c.level.value == CautionLevel::Adapt), "{about}");
                for demand in &demands {
                    looked += 1;
                    match catalogue.row(precaution, demand).map(|row| row.by) {
                        None => {}
                        Some(Restriction::Modify) => assert!(
                            hers.iter().any(|c| c.instead.is_none()),
                            "{about}: nothing says how to modify {demand}"
                        ),
                        Some(other) => panic!("{about}: {other:?} {demand}"),
                    }
                }
            }
        }
    }
    assert!(looked > 10_000, "{looked}");
}

/// One precaution more makes no form safe that was not: what two allow, each alone allows.
#[test]
fn a_form_for_two_precautions_is_a_form_for_each_of_them() {
    let d = &*DEMONSTRATION;
    for precautions in d.everybody().iter().filter(|p| p.len() == 2) {
        for exercise in d.model().exercises.values() {
            let both = choose(exercise, None, &Need::only(precautions), d.model());
            let Some(offer) = both.chosen else { continue };
            for one in precautions {
                let alone = choose(exercise, None, &Need::only(&[*one]), d.model());
                let refused = alone.refused.iter().any(|r| r.offer.form.is(&offer.form));
                assert!(!refused, "{} for {precautions:?} is refused for {one}", offer.form);
            }
        }
    }
}

/// Nobody whom the demonstration's series serves is left without an exercise that a week asks for.
#[test]
fn everybody_whom_the_series_serves_has_a_form_of_each_exercise_of_its_weeks() {
    let d = &*DEMONSTRATION;
    for (series, week) in d.model().weeks() {
        for (used, exercise) in d.model().exercises_of(week) {
            for precaution in &series.serves {
                let mut precautions: Vec<&str> = series.all_have.iter().map(|p| p.value.as_str()).collect();
                precautions.push(&precaution.value);
                let choice = choose(exercise, Some(used), &Need::only(&precautions), d.model());
                assert!(choice.chosen.is_some(), "{} in {} for {}", exercise.id, week.id, precaution.value);
            }
        }
    }
}
