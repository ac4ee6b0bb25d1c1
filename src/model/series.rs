//! A run of weeks for one audience.

use jiff::civil::Date;

use super::accept::Accept;
use super::entries::Weeks;
use super::site::Targets;
use super::source::{FileId, Spanned};
use super::standing::Standing;
use super::week::Week;

/// One series with its weeks in order of number.
#[derive(Clone, Debug)]
pub struct Series {
    /// The folder's name.
    pub id: String,
    pub file: FileId,
    pub standing: Standing,
    pub title: Spanned<String>,
    pub summary: Spanned<String>,
    pub audience: Spanned<String>,
    pub start: Spanned<Date>,
    /// The precautions it must have an answer for.
    pub serves: Vec<Spanned<String>>,
    /// The precautions of everybody in the audience.
    pub all_have: Vec<Spanned<String>>,
    pub targets: Targets,
    pub accept: Vec<Accept>,
    pub weeks: Weeks,
}

impl Series {
    /// The weeks from the first on, as far as none is missing and what each uses is known: a week that
    /// could not be read, or whose exercises could not all be, may hold what a later one builds on.
    pub fn known_weeks(&self) -> impl Iterator<Item = (usize, &Week)> {
        let known = |(at, week): &(usize, &Week)| {
            let counted = week.standing.knows("week") && week.number.value as usize == at + 1;
            counted && week.standing.is_sound("exercises")
        };
        self.weeks.iter().enumerate().take_while(known)
    }

    /// The week a reader should see on a day: the last that has begun, or the first before any has.
    pub fn week_on(&self, today: Date) -> Option<&Week> {
        self.weeks
            .iter()
            .filter(|w| w.date.value <= today)
            .max_by_key(|w| w.date.value)
            .or(self.weeks.first())
    }
}
