//! What a client has done, as "My days" saves it to a file. A page writes it, in JSON, and reads it back; no author does.
//! The page's own check (`whole` in the theme's `script/days.js`) says the same.

use schemars::JsonSchema;

use super::values::{Date, Text, Whole};

/// A client's days, saved from her device.
#[derive(JsonSchema)]
#[schemars(title = "A client's days", deny_unknown_fields)]
pub(super) struct Practice {
    /// What kind of file it is.
    #[schemars(extend("const" = "practice"))]
    steadyleaf: String,
    /// The version of this kind of file: 1.
    version: Whole<1, 1>,
    /// What she has done: an entry for each time that she did an exercise, in any order.
    #[schemars(length(max = 100_000))]
    days: Vec<Entry>,
}

/// One time that she did an exercise.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Entry {
    /// Its own name, which no other entry has: two files with one name tell of one time.
    #[schemars(extend("maxLength" = 100))]
    id: Text,
    /// The id of the exercise.
    #[schemars(extend("maxLength" = 100))]
    exercise: Text,
    /// The title of the exercise, as it was.
    #[schemars(extend("maxLength" = 200))]
    title: Text,
    /// The id of the series, where it was done for one.
    #[schemars(extend("maxLength" = 100))]
    series: Option<Text>,
    /// The number of its week.
    week: Option<Whole<1, 520>>,
    /// The title of the variation that she did; null for the exercise as it stands, or where nobody has said.
    #[schemars(extend("maxLength" = 200))]
    form: Option<Text>,
    /// The day, where she was.
    on: Date,
    /// How many sets.
    sets: Option<Whole<1, 50>>,
    /// How hard it was, from 0 (rest) to 10 (as hard as she can).
    effort: Option<Whole<0, 10>>,
    /// How it felt, in her words.
    #[schemars(extend("maxLength" = 1000))]
    felt: Option<Text>,
    /// What went wrong.
    trouble: Option<Trouble>,
    /// Whether the page counted with her, or she checked it off by hand.
    how: How,
    /// How often it has been changed; of two with one name, the one that was changed more often is the newer. 0 when it
    /// is left out.
    changes: Option<Whole<0, 1_000_000>>,
}

#[derive(JsonSchema)]
#[schemars(rename_all = "kebab-case")]
enum Trouble {
    Fall,
    Pain,
    Other,
}

#[derive(JsonSchema)]
#[schemars(rename_all = "kebab-case")]
enum How {
    Practice,
    Ticked,
}
