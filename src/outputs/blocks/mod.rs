//! What a page and a sheet say, in the reader's words: one tree for both, so that they cannot say
//! different things. Both serialize these types as they are, and add what only a page or a sheet knows. Prose stays a part of
//! the tree that was read; how it looks is for `pages` and `print`.

pub mod card;
pub mod care;
pub mod caution;
pub mod chapters;
pub mod component;
pub mod digest;
pub mod dose;
pub mod evidence;
pub mod exercise;
pub mod figure;
pub mod form;
pub mod grid;
pub mod guide;
pub mod left_out;
pub mod minutes;
pub mod needs;
pub mod now;
pub mod person;
pub mod phrases;
pub mod practice;
pub mod session;
pub mod turn;
pub mod used;
pub mod way;
pub mod week;
pub mod yours;

use serde::Serializer;

use crate::model::vocabulary::Vocabulary;

/// Serializes a word of a closed set as authors write it, which is what templates and style sheets know it by.
fn word<V: Vocabulary, S: Serializer>(value: &V, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(value.word())
}
