//! Rows and boxes of the practice log, by dose and by the days that a person has.

use super::*;
use crate::model::amount::Amount;
use crate::model::source::{FileId, Span, Spanned};
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
fn there_is_a_row_for_each_day_and_the_reader_chooses_where_she_has_more_than_it_takes() {
    for (days, free, expected, chooses) in [
        // Nothing is said of the days: each of hers.
        (None, &[][..], WEEK, false),
        (None, &[2], "Tuesday", false),
        (Some((7, 7)), &[], WEEK, false),
        (Some((7, 7)), &[2, 5], "Tuesday Friday", false),
        (Some((1, 1)), &[], "Day 1", true),
        (Some((6, 6)), &[], "Day 1, Day 2, Day 3, Day 4, Day 5, Day 6", true),
        // The most days of a range.
        (Some((3, 4)), &[], "Day 1, Day 2, Day 3, Day 4", true),
        (Some((2, 3)), &[1, 3, 6], "Monday Wednesday Saturday", false),
        (Some((2, 2)), &[1, 3, 6], "Day 1, Day 2", true),
        // Fewer days than it asks for are all that she has.
        (Some((5, 5)), &[1, 3, 6], "Monday Wednesday Saturday", false),
        (Some((5, 5)), &[7], "Sunday", false),
    ] {
        let found = rows(&dose(days), free, Phrases { words: words() });
        let between = if expected.starts_with("Day ") { ", " } else { " " };
        assert_eq!(found.join(between), expected, "{days:?} on {free:?}");
        assert_eq!(chooses_days(&dose(days), free), chooses, "{days:?} on {free:?}");
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
        // A set goes from side to side and is ticked once.
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
