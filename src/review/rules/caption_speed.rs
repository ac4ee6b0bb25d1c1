//! `caption-speed`: captions that nobody can read in their time.

use crate::model::finding::{Level, Subject};
use crate::model::targets::{CAPTION_LETTERS, CAPTION_WORDS};
use crate::review::captions::{self, Captioned, Excess, TooMuch, WEEK_WITH_CAPTIONS};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "caption-speed",
    level: Level::Warning,
    safety: false,
    finds: "Captions go by faster than they can be read: more words a minute than the low end of the target\n\
            `caption_words` (160), or more letters a second than that of `caption_letters` (15). Above the high ends\n\
            (180 and 20) it is an error whatever the level of the rule.",
    why: "Reading slows with age, and anyone who reads captions cannot watch the movement meanwhile. What is\n\
          said too fast to read is most often also said too fast to follow.",
    bad: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:03.000
^^^^^^^^^^^^^^^^^^^^^^^ `270` words a minute, more than `180`, and `21` letters a second, more than `20`
Bend both of your knees
and sit back down.
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    good: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:05.000
Bend both of your knees
and sit back down.
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    check: Check::Model(check),
};

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for Captioned { series, captions, .. } in captions::all(case) {
        if !captions::knows_limits(series) {
            continue;
        }
        for cue in &captions.cues {
            let words = cue.words().count();
            // A break of a line is read as the space that it stands for.
            let letters = cue.lines.iter().map(|l| l.text.trim().chars().count() + 1).sum::<usize>() - 1;
            // Both against the limit by multiplication: nothing is rounded but what is told.
            let words_over = |most: u64| words as u64 * 60_000 > most * cue.length();
            let letters_over = |most: u64| letters as u64 * 1000 > most * cue.length();
            let rate = |count: usize, unit: f64| count as f64 * unit / cue.length() as f64;
            let mut all = Vec::new();
            if let Some((excess, most)) = Excess::of(&CAPTION_WORDS, series, case, words_over) {
                let words = rate(words, 60_000.0).ceil();
                let numbers = [Subject::number(words), Subject::number(most)];
                let told = format!("`{words}` words a minute, more than `{most}`");
                all.push(TooMuch { excess, numbers, told });
            }
            if let Some((excess, most)) = Excess::of(&CAPTION_LETTERS, series, case, letters_over) {
                let letters = (rate(letters, 1000.0) * 10.0).ceil() / 10.0;
                let numbers = [Subject::number(letters), Subject::number(most)];
                let told = format!("`{letters}` letters a second, more than `{most}`");
                all.push(TooMuch { excess, numbers, told });
            }
            captions::add(sink, cue, cue.span, all, HELP);
        }
    }
}

const HELP: &str = "show these captions longer, say it in fewer words, or split them in two";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::captions::testing::with_cues;
    use crate::review::testing::edited;

    const WEEK: &str = "content/series/first-steps/week-01.md";

    fn with(cues: &str) -> Vec<String> {
        with_cues(&RULE, cues)
    }

    /// 160 to 180 words a minute: BBC Subtitle Guidelines 1.2.3 (2024), section 4; its least time for 4 words,
    /// 1.2 s, are 200 a minute. 12 words in 4 s are 180; 60 letters in 4 s are 15 a second.
    #[test]
    fn published_speeds_are_told_apart() {
        assert_eq!(
            with("00:01.000 --> 00:02.200\nUp on your toes.\n"),
            ["3:1 `200` words a minute, more than `180`"]
        );
        let twelve = "One two one two one two one two one two one two";
        assert_eq!(
            with(&format!("00:01.000 --> 00:05.000\n{twelve}\n")),
            ["3:1 `180` words a minute, more than `160`"]
        );
        assert_eq!(with(&format!("00:01.000 --> 00:05.500\n{twelve}\n")), [""; 0]);
        let sixty = "Straightforward, comfortable, uncomplicated and unhurried one";
        assert_eq!(sixty.chars().count(), 61);
        assert_eq!(
            with(&format!("00:01.000 --> 00:05.000\n{sixty}\n")),
            ["3:1 `15.3` letters a second, more than `15`"]
        );
        assert_eq!(with(&format!("00:01.000 --> 00:05.000\n{}\n", &sixty[..60])), [""; 0]);
    }

    #[test]
    fn above_the_high_end_it_is_an_error_and_the_limits_can_be_set() {
        let (week, captions) = (WEEK, "WEBVTT\n\n00:01.000 --> 00:02.200\nUp on your toes.\n");
        let video = "[video]\naddress = \"https://video.example/1\"\nlength = \"11:20\"\ncaptions = [\"captions/week-01.en.vtt\"]\n```\nWelcome. This";
        let text = edited(week, &[("```\nWelcome. This", video)]);
        let level = |targets: &str| {
            let site = edited("site.toml", &[("[educator]", &format!("{targets}[educator]"))]);
            let files = [(week, text.as_str()), (CAPTIONS, captions), ("site.toml", site.as_str())];
            let (review, _) = crate::review::testing::review_files(&files);
            review.findings.iter().find(|f| f.rule == RULE.name).map(|f| f.level)
        };
        assert_eq!(level(""), Some(Level::Error));
        assert_eq!(level("[targets]\ncaption_words = \"160-220\"\n\n"), Some(Level::Warning));
        assert_eq!(level("[targets]\ncaption_words = \"210-220\"\n\n"), None);
    }
}
