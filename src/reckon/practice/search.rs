//! The exact search for the days of a practice week.
//!
//! First what is lost, then the limit, then how many days each exercise gets, then which. Whether a week with
//! certain losses has no day longer than a limit is found by trying the days of one exercise after another,
//! remembering what can be done in which room, and turning back where a bound shows that the room is too little.
//! Room that differs only in a way that cannot matter counts as the same: minutes that nothing to come can fill are
//! none, exercises without rest days do not see the order of the days, and rest days look the same when the week
//! is turned or mirrored.

mod bound;
mod room;

use std::cmp::Reverse;
use std::collections::HashMap;

use super::{DaySet, Free, Request, earliest};
use bound::{Bound, bounds, forced};
use room::{Room, has_twin, key, sorted, taken, turned};

/// The minutes of a day.
const DAY: u32 = 24 * 60;

/// The days of each request, in their order.
pub(super) fn arrange(requests: &[Request], free: Free) -> Vec<DaySet> {
    let mut order: Vec<usize> = (0..requests.len()).collect();
    order.sort_by_key(|&i| (requests[i].rest() == 0, Reverse(requests[i].minutes), i));
    let jobs: Vec<Job> = order.iter().map(|&i| Job::new(&requests[i], free)).collect();
    let mut chosen = vec![DaySet::NONE; requests.len()];
    for (days, &i) in choose(jobs, free).into_iter().zip(&order) {
        chosen[i] = days;
    }
    chosen
}

fn choose(jobs: Vec<Job>, free: Free) -> Vec<DaySet> {
    let all: u32 = jobs.iter().map(|job| job.minutes).sum();
    let most = free.minutes.unwrap_or(DAY).min(DAY).min(all);
    let mut search = Search::new(jobs, free.days, most);
    let losses = search.least_losses(most);
    let limit = search.least_limit(losses, most);
    let goal = search.raised(losses, limit);
    search.read_off(&goal, limit)
}

/// One exercise in the search.
struct Job {
    minutes: u32,
    rests: bool,
    /// The days it can have, the preferred first.
    patterns: Vec<DaySet>,
    /// By number of days: the sets that its rest days allow, free or not.
    shapes: [Vec<DaySet>; 8],
    /// By set of days: the most of them that its rest days allow.
    within: Vec<u32>,
    /// Its low number of days, or all that its rest days and the free days allow.
    need: u32,
    /// True when that is less than its low number.
    short_anyway: bool,
}

impl Job {
    fn new(request: &Request, free: Free) -> Job {
        let minutes = request.minutes.clamp(1, DAY);
        let fits = free.minutes.is_none_or(|most| minutes <= most);
        let spread = |days: DaySet| days.steps().map(|step| step * step).sum::<u32>();
        let mut shapes: [Vec<DaySet>; 8] = Default::default();
        let mut patterns = Vec::new();
        for days in (0..=DaySet::ALL.bits()).map(DaySet::from_bits) {
            if days.len() > request.high || !days.leaves(request.rest()) {
                continue;
            }
            shapes[days.len() as usize].push(days);
            if days.is_within(free.days) && (fits || days.is_empty()) {
                patterns.push(days);
            }
        }
        patterns.sort_by_cached_key(|&days| (Reverse(days.len()), spread(days), earliest(days)));
        let mut within: Vec<u32> = Vec::new();
        for days in (0..=DaySet::ALL.bits()).map(DaySet::from_bits) {
            let one_less = (0..7).map(|day| days.bits() & !(1 << day)).filter(|&less| less != days.bits());
            let most = match shapes[days.len() as usize].contains(&days) {
                true => days.len(),
                false => one_less.map(|less| within[usize::from(less)]).max().unwrap_or(0),
            };
            within.push(most);
        }
        let need = request.low.min(patterns.first().map_or(0, |days| days.len()));
        let short_anyway = need < request.low;
        Job { minutes, rests: request.rest() > 0, patterns, shapes, within, need, short_anyway }
    }

    /// How many more exercises go short when it loses so many days: one or none.
    fn fails(&self, lost: u32) -> usize {
        usize::from(lost > 0 && !self.short_anyway)
    }
}

/// What a week may fall short of what the exercises can have.
#[derive(Clone, Copy)]
struct Losses {
    /// How many exercises may go short that need not.
    failing: usize,
    /// How many days may be missing.
    missing: u32,
}

impl Losses {
    const NONE: Losses = Losses { failing: 0, missing: 0 };

    /// What is left of them when a job loses so many days.
    fn without(self, job: &Job, lost: u32) -> Option<Losses> {
        let failing = self.failing.checked_sub(job.fails(lost))?;
        Some(Losses { failing, missing: self.missing.checked_sub(lost)? })
    }
}

struct Search {
    jobs: Vec<Job>,
    free: DaySet,
    /// From this job on no job has rest days.
    restless: usize,
    /// By job: on it and the jobs after it.
    bounds: Vec<Vec<Bound>>,
    /// By job, failing exercises and room.
    known: HashMap<u128, Known>,
    /// By job and room, for jobs whose number of days is fixed; for one goal at a time.
    fixed: HashMap<u128, bool>,
}

/// What is known of a job and those after it in some room when so many of them may fail.
#[derive(Clone, Copy)]
struct Known {
    /// The fewest missing days with which they are known to hold.
    holds_from: u32,
    /// With fewer missing days than this they are known not to.
    fails_below: u32,
}

impl Search {
    fn new(jobs: Vec<Job>, free: DaySet, most: u32) -> Search {
        let restless = jobs.iter().position(|job| !job.rests).unwrap_or(jobs.len());
        let largest = Losses { failing: jobs.len(), missing: jobs.iter().map(|job| job.need).sum() };
        let bounds = bounds(&jobs, largest, most);
        Search { jobs, free, restless, bounds, known: HashMap::new(), fixed: HashMap::new() }
    }

    /// As few exercises as possible that go short, and with these as few missing days as possible. A week without
    /// any session is always possible.
    fn least_losses(&mut self, most: u32) -> Losses {
        let (all, asked) = (self.jobs.len(), self.jobs.iter().map(|job| job.need).sum());
        let room = self.room(most);
        let mut holds = |failing, missing| self.holds(0, room, Losses { failing, missing });
        let failing = (0..all).find(|&failing| holds(failing, asked)).unwrap_or(all);
        let missing = (0..asked).find(|&missing| holds(failing, missing)).unwrap_or(asked);
        Losses { failing, missing }
    }

    /// The least limit with these losses, which are reached within `most`.
    fn least_limit(&mut self, losses: Losses, most: u32) -> u32 {
        let least = self.bounds[0][0].needed(losses).div_ceil(self.free.len().max(1));
        (least..most).find(|&limit| self.holds(0, self.room(limit), losses)).unwrap_or(most)
    }

    /// The most days for the first job with these losses in the limit, then for the second, and so on, all of them
    /// up to their high number.
    fn raised(&mut self, mut losses: Losses, limit: u32) -> Vec<u32> {
        let room = self.room(limit);
        let mut goal = Vec::new();
        for at in 0..self.jobs.len() {
            let most = self.jobs[at].patterns.first().map_or(0, |days| days.len());
            goal.push(most);
            for days in (0..=most).rev() {
                let lost = self.jobs[at].need.saturating_sub(days);
                let Some(left) = losses.without(&self.jobs[at], lost) else { break };
                goal[at] = days;
                self.fixed.clear();
                if self.holds_fixed(0, room, &goal, left) {
                    losses = left;
                    break;
                }
            }
        }
        goal
    }

    /// The preferred week that reaches the goal, a number of days for each job, in the limit.
    fn read_off(&mut self, goal: &[u32], limit: u32) -> Vec<DaySet> {
        self.fixed.clear();
        let mut room = self.room(limit);
        let mut chosen = Vec::new();
        for at in 0..self.jobs.len() {
            for i in 0..self.jobs[at].patterns.len() {
                let days = self.jobs[at].patterns[i];
                let fits =
                    (days.len() == goal[at]).then(|| taken(days, self.jobs[at].minutes, &room)).flatten();
                if let Some(left) = fits.filter(|&left| self.holds_fixed(at + 1, left, goal, Losses::NONE)) {
                    chosen.push(days);
                    room = left;
                    break;
                }
            }
        }
        chosen
    }

    fn room(&self, limit: u32) -> Room {
        let mut room = [0; 7];
        self.free.iter().for_each(|day| room[day as usize] = limit as u16);
        room
    }

    /// The one form that stands for all room that is the same to the jobs from `at` on.
    fn form(&self, at: usize, room: Room) -> Room {
        let room = self.bounds[at][0].without_rest(room);
        if at >= self.restless { sorted(room) } else { turned(room) }
    }

    /// True when this room holds the jobs from `at` on with no greater losses.
    fn holds(&mut self, at: usize, room: Room, losses: Losses) -> bool {
        if at == self.jobs.len() {
            return true;
        }
        let Some((forced, others)) = forced(&self.jobs[at..], &room, losses) else { return false };
        if !self.bounds[at].iter().all(|bound| bound.allows(&room, &forced, others)) {
            return false;
        }
        let room = self.form(at, room);
        let key = key(at * (self.jobs.len() + 1) + losses.failing, &room);
        let mut known =
            self.known.get(&key).copied().unwrap_or(Known { holds_from: u32::MAX, fails_below: 0 });
        if losses.missing >= known.holds_from {
            return true;
        }
        if losses.missing < known.fails_below {
            return false;
        }
        let need = self.jobs[at].need;
        let holds = (0..=need).any(|lost| {
            let left = losses.without(&self.jobs[at], lost);
            left.is_some_and(|left| {
                self.any_set(at, need - lost, &room, |search, room| search.holds(at + 1, room, left))
            })
        });
        match holds {
            true => known.holds_from = losses.missing,
            false => known.fails_below = losses.missing + 1,
        }
        self.known.insert(key, known);
        holds
    }

    /// True when this room holds the jobs from `at` on, those that have a goal on exactly so many days, the others with
    /// no greater losses.
    fn holds_fixed(&mut self, at: usize, room: Room, goal: &[u32], losses: Losses) -> bool {
        if at >= goal.len() {
            return self.holds(at, room, losses);
        }
        let fixed: u32 = self.jobs[at..].iter().zip(&goal[at..]).map(|(job, days)| job.minutes * days).sum();
        if self.bounds[at][0].filled(&room) < fixed + self.bounds[goal.len()][0].needed(losses) {
            return false;
        }
        let room = self.form(at, room);
        let key = key(at, &room);
        if let Some(&known) = self.fixed.get(&key) {
            return known;
        }
        let holds =
            self.any_set(at, goal[at], &room, |search, room| search.holds_fixed(at + 1, room, goal, losses));
        self.fixed.insert(key, holds);
        holds
    }

    /// True when the job at `at` can be done on some set of so many days that leaves room of which `rest` is true.
    fn any_set(
        &mut self,
        at: usize,
        days: u32,
        room: &Room,
        mut rest: impl FnMut(&mut Search, Room) -> bool,
    ) -> bool {
        (0..self.jobs[at].shapes[days as usize].len()).any(|i| {
            let job = &self.jobs[at];
            let set = job.shapes[days as usize][i];
            let is_told = at >= self.restless && has_twin(set, room);
            let left = if is_told { None } else { taken(set, job.minutes, room) };
            left.is_some_and(|left| rest(self, left))
        })
    }
}
