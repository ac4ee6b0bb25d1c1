//! `caption-length`: captions with too long lines, too many of them, or for too short a time.

use crate::model::finding::{Level, Subject};
use crate::model::targets::{CAPTION_LINE, CAPTION_LINES, CAPTION_SECONDS};
use crate::review::captions::{self, Captioned, Excess, TooMuch, WEEK_WITH_CAPTIONS, starts};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "caption-length",
    level: Level::Warning,
    safety: false,
    finds: "A line of captions has more letters than the low end of the target `caption_line` (37), captions have more\n\
            lines than that of `caption_lines` (2), or they are shown for a shorter or longer time than\n\
            `caption_seconds` (1 to 7 s). Above the high ends of lines and letters (42 letters, 3 lines) it is an error\n\
            whatever the level of the rule.",
    why: "A long line breaks by itself on a phone and covers the feet that the client should watch. What is\n\
          shown for less than a second is missed; what is shown too long is read twice.",
    bad: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:05.000
Hold on to the counter with both of your hands.
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ this line has `47` letters, more than `42`
"#,
    )
    .beside("content/series/first-steps/week-01.md", WEEK_WITH_CAPTIONS),
    good: Example::whole(
        CAPTIONS,
        r#"
WEBVTT

00:01.000 --> 00:05.000
Hold on to the counter
with both of your hands.
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
        let seconds = CAPTION_SECONDS.of(Some(series), &case.model.site);
        for cue in &captions.cues {
            let lines = cue.lines.len();
            if let Some((excess, most)) = Excess::of(&CAPTION_LINES, series, case, |most| lines as u64 > most)
            {
                let told = format!("these captions have `{lines}` lines, more than `{most}`");
                let numbers = [Subject::number(lines), Subject::number(most)];
                captions::add(
                    sink,
                    cue,
                    cue.span,
                    vec![TooMuch { excess, numbers, told }],
                    "split them in two",
                );
            }
            for line in &cue.lines {
                let letters = line.text.trim().chars().count();
                if let Some((excess, most)) =
                    Excess::of(&CAPTION_LINE, series, case, |most| letters as u64 > most)
                {
                    let told = format!("this line has `{letters}` letters, more than `{most}`");
                    let numbers = [Subject::number(letters), Subject::number(most)];
                    captions::add(
                        sink,
                        cue,
                        line.span,
                        vec![TooMuch { excess, numbers, told }],
                        "break it where a reader would breathe",
                    );
                }
            }
            let shown = cue.length() as f64 / 1000.0;
            let about = |most: u32| {
                [starts(cue), Subject::Number(format!("{shown} s")), Subject::Number(format!("{most} s"))]
            };
            if cue.length() < u64::from(seconds.low) * 1000 {
                let message =
                    format!("these captions are shown for `{shown} s`, less than `{} s`", seconds.low);
                let help = "show them longer, or put them together with the next";
                sink.about(about(seconds.low)).add(cue.span, message, help);
            } else if cue.length() > u64::from(seconds.high) * 1000 {
                let message =
                    format!("these captions are shown for `{shown} s`, more than `{} s`", seconds.high);
                sink.about(about(seconds.high)).add(cue.span, message, "end them when their words are said");
            }
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

    /// 37 letters and 2 lines: BBC Subtitle Guidelines 1.2.3 (2024), section 5. 42 letters and 7 s: usual for
    /// recorded films, read in a university's guide.
    #[test]
    fn the_published_ends_are_inside() {
        let line = "Twelve letters and some more words so.";
        for (text, expected) in [
            (format!("00:01.000 --> 00:08.000\n{}", &line[..37]), vec![]),
            (
                format!("00:01.000 --> 00:08.000\n{line}"),
                vec!["4:1 this line has `38` letters, more than `37`"],
            ),
            (
                "00:01.000 --> 00:08.001\nA.".into(),
                vec!["3:1 these captions are shown for `7.001 s`, more than `7 s`"],
            ),
            ("00:01.000 --> 00:02.000\nA.".into(), vec![]),
            (
                "00:01.000 --> 00:01.999\nA.".into(),
                vec!["3:1 these captions are shown for `0.999 s`, less than `1 s`"],
            ),
            ("00:01.000 --> 00:05.000\nA\nb.".into(), vec![]),
            (
                "00:01.000 --> 00:05.000\nA\nb\nc.".into(),
                vec!["3:1 these captions have `3` lines, more than `2`"],
            ),
        ] {
            assert_eq!(with(&text), expected, "{text}");
        }
    }

    #[test]
    fn letters_are_counted_and_not_bytes_or_tags() {
        let accents = "é".repeat(37);
        assert_eq!(with(&format!("00:01.000 --> 00:08.000\n<v Maren><i>{accents}</i>\n")), [""; 0]);
    }
}
