//! Proposals for the next week of a series: for each component the exercises that could come next, ranked, and
//! one of each chosen so that the session fits the time. They are for a licensed clinician to judge.
//!
//! An exercise can come next when all of this holds:
//!
//! - all that is reckoned with could be read, and it is not to be left out;
//! - each demand that a served precaution restricts is answered, and it is safe as it stands for what everybody has, as
//!   `unanswered-demand` asks;
//! - an earlier week used it, or an exercise one rung below it, or it has none below; and it stands at most one
//!   rung above the highest that earlier weeks used of its ladder;
//! - an impact of the level below its own was in an earlier week, as `impact-unprepared` asks;
//! - it was in none of the last weeks (`weeks_apart`), unless it is kept on purpose;
//! - its landings stay within the cap, and the work of its component rises by no more than the step, as
//!   `impact-cap` and `dose-jump` ask.
//!
//! These are ranked by, in this order:
//!
//! 1. fewer served precautions of which nobody has a safe form of it;
//! 2. the next rung up, then the rung on which the series stands, then a movement that is new and builds on
//!    nothing, then a rung that the series has left behind;
//! 3. fewer served precautions whose people do another form than the exercise as it stands: it is a whole form, with its
//!    own steps and dose, and weighs less than that the series moves on;
//! 4. nothing needed that no earlier week needed;
//! 5. a longer time since it was last used, the longest where it never was;
//! 6. fewer demands that a served precaution restricts, answered though they are;
//! 7. the id.
//!
//! One exercise of each component is chosen, and of a component with exercises kept on purpose all of those. Of all
//! choices whose session takes no more than the minutes at the high end of its doses, the ways into the exercises
//! included, and has no more landings than the cap, it is the one with, in this order, the least of 1 in
//! all, the most next rungs, then the most same rungs, then the most new movements, the least of 3 in all, the fewest
//! exercises that need something new, the most weeks since last use in all, the fewest of 6 in all, and the best ranks, posture first.
//! The search is exact.

mod candidate;
mod history;
mod search;
mod told;

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::answer::Answers;
use super::dose::{Practice, Session};
use super::ladder::Ladders;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::series::Series;
use crate::model::site::Site;
use crate::model::targets;
use crate::model::vocabulary::{Component, Vocabulary};
use candidate::{Asked, Weighed};
use history::History;
pub use history::Unknown;
use search::{Item, Limits};

/// What a next week is to be like.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wish {
    /// The most minutes that its session may take.
    pub minutes: u32,
    /// An exercise of the last so many weeks is not proposed.
    pub weeks_apart: u32,
    /// Ids of exercises that are to be in it on purpose, however lately they were used.
    pub keep: BTreeSet<String>,
    /// Ids of exercises that are not to be in it.
    pub leave_out: BTreeSet<String>,
}

/// Proposals for the next week of a series.
#[derive(Clone, Debug)]
pub struct Proposal<'m> {
    pub week: u32,
    /// One week after the last, or the start of the series.
    pub date: Date,
    pub wish: Wish,
    /// The four components in their fixed order.
    pub lists: Vec<List<'m>>,
    /// The chosen exercises in the order of the components, or why nothing fits.
    pub choice: Result<Session<'m>, Unfit<'m>>,
}

/// What could come next for one component.
#[derive(Clone, Debug)]
pub struct List<'m> {
    pub component: Component,
    /// The best first; those kept on purpose before the others.
    pub candidates: Vec<Candidate<'m>>,
    /// Exercises that would be the next rung, or are to be kept, and cannot come next; where there are no
    /// candidates, all exercises of the component.
    pub refused: Vec<Refused<'m>>,
}

/// An exercise that could come next, in its own dose.
#[derive(Clone, Debug)]
pub struct Candidate<'m> {
    pub exercise: &'m Exercise,
    pub practice: Practice,
    pub reasons: Vec<Reason<'m>>,
    cost: search::Cost,
}

/// What speaks for an exercise, and what the educator has to know of it.
#[derive(Clone, Debug)]
pub enum Reason<'m> {
    /// It is to be in the week on purpose.
    Kept,
    /// One rung above exercises that earlier weeks used.
    NextRung { from: Vec<&'m str> },
    /// Used before, and nothing above it on its ladder was.
    SameRung { last: u32 },
    /// Never used, and nothing has to come before it.
    NewMovement,
    /// Used before, and so was a harder rung above it.
    LowerRung { last: u32 },
    /// Earlier weeks needed all that it needs; empty when it needs nothing.
    AtHand { things: Vec<&'m str> },
    /// No earlier week needed these things.
    NewEquipment { things: Vec<&'m str> },
    /// People with this precaution do another form of it.
    OtherForm { precaution: &'m str, form: Form<'m> },
    /// People with this precaution have no safe form of it, though its demands are answered.
    NoForm { precaution: &'m str },
    /// Kept in the dose that it had in the last week.
    SameDose { week: u32 },
}

/// An exercise that cannot come next.
#[derive(Clone, Debug)]
pub struct Refused<'m> {
    pub exercise: &'m Exercise,
    /// Never empty; the weightiest reason first.
    pub why: Vec<Refusal<'m>>,
}

/// Why an exercise cannot come next, the weightiest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal<'m> {
    /// Something in this field of it could not be read.
    Unread { field: &'static str },
    /// It is to be left out.
    LeftOut,
    /// No form of it is safe for people with a served precaution; the demand that keeps them from it, where one does.
    Unanswered { demand: Option<&'m str>, precaution: &'m str },
    /// Everybody who gets the week has this precaution, and as it stands it is not for them.
    ForNobody { precaution: &'m str },
    /// No earlier week used these, the exercises just below it.
    Rung { below: Vec<&'m str> },
    /// No earlier week has the impact that prepares for its own.
    Impact { impact: &'static str, before: &'static str },
    /// It was used in one of the last weeks, and may return in another.
    Recent { last: u32, returns: u32 },
    /// The last week has it in the same dose.
    SameDose { week: u32 },
    /// It has more landings than a session may.
    Landings { landings: u64, most: u64 },
    /// Its component would have so many minutes of work a week, after at most so many before.
    Work { minutes: u64, before: u64 },
    /// It takes so many minutes by itself.
    Minutes { minutes: u64 },
}

/// Why no choice fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unfit<'m> {
    /// This exercise is to be kept and cannot be: it is among the refused.
    Kept { id: &'m str },
    /// Nothing can come next for these components.
    Nothing { components: Vec<Component> },
    /// The exercises kept for this component are so many minutes of work a week, after at most so many before.
    Work { component: Component, minutes: u64, before: u64 },
    /// Every choice has at least so many landings, more than the most.
    Landings { least: u64, most: u64 },
    /// Every choice takes at least so many minutes.
    Minutes { least: u64 },
}

impl Wish {
    /// What the targets of a series, or else of the site, ask for.
    pub fn of(series: &Series, site: &Site) -> Wish {
        Wish {
            minutes: targets::SESSION_MINUTES.of(Some(series), site).high,
            weeks_apart: targets::WEEKS_APART.of(Some(series), site).high,
            keep: BTreeSet::new(),
            leave_out: BTreeSet::new(),
        }
    }

    fn milliseconds(&self) -> u64 {
        u64::from(self.minutes) * 60_000
    }
}

impl<'m> Proposal<'m> {
    /// The proposals for the week after the last one, or why what came before is not known well enough. `ladders` are
    /// those of the model; `answers` remember, from one series to the next, what people with a precaution get.
    ///
    /// # Errors
    /// Which week before is not known well enough, and why.
    pub fn of(
        model: &'m Model,
        ladders: &Ladders<'m>,
        answers: &Answers<'m>,
        series: &'m Series,
        wish: &Wish,
    ) -> Result<Proposal<'m>, Unknown<'m>> {
        let history = History::of(model, series)?;
        let (week, date) = series.next_week();
        let asked = Asked::new(model, series, wish, (ladders, answers), &history, week);
        let mut weighed: Vec<Weighed<'_>> = model.exercises.values().filter_map(|e| asked.weigh(e)).collect();
        // They come in order of their ids, which a stable sort keeps.
        weighed.sort_by_key(|one| (!one.kept, one.candidate.cost));
        let choice = chosen(&weighed, &asked);
        let lists = Component::ALL.iter().map(|&component| list(component, &weighed, wish)).collect();
        Ok(Proposal { week, date, wish: wish.clone(), lists, choice })
    }

    /// The best candidates of a list, as many as can be weighed at a glance, and whatever of it is in the choice.
    pub fn best<'a>(&'a self, list: &'a List<'m>) -> Vec<&'a Candidate<'m>> {
        const MOST: usize = 5;
        let chosen = list.candidates.iter().filter(|one| self.chooses(one.exercise)).count();
        let mut others = MOST.saturating_sub(chosen);
        let mut best = Vec::new();
        for one in &list.candidates {
            if self.chooses(one.exercise) {
                best.push(one);
            } else if others > 0 {
                others -= 1;
                best.push(one);
            }
        }
        best
    }

    /// The next rungs of a list that stand behind the best: the educator may wonder where they are.
    pub fn behind<'a>(&'a self, list: &'a List<'m>) -> Vec<&'a Candidate<'m>> {
        let best = self.best(list);
        let is_best = |one: &Candidate<'_>| best.iter().any(|other| other.exercise.id == one.exercise.id);
        list.candidates.iter().filter(|one| one.is_next_rung() && !is_best(one)).collect()
    }

    /// True for an exercise of the choice.
    pub fn chooses(&self, exercise: &Exercise) -> bool {
        self.choice.as_ref().is_ok_and(|session| session.practices.iter().any(|(e, _)| e.id == exercise.id))
    }
}

impl Candidate<'_> {
    /// True one rung above what earlier weeks used.
    pub fn is_next_rung(&self) -> bool {
        self.reasons.iter().any(|reason| matches!(reason, Reason::NextRung { .. }))
    }
}

/// The choice of one exercise of each component that fits, or what stands in the way.
fn chosen<'m>(weighed: &[Weighed<'m>], asked: &Asked<'_, 'm>) -> Result<Session<'m>, Unfit<'m>> {
    if let Some(kept) = weighed.iter().find(|one| one.kept && !one.why.is_empty()) {
        return Err(Unfit::Kept { id: &kept.candidate.exercise.id });
    }
    let fits = |one: &Weighed<'_>, component| one.is_of(component) && one.why.is_empty();
    let mut missing = Component::ALL.to_vec();
    missing.retain(|&component| !weighed.iter().any(|one| fits(one, component)));
    if !missing.is_empty() {
        return Err(Unfit::Nothing { components: missing });
    }
    let mut bundles: Vec<Vec<Vec<&Candidate<'m>>>> = Vec::new();
    for &component in Component::ALL {
        let of_it = || weighed.iter().filter(move |one| fits(one, component));
        let kept: Vec<&Candidate<'_>> = of_it().filter(|one| one.kept).map(|one| &one.candidate).collect();
        if let Some((now, before)) = asked.jump(component, kept.iter().map(|one| &one.practice)) {
            return Err(Unfit::Work { component, minutes: now, before });
        }
        bundles.push(match kept.is_empty() {
            true => of_it().map(|one| vec![&one.candidate]).collect(),
            false => vec![kept],
        });
    }
    let lists: Vec<Vec<Item>> =
        bundles.iter().map(|list| list.iter().map(|bundle| item(bundle)).collect()).collect();
    let least = lists.iter().flat_map(|list| list.iter().map(|item| item.landings).min()).sum();
    if least > asked.most_landings {
        return Err(Unfit::Landings { least, most: asked.most_landings });
    }
    let limits = Limits { time: asked.wish.milliseconds(), landings: asked.most_landings };
    let Some(picked) = search::best(&lists, limits) else {
        let least = search::shortest(&lists, limits.landings).unwrap_or(u64::MAX);
        return Err(Unfit::Minutes { least: least.div_ceil(60_000) });
    };
    let bundles = bundles.iter().zip(picked).flat_map(|(list, at)| &list[at]);
    Ok(Session { practices: bundles.map(|one| (one.exercise, one.practice.clone())).collect() })
}

fn item(bundle: &[&Candidate<'_>]) -> Item {
    let whole = |practice: &Practice| practice.whole().high;
    Item {
        cost: bundle.iter().map(|one| one.cost).sum(),
        time: bundle.iter().map(|one| whole(&one.practice)).sum(),
        landings: bundle.iter().map(|one| one.practice.all_impacts().high).sum(),
    }
}

/// The candidates of a component whose exercises are short enough, and those of the others that are to be told.
fn list<'m>(component: Component, weighed: &[Weighed<'m>], wish: &Wish) -> List<'m> {
    let mut candidates = Vec::new();
    let mut refused = Vec::new();
    for one in weighed.iter().filter(|one| one.is_of(component)) {
        let time = one.candidate.practice.whole();
        let mut why = one.why.clone();
        if time.high > wish.milliseconds() {
            why.push(Refusal::Minutes { minutes: time.high.div_ceil(60_000) });
        }
        match why.is_empty() {
            true => candidates.push(one.candidate.clone()),
            false => refused.push((one.is_awaited(), Refused { exercise: one.candidate.exercise, why })),
        }
    }
    let all = candidates.is_empty();
    let refused = refused.into_iter().filter(|(awaited, _)| all || *awaited).map(|(_, refused)| refused);
    List { component, refused: refused.collect(), candidates }
}

#[cfg(test)]
mod properties;
#[cfg(test)]
mod tests;
