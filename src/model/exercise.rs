//! One movement: what it asks of the body, how much, its safe versions and its cautions.

use jiff::civil::Date;

use super::accept::Accept;
use super::catalogue::Catalogue;
use super::dose::Dose;
use super::figure::Figure;
use super::prose::Prose;
use super::source::{FileId, Span, Spanned};
use super::standing::Standing;
use super::vocabulary::{CautionLevel, Component, Position, Restriction, Support};

/// One exercise entry.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// The file's name without its ending.
    pub id: String,
    pub file: FileId,
    pub standing: Standing,
    pub title: Spanned<String>,
    pub summary: Spanned<String>,
    pub component: Spanned<Component>,
    pub position: Spanned<Position>,
    pub support: Vec<Spanned<Support>>,
    pub equipment: Vec<Spanned<String>>,
    pub demands: Vec<Spanned<String>>,
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

/// The same movement done another safe way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Variation {
    pub span: Span,
    pub title: Spanned<String>,
    pub text: Spanned<String>,
    pub position: Option<Spanned<Position>>,
    pub support: Vec<Spanned<Support>>,
    pub removes: Vec<Spanned<String>>,
    pub adds: Vec<Spanned<String>>,
    pub dose: Option<Dose>,
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
}

impl Exercise {
    /// Where findings about the exercise as a whole point: its title.
    pub fn place(&self) -> Span {
        self.title.span
    }

    /// True when a variation or a regression takes this demand away for people with a precaution, and
    /// adds nothing that spoils it for them.
    pub fn sheds(&self, demand: &str, precaution: &str, catalogue: &Catalogue) -> bool {
        let variations = self.variations.iter().map(|v| (&v.removes, &v.adds));
        let regressions = self.regressions.iter().map(|r| (&r.removes, &r.adds));
        variations.chain(regressions).any(|(removes, adds)| {
            removes.iter().any(|d| d.value == demand)
                && self.spoils(adds, demand, precaution, catalogue).is_none()
        })
    }

    /// The demand that makes a version which adds these demands no answer to `demand` for people with a
    /// precaution: the same demand again, one that the precaution says to avoid, or another that it
    /// restricts and that no caution for the precaution speaks of.
    pub fn spoils<'a>(
        &self,
        adds: &'a [Spanned<String>],
        demand: &str,
        precaution: &str,
        catalogue: &Catalogue,
    ) -> Option<&'a Spanned<String>> {
        let cautioned = self.cautions.iter().any(|c| c.names(precaution));
        adds.iter().find(|added| {
            added.value == demand
                || match catalogue.row(precaution, &added.value).map(|row| row.by) {
                    None => false,
                    Some(Restriction::Avoid) => true,
                    Some(Restriction::Modify | Restriction::Ask) => !cautioned,
                }
        })
    }

    /// True when the exercise asks this of the body.
    pub fn asks(&self, demand: &str) -> bool {
        self.demands.iter().any(|d| d.value == demand)
    }
}
