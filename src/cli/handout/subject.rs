//! What the sheets show: the week or the exercises that the command line names.

use jiff::civil::Date;

use super::Handout;
use crate::cli::load::exercise;
use crate::cli::outcome::Failure;
use crate::model::Model;
use crate::model::nearest::{nearest, quoted, shown};
use crate::model::series::Series;
use crate::model::week::Week;
use crate::print::Subject;

/// A subject, and what its sheets are called in the names of files.
pub(super) struct NamedSubject<'m> {
    pub(super) subject: Subject<'m>,
    pub(super) name: String,
}

pub(super) fn read<'m>(
    command: &Handout,
    model: &'m Model,
    today: Date,
) -> Result<NamedSubject<'m>, Failure> {
    if let Some(asked) = &command.week {
        return week(asked, model).map_err(Failure::Unreadable);
    }
    if !command.exercise.is_empty() {
        return exercises(&command.exercise, model).map_err(Failure::Unreadable);
    }
    if command.people.is_empty() && !command.cue_sheet {
        let what = "say what to print: --week SERIES/WEEK, --exercise ID, or --for a profile".to_string();
        return Err(Failure::Unreadable(what));
    }
    this_week(model, today).map_err(Failure::Unreadable)
}

fn named<'m>(series: &'m Series, week: &'m Week) -> NamedSubject<'m> {
    NamedSubject { subject: Subject::Week(series, week), name: format!("{}-{}", series.id, week.id) }
}

/// `lantern-hill/7`, or with the name of the week's file `lantern-hill/week-07`.
fn week<'m>(asked: &str, model: &'m Model) -> Result<NamedSubject<'m>, String> {
    let known: Vec<&str> = model.series.keys().map(String::as_str).collect();
    let Some((id, week)) = asked.split_once('/') else {
        return Err(format!(
            "expected a series and a week such as {}/1, found {}",
            known.first().unwrap_or(&"lantern-hill"),
            shown(asked)
        ));
    };
    let series = model.series.get(id).ok_or_else(|| match nearest(id, known.iter().copied()) {
        Some(near) => format!("there is no series {}; did you mean `{near}`?", shown(id)),
        None => format!("there is no series {}; this workspace has {}", shown(id), quoted(&known)),
    })?;
    let numbers: Vec<String> = series.weeks.iter().map(|w| w.number.value.to_string()).collect();
    series.week_called(week).map(|week| named(series, week)).ok_or_else(|| {
        format!("the series `{id}` has no week {}; it has {}", shown(week), numbers.join(", "))
    })
}

fn exercises<'m>(ids: &[String], model: &'m Model) -> Result<NamedSubject<'m>, String> {
    let mut list = Vec::new();
    for id in ids {
        list.push(exercise(model, id)?);
    }
    let name = match list.as_slice() {
        [one] => one.id.clone(),
        _ => "exercises".to_string(),
    };
    Ok(NamedSubject { subject: Subject::Exercises(list), name })
}

/// The week that a reader should see today, of the only series there is.
fn this_week(model: &Model, today: Date) -> Result<NamedSubject<'_>, String> {
    let mut all = model.series.values();
    match (all.next(), all.next()) {
        (Some(series), None) => match series.week_on(today) {
            Some(week) => Ok(named(series, week)),
            None => Err(format!("the series `{}` has no weeks yet", series.id)),
        },
        (None, _) => Err("there is no series yet: name exercises with --exercise".to_string()),
        (Some(_), Some(_)) => {
            let ids: Vec<String> = model.series.keys().map(|id| format!("--week {id}/1")).collect();
            Err(format!("there are several series: say which week, such as {}", ids.join(" or ")))
        }
    }
}
