//! One movement: what it asks of the body, how much, its safe forms and its cautions.

use jiff::civil::Date;

use super::accept::Accept;
use super::dose::Dose;
use super::figure::Figure;
use super::prose::Prose;
use super::source::{FileId, Span, Spanned};
use super::standing::Standing;
use super::vocabulary::{CautionLevel, Component, Position, Region, Support, Surface};

/// One exercise entry.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// The file's name without its ending.
    pub id: String,
    pub file: FileId,
    pub standing: Standing,
    pub title: Spanned<String>,
    /// Other names by which people know it as it stands; its variations have names of their own.
    pub also_called: Vec<Spanned<String>>,
    pub summary: Spanned<String>,
    pub component: Spanned<Component>,
    pub position: Spanned<Position>,
    /// As it is written; [`super::form::Form::surface`] has the default.
    pub surface: Option<Spanned<Surface>>,
    pub support: Vec<Spanned<Support>>,
    pub equipment: Vec<Spanned<String>>,
    /// Those that the author declares; what the fields say beside them is `reckon`'s to derive.
    pub demands: Vec<Spanned<String>>,
    /// The regions of the body that it trains.
    pub trains: Vec<Spanned<Region>>,
    pub dose: Dose,
    pub variations: Vec<Variation>,
    pub regressions: Vec<Change>,
    pub progressions: Vec<Change>,
    pub cautions: Vec<Caution>,
    pub figures: Vec<Figure>,
    pub reviewed: Option<Reviewed>,
    pub accept: Vec<Accept>,
    pub prose: Prose,
}

/// The same movement done another safe way. What it leaves out is as the exercise has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Variation {
    pub span: Span,
    pub title: Spanned<String>,
    pub text: Spanned<String>,
    pub instruction: Instruction,
    pub position: Option<Spanned<Position>>,
    pub surface: Option<Spanned<Surface>>,
    pub support: Option<Vec<Spanned<Support>>>,
    pub equipment: Option<Vec<Spanned<String>>>,
    pub removes: Vec<Spanned<String>>,
    pub adds: Vec<Spanned<String>>,
    pub dose: Option<Dose>,
    pub figures: Vec<Figure>,
}

impl Variation {
    /// Its own steps; none where it keeps those of the exercise, or has no instruction.
    pub fn steps(&self) -> &[Spanned<String>] {
        match &self.instruction {
            Instruction::Steps(steps) => steps,
            Instruction::Kept | Instruction::Bare => &[],
        }
    }
}

/// How a variation is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Instruction {
    /// Its own steps, which need no others.
    Steps(Vec<Spanned<String>>),
    /// The steps of the exercise, with the one change that its text says.
    Kept,
    /// Its text alone, which is no whole instruction.
    Bare,
}

/// A regression or a progression: easier or harder, in words or as another exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    pub span: Span,
    pub way: Way,
    pub removes: Vec<Spanned<String>>,
    pub adds: Vec<Spanned<String>>,
    pub dose: Option<Dose>,
}

/// How a regression or progression is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Way {
    /// Another exercise, by id, with the author's remark on it where there is one.
    Exercise { id: Spanned<String>, text: Option<Spanned<String>> },
    /// A change in words.
    Text(Spanned<String>),
}

impl Change {
    /// The id of the exercise it leads to, if it leads to one.
    pub fn exercise(&self) -> Option<&Spanned<String>> {
        match &self.way {
            Way::Exercise { id, .. } => Some(id),
            Way::Text(_) => None,
        }
    }

    /// What it says in words, if anything.
    pub fn text(&self) -> Option<&Spanned<String>> {
        match &self.way {
            Way::Exercise { text, .. } => text.as_ref(),
            Way::Text(text) => Some(text),
        }
    }
}

/// The written safety note of an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    pub span: Span,
    pub applies: Applies,
    pub level: Spanned<CautionLevel>,
    pub text: Spanned<String>,
    /// The demands that it speaks of, where the author says so.
    pub about: Option<Vec<Spanned<String>>>,
    /// The form to do instead: the title of a variation, or the id of an exercise that a regression leads to.
    pub instead: Option<Spanned<String>>,
    /// What it changes of the dose, for those it names.
    pub dose: Option<Dose>,
    /// The title of the one variation that it belongs to.
    pub form: Option<Spanned<String>>,
}

/// Whom a caution is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Applies {
    Everyone,
    Precautions(Vec<Spanned<String>>),
}

impl Caution {
    /// True when the caution names this precaution.
    pub fn names(&self, precaution: &str) -> bool {
        match &self.applies {
            Applies::Everyone => false,
            Applies::Precautions(list) => list.iter().any(|p| p.value == precaution),
        }
    }

    /// The order in which cautions are read: the strictest first, and of the same strictness those for
    /// somebody before those for everyone.
    pub fn strictness(&self) -> (u8, bool) {
        let level = match self.level.value {
            CautionLevel::Stop => 0,
            CautionLevel::Ask => 1,
            CautionLevel::Adapt => 2,
        };
        (level, self.applies == Applies::Everyone)
    }
}

/// Who approved the entry clinically, and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reviewed {
    pub span: Span,
    pub by: Spanned<String>,
    pub on: Spanned<Date>,
    /// The fingerprint of what was reviewed, which `approve` writes.
    pub of: Option<Spanned<String>>,
}

impl Exercise {
    /// Where findings about the exercise as a whole point: its title.
    pub fn place(&self) -> Span {
        self.title.span
    }

    /// What people call it: its title, then its other names.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.title).chain(&self.also_called).map(|name| name.value.as_str())
    }

    /// The variation of that title.
    pub fn variation(&self, title: &str) -> Option<&Variation> {
        self.variations.iter().find(|v| v.title.value == title)
    }

    /// Its pictures and those of its variations, in the order written.
    pub fn all_figures(&self) -> impl Iterator<Item = &Figure> {
        self.figures.iter().chain(self.variations.iter().flat_map(|variation| &variation.figures))
    }

    /// True when the author declares that the exercise asks this of the body.
    pub fn declares(&self, demand: &str) -> bool {
        self.demands.iter().any(|d| d.value == demand)
    }
}
