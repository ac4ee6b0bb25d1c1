//! What programs read: Atom, iCalendar, sitemap, captions and chapters, structured data. Never the disk, never
//! the clock.

mod atom;
mod calendar;
pub mod offline;
mod sitemap;
pub mod structured;
pub mod webvtt;
pub mod words;

use jiff::civil::Date;

use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::Exercise;
use crate::model::reads::{Read, note};
use crate::model::week::{Week, WeekExercise};
use crate::model::words::Words;
use crate::outputs::Address;
use crate::outputs::blocks::dose::{count, glance};
use crate::outputs::blocks::phrases::Phrases;
use crate::outputs::blocks::week::title_line;
use crate::outputs::feed::Feed;

/// What every feed is written from.
pub struct Feeds<'m> {
    pub model: &'m Model,
    pub words: &'m Words,
    /// Weeks that begin later are not news yet.
    pub day: Date,
}

impl<'m> Feeds<'m> {
    /// The text of a feed; nothing for a series that is not there.
    pub fn write(&self, feed: &Feed) -> Option<String> {
        let series = |id: &String| self.model.series.get(id);
        Some(match feed {
            Feed::Site => atom::write(self, None),
            Feed::Series(id) => atom::write(self, Some(series(id)?)),
            Feed::Calendar(id) => calendar::write(self, series(id)?),
            Feed::Sitemap => sitemap::whole(self),
            Feed::SitemapPart(part) => sitemap::part(self, *part),
            Feed::Robots => sitemap::robots(self),
        })
    }

    fn today(&self) -> Date {
        note(|| Read::Today);
        self.day
    }

    fn say(&self) -> Phrases<'m> {
        Phrases { words: self.words }
    }

    /// The whole address of a page; that of the first is the site's own.
    fn address(&self, page: &Address) -> String {
        let site = &self.model.site.address.value;
        match page {
            Address::Home => site.clone(),
            page => format!("{site}{}", page.path()),
        }
    }

    fn week_title(&self, week: &Week) -> String {
        title_line(week, self.say())
    }

    /// Each exercise of a week with its dose, in one line.
    fn exercises(&self, week: &Week) -> Vec<String> {
        self.lines(week, glance)
    }

    /// The same without the days a week.
    fn exercises_of_a_day(&self, week: &Week) -> Vec<String> {
        self.lines(week, count)
    }

    fn lines(&self, week: &Week, told: fn(&Dose, Phrases<'_>) -> String) -> Vec<String> {
        let line = |(used, e): (&WeekExercise, &Exercise)| {
            let dose = told(&used.dose_of(e), self.say());
            let arguments = [("title", e.title.value.as_str().into()), ("dose", dose.into())];
            self.words.say_with("feed-exercise", &arguments)
        };
        self.model.exercises_of(week).map(line).collect()
    }

    /// When a week last changed, as far as its entries say it: on its day, or when an exercise of it was
    /// reviewed after that.
    fn updated(&self, week: &Week) -> Date {
        let reviewed = self.model.exercises_of(week).filter_map(|(_, e)| Some(e.reviewed.as_ref()?.on.value));
        reviewed.filter(|day| *day <= self.today()).fold(week.date.value, Date::max)
    }

    /// When what a page shows was last reviewed.
    fn reviewed(&self, page: &Address) -> Option<Date> {
        match page {
            Address::Exercise(id) => Some(self.model.exercises.get(id)?.reviewed.as_ref()?.on.value),
            Address::Week { series, id } => {
                let week = self.model.series.get(series)?.weeks.get(id)?;
                let reviewed = self.model.exercises_of(week);
                reviewed.filter_map(|(_, e)| Some(e.reviewed.as_ref()?.on.value)).max()
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests;
