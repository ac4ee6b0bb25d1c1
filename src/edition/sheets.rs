//! Sheets that somebody asks for one by one: who gets one, what its file is called, which words and photos they share, and
//! each of them printed and put where it goes.

use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::{Asked, Edition, OpenError, Profile, Progress, Stage, Unshown, read_words};
use crate::model::finding::Finding;
use crate::model::vocabulary::Vocabulary;
use crate::model::words::Words;
use crate::outputs::Shot;
use crate::outputs::sheet::ending;
use crate::pages::{self, Pages, TemplateError, own};
use crate::print::{self, Order, Press, Printed, SheetError, Subject, Unprinted};
use crate::publish::{self, PublishError};
use crate::workspace::theme::Theme;

/// A sheet that somebody asks for.
pub struct AskedSheet<'m> {
    pub order: Order<'m>,
    /// The name of its file.
    name: String,
    pub language: &'m str,
    kind: Kind,
    page: Option<AskedPage>,
}

/// The page that goes with a person's sheet.
struct AskedPage {
    /// The name of its file.
    name: String,
    /// It says her name.
    named: bool,
    /// What her days are kept under on a device.
    days: String,
}

/// What somebody asks of the pages of people.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AskedPages {
    None,
    /// One for each, without her name in it.
    Nameless,
    /// One for each, which says whom it is for.
    Named,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Handout,
    CueSheet,
}

/// Two profiles have this name without its ending, and the sheet of one would overwrite that of the other.
#[derive(Debug, PartialEq, Eq)]
pub struct SameName(pub String);

/// How the files of people's sheets are called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NamedBy {
    /// By the names of their profiles.
    Profile,
    /// By a number for each person, for a shared printer or a mail.
    Number,
}

impl Edition {
    /// A handout for everyone.
    pub fn handout<'m>(&'m self, subject: &Subject<'m>, asked: Asked, today: Date) -> AskedSheet<'m> {
        let order = self.order(subject, None, asked, today);
        let name = format!("{}.pdf", handout_name(&order));
        AskedSheet { order, name, language: self.language_for(None), kind: Kind::Handout, page: None }
    }

    /// A handout for each of these people, but for those who are not to exercise for now.
    ///
    /// # Errors
    /// When two of them would be one file.
    pub fn handouts_for<'m>(
        &'m self,
        subject: &Subject<'m>,
        people: &'m [Profile],
        asked: Asked,
        named_by: NamedBy,
        pages: AskedPages,
        today: Date,
    ) -> Result<Vec<AskedSheet<'m>>, SameName> {
        let mut sheets: Vec<AskedSheet<'m>> = Vec::new();
        for profile in people.iter().filter(|p| p.client.hold.is_none()) {
            let Profile { stem, client } = profile;
            let order = self.order(subject, Some(client), asked, today);
            let (of, ending) = (subject_name(subject), ending(order.extent, order.size, order.paper));
            let whose = match named_by {
                NamedBy::Profile => format!("{stem}-{of}"),
                NamedBy::Number => format!("{of}-person-{}", profile.number()),
            };
            let name = format!("{whose}-{ending}.pdf");
            let page = (pages != AskedPages::None).then(|| AskedPage {
                name: format!("{whose}.html"),
                named: pages == AskedPages::Named,
                days: profile.days(&self.model.site.address.value),
            });
            if sheets.iter().any(|other| other.name == name) {
                return Err(SameName(stem.clone()));
            }
            let language = self.language_for(Some(client));
            sheets.push(AskedSheet { order, name, language, kind: Kind::Handout, page });
        }
        Ok(sheets)
    }

    /// The sheet to read while recording.
    pub fn cue_sheet<'m>(&'m self, subject: &Subject<'m>, asked: Asked, today: Date) -> AskedSheet<'m> {
        let order = self.cue_order(subject, asked, today);
        let name = format!("{}-cue-sheet-{}.pdf", subject_name(subject), order.paper.word());
        AskedSheet { order, name, language: self.language_for(None), kind: Kind::CueSheet, page: None }
    }

    /// Where sheets of people go, if nobody says another place: beside their profiles, which stay private.
    pub fn folder_of_people(&self) -> PathBuf {
        self.root.join("clients").join("sheets")
    }

    /// What these sheets are printed from beside the edition.
    ///
    /// # Errors
    /// When a photo on one of them, or the words of a language, cannot be had.
    pub fn supplies_for<'m>(&'m self, sheets: &[AskedSheet<'m>]) -> Result<Supplies<'m>, Unready> {
        let (photos, inside) =
            self.photos_on(sheets.iter().map(|sheet| &sheet.order)).map_err(Unready::Photo)?;
        let mut words = BTreeMap::new();
        for sheet in sheets {
            if !words.contains_key(sheet.language) {
                let read = read_words(&self.theme, sheet.language).map_err(Unready::Words)?;
                words.insert(sheet.language, read);
            }
        }
        Ok(Supplies { words, photos, inside })
    }

    /// A press for each language of these sheets, and what their pages share.
    ///
    /// # Errors
    /// When a font or a file of the theme's sheet cannot be read, or a template of its pages.
    pub fn presses<'m>(
        &'m self,
        sheets: &[AskedSheet<'m>],
        supplies: &'m Supplies<'m>,
        today: Date,
    ) -> Result<Presses<'m>, Unready> {
        // These sheets are not kept, so that no number for the program is needed.
        let program = blake3::hash(b"");
        let press = |(&language, words): (&&'m str, &'m Words)| {
            let (sources, photos) = (&self.sources, &supplies.photos);
            let press = Press::new(&self.model, sources, words, &self.theme, photos, false, &program);
            press.map(|press| (language, press)).map_err(Unready::Theme)
        };
        let presses = supplies.words.iter().map(press).collect::<Result<_, _>>()?;
        let mut pages = BTreeMap::new();
        for sheet in sheets.iter().filter(|sheet| sheet.page.is_some()) {
            let Some(words) = supplies.words.get(sheet.language) else { continue };
            if !pages.contains_key(sheet.language) {
                let made = pages::Prepared { photos: supplies.inside.clone(), ..Default::default() };
                let (model, sources, theme) = (&self.model, &self.sources, &self.theme);
                let of_language = Pages::new(model, sources, words, theme, made, today, false);
                pages.insert(sheet.language, of_language.map_err(Unready::Template)?);
            }
        }
        Ok(Presses { presses, pages, theme: &self.theme })
    }
}

/// `lantern-hill-week-07-18-point-a4`.
fn handout_name(order: &Order<'_>) -> String {
    format!("{}-{}", subject_name(&order.subject), ending(order.extent, order.size, order.paper))
}

/// What sheets of a subject are called in the names of their files.
fn subject_name(subject: &Subject<'_>) -> String {
    match subject {
        Subject::Week(series, week) => format!("{}-{}", series.id, week.id),
        Subject::Exercises(list) => match list.as_slice() {
            [one] => one.id.clone(),
            _ => "exercises".to_string(),
        },
    }
}

/// The words of every language that sheets are in, and the photos on them.
pub struct Supplies<'m> {
    words: BTreeMap<&'m str, Words>,
    photos: print::Photos<'static>,
    /// The same as they stand inside a page.
    inside: BTreeMap<Shot, pages::Photo>,
}

/// Why sheets cannot be printed at all.
#[derive(Debug)]
pub enum Unready {
    Photo(Unshown),
    Words(OpenError),
    Theme(SheetError),
    Template(TemplateError),
}

impl fmt::Display for Unready {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unready::Photo(error) => error.fmt(f),
            Unready::Words(error) => error.fmt(f),
            Unready::Theme(error) => error.fmt(f),
            Unready::Template(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for Unready {}

/// The presses of all languages that sheets are in, and what pages of people in them share.
pub struct Presses<'m> {
    presses: BTreeMap<&'m str, Press<'m>>,
    pages: BTreeMap<&'m str, Pages<'m>>,
    theme: &'m Theme,
}

/// A sheet that was printed.
pub struct Placed {
    pub path: PathBuf,
    pub pages: u32,
    /// How many texts on it are in the language of the entries, and it in another.
    pub untranslated: usize,
    /// What is not as it should be on it, and its entry accepts.
    pub accepted: Vec<Finding>,
    /// Her page beside it, where one was asked for.
    pub page: Option<PlacedPage>,
}

/// A person's page that was written.
pub struct PlacedPage {
    pub path: PathBuf,
    pub bytes: usize,
}

/// Why a sheet was not.
pub enum Unplaced {
    /// What stands in the way, at the author's lines.
    Findings(Vec<Finding>),
    Theme(SheetError),
    Template(TemplateError),
    Unwritten(PublishError),
}

impl From<own::Unwritten> for Unplaced {
    fn from(error: own::Unwritten) -> Unplaced {
        match error {
            own::Unwritten::Findings(found) => Unplaced::Findings(found),
            own::Unwritten::Template(error) => Unplaced::Template(error),
        }
    }
}

impl From<Unprinted> for Unplaced {
    fn from(error: Unprinted) -> Unplaced {
        match error {
            Unprinted::Findings(found) => Unplaced::Findings(found),
            Unprinted::Theme(error) => Unplaced::Theme(error),
        }
    }
}

impl<'m> Presses<'m> {
    /// Prints sheets into a folder, on all cores, each as it came out. A person's can be read by their owner alone.
    pub fn print_into(
        &self,
        folder: &Path,
        sheets: &[AskedSheet<'m>],
        progress: &dyn Progress,
    ) -> Vec<Result<Placed, Unplaced>> {
        progress.begin(Stage::Sheets, sheets.len());
        let placed = print::workers::each(sheets, rayon::current_num_threads(), |sheet| {
            let placed = self.print(folder, sheet);
            progress.step();
            placed
        });
        progress.end();
        placed
    }

    /// A page goes out with its sheet and never without it: whatever stands in the way of one stops both.
    fn print(&self, folder: &Path, sheet: &AskedSheet<'m>) -> Result<Placed, Unplaced> {
        let press = &self.presses[sheet.language];
        let manuscript = match sheet.kind {
            Kind::Handout => press.handout(&sheet.order),
            Kind::CueSheet => press.cue_sheet(&sheet.order),
        };
        let manuscript = manuscript.map_err(Unplaced::Theme)?;
        let printed = press.print(&manuscript)?;
        let page =
            sheet.page.as_ref().map(|page| Ok::<_, Unplaced>((page, self.page(sheet, page)?))).transpose()?;
        let put = if sheet.order.person.is_some() { publish::write_private } else { publish::write_open };
        let path = put(folder, &sheet.name, &printed.pdf).map_err(Unplaced::Unwritten)?;
        let page = page.map(|(page, html)| {
            let path = publish::write_private(folder, &page.name, html.as_bytes());
            path.map(|path| PlacedPage { path, bytes: html.len() })
        });
        let page = page.transpose().map_err(Unplaced::Unwritten)?;
        let Printed { pages, accepted, .. } = printed;
        Ok(Placed { path, pages, untranslated: manuscript.untranslated(), accepted, page })
    }

    fn page(&self, sheet: &AskedSheet<'m>, page: &AskedPage) -> Result<String, Unplaced> {
        let asked = own::Asked { named: page.named, days: &page.days };
        let html = self.pages[sheet.language].own(&sheet.order, self.theme, asked)?;
        Ok(html.unwrap_or_default())
    }
}
