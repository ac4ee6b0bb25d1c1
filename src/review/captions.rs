//! The captions of each week's video, for the rules on them.

#[cfg(test)]
pub(super) mod testing;

use std::collections::BTreeMap;

use super::{Case, Sink};
use crate::model::captions::{Captions, Cue};
use crate::model::finding::Subject;
use crate::model::series::Series;
use crate::model::source::{FileId, Span};
use crate::model::targets::Target;
use crate::model::week::{Video, Week, clock};

/// A caption file with whose video it belongs to.
pub(super) struct Captioned<'a> {
    pub(super) series: &'a Series,
    pub(super) week: &'a Week,
    pub(super) video: &'a Video,
    pub(super) captions: &'a Captions,
}

/// Every caption file that a week names, for each week that names it.
pub(super) fn all<'a>(case: &Case<'a>) -> impl Iterator<Item = Captioned<'a>> {
    let model = case.model;
    model.weeks().flat_map(move |(series, week)| {
        let video = week.video.as_ref();
        let named = model.captions_of(series, week);
        named.filter_map(move |(_, captions)| Some(Captioned { series, week, video: video?, captions }))
    })
}

/// The week's file of each caption file, where findings about it are accepted: it has no fields of its own.
pub(super) fn weeks(case: &Case<'_>) -> BTreeMap<FileId, FileId> {
    // The first week that names it has the last word.
    let named: Vec<_> = all(case).map(|found| (found.captions.file, found.week.file)).collect();
    named.into_iter().rev().collect()
}

/// How a figure of captions lies to a target whose low end is where it begins to be too much for many, and
/// whose high end where it is too much for most.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Excess {
    Some,
    /// An error whatever level the rule has.
    Severe,
}

impl Excess {
    /// `over(limit)` says whether the figure is above a limit.
    pub(super) fn of(
        target: &Target,
        series: &Series,
        case: &Case<'_>,
        over: impl Fn(u64) -> bool,
    ) -> Option<(Excess, u32)> {
        let limits = target.of(Some(series), &case.model.site);
        let severe = over(u64::from(limits.high)).then_some((Excess::Severe, limits.high));
        severe.or_else(|| over(u64::from(limits.low)).then_some((Excess::Some, limits.low)))
    }
}

/// Limits that could not be read are not the defaults.
pub(super) fn knows_limits(series: &Series) -> bool {
    series.standing.is_sound("targets")
}

/// What a cue has too much of.
pub(super) struct TooMuch {
    pub(super) excess: Excess,
    /// What it has, and the most that it should have.
    pub(super) numbers: [Subject; 2],
    pub(super) told: String,
}

/// Adds one finding for what a cue has too much of; nothing where that is nothing.
pub(super) fn add(sink: &mut Sink<'_>, cue: &Cue, span: Span, all: Vec<TooMuch>, help: &str) {
    let Some(worst) = all.iter().map(|one| one.excess).max() else { return };
    let mut subjects = vec![starts(cue)];
    let mut told = Vec::new();
    for one in all {
        subjects.extend(one.numbers);
        told.push(one.told);
    }
    sink.about(subjects).add_at(worst == Excess::Severe, span, told.join(", and "), help);
}

/// A cue, by the place in the video where it begins.
pub(super) fn starts(cue: &Cue) -> Subject {
    Subject::Number(moment(cue.start))
}

/// The place in the video of a moment in milliseconds.
pub(super) fn moment(milliseconds: u64) -> String {
    clock(u32::try_from(milliseconds / 1000).unwrap_or(u32::MAX))
}

/// For the manuals: a file of captions.
pub(super) const A_CUE: &str = "WEBVTT\n\n00:01.000 --> 00:04.000\nWelcome to week one.\n";

/// For the manuals: the exercises of the sample's first week, and these with their places in a video.
pub(super) const UNTIMED: &str = r#"
  { id = "tall-sit", focus = "Grow tall from the top of your head." },
  { id = "feet-together-stand" },
  { id = "sit-to-stand" },
  { id = "heel-raise" },
"#;
const TIMED: &str = r#"
  { id = "tall-sit", at = "1:05" },
  { id = "feet-together-stand", at = "3:40" },
  { id = "sit-to-stand", at = "6:10" },
  { id = "heel-raise", at = "8:55" },
"#;

/// For the manuals: the lines of that week on a video, and a video with captions.
pub(super) const NO_VIDEO: &str = r#"
# [video]
# address = "https://video.example/first-steps/1"
# length = "11:20"
"#;
pub(super) const VIDEO: &str = r#"
[video]
address = "https://video.example/first-steps/1"
length = "11:20"
captions = ["captions/week-01.en.vtt"]
"#;

/// That week with both.
pub(super) const WEEK_WITH_CAPTIONS: &[(&str, &str)] = &[WITH_PLACES, WITH_VIDEO];
pub(super) const WITH_PLACES: (&str, &str) = (UNTIMED, TIMED);
pub(super) const WITH_VIDEO: (&str, &str) = (NO_VIDEO, VIDEO);
