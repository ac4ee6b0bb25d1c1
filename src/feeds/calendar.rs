//! iCalendar (RFC 5545): a series as all-day events, one for each week and one for each day of practice.

use std::collections::BTreeMap;

use icalendar::{Calendar, Component, Event, Parameter, Property};
use jiff::ToSpan;
use jiff::civil::Date;

use super::Feeds;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::blocks::practice::of_week;
use crate::outputs::video::host;

pub(super) fn write(feeds: &Feeds<'_>, series: &Series) -> String {
    let mut calendar = Calendar::empty();
    calendar.append_property(("VERSION", "2.0"));
    calendar.append_property(("PRODID", "-//steadyleaf//steadyleaf//EN"));
    calendar.append_property(("CALSCALE", "GREGORIAN"));
    // The library escapes what RFC 5545 knows as text, and X-WR-CALNAME; the name of RFC 7986 it writes as it is.
    calendar.append_property(("NAME", text(&series.title.value).as_str()));
    calendar.append_property(("X-WR-CALNAME", series.title.value.as_str()));
    calendar.append_property(("DESCRIPTION", series.summary.value.as_str()));
    for week in &series.weeks {
        let mut weeks_own = event(feeds, series, week, &week.id, week.date.value);
        weeks_own.summary(&feeds.week_title(week));
        weeks_own.description(&about(feeds, &feeds.exercises(week)));
        calendar.push(weeks_own);
        for (day, exercises) in practice(feeds, week) {
            let name = format!("{}-practice-{day}", week.id);
            let mut practice = event(feeds, series, week, &name, day);
            let titles: Vec<String> = exercises.iter().map(|(title, _)| title.clone()).collect();
            let list = feeds.say().and(&titles);
            practice.summary(&feeds.words.say_with("calendar-practice", &[("exercises", list.into())]));
            let lines: Vec<String> = exercises.into_iter().map(|(_, line)| line).collect();
            practice.description(&about(feeds, &lines));
            calendar.push(practice);
        }
    }
    folded(&calendar.to_string())
}

/// The calendar in lines of at most 75 octets (section 3.1), the space before a folded one counted and no letter cut in
/// two. The library's own last piece of a line may have 76, and it leaves an author's carriage return as it is, which only a
/// line end may have (section 3.1).
fn folded(calendar: &str) -> String {
    const MOST: usize = 75;
    let mut folded = String::with_capacity(calendar.len());
    for line in calendar.replace("\r\n ", "").split_terminator("\r\n") {
        let line = line.replace('\r', "");
        let mut rest = line.as_str();
        let mut room = MOST;
        while rest.len() > room {
            let (piece, after) = rest.split_at(rest.floor_char_boundary(room));
            folded += piece;
            folded += "\r\n ";
            rest = after;
            room = MOST - 1;
        }
        folded += rest;
        folded += "\r\n";
    }
    folded
}

/// An all-day event, which leaves the day free for other things.
fn event(feeds: &Feeds<'_>, series: &Series, week: &Week, name: &str, day: Date) -> Event {
    let site = &feeds.model.site.address.value;
    let mut event = Event::with_uid(&format!("{}-{name}@{}", series.id, host(site)));
    // The clock has no say in it: the same site gives the same calendar.
    event.add_property("DTSTAMP", format!("{}T000000Z", compact(week.date.value)));
    event.append_property(on("DTSTART", day));
    event.append_property(on("DTEND", day.saturating_add(1.day())));
    event.add_property("TRANSP", "TRANSPARENT");
    event.url(&feeds.address(&Address::week(series, week)));
    event.done()
}

/// A property that is a day, without a time (section 3.3.4).
fn on(name: &str, day: Date) -> Property {
    let mut property = Property::new(name, compact(day));
    property.append_parameter(Parameter::new("VALUE", "DATE"));
    property.done()
}

fn compact(day: Date) -> String {
    day.strftime("%Y%m%d").to_string()
}

/// What is to be done, when to stop, and whom to call.
fn about(feeds: &Feeds<'_>, exercises: &[String]) -> String {
    let call = feeds.say().emergency_call(&feeds.model.site);
    format!("{}\n\n{} {call}", exercises.join("\n"), feeds.words.say("safety-short"))
}

/// Section 3.3.11, for a property that is not escaped on its way out.
fn text(value: &str) -> String {
    let value = value.replace('\\', "\\\\").replace(';', "\\;").replace(',', "\\,");
    value.replace("\r\n", "\\n").replace(['\r', '\n'], "\\n")
}

/// The days of a week's practice as its page shows them, each with its exercises: their titles, and these with their
/// doses.
fn practice(feeds: &Feeds<'_>, week: &Week) -> Vec<(Date, Vec<(String, String)>)> {
    let spread = of_week(feeds.model, week, feeds.say()).and_then(|practice| practice.spread);
    let used = feeds.model.exercises_of(week).map(|(_, e)| &e.title.value);
    let lines: BTreeMap<&String, String> = used.zip(feeds.exercises_of_a_day(week)).collect();
    let since = i64::from(week.date.value.weekday().to_monday_zero_offset());
    let monday = week.date.value.saturating_sub(since.days());
    let days = spread.into_iter().flat_map(|spread| spread.days).enumerate().map(|(at, day)| {
        let exercise = |title: &String| Some((title.clone(), lines.get(title)?.clone()));
        let exercises = day.exercises.iter().filter_map(|done| exercise(&done.title.value)).collect();
        (monday.saturating_add((at as i64).days()), exercises)
    });
    days.filter(|(_, exercises): &(Date, Vec<_>)| !exercises.is_empty()).collect()
}
