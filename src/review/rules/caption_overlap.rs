//! `caption-overlap`: captions that are shown at the same time.

use crate::model::finding::{Level, Subject};
use crate::review::captions::{self, Captioned, WEEK_WITH_CAPTIONS, moment, starts};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "caption-overlap",
    level: Level::Warning,
    safety: false,
    finds: "Captions start while those before them are still shown.",
    why: "Two captions at once hide each other or push each other up the picture, and an older reader loses her\n\
          line.",
    bad: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:04.000
Welcome to week one.

00:03.500 --> 00:06.000
^^^^^^^^^^^^^^^^^^^^^^^ these captions start at `0:03`, while those before them are shown for another `0.5 s`
Hold on to your counter.
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    good: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:03.500
Welcome to week one.

00:03.500 --> 00:06.000
Hold on to your counter.
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    check: Check::Model(check),
};

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for Captioned { captions, .. } in captions::all(case) {
        let mut shown_until = 0;
        for cue in &captions.cues {
            if cue.start < shown_until {
                let longer = format!("{} s", (shown_until - cue.start) as f64 / 1000.0);
                let message = format!(
                    "these captions start at `{}`, while those before them are shown for another `{longer}`",
                    moment(cue.start),
                );
                sink.about([starts(cue), Subject::Number(longer)]).add(
                    cue.span,
                    message,
                    "end the captions before them earlier, or start these later",
                );
            }
            shown_until = shown_until.max(cue.end);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::captions::testing::with_cues;

    fn with(cues: &str) -> Vec<String> {
        with_cues(&RULE, cues)
    }

    #[test]
    fn captions_that_follow_at_once_do_not_overlap() {
        assert_eq!(with("00:01.000 --> 00:03.000\nOne.\n\n00:03.000 --> 00:05.000\nTwo.\n"), [""; 0]);
        let long = "00:01.000 --> 00:06.000\nOne.\n\n00:02.000 --> 00:04.000\nTwo.\n\n00:05.000 --> 00:07.000\nThree.\n";
        assert_eq!(
            with(long),
            [
                "6:1 these captions start at `0:02`, while those before them are shown for another `4 s`",
                "9:1 these captions start at `0:05`, while those before them are shown for another `1 s`",
            ],
            "one that is over already does not hide that an earlier one still stands",
        );
    }
}
