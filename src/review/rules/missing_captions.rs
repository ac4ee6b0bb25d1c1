//! `missing-captions`: a video without captions.

use crate::model::finding::Level;
use crate::model::week::VideoPlace;
use crate::review::captions::{A_CUE, NO_VIDEO, WEEK_WITH_CAPTIONS, WITH_PLACES};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

const WEEK: &str = "content/series/first-steps/week-01.md";

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

pub(super) static RULE: Rule = Rule {
    name: "missing-captions",
    level: Level::Warning,
    safety: false,
    finds: "A week's video names no captions. For a video of the site's own, under content/media/, it is an error\n\
            whatever the level of the rule: nobody else can add them.",
    why: "Many people of eighty hear badly, and a caution that is only spoken does not reach them. WCAG 2.2 asks\n\
          for captions at its lowest level (1.2.2), and the transcript on the page is made from them.",
    bad: Example::lines(
        WEEK,
        &[
            WITH_PLACES,
            (
                NO_VIDEO,
                r#"
[video]
 ^^^^^ the video of week 1 has no captions
address = "https://video.example/first-steps/1"
length = "11:20"
"#,
            ),
        ],
    ),
    good: Example::lines(WEEK, WEEK_WITH_CAPTIONS).with(CAPTIONS, A_CUE),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks() {
        let Some(video) = &week.video else { continue };
        if !video.captions.is_empty() || !week.standing.is_sound("video") {
            continue;
        }
        let own = matches!(video.place, VideoPlace::File(_));
        sink.add_at(
            own,
            video.span,
            format!("the video of week {} has no captions", week.number.value),
            format!(
                "put the captions beside the week and name them: `captions = [\"captions/{}.{}.vtt\"]`",
                week.id, case.model.site.language.value
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::finding::Level;
    use crate::review::testing::{edited, review_files};

    #[test]
    fn a_video_of_the_sites_own_must_have_them_whatever_the_level_of_the_rule() {
        let site =
            edited("site.toml", &[("[educator]", "[rules]\nmissing-captions = \"note\"\n\n[educator]")]);
        for (place, expected) in [
            ("address = \"https://video.example/first-steps/1\"", Level::Note),
            ("file = \"media/week-01.mp4\"", Level::Error),
        ] {
            let video = format!("[video]\n{place}\nlength = \"11:20\"\n```\nWelcome. This");
            let week = edited(WEEK, &[("```\nWelcome. This", &video)]);
            let files = [(WEEK, week.as_str()), ("site.toml", &site), ("content/media/week-01.mp4", "")];
            let (review, _) = review_files(&files);
            let found = review.findings.iter().find(|f| f.rule == RULE.name).expect("a finding");
            assert_eq!(found.level, expected, "{place}");
        }
    }

    #[test]
    fn captions_that_could_not_be_read_are_not_missing() {
        let video = "[video]\naddress = \"https://video.example/1\"\nlength = \"11:20\"\ncaptions = 7\n```\nWelcome. This";
        let week = edited(WEEK, &[("```\nWelcome. This", video)]);
        let (review, _) = review_files(&[(WEEK, &week)]);
        assert!(review.findings.iter().all(|f| f.rule != RULE.name), "{:?}", review.findings);
    }
}
