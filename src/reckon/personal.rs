//! What one person practices: the forms that were chosen for her, each once and in its dose, on the days that
//! her practice week gives it.

use super::choice::{Choice, Need};
use super::days::DaySet;
use super::dose::Practice;
use super::practice::{Free, Plan, Request};
use super::regions::Regions;
use crate::model::Model;
use crate::model::amount::Amount;
use crate::model::client::Client;
use crate::model::dose::Dose;
use crate::model::exercise::{Caution, Exercise};
use crate::model::form::Form;
use crate::model::source::Spanned;
use crate::model::vocabulary::CautionLevel;
use crate::model::week::WeekExercise;

/// What a person practices, and when.
#[derive(Clone, Debug)]
pub struct Personal<'m> {
    pub chosen: Vec<Chosen<'m>>,
    /// Its requests are `chosen`.
    pub plan: Plan,
}

/// A form that was chosen for a person.
#[derive(Clone, Debug)]
pub struct Chosen<'m> {
    pub form: Form<'m>,
    /// What belongs to the form and concerns her, the strictest first.
    pub cautions: Vec<&'m Caution>,
    /// The exercise that it was chosen for.
    pub asked: &'m Exercise,
    pub used: Option<&'m WeekExercise>,
    /// It asks for no more days than there are in `days`.
    pub dose: Dose,
    pub practice: Practice,
    /// None where her days and minutes have no room for it.
    pub days: DaySet,
    /// The clear days that it needs between two of them.
    pub rest: u32,
    /// The regions of the body that need a clear day between any two days on which they are trained.
    pub regions: Regions,
}

impl<'m> Personal<'m> {
    /// The practice week of what was chosen for `client` from the exercises asked for, each as its week uses it.
    pub fn of(
        client: &Client,
        need: &Need<'m>,
        asked: &[(&'m Exercise, Option<&'m WeekExercise>)],
        choices: &[Choice<'m>],
        model: &'m Model,
    ) -> Personal<'m> {
        let mut requests = Vec::new();
        let mut chosen: Vec<Chosen<'m>> = Vec::new();
        for choice in choices {
            let Some(offer) = choice.chosen.filter(|o| !chosen.iter().any(|known| known.form.is(&o.form)))
            else {
                continue;
            };
            let form = offer.form;
            // What the week says of the exercise is not said of another that stands in for it.
            let here = asked.iter().find(|(e, _)| e.id == form.exercise.id && e.id == choice.asked.id);
            let used = here.and_then(|(_, used)| *used);
            let cautions = offer.cautions(&need.precautions, model);
            // A caution for her that belongs to a form she may do says how she does it; what she was cleared for is no more said.
            let cautions: Vec<&Caution> =
                cautions.into_iter().filter(|c| c.level.value == CautionLevel::Adapt).collect();
            let changes = cautions.iter().filter_map(|c| c.dose.as_ref());
            let dose = changes.fold(offer.dose(), |dose, change| dose.overridden_by(change));
            let practice = Practice::of_form(&form, &dose);
            let request = Request::for_practice(form.exercise, &dose, &practice);
            let (days, rest, regions) = (DaySet::NONE, request.rest(), request.rested_regions());
            requests.push(request);
            chosen.push(Chosen {
                form,
                cautions,
                asked: choice.asked,
                used,
                dose,
                practice,
                days,
                rest,
                regions,
            });
        }
        let plan = Plan::of(&requests, free(client));
        for (one, &days) in chosen.iter_mut().zip(&plan.days) {
            one.days = days;
            if let Some(asked) = &mut one.dose.days {
                let most = days.len().max(1);
                asked.value = Amount { low: asked.value.low.min(most), high: asked.value.high.min(most) };
            }
        }
        Personal { chosen, plan }
    }

    /// Of two choices that came to the same form, the first has it.
    pub fn chosen_for(&self, choice: &Choice<'m>) -> Option<&Chosen<'m>> {
        let form = choice.form()?;
        self.chosen.iter().find(|one| one.form.is(&form))
    }
}

impl<'m> Chosen<'m> {
    /// What it is called: the variation by its own name.
    pub fn title(&self) -> &'m Spanned<String> {
        self.form.title()
    }
}

/// The days that a person is free to practice, and how long.
fn free(client: &Client) -> Free {
    let days = match client.days.as_slice() {
        [] => DaySet::ALL,
        days => DaySet::of(days.iter().map(|day| day.value)),
    };
    Free { days, minutes: client.minutes.as_ref().map(|minutes| minutes.value) }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::entry;
    use crate::model::source::FileId;
    use crate::model::vocabulary::Day::*;
    use crate::reckon::choice::choose;
    use crate::review::testing::{edited, with_sample};

    /// The sit to stand of the sample for a person with these fields in her profile.
    fn sit_to_stand(fields: &str, look: impl FnOnce(&Chosen<'_>, &Plan)) {
        with_sample(&[], |model| {
            let profile = format!("name = \"J. K.\"\nprecautions = []\n{fields}");
            let (client, findings) = entry::read_client(&profile, FileId(0), &model.site.catalogue);
            assert_eq!(findings, []);
            let client = client.unwrap();
            let exercise = &model.exercises["sit-to-stand"];
            let need = Need::of(&client, &[], date(2026, 1, 12));
            let choice = choose(exercise, None, &need, model);
            let choices = [choice.clone(), choice];
            let personal = Personal::of(&client, &need, &[(exercise, None)], &choices, model);
            let [one] = personal.chosen.as_slice() else { panic!("{:?}", personal.chosen) };
            look(one, &personal.plan);
        });
    }

    fn days_of(one: &Chosen<'_>) -> Amount {
        one.dose.days.as_ref().unwrap().value
    }

    #[test]
    fn strength_is_on_free_days_with_a_clear_day_between_them() {
        sit_to_stand("days = [\"monday\", \"tuesday\", \"thursday\", \"friday\"]\n", |one, plan| {
            assert_eq!(plan.short, []);
            assert!(
                one.days.is_within(DaySet::of([Monday, Tuesday, Thursday, Friday])) && one.days.leaves(1)
            );
            assert_eq!(days_of(one), Amount::exactly(2), "no third day is asked for that is not there");
        });
        sit_to_stand("", |one, _| {
            assert_eq!(one.days, DaySet::of([Monday, Wednesday, Friday]));
            assert_eq!(days_of(one), Amount { low: 2, high: 3 });
        });
    }

    #[test]
    fn strength_of_the_same_region_leaves_it_a_clear_day() {
        let raise = "content/exercises/heel-raise.md";
        let strong = edited(
            raise,
            &[
                ("component = \"power\"", "component = \"strength\"\ntrains = [\"calves\", \"thighs\"]"),
                ("days = \"3-4\"", "days = 2\nrest_days = 1"),
            ],
        );
        with_sample(&[(raise, &strong)], |model| {
            let profile = "name = \"J. K.\"\nprecautions = []\ndays = [\"tuesday\", \"thursday\", \"friday\", \"sunday\"]\n";
            let (client, findings) = entry::read_client(profile, FileId(0), &model.site.catalogue);
            assert_eq!(findings, []);
            let client = client.unwrap();
            let need = Need::of(&client, &[], date(2026, 1, 12));
            let asked = ["sit-to-stand", "heel-raise"].map(|id| (&model.exercises[id], None));
            let choices = asked.map(|(exercise, used)| choose(exercise, used, &need, model));
            let personal = Personal::of(&client, &need, &asked, &choices, model);
            let [stand, raise] = personal.chosen.as_slice() else { panic!("{:?}", personal.chosen) };
            assert_eq!((stand.days.len(), raise.days.len(), &personal.plan.short), (3, 2, &vec![]));
            assert!(stand.days.union(raise.days).leaves(1), "{:?} {:?}", stand.days, raise.days);
            assert!(!stand.regions.shared(raise.regions).is_empty());
        });
    }

    #[test]
    fn a_week_that_is_too_short_asks_for_no_more_than_it_holds() {
        sit_to_stand("days = [\"monday\", \"tuesday\"]\n", |one, plan| {
            assert_eq!((one.days.len(), plan.short[0].wanted, plan.short[0].got), (1, 2, 1));
            assert_eq!(days_of(one), Amount::exactly(1));
        });
        // At the longest it takes 2 minutes.
        sit_to_stand("minutes = 1\n", |one, plan| {
            assert_eq!((one.days, plan.short[0].got), (DaySet::NONE, 0));
        });
    }
}
