//! A person's profile, as it is written.

use schemars::JsonSchema;

use super::values::{Points, Precaution, Text, Whole, Word};
use crate::model::vocabulary::{Day, Paper};

/// One person's profile: private, and read only when a sheet is made for that person.
#[derive(JsonSchema)]
#[schemars(title = "A person's profile", deny_unknown_fields)]
pub(super) struct Client {
    /// As it is to be printed; initials will do.
    name: Text,
    /// The person's precautions, each once; [] when there is none.
    #[schemars(extend("uniqueItems" = true))]
    precautions: Vec<Precaution>,
    /// The days free to practise; leave it out for any day.
    #[schemars(length(min = 1))]
    days: Option<Vec<Word<Day>>>,
    /// The minutes free on such a day.
    minutes: Option<Whole<1, 180>>,
    /// What the person has at home.
    equipment: Option<Vec<Text>>,
    /// The size of the letters, in points.
    size: Option<Points>,
    /// The paper of the sheet.
    paper: Option<Word<Paper>>,
    /// A language that the theme has words for, such as "en".
    language: Option<Text>,
    /// A line for this person, printed on the sheet.
    note: Option<Text>,
}
