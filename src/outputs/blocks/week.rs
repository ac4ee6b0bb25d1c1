//! A week as its page and its sheets open.

use super::phrases::Phrases;
use crate::model::week::Week;

/// "Week 7".
pub fn number_line(week: &Week, say: Phrases<'_>) -> String {
    say.words.say_with("week-number", &[("number", week.number.value.to_string().into())])
}

/// "Week of Monday, February 15, 2027".
pub fn date_line(week: &Week, say: Phrases<'_>) -> String {
    say.words.say_with("week-of", &[("date", say.date(week.date.value).into())])
}

/// "Thank you, Ida and Joan." Nobody who has not agreed to be named.
pub fn thanks(week: &Week, say: Phrases<'_>) -> Option<String> {
    let names: Vec<String> = week.thanks.iter().filter(|t| t.consent).map(|t| t.name.value.clone()).collect();
    (!names.is_empty()).then(|| say.words.say_with("thanks-line", &[("names", say.and(&names).into())]))
}
