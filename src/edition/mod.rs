//! One state of a workspace with all that can be made of it: opened, changed file by file, reviewed, asked which files it
//! makes, from what, and to make one. `make`, `handout`, `plan`, `proof`, tests and benches go through it. It asks
//! `workspace` for files and gives `publish` what it made; itself it touches no disk and knows no clock.
//!
//! ```text
//!  open ──▶ Edition ──change──▶ Edition           one entry read again, the rest as it was
//!             │ ├── review ──▶ findings
//!             │ ╰── site(day) ──▶ Site            ladders, uses, references, templates, fonts: once
//!             ╰── make_site ──▶ Site::make(output) for what has changed ──▶ publish
//! ```

mod approval;
mod change;
mod handout;
mod held;
mod inputs;
mod logo;
mod make;
mod open;
mod person;
mod photos;
mod record;
mod rendered;
mod sheets;
mod site;
mod styles;

use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use jiff::civil::Date;

pub use approval::{Approval, Unapproved};
pub use change::{Rewritten, Unwritten};
pub use handout::{Asked, Unshown};
pub use inputs::UnreadAttachment;
pub use make::{Finished, MakeError, Progress, Stage};
pub use open::{OpenError, read_words, unknown_language};
pub use person::Profile;
pub use photos::{MadePhoto, make_photo};
pub use rendered::Rendered;
pub use sheets::{
    AskedPages, AskedSheet, NamedBy, Placed, PlacedPage, Presses, SameName, Supplies, Unplaced, Unready,
};
pub use site::{Body, OutputFile, SetOutput, Site, SiteFacts, Unmade};

use crate::model::Model;
use crate::model::finding::Finding;
use crate::model::source::Sources;
use crate::model::words::Words;
use crate::outputs::Derived;
use crate::outputs::blocks::evidence::Formatted;
use crate::pages::{TemplateError, Templates};
use crate::review::{self, Awaited, Case, Review, ReviewCache};
use crate::workspace::theme::Theme;

/// A workspace in memory: its texts, what they say, the theme with the words of the site's language, and what was found
/// while reading. The four belong together and change together.
pub struct Edition {
    root: PathBuf,
    sources: Sources,
    model: Model,
    theme: Arc<Theme>,
    words: Arc<Words>,
    findings: Vec<Finding>,
    /// The theme's templates in the words of the site, once somebody has asked for them.
    templates: OnceLock<Result<Arc<Templates>, TemplateError>>,
    /// The references as they are cited and listed, once somebody has asked for them.
    references: Arc<OnceLock<Formatted>>,
}

impl Edition {
    /// The folder of the workspace.
    pub fn root(&self) -> &Path {
        &self.root
    }

    pub fn sources(&self) -> &Sources {
        &self.sources
    }

    pub fn model(&self) -> &Model {
        &self.model
    }

    pub fn theme(&self) -> &Theme {
        &self.theme
    }

    /// The words of the site's language.
    pub fn words(&self) -> &Words {
        &self.words
    }

    /// What was found while reading, before any rule was asked.
    pub fn found_while_reading(&self) -> &[Finding] {
        &self.findings
    }

    fn templates(&self) -> Result<Arc<Templates>, TemplateError> {
        let read = || Templates::of(&self.theme, &self.words, &self.model.site).map(Arc::new);
        self.templates.get_or_init(read).clone()
    }

    fn derived(&self) -> Derived<'_> {
        Derived::with_references(&self.model, &self.words, Arc::clone(&self.references))
    }

    /// What the entries say and their texts, for tests that go on with these alone.
    #[doc(hidden)]
    pub fn into_parts(self) -> (Model, Sources) {
        (self.model, self.sources)
    }

    /// What the rules look at.
    pub fn case(&self, today: Date) -> Case<'_> {
        Case { model: &self.model, sources: &self.sources, words: &self.words, today }
    }

    /// Every finding, without those that only finished pages and sheets show.
    pub fn review(&self, today: Date) -> Review {
        review::review(&self.case(today), self.findings.clone())
    }

    /// The same, where `kept` still knows what the last review said of entries that have not changed; `None` as soon as
    /// nobody waits for it.
    pub fn review_while(&self, today: Date, kept: &mut ReviewCache, awaited: Awaited<'_>) -> Option<Review> {
        review::review_while(&self.case(today), self.findings.clone(), kept, awaited)
    }
}
