//! Printed sheets: blocks to tagged PDF (PDF/UA-1), by the embedded typesetter. Never the disk, never the
//! clock. What of the standard is met, and by what it is shown, stands in `PDF-UA.md`.
//!
//! ```text
//!  order ──handout──▶ what stands on the sheet, each piece with its line ──world──▶ typesetter and the
//!                                                                                 theme's sheet
//!                                      findings at the author's lines ◀──inspect── pages ──▶ PDF
//! ```

mod cues;
#[cfg(test)]
mod demonstration;
mod error;
mod finish;
mod handout;
mod inspect;
mod names;
mod photos;
mod pictures;
mod places;
pub mod preview;
mod prose;
mod sheet;
pub mod workers;
mod world;
mod writer;

use std::collections::HashMap;

use jiff::civil::Date;
use qrcode::QrCode;
use qrcode::render::svg;
use typst::foundations::{Bytes, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

pub use error::SheetError;
pub(crate) use names::{Names, look_at_texts};
pub use names::{Unsaid, unsaid};
pub use photos::{Photo, Photos};
pub(crate) use prose::words_of_html;

use crate::drawing::Album;
use crate::model::Model;
use crate::model::client::Client;
use crate::model::exercise::Exercise;
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::source::{Sources, Span};
use crate::model::vocabulary::{Extent, Paper};
use crate::model::week::{Week, WeekExercise};
use crate::model::words::Words;
use crate::outputs::blocks::evidence::{self, Formatted};
use crate::outputs::blocks::phrases::{Phrases, clinic, texts_language};
use crate::outputs::{Address, Shot};
use crate::reckon::choice::{Choice, Need, choose};
use crate::reckon::personal::{Chosen, Personal};
use crate::review::exceptions;
use crate::workspace::theme::{LOGO_FOLDER, Theme};
use pictures::{Pictures, Sketch};
use places::Places;
use sheet::Logo;
use world::{Desk, Job, file};

/// The sheet's own files on the desk: its words, and the code for phones.
const DATA: &str = "sheet.json";
const CODE: &str = "code.svg";

/// Everything that sheets of one language are printed from.
pub struct Press<'m> {
    model: &'m Model,
    sources: &'m Sources,
    words: &'m Words,
    draft: bool,
    photos: &'m Photos<'m>,
    references: Formatted,
    /// Figures as every sheet shows them.
    drawings: Album<Sketch>,
    /// The clinic's own mark.
    logo: Option<Logo>,
    desk: Desk,
    /// One number for the desk and the program.
    made_with: blake3::Hash,
}

/// What a sheet is to show.
#[derive(Clone, Debug)]
pub enum Subject<'m> {
    Week(&'m Series, &'m Week),
    Exercises(Vec<&'m Exercise>),
}

impl<'m> Subject<'m> {
    /// What the sheet of a page shows: a week or one exercise.
    pub fn of(page: &Address, model: &'m Model) -> Option<Subject<'m>> {
        match page {
            Address::Week { series, id } => {
                let series = model.series.get(series)?;
                Some(Subject::Week(series, series.weeks.get(id)?))
            }
            Address::Exercise(id) => Some(Subject::Exercises(vec![model.exercises.get(id)?])),
            _ => None,
        }
    }

    /// The week that it shows.
    pub(crate) fn week(&self) -> Option<&'m Week> {
        match self {
            Subject::Week(_, week) => Some(week),
            Subject::Exercises(_) => None,
        }
    }

    /// What everybody has who gets it: of the series; of every series, where it belongs to none.
    fn all_have(&self, model: &'m Model) -> Vec<&'m str> {
        match self {
            Subject::Week(series, _) => series.all_have_ids().collect(),
            Subject::Exercises(_) => model.all_have(),
        }
    }

    /// Where it was written; `None` for no exercise at all.
    pub(crate) fn place(&self) -> Option<Span> {
        match self {
            Subject::Week(_, week) => Some(week.place()),
            Subject::Exercises(list) => list.first().map(|e| e.place()),
        }
    }

    /// Its exercises, each as the week uses it.
    pub fn exercises(&self, model: &'m Model) -> Vec<(&'m Exercise, Option<&'m WeekExercise>)> {
        match self {
            Subject::Week(_, week) => model.exercises_of(week).map(|(used, e)| (e, Some(used))).collect(),
            Subject::Exercises(list) => list.iter().map(|&e| (e, None)).collect(),
        }
    }
}

/// Whom a sheet is for, the form of each exercise that was chosen for her, and her days.
#[derive(Clone, Debug)]
pub struct Person<'m> {
    /// Its places lead into the texts that the press was given.
    pub client: &'m Client,
    pub choices: Vec<Choice<'m>>,
    pub practice: Personal<'m>,
}

impl<'m> Person<'m> {
    /// The forms that stand on her sheet: those that her days have room for.
    pub fn shown(&self) -> impl Iterator<Item = &Chosen<'m>> {
        self.practice.chosen.iter().filter(|chosen| !chosen.days.is_empty())
    }

    /// Chooses for a person, on a day, from what a sheet is to show.
    pub fn of(client: &'m Client, subject: &Subject<'m>, model: &'m Model, today: Date) -> Person<'m> {
        let need = Need::of(client, &subject.all_have(model), today);
        let asked = subject.exercises(model);
        let choices: Vec<_> = asked.iter().map(|(e, used)| choose(e, *used, &need, model)).collect();
        let practice = Personal::of(client, &need, &asked, &choices, model);
        Person { client, choices, practice }
    }
}

/// A sheet to print.
#[derive(Clone, Debug)]
pub struct Order<'m> {
    pub subject: Subject<'m>,
    /// `None` for a sheet for everyone.
    pub person: Option<Person<'m>>,
    pub extent: Extent,
    /// Points.
    pub size: u32,
    pub paper: Paper,
    /// The day to print on it, for a sheet that is made on a day and not with the site.
    pub made: Option<Date>,
}

impl<'m> Order<'m> {
    /// A sheet for everyone, as it goes out with the site.
    pub fn of(subject: Subject<'m>, extent: Extent, size: u32, paper: Paper) -> Order<'m> {
        Order { subject, person: None, extent, size, paper, made: None }
    }

    /// On how many sides of paper a card stands at most: one, or two that face each other in larger letters, or two such
    /// pairs in the largest. A person's has all her cautions on it, and may have twice as many.
    fn sides(&self) -> usize {
        let sides = match self.size {
            ..24 => 1,
            24..32 => 2,
            _ => 4,
        };
        if self.person.is_some() { 2 * sides } else { sides }
    }
}

/// A sheet, written but not yet set.
pub struct Manuscript {
    main: &'static str,
    data: Vec<u8>,
    code: Option<String>,
    /// What the file calls itself, where that is not the title on the sheet.
    file_title: Option<String>,
    /// How many texts on it are in the language of the entries, and the sheet in another.
    untranslated: usize,
    pictures: Pictures,
    places: Places,
    /// What a person's sheet says and must not.
    absent: Vec<Finding>,
    whole: Span,
    /// On how many sides each card stands at most.
    sides: usize,
    about: String,
    /// The same for every sheet of the same subject, size and paper.
    ident: String,
}

impl Manuscript {
    /// What a person's sheet says of forms that are not on it; such a sheet is never printed.
    pub fn absent(&self) -> &[Finding] {
        &self.absent
    }

    /// How many texts on it stand in the language of the entries, where the sheet is in another. Not those of a profile,
    /// which are written for its person.
    pub fn untranslated(&self) -> usize {
        self.untranslated
    }

    /// What stands on it, as JSON. Only for looking at it from outside.
    #[doc(hidden)]
    pub fn said(&self) -> &[u8] {
        &self.data
    }
}

/// A printed sheet.
#[derive(Clone, Debug)]
pub struct Printed {
    pub pages: u32,
    pub pdf: Vec<u8>,
    /// What is not as it should be on it, and its entry accepts.
    pub accepted: Vec<Finding>,
}

/// Why there is no sheet.
#[derive(Debug)]
pub enum Unprinted {
    /// What stands in the way, at the author's lines.
    Findings(Vec<Finding>),
    /// The theme's sheet has a mistake.
    Theme(SheetError),
}

impl<'m> Press<'m> {
    /// Prepares the theme's sheet, fonts and words. `program` is a number for the running program.
    ///
    /// # Errors
    /// When a font or a file of the theme's sheet cannot be read.
    pub fn new(
        model: &'m Model,
        sources: &'m Sources,
        words: &'m Words,
        theme: &Theme,
        photos: &'m Photos<'m>,
        draft: bool,
        program: &blake3::Hash,
    ) -> Result<Press<'m>, SheetError> {
        let said = serde_json::to_vec(&words.plain()).map_err(|e| SheetError::new(e.to_string()))?;
        let mut made_with = Stamp::default();
        made_with.add("program", program.as_bytes());
        made_with.add("words", &said);
        for folder in ["sheet/", "shapes/", "fonts/", LOGO_FOLDER] {
            theme.below(folder).for_each(|(name, bytes)| made_with.add(name, bytes));
        }
        Ok(Press {
            model,
            sources,
            words,
            draft,
            photos,
            references: evidence::format(&model.references, words),
            drawings: Album::default(),
            logo: theme.logo().map(|file| Logo { file: file.to_string(), description: clinic(&model.site) }),
            desk: Desk::new(theme, said)?,
            made_with: made_with.hash(),
        })
    }

    /// A photo as it is printed, if it could be made.
    fn photo(&self, shot: &Shot) -> Option<&'m Photo> {
        self.photos.get(shot)
    }

    /// The language of the entries, where the sheets are in another.
    fn texts_language(&self) -> Option<&'m str> {
        texts_language(&self.model.site, self.words)
    }

    fn say(&self) -> Phrases<'m> {
        Phrases { words: self.words }
    }

    /// Writes what stands on a handout.
    ///
    /// # Errors
    /// When the address of the page is too long for a code that phones can read.
    pub fn handout(&self, order: &Order<'m>) -> Result<Manuscript, SheetError> {
        let written = handout::write(self, order);
        let code = match written.handout.online {
            Some(_) => order.address(self).map(|address| code(&address)).transpose()?,
            None => None,
        };
        let data = serde_json::to_vec(&written.handout).map_err(|e| SheetError::new(e.to_string()))?;
        let absent = order.person.as_ref().map(|person| {
            names::look(&written.handout, person, self.model, self.words, &written.places, order.place(self))
        });
        // Every program that opens the file shows its title: a list of open files, a window that somebody else can see.
        let title = written.handout.common.title.text.as_str();
        let file_title = order
            .person
            .is_some()
            .then(|| self.words.say_with("sheet-personal-title", &[("title", title.into())]));
        let manuscript = self.manuscript(
            "sheet/handout.typ",
            &written.handout.common.title.text,
            order,
            data,
            written.places,
        );
        Ok(Manuscript {
            code,
            file_title,
            pictures: written.pictures,
            absent: absent.unwrap_or_default(),
            ..manuscript
        })
    }

    /// Writes what stands on the cue sheet of a week: what its educator reads while recording.
    ///
    /// # Errors
    /// When the sheet's data cannot be written as JSON, which no text of an author leads to.
    pub fn cue_sheet(&self, order: &Order<'m>) -> Result<Manuscript, SheetError> {
        let cues::Written { sheet, places, pictures } = cues::write(self, order);
        let data = serde_json::to_vec(&sheet).map_err(|e| SheetError::new(e.to_string()))?;
        let manuscript = self.manuscript("sheet/cues.typ", &sheet.common.title.text, order, data, places);
        Ok(Manuscript { pictures, ..manuscript })
    }

    fn manuscript(
        &self,
        main: &'static str,
        title: &str,
        order: &Order<'m>,
        data: Vec<u8>,
        places: Places,
    ) -> Manuscript {
        let about = format!("`{title}` in {} point", order.size);
        let person = order.person.as_ref().map(|person| &person.client.name.value);
        Manuscript {
            main,
            data,
            code: None,
            file_title: None,
            untranslated: self.texts_language().map_or(0, |_| {
                places.texts(|span| order.person.as_ref().is_none_or(|p| p.client.file != span.file))
            }),
            pictures: Pictures::default(),
            places,
            absent: Vec::new(),
            whole: order.place(self),
            sides: order.sides(),
            ident: format!("{main} {about} {:?} {:?} {person:?}", order.extent, order.paper),
            about,
        }
    }

    /// One number for everything that a sheet is made from: its words and pictures, the theme, the program.
    pub fn key(&self, manuscript: &Manuscript) -> blake3::Hash {
        let mut stamp = Stamp::default();
        stamp.add("made with", self.made_with.as_bytes());
        stamp.add("main", manuscript.main.as_bytes());
        stamp.add("data", &manuscript.data);
        for (name, bytes) in manuscript.pictures.files(self.photos) {
            stamp.add(&name, &bytes);
        }
        stamp.hash()
    }

    /// Sets a sheet, looks whether it can go out as it is, and makes the PDF.
    ///
    /// # Errors
    /// What stands in the way, or a mistake in the theme's sheet.
    pub fn print(&self, manuscript: &Manuscript) -> Result<Printed, Unprinted> {
        // Before anything is set: no sheet goes out that names a form which is not on it.
        if !manuscript.absent.is_empty() {
            return Err(Unprinted::Findings(manuscript.absent.clone()));
        }
        let job = self.job(manuscript).ok_or_else(|| {
            Unprinted::Theme(SheetError::new("the typesetter takes none of our file names".to_string()))
        })?;
        let told = |diagnostics: &[_]| Unprinted::Theme(SheetError::of(&job, &manuscript.about, diagnostics));
        let set = typst::compile::<PagedDocument>(&job);
        let mut document = set.output.map_err(|errors| told(&errors))?;
        // An unknown font, for one, is only a warning.
        if !set.warnings.is_empty() {
            return Err(told(&set.warnings));
        }
        let findings =
            inspect::inspect(&document, &manuscript.places, self.sources, manuscript.whole, manuscript.sides);
        let (accepted, findings): (Vec<_>, Vec<_>) =
            findings.into_iter().partition(|finding| exceptions::accepts(self.model, finding));
        if !findings.is_empty() {
            return Err(Unprinted::Findings(findings));
        }
        if let Some(title) = &manuscript.file_title {
            document.info_mut().title = Some(title.into());
        }
        let options = self.options(manuscript).map_err(Unprinted::Theme)?;
        let pdf = typst_pdf::pdf(&document, &options).map_err(|errors| told(&errors))?;
        Ok(Printed { pages: document.pages().len() as u32, pdf: finish::finish(pdf), accepted })
    }

    /// What the typesetter sees of a sheet. Only for measuring it without us.
    #[doc(hidden)]
    pub fn world<'p>(&'p self, manuscript: &Manuscript) -> Option<impl typst::World + use<'p, 'm>> {
        self.job(manuscript)
    }

    /// How a sheet becomes a PDF. Public only for measuring it without us.
    ///
    /// # Errors
    /// When the typesetter knows no such standard.
    #[doc(hidden)]
    pub fn options(&self, manuscript: &Manuscript) -> Result<PdfOptions, SheetError> {
        Ok(PdfOptions {
            ident: Smart::Custom(manuscript.ident.clone()),
            creator: Smart::Custom(Some("steadyleaf".to_string())),
            timestamp: None,
            standards: PdfStandards::new(&[PdfStandard::Ua_1])
                .map_err(|e| SheetError::new(e.message().as_str()))?,
            ..PdfOptions::default()
        })
    }

    fn job(&self, manuscript: &Manuscript) -> Option<Job<'_>> {
        let pictures = manuscript.pictures.files(self.photos);
        let mut files: HashMap<_, _> =
            pictures.filter_map(|(name, bytes)| Some((file(&name)?, bytes))).collect();
        files.insert(file(DATA)?, Bytes::new(manuscript.data.clone()));
        if let Some(code) = &manuscript.code {
            files.insert(file(CODE)?, Bytes::from_string(code.clone()));
        }
        Some(Job { desk: &self.desk, main: file(manuscript.main)?, files })
    }
}

/// Adds what was found on a sheet to what was found on others: a word that is too wide at 18 point is so
/// at 24 as well, and needs no second finding.
pub fn add_findings(all: &mut Vec<Finding>, found: Vec<Finding>) {
    for finding in found {
        if all.iter().all(|known| (known.rule, known.span) != (finding.rule, finding.span)) {
            all.push(finding);
        }
    }
}

/// The square code for phones that leads to an address, with the quiet zone that it needs around it.
fn code(address: &str) -> Result<String, SheetError> {
    let code = QrCode::new(address.as_bytes())
        .map_err(|_| SheetError::new(format!("{address} is too long for a code that phones can read")))?;
    Ok(code.render::<svg::Color<'_>>().build())
}

/// A hash over named pieces, none of which can run into the next.
#[derive(Default)]
struct Stamp(blake3::Hasher);

impl Stamp {
    fn add(&mut self, name: &str, bytes: &[u8]) {
        for part in [name.as_bytes(), bytes] {
            self.0.update(&(part.len() as u64).to_le_bytes());
            self.0.update(part);
        }
    }

    fn hash(&self) -> blake3::Hash {
        self.0.finalize()
    }
}

#[cfg(test)]
mod tests {
    use crate::review::rule::Check;
    use crate::review::{rules, testing};

    #[test]
    fn rules_of_the_sheets_find_what_their_examples_draw() {
        let rules = rules::ALL.iter().filter(|r| matches!(r.check, Check::Sheets(_)));
        for rule in rules {
            testing::check_sheets(rule.name, &rule.bad);
            testing::check_sheets(rule.name, &rule.good);
        }
    }
}
