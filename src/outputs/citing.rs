//! Which pages cite a reference.

use std::collections::BTreeMap;

use super::Address;
use crate::model::Model;
use crate::model::prose::Prose;
use crate::model::reads::{Read, note};

/// The pages that cite each reference: free pages, weeks, then exercises. Made in one walk over the model.
pub struct Citing<'m> {
    by_key: BTreeMap<&'m str, Vec<Address>>,
}

impl<'m> Citing<'m> {
    pub fn of(model: &'m Model) -> Citing<'m> {
        let mut citing = Citing { by_key: BTreeMap::new() };
        model.pages.values().for_each(|page| citing.add(&page.prose, &Address::Free(page.id.clone())));
        model.weeks().for_each(|(series, week)| citing.add(&week.prose, &Address::week(series, week)));
        model.exercises.values().for_each(|e| citing.add(&e.prose, &Address::Exercise(e.id.clone())));
        citing
    }

    fn add(&mut self, prose: &'m Prose, address: &Address) {
        for key in &prose.citations {
            let pages = self.by_key.entry(key.value.as_str()).or_default();
            // A page that cites it twice was the last to be added.
            if pages.last() != Some(address) {
                pages.push(address.clone());
            }
        }
    }

    /// The pages that cite a reference.
    pub fn pages(&self, key: &str) -> &[Address] {
        note(|| Read::Citing(key.to_string()));
        self.by_key.get(key).map_or(&[], Vec::as_slice)
    }
}
