//! The chapters of a video with their titles.

use crate::model::Model;
use crate::model::week::Week;
use crate::model::words::Words;
use crate::reckon::chapters;

/// A part of a video, in seconds from its start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chapter {
    pub start: u32,
    pub end: u32,
    pub title: String,
}

/// The chapters of a week's video as players and pages show them.
pub fn of_week(model: &Model, words: &Words, week: &Week) -> Vec<Chapter> {
    let titled = |chapter: chapters::Chapter<'_>| Chapter {
        start: chapter.start,
        end: chapter.end,
        title: match chapter.exercise {
            Some((_, exercise)) => exercise.title.value.clone(),
            None => words.say("video-chapter-welcome"),
        },
    };
    chapters::of_week(model, week).into_iter().map(titled).collect()
}
