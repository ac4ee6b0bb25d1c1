//! Texts and places in them: byte spans inside, line and column only when printed.

use std::sync::Arc;

use serde::{Serialize, Serializer};

use super::reads::{Read, note};

/// Which file of the workspace a span belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// A range of bytes in one file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    pub file: FileId,
    pub start: u32,
    pub end: u32,
}

impl Span {
    /// The span of bytes `range` of `file`. Files over 4 GB do not exist here: reading stops far below.
    pub fn new(file: FileId, range: std::ops::Range<usize>) -> Span {
        Span { file, start: range.start as u32, end: range.end as u32 }
    }

    /// An empty span at the start of a file, for what is missing from it altogether.
    pub fn start_of(file: FileId) -> Span {
        Span { file, start: 0, end: 0 }
    }

    /// The byte range inside the file's text.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// A value with the place it was read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    pub value: T,
    pub span: Span,
}

impl<T> Spanned<T> {
    pub fn new(value: T, span: Span) -> Self {
        Spanned { value, span }
    }

    /// The same place with another value.
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned { value: f(self.value), span: self.span }
    }
}

/// Its value alone: places are for findings, and no page or sheet says them.
impl<T: Serialize> Serialize for Spanned<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.value.serialize(serializer)
    }
}

/// One file of the workspace as text. A byte-order mark is not part of the text.
#[derive(Clone, Debug)]
pub struct Source {
    /// Path relative to the workspace, with `/` between folders.
    pub name: String,
    pub text: String,
    /// Where each line starts.
    lines: Vec<usize>,
}

impl Source {
    pub fn new(name: String, text: String) -> Source {
        let feeds = text.bytes().enumerate().filter(|&(_, b)| b == b'\n');
        let lines = std::iter::once(0).chain(feeds.map(|(at, _)| at + 1)).collect();
        Source { name, text, lines }
    }

    /// Line and column of a byte offset. An offset inside a character counts as its start.
    pub fn position(&self, offset: usize) -> Position {
        let offset = self.text.floor_char_boundary(offset.min(self.text.len()));
        let line = self.lines.partition_point(|&start| start <= offset);
        let start = self.lines[line - 1];
        Position { line, column: self.text[start..offset].chars().count() + 1 }
    }

    /// The bytes of the lines `from..=to`, which count from 1; lines that are not there are left out.
    pub fn lines(&self, from: usize, to: usize) -> std::ops::Range<usize> {
        let start = |line: usize| self.lines.get(line - 1).copied().unwrap_or(self.text.len());
        start(from.max(1))..start(to.max(from).max(1) + 1)
    }
}

/// Line and column, both counted from 1; columns count characters, not bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    pub line: usize,
    pub column: usize,
}

/// All texts of a workspace, looked up by [`FileId`]. A clone shares the texts, and keeps those that are replaced since.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<Arc<Source>>,
}

impl Sources {
    pub fn add(&mut self, source: Source) -> FileId {
        self.files.push(Arc::new(source));
        FileId(self.files.len() as u32 - 1)
    }

    /// Puts another text in the place of a file's.
    pub fn replace(&mut self, file: FileId, text: String) {
        let source = &mut self.files[file.0 as usize];
        *source = Arc::new(Source::new(source.name.clone(), text));
    }

    /// The file of that name.
    pub fn find(&self, name: &str) -> Option<FileId> {
        self.iter().find(|(_, source)| source.name == name).map(|(file, _)| file)
    }

    pub fn get(&self, file: FileId) -> &Source {
        note(|| Read::Text(self.files[file.0 as usize].name.clone()));
        &self.files[file.0 as usize]
    }

    /// Every file with its id, in the order they were read.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &Source)> {
        self.files.iter().enumerate().map(|(i, source)| (FileId(i as u32), &**source))
    }

    /// The author's text at a span; empty when the span does not fit the text.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file).text.get(span.range()).unwrap_or("")
    }

    /// Where a span starts and where it ends (the column after its last character).
    pub fn positions(&self, span: Span) -> (Position, Position) {
        let source = self.get(span.file);
        (source.position(span.start as usize), source.position(span.end as usize))
    }
}

/// The path `to` as seen from the folder of the file `from`; a leading `/` starts at the workspace's
/// `content/`, and so does a leading `media/`, as in the fields of an entry. `None` when it climbs out.
pub fn beside(from: &str, to: &str) -> Option<String> {
    let mut parts: Vec<&str> = match to.starts_with('/') || to.starts_with("media/") {
        true => vec!["content"],
        false => from.split('/').collect::<Vec<_>>().split_last()?.1.to_vec(),
    };
    for part in to.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_and_lines_end_at_the_line_feed() {
        let text = "title = \"Élévation\"\r\nçà = 1\r\n";
        let source = Source::new("a.md".to_string(), text.to_string());
        assert_eq!(source.position(text.find("vation").unwrap()), Position { line: 1, column: 13 });
        assert_eq!(source.position(text.find("= 1").unwrap()), Position { line: 2, column: 4 });
        assert_eq!(source.position(text.len()), Position { line: 3, column: 1 });
        assert_eq!(source.position(usize::MAX), Position { line: 3, column: 1 });
        assert_eq!(source.position(text.find('É').unwrap() + 1), Position { line: 1, column: 10 });
    }

    #[test]
    fn lines_are_cut_whole() {
        let source = Source::new("a.md".to_string(), "a\nb\nc".to_string());
        assert_eq!(&source.text[source.lines(2, 2)], "b\n");
        assert_eq!(&source.text[source.lines(0, 2)], "a\nb\n");
        assert_eq!(&source.text[source.lines(3, 9)], "c");
    }
}
