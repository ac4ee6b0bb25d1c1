//! Finds the opening block of an entry: the fenced code block with the info string `toml`
//! (CommonMark 0.31.2, section 4.5) that holds the structured fields.

use std::ops::Range;

/// Where the fields and the prose of an entry are.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Block {
    Found {
        /// The line that opens the block.
        opening: Range<usize>,
        /// The text between the fences.
        fields: Range<usize>,
        /// Everything after the block.
        prose: Range<usize>,
    },
    /// The block has no closing fence.
    Unclosed { opening: Range<usize> },
    /// The entry opens with something else: its first line that is not blank.
    Missing { first: Range<usize> },
}

/// Looks for the block at the start of `text`; blank lines may stand before it.
pub(super) fn find(text: &str) -> Block {
    let mut lines = lines(text);
    let Some(first) = lines.by_ref().find(|l| !text[l.clone()].trim().is_empty()) else {
        return Block::Missing { first: 0..0 };
    };
    let content = trimmed(text, &first);
    let Some(fence) = Fence::opening(&text[first.clone()]) else {
        return Block::Missing { first: content };
    };
    let start = first.end;
    for line in lines {
        if fence.closes(&text[line.clone()]) {
            return Block::Found { opening: content, fields: start..line.start, prose: line.end..text.len() };
        }
    }
    Block::Unclosed { opening: content }
}

/// A code fence: its character and how many of them.
struct Fence {
    mark: char,
    length: usize,
}

impl Fence {
    fn opening(line: &str) -> Option<Fence> {
        let body = line.trim_start_matches(' ');
        let mark = body.chars().next().filter(|c| matches!(c, '`' | '~'))?;
        let info = body.trim_start_matches(mark);
        let length = body.len() - info.len();
        let word = info.split_whitespace().next()?;
        (line.len() - body.len() < 4 && length >= 3 && word == "toml").then_some(Fence { mark, length })
    }

    fn closes(&self, line: &str) -> bool {
        let body = line.trim_start_matches(' ');
        let rest = body.trim_start_matches(self.mark);
        line.len() - body.len() < 4 && body.len() - rest.len() >= self.length && rest.trim().is_empty()
    }
}

/// The ranges of the lines of a text, each with its line end.
fn lines(text: &str) -> impl Iterator<Item = Range<usize>> {
    let mut start = 0;
    text.split_inclusive('\n').map(move |line| {
        let range = start..start + line.len();
        start = range.end;
        range
    })
}

fn trimmed(text: &str, line: &Range<usize>) -> Range<usize> {
    line.start..line.start + text[line.clone()].trim_end().len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fields_stand_between_the_fences_and_the_prose_after_them() {
        let text = "\n```toml\na = 1\n```\nHello\n";
        let Block::Found { fields, prose, .. } = find(text) else { panic!("no block") };
        assert_eq!(&text[fields], "a = 1\n");
        assert_eq!(&text[prose], "Hello\n");
    }

    #[test]
    fn carriage_returns_and_longer_fences_are_fences_too() {
        let text = "~~~~ toml\r\na = 1\r\n~~~\r\n~~~~~\r\nHello";
        let Block::Found { fields, prose, .. } = find(text) else { panic!("no block") };
        assert_eq!(&text[fields], "a = 1\r\n~~~\r\n");
        assert_eq!(&text[prose], "Hello");
    }

    #[test]
    fn another_opening_or_no_end_is_told_apart() {
        assert_eq!(find("# Title\n```toml\n```\n"), Block::Missing { first: 0..7 });
        assert_eq!(find("```yaml\na: 1\n```\n"), Block::Missing { first: 0..7 });
        assert_eq!(find("```toml\na = 1\n"), Block::Unclosed { opening: 0..7 });
        assert_eq!(find("    ```toml\n    ```\n"), Block::Missing { first: 0..11 });
        assert_eq!(find(" \n"), Block::Missing { first: 0..0 });
    }
}
