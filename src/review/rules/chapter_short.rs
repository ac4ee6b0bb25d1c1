//! `chapter-short`: a chapter in which the exercise cannot be done.

use crate::model::finding::{Level, Subject};
use crate::model::week::clock;
use crate::reckon::aims::is_known;
use crate::reckon::chapters;
use crate::reckon::dose::Practice;
use crate::review::captions::{A_CUE, NO_VIDEO, UNTIMED, VIDEO, WEEK_WITH_CAPTIONS};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "chapter-short",
    level: Level::Note,
    safety: false,
    finds: "From the place of an exercise to the next place, or to the end, the video takes less than half of the time\n\
            that the exercise takes in the dose of the week (its lowest, without the way into it).",
    why: "Clients practice along with the video. One that moves on after a few repetitions teaches them to stop\n\
          there. (If you show a movement and let them go on by themselves, accept the finding.)",
    bad: Example::lines(WEEK, &[(UNTIMED, r#"
  { id = "tall-sit", at = "1:05" },
  { id = "feet-together-stand", at = "3:40" },
  { id = "sit-to-stand", at = "8:35" },
                              ^^^^^^ `sit-to-stand` has `0:20` in the video, less than half of the `0:48` that it takes
  { id = "heel-raise", at = "8:55" },
"#), (NO_VIDEO, VIDEO)]).with(CAPTIONS, A_CUE),
    good: Example::lines(WEEK, WEEK_WITH_CAPTIONS).with(CAPTIONS, A_CUE),
    check: Check::Model(check),
};

const WEEK: &str = "content/series/first-steps/week-01.md";

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks().filter(|(_, week)| is_known(case.model, week)) {
        for chapter in chapters::of_week(case.model, week) {
            let Some((used, exercise)) = chapter.exercise else { continue };
            let Some(at) = &used.at else { continue };
            let takes = Practice::of(exercise, &used.dose_of(exercise)).practicing().low / 1000;
            let has = chapter.end - chapter.start;
            if u64::from(has) * 2 < takes {
                let (has, takes) = (clock(has), clock(u32::try_from(takes).unwrap_or(u32::MAX)));
                let message = format!(
                    "`{}` has `{has}` in the video, less than half of the `{takes}` that it takes",
                    exercise.id
                );
                let exercise = Subject::Exercise(exercise.id.clone());
                sink.about([exercise, Subject::Number(has), Subject::Number(takes)]).add(
                    at.span,
                    message,
                    "show more of it, say in the video to go on by oneself, or check the places",
                );
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::captions::testing::with_places;

    fn at(places: [&str; 4]) -> Vec<String> {
        with_places(&RULE, places)
    }

    /// Sit to stand in the sample: 8 repetitions of 6 s are 48 s.
    #[test]
    fn half_of_its_time_is_enough() {
        let next = |length: u32| format!("{}:{:02}", (370 + length) / 60, (370 + length) % 60);
        let of_it = |length: u32| {
            at(["1:05", "3:40", "6:10", &next(length)]).iter().filter(|f| f.contains("sit-to-stand")).count()
        };
        assert_eq!((of_it(24), of_it(23)), (0, 1));
    }
}
