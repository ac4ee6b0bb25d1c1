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

/// When a clearance ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    Past,
    Soon,
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

    /// Whether somebody has to ask for a new one: it has ended, or ends within four weeks (common practice, no source).
    pub fn ending(&self, today: Date) -> Option<Ending> {
        const SOON: i32 = 28;
        match today.until(self.until).map_or(i32::MAX, |left| left.get_days()) {
            ..0 => Some(Ending::Past),
            0..=SOON => Some(Ending::Soon),
            _ => None,
        }
    }
}

impl Client {
    /// The ids of the precautions, as written.
    pub fn precautions(&self) -> Vec<&str> {
        self.precautions.iter().map(|p| p.value.as_str()).collect()
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn a_clearance_ends_after_its_last_day_and_is_told_four_weeks_before() {
        let at = Span::start_of(FileId(0));
        let text = |text: &str| Spanned::new(text.to_string(), at);
        let clearance = Clearance {
            span: at,
            what: Cleared::Demand(text("impact-low")),
            of: Vec::new(),
            by: text("Dr. A. Reviewer"),
            on: Spanned::new(date(2026, 12, 1), at),
            until: date(2027, 3, 1),
        };
        for (today, ending) in [
            (date(2027, 3, 2), Some(Ending::Past)),
            (date(2027, 3, 1), Some(Ending::Soon)),
            (date(2027, 2, 1), Some(Ending::Soon)),
            (date(2027, 1, 31), None),
        ] {
            assert_eq!(clearance.ending(today), ending, "{today}");
        }
    }
}
