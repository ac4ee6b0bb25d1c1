//! Whether the hidden data of a video or a sound recording say where it was made. Never a picture or a sound of it:
//! headers and short texts are read, the rest is passed over.

mod boxes;
mod elements;

#[cfg(test)]
mod tests;

use std::io::{self, Read, Seek, SeekFrom};

/// The endings of the files that are looked at: of those that a site publishes, all whose standards have room for a
/// place.
const ENDINGS: [&str; 4] = ["mp4", "m4v", "m4a", "webm"];

/// How many bytes of a file are read, in all. Two hours of WebM, in clusters of a second, need a tenth of it; MP4
/// needs less.
const MOST: u64 = 1_000_000;

/// How many bytes of one text are read. A place is a few dozen, the names of all the hidden data some hundred.
const MOST_OF_A_TEXT: u64 = 64_000;

/// How deep boxes are looked for inside each other. The standards put no place deeper than six.
const NESTED: usize = 8;

/// True when [`says_where`] reads files of that name.
pub(crate) fn is_looked_at(name: &str) -> bool {
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    ENDINGS.iter().any(|known| known.eq_ignore_ascii_case(ending))
}

/// True when the file's hidden data say where it was filmed or recorded. A file that is damaged, cut off or something
/// else says so at most in what stands before the damage.
pub(crate) fn says_where(file: impl Read + Seek) -> bool {
    look(file).unwrap_or(false)
}

fn look(file: impl Read + Seek) -> io::Result<bool> {
    let mut file = Looked::at(file)?;
    let end = file.length;
    match file.read(0, end, 4)? == elements::FIRST {
        true => elements::say_where(&mut file),
        false => boxes::say_where(&mut file),
    }
}

/// A file of which only so much is read.
struct Looked<F> {
    file: F,
    /// Its length in bytes.
    length: u64,
    /// How many bytes may still be read.
    left: u64,
}

impl<F: Read + Seek> Looked<F> {
    fn at(mut file: F) -> io::Result<Looked<F>> {
        let length = file.seek(SeekFrom::End(0))?;
        Ok(Looked { file, length, left: MOST })
    }

    /// The bytes from `at` on: at most `most`, none from `end` on, and none any more when enough was read of the file.
    fn read(&mut self, at: u64, end: u64, most: u64) -> io::Result<Vec<u8>> {
        let wanted = end.saturating_sub(at).min(most).min(self.left);
        self.left -= wanted;
        self.file.seek(SeekFrom::Start(at))?;
        let mut bytes = Vec::new();
        self.file.by_ref().take(wanted).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    /// The text from `at` to `end`, as far as a text is read.
    fn text(&mut self, at: u64, end: u64) -> io::Result<Vec<u8>> {
        self.read(at, end, MOST_OF_A_TEXT)
    }
}
