//! What a card says and whom it names.

use super::*;
use crate::review::testing::{edited, with_case};

const DROP: &str = "content/exercises/heel-drop.md";

/// What the card of the sample's heel drop says, with these passages in place of others.
fn said(edits: &[(&str, &str)]) -> (Vec<String>, Vec<String>, Vec<String>, Option<String>) {
    let text = edited(DROP, edits);
    let mut all = None;
    with_case(&[(DROP, text.as_str())], |case| {
        let say = Phrases { words: case.words };
        let card = CardBlock::of(&UsedExercise::alone(&case.model.exercises["heel-drop"]), case.model, say);
        let texts = |list: &[CautionBlock<'_>]| list.iter().map(|c| c.text.value.clone()).collect();
        all = Some((
            card.barred.iter().map(|b| format!("{}: {}", b.who, b.text)).collect(),
            texts(&card.cautions),
            texts(&card.more),
            card.easier.map(|easier| easier.text.value.clone()),
        ));
    });
    all.unwrap()
}

const MORE: &str = "[[caution]]
for = [\"shoulder-pain\"]
level = \"stop\"
text = \"Do not do this one.\"

[[caution]]
for = [\"unsteady\", \"dizziness\"]
level = \"adapt\"
use = \"Seated heel press\"
text = \"Do the seated heel press.\"

[[caution]]
for = [\"knee-arthritis\"]
level = \"adapt\"
text = \"Lift your heels less high.\"

[[regression]]";

#[test]
fn a_card_for_everyone_names_whom_it_is_not_for_and_no_form_that_is_not_on_it() {
    let (barred, _, more, _) = said(&[("[[regression]]", MORE)]);
    let [stop, ask] = barred.as_slice() else { panic!("{barred:?}") };
    assert!(stop.ends_with("Do not do this one.") && stop.contains("shoulder"), "{stop}");
    assert!(ask.contains("Ask your clinician first.") && ask.contains("unsteady"), "{ask}");
    assert!(more.contains(&"Lift your heels less high.".to_string()), "{more:?}");
    assert!(!format!("{barred:?}{more:?}").to_lowercase().contains("seated heel press"), "{more:?}");
}

#[test]
fn every_caution_is_said_or_names_whom_it_is_for() {
    let (barred, cautions, more, _) = said(&[("[[regression]]", MORE)]);
    let text = edited(DROP, &[("[[regression]]", MORE)]);
    let count = text.matches("[[caution]]").count();
    // Three cautions stand behind the two lines of whom they name.
    assert_eq!(
        (barred.len(), cautions.len() + more.len() + 3),
        (2, count),
        "{barred:?} {cautions:?} {more:?}"
    );
}

#[test]
fn the_easier_way_is_told_by_what_is_done() {
    let (.., easier) = said(&[]);
    assert_eq!(easier.as_deref(), Some("Rise on your toes with a little speed, then lower slowly."));
}
