//! A sheet as somebody would print it with the typesetter alone: the same words, pictures and tables by a plain template.

use typst::Library;
use typst::World;
use typst::diag::FileResult;
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// What the typesetter sees of a sheet, with another text in the place of the theme's.
pub(crate) struct Plain<W> {
    sheet: W,
    text: Source,
}

impl<W: World> Plain<W> {
    pub(crate) fn of(sheet: W) -> Plain<W> {
        let path = VirtualPath::new("/plain.typ").unwrap();
        let id = FileId::new(RootedPath::new(VirtualRoot::Project, path));
        Plain { sheet, text: Source::new(id, include_str!("plain.typ").to_string()) }
    }
}

impl<W: World> World for Plain<W> {
    fn library(&self) -> &LazyHash<Library> {
        self.sheet.library()
    }

    fn book(&self) -> &LazyHash<FontBook> {
        self.sheet.book()
    }

    fn main(&self) -> FileId {
        self.text.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.text.id() { Ok(self.text.clone()) } else { self.sheet.source(id) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.sheet.file(id)
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.sheet.font(index)
    }

    fn today(&self, offset: Option<Duration>) -> Option<Datetime> {
        self.sheet.today(offset)
    }
}
