//! Numerals as they are spoken: `12` is "twelve", `1.5` is "one point five".

use std::collections::BTreeMap;

use crate::model::words::Spoken;

/// What is said for the decimal point, as the list of numerals has it.
const POINT: &str = "point";

/// What is said between the ends of a range, as the list of numerals has it.
pub(super) const TO: &str = "to";

/// The word that the list has for a number, or its digits where it has none.
pub(super) fn named<'w>(number: &'w str, list: &'w BTreeMap<String, String>) -> &'w str {
    list.get(number).map_or(number, String::as_str)
}

/// A number of ASCII digits with commas and one decimal point, in words; a number with leading zeros, or too
/// long for a number, digit by digit. Each word is one of the reader's: `21` is "twenty-one". `list` has the words for
/// 0 to 20, the tens, 100, 1000 and 1000000.
pub(super) fn spoken(number: &str, list: &BTreeMap<String, String>) -> String {
    let plain = number.replace(',', "");
    let (whole, decimals) = match plain.split_once('.') {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (plain.as_str(), None),
    };
    let mut words = match whole.parse::<u64>() {
        Ok(value) if value < MOST && (whole == "0" || !whole.starts_with('0')) => cardinal(value, list),
        _ => digits(whole, list),
    };
    if let Some(decimals) = decimals {
        words.push_str(&format!(" {} {}", named(POINT, list), digits(decimals, list)));
    }
    words
}

/// The words of an ordinal such as the `3` of `3rd`: by the list of numerals, behind their number's word, or by their ending.
pub(super) fn ordinal(number: &str, of: &Spoken) -> String {
    let words = spoken(number, &of.numerals);
    let at = words.rfind([' ', '-']).map_or(0, |at| at + 1);
    let (before, last) = words.split_at(at);
    let by_ending = || of.ordinals.iter().find_map(|ending| ending.put_to(last));
    let last = of.numerals.get(last).cloned().or_else(by_ending).unwrap_or_else(|| last.to_string());
    format!("{before}{last}")
}

/// Numbers from here on are read digit by digit.
const MOST: u64 = 1_000_000_000;

fn cardinal(value: u64, list: &BTreeMap<String, String>) -> String {
    let name = |number: u64| named_number(number, list);
    for unit in [1_000_000, 1_000, 100] {
        if value >= unit {
            let above = format!("{} {}", cardinal(value / unit, list), name(unit));
            return match value % unit {
                0 => above,
                rest => format!("{above} {}", cardinal(rest, list)),
            };
        }
    }
    match (value / 10, value % 10) {
        (0 | 1, _) | (_, 0) => name(value),
        (tens, ones) => format!("{}-{}", name(tens * 10), name(ones)),
    }
}

fn named_number(number: u64, list: &BTreeMap<String, String>) -> String {
    named(&number.to_string(), list).to_string()
}

fn digits(number: &str, list: &BTreeMap<String, String>) -> String {
    let digits = number.bytes().filter(u8::is_ascii_digit);
    let names: Vec<String> = digits.map(|b| named_number(u64::from(b - b'0'), list)).collect();
    names.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_aloud() {
        let of = &crate::review::testing::words().spoken;
        let list = &of.numerals;
        for (number, words) in [
            ("0", "zero"),
            ("7", "seven"),
            ("17", "seventeen"),
            ("40", "forty"),
            ("21", "twenty-one"),
            ("100", "one hundred"),
            ("120", "one hundred twenty"),
            ("1,000", "one thousand"),
            ("2026", "two thousand twenty-six"),
            ("1.5", "one point five"),
            ("0.25", "zero point two five"),
            ("05", "zero five"),
            ("911", "nine hundred eleven"),
            ("1000000", "one million"),
            ("12345678901", "one two three four five six seven eight nine zero one"),
        ] {
            assert_eq!(spoken(number, list), words, "{number}");
        }
        for (number, words) in [
            ("1", "first"),
            ("3", "third"),
            ("4", "fourth"),
            ("12", "twelfth"),
            ("20", "twentieth"),
            ("22", "twenty-second"),
            ("100", "one hundredth"),
        ] {
            assert_eq!(ordinal(number, of), words, "{number}");
        }
        assert_eq!(spoken("21.5", &BTreeMap::new()), "20-1 point 5", "a list that lacks them");
    }
}
