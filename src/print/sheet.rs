//! What stands on a sheet, as the theme's sheet reads it.

use serde::Serialize;

use super::pictures::Drawn;
use super::places::Place;
use super::prose::Piece;
use crate::outputs::blocks::card::BarredBlock;
use crate::outputs::blocks::care::CareBlock;
use crate::outputs::blocks::caution::CautionBlock;
use crate::outputs::blocks::component::ComponentBlock;
use crate::outputs::blocks::exercise::ExerciseBlock;
use crate::outputs::blocks::grid::{GridBlock, RowBlock};
use crate::outputs::blocks::person::PersonBlock;
use crate::outputs::blocks::practice::Spread;
use crate::outputs::blocks::turn::TurnBlock;
use crate::outputs::blocks::way::WayBlock;
use crate::outputs::blocks::week::WeekBlock;

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
    /// The language that entries are written in, where it is another.
    pub(super) texts_language: Option<String>,
    /// Whether the language is written from right to left.
    pub(super) from_right: bool,
    pub(super) draft: bool,
    /// The clinic's own mark.
    pub(super) logo: Option<Logo>,
    pub(super) author: String,
    pub(super) title: Line,
    /// Whether an author wrote the title; else it is one of the theme's words.
    pub(super) of_entry: bool,
    /// In the footer, before the page number: which sheet a loose page belongs to.
    pub(super) running: Option<String>,
    pub(super) running_place: Option<Place>,
    /// "Page {number} of {count}", to be filled when the pages are counted.
    pub(super) page_of: String,
}

/// The mark of a clinic: the sheet's file with it, and what it says.
#[derive(Clone, Serialize)]
pub(super) struct Logo {
    pub(super) file: String,
    pub(super) description: String,
}

/// A handout.
#[derive(Serialize)]
pub(super) struct Handout<'m> {
    #[serde(flatten)]
    pub(super) common: Common,
    /// How much the sheet says, as authors write it.
    pub(super) extent: &'static str,
    /// One exercise by itself: the title is its own.
    pub(super) alone: bool,
    pub(super) week: Option<WeekSheet<'m>>,
    pub(super) person: Option<PersonSheet<'m>>,
    /// The exercises in their order.
    pub(super) turns: Vec<Placed<TurnBlock<'m>>>,
    /// "About 10 to 25 minutes a day, 6 days a week."
    pub(super) time: Option<String>,
    pub(super) needs: Vec<Line>,
    pub(super) welcome: Vec<Piece>,
    pub(super) emergency_call: String,
    /// On cards for everyone, which have no room for how each of them does it.
    pub(super) care: Option<CareBlock>,
    pub(super) exercises: Vec<Exercise<'m>>,
    pub(super) grid: Grid<'m>,
    pub(super) practice: Option<Practice<'m>>,
    pub(super) online: Option<Online>,
    pub(super) educator: Educator,
    /// "Made on March 1, 2027".
    pub(super) made: Option<String>,
}

/// A block with the place where it was written.
#[derive(Serialize)]
pub(super) struct Placed<B> {
    pub(super) place: Place,
    #[serde(flatten)]
    pub(super) block: B,
}

/// The week that the sheet is of. `places` has the place of each text of the block under the name of the text, here and
/// below.
#[derive(Serialize)]
pub(super) struct WeekSheet<'m> {
    #[serde(flatten)]
    pub(super) block: WeekBlock<'m>,
    pub(super) places: WeekPlaces,
}

#[derive(Serialize)]
pub(super) struct WeekPlaces {
    pub(super) question: Option<Place>,
}

/// Whom the sheet is for.
#[derive(Serialize)]
pub(super) struct PersonSheet<'m> {
    #[serde(flatten)]
    pub(super) block: PersonBlock<'m>,
    pub(super) places: PersonPlaces,
}

#[derive(Serialize)]
pub(super) struct PersonPlaces {
    pub(super) line: Place,
    pub(super) note: Option<Place>,
    pub(super) left_out: Vec<Place>,
}

/// One exercise, or the form of it that was chosen for a person: its block, and what only a sheet knows.
#[derive(Serialize)]
pub(super) struct Exercise<'m> {
    pub(super) place: Place,
    #[serde(flatten)]
    pub(super) block: ExerciseBlock<'m>,
    pub(super) places: ExercisePlaces,
    pub(super) cautions: Vec<Placed<CautionBlock<'m>>>,
    pub(super) figures: Vec<Figure>,
    pub(super) intro: Vec<Piece>,
    pub(super) sections: Vec<Section>,
    pub(super) easier: Vec<Way<'m>>,
    pub(super) other_ways: Vec<Way<'m>>,
    pub(super) harder: Vec<Way<'m>>,
    /// On a sheet of cards.
    pub(super) card: Option<Card<'m>>,
}

/// What stands on the card of an exercise besides what every sheet says of it.
#[derive(Serialize)]
pub(super) struct Card<'m> {
    /// What another card knows it by: how many exercises stand before it.
    pub(super) number: Option<usize>,
    pub(super) barred: Vec<Placed<BarredBlock>>,
    pub(super) cautions: Vec<Placed<CautionBlock<'m>>>,
    pub(super) more: Vec<Placed<CautionBlock<'m>>>,
    pub(super) easier: Option<Easier<'m>>,
}

/// An easier way in a line.
#[derive(Serialize)]
pub(super) struct Easier<'m> {
    pub(super) place: Place,
    pub(super) text: &'m str,
    /// The number of the card of the exercise that it is, where that is on the same sheet, and what it is called.
    pub(super) number: Option<usize>,
    pub(super) title: Option<&'m str>,
}

#[derive(Serialize)]
pub(super) struct ExercisePlaces {
    pub(super) also_called: Option<Place>,
    pub(super) summary: Option<Place>,
    pub(super) focus: Option<Place>,
    pub(super) change: Option<Place>,
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

/// An easier, other or harder way.
#[derive(Serialize)]
pub(super) struct Way<'m> {
    pub(super) place: Place,
    #[serde(flatten)]
    pub(super) block: WayBlock<'m>,
    pub(super) places: WayPlaces,
    pub(super) figures: Vec<Figure>,
    pub(super) cautions: Vec<Placed<CautionBlock<'m>>>,
}

#[derive(Serialize)]
pub(super) struct WayPlaces {
    pub(super) steps: Vec<Place>,
}

/// The practice week.
#[derive(Serialize)]
pub(super) struct Practice<'m> {
    #[serde(flatten)]
    pub(super) block: Spread<'m>,
    pub(super) places: PracticePlaces,
}

#[derive(Serialize)]
pub(super) struct PracticePlaces {
    pub(super) days: Vec<DayPlaces>,
}

#[derive(Serialize)]
pub(super) struct DayPlaces {
    pub(super) exercises: Vec<Place>,
}

/// The grid to check off the week.
#[derive(Serialize)]
pub(super) struct Grid<'m> {
    #[serde(flatten)]
    pub(super) block: GridBlock<'m>,
    pub(super) rows: Vec<Placed<RowBlock<'m>>>,
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
    /// What a phone dials for it: `tel:5550142`.
    pub(super) calls: Option<String>,
    pub(super) email: Option<String>,
}

/// The sheet that the educator reads while recording.
#[derive(Serialize)]
pub(super) struct CueSheet {
    #[serde(flatten)]
    pub(super) common: Common,
    pub(super) eyebrow: Option<String>,
    pub(super) props: Vec<Line>,
    /// Somebody asks a clinician before one of the exercises.
    pub(super) asks_first: bool,
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
    pub(super) component: ComponentBlock,
    /// Its first figure.
    pub(super) figure: Option<Figure>,
    /// "10 times, 2 sets".
    pub(super) count: String,
    /// Where it begins in the video: "3:35".
    pub(super) at: Option<Line>,
    /// What is said aloud before the movement, the strictest first.
    pub(super) cautions: Vec<Line>,
    /// The cue of the week.
    pub(super) focus: Option<Line>,
    pub(super) cues: Vec<Line>,
    pub(super) faults: Vec<Line>,
    pub(super) easier: Option<Line>,
    pub(super) harder: Option<Line>,
}
