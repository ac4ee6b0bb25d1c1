//! One week: its exercises by component, how long it takes, how many landings, how hard it is to read.

use super::super::aims::{self, Unknown};
use super::super::between::Between;
use super::super::coverage::{self, Cell};
use super::super::dose::{Impact, Practice, Session};
use super::super::ladder::Ladders;
use super::super::readability::syllables::Lexicon;
use super::super::readability::{self, Score};
use super::Rung;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::source::Sources;
use crate::model::week::Week;
use crate::model::words::Words;

/// A week of the plan.
pub struct PlannedWeek<'m> {
    pub week: &'m Week,
    /// The four components in their fixed order.
    pub cells: Vec<Cell<'m>>,
    /// How long it takes and how many landings, or why that is not known.
    pub load: Result<Load, Unknown<'m>>,
    /// How hard its own text is to read: the welcome, the cues and the question.
    pub reading: Result<Score, Unmeasured>,
    rungs: Vec<(&'m str, Rung)>,
}

/// What a week asks for: lengths in milliseconds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Load {
    /// A session in which every exercise of the week is done, with the way into each.
    pub session: Between,
    /// The same on all the days of the week.
    pub week: Between,
    /// From the lightest.
    pub landings: [Landings; 3],
}

/// Landings of one level; both feet count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Landings {
    pub level: Impact,
    pub session: Between,
    pub week: Between,
}

/// Why a text has no score.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unmeasured {
    /// Only English is measured.
    Language,
    TooShort,
}

impl<'m> PlannedWeek<'m> {
    pub(super) fn of(
        model: &'m Model,
        sources: &Sources,
        words: &Words,
        ladders: &Ladders<'m>,
        week: &'m Week,
    ) -> PlannedWeek<'m> {
        let rungs =
            model.exercises_of(week).filter_map(|(_, e)| Some((e.id.as_str(), Rung::of(ladders, &e.id)?)));
        PlannedWeek {
            week,
            cells: coverage::of_week(model, week),
            load: match aims::unknown(model, week) {
                Some(unknown) => Err(unknown),
                None => Ok(Load::of(&Session::of(model, week))),
            },
            reading: reading(week, sources, words),
            rungs: rungs.collect(),
        }
    }

    /// Its number, unless that could not be read.
    pub fn number(&self) -> Option<u32> {
        self.week.standing.knows("week").then_some(self.week.number.value)
    }

    /// The rung of one of its exercises; `None` for one on no ladder.
    pub fn rung_of(&self, exercise: &Exercise) -> Option<Rung> {
        self.rungs.iter().find(|(id, _)| *id == exercise.id).map(|(_, rung)| *rung)
    }
}

impl Load {
    fn of(session: &Session<'_>) -> Load {
        let landings = Impact::ALL.map(|level| Landings {
            level,
            session: session.sum(|practice| practice.impacts_of(level)),
            week: session.a_week(|practice| practice.impacts_of(level)),
        });
        Load { session: session.sum(Practice::whole), week: session.a_week(Practice::whole), landings }
    }

    /// Landings of all levels in a session.
    pub fn landings_a_session(&self) -> Between {
        self.landings.iter().map(|landings| landings.session).sum()
    }

    /// Landings of all levels in a week.
    pub fn landings_a_week(&self) -> Between {
        self.landings.iter().map(|landings| landings.week).sum()
    }
}

fn reading(week: &Week, sources: &Sources, words: &Words) -> Result<Score, Unmeasured> {
    if !readability::measures(&words.language) {
        return Err(Unmeasured::Language);
    }
    let reading = readability::of_week(week, sources, &Lexicon::of(words));
    reading.score().map_err(|_| Unmeasured::TooShort)
}
