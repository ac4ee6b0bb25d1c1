//! A workspace in memory: the one place in which benchmarks open one.

use std::path::Path;

use jiff::civil::{Date, date};
use steadyleaf::edition::{Edition, Site, SiteFacts, make_photo};
use steadyleaf::outputs::media;
use steadyleaf::pages::Prepared;
use steadyleaf::print::{Photos, Press};
use steadyleaf::workspace;

/// A Monday of the demonstration's series.
pub(crate) const TODAY: Date = date(2027, 2, 15);

/// What every command begins with, and the photos as sheets show them.
pub(crate) struct Opened {
    pub(crate) edition: Edition,
    pub(crate) photos: Photos<'static>,
}

impl Opened {
    pub(crate) fn read(root: &Path) -> Opened {
        let edition = Edition::open(root.to_path_buf()).unwrap();
        let model = edition.model();
        let photos = media::photos(model).into_iter().map(|shot| {
            let bytes = workspace::photo(root, &shot.file).unwrap();
            let made = make_photo(model, &shot, &bytes).unwrap();
            (shot, made.printed.unwrap())
        });
        let photos = photos.collect();
        Opened { edition, photos }
    }

    /// The site without photos and sheets.
    pub(crate) fn site(&self) -> Site<'_> {
        self.edition.site(&facts(), Prepared::default()).unwrap()
    }

    pub(crate) fn press(&self) -> Press<'_> {
        self.edition.press(&facts(), &self.photos).unwrap()
    }
}

fn facts() -> SiteFacts {
    SiteFacts { today: TODAY, draft: false, program: blake3::hash(b"") }
}
