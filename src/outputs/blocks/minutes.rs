//! How long practice takes, in plain words and no finer than it is known.

use super::phrases::Phrases;
use crate::reckon::between::Between;

/// "About 4 minutes", "About 20 to 30 minutes", as [`minutes`] has them.
pub fn about(length: Between, most: Option<u32>, say: Phrases<'_>) -> String {
    say.words.say_with("minutes-about", &[("minutes", minutes(length, most, say).into())])
}

/// "4 minutes", "20 to 30 minutes": whole minutes below ten, and fives from there on. It is one number where both
/// ends come to the same, and never more than `most`, which a reader has set herself.
pub fn minutes(length: Between, most: Option<u32>, say: Phrases<'_>) -> String {
    let (low, high) = rounded(length);
    let high = most.map_or(high, |most| high.min(most.into()));
    let low = low.min(high);
    say.counted("dose-minutes", say.range(low as f64, high as f64), high as f64)
}

fn rounded(length: Between) -> (u64, u64) {
    const FIVE: u64 = 5 * 60_000;
    let (low, high) = length.minutes();
    if high < 10 {
        return (low, high);
    }
    let fives = |ms: u64| (ms + FIVE / 2) / FIVE * 5;
    match fives(length.low) {
        0 => (low, fives(length.high)),
        five => (five, fives(length.high)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::words;

    #[test]
    fn minutes_are_as_fine_as_they_are_known() {
        for (low, high, expected) in [
            (0, 0, "0 minutes"),
            (10, 20, "1 minute"),
            (45, 75, "1 minute"),
            (70, 130, "1 to 2 minutes"),
            (225, 250, "4 minutes"),
            (186, 264, "3 to 4 minutes"),
            // From ten minutes on in fives, however many the low end has.
            (100, 620, "2 to 10 minutes"),
            (400, 770, "5 to 15 minutes"),
            (1_390, 1_610, "25 minutes"),
            (1_200, 1_900, "20 to 30 minutes"),
        ] {
            let length = Between::new(low * 1000, high * 1000);
            assert_eq!(minutes(length, None, Phrases { words: words() }), expected, "{low} to {high} s");
        }
    }

    #[test]
    fn nobody_reads_more_minutes_than_she_has() {
        let length = Between::new(600_000, 780_000);
        let say = Phrases { words: words() };
        assert_eq!(minutes(length, None, say), "10 to 15 minutes");
        assert_eq!(minutes(length, Some(13), say), "10 to 13 minutes");
        assert_eq!(minutes(length, Some(8), say), "8 minutes");
        assert_eq!(about(length, None, say), "About 10 to 15 minutes");
    }
}
