//! What the typesetter sees: the theme's sheet and shapes, the fonts, the words, and one sheet's own
//! files, all in memory. It has no disk, no network, no packages and no clock.

use std::collections::HashMap;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Feature, Library, LibraryExt, World};

use super::error::SheetError;
use crate::workspace::theme::{LOGO_FOLDER, Theme};

/// What all sheets of one theme and language share.
pub(super) struct Desk {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    /// Texts and pictures by their fixed names: a name costs a number that is never given back.
    sources: HashMap<FileId, Source>,
    files: HashMap<FileId, Bytes>,
}

impl Desk {
    /// Lays out the theme's files that sheets are made from, and `words`, the words as JSON.
    pub(super) fn new(theme: &Theme, words: Vec<u8>) -> Result<Desk, SheetError> {
        let mut desk = Desk {
            // Row headers of the practice log need it.
            library: LazyHash::new(
                Library::builder().with_features([Feature::A11yExtras].into_iter().collect()).build(),
            ),
            book: LazyHash::new(FontBook::new()),
            fonts: Vec::new(),
            sources: HashMap::new(),
            files: HashMap::new(),
        };
        for (name, bytes) in theme.below("fonts/").filter(|(name, _)| is_font(name)) {
            // Some files hold several.
            let fonts: Vec<Font> = Font::iter(Bytes::new(bytes.to_vec())).collect();
            if fonts.is_empty() {
                return Err(SheetError::new(format!("the theme's {name} is no font")));
            }
            desk.fonts.extend(fonts);
        }
        desk.book = LazyHash::new(FontBook::from_fonts(&desk.fonts));
        let own = ["sheet/", "shapes/", LOGO_FOLDER].into_iter().flat_map(|folder| theme.below(folder));
        for (name, bytes) in own {
            let Some(id) = file(name) else { continue };
            if name.ends_with(".typ") {
                let text = std::str::from_utf8(bytes)
                    .map_err(|_| SheetError::new(format!("the theme's {name} is not text in UTF-8")))?;
                desk.sources.insert(id, Source::new(id, text.to_string()));
            } else {
                desk.files.insert(id, Bytes::new(bytes.to_vec()));
            }
        }
        desk.files.extend(file("words.json").map(|id| (id, Bytes::new(words))));
        Ok(desk)
    }

    /// The text of a file of the theme's sheet.
    pub(super) fn source(&self, id: FileId) -> Option<&Source> {
        self.sources.get(&id)
    }
}

fn is_font(name: &str) -> bool {
    [".ttf", ".otf", ".ttc", ".otc"].iter().any(|ending| name.ends_with(ending))
}

/// The typesetter's number for a file of that name; `None` for a name that it cannot take, such as one
/// with a backslash.
pub(super) fn file(name: &str) -> Option<FileId> {
    let path = VirtualPath::new(format!("/{name}")).ok()?;
    Some(FileId::new(RootedPath::new(VirtualRoot::Project, path)))
}

/// One sheet on the desk.
pub(super) struct Job<'d> {
    pub(super) desk: &'d Desk,
    pub(super) main: FileId,
    /// The sheet's own files: its words as JSON, its photos, its code for phones.
    pub(super) files: HashMap<FileId, Bytes>,
}

impl World for Job<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &self.desk.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.desk.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.desk.sources.get(&id).cloned().ok_or_else(|| missing(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let own = self.files.get(&id).or_else(|| self.desk.files.get(&id));
        own.cloned().ok_or_else(|| missing(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.desk.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn missing(id: FileId) -> FileError {
    FileError::NotFound(id.get().vpath().get_without_slash().into())
}
