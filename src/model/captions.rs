//! Captions of a video: what is said in it, and when.

use super::source::{FileId, Span};

/// A caption file.
#[derive(Clone, Debug)]
pub struct Captions {
    pub file: FileId,
    /// Below `content/`, such as `series/lantern-hill/captions/week-07.en.vtt`.
    pub name: String,
    /// As the name says it before its ending: `en` of `week-07.en.vtt`.
    pub language: Option<String>,
    /// False when something of it could not be read: no conclusion is drawn from what may be lost.
    pub sound: bool,
    /// In the order of the file.
    pub cues: Vec<Cue>,
}

/// What is shown on the picture for a while.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cue {
    /// The line with its times.
    pub span: Span,
    /// Milliseconds from the start of the video.
    pub start: u64,
    pub end: u64,
    /// Where it stands on the picture, in the words of WebVTT; most often empty.
    pub settings: String,
    /// Never empty.
    pub lines: Vec<CueLine>,
}

/// One line of a cue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CueLine {
    pub span: Span,
    /// What is read.
    pub text: String,
    /// The same as WebVTT, with its tags and character references.
    pub markup: String,
    /// Who speaks from here on, where the line says so first.
    pub speaker: Option<String>,
}

impl Captions {
    /// The language that a name says before its ending: `en` of `week-07.en.vtt`, `pt-BR` of `a.pt-BR.srt`.
    pub fn language_of(name: &str) -> Option<String> {
        let (stem, _) = name.rsplit_once('.')?;
        let (_, tag) = stem.rsplit('/').next()?.rsplit_once('.')?;
        let mut parts = tag.split('-');
        let primary = parts.next()?;
        let is_primary = (2..=3).contains(&primary.len()) && primary.bytes().all(|b| b.is_ascii_alphabetic());
        let rest = parts
            .all(|part| (2..=8).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_alphanumeric()));
        (is_primary && rest).then(|| tag.to_string())
    }
}

impl Cue {
    /// How long it stands, in milliseconds.
    pub fn length(&self) -> u64 {
        self.end.saturating_sub(self.start)
    }

    /// The words of all its lines.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        let words = self.lines.iter().flat_map(|line| line.text.split_whitespace());
        words.filter(|word| word.chars().any(char::is_alphanumeric))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_language_stands_before_the_ending() {
        for (name, language) in [
            ("series/hill/captions/week-07.en.vtt", Some("en")),
            ("captions/week-07.pt-BR.srt", Some("pt-BR")),
            ("captions/week-07.vtt", None),
            ("captions.en/week-07.vtt", None),
            ("captions/week-07.final.vtt", None),
            ("captions/week.07.vtt", None),
        ] {
            assert_eq!(Captions::language_of(name).as_deref(), language, "{name}");
        }
    }
}
