//! A week as its page and its sheets open.

use serde::Serialize;

use super::phrases::Phrases;
use crate::model::source::Spanned;
use crate::model::week::Week;

/// What stands around the exercises of a week, which are blocks of their own.
#[derive(Clone, Debug, Serialize)]
pub struct WeekBlock<'m> {
    pub number_line: String,
    pub date_line: String,
    pub question: Option<&'m Spanned<String>>,
}

impl<'m> WeekBlock<'m> {
    pub fn of(week: &'m Week, say: Phrases<'_>) -> WeekBlock<'m> {
        WeekBlock {
            number_line: number_line(week, say),
            date_line: say.words.say_with("week-of", &[("date", say.date(week.date.value).into())]),
            question: week.question.as_ref(),
        }
    }
}

/// "Week 7".
pub fn number_line(week: &Week, say: Phrases<'_>) -> String {
    say.words.say_with("week-number", &[("number", week.number.value.to_string().into())])
}

/// "Week 7: Light on your feet".
pub fn title_line(week: &Week, say: Phrases<'_>) -> String {
    let title = week.title.value.as_str();
    let number = week.number.value.to_string();
    say.words.say_with("week-title", &[("number", number.into()), ("title", title.into())])
}

/// "Thank you, Ida and Joan." Nobody who has not agreed to be named.
pub fn thanks(week: &Week, say: Phrases<'_>) -> Option<String> {
    let names: Vec<String> = week.thanks.iter().filter(|t| t.consent).map(|t| t.name.value.clone()).collect();
    (!names.is_empty()).then(|| say.words.say_with("thanks-line", &[("names", say.and(&names).into())]))
}
