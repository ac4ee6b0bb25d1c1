//! Words to paste, as plain text: what stands below a week's video, and a letter to its readers.

use std::fmt::Write;

use crate::model::site::Site;
use crate::model::week::clock;
use crate::model::words::Words;
use crate::outputs::blocks::digest::Digest;

/// For the description of a video: title, a paragraph, the chapters with their times, what to have at hand, the
/// cautions, the address of the page.
pub fn description(digest: &Digest, words: &Words, draft: bool) -> String {
    let mut text = Text::begun(words, draft);
    text.line(&digest.title);
    text.paragraph(&digest.summary);
    if !digest.chapters.is_empty() {
        text.heading(&words.say("video-chapters-title"));
        digest.chapters.iter().for_each(|c| text.line(&format!("{} {}", clock(c.start), c.title)));
    }
    text.needs(digest, words);
    text.cautions(digest, words);
    text.heading(&words.say("digest-page"));
    text.line(&digest.page);
    text.end(digest)
}

/// A letter on a week.
pub fn letter(digest: &Digest, site: &Site, words: &Words, draft: bool) -> String {
    let mut text = Text::begun(words, draft);
    text.line(&digest.title);
    text.line(&digest.series);
    digest.welcome.iter().for_each(|paragraph| text.paragraph(paragraph));
    text.heading(&words.say("week-glance-title"));
    for exercise in &digest.exercises {
        text.line(&format!("- {}: {}", exercise.title, exercise.dose));
    }
    text.needs(digest, words);
    text.cautions(digest, words);
    text.heading(&words.say("digest-page"));
    text.line(&digest.page);
    if let Some(video) = &digest.video {
        text.heading(&words.say("video-title"));
        text.line(video);
    }
    digest.question.iter().for_each(|question| text.paragraph(question));
    text.paragraph(&words.say("safety-disclaimer"));
    let educator = &site.educator;
    let lines = [
        Some(educator.name.as_str()),
        educator.clinic.as_deref(),
        educator.phone.as_deref(),
        educator.email.as_deref(),
    ];
    text.paragraph("");
    lines.into_iter().flatten().for_each(|line| text.line(line));
    text.end(digest)
}

/// Plain text with an empty line between its parts.
#[derive(Default)]
struct Text(String);

impl Text {
    /// What is no final text says so first.
    fn begun(words: &Words, draft: bool) -> Text {
        let mut text = Text::default();
        if draft {
            text.line(&format!("{}. {}\n", words.say("draft-mark"), words.say("draft-about")));
        }
        text
    }

    fn line(&mut self, line: &str) {
        // Writing to a text cannot fail.
        let _ = writeln!(self.0, "{line}");
    }

    fn paragraph(&mut self, paragraph: &str) {
        self.0.push('\n');
        if !paragraph.is_empty() {
            self.line(paragraph);
        }
    }

    fn heading(&mut self, heading: &str) {
        self.paragraph(&format!("{heading}:"));
    }

    fn needs(&mut self, digest: &Digest, words: &Words) {
        if !digest.needs.is_empty() {
            self.heading(&words.say("what-you-need"));
            digest.needs.iter().for_each(|need| self.line(&format!("- {need}")));
        }
    }

    fn cautions(&mut self, digest: &Digest, words: &Words) {
        self.heading(&words.say("take-care"));
        self.line(&format!("- {} {}", words.say("safety-short"), digest.emergency_call));
        for exercise in &digest.exercises {
            for caution in &exercise.cautions {
                self.line(&format!("- {}. {caution}", exercise.title));
            }
        }
        if digest.has_more_cautions() {
            self.line(&format!("- {} {}", words.say("digest-more-cautions"), digest.page));
        }
    }

    fn end(mut self, digest: &Digest) -> String {
        digest.thanks.iter().for_each(|thanks| self.paragraph(thanks));
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outputs::blocks::digest::of_week;
    use crate::outputs::blocks::phrases::Phrases;
    use crate::review::testing::{edited, with_case, words};

    /// Both texts on the first week of the sample with `files` laid over it.
    fn texts(files: &[(&str, &str)]) -> Vec<String> {
        let mut texts = Vec::new();
        with_case(files, |case| {
            let (series, week) = case.model.weeks().next().expect("a week");
            let digest = of_week(case.model, series, week, Phrases { words: words() });
            texts =
                vec![description(&digest, words(), false), letter(&digest, &case.model.site, words(), false)];
        });
        texts
    }

    #[test]
    fn the_welcome_is_told_in_the_letters_that_a_reader_gets() {
        const WEEK: &str = "content/series/first-steps/week-01.md";
        let welcome = "Welcome. This week you learn 4 movements.";
        let written =
            "Bread &amp; butter, *one* at\na [time](/pages/about.md). ![A loaf](/media/loaf.png)<br>5 \\* 2.";
        let text = edited(WEEK, &[(welcome, written)]);
        for text in texts(&[(WEEK, &text)]) {
            assert!(text.contains("\nBread & butter, one at a time. 5 * 2. Go slowly"), "{text}");
        }
    }

    #[test]
    fn both_texts_say_whom_to_call_in_an_emergency() {
        for text in texts(&[]) {
            assert!(text.contains("a knock to the head is an emergency. Call 911.\n"), "{text}");
        }
        let without = edited("site.toml", &[("emergency = \"911\"", "")]);
        for text in texts(&[("site.toml", &without)]) {
            assert!(text.contains("is an emergency. Call your emergency number.\n"), "{text}");
        }
    }
}
