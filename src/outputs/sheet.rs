//! Which sheets are printed, and the address of each: beside the page that it is the sheet of.

use super::Address;
use crate::model::Model;
use crate::model::vocabulary::{Extent, Paper, Vocabulary};

/// The sheet of a page, to one extent in one size on one paper.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sheet {
    /// A week or an exercise.
    pub of: Address,
    pub extent: Extent,
    /// Points.
    pub size: u32,
    pub paper: Paper,
}

impl Sheet {
    /// Where the sheet's file is, relative to the site's root.
    pub fn path(&self) -> String {
        let page = self.of.path();
        format!("{}-{}.pdf", page.trim_end_matches(".html"), ending(self.extent, self.size, self.paper))
    }
}

/// The end of a sheet's name: `18-point-a4` for cards, `full-18-point-a4` for another extent.
pub fn ending(extent: Extent, size: u32, paper: Paper) -> String {
    let extent = match extent {
        Extent::Cards => String::new(),
        Extent::Full | Extent::OnePage => format!("{}-", extent.word()),
    };
    format!("{extent}{size}-point-{}", paper.word())
}

/// Every sheet of a site: of each week and each exercise, to every extent in every size and paper that the site prints.
pub fn all(model: &Model) -> Vec<Sheet> {
    let weeks = model.weeks().map(|(series, week)| Address::week(series, week));
    let exercises = model.exercises.keys().map(|id| Address::Exercise(id.clone()));
    weeks.chain(exercises).flat_map(|page| of(model, &page)).collect()
}

/// The sheets of a page, if it is one that has any. One exercise has no sheet that shows many on one side.
pub fn of(model: &Model, page: &Address) -> Vec<Sheet> {
    let print = &model.site.print;
    let mut sheets = Vec::new();
    for &extent in &print.extents {
        let has_it = match page {
            Address::Week { .. } => true,
            Address::Exercise(_) => extent != Extent::OnePage,
            _ => false,
        };
        for &size in print.sizes.iter().filter(|_| has_it) {
            sheets.extend(print.papers.iter().map(|&paper| Sheet { of: page.clone(), extent, size, paper }));
        }
    }
    sheets
}
