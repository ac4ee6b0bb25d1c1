//! The exact search for the days of a practice week.
//!
//! First how many days each exercise gets, then which. Goals, a number of days for each exercise, are tried
//! from the best on: first all that the exercises ask for, then with one exercise going short, and so on.
//! Whether a goal can be reached when no day is longer than a limit is found by trying the days of one
//! exercise after another, remembering what cannot be done. Room that differs only in a way that cannot matter
//! counts as the same: exercises without rest days do not see the order of the days, and rest days look the
//! same when the week is turned or mirrored. The limit is raised from the least that is possible until a goal
//! of the best kind is reached; then the choices are read off in order of preference.

use std::cmp::Reverse;
use std::collections::HashMap;

use super::{DaySet, Free, Request, earliest};

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
    let asked = search.jobs.iter().map(|job| job.need).sum::<u32>();
    for failing in 0..=search.jobs.len() {
        for missing in failing as u32..=asked {
            let goals = search.goals(failing, missing, most);
            if goals.is_empty() || !goals.iter().any(|goal| search.reaches(goal, most)) {
                continue;
            }
            let least = goals.iter().map(|goal| search.least(goal)).min().unwrap_or(0);
            for limit in least..=most {
                let mut reached = goals.clone();
                reached.retain(|goal| search.reaches(goal, limit));
                if let Some(goal) = search.raised(reached, limit) {
                    return search.read_off(&goal, limit);
                }
            }
        }
    }
    vec![DaySet::NONE; search.jobs.len()]
}

/// One exercise in the search.
struct Job {
    minutes: u32,
    rests: bool,
    /// The days it can have, the preferred first.
    patterns: Vec<DaySet>,
    /// By number of days: the sets that its rest days allow, free or not.
    shapes: [Vec<DaySet>; 8],
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
        let need = request.low.min(patterns.first().map_or(0, |days| days.len()));
        Job { minutes, rests: request.rest() > 0, patterns, shapes, need, short_anyway: need < request.low }
    }
}

/// The days that each exercise is to have.
#[derive(Clone)]
struct Goal {
    days: Vec<u32>,
    /// By job: the minutes that it and the jobs after it need.
    needed: Vec<u32>,
}

/// The minutes left on each day; none on a day that is not free.
type Room = [u16; 7];

struct Search {
    jobs: Vec<Job>,
    free: DaySet,
    /// From this job on no job has rest days.
    restless: usize,
    /// By job: of so much room on a day, the most that it and the jobs after it can fill.
    fill: Vec<Vec<u16>>,
    known: HashMap<u128, bool>,
}

impl Search {
    fn new(jobs: Vec<Job>, free: DaySet, most: u32) -> Search {
        let restless = jobs.iter().position(|job| !job.rests).unwrap_or(jobs.len());
        let mut reachable = vec![false; most as usize + 1];
        reachable[0] = true;
        let mut fill = vec![vec![0; most as usize + 1]];
        for job in jobs.iter().rev() {
            let minutes = job.minutes as usize;
            for at in (minutes..reachable.len()).rev() {
                reachable[at] |= reachable[at - minutes];
            }
            let mut last = 0;
            let filled = reachable.iter().enumerate().map(|(at, &is)| {
                last = if is { at as u16 } else { last };
                last
            });
            fill.push(filled.collect());
        }
        fill.reverse();
        Search { jobs, free, restless, fill, known: HashMap::new() }
    }

    /// Every goal in which so many exercises go short that need not, and so many days are missing from what the
    /// exercises can have, as far as the minutes of the week hold it.
    fn goals(&self, failing: usize, missing: u32, limit: u32) -> Vec<Goal> {
        let needed: u32 = self.jobs.iter().map(|job| job.need * job.minutes).sum();
        let lacking = needed.saturating_sub(self.filled(0, &self.room(limit)));
        let mut found = Vec::new();
        self.lose(&mut Vec::new(), failing, missing, lacking, &mut found);
        found
    }

    /// Takes away days, job by job, until none is left to take away and at least `lacking` minutes are saved.
    fn lose(&self, days: &mut Vec<u32>, failing: usize, missing: u32, lacking: u32, found: &mut Vec<Goal>) {
        let rest = &self.jobs[days.len()..];
        let Some(job) = rest.first() else {
            if failing == 0 && missing == 0 && lacking == 0 {
                found.push(Goal::new(days.clone(), &self.jobs));
            }
            return;
        };
        let longest = rest.iter().filter(|job| job.need > 0).map(|job| job.minutes).max().unwrap_or(0);
        if missing * longest < lacking || missing > rest.iter().map(|job| job.need).sum() {
            return;
        }
        for lost in 0..=job.need.min(missing) {
            let fails = usize::from(lost > 0 && !job.short_anyway);
            if fails > failing {
                break;
            }
            days.push(job.need - lost);
            let saved = lost * job.minutes;
            self.lose(days, failing - fails, missing - lost, lacking.saturating_sub(saved), found);
            days.pop();
        }
    }

    /// A limit that no week with this goal goes below.
    fn least(&self, goal: &Goal) -> u32 {
        let used = self.jobs.iter().zip(&goal.days).filter(|&(_, &days)| days > 0);
        let longest = used.map(|(job, _)| job.minutes).max().unwrap_or(0);
        goal.needed[0].div_ceil(self.free.len().max(1)).max(longest)
    }

    /// True when a week with this goal has no day longer than `limit` minutes.
    fn reaches(&mut self, goal: &Goal, limit: u32) -> bool {
        self.known.clear();
        self.holds(goal, 0, self.room(limit))
    }

    fn room(&self, limit: u32) -> Room {
        let mut room = [0; 7];
        self.free.iter().for_each(|day| room[day as usize] = limit as u16);
        room
    }

    /// The most minutes that the jobs from `at` on can fill, if each day is looked at by itself.
    fn filled(&self, at: usize, room: &Room) -> u32 {
        room.iter().map(|&minutes| u32::from(self.fill[at][usize::from(minutes)])).sum()
    }

    /// True when this room holds what the goal has for the jobs from `at` on.
    fn holds(&mut self, goal: &Goal, at: usize, room: Room) -> bool {
        if at == self.jobs.len() {
            return true;
        }
        if self.filled(at, &room) < goal.needed[at] {
            return false;
        }
        let room = if at >= self.restless { sorted(room) } else { turned(room) };
        let key = key(at, &room);
        if let Some(&known) = self.known.get(&key) {
            return known;
        }
        let size = goal.days[at] as usize;
        let mut holds = false;
        for i in 0..self.jobs[at].shapes[size].len() {
            let days = self.jobs[at].shapes[size][i];
            if at >= self.restless && has_twin(days, &room) {
                continue;
            }
            let Some(left) = taken(days, self.jobs[at].minutes, &room) else { continue };
            if self.holds(goal, at + 1, left) {
                holds = true;
                break;
            }
        }
        self.known.insert(key, holds);
        holds
    }

    /// Of these goals, each of which is reached in the limit, the one with the most days for the first job,
    /// then for the second, and so on, all of them up to their high number.
    fn raised(&mut self, mut goals: Vec<Goal>, limit: u32) -> Option<Goal> {
        for at in 0..self.jobs.len() {
            let need = self.jobs[at].need;
            let most = self.jobs[at].patterns.first().map_or(0, |days| days.len());
            let raised = (0..=most).rev().find_map(|days| {
                let counts = days.min(need);
                let open = goals.iter().filter(|goal| goal.days[at] == counts);
                let mut open: Vec<Goal> = open.map(|goal| goal.with(at, days, &self.jobs)).collect();
                open.retain(|goal| goal.days[at] == counts || self.reaches(goal, limit));
                (!open.is_empty()).then_some(open)
            });
            goals = raised?;
        }
        goals.into_iter().next()
    }

    /// The preferred week that reaches the goal in the limit.
    fn read_off(&mut self, goal: &Goal, limit: u32) -> Vec<DaySet> {
        self.known.clear();
        let mut room = self.room(limit);
        let mut chosen = Vec::new();
        for at in 0..self.jobs.len() {
            for i in 0..self.jobs[at].patterns.len() {
                let days = self.jobs[at].patterns[i];
                let fits = (days.len() == goal.days[at])
                    .then(|| taken(days, self.jobs[at].minutes, &room))
                    .flatten();
                if let Some(left) = fits.filter(|&left| self.holds(goal, at + 1, left)) {
                    chosen.push(days);
                    room = left;
                    break;
                }
            }
        }
        chosen
    }
}

impl Goal {
    fn new(days: Vec<u32>, jobs: &[Job]) -> Goal {
        let mut needed = vec![0];
        for (job, days) in jobs.iter().zip(&days).rev() {
            needed.push(needed[needed.len() - 1] + days * job.minutes);
        }
        needed.reverse();
        Goal { days, needed }
    }

    /// The same goal with so many days for the job at `at`.
    fn with(&self, at: usize, days: u32, jobs: &[Job]) -> Goal {
        let mut all = self.days.clone();
        all[at] = days;
        Goal::new(all, jobs)
    }
}

/// The room that a session of so many minutes leaves when it is done on these days; `None` when it does not fit.
fn taken(days: DaySet, minutes: u32, room: &Room) -> Option<Room> {
    let mut room = *room;
    for (day, left) in room.iter_mut().enumerate() {
        if days.bits() & 1 << day != 0 {
            *left = left.checked_sub(minutes as u16)?;
        }
    }
    Some(room)
}

/// The room of the days with the most room first.
fn sorted(mut room: Room) -> Room {
    room.sort_unstable_by_key(|&minutes| Reverse(minutes));
    room
}

/// The week turned and mirrored to the one form that all its forms share.
fn turned(room: Room) -> Room {
    let mut mirrored = room;
    mirrored.reverse();
    let turns = (0..7).flat_map(|by| {
        [room, mirrored].map(|mut week| {
            week.rotate_left(by);
            week
        })
    });
    turns.max().unwrap_or(room)
}

/// True when the same set with one day swapped for an earlier one that has as much room stands for it.
fn has_twin(days: DaySet, room: &Room) -> bool {
    let has = |day: usize| days.bits() & 1 << day != 0;
    (1..7).any(|day| has(day) && !has(day - 1) && room[day] == room[day - 1])
}

/// The job and the room as one number: a day has less than 2^11 minutes.
fn key(at: usize, room: &Room) -> u128 {
    room.iter().fold(at as u128, |key, &minutes| key << 11 | u128::from(minutes))
}
