//! What the pages of weeks and exercises say of themselves to programs.

use std::collections::BTreeSet;

use super::Pages;
use crate::feeds::structured::{self, PageAbout, PlanAbout, StepsAbout};
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::prose::ParagraphKind;
use crate::model::prose::texts::{Beside, Text, plain, texts};
use crate::model::series::Series;
use crate::model::vocabulary::{SectionName, Vocabulary};
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::blocks::dose::count;
use crate::outputs::blocks::needs::needs;
use crate::outputs::blocks::phrases::one_line;
use crate::reckon::approval;

/// Of a week: the page, and its video.
pub(super) fn week(pages: &Pages<'_>, series: &Series, week: &Week) -> String {
    let page = address(pages, &Address::week(series, week));
    let about = PageAbout {
        name: &week.title.value,
        description: &series.summary.value,
        page: &page,
        language: &pages.model.site.language.value,
        reviewed: reviewed(pages.model.exercises_of(week).map(|(_, e)| e)),
    };
    let parts = [structured::page(&about)].into_iter().chain(super::video::structured(pages, series, week));
    structured::data_block(parts.collect())
}

/// Of an exercise: the page, the exercise in its dose, and how it is done.
pub(super) fn exercise(pages: &Pages<'_>, e: &Exercise) -> String {
    let page = address(pages, &Address::Exercise(e.id.clone()));
    let (name, description) = (e.title.value.as_str(), e.summary.value.as_str());
    let language = pages.model.site.language.value.as_str();
    let say = pages.say();
    let about = PageAbout { name, description, page: &page, language, reviewed: reviewed([e].into_iter()) };
    let dose = &e.dose;
    let days = dose
        .days
        .as_ref()
        .map(|days| say.counted("dose-days", say.amount(days.value), days.value.high.into()));
    let plan = PlanAbout {
        name,
        description,
        page: &page,
        language,
        kind: &pages.words.say(&format!("component-{}", e.component.value.word())),
        repetitions: dose.reps.as_ref().map(|reps| reps.value).filter(|r| r.low == r.high).map(|r| r.low),
        dose: count(dose, say),
        days,
        rest: dose.rest.as_ref().map(|rest| say.time(rest.value)),
        effort: dose
            .effort
            .as_ref()
            .map(|effort| say.counted("dose-effort", say.amount(effort.value), effort.value.high.into())),
    };
    let mut parts = vec![structured::page(&about), structured::plan(&plan)];
    let steps = steps(e);
    if !steps.is_empty() {
        let needs: Vec<String> = needs([Form::base(e)], say).into_iter().map(|need| need.value).collect();
        parts.push(structured::steps(&StepsAbout {
            name,
            description,
            page: &page,
            language,
            steps,
            needs: &needs,
        }));
    }
    structured::data_block(parts)
}

/// The steps of the movement, without marks.
fn steps(e: &Exercise) -> Vec<String> {
    let movement = e.prose.section(SectionName::Move).into_iter().flat_map(|section| &section.blocks);
    let step = |text| match text {
        Text::Paragraph(ParagraphKind::Step, line) => Some(one_line(&plain(line, Beside::Nothing))),
        _ => None,
    };
    texts(movement).into_iter().filter_map(step).filter(|step| !step.is_empty()).collect()
}

/// The day of the oldest review and the names of all who reviewed; none where one exercise has no review
/// or has changed since.
fn reviewed<'m>(exercises: impl Iterator<Item = &'m Exercise>) -> Option<(jiff::civil::Date, Vec<&'m str>)> {
    let reviews: Option<Vec<_>> = exercises.map(approval::standing).collect();
    let reviews = reviews?;
    let oldest = reviews.iter().map(|review| review.on.value).min()?;
    let people: BTreeSet<&str> = reviews.iter().map(|review| review.by.value.as_str()).collect();
    Some((oldest, people.into_iter().collect()))
}

fn address(pages: &Pages<'_>, page: &Address) -> String {
    format!("{}{}", pages.model.site.address.value, page.path())
}
