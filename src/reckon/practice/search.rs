//! The exact search for the days of a practice week.
//!
//! First what is lost, then the limit, then how many days each exercise gets, then which. Whether a week with
//! certain losses has no day longer than a limit is found by trying the days of one exercise after another,
//! remembering what can be done in which room, and turning back where a bound shows that the room is too little.
//! Room that differs only in a way that cannot matter counts as the same: minutes that nothing to come can fill are
//! none, exercises without rest days do not see the order of the days, rest days look the same when the week is
//! turned or mirrored, and regions that the same exercises to come train are one region.

mod bound;
mod room;

use std::cmp::Reverse;
use std::collections::HashMap;

use super::{DaySet, Free, Request, earliest};
use crate::model::vocabulary::Region;
use crate::reckon::regions::Regions;
use bound::{Bound, bounds, forced};
use room::{Key, Room, has_twin};

/// The minutes of a day.
const DAY: u32 = 24 * 60;

/// The days of each request, in their order.
pub(super) fn arrange(requests: &[Request], free: Free) -> Vec<DaySet> {
    let mut order: Vec<usize> = (0..requests.len()).collect();
    order.sort_by_key(|&i| (requests[i].rest() == 0, Reverse(requests[i].minutes), i));
    let mut jobs: Vec<Job> = order.iter().map(|&i| Job::new(&requests[i], free)).collect();
    keep_shared(&mut jobs);
    let mut chosen = vec![DaySet::NONE; requests.len()];
    for (days, &i) in choose(jobs, free).into_iter().zip(&order) {
        chosen[i] = days;
    }
    chosen
}

/// Leaves each job only the regions that another one trains too.
fn keep_shared(jobs: &mut [Job]) {
    let trained: Vec<Regions> = jobs.iter().map(|job| job.regions).collect();
    for (at, job) in jobs.iter_mut().enumerate() {
        let others = trained[..at].iter().chain(&trained[at + 1..]);
        job.regions = job.regions.shared(others.fold(Regions::NONE, |all, &regions| all.union(regions)));
    }
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
    /// Those on whose neighboring days it must not be done.
    regions: Regions,
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
        let (rests, regions) = (request.rest() > 0, request.rested_regions());
        Job { minutes, rests, regions, patterns, shapes, within, need, short_anyway }
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

/// Regions that the same jobs train, of all jobs from some job on.
struct Linked {
    regions: Regions,
    /// The one that stands for all of them.
    first: Region,
    /// The shortest session of these jobs.
    shortest: u32,
}

struct Search {
    jobs: Vec<Job>,
    free: DaySet,
    /// From this job on no job has rest days.
    restless: usize,
    /// By job: the regions of it and of the jobs after it.
    linked: Vec<Vec<Linked>>,
    /// By job: on it and the jobs after it.
    bounds: Vec<Vec<Bound>>,
    /// By job, failing exercises and room.
    known: HashMap<Key, Known>,
    /// By job and room, for jobs whose number of days is fixed; for one goal at a time.
    fixed: HashMap<Key, bool>,
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
        let linked: Vec<Vec<Linked>> = (0..=jobs.len()).map(|at| linked(&jobs[at..])).collect();
        let bounds = bounds(&jobs, &linked, largest, most);
        Search { jobs, free, restless, linked, bounds, known: HashMap::new(), fixed: HashMap::new() }
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
                let fits = (days.len() == goal[at]).then(|| room.without(&self.jobs[at], days)).flatten();
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
        Room::on(self.free, limit)
    }

    /// The same to the jobs from `at` on, with one region for all that stand for each other and no day closed
    /// that is too short anyway.
    fn merged(&self, at: usize, room: Room) -> Room {
        let mut closed = [DaySet::NONE; Regions::COUNT];
        for linked in &self.linked[at] {
            let short = DaySet::ALL.without(room.days_with(linked.shortest));
            closed[linked.first as usize] = room.closed_to(linked.regions).without(short);
        }
        Room { closed, ..room }
    }

    /// The one form that stands for all merged room that is the same to the jobs from `at` on.
    fn form(&self, at: usize, room: Room) -> Room {
        let room = Room { minutes: self.bounds[at][0].without_rest(room.minutes), ..room };
        if at >= self.restless { room.sorted() } else { room.turned() }
    }

    /// True when this room holds the jobs from `at` on with no greater losses.
    fn holds(&mut self, at: usize, room: Room, losses: Losses) -> bool {
        if at == self.jobs.len() {
            return true;
        }
        let room = self.merged(at, room);
        let Some((forced, others)) = forced(&self.jobs[at..], &room, losses) else { return false };
        if !self.bounds[at].iter().all(|bound| bound.allows(&room, &forced, others)) {
            return false;
        }
        let room = self.form(at, room);
        let key = room.key(at * (self.jobs.len() + 1) + losses.failing);
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
        let room = self.merged(at, room);
        if self.bounds[at][0].filled(&room) < fixed + self.bounds[goal.len()][0].needed(losses) {
            return false;
        }
        let room = self.form(at, room);
        let key = room.key(at);
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
            let is_told = at >= self.restless && has_twin(set, &room.minutes);
            let left = if is_told { None } else { room.without(job, set) };
            left.is_some_and(|left| rest(self, left))
        })
    }
}

/// The regions of these jobs, put together where the same jobs train them.
fn linked(jobs: &[Job]) -> Vec<Linked> {
    let all = jobs.iter().fold(Regions::NONE, |all, job| all.union(job.regions));
    let train = |region: Region| jobs.iter().filter(move |job| job.regions.contains(region));
    let same = |one: Region, other: Region| {
        jobs.iter().all(|job| job.regions.contains(one) == job.regions.contains(other))
    };
    let first = all.iter().filter(|&region| all.iter().find(|&one| same(one, region)) == Some(region));
    let link = |first: Region| Linked {
        regions: Regions::of(all.iter().filter(|&region| same(first, region))),
        first,
        shortest: train(first).map(|job| job.minutes).min().unwrap_or(0),
    };
    first.map(link).collect()
}
