//! `chapter-missing`: an exercise has no place in the video.

use crate::model::finding::{Level, Subject};
use crate::review::captions::{A_CUE, NO_VIDEO, UNTIMED, VIDEO, WEEK_WITH_CAPTIONS};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "chapter-missing",
    level: Level::Warning,
    safety: false,
    finds: "A week has a video, and an exercise of it does not say where in the video it starts.",
    why: "Anyone who wants to see a movement again should not have to search for it. The chapters of the\n\
          player, the list on the page and the headings of the transcript come from these places.",
    bad: Example::lines(
        WEEK,
        &[
            (
                UNTIMED,
                r#"
  { id = "tall-sit", at = "1:05" },
  { id = "feet-together-stand", at = "3:40" },
  { id = "sit-to-stand" },
         ^^^^^^^^^^^^^^ `sit-to-stand` has no place in the video
  { id = "heel-raise", at = "8:55" },
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
        // A place that could not be read is not missing.
        let Some(video) = week.video.as_ref().filter(|_| week.standing.is_sound("exercises")) else {
            continue;
        };
        let missing: Vec<_> = week.exercises.iter().filter(|used| used.at.is_none()).collect();
        if missing.len() == week.exercises.len() && missing.len() > 1 {
            let message = format!("no exercise of week {} has a place in the video", week.number.value);
            sink.add(video.span, message, HELP);
            continue;
        }
        for used in missing {
            let message = format!("`{}` has no place in the video", used.id.value);
            sink.about([Subject::Exercise(used.id.value.clone())]).add(used.id.span, message, HELP);
        }
    }
}

const HELP: &str = "add `at = \"3:40\"` to the exercise: minutes and seconds from the start of the video";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::captions::WITH_VIDEO;
    use crate::review::captions::testing::with_places;
    use crate::review::testing::{edited, found};

    fn at(places: [&str; 4]) -> Vec<String> {
        with_places(&RULE, places)
    }

    #[test]
    fn a_week_without_any_place_is_told_once() {
        assert_eq!(at(["", "", "", ""]), ["19:2 no exercise of week 1 has a place in the video"]);
        assert_eq!(at(["1:05", "", "", "8:55"]).len(), 2);
        assert_eq!(at(["0:00", "3:40", "6:10", "8:55"]), [""; 0]);
        let unread =
            edited(WEEK, &[WITH_VIDEO, ("{ id = \"heel-raise\" }", "{ id = \"heel-raise\", at = 7 }")]);
        let found = found(&[(WEEK, &unread), (CAPTIONS, A_CUE)]);
        assert!(found.iter().all(|f| !f.starts_with(RULE.name)), "{found:?}");
    }
}
