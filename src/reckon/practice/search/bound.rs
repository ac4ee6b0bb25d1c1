//! What some jobs need of a week at the least: a room that has less cannot hold them.

use super::room::Room;
use super::{DaySet, Job, Linked, Losses};
use crate::model::vocabulary::Region;
use crate::reckon::regions::Regions;

/// Bounds on some jobs at once: the minutes that they fill and the sessions that go into a day, each day looked at
/// by itself.
#[derive(Clone)]
pub(super) struct Bound {
    /// Of so much room on a day, the most that the jobs can fill.
    fill: Vec<u16>,
    /// In so much room on a day, the most sessions of them.
    slots: Vec<u16>,
    among: Among,
    /// The days that they need together.
    days: u32,
    /// The minutes that they need together.
    minutes: u32,
    /// By failing exercises and missing days: the most minutes that such losses save.
    saved: Vec<Vec<u32>>,
}

/// Which jobs a bound is on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Among {
    /// Those whose session is no shorter.
    Lasting(u32),
    /// Those that train this region: together they have three days at the most, with a clear day between them.
    Training(Region),
}

impl Among {
    fn has(self, length: u32, regions: Regions) -> bool {
        match self {
            Among::Lasting(shortest) => length >= shortest,
            Among::Training(region) => regions.contains(region),
        }
    }
}

/// By job, the bounds on it and all jobs after it, then on the longer ones of these alone, for whom the others leave
/// no more room, then on those of one region. A day has at most `most` minutes.
pub(super) fn bounds(jobs: &[Job], linked: &[Vec<Linked>], largest: Losses, most: u32) -> Vec<Vec<Bound>> {
    let mut lengths: Vec<u32> = jobs.iter().map(|job| job.minutes).collect();
    lengths.push(0);
    lengths.sort_unstable();
    lengths.dedup();
    let among = lengths.into_iter().map(Among::Lasting);
    let among = among.chain(linked[0].iter().flat_map(|l| l.regions.iter()).map(Among::Training));
    let mut of_rest: Vec<Bound> = among.map(|among| Bound::on_none(among, largest, most)).collect();
    let mut all = vec![of_rest[..1].to_vec()];
    for (at, job) in jobs.iter().enumerate().rev() {
        let has_it = |bound: &&mut Bound| bound.among.has(job.minutes, job.regions);
        of_rest.iter_mut().filter(has_it).for_each(|bound| bound.add(job));
        let rest = &jobs[at..];
        let shortest = rest.iter().map(|job| job.minutes).min();
        let says_more = |bound: &&Bound| match bound.among {
            Among::Lasting(0) => true,
            Among::Lasting(length) => Some(length) > shortest && rest.iter().any(|job| job.minutes == length),
            Among::Training(region) => {
                let several = rest.iter().filter(|job| job.regions.contains(region)).count() > 1;
                several && linked[at].iter().any(|linked| linked.first == region)
            }
        };
        all.push(of_rest.iter().filter(says_more).cloned().collect());
    }
    all.reverse();
    all
}

impl Bound {
    fn on_none(among: Among, largest: Losses, most: u32) -> Bound {
        let none = vec![0; most as usize + 1];
        let saved = vec![vec![0; largest.missing as usize + 1]; largest.failing + 1];
        Bound { fill: none.clone(), slots: none, among, days: 0, minutes: 0, saved }
    }

    fn add(&mut self, job: &Job) {
        let length = job.minutes as usize;
        for room in (length..self.fill.len()).rev() {
            self.fill[room] = self.fill[room].max(self.fill[room - length] + job.minutes as u16);
            self.slots[room] = self.slots[room].max(self.slots[room - length] + 1);
        }
        self.days += job.need;
        self.minutes += job.need * job.minutes;
        self.saved = with_losses_of(job, &self.saved);
    }

    /// The same room without the minutes that the jobs can never fill.
    pub(super) fn without_rest(&self, minutes: [u16; 7]) -> [u16; 7] {
        minutes.map(|minutes| self.fill[usize::from(minutes)])
    }

    /// The most minutes that the jobs can fill.
    pub(super) fn filled(&self, room: &Room) -> u32 {
        self.on(DaySet::ALL, room, &self.fill)
    }

    /// The sum over these days of what so much room as they have is worth.
    fn on(&self, days: DaySet, room: &Room, worth: &[u16]) -> u32 {
        days.iter().map(|day| u32::from(worth[usize::from(room.minutes[day as usize])])).sum()
    }

    /// The minutes that the jobs need with such losses.
    pub(super) fn needed(&self, losses: Losses) -> u32 {
        self.minutes - self.saved[losses.failing][losses.missing as usize]
    }

    /// False when this room does not hold the jobs with the losses they are forced to and such others beside.
    pub(super) fn allows(&self, room: &Room, forced: &[Forced], others: Losses) -> bool {
        let mine = || forced.iter().filter(|forced| self.among.has(forced.length, forced.regions));
        let saved: u32 = mine().map(|forced| forced.length * forced.days).sum();
        let lost: u32 = mine().map(|forced| forced.days).sum();
        let on = |days: DaySet| {
            self.on(days, room, &self.fill) + saved >= self.needed(others)
                && self.on(days, room, &self.slots) + lost + others.missing >= self.days
        };
        match self.among {
            Among::Lasting(_) => on(DaySet::ALL),
            Among::Training(region) => {
                three_apart().any(|days| on(days.without(room.closed[region as usize])))
            }
        }
    }
}

/// Every set of days with a clear day between any two of them is within one of these.
fn three_apart() -> impl Iterator<Item = DaySet> {
    const ONE: u8 = 0b001_0101;
    (0..7).map(|day| DaySet::from_bits(ONE << day | ONE >> (7 - day)))
}

/// The days that a job of this length loses for certain.
pub(super) struct Forced {
    length: u32,
    regions: Regions,
    days: u32,
}

/// The losses that each job is forced to even if it had all the room to itself, and how many days may be missing
/// beside; `None` when the losses are greater than that.
pub(super) fn forced(jobs: &[Job], room: &Room, losses: Losses) -> Option<(Vec<Forced>, Losses)> {
    let mut forced = Vec::new();
    let Losses { mut failing, mut missing } = losses;
    for job in jobs {
        let open = room.days_with(job.minutes).without(room.closed_to(job.regions));
        let most = job.within[usize::from(open.bits())];
        if most < job.need {
            let days = job.need - most;
            failing = failing.checked_sub(job.fails(days))?;
            missing = missing.checked_sub(days)?;
            forced.push(Forced { length: job.minutes, regions: job.regions, days });
        }
    }
    // One that fails already may lose more days: as many may fail as before.
    Some((forced, Losses { failing: losses.failing, missing }))
}

/// By failing exercises and missing days, the most minutes saved when this job may lose days beside others.
fn with_losses_of(job: &Job, others: &[Vec<u32>]) -> Vec<Vec<u32>> {
    let mut most = others.to_vec();
    for lost in 1..=job.need {
        let (fails, days) = (job.fails(lost), lost as usize);
        for failing in fails..others.len() {
            for missing in days..others[failing].len() {
                let saved = others[failing - fails][missing - days] + lost * job.minutes;
                most[failing][missing] = most[failing][missing].max(saved);
            }
        }
    }
    most
}
