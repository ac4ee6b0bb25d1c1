//! The entries of one kind, by their ids. Asking for one is noted, see [`reads`](super::reads).

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Index;

use jiff::civil::Date;

use super::captions::Captions;
use super::exercise::Exercise;
use super::page::FreePage;
use super::reads::{Read, note};
use super::series::Series;
use super::week::Week;

/// How a kind of entry is noted.
pub trait Noted {
    /// Which there are.
    const ALL: Read;

    /// What one of them says.
    fn read(id: &str) -> Read;
}

impl Noted for Exercise {
    const ALL: Read = Read::Exercises;

    fn read(id: &str) -> Read {
        Read::Exercise(id.to_string())
    }
}

impl Noted for Series {
    const ALL: Read = Read::EverySeries;

    fn read(id: &str) -> Read {
        Read::Series(id.to_string())
    }
}

impl Noted for FreePage {
    const ALL: Read = Read::Pages;

    fn read(id: &str) -> Read {
        Read::Page(id.to_string())
    }
}

impl Noted for Captions {
    const ALL: Read = Read::EveryCaptions;

    fn read(id: &str) -> Read {
        Read::Captions(id.to_string())
    }
}

/// Entries by id, in order of their ids.
#[derive(Clone, Debug)]
pub struct Entries<T>(BTreeMap<String, T>);

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Entries(BTreeMap::new())
    }
}

impl<T: Noted> Entries<T> {
    pub fn get(&self, id: &str) -> Option<&T> {
        note(|| T::read(id));
        self.0.get(id)
    }

    /// The entry, with its id as the model keeps it.
    pub fn get_key_value(&self, id: &str) -> Option<(&String, &T)> {
        note(|| T::read(id));
        self.0.get_key_value(id)
    }

    /// True when it is there, whatever it says.
    pub fn contains_key(&self, id: &str) -> bool {
        note(|| T::ALL);
        self.0.contains_key(id)
    }

    pub fn keys(&self) -> impl Iterator<Item = &String> + Clone {
        note(|| T::ALL);
        self.0.keys()
    }

    pub fn values(&self) -> impl Iterator<Item = &T> {
        self.iter().map(|(_, entry)| entry)
    }

    pub fn iter(&self) -> impl Iterator<Item = (&String, &T)> {
        note(|| T::ALL);
        self.0.iter().inspect(|(id, _)| note(|| T::read(id)))
    }

    pub fn len(&self) -> usize {
        note(|| T::ALL);
        self.0.len()
    }

    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    pub fn get_mut(&mut self, id: &str) -> Option<&mut T> {
        self.0.get_mut(id)
    }

    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut T> {
        self.0.values_mut()
    }

    pub fn insert(&mut self, id: String, entry: T) -> Option<T> {
        self.0.insert(id, entry)
    }
}

impl<T: Noted> Index<&str> for Entries<T> {
    type Output = T;

    /// # Panics
    /// When there is none of that id.
    fn index(&self, id: &str) -> &T {
        self.get(id).unwrap_or_else(|| panic!("there is no entry `{id}`"))
    }
}

/// The weeks of a series, in order of number.
#[derive(Clone, Debug, Default)]
pub struct Weeks {
    series: String,
    list: Vec<Week>,
}

impl Weeks {
    /// No weeks of the series with that id.
    pub fn of(series: &str) -> Weeks {
        Weeks { series: series.to_string(), list: Vec::new() }
    }

    /// A week of these that was found in another way than through them.
    pub fn noted<'a>(&self, week: &'a Week) -> &'a Week {
        note(|| Read::Week { series: self.series.clone(), id: week.id.clone() });
        week
    }

    fn note_order(&self) {
        note(|| Read::Weeks(self.series.clone()));
    }

    /// The week of that id, which is its file's name.
    pub fn get(&self, id: &str) -> Option<&Week> {
        note(|| Read::Week { series: self.series.clone(), id: id.to_string() });
        self.list.iter().find(|week| week.id == id)
    }

    /// The weeks before and after the one of that id.
    pub fn beside(&self, id: &str) -> (Option<&Week>, Option<&Week>) {
        self.note_order();
        let Some(at) = self.list.iter().position(|week| week.id == id) else { return (None, None) };
        let one = |at: Option<usize>| Some(self.noted(self.list.get(at?)?));
        (one(at.checked_sub(1)), one(Some(at + 1)))
    }

    /// Their ids, in order.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.note_order();
        self.list.iter().map(|week| week.id.as_str())
    }

    /// Their ids in order, each with the day on which it begins.
    pub fn dates(&self) -> impl Iterator<Item = (&str, Date)> {
        note(|| Read::Dates(self.series.clone()));
        self.list.iter().map(|week| (week.id.as_str(), week.date.value))
    }

    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &Week> + ExactSizeIterator + Clone {
        self.note_order();
        self.list.iter().map(|week| self.noted(week))
    }

    pub fn first(&self) -> Option<&Week> {
        self.iter().next()
    }

    pub fn last(&self) -> Option<&Week> {
        self.iter().next_back()
    }

    pub fn len(&self) -> usize {
        self.note_order();
        self.list.len()
    }

    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    pub fn push(&mut self, week: Week) {
        self.list.push(week);
    }

    /// The weeks themselves, for whoever reads them anew.
    pub fn list_mut(&mut self) -> &mut Vec<Week> {
        &mut self.list
    }
}

impl<'a> IntoIterator for &'a Weeks {
    type Item = &'a Week;
    type IntoIter = Box<dyn Iterator<Item = &'a Week> + 'a>;

    fn into_iter(self) -> Self::IntoIter {
        Box::new(self.iter())
    }
}

impl Index<usize> for Weeks {
    type Output = Week;

    /// # Panics
    /// When there are not so many.
    fn index(&self, at: usize) -> &Week {
        self.note_order();
        self.noted(&self.list[at])
    }
}

/// Names of the files under `content/media/` and of caption files, relative to `content/`.
#[derive(Clone, Debug, Default)]
pub struct Attachments(BTreeSet<String>);

impl Attachments {
    /// True when the file is there.
    pub fn contains(&self, name: &str) -> bool {
        note(|| Read::Attachment(name.to_string()));
        self.0.contains(name)
    }

    pub fn iter(&self) -> impl Iterator<Item = &String> + Clone {
        note(|| Read::Attachments);
        self.0.iter()
    }
}

impl From<BTreeSet<String>> for Attachments {
    fn from(names: BTreeSet<String>) -> Self {
        Attachments(names)
    }
}
