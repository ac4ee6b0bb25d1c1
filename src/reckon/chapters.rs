//! The chapters of a week's video: where each exercise starts and ends.

use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::week::{Video, Week, WeekExercise};

/// A part of the video, in seconds from its start.
#[derive(Clone, Copy, Debug)]
pub struct Chapter<'m> {
    pub start: u32,
    /// Where the next one starts, or the video ends; later than `start`.
    pub end: u32,
    /// What is done in it; nothing before the first exercise.
    pub exercise: Option<(&'m WeekExercise, &'m Exercise)>,
}

/// The chapters of a week, in the order of the video: they do not overlap, and cover it from its start to its
/// end. None where no exercise says where it starts. An exercise outside the video, or at the same second as
/// one before it, which the review reports, has none.
pub fn of_week<'m>(model: &'m Model, week: &'m Week) -> Vec<Chapter<'m>> {
    let Some(video) = &week.video else { return Vec::new() };
    let starts = starts(model, week, video);
    let opening = starts.first().is_some_and(|(at, _)| *at > 0).then_some((0, None));
    let starts: Vec<_> = opening.into_iter().chain(starts.into_iter().map(|(at, e)| (at, Some(e)))).collect();
    let ends = starts.iter().skip(1).map(|(at, _)| *at).chain([video.length.value]);
    let chapters = starts.iter().zip(ends).map(|(&(start, exercise), end)| Chapter { start, end, exercise });
    chapters.collect()
}

type Start<'m> = (u32, (&'m WeekExercise, &'m Exercise));

fn starts<'m>(model: &'m Model, week: &'m Week, video: &Video) -> Vec<Start<'m>> {
    let timed = model.exercises_of(week).filter_map(|(used, e)| Some((used.at.as_ref()?.value, (used, e))));
    let mut starts: Vec<Start<'m>> = timed.filter(|(at, _)| *at < video.length.value).collect();
    starts.sort_by_key(|(at, _)| *at);
    starts.dedup_by_key(|(at, _)| *at);
    starts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{edited, with_sample};

    fn chapters(at: [&str; 4], length: &str) -> Vec<(u32, u32, Option<String>)> {
        let file = "content/series/first-steps/week-01.md";
        let ids = ["tall-sit", "feet-together-stand", "sit-to-stand", "heel-raise"];
        let mut text = edited(file, &[("# [video]", "[video]\naddress = \"https://video.example/1\"")]);
        text = text.replace("# length = \"11:20\"", &format!("length = \"{length}\""));
        for (id, at) in ids.into_iter().zip(at) {
            let at = if at.is_empty() { String::new() } else { format!(", at = \"{at}\"") };
            text = text.replace(&format!("{{ id = \"{id}\""), &format!("{{ id = \"{id}\"{at}"));
        }
        let mut found = Vec::new();
        with_sample(&[(file, &text)], |model| {
            let (_, week) = model.weeks().next().expect("a week");
            let id = |e: (&WeekExercise, &Exercise)| e.1.id.clone();
            found = of_week(model, week).into_iter().map(|c| (c.start, c.end, c.exercise.map(id))).collect();
        });
        found
    }

    #[test]
    fn chapters_cover_the_video_and_do_not_overlap() {
        let id = |id: &str| Some(id.to_string());
        assert_eq!(
            chapters(["1:05", "3:40", "6:10", "8:55"], "11:20"),
            [
                (0, 65, None),
                (65, 220, id("tall-sit")),
                (220, 370, id("feet-together-stand")),
                (370, 535, id("sit-to-stand")),
                (535, 680, id("heel-raise")),
            ]
        );
        assert_eq!(
            chapters(["0:00", "6:10", "3:40", ""], "6:10"),
            [(0, 220, id("tall-sit")), (220, 370, id("sit-to-stand"))],
            "in the order of the video, from its start, and not after its end"
        );
        assert_eq!(chapters(["1:00", "1:00", "", ""], "2:00"), [(0, 60, None), (60, 120, id("tall-sit"))]);
        assert_eq!(chapters(["", "", "", ""], "2:00"), []);
    }
}
