//! What a finding is about, as data: an `accept` row names the subjects of the finding that it accepts.

use std::borrow::Cow;
use std::fmt::Display;

use super::vocabulary::{Component, Position, Vocabulary};

/// One thing that a finding is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// By its id, as the next five.
    Demand(String),
    Precaution(String),
    Exercise(String),
    Series(String),
    Target(String),
    /// A source, by its key in the references.
    Source(String),
    /// By its number in the series.
    Week(u32),
    Component(Component),
    Position(Position),
    /// By its name in an entry.
    Field(String),
    /// The title of an exercise or of one of its forms, or the heading of a section.
    Title(String),
    /// The name of a client or of somebody who is thanked.
    Person(String),
    /// A file, an address or a place on a page, as the author writes it.
    Place(String),
    /// An amount with its unit, as an author writes one: `8-12`, `20 s`, `3:40`.
    Number(String),
    /// Words that the author wrote, or a word of the files' own that they use.
    Words(String),
    /// A joint and its movement, or a part of the body.
    Body(String),
    /// A drawn figure or a photo, by its description.
    Figure(String),
    /// A pose of a figure, from 1.
    Pose(usize),
}

impl Subject {
    /// An amount, as it is printed.
    pub fn number(amount: impl Display) -> Subject {
        Subject::Number(amount.to_string())
    }

    /// As an author names it in an `accept` row. Blanks and line ends in it count as one blank there.
    pub fn text(&self) -> Cow<'_, str> {
        match self {
            Subject::Demand(text)
            | Subject::Precaution(text)
            | Subject::Exercise(text)
            | Subject::Series(text)
            | Subject::Target(text)
            | Subject::Source(text)
            | Subject::Field(text)
            | Subject::Title(text)
            | Subject::Person(text)
            | Subject::Place(text)
            | Subject::Number(text)
            | Subject::Words(text)
            | Subject::Body(text)
            | Subject::Figure(text) => Cow::Borrowed(text),
            Subject::Week(number) => Cow::Owned(number.to_string()),
            Subject::Pose(number) => Cow::Owned(format!("pose {number}")),
            Subject::Component(component) => Cow::Borrowed(component.word()),
            Subject::Position(position) => Cow::Borrowed(position.word()),
        }
    }
}
