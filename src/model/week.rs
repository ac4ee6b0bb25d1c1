//! One week of a series, with its page, its video and its handout.

use jiff::civil::{Date, Weekday};

use super::accept::Accept;
use super::dose::Dose;
use super::exercise::Exercise;
use super::form::Form;
use super::prose::Prose;
use super::source::{FileId, Span, Spanned};
use super::standing::Standing;

/// The first Monday after a day.
pub fn next_monday(today: Date) -> Date {
    today.nth_weekday(1, Weekday::Monday).unwrap_or(today)
}

/// One week entry.
#[derive(Clone, Debug)]
pub struct Week {
    /// The file's name without its ending, such as `week-07`.
    pub id: String,
    pub file: FileId,
    pub standing: Standing,
    pub number: Spanned<u32>,
    pub title: Spanned<String>,
    pub date: Spanned<Date>,
    pub exercises: Vec<WeekExercise>,
    /// The key `exercises` and its list, for findings about what the list lacks.
    pub exercises_span: Span,
    pub question: Option<Spanned<String>>,
    pub video: Option<Video>,
    pub thanks: Vec<Thanks>,
    pub accept: Vec<Accept>,
    pub prose: Prose,
}

/// An exercise as a week uses it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WeekExercise {
    pub span: Span,
    pub id: Spanned<String>,
    /// Seconds from the start of the video.
    pub at: Option<Spanned<u32>>,
    /// Fields of the dose that this week changes.
    pub dose: Option<Dose>,
    /// The cue of the week.
    pub focus: Option<Spanned<String>>,
}

/// A person whom the week thanks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thanks {
    pub name: Spanned<String>,
    /// She has agreed to be named; else nothing may show her name.
    pub consent: bool,
}

/// The week's video.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Video {
    pub span: Span,
    pub place: VideoPlace,
    /// Seconds.
    pub length: Spanned<u32>,
    /// Caption files, relative to the week's folder.
    pub captions: Vec<Spanned<String>>,
}

/// Where the video is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum VideoPlace {
    /// A web address elsewhere.
    Address(Spanned<String>),
    /// A file below `content/`, such as `media/week-07.mp4`.
    File(Spanned<String>),
}

impl WeekExercise {
    /// The dose of the exercise in this week.
    pub fn dose_of(&self, exercise: &Exercise) -> Dose {
        Form::base(exercise).dose(self.dose.as_ref())
    }
}

impl Week {
    /// Where findings about the week as a whole point: its number.
    pub fn place(&self) -> Span {
        self.number.span
    }
}

/// A place in a video as authors write it and readers read it: "8:55", or "1:02:30" from an hour on.
pub fn clock(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        hours => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}
