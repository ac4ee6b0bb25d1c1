//! Lists that are too long for one page: which pages they are split into, so that none grows without bound.
//!
//! A list that fits stays on one page. Of a longer one the exercises of each component have pages of their own, and each
//! series has a page with its plan.

use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::vocabulary::{Component, Vocabulary};

/// A page that lists every exercise while they are few, and leads to its pages where they are many.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum List {
    Library,
    Figures,
}

/// One page of a list that is split: the exercises of a component, or as many of them as one page may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ListPage {
    pub component: Component,
    /// From 1.
    pub number: usize,
}

impl ListPage {
    /// What its file is called, without the ending: `posture`, `posture-2`.
    pub fn name(self) -> String {
        match self.number {
            0 | 1 => self.component.word().to_string(),
            number => format!("{}-{number}", self.component.word()),
        }
    }
}

impl List {
    /// The most exercises that stand on one page together, whatever their component.
    pub const WHOLE: usize = 60;

    /// The most exercises of one page of it. An exercise takes about 4 KB in the library, and 9 KB with all its figures.
    pub const fn most(self) -> usize {
        match self {
            List::Library => 200,
            List::Figures => 60,
        }
    }

    /// True where each list is split.
    pub fn is_split(model: &Model) -> bool {
        model.exercises.len() > List::WHOLE
    }

    /// Its pages in their order; none where one page holds the whole list.
    pub fn pages(self, model: &Model) -> Vec<ListPage> {
        if !List::is_split(model) {
            return Vec::new();
        }
        let of = |&component| {
            let count = model.exercises.values().filter(|e| e.component.value == component).count();
            (1..=count.div_ceil(self.most())).map(move |number| ListPage { component, number })
        };
        Component::ALL.iter().flat_map(of).collect()
    }

    /// The page whose file has this name.
    pub fn page(self, name: &str, model: &Model) -> Option<ListPage> {
        self.pages(model).into_iter().find(|page| page.name() == name)
    }

    /// The exercises of a page, in their order.
    pub fn exercises(self, page: ListPage, model: &Model) -> Vec<&Exercise> {
        let before = page.number.saturating_sub(1) * self.most();
        of_component(page.component, model).into_iter().skip(before).take(self.most()).collect()
    }
}

/// The exercises of a component, in the order in which lists have them.
pub fn of_component(component: Component, model: &Model) -> Vec<&Exercise> {
    in_order(model.exercises.values().filter(|e| e.component.value == component))
}

/// Exercises in the order in which lists have them: by component, then by title.
pub fn in_order<'m>(exercises: impl Iterator<Item = &'m Exercise>) -> Vec<&'m Exercise> {
    let mut exercises: Vec<&Exercise> = exercises.collect();
    exercises.sort_by_cached_key(|e| (e.component.value, e.title.value.to_lowercase(), e.id.as_str()));
    exercises
}

/// The most pages that the evidence names for one reference; of the others it tells how many there are, and each leads to the
/// reference itself.
pub const MOST_CITING: usize = 10;

/// The most series whose plans stand on one page.
pub const MOST_PLANS: usize = 3;

/// The series whose plans have pages of their own: all, or none where one page holds them.
pub fn planned_alone(model: &Model) -> impl Iterator<Item = &Series> {
    let are_many = model.series.len() > MOST_PLANS;
    model.series.values().filter(move |_| are_many)
}
