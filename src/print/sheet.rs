//! What stands on a sheet, as the theme's sheet reads it.

use serde::Serialize;

use super::log::LogTable;
use super::pictures::Drawn;
use super::places::Place;
use super::prose::Piece;
use crate::outputs::blocks::dose::DoseBlock;

/// Words with the place where they were written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Line {
    pub(super) place: Place,
    pub(super) text: String,
}

/// What every sheet has.
#[derive(Serialize)]
pub(super) struct Common {
    /// Points.
    pub(super) size: u32,
    /// As the typesetter names it: `a4`, `us-letter`.
    pub(super) paper: &'static str,
    pub(super) language: String,
    pub(super) draft: bool,
    pub(super) author: String,
    pub(super) title: Line,
    /// In the footer, before the page number: which sheet a loose page belongs to.
    pub(super) running: Option<String>,
    /// "Page {number} of {count}", to be filled when the pages are counted.
    pub(super) page_of: String,
}

/// A handout.
#[derive(Serialize)]
pub(super) struct Handout {
    #[serde(flatten)]
    pub(super) common: Common,
    /// One exercise by itself: the title is its own.
    pub(super) alone: bool,
    /// "Week 7".
    pub(super) eyebrow: Option<String>,
    /// Below the title: the date of the week.
    pub(super) lines: Vec<String>,
    pub(super) person: Option<PersonBlock>,
    pub(super) glance: Vec<Glance>,
    /// "About 10 to 25 minutes a day, 6 days a week."
    pub(super) time: Option<String>,
    pub(super) needs: Vec<Line>,
    pub(super) welcome: Vec<Piece>,
    pub(super) emergency_call: String,
    pub(super) exercises: Vec<Exercise>,
    pub(super) question: Option<Line>,
    pub(super) practice: Option<Practice>,
    pub(super) log: Log,
    pub(super) online: Option<Online>,
    pub(super) educator: Educator,
    /// "Made on March 1, 2027".
    pub(super) made: Option<String>,
}

/// Whom the sheet is for, and what was left out for her.
#[derive(Serialize)]
pub(super) struct PersonBlock {
    /// "For J. K."
    pub(super) line: Line,
    /// "Your days: Monday and Thursday."
    pub(super) days: Option<String>,
    /// What the educator wrote for her.
    pub(super) note: Option<Line>,
    pub(super) left_out: Vec<Line>,
}

/// One exercise at a glance.
#[derive(Serialize)]
pub(super) struct Glance {
    pub(super) place: Place,
    pub(super) component: Component,
    pub(super) title: String,
    pub(super) dose: String,
}

/// A training component: the name of its shape, and its word.
#[derive(Clone, Serialize)]
pub(super) struct Component {
    pub(super) id: &'static str,
    pub(super) word: String,
}

/// One exercise, or the form of it that was chosen for a person.
#[derive(Serialize)]
pub(super) struct Exercise {
    pub(super) place: Place,
    pub(super) title: String,
    /// "Also called: …".
    pub(super) also_called: Option<Line>,
    pub(super) component: Component,
    /// "Exercise 2 of 4".
    pub(super) number_line: Option<String>,
    /// "Another safe way", where a variation was chosen, or what it stands in for.
    pub(super) form_line: Option<String>,
    pub(super) summary: Option<Line>,
    pub(super) focus: Option<Line>,
    /// Label and text: how to be placed, what to hold, what to have.
    pub(super) needs: Vec<Labelled>,
    pub(super) dose: DoseBlock,
    /// "Take care"; on a person's sheet "For you".
    pub(super) cautions_title: String,
    pub(super) cautions: Vec<Caution>,
    pub(super) figures: Vec<Figure>,
    /// The one change to the steps, where a variation that keeps them was chosen.
    pub(super) change: Option<Line>,
    pub(super) intro: Vec<Piece>,
    pub(super) sections: Vec<Section>,
    pub(super) ways: Vec<Ways>,
    pub(super) reviewed: String,
}

#[derive(Serialize)]
pub(super) struct Labelled {
    pub(super) label: String,
    pub(super) text: String,
}

#[derive(Serialize)]
pub(super) struct Caution {
    pub(super) place: Place,
    pub(super) level: &'static str,
    /// Empty on a person's sheet, which speaks to her.
    pub(super) who: String,
    pub(super) strict: String,
    pub(super) text: String,
}

#[derive(Serialize)]
pub(super) struct Figure {
    pub(super) place: Place,
    /// The sheet's file with it.
    pub(super) picture: String,
    /// `None` for a photo.
    pub(super) drawn: Option<Drawn>,
    pub(super) description: String,
    pub(super) caption: Option<String>,
    /// What the numbers in it stand for, from 1.
    pub(super) labels: Vec<Line>,
}

#[derive(Serialize)]
pub(super) struct Section {
    pub(super) name: &'static str,
    pub(super) place: Place,
    pub(super) title: String,
    pub(super) pieces: Vec<Piece>,
}

/// Easier, other or harder ways, under their title.
#[derive(Serialize)]
pub(super) struct Ways {
    pub(super) title: String,
    pub(super) hint: Option<String>,
    pub(super) list: Vec<Way>,
}

#[derive(Serialize)]
pub(super) struct Way {
    pub(super) place: Place,
    pub(super) title: Option<String>,
    pub(super) text: Option<String>,
    pub(super) steps: Vec<Line>,
    pub(super) figures: Vec<Figure>,
    pub(super) needs: Option<String>,
    pub(super) dose: Option<String>,
    pub(super) cautions: Vec<Caution>,
    pub(super) not_for: Option<String>,
}

/// The practice week.
#[derive(Serialize)]
pub(super) struct Practice {
    pub(super) title: String,
    /// Seven, Monday first.
    pub(super) days: Vec<PracticeDay>,
    pub(super) advice: Vec<String>,
}

/// One day of it: nothing to do on a rest day.
#[derive(Serialize)]
pub(super) struct PracticeDay {
    pub(super) name: String,
    pub(super) time: String,
    pub(super) exercises: Vec<Line>,
}

/// The practice log.
#[derive(Serialize)]
pub(super) struct Log {
    /// "Week 1", "Week 2".
    pub(super) weeks: [String; 2],
    /// Some exercise is done on fewer days than the reader has.
    pub(super) choose_days: bool,
    pub(super) tables: Vec<LogTable>,
}

/// Where the sheet's page is on the web.
#[derive(Serialize)]
pub(super) struct Online {
    pub(super) address: String,
    /// The sheet's file with the code for phones.
    pub(super) code: &'static str,
    pub(super) description: String,
}

/// Who prepared it and how to reach her.
#[derive(Serialize)]
pub(super) struct Educator {
    pub(super) name: String,
    /// Clinic and address, line by line.
    pub(super) lines: Vec<String>,
    pub(super) phone: Option<String>,
    pub(super) email: Option<String>,
}

/// The sheet that the educator reads while recording.
#[derive(Serialize)]
pub(super) struct CueSheet {
    #[serde(flatten)]
    pub(super) common: Common,
    pub(super) eyebrow: Option<String>,
    pub(super) props: Vec<Line>,
    pub(super) exercises: Vec<Cue>,
    pub(super) question: Option<Line>,
    /// The title of the next week.
    pub(super) next: Option<Line>,
}

/// The cues of one exercise.
#[derive(Serialize)]
pub(super) struct Cue {
    pub(super) place: Place,
    pub(super) title: String,
    pub(super) component: Component,
    /// Its first figure.
    pub(super) figure: Option<Figure>,
    /// "10 times, 2 sets".
    pub(super) count: String,
    /// The cue of the week.
    pub(super) focus: Option<Line>,
    pub(super) cues: Vec<Line>,
    pub(super) faults: Vec<Line>,
    pub(super) easier: Option<Line>,
    pub(super) harder: Option<Line>,
}
