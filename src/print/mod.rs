//! Printed sheets: blocks to tagged PDF (PDF/UA-1), by the embedded typesetter. Never the disk, never the
//! clock. What of the standard is met, and by what it is shown, stands in `PDF-UA.md`.
//!
//! ```text
//!  order ──handout──▶ what stands on the sheet, each piece with its line ──world──▶ typesetter and the
//!                                                                                 theme's sheet
//!                                      findings at the author's lines ◀──inspect── pages ──▶ PDF
//! ```

mod error;
mod handout;
mod inspect;
mod log;
mod places;
mod prose;
mod sheet;
pub mod workers;
mod world;

use std::collections::{BTreeMap, HashMap};

use jiff::civil::Date;
use qrcode::QrCode;
use qrcode::render::svg;
use typst::foundations::{Bytes, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

pub use error::SheetError;

use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::source::{Sources, Span};
use crate::model::vocabulary::Paper;
use crate::model::week::Week;
use crate::model::words::Words;
use crate::outputs::blocks::evidence::{self, Formatted};
use crate::outputs::blocks::phrases::Phrases;
use crate::workspace::theme::Theme;
use places::Places;
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
    photos: &'m BTreeMap<String, Photo>,
    references: Formatted,
    desk: Desk,
    /// One number for the desk and the program.
    made_with: blake3::Hash,
}

/// A photo as it is printed.
#[derive(Clone, Debug)]
pub struct Photo {
    /// `jpg` or `png`.
    pub extension: &'static str,
    pub bytes: Vec<u8>,
}

/// What a sheet is to show.
#[derive(Clone, Debug)]
pub enum Subject<'m> {
    Week(&'m Series, &'m Week),
    Exercises(Vec<&'m Exercise>),
}

/// A sheet to print.
#[derive(Clone, Debug)]
pub struct Order<'m> {
    pub subject: Subject<'m>,
    /// Points.
    pub size: u32,
    pub paper: Paper,
    /// The day to print on it, for a sheet that is made on a day and not with the site.
    pub made: Option<Date>,
}

/// A sheet, written but not yet set.
pub struct Manuscript {
    main: &'static str,
    data: Vec<u8>,
    code: Option<String>,
    photos: Vec<String>,
    places: Places,
    whole: Span,
    about: String,
    /// The same for every sheet of the same subject, size and paper.
    ident: String,
}

/// A printed sheet.
#[derive(Clone, Debug)]
pub struct Printed {
    pub pages: u32,
    pub pdf: Vec<u8>,
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
        photos: &'m BTreeMap<String, Photo>,
        draft: bool,
        program: &blake3::Hash,
    ) -> Result<Press<'m>, SheetError> {
        let said = serde_json::to_vec(&words.plain()).map_err(|e| SheetError::new(e.to_string()))?;
        let mut made_with = Stamp::default();
        made_with.add("program", program.as_bytes());
        made_with.add("words", &said);
        for folder in ["sheet/", "shapes/", "fonts/"] {
            theme.below(folder).for_each(|(name, bytes)| made_with.add(name, bytes));
        }
        Ok(Press {
            model,
            sources,
            words,
            draft,
            photos,
            references: evidence::format(&model.references, words),
            desk: Desk::new(theme, said)?,
            made_with: made_with.hash(),
        })
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
        let code = order.address(self).map(|address| code(&address)).transpose()?;
        let title = &written.handout.common.title.text;
        let about = format!("`{title}` in {} point", order.size);
        let data = serde_json::to_vec(&written.handout).map_err(|e| SheetError::new(e.to_string()))?;
        Ok(Manuscript {
            main: "sheet/handout.typ",
            data,
            code,
            photos: written.photos,
            places: written.places,
            whole: order.place(self),
            ident: format!("{about} {:?}", order.paper),
            about,
        })
    }

    /// One number for everything that a sheet is made from: its words and pictures, the theme, the program.
    pub fn key(&self, manuscript: &Manuscript) -> blake3::Hash {
        let mut stamp = Stamp::default();
        stamp.add("made with", self.made_with.as_bytes());
        stamp.add("main", manuscript.main.as_bytes());
        stamp.add("data", &manuscript.data);
        for photo in manuscript.photos.iter().filter_map(|name| self.photos.get(name)) {
            stamp.add("photo", &photo.bytes);
        }
        stamp.hash()
    }

    /// Sets a sheet, looks whether it can go out as it is, and makes the PDF.
    ///
    /// # Errors
    /// What stands in the way, or a mistake in the theme's sheet.
    pub fn print(&self, manuscript: &Manuscript) -> Result<Printed, Unprinted> {
        let job = self.job(manuscript);
        let told = |diagnostics: &[_]| Unprinted::Theme(SheetError::of(&job, &manuscript.about, diagnostics));
        let set = typst::compile::<PagedDocument>(&job);
        let document = set.output.map_err(|errors| told(&errors))?;
        // An unknown font, for one, is only a warning.
        if !set.warnings.is_empty() {
            return Err(told(&set.warnings));
        }
        let findings = inspect::inspect(&document, &manuscript.places, self.sources, manuscript.whole);
        if !findings.is_empty() {
            return Err(Unprinted::Findings(findings));
        }
        let options = PdfOptions {
            ident: Smart::Custom(manuscript.ident.clone()),
            creator: Smart::Custom(Some("steadyleaf".to_string())),
            timestamp: None,
            standards: PdfStandards::new(&[PdfStandard::Ua_1])
                .map_err(|e| Unprinted::Theme(SheetError::new(e.message().as_str())))?,
            ..PdfOptions::default()
        };
        let pdf = typst_pdf::pdf(&document, &options).map_err(|errors| told(&errors))?;
        Ok(Printed { pages: document.pages().len() as u32, pdf })
    }

    fn job(&self, manuscript: &Manuscript) -> Job<'_> {
        let mut files = HashMap::new();
        files.insert(file(DATA), Bytes::new(manuscript.data.clone()));
        if let Some(code) = &manuscript.code {
            files.insert(file(CODE), Bytes::from_string(code.clone()));
        }
        for (number, name) in manuscript.photos.iter().enumerate() {
            if let Some(photo) = self.photos.get(name) {
                let name = format!("photo-{number}.{}", photo.extension);
                files.insert(file(&name), Bytes::new(photo.bytes.clone()));
            }
        }
        Job { desk: &self.desk, main: file(manuscript.main), files }
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
