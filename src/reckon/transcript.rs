//! The transcript of a video: its captions as text to read, in paragraphs, under its chapters.

use crate::model::captions::{Captions, Cue};

/// What is said in one chapter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TranscriptSection {
    /// Which of the chapters; none for what is said before the first of them.
    pub chapter: Option<usize>,
    pub paragraphs: Vec<Paragraph>,
}

/// What one person says without a pause.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paragraph {
    /// Milliseconds from the start of the video.
    pub start: u64,
    /// Who speaks, where the captions name them.
    pub speaker: Option<String>,
    pub text: String,
}

/// A silence between two thoughts, in milliseconds. A gap between captions is seen as one from a second
/// on, better a second and a half (BBC Subtitle Guidelines 1.2.3, 2024, on gaps); that a thought ends there is
/// common practice, no source.
const PAUSE: u64 = 1500;

/// How many letters a paragraph may have before the next end of a sentence ends it too: without any pause a
/// speaker's words would be one gray block. Common practice, no source.
const LONG: usize = 400;

/// The transcript of a caption file. `chapters` are the seconds at which they start, in order; captions belong
/// to the chapter in which most of their time is.
pub fn of(captions: &Captions, chapters: &[u32]) -> Vec<TranscriptSection> {
    let mut parts: Vec<TranscriptSection> = Vec::new();
    let mut before: Option<&Cue> = None;
    for cue in &captions.cues {
        let middle = cue.start + cue.length() / 2;
        let chapter = chapters.iter().rposition(|start| u64::from(*start) * 1000 <= middle);
        if parts.last().is_none_or(|part| part.chapter != chapter) {
            parts.push(TranscriptSection { chapter, paragraphs: Vec::new() });
            before = None;
        }
        let Some(part) = parts.last_mut() else { continue };
        let paused = before.is_none_or(|before| cue.start >= before.end + PAUSE);
        for (index, line) in cue.lines.iter().enumerate() {
            let text = line.text.split_whitespace().collect::<Vec<_>>().join(" ");
            let voice = line.speaker.clone();
            match part.paragraphs.last_mut() {
                Some(last) if !(paused && index == 0) && same_voice(last, &voice) && !last.is_full() => {
                    last.text.push(' ');
                    last.text.push_str(&text);
                }
                last => {
                    // Who spoke goes on speaking until somebody else is named.
                    let speaker = voice.or_else(|| last.and_then(|last| last.speaker.clone()));
                    part.paragraphs.push(Paragraph { start: cue.start, speaker, text });
                }
            }
        }
        before = Some(cue);
    }
    parts
}

fn same_voice(last: &Paragraph, voice: &Option<String>) -> bool {
    voice.is_none() || *voice == last.speaker
}

impl Paragraph {
    fn is_full(&self) -> bool {
        self.text.chars().count() > LONG && self.text.ends_with(['.', '!', '?', '…'])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::captions::CueLine;
    use crate::model::source::{FileId, Span};

    fn captions(cues: &[(u64, u64, &str)]) -> Captions {
        let span = Span::start_of(FileId(0));
        let line = |text: &str| {
            let (speaker, text) = match text.split_once(": ") {
                Some((speaker, text)) => (Some(speaker.to_string()), text),
                None => (None, text),
            };
            CueLine { span, text: text.to_string(), markup: text.to_string(), speaker }
        };
        let cue = |&(start, end, text): &(u64, u64, &str)| {
            let lines = text.split('/').map(line).collect();
            Cue { span, start, end, settings: String::new(), lines }
        };
        let cues = cues.iter().map(cue).collect();
        Captions { file: FileId(0), name: "a.vtt".into(), language: None, sound: true, cues }
    }

    fn told(cues: &[(u64, u64, &str)], chapters: &[u32]) -> Vec<String> {
        let parts = of(&captions(cues), chapters);
        let mut told = Vec::new();
        for part in parts {
            told.push(format!("# {:?}", part.chapter));
            told.extend(part.paragraphs.iter().map(|p| match &p.speaker {
                Some(speaker) => format!("{speaker}: {}", p.text),
                None => p.text.clone(),
            }));
        }
        told
    }

    #[test]
    fn paragraphs_end_at_a_pause_and_parts_with_their_chapter() {
        let cues = [
            (1_000, 3_000, "Welcome to/week seven."),
            (3_200, 5_000, "Bring a chair."),
            (6_500, 8_000, "Ready?"),
            (59_000, 63_000, "Now the heel drop."),
            (63_000, 65_000, "Rise up."),
        ];
        assert_eq!(
            told(&cues, &[0, 60]),
            [
                "# Some(0)",
                "Welcome to week seven. Bring a chair.",
                "Ready?",
                "# Some(1)",
                "Now the heel drop. Rise up."
            ],
        );
        assert_eq!(told(&cues, &[60])[0], "# None", "before the first chapter");
        assert_eq!(told(&cues, &[]).len(), 4);
    }

    #[test]
    fn speakers_are_kept_and_another_begins_a_paragraph() {
        let cues = [
            (0, 1_000, "Maren: Up we go."),
            (1_000, 2_000, "And down."),
            (2_000, 3_000, "Ida: Like this?/Maren: Yes."),
        ];
        assert_eq!(
            told(&cues, &[]),
            ["# None", "Maren: Up we go. And down.", "Ida: Like this?", "Maren: Yes."]
        );
        let paused = [(0, 1_000, "Maren: Up we go."), (9_000, 10_000, "And down.")];
        assert_eq!(told(&paused, &[])[2], "Maren: And down.");
    }

    #[test]
    fn a_speaker_without_a_pause_gets_paragraphs_all_the_same() {
        let cues: Vec<(u64, u64, &str)> =
            (0..40).map(|i| (i * 2000, i * 2000 + 2000, "Twenty letters here.")).collect();
        let parts = of(&captions(&cues), &[]);
        let lengths: Vec<usize> = parts[0].paragraphs.iter().map(|p| p.text.chars().count()).collect();
        assert!(lengths.len() == 2 && lengths.iter().all(|l| (380..=440).contains(l)), "{lengths:?}");
    }
}
