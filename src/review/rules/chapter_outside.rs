//! `chapter-outside`: an exercise starts after the end of the video.

use crate::model::finding::{Level, Subject};
use crate::model::week::clock;
use crate::review::captions::{A_CUE, NO_VIDEO, UNTIMED, VIDEO, WEEK_WITH_CAPTIONS};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "chapter-outside",
    level: Level::Error,
    safety: false,
    finds: "The `at` of an exercise is not before the `length` of the video.",
    why: "The link of that exercise leads nowhere.",
    bad: Example::lines(
        WEEK,
        &[
            (
                UNTIMED,
                r#"
  { id = "tall-sit", at = "1:05" },
  { id = "feet-together-stand", at = "3:40" },
  { id = "sit-to-stand", at = "6:10" },
  { id = "heel-raise", at = "18:55" },
                            ^^^^^^^ `heel-raise` starts at `18:55`, but the video ends at `11:20`
"#,
            ),
            (NO_VIDEO, VIDEO),
        ],
    )
    .with(CAPTIONS, A_CUE),
    good: Example::lines(WEEK, WEEK_WITH_CAPTIONS).with(CAPTIONS, A_CUE),
    check: Check::Model(check),
};

const WEEK: &str = "content/series/first-steps/week-01.md";

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks() {
        let Some(video) = &week.video else { continue };
        for used in &week.exercises {
            let Some(at) = used.at.as_ref().filter(|at| at.value >= video.length.value) else { continue };
            let (start, end) = (clock(at.value), clock(video.length.value));
            let message = format!("`{}` starts at `{start}`, but the video ends at `{end}`", used.id.value);
            let exercise = Subject::Exercise(used.id.value.clone());
            sink.about([exercise, Subject::Number(start), Subject::Number(end)]).add(
                at.span,
                message,
                "write the place in the video at which it starts, and check `length`",
            );
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

    #[test]
    fn the_last_second_is_inside() {
        assert_eq!(at(["1:05", "3:40", "6:10", "11:19"]), [""; 0]);
        assert_eq!(
            at(["1:05", "3:40", "6:10", "11:20"]),
            ["13:29 `heel-raise` starts at `11:20`, but the video ends at `11:20`"]
        );
    }
}
