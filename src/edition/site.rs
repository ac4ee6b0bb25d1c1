//! The site of an edition on a day: what its pages, sheets and feeds share, made once, and each file of it when it is
//! asked for. `make` publishes these files and a preview serves them, so both are the same bytes.

use std::borrow::Cow;
use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

use jiff::civil::Date;

use super::Edition;
use super::inputs::Versions;
use crate::feeds::{self, Feeds, offline, webvtt};
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Output;
use crate::outputs::address::published_name;
use crate::outputs::blocks::phrases::Phrases;
use crate::outputs::blocks::{chapters, digest};
use crate::outputs::feed::Paste;
use crate::outputs::offline::MANIFEST;
use crate::outputs::video::{captions_path, chapters_path};
use crate::pages::{self, Pages, TemplateError};
use crate::print::{self, Manuscript, Order, Press, Printed, SheetError, Subject, Unprinted};
use crate::workspace;

/// One file of the site.
pub struct OutputFile<'a> {
    /// Relative to the site's root.
    pub path: String,
    pub body: Body<'a>,
}

/// What a file of the site holds.
pub enum Body<'a> {
    /// A page, which is looked at once more when it is finished.
    Page(String),
    Bytes(Cow<'a, [u8]>),
    /// The same as this file below `content/`.
    Attachment(PathBuf),
}

/// A sheet or an image as it was set.
pub struct SetOutput {
    pub pages: u32,
    pub bytes: Vec<u8>,
    /// What is not as it should be on it, and its entry accepts.
    pub accepted: Vec<Finding>,
}

/// Why a file could not be made.
#[derive(Debug)]
pub enum Unmade {
    Template(TemplateError),
    Sheet(SheetError),
    /// What stands in the way of a sheet, at the author's lines.
    Findings(Vec<Finding>),
}

impl From<TemplateError> for Unmade {
    fn from(error: TemplateError) -> Unmade {
        Unmade::Template(error)
    }
}

impl From<SheetError> for Unmade {
    fn from(error: SheetError) -> Unmade {
        Unmade::Sheet(error)
    }
}

impl From<Unprinted> for Unmade {
    fn from(error: Unprinted) -> Unmade {
        match error {
            Unprinted::Findings(found) => Unmade::Findings(found),
            Unprinted::Theme(error) => Unmade::Sheet(error),
        }
    }
}

/// On which day the site is made, and how.
#[derive(Clone, Copy, Debug)]
pub struct SiteFacts {
    /// The day that "this week" is reckoned from.
    pub today: Date,
    /// Every page and sheet says that it is a draft.
    pub draft: bool,
    /// A number for the running program.
    pub program: blake3::Hash,
}

/// The site of an edition.
pub struct Site<'e> {
    pub(super) edition: &'e Edition,
    pub(super) facts: SiteFacts,
    pages: Pages<'e>,
    feeds: Feeds<'e>,
    pub(super) versions: OnceLock<Versions<'e>>,
}

impl Edition {
    /// What all sheets share. `photos` are those that stand on them.
    ///
    /// # Errors
    /// When a font or a file of the theme's sheet cannot be read.
    pub fn press<'e>(
        &'e self,
        facts: &SiteFacts,
        photos: &'e print::Photos<'e>,
    ) -> Result<Press<'e>, SheetError> {
        Press::new(&self.model, &self.sources, &self.words, &self.theme, photos, facts.draft, &facts.program)
    }

    /// What all pages and feeds share. `made` is what was made before them, which they show or lead to.
    ///
    /// # Errors
    /// When a template of the theme has a mistake.
    pub fn site(&self, facts: &SiteFacts, made: pages::Prepared) -> Result<Site<'_>, TemplateError> {
        let (model, words) = (&self.model, &self.words);
        let derived = Arc::new(self.derived());
        let pages = Pages::with(self.templates()?, derived, &self.sources, made, facts.today, facts.draft);
        let feeds = Feeds { model, words, day: facts.today };
        Ok(Site { edition: self, facts: *facts, pages, feeds, versions: OnceLock::new() })
    }

    pub(super) fn week(&self, series: &str, id: &str) -> Option<(&Series, &Week)> {
        let series = self.model.series.get(series)?;
        Some((series, series.weeks.get(id)?))
    }

    /// What a sheet or the image of a week says, before it is set; `None` for other outputs and where its entry is not
    /// there.
    ///
    /// # Errors
    /// When the sheet could not be used once set: its address is too long for a code.
    pub fn manuscript<'e>(
        &'e self,
        press: &Press<'e>,
        output: &Output,
    ) -> Result<Option<Manuscript>, SheetError> {
        match output {
            Output::Sheet(sheet) => {
                let Some(subject) = Subject::of(&sheet.of, &self.model) else { return Ok(None) };
                press.handout(&Order::of(subject, sheet.extent, sheet.size, sheet.paper)).map(Some)
            }
            Output::Preview { series, week } => {
                self.week(series, week).map(|(_, week)| press.preview(week)).transpose()
            }
            _ => Ok(None),
        }
    }

    /// Sets a manuscript: a sheet as PDF, the image of a week as PNG.
    ///
    /// # Errors
    /// What stands in the way of it.
    pub fn set(press: &Press<'_>, output: &Output, manuscript: &Manuscript) -> Result<SetOutput, Unmade> {
        match output {
            Output::Preview { .. } => {
                Ok(SetOutput { pages: 1, bytes: press.draw(manuscript)?, accepted: Vec::new() })
            }
            _ => {
                let Printed { pages, pdf, accepted } = press.print(manuscript)?;
                Ok(SetOutput { pages, bytes: pdf, accepted })
            }
        }
    }
}

impl<'e> Site<'e> {
    /// The pages alone.
    pub fn pages(&self) -> &Pages<'e> {
        &self.pages
    }

    /// Makes the file of an output; `None` for what is set or drawn (photos, sheets and the images of weeks), for the
    /// program that keeps the site on a device, which names all other files, and where its entry is not there.
    ///
    /// # Errors
    /// When a template of the theme has a mistake.
    pub fn make(&self, output: &Output) -> Result<Option<OutputFile<'e>>, TemplateError> {
        let edition = self.edition;
        let made = |path: String, body| Ok(Some(OutputFile { path, body }));
        match output {
            Output::Page(address) => made(address.path(), Body::Page(self.pages.render(address)?)),
            Output::Asset(name) => match edition.theme.files.get(name) {
                Some(bytes) => made(name.clone(), Body::Bytes(Cow::Borrowed(bytes))),
                None => Ok(None),
            },
            Output::Media(name) => {
                let file = workspace::attachment_path(&edition.root, name);
                made(published_name(name), Body::Attachment(file))
            }
            Output::Captions(name) => match edition.model.captions.get(name) {
                Some(captions) => made(captions_path(name), written(webvtt::captions(captions))),
                None => Ok(None),
            },
            Output::Chapters { series, week } => {
                let Some((_, found)) = edition.week(series, week) else { return Ok(None) };
                let chapters = chapters::of_week(&edition.model, &edition.words, found);
                made(chapters_path(series, week), written(webvtt::chapters(&chapters)))
            }
            Output::Feed(feed) => match self.feeds.write(feed) {
                Some(text) => made(feed.path(), written(text)),
                None => Ok(None),
            },
            Output::Words { series, week, kind } => {
                let Some((series, week)) = edition.week(series, week) else { return Ok(None) };
                made(kind.path(&series.id, &week.id), written(self.words(series, week, *kind)?))
            }
            Output::Manifest => made(MANIFEST.to_string(), written(offline::manifest(&edition.model))),
            // It names all other files and is made when they are.
            Output::Worker => Ok(None),
            Output::Photo(_) | Output::Sheet(_) | Output::Preview { .. } => Ok(None),
        }
    }

    /// Words about a week to paste elsewhere.
    fn words(&self, series: &Series, week: &Week, kind: Paste) -> Result<String, TemplateError> {
        let Edition { model, words, .. } = self.edition;
        let draft = self.pages.draft;
        let digest = || digest::of_week(model, series, week, Phrases { words });
        Ok(match kind {
            Paste::Description => feeds::words::description(&digest(), words, draft),
            Paste::Letter => feeds::words::letter(&digest(), &model.site, words, draft),
            Paste::LetterPage => self.pages.letter(series, week)?,
        })
    }
}

fn written<'a>(text: String) -> Body<'a> {
    Body::Bytes(Cow::Owned(text.into_bytes()))
}
