//! What every command begins with: the workspace read, and the words of its language.
#![expect(clippy::disallowed_methods, reason = "the command line asks where it was started")]

use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::Common;
use super::outcome::Failure;
use crate::entry;
use crate::model::Model;
use crate::model::finding::Finding;
use crate::model::nearest::{nearest, quoted};
use crate::model::source::Sources;
use crate::model::words::Words;
use crate::review::{self, Case, Review};
use crate::workspace::theme::Theme;
use crate::workspace::{self, Texts};

/// A workspace in memory.
pub(super) struct Loaded {
    pub(super) root: PathBuf,
    pub(super) sources: Sources,
    pub(super) model: Model,
    pub(super) theme: Theme,
    pub(super) words: Words,
    findings: Vec<Finding>,
}

impl Loaded {
    /// The model and its texts as the rules look at them.
    pub(super) fn case(&self, today: Date) -> Case<'_> {
        Case { model: &self.model, sources: &self.sources, words: &self.words, today }
    }

    /// Reviews the workspace.
    pub(super) fn review(&self, today: Date) -> Review {
        review::review(&self.case(today), self.findings.clone())
    }
}

/// The folder of the workspace that the arguments mean.
pub(super) fn root(common: &Common) -> Result<PathBuf, Failure> {
    match &common.workspace {
        Some(folder) => Ok(folder.clone()),
        None => {
            let here = std::env::current_dir()
                .map_err(|e| Failure::Unreadable(format!("the current folder cannot be read: {e}")))?;
            Ok(workspace::find(&here)?)
        }
    }
}

/// Reads the workspace. Whatever is wrong with its entries is a finding; only a folder or a theme
/// that cannot be read at all is a failure.
pub(super) fn load(common: &Common) -> Result<Loaded, Failure> {
    let root = root(common)?;
    let Texts { sources, files, attachments } = workspace::read(&root)?;
    let texts = Texts { sources, files, attachments };
    let (mut site, mut findings) = entry::read_site(&texts);
    let theme = read_theme(&root, &site.theme)?;
    let languages = theme.languages();
    if !languages.contains(&site.language.value.as_str()) {
        let written = site.language.value.clone();
        let help = match nearest(&written, languages.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!(
                "the theme has {}; add themes/{}/words/{written}.ftl for another",
                quoted(&languages),
                site.theme
            ),
        };
        let message = format!("expected a language that the theme has words for, found `{written}`");
        findings.push(Finding::new("wrong-value", site.language.span, message, help));
        site.language.value = "en".to_string();
    }
    let words = read_words(&theme, &site.language.value)?;
    let (model, found) = entry::read(&texts, site, &words);
    findings.extend(found);
    Ok(Loaded { root, sources: texts.sources, model, theme, words, findings })
}

fn read_theme(root: &Path, name: &str) -> Result<Theme, Failure> {
    Ok(Theme::read(root, name)?)
}

fn read_words(theme: &Theme, language: &str) -> Result<Words, Failure> {
    let file = format!("words/{language}.ftl");
    let fluent = theme
        .text(&file)
        .ok_or_else(|| Failure::Unreadable(format!("the theme's {file} is not text in UTF-8")))?;
    let claims = theme.text(&format!("words/claims.{language}.txt")).unwrap_or("");
    Words::read(language, fluent, claims).map_err(|mistakes| {
        Failure::Unreadable(format!("the theme's {file} has a mistake: {}", mistakes.join("; ")))
    })
}
