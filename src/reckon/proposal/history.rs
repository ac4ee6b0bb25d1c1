//! What the weeks of a series have used so far.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::Model;
use crate::model::dose::DoseValues;
use crate::model::form::Form;
use crate::model::series::Series;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::Week;
use crate::reckon::aims::is_known;
use crate::reckon::demands;
use crate::reckon::dose::Session;

/// What all weeks of a series have used.
pub(super) struct History<'m> {
    /// The last week that used an exercise, by id.
    pub(super) last: BTreeMap<&'m str, u32>,
    /// The same, as a set.
    pub(super) used: BTreeSet<&'m str>,
    /// The demands of all of them.
    pub(super) demands: BTreeSet<&'m str>,
    /// What they needed, as [`thing`] writes it.
    pub(super) things: BTreeSet<String>,
    /// The most work of a component in a week so far, milliseconds.
    pub(super) most_work: BTreeMap<Component, u64>,
    /// The doses of the last week, by exercise.
    pub(super) last_doses: Vec<(&'m str, DoseValues)>,
}

/// Why what came before is not known well enough to say what comes next.
#[derive(Clone, Copy, Debug)]
pub enum Unknown<'m> {
    /// This field of the series could not be read whole.
    Series { field: &'static str },
    /// What this week holds could not be read whole.
    Week { week: &'m Week },
    /// A week uses an exercise that is not there, or whose component, demands or dose could not be read.
    Exercise { week: &'m Week, id: &'m str },
}

impl<'m> History<'m> {
    pub(super) fn of(model: &'m Model, series: &'m Series) -> Result<History<'m>, Unknown<'m>> {
        check(model, series)?;
        let mut history = History {
            last: BTreeMap::new(),
            used: BTreeSet::new(),
            demands: BTreeSet::new(),
            things: BTreeSet::new(),
            most_work: BTreeMap::new(),
            last_doses: Vec::new(),
        };
        for week in &series.weeks {
            history.add(model, week);
        }
        Ok(history)
    }

    /// Adds a week; they come in order of their numbers.
    fn add(&mut self, model: &'m Model, week: &'m Week) {
        self.last_doses.clear();
        for (used, exercise) in model.exercises_of(week) {
            self.last.insert(&exercise.id, week.number.value);
            self.used.insert(&exercise.id);
            self.demands.extend(demands::of_the_body(&Form::base(exercise)).into_iter().map(|d| d.id));
            self.things.extend(exercise.equipment.iter().map(|t| thing(&t.value)));
            self.last_doses.push((&exercise.id, used.dose_of(exercise).values()));
        }
        // Of two doses of one exercise it is not known which holds.
        if !is_known(model, week) {
            return;
        }
        let session = Session::of(model, week);
        for &component in Component::ALL {
            let work = session.component(component).a_week(|practice| practice.work).high;
            let most = self.most_work.entry(component).or_default();
            *most = work.max(*most);
        }
    }
}

/// A thing by its name, however it is written.
pub(super) fn thing(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

fn check<'m>(model: &'m Model, series: &'m Series) -> Result<(), Unknown<'m>> {
    let start = series.weeks.is_empty().then_some("start");
    for field in ["serves", "all_have", "targets"].into_iter().chain(start) {
        if !series.standing.is_sound(field) {
            return Err(Unknown::Series { field });
        }
    }
    for week in &series.weeks {
        let known = |field| week.standing.is_sound(field);
        if !["week", "date", "exercises"].into_iter().all(known) {
            return Err(Unknown::Week { week });
        }
        for used in &week.exercises {
            let id = &used.id.value;
            let sound = model.exercises.get(id).is_some_and(|exercise| {
                ["component", "demands", "dose"].iter().all(|field| exercise.standing.is_sound(field))
            });
            if !sound {
                return Err(Unknown::Exercise { week, id });
            }
        }
    }
    Ok(())
}
