//! Numerals as they are spoken: `12` is "twelve", `1.5` is "one point five".

/// A number of ASCII digits with commas and one decimal point, in words; a number with leading zeros, or too
/// long for a number, digit by digit. Each word is one of the reader's: `21` is "twenty-one".
pub(super) fn spoken(number: &str) -> String {
    let plain = number.replace(',', "");
    let (whole, decimals) = match plain.split_once('.') {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (plain.as_str(), None),
    };
    let mut words = match whole.parse::<u64>() {
        Ok(value) if value < MOST && (whole == "0" || !whole.starts_with('0')) => cardinal(value),
        _ => digits(whole),
    };
    if let Some(decimals) = decimals {
        words.push_str(" point ");
        words.push_str(&digits(decimals));
    }
    words
}

/// The words of an ordinal such as the `3` of `3rd`.
pub(super) fn ordinal(number: &str) -> String {
    let words = spoken(number);
    let at = words.rfind([' ', '-']).map_or(0, |at| at + 1);
    let (before, last) = words.split_at(at);
    let last = match last {
        "one" => "first".to_string(),
        "two" => "second".to_string(),
        "three" => "third".to_string(),
        "five" => "fifth".to_string(),
        "eight" => "eighth".to_string(),
        "nine" => "ninth".to_string(),
        "twelve" => "twelfth".to_string(),
        tens if tens.ends_with('y') => format!("{}ieth", &tens[..tens.len() - 1]),
        other => format!("{other}th"),
    };
    format!("{before}{last}")
}

/// Numbers from here on are read digit by digit.
const MOST: u64 = 1_000_000_000;

const SMALL: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];

const TENS: [&str; 10] =
    ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

fn cardinal(value: u64) -> String {
    for (unit, name) in [(1_000_000, "million"), (1_000, "thousand"), (100, "hundred")] {
        if value >= unit {
            let above = format!("{} {name}", cardinal(value / unit));
            return match value % unit {
                0 => above,
                rest => format!("{above} {}", cardinal(rest)),
            };
        }
    }
    match (value / 10, value % 10) {
        (0 | 1, _) => SMALL[value as usize].to_string(),
        (tens, 0) => TENS[tens as usize].to_string(),
        (tens, ones) => format!("{}-{}", TENS[tens as usize], SMALL[ones as usize]),
    }
}

fn digits(number: &str) -> String {
    let names: Vec<&str> =
        number.bytes().filter(u8::is_ascii_digit).map(|b| SMALL[usize::from(b - b'0')]).collect();
    names.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_aloud() {
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
            assert_eq!(spoken(number), words, "{number}");
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
            assert_eq!(ordinal(number), words, "{number}");
        }
    }
}
