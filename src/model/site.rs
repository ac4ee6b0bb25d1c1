//! The workspace as a whole: whose it is, its language, its print sizes, its rules.

use std::collections::BTreeMap;

use super::amount::Amount;
use super::catalogue::Catalogue;
use super::finding::Level;
use super::source::{FileId, Spanned};
use super::vocabulary::{Extent, Paper, Vocabulary};

/// What `site.toml` says.
#[derive(Clone, Debug)]
pub struct Site {
    pub file: FileId,
    pub title: Spanned<String>,
    pub summary: Option<Spanned<String>>,
    /// A language the theme has words for, such as `en`.
    pub language: Spanned<String>,
    /// The address the site will have, ending in `/`.
    pub address: Spanned<String>,
    /// The theme's folder name.
    pub theme: Spanned<String>,
    /// The parameter with which the address of a video elsewhere says a moment in seconds, such as `t`.
    pub time_parameter: Option<Spanned<String>>,
    pub educator: Educator,
    pub print: Print,
    pub targets: Targets,
    /// Levels of rules that the workspace changes.
    pub rules: BTreeMap<String, Spanned<RuleSetting>>,
    pub catalogue: Catalogue,
}

/// The person who prepares the series, and how to reach her.
#[derive(Clone, Debug, Default)]
pub struct Educator {
    pub name: String,
    /// Letters after the name, or the profession.
    pub credentials: Option<String>,
    pub clinic: Option<String>,
    /// Lines of the postal address.
    pub place: Vec<String>,
    pub phone: Option<String>,
    pub email: Option<String>,
    /// The number to call in an emergency where her clients live.
    pub emergency: Option<String>,
    /// The clinic's own mark, by the name of its file below `content/`.
    pub logo: Option<Spanned<String>>,
}

/// Which printed sheets the site has of each week and exercise, in which sizes, on which papers.
#[derive(Clone, Debug)]
pub struct Print {
    /// Each once, in the order in which pages list them.
    pub extents: Vec<Extent>,
    /// Points.
    pub sizes: Vec<u32>,
    pub papers: Vec<Paper>,
}

impl Print {
    /// The sizes that sheets are made in, in points.
    pub const SIZES: [u32; 3] = [18, 24, 32];

    /// The size of a sheet for which nobody asks for another: the first.
    pub fn size(&self) -> u32 {
        self.sizes.first().copied().unwrap_or(Self::SIZES[0])
    }

    /// The paper of a sheet for which nobody asks for another: the first.
    pub fn paper(&self) -> Paper {
        self.papers.first().copied().unwrap_or(Paper::ALL[0])
    }
}

impl Default for Print {
    /// Cards in the two smaller sizes, on every paper.
    fn default() -> Print {
        let [large, larger, _] = Self::SIZES;
        Print { extents: vec![Extent::Cards], sizes: vec![large, larger], papers: Paper::ALL.to_vec() }
    }
}

/// Weekly targets by name, with the range each aims at.
pub type Targets = BTreeMap<String, Spanned<Amount>>;

/// What a workspace does with a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleSetting {
    Off,
    At(Level),
}

impl RuleSetting {
    pub const WORDS: [&'static str; 4] = ["off", "note", "warning", "error"];

    pub fn from_word(word: &str) -> Option<RuleSetting> {
        Some(match word {
            "off" => RuleSetting::Off,
            "note" => RuleSetting::At(Level::Note),
            "warning" => RuleSetting::At(Level::Warning),
            "error" => RuleSetting::At(Level::Error),
            _ => return None,
        })
    }
}
