//! HTML: model to bytes. Never the disk, never the clock.

pub mod inspect;
pub mod markdown;
pub mod photo;

mod days;
mod drawing;
mod evidence;
mod exercise;
mod figure;
mod figures;
mod findings;
mod frame;
mod home;
mod ladder;
mod letter;
mod library;
mod lists;
pub mod own;
mod plan;
mod practice;
mod prose;
mod raw_html;
mod safety;
mod saved;
pub(crate) mod scripts;
mod series;
mod structured;
mod theme;
mod transcript;
mod video;
mod week;
mod yours;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::drawing::{Album, Counted, Panels};
use crate::model::Model;
use crate::model::reads::{Read, note};
use crate::model::source::Sources;
use crate::model::vocabulary::Vocabulary;
use crate::model::words::Words;
use crate::outputs::address::Links;
use crate::outputs::blocks::evidence::Formatted;
use crate::outputs::blocks::phrases::Phrases;
use crate::outputs::{self, Address, Citing, Derived, List, Sheet, Shot, Uses};
use crate::reckon::answer::Answers;
use crate::reckon::ladder::Ladders;
use crate::workspace::theme::Theme;
pub use findings::{findings, photo_finding};
use frame::Frame;
pub use theme::{TemplateError, Templates};

/// What every page is rendered from.
pub struct Pages<'m> {
    pub(crate) model: &'m Model,
    pub(crate) sources: &'m Sources,
    pub(crate) words: &'m Words,
    today: Date,
    /// Every page says that it is a draft.
    pub(crate) draft: bool,
    made: Prepared,
    derived: Arc<Derived<'m>>,
    /// Which form people with a precaution get, for the proposals of all series.
    answers: Answers<'m>,
    /// Figures in the size of a column, which one page gives their movement.
    drawings: Album<Panels>,
    /// The same for lists.
    small: Album<Option<String>>,
    /// Pictures that are counted out.
    counted: Album<Option<Counted>>,
    templates: Arc<Templates>,
}

/// What was made before the pages, which show it or lead to it.
#[derive(Debug, Default)]
pub struct Prepared {
    pub photos: BTreeMap<Shot, Photo>,
    pub sheets: Sheets,
}

/// The printed sheets that pages lead to.
#[derive(Debug)]
pub enum Sheets {
    /// Those of each page with their numbers of pages, in the order in which it lists them.
    Printed(BTreeMap<Address, Vec<(Sheet, u32)>>),
    /// Those of a preview: each is printed when somebody asks for it, so nobody knows yet how many pages it has.
    WhenAsked,
}

impl Default for Sheets {
    fn default() -> Sheets {
        Sheets::Printed(BTreeMap::new())
    }
}

/// A photo as it was published.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Photo {
    /// From narrow to wide; never empty.
    pub widths: Vec<PhotoWidth>,
}

/// One width of a photo.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct PhotoWidth {
    /// Relative to the site's root.
    pub path: String,
    pub width: u32,
    pub height: u32,
}

/// A link as templates show it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Link {
    pub(crate) href: String,
    pub(crate) text: String,
}

/// A word of a closed set, by its id and as a reader reads it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct LabeledId {
    pub(crate) id: String,
    pub(crate) word: String,
}

impl<'m> Pages<'m> {
    /// Prepares the theme's templates and everything that pages share.
    ///
    /// # Errors
    /// When a template of the theme has a mistake.
    pub fn new(
        model: &'m Model,
        sources: &'m Sources,
        words: &'m Words,
        theme: &Theme,
        made: Prepared,
        today: Date,
        draft: bool,
    ) -> Result<Pages<'m>, TemplateError> {
        let templates = Arc::new(Templates::of(theme, words, &model.site)?);
        Ok(Pages::with(templates, Arc::new(Derived::of(model, words)), sources, made, today, draft))
    }

    /// The same, with templates and what is worked out of the model from where they are shared.
    pub fn with(
        templates: Arc<Templates>,
        derived: Arc<Derived<'m>>,
        sources: &'m Sources,
        made: Prepared,
        today: Date,
        draft: bool,
    ) -> Pages<'m> {
        let Derived { model, words, .. } = *derived;
        let answers = Answers::default();
        let (drawings, small, counted) = (Album::default(), Album::default(), Album::default());
        Pages {
            model,
            sources,
            words,
            today,
            draft,
            made,
            derived,
            answers,
            drawings,
            small,
            counted,
            templates,
        }
    }

    pub(crate) fn made(&self) -> &Prepared {
        &self.made
    }

    /// An educator looks at these pages, in a preview: they lead to those that are for her alone.
    fn are_for_educators(&self) -> bool {
        matches!(self.made.sheets, Sheets::WhenAsked)
    }

    pub(crate) fn derived(&self) -> &Arc<Derived<'m>> {
        &self.derived
    }

    /// Renders one page.
    ///
    /// # Errors
    /// When a template of the theme asks for something that is not there.
    pub fn render(&self, address: &Address) -> Result<String, TemplateError> {
        let (template, context) = self.context(address)?;
        self.templates.tera.render(template, &context).map_err(TemplateError::from)
    }

    /// The theme's templates. Public only for measuring them without us.
    #[doc(hidden)]
    pub fn templates(&self) -> &tera::Tera {
        &self.templates.tera
    }

    /// The template of a page, and what it is filled with. Public only for measuring the template without us.
    ///
    /// # Errors
    /// When there is no such page.
    #[doc(hidden)]
    pub fn context(&self, address: &Address) -> Result<(&'static str, tera::Context), TemplateError> {
        match address {
            Address::Home => self.fill("home.html", "home", &home::page(self, address)),
            Address::Series(id) => match self.model.series.get(id) {
                Some(series) => self.fill("series.html", "series", &series::page(self, address, series)),
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::Week { series, id } => match self.week(series, id) {
                Some((series, week)) => {
                    self.fill("week.html", "week", &week::page(self, address, series, week))
                }
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::Transcript { series, id } => {
                let found = self.week(series, id);
                match found.and_then(|(series, week)| transcript::page(self, address, series, week)) {
                    Some(page) => self.fill("transcript.html", "transcript", &page),
                    None => Err(TemplateError::no_such_page(address)),
                }
            }
            Address::Exercise(id) => match self.model.exercises.get(id) {
                Some(e) => self.fill("exercise.html", "exercise", &exercise::page(self, address, e)),
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::WeekPractice { series, id } => match self.week(series, id) {
                Some((series, week)) => {
                    self.fill("practice.html", "practice", &practice::of_week(self, address, series, week))
                }
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::ExercisePractice(id) => match self.model.exercises.get(id) {
                Some(e) => self.fill("practice.html", "practice", &practice::of_exercise(self, address, e)),
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::Library if List::is_split(self.model) => {
                self.fill(scripts::FIND, "find", &library::search::page(self, address))
            }
            Address::Library => self.fill("library.html", "library", &library::page(self, address)),
            Address::LibraryPage(page) => {
                self.fill("library.html", "library", &library::list_page(self, address, *page))
            }
            Address::Free(id) => match self.model.pages.get(id) {
                Some(page) => self.fill("free.html", "free", &prose::page(self, address, page)),
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::Evidence => self.fill("evidence.html", "evidence", &evidence::page(self, address)),
            Address::Safety => self.fill("safety.html", "safety", &safety::page(self, address)),
            Address::Saved => self.fill("saved.html", "saved", &saved::page(self, address)),
            Address::Yours => self.fill(scripts::YOURS, "yours", &yours::page(self, address)),
            Address::Days => self.fill(scripts::MY_DAYS, "days", &days::page(self, address)),
            Address::Plan => self.fill("plan.html", "plan", &plan::page(self, address)),
            Address::SeriesPlan(id) => match self.model.series.get(id) {
                Some(series) => self.fill("plan.html", "plan", &plan::of_one(self, address, series)),
                None => Err(TemplateError::no_such_page(address)),
            },
            Address::Figures => self.fill("figures.html", "figures", &figures::page(self, address)),
            Address::FiguresPage(page) => {
                self.fill("figures.html", "figures", &figures::list_page(self, address, *page))
            }
            Address::Drawing => self.fill("drawing.html", "drawing", &drawing::page(self, address)),
            Address::NotFound => self.fill("not-found.html", "not_found", &safety::not_found(self, address)),
        }
    }

    fn fill<T: Serialize>(
        &self,
        template: &'static str,
        name: &'static str,
        page: &Filled<T>,
    ) -> Result<(&'static str, tera::Context), TemplateError> {
        let mut context = tera::Context::new();
        context.insert("frame", &page.frame);
        context.insert(name, &page.body);
        if let Some(allowed) = self.templates.scripts.allowed_alone(template) {
            context.insert("script_src", allowed);
        }
        Ok((template, context))
    }

    fn week(
        &self,
        series: &str,
        id: &str,
    ) -> Option<(&'m crate::model::series::Series, &'m crate::model::week::Week)> {
        let series = self.model.series.get(series)?;
        Some((series, series.weeks.get(id)?))
    }

    /// The links to the sheets of a page, each with its size, paper and number of pages.
    pub(crate) fn handouts(&self, of: &Address) -> Vec<Link> {
        let links = self.links(of);
        self.handouts_from(&links, of)
    }

    /// The same links as they stand on another page.
    fn handouts_from(&self, links: &Links, of: &Address) -> Vec<Link> {
        let link = |sheet: &Sheet, pages: Option<u32>| {
            let what = ("what", self.words.say(&format!("handout-{}", sheet.extent.word())).into());
            let size = ("size", sheet.size.to_string().into());
            let paper = ("paper", self.words.say(&format!("paper-{}", sheet.paper.word())).into());
            let text = match pages {
                Some(pages) => {
                    self.words.say_with("handout-link", &[what, size, paper, ("pages", pages.into())])
                }
                None => self.words.say_with("handout-link-when-asked", &[what, size, paper]),
            };
            Link { href: links.file(&sheet.path()), text }
        };
        note(|| Read::Sheets(of.path()));
        match &self.made.sheets {
            Sheets::Printed(sheets) => {
                sheets.get(of).into_iter().flatten().map(|(sheet, pages)| link(sheet, Some(*pages))).collect()
            }
            Sheets::WhenAsked => {
                outputs::sheet::of(self.model, of).iter().map(|sheet| link(sheet, None)).collect()
            }
        }
    }

    /// The day that "this week" is reckoned from.
    pub(crate) fn today(&self) -> Date {
        note(|| Read::Today);
        self.today
    }

    // What only some pages need is made when the first of them asks.
    fn ladders(&self) -> &Ladders<'m> {
        self.derived.ladders()
    }

    fn uses(&self) -> &Uses<'m> {
        self.derived.uses()
    }

    fn citing(&self) -> &Citing<'m> {
        self.derived.citing()
    }

    fn references(&self) -> &Formatted {
        self.derived.references()
    }

    /// A photo as it is published, if it could be made.
    fn photo(&self, shot: &Shot) -> Option<&Photo> {
        note(|| Read::Photo { file: shot.file.clone(), crop: shot.crop });
        self.made.photos.get(shot)
    }

    pub(crate) fn say(&self) -> Phrases<'m> {
        Phrases { words: self.words }
    }

    pub(crate) fn links(&self, from: &Address) -> Links {
        Links::from(from, &self.model.site.address.value)
    }
}

/// A page's frame and what stands in it.
pub(crate) struct Filled<T> {
    frame: Frame,
    body: T,
}
