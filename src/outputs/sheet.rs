//! Which sheets are printed, and the address of each: beside the page that it is the sheet of.

use super::Address;
use crate::model::Model;
use crate::model::vocabulary::{Paper, Vocabulary};

/// The sheet of a page, in one size on one paper.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sheet {
    /// A week or an exercise.
    pub of: Address,
    /// Points.
    pub size: u32,
    pub paper: Paper,
}

impl Sheet {
    /// Where the sheet's file is, relative to the site's root.
    pub fn path(&self) -> String {
        let page = self.of.path();
        format!("{}-{}.pdf", page.trim_end_matches(".html"), ending(self.size, self.paper))
    }
}

/// The end of a sheet's name: `18-point-a4`.
pub fn ending(size: u32, paper: Paper) -> String {
    format!("{size}-point-{}", paper.word())
}

/// Every sheet of a site: of each week and each exercise, in every size and paper that the site prints.
pub fn all(model: &Model) -> Vec<Sheet> {
    let weeks = model.weeks().map(|(series, week)| Address::week(series, week));
    let exercises = model.exercises.keys().map(|id| Address::Exercise(id.clone()));
    weeks.chain(exercises).flat_map(|page| of(model, &page)).collect()
}

/// The sheets of a page, if it is one that has any.
pub fn of(model: &Model, page: &Address) -> Vec<Sheet> {
    if !matches!(page, Address::Week { .. } | Address::Exercise(_)) {
        return Vec::new();
    }
    let print = &model.site.print;
    let sheet = |size, paper| Sheet { of: page.clone(), size, paper };
    print.sizes.iter().flat_map(|&size| print.papers.iter().map(move |&paper| sheet(size, paper))).collect()
}
