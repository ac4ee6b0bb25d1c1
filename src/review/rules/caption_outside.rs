//! `caption-outside`: captions after the end of the video.

use crate::model::finding::{Level, Subject};
use crate::review::captions::{self, Captioned, WEEK_WITH_CAPTIONS, moment};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "caption-outside",
    level: Level::Warning,
    safety: false,
    finds: "Captions end after the video does.",
    why: "Nobody sees them. Most often they are those of another video, or `length` is wrong, and then chapters\n\
          and page are wrong as well.",
    bad: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:04.000
Welcome to week one.

11:19.000 --> 11:23.000
^^^^^^^^^^^^^^^^^^^^^^^ these captions end at `11:23`, after the end of the video at `11:20`
Until next week.
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    good: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:04.000
Welcome to week one.

11:16.000 --> 11:20.000
Until next week.
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    check: Check::Model(check),
};

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for Captioned { week, video, captions, .. } in captions::all(case) {
        // The length is known to the second: what ends within the next one may be inside.
        let end = (u64::from(video.length.value) + 1) * 1000;
        let outside = captions.cues.iter().find(|cue| cue.end > end);
        if let Some(cue) = outside.filter(|_| week.standing.is_sound("video")) {
            let message = format!(
                "these captions end at `{}`, after the end of the video at `{}`",
                moment(cue.end),
                moment(u64::from(video.length.value) * 1000)
            );
            let length = moment(u64::from(video.length.value) * 1000);
            sink.about([Subject::Number(moment(cue.end)), Subject::Number(length)]).add(
                cue.span,
                message,
                "check that these are the captions of this video, and its `length` in the week",
            );
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
    fn the_first_captions_outside_are_told_and_the_last_second_is_inside() {
        assert_eq!(with("11:18.000 --> 11:20.900\nUntil next week.\n"), [""; 0]);
        let two = "11:18.000 --> 11:21.001\nUntil next week.\n\n11:22.000 --> 11:24.000\nGo on.\n";
        assert_eq!(with(two), ["3:1 these captions end at `11:21`, after the end of the video at `11:20`"]);
    }
}
