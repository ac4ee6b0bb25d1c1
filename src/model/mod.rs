//! The domain: exercises, doses, demands, precautions, weeks, series, the site, and findings about them.
//!
//! Every value an author wrote carries the span it was read from. After the model is built nothing
//! optional is left that a page needs: where a required value could not be read, a stand-in takes its
//! place and `Standing` remembers that, so that no rule draws a conclusion from it.

pub mod accept;
pub mod amount;
pub mod captions;
pub mod catalogue;
pub mod client;
pub mod dose;
pub mod entries;
pub mod exercise;
pub mod figure;
pub mod finding;
pub mod form;
pub mod limits;
pub mod link;
pub mod nearest;
pub mod page;
pub mod prose;
pub mod reads;
pub mod references;
pub mod series;
pub mod site;
pub mod source;
pub mod standing;
pub mod subject;
pub mod targets;
pub mod vocabulary;
pub mod week;
pub mod words;

use std::collections::BTreeSet;

use captions::Captions;
use entries::{Attachments, Entries};
use exercise::Exercise;
use page::FreePage;
use reads::{Read, note, unwatched};
use references::References;
use series::Series;
use site::Site;
use week::{Week, WeekExercise};

/// Everything that was read from one workspace.
#[derive(Debug)]
pub struct Model {
    pub site: Site,
    /// Exercises by id.
    pub exercises: Entries<Exercise>,
    /// Ids of exercise files of which nothing could be read; links to them are not broken.
    pub unreadable: BTreeSet<String>,
    /// Series by id; their weeks stand in order of number.
    pub series: Entries<Series>,
    /// Free pages by id.
    pub pages: Entries<FreePage>,
    pub references: References,
    /// Captions by name, relative to `content/`.
    pub captions: Entries<Captions>,
    /// Names of the files under `content/media/` and of caption files, relative to `content/`.
    pub attachments: Attachments,
    /// Those of them whose hidden data say where they were filmed or recorded.
    pub positions: BTreeSet<String>,
    /// Entries that share one id but for letter case.
    pub twins: Vec<Twin>,
    /// Words around things, of every language.
    pub things: words::ThingWords,
}

/// Two entries whose ids are the same but for letter case.
#[derive(Debug)]
pub struct Twin {
    pub id: String,
    pub place: source::Span,
    pub other: String,
}

/// Why no series is meant where none is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotOne {
    None,
    Several,
}

impl Model {
    /// What everybody has for whom an exercise is that belongs to no one series: what is said of the audience of any.
    pub fn all_have(&self) -> Vec<&str> {
        self.series.values().flat_map(Series::all_have_ids).collect()
    }

    /// The series that is meant where none is named: the only one there is.
    pub fn only_series(&self) -> Result<&Series, NotOne> {
        let mut all = self.series.values();
        match (all.next(), all.next()) {
            (Some(only), None) => Ok(only),
            (None, _) => Err(NotOne::None),
            (Some(_), Some(_)) => Err(NotOne::Several),
        }
    }

    /// Every week of every series, with its series.
    pub fn weeks(&self) -> impl Iterator<Item = (&Series, &Week)> {
        self.series.values().flat_map(|series| series.weeks.iter().map(move |week| (series, week)))
    }

    /// The exercises of a week that could be found, in the order of the week.
    pub fn exercises_of<'a>(
        &'a self,
        week: &'a Week,
    ) -> impl Iterator<Item = (&'a WeekExercise, &'a Exercise)> {
        week.exercises.iter().filter_map(|used| Some((used, self.exercises.get(&used.id.value)?)))
    }

    /// The exercises of a week, each once: a week that names one twice shows it where it comes first.
    pub fn each_exercise_of<'a>(
        &'a self,
        week: &'a Week,
    ) -> impl Iterator<Item = (&'a WeekExercise, &'a Exercise)> {
        let mut seen = BTreeSet::new();
        self.exercises_of(week).filter(move |(_, exercise)| seen.insert(exercise.id.as_str()))
    }

    /// The captions that a week's video names, those of them that are there, each with its name in the week.
    pub fn captions_of<'a>(
        &'a self,
        series: &Series,
        week: &'a Week,
    ) -> impl Iterator<Item = (&'a source::Spanned<String>, &'a Captions)> {
        let from = format!("content/series/{}/{}.md", series.id, week.id);
        let named = week.video.iter().flat_map(|video| &video.captions);
        named.filter_map(move |name| {
            let file = source::beside(&from, &name.value)?;
            Some((name, self.captions.get(file.strip_prefix("content/")?)?))
        })
    }

    /// The prose of every entry, with the file it is in.
    pub fn proses(&self) -> impl Iterator<Item = (source::FileId, &prose::Prose)> {
        let exercises = self.exercises.values().map(|e| (e.file, &e.prose));
        let weeks = self.weeks().map(|(_, w)| (w.file, &w.prose));
        let pages = self.pages.values().map(|p| (p.file, &p.prose));
        exercises.chain(weeks).chain(pages)
    }

    /// True when an exercise of that id exists, readable or not.
    pub fn has_exercise(&self, id: &str) -> bool {
        self.exercises.get(id).is_some() || self.unreadable.contains(id)
    }

    /// The free pages as the menu lists them, each with its id: by their own order, then by id. Noted as one thing, so
    /// that what has a menu is not made from all that these pages say.
    pub fn menu(&self) -> Vec<(&str, &str)> {
        note(|| Read::Menu);
        unwatched(|| {
            let mut pages: Vec<&FreePage> = self.pages.values().collect();
            pages.sort_by_key(|p| (p.order.as_ref().map_or(u32::MAX, |o| o.value), &p.id));
            pages.into_iter().map(|p| (p.id.as_str(), p.title.value.as_str())).collect()
        })
    }
}
