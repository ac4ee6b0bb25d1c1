//! `chapter-order`: exercises stand in another order than in the video.

use crate::model::finding::{Level, Subject};
use crate::model::week::clock;
use crate::review::captions::{A_CUE, NO_VIDEO, UNTIMED, VIDEO, WEEK_WITH_CAPTIONS};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "chapter-order",
    level: Level::Warning,
    safety: false,
    finds: "The `at` of an exercise is not later than that of the exercise above it in the week.",
    why: "Page, handout and video then go through the week in different orders, and a client who follows one\n\
          loses her place in the other. Or one of the two places is wrong, and a link leads into the wrong\n\
          movement.",
    bad: Example::lines(WEEK, &[(UNTIMED, r#"
  { id = "tall-sit", at = "1:05" },
  { id = "feet-together-stand", at = "6:10" },
  { id = "sit-to-stand", at = "3:40" },
                              ^^^^^^ `sit-to-stand` starts at `3:40`, not after `feet-together-stand` at `6:10`
  { id = "heel-raise", at = "8:55" },
"#), (NO_VIDEO, VIDEO)]).with(CAPTIONS, A_CUE),
    good: Example::lines(WEEK, WEEK_WITH_CAPTIONS).with(CAPTIONS, A_CUE),
    check: Check::Model(check),
};

const WEEK: &str = "content/series/first-steps/week-01.md";

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks().filter(|(_, week)| week.video.is_some()) {
        let timed: Vec<_> =
            week.exercises.iter().filter_map(|e| Some((&e.id.value, e.at.as_ref()?))).collect();
        for pair in timed.windows(2) {
            let [(above, earlier), (id, at)] = pair else { continue };
            if at.value <= earlier.value {
                let (start, before) = (clock(at.value), clock(earlier.value));
                let message = format!("`{id}` starts at `{start}`, not after `{above}` at `{before}`");
                sink.about([
                    Subject::Exercise(id.to_string()),
                    Subject::Exercise(above.to_string()),
                    Subject::Number(start),
                    Subject::Number(before),
                ])
                .add(
                    at.span,
                    message,
                    "put the exercises into the order of the video, or fix the places",
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

    #[test]
    fn the_same_second_is_no_order() {
        assert_eq!(at(["1:05", "1:06", "6:10", ""]), [""; 0]);
        assert_eq!(at(["1:05", "1:05", "6:10", ""]).len(), 1);
        assert_eq!(at(["1:05", "", "1:00", "8:55"]).len(), 1, "one without a place parts no two others");
        assert_eq!(at(["0:00", "3:40", "6:10", "8:55"]), [""; 0]);
    }
}
