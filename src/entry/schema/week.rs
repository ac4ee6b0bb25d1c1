//! A week, as it is written.

use schemars::JsonSchema;

use super::dose::Dose;
use super::each_required;
use super::exercise::Accept;
use super::values::{Clock, Date, Text, WebAddress, Whole};

/// One week of a series. The fields stand in the block that opens the file, a word of welcome below it.
#[derive(JsonSchema)]
#[schemars(title = "A week", deny_unknown_fields)]
pub(super) struct Week {
    /// Which week of the series it is, from 1.
    week: Whole<1, 520>,
    /// What the week is called.
    title: Text,
    /// The day it begins, such as 2027-02-15, without quotes.
    date: Date,
    /// The exercises in the order of the video: at least one of each training component.
    exercises: Vec<WeekExercise>,
    /// A question for clients to think about.
    question: Option<Text>,
    /// The week's video.
    video: Option<Video>,
    /// People whom the week thanks.
    thanks: Option<Vec<Thanks>>,
    /// Findings that are accepted, each with its reason.
    accept: Option<Vec<Accept>>,
}

/// An exercise of the week.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct WeekExercise {
    /// The id of the exercise: the name of its file without .md.
    id: Text,
    /// Where it starts in the video, such as "8:55".
    at: Option<Clock>,
    /// The fields of its dose that are different this week.
    dose: Option<Dose>,
    /// The cue of the week.
    focus: Option<Text>,
}

/// A person whom the week thanks. Without consent her name is nowhere.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Thanks {
    /// Her name, as it is to be read.
    name: Text,
    /// True when she has agreed to be named.
    consent: Option<bool>,
}

/// A video, on the web or among the media of the workspace.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, extend("oneOf" = each_required(&["address", "file"])))]
struct Video {
    /// Where it is on the web.
    address: Option<WebAddress>,
    /// The file below content/, such as "media/week-07.mp4".
    file: Option<Text>,
    /// How long it is, such as "11:20".
    length: Clock,
    /// Files of captions beside the week, such as "captions/week-07.en.vtt".
    captions: Option<Vec<Text>>,
}
