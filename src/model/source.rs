//! Texts and places in them: byte spans inside, line and column only when printed.

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
#[derive(Clone, Debug, PartialEq, Eq)]
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

/// One file of the workspace as text. A byte-order mark is not part of the text.
#[derive(Clone, Debug)]
pub struct Source {
    /// Path relative to the workspace, with `/` between folders.
    pub name: String,
    pub text: String,
}

/// Line and column, both counted from 1; columns count characters, not bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    pub line: usize,
    pub column: usize,
}

/// All texts of a workspace, looked up by [`FileId`].
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<Source>,
}

impl Sources {
    pub fn add(&mut self, source: Source) -> FileId {
        self.files.push(source);
        FileId(self.files.len() as u32 - 1)
    }

    pub fn get(&self, file: FileId) -> &Source {
        &self.files[file.0 as usize]
    }

    /// Every file with its id, in the order they were read.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &Source)> {
        self.files.iter().enumerate().map(|(i, source)| (FileId(i as u32), source))
    }

    /// The author's text at a span; empty when the span does not fit the text.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file).text.get(span.range()).unwrap_or("")
    }

    /// Where a span starts and where it ends (the column after its last character).
    pub fn positions(&self, span: Span) -> (Position, Position) {
        let text = &self.get(span.file).text;
        (position(text, span.start as usize), position(text, span.end as usize))
    }
}

/// Line and column of a byte offset. An offset inside a character counts as its start.
fn position(text: &str, offset: usize) -> Position {
    let before = &text[..text.floor_char_boundary(offset.min(text.len()))];
    let line_start = before.rfind('\n').map_or(0, |i| i + 1);
    Position {
        line: before.bytes().filter(|&b| b == b'\n').count() + 1,
        column: before[line_start..].chars().count() + 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_and_lines_end_at_the_line_feed() {
        let text = "title = \"Élévation\"\r\nçà = 1\r\n";
        assert_eq!(position(text, text.find("vation").unwrap()), Position { line: 1, column: 13 });
        assert_eq!(position(text, text.find("= 1").unwrap()), Position { line: 2, column: 4 });
    }
}
