//! The minutes left on each day of a week, and which weeks are the same to what is still to come.

use std::cmp::Reverse;

use crate::reckon::days::DaySet;

/// The minutes left on each day, Monday first; none on a day that is not free.
pub(super) type Room = [u16; 7];

/// A day has less than 2^11 minutes.
const BITS: u32 = 11;
const WEEK: u32 = 7 * BITS;

/// The room that a session of so many minutes leaves when it is done on these days; `None` when it does not fit.
pub(super) fn taken(days: DaySet, minutes: u32, room: &Room) -> Option<Room> {
    let mut room = *room;
    for (day, left) in room.iter_mut().enumerate() {
        if days.bits() & 1 << day != 0 {
            *left = left.checked_sub(minutes as u16)?;
        }
    }
    Some(room)
}

/// The days with so many minutes left.
pub(super) fn days_with(minutes: u32, room: &Room) -> DaySet {
    let open = (0..7).filter(|&day| u32::from(room[day]) >= minutes);
    DaySet::from_bits(open.fold(0, |days, day| days | 1 << day))
}

/// The room of the days with the most room first.
pub(super) fn sorted(mut room: Room) -> Room {
    room.sort_unstable_by_key(|&minutes| Reverse(minutes));
    room
}

/// The week turned and mirrored to the one form that all its forms share.
pub(super) fn turned(room: Room) -> Room {
    let mut mirrored = room;
    mirrored.reverse();
    let turns =
        |week: u128| (0..7).map(move |day| (week << (day * BITS) | week >> (WEEK - day * BITS)) & ones(WEEK));
    let form = turns(packed(&room)).chain(turns(packed(&mirrored))).max().unwrap_or(0);
    std::array::from_fn(|day| (form >> (WEEK - BITS * (day as u32 + 1)) & ones(BITS)) as u16)
}

/// True when the same set with one day swapped for an earlier one that has as much room stands for it.
pub(super) fn has_twin(days: DaySet, room: &Room) -> bool {
    let has = |day: usize| days.bits() & 1 << day != 0;
    (1..7).any(|day| has(day) && !has(day - 1) && room[day] == room[day - 1])
}

/// A small number and the room as one number.
pub(super) fn key(number: usize, room: &Room) -> u128 {
    (number as u128) << WEEK | packed(room)
}

fn packed(room: &Room) -> u128 {
    room.iter().fold(0, |week, &minutes| week << BITS | u128::from(minutes))
}

fn ones(bits: u32) -> u128 {
    (1 << bits) - 1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_or_mirrored_week_has_the_same_form_and_another_week_has_not() {
        let week = [3, 0, 7, 2047, 1, 0, 5];
        let mut turns = vec![week; 7];
        turns.iter_mut().enumerate().for_each(|(day, week)| week.rotate_left(day));
        turns.push([5, 0, 1, 2047, 7, 0, 3]);
        for turn in turns {
            assert_eq!(turned(turn), [2047, 7, 0, 3, 5, 0, 1], "{turn:?}");
        }
        assert_ne!(turned([0, 3, 7, 2047, 1, 0, 5]), turned(week));
    }
}
