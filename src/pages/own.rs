//! A person's page: what her sheet says, in one file that stands alone, with what counts her exercises out and what keeps
//! her days. Which form is hers, and what is said of it, was decided before; here it only becomes HTML.

mod alone;
mod style;

#[cfg(test)]
mod tests;

use serde::Serialize;
use serde_json::{Value, json};

use super::days::{PaperRow, data_of_person, paper_row};
use super::figure::{self, FigureView};
use super::photo::Rendition;
use super::practice::{FormView, data, form_data, form_view};
use super::prose::{ProseContext, html};
use super::{Pages, Photo, PhotoWidth, TemplateError};
use crate::model::finding::Finding;
use crate::model::prose::Prose;
use crate::model::source::Span;
use crate::outputs::Address;
use crate::outputs::blocks::dose::DoseBlock;
use crate::outputs::blocks::exercise::{ExerciseBlock, block};
use crate::outputs::blocks::grid::GridBlock;
use crate::outputs::blocks::needs::needs;
use crate::outputs::blocks::person::PersonBlock;
use crate::outputs::blocks::phrases::{runs_from_right, texts_language};
use crate::outputs::blocks::practice::of_person;
use crate::outputs::blocks::session::{CountedForm, SessionBlock};
use crate::outputs::blocks::turn::TurnBlock;
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::blocks::week::number_line;
use crate::print::{Names, Order, Person, look_at_texts};
use crate::workspace::theme::Theme;
use style::Style;

/// As many bytes as a page should have at most: a mail takes it along, and an old telephone opens it.
pub const MOST_BYTES: usize = 400_000;

const TEMPLATE: &str = "own.html";

/// The theme's scripts on it. Its policy names these alone.
const SCRIPTS: [&str; 13] = [
    "size",
    "read",
    "days",
    "daysfile",
    "daysweek",
    "dayschart",
    "mydays",
    "dayscopy",
    "practice_steps",
    "practice_voice",
    "practice_figure",
    "practice_log",
    "practice",
];

/// A photo as it stands inside a page: in its own address.
pub fn photo(rendition: &Rendition) -> Photo {
    let kind = if rendition.extension == "png" { "image/png" } else { "image/jpeg" };
    let path = alone::address_of(kind, &rendition.bytes);
    Photo { widths: vec![PhotoWidth { path, width: rendition.width, height: rendition.height }] }
}

/// What is asked of a page.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// It says her name.
    pub named: bool,
    /// What her days are kept under on a device: the same on every page of hers, and on nobody else's.
    pub days: &'a str,
}

/// Why there is no page.
#[derive(Debug)]
pub enum Unwritten {
    /// What stands in the way, at the author's lines.
    Findings(Vec<Finding>),
    /// The theme has a mistake.
    Template(TemplateError),
}

impl From<TemplateError> for Unwritten {
    fn from(error: TemplateError) -> Unwritten {
        Unwritten::Template(error)
    }
}

/// What is around her exercises, and what the page needs.
#[derive(Serialize)]
struct Own<'m> {
    language: String,
    /// That of the entries, where it is another.
    texts_language: Option<&'m str>,
    from_right: bool,
    style: String,
    style_src: String,
    script_src: String,
    /// What her days are kept under.
    days: String,
    /// The clinic's own mark, in its own address.
    logo: Option<String>,
    /// Each exercise that is left out for her, and why: the one place that names what she does not do.
    left_out: Vec<String>,
    practice_data: String,
    days_data: String,
}

/// What she reads. No word of it names a form that is not hers.
#[derive(Serialize)]
struct Told<'m> {
    title: String,
    head_title: String,
    number_line: Option<String>,
    /// "For J. K.", where that is asked for.
    line: Option<String>,
    days: Option<String>,
    note: Option<&'m str>,
    /// "About 10 to 25 minutes a day, 6 days a week."
    time: Option<String>,
    needs: Vec<String>,
    forms: Vec<HersView<'m>>,
    grid: GridBlock<'m>,
    rows: Vec<PaperRow<'m>>,
    welcome: String,
    question: Option<&'m str>,
    prepared: String,
    made: Option<String>,
}

/// A form of hers: what is counted of it, and what else her sheet says.
#[derive(Serialize)]
struct HersView<'m> {
    #[serde(flatten)]
    form: FormView<'m>,
    turn: TurnBlock<'m>,
    own: OwnView<'m>,
}

#[derive(Serialize)]
struct OwnView<'m> {
    number_line: Option<String>,
    /// "Your own way to do exercise 2 of this week".
    form_line: Option<String>,
    also_called: Option<String>,
    reviewed: String,
    cautions_title: String,
    /// The one change to the steps.
    change: Option<&'m str>,
    dose: DoseBlock,
    /// "Monday and Thursday".
    days: Option<String>,
    /// "Not planned for today. Your days: Monday and Thursday."
    not_today: Option<String>,
    /// The other pictures.
    figures: Vec<FigureView>,
}

impl<'m> Pages<'m> {
    /// The page of the person of an order; `None` for a sheet that is nobody's.
    ///
    /// # Errors
    /// A text that names what is not hers, or a template of the theme that has a mistake or leads out of the page.
    pub fn own(
        &self,
        order: &Order<'m>,
        theme: &Theme,
        asked: Asked<'_>,
    ) -> Result<Option<String>, Unwritten> {
        let Some(person) = &order.person else { return Ok(None) };
        let say = self.say();
        let chosen = || UsedExercise::of_person(person.shown(), order.subject.week(), self.model);
        let used: Vec<UsedExercise<'_, 'm>> = chosen();
        let counted = SessionBlock::of_person(&used, self.model, say);
        let practice_data = self.practice_data(order, &used, &counted);
        let made = order.made.unwrap_or(self.today);
        let days_data = data_of_person(self, &order.subject, &used, made);
        let block = PersonBlock::of(person.client, &person.choices, &person.practice, &self.model.site, say);
        let mut own = Own {
            language: self.words.language.clone(),
            texts_language: texts_language(&self.model.site, self.words),
            from_right: runs_from_right(&self.words.language),
            style: String::new(),
            style_src: String::new(),
            script_src: self.templates.scripts.allowing(&SCRIPTS),
            days: asked.days.to_string(),
            logo: alone::logo(theme),
            left_out: block.left_out.iter().map(|line| line.value.clone()).collect(),
            practice_data,
            days_data,
        };
        let told = self.told(order, person, &block, &used, counted, asked.named);
        self.look(&told, person, order)?;
        let style = Style::of(theme);
        own.wear(style.without_letters());
        let plain = self.fill_own(&own, &told)?;
        // The theme's letters come along where there is room for them; a device has letters of its own.
        own.wear(style.for_text(&plain));
        let lettered = self.fill_own(&own, &told)?;
        let page = if lettered.len() < MOST_BYTES { lettered } else { plain };
        match alone::leads_out(&page) {
            None => Ok(Some(page)),
            Some(what) => Err(TemplateError::leads_out(TEMPLATE, &what).into()),
        }
    }

    fn fill_own(&self, own: &Own<'m>, told: &Told<'m>) -> Result<String, TemplateError> {
        let mut context = tera::Context::new();
        context.insert("own", own);
        context.insert("told", told);
        self.templates.tera.render(TEMPLATE, &context).map_err(TemplateError::from)
    }

    fn told(
        &self,
        order: &Order<'m>,
        person: &Person<'m>,
        block: &PersonBlock<'m>,
        used: &[UsedExercise<'_, 'm>],
        counted: Vec<CountedForm<'m>>,
        named: bool,
    ) -> Told<'m> {
        let (say, words) = (self.say(), self.words);
        let week = order.subject.week();
        let title = match week {
            Some(week) => week.title.value.clone(),
            None => words.say("sheet-exercises-title"),
        };
        let most = person.client.minutes.as_ref().map(|minutes| minutes.value);
        let practice = of_person(&person.practice, most, say);
        let spread = practice.as_ref().and_then(|practice| practice.spread.as_ref());
        let grid = GridBlock::of(used, spread, say);
        let forms = used.iter().zip(counted).enumerate();
        let educator = &self.model.site.educator;
        let name = match &educator.credentials {
            Some(letters) => format!("{}, {letters}", educator.name),
            None => educator.name.clone(),
        };
        Told {
            head_title: words.say_with("sheet-personal-title", &[("title", title.as_str().into())]),
            title,
            number_line: week.map(|week| number_line(week, say)),
            line: named.then(|| block.line.value.clone()),
            days: block.days.clone(),
            note: block.note.map(|note| note.value.as_str()),
            time: practice.as_ref().map(|practice| practice.time.clone()),
            needs: needs(used.iter().map(UsedExercise::form), say)
                .iter()
                .map(|need| say.capital(&need.value))
                .collect(),
            forms: forms.map(|(at, (used, form))| self.hers(at, used, form)).collect(),
            rows: grid.rows.iter().map(paper_row).collect(),
            grid,
            welcome: week.map(|week| self.welcome(&week.prose, person)).unwrap_or_default(),
            question: week.and_then(|week| week.question.as_ref()).map(|question| question.value.as_str()),
            prepared: words.say_with("sheet-prepared", &[("name", name.into())]),
            made: order.made.map(|day| words.say_with("sheet-made", &[("date", say.day(day).into())])),
        }
    }

    /// Nothing in the page is called by the id of its exercise, which may name what she does not do.
    fn hers(&self, at: usize, used: &UsedExercise<'_, 'm>, form: CountedForm<'m>) -> HersView<'m> {
        let (say, links) = (self.say(), self.links(&Address::Home));
        let id = format!("own.{}", at + 1);
        let b: ExerciseBlock<'m> = block(used, self.model, say);
        let turn = TurnBlock::of(used, say);
        let title = b.title.value.as_str();
        let mut figures = b.figures.iter().enumerate().filter_map(|(at, shown)| {
            figure::read_and_counted(self, &links, shown, &format!("{id}.figure.{}", at + 1), title)
        });
        let first = figures.next();
        let figures: Vec<FigureView> = figures.collect();
        let mut form = form_view(self, &Address::Home, &id, form);
        form.figure = first;
        form.sections.iter_mut().for_each(|section| section.html = alone::without_links(&section.html));
        let not_today = turn
            .days
            .as_ref()
            .map(|days| self.words.say_with("own-not-today", &[("days", days.as_str().into())]));
        HersView {
            own: OwnView {
                number_line: b.number_line,
                form_line: b.form_line,
                also_called: b.also_called.map(|names| names.value),
                reviewed: b.reviewed,
                cautions_title: b.cautions_title,
                change: b.change.map(|change| change.value.as_str()),
                dose: b.dose,
                days: turn.days.clone(),
                not_today,
                figures,
            },
            turn,
            form,
        }
    }

    /// The welcome of the week, unless it names what she does not do.
    fn welcome(&self, prose: &Prose, person: &Person<'m>) -> String {
        if Names::of(person, self.model, self.words).absent_in_prose(prose.blocks()).is_some() {
            return String::new();
        }
        let label = self.words.say("start-welcome");
        let entry =
            ProseContext { address: &Address::Home, deeper: 2, label, prefix: "own.welcome.".to_string() };
        alone::without_links(&html(self, &entry, prose.blocks()))
    }

    /// What counts her exercises out: one form of each, with her days as numbers of the week, Monday 1.
    fn practice_data(
        &self,
        order: &Order<'m>,
        used: &[UsedExercise<'_, 'm>],
        counted: &[CountedForm<'m>],
    ) -> String {
        let one = |(used, form): (&UsedExercise<'_, 'm>, &CountedForm<'m>)| {
            let mut data = form_data(form);
            if let Some(fields) = data.as_object_mut() {
                // The title of the exercise as it stands, which is not hers.
                fields.remove("name");
            }
            let days: Vec<i8> =
                used.chosen.iter().flat_map(|chosen| chosen.days.iter()).map(|day| day.number()).collect();
            json!({ "id": used.exercise.id, "days": days, "forms": [data] })
        };
        let exercises: Vec<Value> = used.iter().zip(counted).map(one).collect();
        let of = match &order.subject {
            crate::print::Subject::Week(series, week) => json!({ "series": series.id, "week": week.id }),
            crate::print::Subject::Exercises(_) => json!({ "series": null, "week": null }),
        };
        data(self, exercises, of)
    }

    /// The last look at all that she reads, as at her sheet.
    fn look(&self, told: &Told<'m>, person: &Person<'m>, order: &Order<'m>) -> Result<(), Unwritten> {
        let whole = order.subject.place().unwrap_or_else(|| Span::start_of(self.model.site.file));
        let texts = alone::texts(told);
        let found = look_at_texts(&texts, person, self.model, self.words, whole);
        if found.is_empty() { Ok(()) } else { Err(Unwritten::Findings(found)) }
    }
}

impl Own<'_> {
    fn wear(&mut self, style: String) {
        self.style_src = super::scripts::source(&style);
        self.style = style;
    }
}
