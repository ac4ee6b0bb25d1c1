//! WebVTT as players read it: captions, and the chapters of a video (W3C, section 4).

use crate::model::captions::Captions;
use crate::outputs::blocks::chapters::Chapter;

/// Captions written anew, so that every player reads them alike. Comments and styles of the author's file are
/// not in them.
pub fn captions(captions: &Captions) -> String {
    let mut text = "WEBVTT\n".to_string();
    for cue in &captions.cues {
        let settings = if cue.settings.is_empty() { String::new() } else { format!(" {}", cue.settings) };
        text.push_str(&format!("\n{} --> {}{settings}\n", time(cue.start), time(cue.end)));
        for line in &cue.lines {
            text.push_str(&line.markup);
            text.push('\n');
        }
    }
    text
}

/// Chapters, which must not overlap, each numbered.
pub fn chapters(chapters: &[Chapter]) -> String {
    let mut text = "WEBVTT\n".to_string();
    for (index, chapter) in chapters.iter().enumerate() {
        let (start, end) = (time(u64::from(chapter.start) * 1000), time(u64::from(chapter.end) * 1000));
        text.push_str(&format!("\n{}\n{start} --> {end}\n{}\n", index + 1, escaped(&chapter.title)));
    }
    text
}

/// Hours, minutes, seconds and thousandths: section 4.3 allows them all to be written always.
fn time(milliseconds: u64) -> String {
    let (seconds, thousandths) = (milliseconds / 1000, milliseconds % 1000);
    format!("{:02}:{:02}:{:02}.{thousandths:03}", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

/// One line of plain text. `>` is written as a reference too, so that no `-->` can stand in it.
fn escaped(text: &str) -> String {
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    line.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chapters_are_written_as_the_standard_asks() {
        let titled = |start, end, title: &str| Chapter { start, end, title: title.to_string() };
        let text = chapters(&[titled(0, 65, "Welcome"), titled(65, 3725, "Up & down <slow>\n --> now")]);
        assert_eq!(
            text,
            "WEBVTT\n\n1\n00:00:00.000 --> 00:01:05.000\nWelcome\n\n2\n00:01:05.000 --> 01:02:05.000\nUp &amp; down &lt;slow&gt; --&gt; now\n"
        );
    }
}
