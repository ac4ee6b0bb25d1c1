//! A form in the reader's words: its position, what to hold, what to have.

use super::phrases::Phrases;
use crate::model::form::Form;
use crate::model::vocabulary::Vocabulary;

/// "Lying on your back, on a firm bed".
pub fn position(form: &Form<'_>, say: Phrases<'_>) -> String {
    let position = say.words.say(&format!("position-{}", form.position().value.word()));
    match form.surface() {
        None => position,
        Some(surface) => {
            let surface = say.words.say(&format!("surface-{}", surface.word()));
            say.words.say_with("position-on", &[("position", position.into()), ("surface", surface.into())])
        }
    }
}

/// What the hands hold in a form: "a kitchen counter or a wall"; `None` when there is nothing to hold.
pub fn holds(form: &Form<'_>, say: Phrases<'_>) -> Option<String> {
    let list: Vec<String> = form.support().iter().map(|s| say.support(s.value)).collect();
    (!list.is_empty()).then(|| say.or(&list))
}

/// What a form needs, or that it needs nothing.
pub fn equipment(form: &Form<'_>, say: Phrases<'_>) -> String {
    match form.equipment() {
        [] => say.words.say("need-nothing"),
        list => say.capital(&say.and(&list.iter().map(|e| e.value.clone()).collect::<Vec<_>>())),
    }
}
