//! Rows and boxes of the practice log, by dose and by the days that were planned for a person.

use super::*;
use crate::model::amount::Amount;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::vocabulary::Day::{self, *};
use crate::review::testing::words;

fn at<T>(value: T) -> Option<Spanned<T>> {
    Some(Spanned::new(value, Span::start_of(FileId(0))))
}

fn dose(days: Option<(u32, u32)>) -> Dose {
    let days = days.and_then(|(low, high)| at(Amount { low, high }));
    Dose { days, ..Dose::empty(Span::start_of(FileId(0))) }
}

const WEEK: &str = "Monday Tuesday Wednesday Thursday Friday Saturday Sunday";

#[test]
fn there_is_a_row_for_each_planned_day_and_everyone_else_chooses_where_it_is_not_done_daily() {
    let week = |days: &[Day]| Some(DaySet::of(days.iter().copied()));
    for (days, planned, expected) in [
        // Nothing is said of the days: every day.
        (None, None, WEEK),
        (Some((7, 7)), None, WEEK),
        (Some((1, 1)), None, "Day 1"),
        (Some((6, 6)), None, "Day 1, Day 2, Day 3, Day 4, Day 5, Day 6"),
        // The most days of a range.
        (Some((3, 4)), None, "Day 1, Day 2, Day 3, Day 4"),
        (Some((5, 7)), None, WEEK),
        // What was planned for a person stands, whatever the dose allows.
        (None, week(&[Tuesday]), "Tuesday"),
        (Some((2, 3)), week(&[Monday, Wednesday, Saturday]), "Monday Wednesday Saturday"),
        (Some((5, 7)), week(&[Friday, Tuesday]), "Tuesday Friday"),
    ] {
        let found = rows(&dose(days), planned, Phrases { words: words() });
        let between = if expected.starts_with("Day ") { ", " } else { " " };
        assert_eq!(found.join(between), expected, "{days:?} on {planned:?}");
        if planned.is_none() {
            assert_eq!(chooses_days(&dose(days)), expected.starts_with("Day "), "{days:?}");
        }
    }
}

#[test]
fn there_is_a_box_for_each_set_on_each_side() {
    for (sets, sides, expected) in [
        (None, None, "1"),
        (Some((2, 2)), None, "2"),
        // The most sets of a range.
        (Some((1, 3)), Some(Sides::BothTogether), "3"),
        (Some((2, 2)), Some(Sides::Each), "Left 2, Right 2"),
        (None, Some(Sides::Each), "Left 1, Right 1"),
        // A set goes from side to side and is checked off once.
        (Some((2, 2)), Some(Sides::Alternating), "2"),
    ] {
        let sets = sets.and_then(|(low, high)| at(Amount { low, high }));
        let dose = Dose { sets, sides: sides.and_then(at), ..dose(None) };
        let found: Vec<String> = boxes(&dose, Phrases { words: words() })
            .iter()
            .map(|b| b.side.iter().cloned().chain([b.count.to_string()]).collect::<Vec<_>>().join(" "))
            .collect();
        assert_eq!(found.join(", "), expected, "{sets:?} {sides:?}", sets = dose.sets, sides = dose.sides);
    }
}
