//! A text as language: where its sentences, its words and the phrases of a list are. Text in, places out; nothing here
//! knows of an entry, and no word of any language stands here: those are in the theme's lists.

mod fold;
pub mod phrases;
pub mod sentences;
pub mod tellings;
pub mod words;
