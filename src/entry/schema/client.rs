//! A person's profile, as it is written.

use schemars::JsonSchema;

use super::each_required;
use super::values::{Date, Demand, Points, Precaution, Text, Whole, Word};
use crate::model::vocabulary::{Day, Paper};

/// One person's profile: private, and read only when a handout is made for that person.
#[derive(JsonSchema)]
#[schemars(title = "A person's profile", deny_unknown_fields)]
pub(super) struct Client {
    /// As it is to be printed; initials will do.
    name: Text,
    /// The person's precautions, each once; [] when there is none.
    #[schemars(extend("uniqueItems" = true))]
    precautions: Vec<Precaution>,
    /// The days free to practice; leave it out for any day.
    #[schemars(length(min = 1))]
    days: Option<Vec<Word<Day>>>,
    /// The minutes free on such a day.
    minutes: Option<Whole<1, 180>>,
    /// What the person has at home.
    equipment: Option<Vec<Text>>,
    /// The size of the letters, in points.
    size: Option<Points>,
    /// The paper of the handout.
    paper: Option<Word<Paper>>,
    /// A language that the theme has words for, such as "en".
    language: Option<Text>,
    /// A line for this person, printed on the handout.
    note: Option<Text>,
    /// She is not to exercise for now: no handout is made for her.
    hold: Option<Hold>,
    /// A clinician's written word that she may do what would have to be asked about.
    cleared: Option<Vec<Clearance>>,
    /// Forms that the educator prefers for her; each is taken only if it is safe.
    prefer: Option<Vec<Preference>>,
}

/// Why she is not to exercise for now.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Hold {
    /// The reason, in a sentence.
    because: Text,
    /// Who said so.
    by: Text,
    /// The day.
    on: Date,
}

/// A clearance: for an exercise or for a demand.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, extend("oneOf" = each_required(&["exercise", "demand"])))]
struct Clearance {
    /// The id of the exercise.
    exercise: Option<Text>,
    /// The demand, in every exercise.
    demand: Option<Demand>,
    /// The precautions it was given for.
    #[schemars(length(min = 1))]
    of: Vec<Precaution>,
    /// Who gave it.
    by: Text,
    /// The day it was given.
    on: Date,
    /// Its last day; 12 months after it was given when left out.
    until: Option<Date>,
}

/// A form that the educator prefers.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Preference {
    /// The id of the exercise that a week asks for.
    exercise: Text,
    /// The title of one of its variations, or the id of an exercise.
    form: Text,
    /// The reason, in a sentence.
    because: Text,
}
