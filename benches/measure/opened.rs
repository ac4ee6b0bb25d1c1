//! A workspace in memory: the one place in which benchmarks read one.

use std::path::Path;

use jiff::civil::{Date, date};
use steadyleaf::model::Model;
use steadyleaf::model::finding::Finding;
use steadyleaf::model::source::Sources;
use steadyleaf::model::words::Words;
use steadyleaf::outputs::media;
use steadyleaf::pages::{self, Pages, photo};
use steadyleaf::print::{Photo, Photos, Press};
use steadyleaf::review::Case;
use steadyleaf::workspace::theme::Theme;
use steadyleaf::{entry, workspace};

/// A Monday of the demonstration's series.
pub(crate) const TODAY: Date = date(2027, 2, 15);

/// What every command begins with.
pub(crate) struct Opened {
    pub(crate) model: Model,
    pub(crate) sources: Sources,
    pub(crate) words: Words,
    pub(crate) theme: Theme,
    /// What was found while reading.
    pub(crate) findings: Vec<Finding>,
    /// As sheets show them.
    pub(crate) photos: Photos<'static>,
}

impl Opened {
    pub(crate) fn read(root: &Path) -> Opened {
        let texts = workspace::read(root).unwrap();
        let (site, mut findings) = entry::read_site(&texts);
        let theme = Theme::read(root, &site.theme.value).unwrap();
        let language = site.language.value.clone();
        let fluent = theme.text(&format!("words/{language}.ftl")).unwrap();
        let words = Words::read(&language, fluent, theme.lists(&language)).unwrap();
        let (model, found) = entry::read(&texts, site, &words);
        findings.extend(found);
        let photos = media::photos(&model).into_iter().map(|shot| {
            let bytes = workspace::photo(root, &shot.file).unwrap();
            let widest = photo::renditions(&bytes, shot.crop).unwrap().pop().unwrap();
            (shot, Photo { extension: widest.extension, bytes: widest.bytes })
        });
        let photos = photos.collect();
        Opened { model, sources: texts.sources, words, theme, findings, photos }
    }

    pub(crate) fn case(&self) -> Case<'_> {
        Case { model: &self.model, sources: &self.sources, words: &self.words, today: TODAY }
    }

    /// Pages without photos and sheets.
    pub(crate) fn pages(&self) -> Pages<'_> {
        let made = pages::Prepared::default();
        Pages::new(&self.model, &self.sources, &self.words, &self.theme, made, TODAY, false).unwrap()
    }

    pub(crate) fn press(&self) -> Press<'_> {
        let program = blake3::hash(b"");
        Press::new(&self.model, &self.sources, &self.words, &self.theme, &self.photos, false, &program)
            .unwrap()
    }
}
