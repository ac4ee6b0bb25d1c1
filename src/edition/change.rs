//! What one saved file changes, without reading the rest.

use std::sync::{Arc, OnceLock};

use std::fmt;

use super::open::left_out;
use super::{Edition, OpenError, logo, styles};
use crate::entry;
use crate::model::finding::Finding;
use crate::model::source::FileId;
use crate::workspace::layout::{self, FileKind};
use crate::workspace::theme::Theme;
use crate::workspace::{self, BYTE_ORDER_MARK, Content, File};

/// An entry with another text, to be written in the place of what it was.
#[derive(Debug)]
pub struct Rewritten {
    /// The entry's file, relative to the workspace.
    pub name: String,
    pub before: Vec<u8>,
    pub after: Vec<u8>,
    /// What is found while reading the new text and was not found in the old one.
    pub found: Vec<Finding>,
}

/// Why an entry cannot be written anew.
#[derive(Debug)]
pub enum Unwritten {
    NotThere {
        name: String,
    },
    Unread {
        name: String,
        why: String,
    },
    /// Another program has changed the file since it was read.
    Changed {
        name: String,
    },
}

impl fmt::Display for Unwritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unwritten::NotThere { name } => write!(f, "there is no file {name}"),
            Unwritten::Unread { name, why } => write!(f, "{name} cannot be read: {why}"),
            Unwritten::Changed { name } => write!(f, "{name} has just been changed by another program"),
        }
    }
}

impl std::error::Error for Unwritten {}

impl Edition {
    /// Reads one saved text again, and puts it in the place of what it was. `None` where only opening the whole
    /// workspace tells what has become of it; false when it says what it said before.
    pub fn read_again(&mut self, name: &str) -> Option<bool> {
        let id = self.sources.find(name)?;
        let (text, content) = workspace::read_again(&self.root, name)?;
        if text == self.sources.get(id).text {
            return (content == Content::Text).then_some(false);
        }
        self.take(File { id, kind: layout::kind(name)?, content }, text)?;
        Some(true)
    }

    /// What an entry would be with another text; the edition stays as it is.
    ///
    /// # Errors
    /// When there is no such entry, or its file is not what was read of it.
    pub fn rewritten(&self, name: &str, text: &str) -> Result<Rewritten, Unwritten> {
        let name = name.to_string();
        let (Some(id), Some(kind)) = (self.sources.find(&name), layout::kind(&name)) else {
            return Err(Unwritten::NotThere { name });
        };
        let old = &self.sources.get(id).text;
        let before = match workspace::bytes_of(&self.root, &name, old) {
            Ok(Some(bytes)) => bytes,
            Ok(None) => return Err(Unwritten::Changed { name }),
            Err(why) => return Err(Unwritten::Unread { name, why: why.to_string() }),
        };
        let mark = if before.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK } else { b"" };
        let after = [mark, text.as_bytes()].concat();
        let file = File { id, kind, content: Content::Text };
        let mut known: Vec<(&str, String)> =
            self.findings.iter().filter(|f| f.span.file == id).map(|f| (f.rule, f.message.clone())).collect();
        let mut found = entry::found_in(text, &file, &name, &self.model, &self.words);
        // Each that was there before makes up for one like it.
        found.retain(|finding| {
            let same =
                known.iter().position(|(rule, said)| *rule == finding.rule && *said == finding.message);
            same.map(|at| known.swap_remove(at)).is_none()
        });
        Ok(Rewritten { name, before, after, found })
    }

    /// Puts another text in the place of what an entry says, in memory alone. `None` where it cannot be read by itself.
    pub fn put(&mut self, id: FileId, text: String) -> Option<()> {
        let kind = layout::kind(&self.sources.get(id).name)?;
        self.take(File { id, kind, content: Content::Text }, text)
    }

    fn take(&mut self, file: File, text: String) -> Option<()> {
        let name = self.sources.get(file.id).name.clone();
        let found = entry::read_again(&mut self.model, &text, &file, &name, &self.words)?;
        self.sources.replace(file.id, text);
        if file.kind == FileKind::References {
            self.references = Arc::default();
        }
        self.findings.retain(|f| f.span.file != file.id);
        self.findings.extend(found);
        Some(())
    }

    /// Reads the theme again, but for its words.
    ///
    /// # Errors
    /// When it cannot be read; it is then as it was.
    pub fn read_theme_again(&mut self) -> Result<(), OpenError> {
        let mut theme = Theme::read(&self.root, &self.model.site.theme.value)?;
        // The mark of the clinic is no file of the theme's folder: it is as it was, and so is what was found in it.
        logo::put(&mut theme, &self.root, &self.model.site);
        let before = left_out(&self.theme, &self.model.site);
        self.findings.retain(|finding| !before.contains(finding));
        self.findings.extend(left_out(&theme, &self.model.site));
        self.findings.retain(|finding| !styles::is_style(self.sources.get(finding.span.file)));
        self.findings.extend(styles::read(&theme, &self.model.site, &mut self.sources));
        self.theme = Arc::new(theme);
        self.templates = OnceLock::new();
        Ok(())
    }
}
