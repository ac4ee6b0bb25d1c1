//! What the sheets show: the week or the exercises that the command line names.

use jiff::civil::Date;

use super::Handout;
use crate::cli::load::exercise;
use crate::cli::outcome::Failure;
use crate::model::nearest::{nearest, quoted, shown};
use crate::model::{Model, NotOne};
use crate::print::Subject;

pub(super) fn read<'m>(command: &Handout, model: &'m Model, today: Date) -> Result<Subject<'m>, Failure> {
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

/// `lantern-hill/7`, or with the name of the week's file `lantern-hill/week-07`.
fn week<'m>(asked: &str, model: &'m Model) -> Result<Subject<'m>, String> {
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
    series.week_called(week).map(|week| Subject::Week(series, week)).ok_or_else(|| {
        format!("the series `{id}` has no week {}; it has {}", shown(week), numbers.join(", "))
    })
}

fn exercises<'m>(ids: &[String], model: &'m Model) -> Result<Subject<'m>, String> {
    ids.iter().map(|id| exercise(model, id)).collect::<Result<_, _>>().map(Subject::Exercises)
}

/// The week that a reader should see today, of the only series there is.
fn this_week(model: &Model, today: Date) -> Result<Subject<'_>, String> {
    match model.only_series() {
        Ok(series) => match series.week_on(today) {
            Some(week) => Ok(Subject::Week(series, week)),
            None => Err(format!("the series `{}` has no weeks yet", series.id)),
        },
        Err(NotOne::None) => Err("there is no series yet: name exercises with --exercise".to_string()),
        Err(NotOne::Several) => {
            let ids: Vec<String> = model.series.keys().map(|id| format!("--week {id}/1")).collect();
            Err(format!("there are several series: say which week, such as {}", ids.join(" or ")))
        }
    }
}
