//! Weighs one exercise: whether it can come next, and what speaks for it.

use std::collections::{BTreeMap, BTreeSet};

use super::history::{History, thing};
use super::search::Cost;
use super::{Candidate, Reason, Refusal, Wish};
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::targets;
use crate::model::vocabulary::Component;
use crate::reckon::answer::{Answers, of_choice};
use crate::reckon::demands;
use crate::reckon::dose::Practice;
use crate::reckon::ladder::{Ladder, Ladders};
use crate::reckon::preparation::{below, is_jump, just_below, unprepared_impacts};
use crate::reckon::safety::{Offer, refusals};

/// What exercises are weighed against.
pub(super) struct Asked<'a, 'm> {
    model: &'m Model,
    pub(super) wish: &'a Wish,
    ladders: &'a Ladders<'m>,
    answers: &'a Answers<'m>,
    history: &'a History<'m>,
    week: u32,
    serves: Vec<&'m str>,
    /// What everybody has who gets the week.
    all_have: Vec<&'m str>,
    /// The most landings of a session.
    pub(super) most_landings: u64,
    /// By how many percent the work of a component may rise.
    work_step: u64,
    /// Exercises that a harder one of their component was used above.
    left_behind: BTreeSet<&'m str>,
    /// The highest rung used, by the first exercise of the ladder and by component.
    highest: BTreeMap<(&'m str, Component), usize>,
}

/// An exercise that was looked at.
pub(super) struct Weighed<'m> {
    pub(super) candidate: Candidate<'m>,
    /// It is to be in the week on purpose.
    pub(super) kept: bool,
    /// It stands one rung above what earlier weeks used.
    next: bool,
    /// Why it cannot come next, the weightiest reason first; empty when it can.
    pub(super) why: Vec<Refusal<'m>>,
}

/// Where an exercise stands beside what earlier weeks used.
enum Step<'m> {
    Next {
        from: Vec<&'m str>,
    },
    Same {
        last: u32,
    },
    New,
    Lower {
        last: u32,
    },
    /// None of these, the exercises just below it, or not all that it builds on, was used.
    TooHigh {
        below: Vec<&'m str>,
    },
}

impl Weighed<'_> {
    pub(super) fn is_of(&self, component: Component) -> bool {
        self.candidate.exercise.component.value == component
    }

    /// True when it has to be said why it cannot come next.
    pub(super) fn is_awaited(&self) -> bool {
        self.kept || self.next
    }
}

impl<'a, 'm> Asked<'a, 'm> {
    pub(super) fn new(
        model: &'m Model,
        series: &'m Series,
        wish: &'a Wish,
        (ladders, answers): (&'a Ladders<'m>, &'a Answers<'m>),
        history: &'a History<'m>,
        week: u32,
    ) -> Asked<'a, 'm> {
        let mut left_behind = BTreeSet::new();
        let mut highest = BTreeMap::new();
        for exercise in history.used.iter().filter_map(|id| model.exercises.get(id)) {
            left_behind.extend(below(exercise, ladders, model));
            if let (Some(ladder), Some(rung)) =
                (ladders.ladder_of(&exercise.id), ladders.rung_of(&exercise.id))
            {
                let most = highest.entry((first(ladder), exercise.component.value)).or_insert(rung);
                *most = rung.max(*most);
            }
        }
        let site = &model.site;
        Asked {
            model,
            wish,
            ladders,
            answers,
            history,
            week,
            serves: series.serves.iter().map(|precaution| precaution.value.as_str()).collect(),
            all_have: series.all_have_ids().collect(),
            most_landings: u64::from(targets::IMPACTS.of(Some(series), site).high),
            work_step: u64::from(targets::WORK_STEP.of(Some(series), site).high),
            left_behind,
            highest,
        }
    }

    /// The minutes of work of a component now and before, when these practices are a jump.
    pub(super) fn jump<'p>(
        &self,
        component: Component,
        practices: impl Iterator<Item = &'p Practice>,
    ) -> Option<(u64, u64)> {
        let now: u64 = practices.map(|practice| practice.a_week(practice.work).high).sum();
        let before = self.history.most_work.get(&component).copied().unwrap_or(0);
        let minutes = |ms: u64| (ms + 30_000) / 60_000;
        is_jump(before, now, self.work_step).then(|| (minutes(now), minutes(before)))
    }

    /// The exercise weighed; `None` when its component is not known.
    pub(super) fn weigh(&self, exercise: &'m Exercise) -> Option<Weighed<'m>> {
        if !exercise.standing.knows("component") {
            return None;
        }
        let practice = Practice::of(exercise, &exercise.dose);
        let kept = self.wish.keep.contains(&exercise.id);
        let step = self.step(exercise);
        let why = self.why_not(exercise, &practice, &step, kept);
        let reasons = self.reasons(exercise, &step, kept);
        let cost = self.cost(exercise, &step, &reasons);
        let next = matches!(step, Step::Next { .. });
        Some(Weighed { candidate: Candidate { exercise, practice, reasons, cost }, kept, next, why })
    }

    fn step(&self, exercise: &'m Exercise) -> Step<'m> {
        let id = exercise.id.as_str();
        if let Some(&last) = self.history.last.get(id) {
            return match self.left_behind.contains(id) {
                true => Step::Lower { last },
                false => Step::Same { last },
            };
        }
        let below = just_below(exercise, self.ladders, self.model);
        if below.is_empty() {
            return Step::New;
        }
        let (from, unused): (Vec<_>, Vec<_>) = below.iter().partition(|id| self.history.used.contains(**id));
        match from.is_empty() || !self.is_within_reach(exercise) {
            true => Step::TooHigh { below: unused },
            false => Step::Next { from },
        }
    }

    /// True at most one rung above the highest that was used of its ladder.
    fn is_within_reach(&self, exercise: &Exercise) -> bool {
        let ladder = self.ladders.ladder_of(&exercise.id).map(first);
        let highest = ladder.and_then(|ladder| self.highest.get(&(ladder, exercise.component.value)));
        self.ladders.rung_of(&exercise.id) <= Some(highest.copied().unwrap_or(0) + 1)
    }

    fn why_not(
        &self,
        exercise: &'m Exercise,
        practice: &Practice,
        step: &Step<'m>,
        kept: bool,
    ) -> Vec<Refusal<'m>> {
        let fields = [
            "demands",
            "dose",
            "variation",
            "regression",
            "progression",
            "caution",
            "position",
            "surface",
            "figure",
        ];
        let unread = fields.into_iter().filter(|field| !exercise.standing.is_sound(field));
        let mut why: Vec<Refusal<'_>> = unread.map(|field| Refusal::Unread { field }).collect();
        if self.wish.leave_out.contains(&exercise.id) {
            why.push(Refusal::LeftOut);
        }
        let choice = |precaution| self.answers.get(exercise, precaution, self.model);
        let open = self.serves.iter().flat_map(|&precaution| of_choice(precaution, &choice(precaution)));
        why.extend(open.map(|u| Refusal::Unanswered {
            demand: u.demand().map(|demand| demand.id),
            precaution: u.precaution,
        }));
        // Whoever gets the week has these: it is for somebody only if all can do it as it stands.
        let for_nobody = refusals(&Offer::base(exercise, None), &self.all_have, self.model);
        why.extend(for_nobody.into_keys().map(|precaution| Refusal::ForNobody { precaution }));
        if let Step::TooHigh { below } = step {
            why.push(Refusal::Rung { below: below.clone() });
        }
        let had = |impact: &str| self.history.demands.contains(impact);
        why.extend(
            unprepared_impacts(exercise, had).map(|(impact, before)| Refusal::Impact { impact, before }),
        );
        if !kept {
            why.extend(self.too_soon(exercise));
            let jump = self.jump(exercise.component.value, std::iter::once(practice));
            why.extend(jump.map(|(minutes, before)| Refusal::Work { minutes, before }));
        }
        let landings = practice.all_impacts().high;
        if landings > self.most_landings {
            why.push(Refusal::Landings { landings, most: self.most_landings });
        }
        why
    }

    fn too_soon(&self, exercise: &Exercise) -> Option<Refusal<'m>> {
        let last = *self.history.last.get(exercise.id.as_str())?;
        let returns = last.saturating_add(self.wish.weeks_apart).saturating_add(1);
        if returns > self.week {
            return Some(Refusal::Recent { last, returns });
        }
        self.is_repeated(exercise).then_some(Refusal::SameDose { week: last })
    }

    /// True when the last week has it in the dose that it would have.
    fn is_repeated(&self, exercise: &Exercise) -> bool {
        let now = exercise.dose.values();
        self.history.last_doses.iter().any(|(id, dose)| *id == exercise.id && *dose == now)
    }

    fn reasons(&self, exercise: &'m Exercise, step: &Step<'m>, kept: bool) -> Vec<Reason<'m>> {
        let mut reasons = Vec::new();
        if kept {
            reasons.push(Reason::Kept);
        }
        reasons.extend(match step {
            Step::Next { from } => Some(Reason::NextRung { from: from.clone() }),
            Step::Same { last } => Some(Reason::SameRung { last: *last }),
            Step::New => Some(Reason::NewMovement),
            Step::Lower { last } => Some(Reason::LowerRung { last: *last }),
            Step::TooHigh { .. } => None,
        });
        if kept && self.is_repeated(exercise) {
            reasons.push(Reason::SameDose { week: self.week - 1 });
        }
        let things = exercise.equipment.iter().map(|t| t.value.as_str());
        let (known, new): (Vec<&str>, Vec<&str>) =
            things.partition(|name| self.history.things.contains(&thing(name)));
        reasons.push(match new.is_empty() {
            true => Reason::AtHand { things: known },
            false => Reason::NewEquipment { things: new },
        });
        reasons.extend(self.serves.iter().filter_map(|&precaution| {
            let choice = self.answers.get(exercise, precaution, self.model);
            match choice.form() {
                None => Some(Reason::NoForm { precaution }),
                Some(_) if choice.is_base() => None,
                Some(form) => Some(Reason::OtherForm { precaution, form }),
            }
        }));
        reasons
    }

    /// The figures by which exercises are ranked, in the order that the module gives.
    fn cost(&self, exercise: &Exercise, step: &Step<'_>, reasons: &[Reason<'_>]) -> Cost {
        let count = |is: fn(&Reason<'_>) -> bool| reasons.iter().filter(|r| is(r)).count() as i64;
        let last = self.history.last.get(exercise.id.as_str()).copied().unwrap_or(0);
        let catalogue = &self.model.site.catalogue;
        let restricted = |demand: &str| self.serves.iter().any(|p| catalogue.row(p, demand).is_some());
        let asked = demands::of_base(exercise, &self.model.site);
        Cost([
            count(|r| matches!(r, Reason::NoForm { .. })),
            -i64::from(matches!(step, Step::Next { .. })),
            -i64::from(matches!(step, Step::Same { .. })),
            -i64::from(matches!(step, Step::New)),
            count(|r| matches!(r, Reason::OtherForm { .. })),
            count(|r| matches!(r, Reason::NewEquipment { .. })),
            -i64::from(self.week - last),
            asked.iter().filter(|demand| restricted(demand.id)).count() as i64,
        ])
    }
}

/// What tells a ladder from the others: its first exercise.
fn first<'m>(ladder: &Ladder<'m>) -> &'m str {
    ladder.rungs.first().and_then(|rung| rung.first()).copied().unwrap_or_default()
}
