//! A training component: its id, which tells its shape and color, and its word.

use serde::Serialize;

use super::phrases::Phrases;
use crate::model::vocabulary::{Component, Vocabulary};

/// A component as a reader meets it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ComponentBlock {
    pub id: &'static str,
    pub word: String,
}

impl ComponentBlock {
    pub fn of(component: Component, say: Phrases<'_>) -> ComponentBlock {
        let id = component.word();
        ComponentBlock { id, word: say.words.say(&format!("component-{id}")) }
    }
}
