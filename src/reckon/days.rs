//! A set of weekdays.

use crate::model::vocabulary::{Day, Vocabulary};

/// Some days of the week; Monday is the lowest bit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DaySet(u8);

impl DaySet {
    pub const NONE: DaySet = DaySet(0);
    pub const ALL: DaySet = DaySet(0b111_1111);

    /// The set with these bits; bits beyond Sunday are dropped.
    pub const fn from_bits(bits: u8) -> DaySet {
        DaySet(bits & DaySet::ALL.0)
    }

    pub const fn bits(self) -> u8 {
        self.0
    }

    pub fn of(days: impl IntoIterator<Item = Day>) -> DaySet {
        days.into_iter().fold(DaySet::NONE, DaySet::with)
    }

    pub fn with(self, day: Day) -> DaySet {
        DaySet(self.0 | 1 << day as u8)
    }

    pub fn contains(self, day: Day) -> bool {
        self.0 & 1 << day as u8 != 0
    }

    pub fn union(self, other: DaySet) -> DaySet {
        DaySet(self.0 | other.0)
    }

    pub fn without(self, other: DaySet) -> DaySet {
        DaySet(self.0 & !other.0)
    }

    pub fn is_within(self, other: DaySet) -> bool {
        self.without(other).is_empty()
    }

    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    pub fn len(self) -> u32 {
        self.0.count_ones()
    }

    /// The days in the order of the week.
    pub fn iter(self) -> impl Iterator<Item = Day> {
        Day::ALL.iter().copied().filter(move |&day| self.contains(day))
    }

    /// The days next to its days, the week's end included.
    pub fn beside(self) -> DaySet {
        let twice = u16::from(self.0) | u16::from(self.0) << 7;
        DaySet::from_bits((twice >> 1 | twice >> 6) as u8)
    }

    /// The days from each of its days to the next one, the last day leading to the first day of the next
    /// week: 2 from a Monday to a Wednesday. A day alone is 7 days from itself.
    pub fn steps(self) -> impl Iterator<Item = u32> {
        let twice = u32::from(self.0) | u32::from(self.0) << 7;
        (0..7)
            .filter(move |day| twice >> day & 1 == 1)
            .map(move |day| (twice >> (day + 1)).trailing_zeros() + 1)
    }

    /// True when so many clear days lie between any two of its days, the week's end included.
    pub fn leaves(self, rest_days: u32) -> bool {
        self.steps().all(|step| step > rest_days)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Day::{Friday, Monday, Saturday, Sunday, Thursday, Tuesday, Wednesday};

    /// Strength not on two days running, 48 hours between. NIH MedlinePlus Magazine, Spring 2012;
    /// Nelson et al. 2007, Med Sci Sports Exerc 39(8):1435-1445 (non-consecutive days).
    #[test]
    fn a_rest_day_is_kept_around_the_week_s_end() {
        for (days, rested) in [
            (vec![Monday, Tuesday], false),
            (vec![Monday, Wednesday, Friday], true),
            (vec![Saturday, Monday], true),
            (vec![Sunday, Monday], false),
            (vec![Monday, Wednesday, Friday, Sunday], false),
            (vec![Sunday], true),
            (vec![], true),
        ] {
            assert_eq!(DaySet::of(days.clone()).leaves(1), rested, "{days:?}");
        }
        assert!(DaySet::of([Monday, Thursday]).leaves(2));
        assert!(!DaySet::of([Tuesday, Saturday]).leaves(3));
        assert!(DaySet::of([Tuesday]).leaves(6));
    }

    #[test]
    fn the_days_beside_a_set_go_around_the_week_s_end() {
        for (days, beside) in [
            (vec![], vec![]),
            (vec![Monday], vec![Tuesday, Sunday]),
            (vec![Sunday], vec![Monday, Saturday]),
            (vec![Wednesday], vec![Tuesday, Thursday]),
            (vec![Monday, Wednesday], vec![Tuesday, Thursday, Sunday]),
            (vec![Saturday, Sunday], vec![Monday, Friday, Saturday, Sunday]),
        ] {
            assert_eq!(DaySet::of(days.clone()).beside(), DaySet::of(beside), "{days:?}");
        }
    }

    #[test]
    fn days_stand_in_the_order_of_the_week_whatever_the_order_they_came_in() {
        let days = DaySet::of([Sunday, Monday, Wednesday]);
        assert_eq!(days, DaySet::of([Wednesday, Sunday, Monday, Monday]));
        assert_eq!(days.iter().collect::<Vec<_>>(), [Monday, Wednesday, Sunday]);
        assert_eq!(days.steps().collect::<Vec<_>>(), [2, 4, 1]);
        assert_eq!(DaySet::ALL.without(days).len(), 4);
    }
}
