//! What is left of each day of a week, and which weeks are the same to what is still to come.

use std::cmp::Reverse;

use super::Job;
use crate::reckon::days::DaySet;
use crate::reckon::regions::Regions;

/// What is left of a week.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Room {
    /// The minutes left on each day, Monday first; none on a day that is not free.
    pub(super) minutes: [u16; 7],
    /// By region, the days next to those on which it is trained already.
    pub(super) closed: [DaySet; Regions::COUNT],
}

/// A week and a small number as one key.
pub(super) type Key = (u128, u128);

/// A day has less than 2^11 minutes.
const BITS: u32 = 11;
const DAYS: u32 = 7;
const REGIONS: u32 = Regions::COUNT as u32;

impl Room {
    /// So many minutes on each of these days.
    pub(super) fn on(days: DaySet, minutes: u32) -> Room {
        let mut room = Room { minutes: [0; 7], closed: [DaySet::NONE; Regions::COUNT] };
        days.iter().for_each(|day| room.minutes[day as usize] = minutes as u16);
        room
    }

    /// The room that a job leaves when it is done on these days; `None` when it cannot be.
    pub(super) fn without(&self, job: &Job, days: DaySet) -> Option<Room> {
        let mut room = *self;
        for (day, left) in room.minutes.iter_mut().enumerate() {
            if days.bits() & 1 << day != 0 {
                *left = left.checked_sub(job.minutes as u16)?;
            }
        }
        if !job.regions.is_empty() {
            if !days.is_within(DaySet::ALL.without(self.closed_to(job.regions))) {
                return None;
            }
            let beside = days.beside();
            job.regions.iter().for_each(|region| {
                let closed = &mut room.closed[region as usize];
                *closed = closed.union(beside);
            });
        }
        Some(room)
    }

    /// The days on which what trains these regions cannot be done.
    pub(super) fn closed_to(&self, regions: Regions) -> DaySet {
        regions.iter().fold(DaySet::NONE, |days, region| days.union(self.closed[region as usize]))
    }

    /// The days with so many minutes left.
    pub(super) fn days_with(&self, minutes: u32) -> DaySet {
        let open = (0..7).filter(|&day| u32::from(self.minutes[day]) >= minutes);
        DaySet::from_bits(open.fold(0, |days, day| days | 1 << day))
    }

    /// The room of the days with the most room first, for jobs to which no day is closed.
    pub(super) fn sorted(mut self) -> Room {
        self.minutes.sort_unstable_by_key(|&minutes| Reverse(minutes));
        self
    }

    /// The week turned and mirrored to the one form that all its forms share.
    pub(super) fn turned(self) -> Room {
        let turns = |(minutes, closed): (u128, u128)| {
            (0..DAYS).map(move |day| (turn(minutes, day, BITS), turn(closed, day, REGIONS)))
        };
        let mirrored = Room { minutes: mirrored(self.minutes), ..self };
        let there = (packed(&self.minutes), self.packed_closed(|day| day));
        let back = (packed(&mirrored.minutes), self.packed_closed(|day| 6 - day));
        let (minutes, closed) = turns(there).chain(turns(back)).max().unwrap_or_default();
        Room::unpacked(minutes, closed)
    }

    /// A small number and the room as one key.
    pub(super) fn key(&self, number: usize) -> Key {
        ((number as u128) << (DAYS * BITS) | packed(&self.minutes), self.packed_closed(|day| day))
    }

    /// Day by day, `day(0)` first, the regions that are closed on it.
    fn packed_closed(&self, day: impl Fn(u32) -> u32) -> u128 {
        if self.closed.iter().all(|days| days.is_empty()) {
            return 0;
        }
        (0..DAYS).fold(0, |week, at| {
            let on = |days: &DaySet| u128::from(days.bits() >> day(at) & 1);
            self.closed.iter().fold(week, |week, days| week << 1 | on(days))
        })
    }

    fn unpacked(minutes: u128, closed: u128) -> Room {
        let at = |day: u32, week: u128, bits: u32| week >> (bits * (DAYS - 1 - day)) & ones(bits);
        let days = |region: usize| {
            let is_closed = |day: &u32| at(*day, closed, REGIONS) >> (Regions::COUNT - 1 - region) & 1 == 1;
            DaySet::from_bits((0..DAYS).filter(is_closed).fold(0, |days, day| days | 1 << day))
        };
        Room {
            minutes: std::array::from_fn(|day| at(day as u32, minutes, BITS) as u16),
            closed: if closed == 0 { [DaySet::NONE; Regions::COUNT] } else { std::array::from_fn(days) },
        }
    }
}

/// True when the same set with one day swapped for an earlier one that has as much room stands for it.
pub(super) fn has_twin(days: DaySet, minutes: &[u16; 7]) -> bool {
    let has = |day: usize| days.bits() & 1 << day != 0;
    (1..7).any(|day| has(day) && !has(day - 1) && minutes[day] == minutes[day - 1])
}

/// A week, so many bits a day, that begins so many days later.
fn turn(week: u128, days: u32, bits: u32) -> u128 {
    (week << (days * bits) | week >> ((DAYS - days) * bits)) & ones(DAYS * bits)
}

fn mirrored(mut minutes: [u16; 7]) -> [u16; 7] {
    minutes.reverse();
    minutes
}

fn packed(minutes: &[u16; 7]) -> u128 {
    minutes.iter().fold(0, |week, &minutes| week << BITS | u128::from(minutes))
}

fn ones(bits: u32) -> u128 {
    (1 << bits) - 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::vocabulary::Day::{self, *};
    use crate::model::vocabulary::Region;

    fn room(minutes: [u16; 7], calves: &[Day]) -> Room {
        let mut room = Room { minutes, ..Room::on(DaySet::NONE, 0) };
        room.closed[Region::Calves as usize] = DaySet::of(calves.iter().copied());
        room
    }

    #[test]
    fn a_turned_or_mirrored_week_has_the_same_form_and_another_week_has_not() {
        let week = [3, 0, 7, 2047, 1, 0, 5];
        let mut turns = vec![week; 7];
        turns.iter_mut().enumerate().for_each(|(day, week)| week.rotate_left(day));
        turns.push([5, 0, 1, 2047, 7, 0, 3]);
        for turn in turns {
            assert_eq!(room(turn, &[]).turned().minutes, [2047, 7, 0, 3, 5, 0, 1], "{turn:?}");
        }
        let other = room([0, 3, 7, 2047, 1, 0, 5], &[]);
        assert_ne!(other.turned(), room(week, &[]).turned());
    }

    #[test]
    fn closed_days_turn_with_their_week() {
        let form = room([9, 0, 7, 0, 0, 0, 0], &[Monday, Tuesday]).turned();
        assert_eq!(room([0, 0, 0, 9, 0, 7, 0], &[Thursday, Friday]).turned(), form);
        assert_eq!(room([7, 0, 9, 0, 0, 0, 0], &[Tuesday, Wednesday]).turned(), form);
        assert_ne!(room([9, 0, 7, 0, 0, 0, 0], &[Monday, Sunday]).turned(), form);
        assert_ne!(room([9, 0, 7, 0, 0, 0, 0], &[]).turned(), form);
        let (one, other) = (room([5; 7], &[Monday]), room([5; 7], &[Tuesday]));
        assert_ne!(one.key(1), other.key(1));
        assert_eq!(one.turned().key(1), other.turned().key(1));
    }
}
