//! What one saved file changes, without reading the rest.

use std::sync::{Arc, OnceLock};

use super::open::left_out;
use super::{Edition, OpenError, logo, styles};
use crate::entry;
use crate::model::source::FileId;
use crate::workspace::layout::{self, FileKind};
use crate::workspace::theme::Theme;
use crate::workspace::{self, Content, File};

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
