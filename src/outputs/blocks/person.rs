//! What a person's sheet opens with: whom it is for, her days, and what was left out for her.

use serde::Serialize;

use super::left_out::{left_out, no_room};
use super::phrases::Phrases;
use crate::model::client::Client;
use crate::model::site::Site;
use crate::model::source::Spanned;
use crate::reckon::choice::Choice;
use crate::reckon::personal::Personal;

/// Whom a sheet is for. Her exercises are blocks of their own.
#[derive(Clone, Debug, Serialize)]
pub struct PersonBlock<'m> {
    /// "For J. K.", in the place of her name.
    pub line: Spanned<String>,
    /// "Your days: Monday and Thursday."
    pub days: Option<String>,
    /// What the educator wrote for her.
    pub note: Option<&'m Spanned<String>>,
    /// Each exercise that is not on the sheet, with the reason, in the place of its title.
    pub left_out: Vec<Spanned<String>>,
}

impl<'m> PersonBlock<'m> {
    /// Of what she was to do, and of her practice week that came of it.
    pub fn of(
        client: &'m Client,
        choices: &[Choice<'m>],
        practice: &Personal<'m>,
        site: &Site,
        say: Phrases<'_>,
    ) -> PersonBlock<'m> {
        let days = client.days.iter().map(|day| say.words.say(&format!("weekday-{}", day.value.number())));
        let days: Vec<String> = days.collect();
        let missing = |choice: &Choice<'m>| {
            let crowded = || practice.chosen_for(choice).filter(|one| one.days.is_empty());
            let text = left_out(choice, site, say).or_else(|| crowded().map(|_| no_room(choice, say)))?;
            Some(Spanned::new(text, choice.asked.place()))
        };
        PersonBlock {
            line: Spanned::new(for_line(&client.name.value, say), client.name.span),
            days: (!days.is_empty())
                .then(|| say.words.say_with("sheet-days", &[("days", say.and(&days).into())])),
            note: client.note.as_ref(),
            left_out: choices.iter().filter_map(missing).collect(),
        }
    }
}

/// "For J. K."
pub fn for_line(name: &str, say: Phrases<'_>) -> String {
    say.words.say_with("sheet-for", &[("name", name.into())])
}
