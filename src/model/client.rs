//! One person's profile: private, read only when a sheet is made for that person.

use jiff::civil::Date;

use super::source::{FileId, Span, Spanned};
use super::vocabulary::{Day, Paper};

/// What `clients/NAME.toml` says. There is no half of one: a profile with a slip in it is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Client {
    pub file: FileId,
    /// As it is to be printed; initials will do.
    pub name: Spanned<String>,
    /// Each one known to the workspace, none of them twice. Empty when the author says there is none.
    pub precautions: Vec<Spanned<String>>,
    /// The days free to practice, Monday first and none of them twice; empty for any day.
    pub days: Vec<Spanned<Day>>,
    /// The time free on such a day.
    pub minutes: Option<Spanned<u32>>,
    /// What the person has at home; `None` when nobody has written it down.
    pub equipment: Option<Vec<Spanned<String>>>,
    /// Points.
    pub size: Option<u32>,
    pub paper: Option<Paper>,
    /// A language tag, such as `en`; whether the theme has words for it, whoever has the theme finds out.
    pub language: Option<Spanned<String>>,
    pub note: Option<Spanned<String>>,
    /// She is not to exercise for now: no handout is made for her.
    pub hold: Option<Hold>,
    pub cleared: Vec<Clearance>,
    pub prefer: Vec<Preference>,
}

/// Why a person is not to exercise for now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hold {
    pub span: Span,
    pub because: Spanned<String>,
    pub by: Spanned<String>,
    pub on: Spanned<Date>,
}

/// A clinician's written word that a person may do what a caution or a precaution says to ask about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clearance {
    pub span: Span,
    pub what: Cleared,
    /// The precautions it was given for.
    pub of: Vec<Spanned<String>>,
    pub by: Spanned<String>,
    pub on: Spanned<Date>,
    /// The last day on which it holds.
    pub until: Date,
}

/// What a clearance is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cleared {
    /// An exercise, by id, in each of its forms.
    Exercise(Spanned<String>),
    /// A demand, in every exercise.
    Demand(Spanned<String>),
}

/// The educator's own choice of a form, taken only if it is safe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preference {
    pub span: Span,
    pub exercise: Spanned<String>,
    /// The title of a variation, or the id of an exercise.
    pub form: Spanned<String>,
    pub because: Spanned<String>,
}

impl Clearance {
    /// True on the days from the one it was given to its last.
    pub fn holds_on(&self, today: Date) -> bool {
        self.on.value <= today && today <= self.until
    }
}

impl Client {
    /// The ids of the precautions, as written.
    pub fn precautions(&self) -> Vec<&str> {
        self.precautions.iter().map(|p| p.value.as_str()).collect()
    }
}
