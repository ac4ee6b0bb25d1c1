//! The theme: templates, style, words and fonts. The built-in files are part of the program; a file
//! under `themes/NAME/` in the workspace replaces the built-in file of the same name.
#![expect(clippy::disallowed_methods, reason = "this is the door through which files are read")]

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::Path;

use include_dir::{Dir, include_dir};
use walkdir::WalkDir;

use super::{WorkspaceError, layout, relative};
use crate::model::words::Lists;

/// The name of the theme that the program holds.
pub const BUILT_IN_NAME: &str = "clearprint";

static BUILT_IN: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/themes/clearprint");

/// Every file of the theme by its name, such as `templates/week.html`.
#[derive(Debug, Default)]
pub struct Theme {
    pub files: BTreeMap<String, Cow<'static, [u8]>>,
}

impl Theme {
    /// The theme as the program holds it.
    pub fn built_in() -> Theme {
        let mut theme = Theme::default();
        collect(&BUILT_IN, &mut theme);
        theme
    }

    /// True for the built-in theme and for a folder under `themes/`. A name is one folder: letters a to z,
    /// digits, hyphens and underscores.
    pub fn exists(root: &Path, name: &str) -> bool {
        let fits = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        let plain = !name.is_empty() && name.chars().all(fits);
        plain && (name == BUILT_IN_NAME || root.join("themes").join(name).is_dir())
    }

    /// The built-in theme with the workspace's own files laid over it.
    pub fn read(root: &Path, name: &str) -> Result<Theme, WorkspaceError> {
        let mut theme = Theme::built_in();
        let folder = root.join("themes").join(name);
        if !folder.is_dir() {
            return Ok(theme);
        }
        for item in WalkDir::new(&folder).sort_by_file_name() {
            let unreadable = |why| WorkspaceError::Unreadable { path: folder.clone(), why };
            let item = item.map_err(|e| unreadable(e.into()))?;
            let Some((name, _)) = relative(&folder, item.path()) else { continue };
            if item.file_type().is_file() && !layout::is_hidden(&name) {
                let bytes = std::fs::read(item.path())
                    .map_err(|why| WorkspaceError::Unreadable { path: item.path().to_path_buf(), why })?;
                theme.files.insert(name, Cow::Owned(bytes));
            }
        }
        Ok(theme)
    }

    /// A file as text; `None` when there is none or it is no UTF-8.
    pub fn text(&self, name: &str) -> Option<&str> {
        std::str::from_utf8(self.files.get(name)?).ok()
    }

    /// The files directly or deeper below a folder such as `fonts/`, in order of name.
    pub fn below<'a>(&'a self, folder: &'a str) -> impl Iterator<Item = (&'a str, &'a [u8])> {
        self.files
            .iter()
            .filter(move |(name, _)| name.starts_with(folder))
            .map(|(name, bytes)| (name.as_str(), bytes.as_ref()))
    }

    /// The word lists of a language; what the theme does not have is empty.
    pub fn lists(&self, language: &str) -> Lists<'_> {
        let list = |name: &str| self.text(&format!("words/{name}.{language}.txt")).unwrap_or("");
        Lists {
            claims: list("claims"),
            evidence: list("evidence"),
            breath: list("breath"),
            forms: list("forms"),
            demands: list("demands"),
            terms: list("terms"),
            syllables: list("syllables"),
        }
    }

    /// Languages the theme has words for.
    pub fn languages(&self) -> Vec<&str> {
        self.files.keys().filter_map(|n| n.strip_prefix("words/")?.strip_suffix(".ftl")).collect()
    }
}

fn collect(folder: &'static Dir<'static>, theme: &mut Theme) {
    for file in folder.files() {
        let name = file.path().components().map(|c| c.as_os_str().to_string_lossy()).collect::<Vec<_>>();
        theme.files.insert(name.join("/"), Cow::Borrowed(file.contents()));
    }
    for dir in folder.dirs() {
        collect(dir, theme);
    }
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet};

    use super::*;
    use crate::model::catalogue::{Catalogue, DEMANDS};
    use crate::model::vocabulary::{
        CautionLevel, Component, Paper, Position, SectionName, Sides, Support, Vocabulary,
    };
    use crate::model::words::Words;

    /// The messages of a language: each id with the arguments that stand in its text.
    fn messages(language: &str) -> BTreeMap<String, BTreeSet<String>> {
        let theme = Theme::built_in();
        let text = theme.text(&format!("words/{language}.ftl")).unwrap().to_string();
        let mut messages: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        let mut id = String::new();
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            if let Some((name, _)) = line.split_once('=').filter(|_| line.starts_with(char::is_alphabetic)) {
                id = name.trim().to_string();
                assert!(
                    messages.insert(id.clone(), BTreeSet::new()).is_none(),
                    "{language}: `{id}` stands twice"
                );
            }
            for argument in line.split('$').skip(1) {
                let name: String = argument.chars().take_while(|c| c.is_alphanumeric()).collect();
                messages.entry(id.clone()).or_default().insert(name);
            }
        }
        messages
    }

    #[test]
    fn every_language_says_the_same_things_with_the_same_arguments() {
        let english = messages("en");
        for language in Theme::built_in().languages() {
            let other = messages(language);
            assert_eq!(english, other, "English on the left, `{language}` on the right");
        }
    }

    #[test]
    fn every_word_of_the_model_has_words_for_a_reader() {
        fn ids<V: Vocabulary>(prefix: &str) -> Vec<String> {
            V::ALL.iter().map(|v| format!("{prefix}-{}", v.word())).collect()
        }
        let mut wanted = [
            ids::<Component>("component"),
            ids::<Position>("position"),
            ids::<Support>("support"),
            ids::<Sides>("dose-sides"),
            ids::<CautionLevel>("level"),
            ids::<Paper>("paper"),
            ids::<SectionName>("section"),
            DEMANDS.iter().map(|d| format!("demand-{d}")).collect(),
        ]
        .concat();
        wanted.extend(Catalogue::built_in().precautions.keys().map(|p| format!("precaution-{p}")));
        let theme = Theme::built_in();
        for language in theme.languages() {
            let words = Words::read(
                language,
                theme.text(&format!("words/{language}.ftl")).unwrap(),
                Lists::default(),
            )
            .unwrap();
            for id in &wanted {
                assert!(words.has(id), "{language}: nothing for `{id}`");
            }
        }
    }

    #[test]
    fn a_theme_is_the_built_in_one_or_a_folder_under_themes() {
        let root = tempfile::tempdir().unwrap();
        std::fs::create_dir_all(root.path().join("themes/mine")).unwrap();
        for (name, there) in [
            ("clearprint", true),
            ("mine", true),
            ("nope", false),
            ("../themes/mine", false),
            ("/etc", false),
            ("", false),
        ] {
            assert_eq!(Theme::exists(root.path(), name), there, "{name}");
        }
    }

    #[test]
    fn a_file_of_the_workspace_replaces_the_built_in_one() {
        let root = tempfile::tempdir().unwrap();
        let folder = root.path().join("themes/clearprint/style");
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join("text.css"), "mine").unwrap();
        let theme = Theme::read(root.path(), "clearprint").unwrap();
        assert_eq!(theme.text("style/text.css"), Some("mine"));
        assert_eq!(theme.text("words/en.ftl"), Theme::built_in().text("words/en.ftl"));
    }
}
