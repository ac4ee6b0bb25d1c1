//! Opens a workspace: its texts, then the site, the theme and the words that it asks for, then every entry. What tests and
//! benches have in memory is opened from there on.

use std::fmt;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use super::{Edition, logo, styles};
use crate::entry;
use crate::model::finding::Finding;
use crate::model::limits;
use crate::model::nearest::{nearest, quoted, shown};
use crate::model::site::Site;
use crate::model::source::Spanned;
use crate::model::words::Words;
use crate::workspace::theme::{self, BUILT_IN_NAME, FORMER_NAME, LeftOut, Theme};
use crate::workspace::{self, Texts, WorkspaceError};

/// The workspace or its theme could not be read at all.
#[derive(Debug)]
pub enum OpenError {
    Workspace(WorkspaceError),
    /// What is wrong with the theme or its words, in a line for a person.
    Theme(String),
}

impl fmt::Display for OpenError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            OpenError::Workspace(error) => error.fmt(f),
            OpenError::Theme(line) => f.write_str(line),
        }
    }
}

impl std::error::Error for OpenError {}

impl From<WorkspaceError> for OpenError {
    fn from(error: WorkspaceError) -> OpenError {
        OpenError::Workspace(error)
    }
}

impl Edition {
    /// Reads the workspace in that folder. Whatever is wrong with its entries is a finding.
    ///
    /// # Errors
    /// When the folder or the theme cannot be read at all.
    pub fn open(root: PathBuf) -> Result<Edition, OpenError> {
        let texts = workspace::read(&root)?;
        let (mut site, mut findings) = entry::read_site(&texts);
        findings.extend(settle_theme(&root, &mut site));
        let mut theme = Theme::read(&root, &site.theme.value)?;
        findings.extend(logo::put(&mut theme, &root, &site));
        findings.extend(left_out(&theme, &site));
        findings.extend(theme::has_former(&root, &site.theme.value).then(|| former_folder(&site)));
        findings.extend(settle_language(&theme, &mut site));
        let words = read_words(&theme, &site.language.value)?;
        let mut edition = Edition::settled(root, texts, (site, findings), Arc::new(theme), Arc::new(words));
        let found = styles::read(&edition.theme, &edition.model.site, &mut edition.sources);
        edition.findings.extend(found);
        Ok(edition)
    }

    /// Reads texts that are at hand, with this theme and these words whatever the settings ask for. Many editions may
    /// share both: reading the words takes longer than reading a small workspace. Media are looked for below `root`.
    pub fn of_texts(root: PathBuf, texts: Texts, theme: Arc<Theme>, words: Arc<Words>) -> Edition {
        let site = entry::read_site(&texts);
        Edition::settled(root, texts, site, theme, words)
    }

    /// Reads the entries, when it is settled what the settings say, with what was found in them.
    #[doc(hidden)]
    pub fn settled(
        root: PathBuf,
        texts: Texts,
        (site, mut findings): (Site, Vec<Finding>),
        theme: Arc<Theme>,
        words: Arc<Words>,
    ) -> Edition {
        let (model, found) = entry::read(&texts, site, &words);
        findings.extend(found);
        let (templates, references) = (OnceLock::new(), Arc::default());
        Edition { root, sources: texts.sources, model, theme, words, findings, templates, references }
    }
}

/// A theme that is nowhere is a finding, and the built-in one takes its place.
fn settle_theme(root: &Path, site: &mut Site) -> Option<Finding> {
    let written = site.theme.value.clone();
    if Theme::exists(root, &written) {
        return None;
    }
    site.theme.value = BUILT_IN_NAME.to_string();
    if written == FORMER_NAME {
        return Some(Finding::new(
            "wrong-value",
            site.theme.span,
            format!("the theme `{FORMER_NAME}` is called `{BUILT_IN_NAME}` now"),
            format!("write `theme = \"{BUILT_IN_NAME}\"`, or remove the line"),
        ));
    }
    Some(Finding::new(
        "wrong-value",
        site.theme.span,
        format!("expected `{BUILT_IN_NAME}` or a folder under themes/, found {}", shown(&written)),
        format!("write `theme = \"{BUILT_IN_NAME}\"`, or the name of a folder in themes/"),
    ))
}

/// The finding for a folder that an earlier program read as the theme's.
fn former_folder(site: &Site) -> Finding {
    Finding::new(
        "wrong-value",
        site.theme.span,
        format!("the files in themes/{FORMER_NAME}/ are not read: the theme is called `{BUILT_IN_NAME}` now"),
        format!(
            "rename the folder to themes/{BUILT_IN_NAME}, and its folder templates, if there is one, to pages; there \
             base.html becomes frame.html, page.html free.html, and `page.` in them `frame.`"
        ),
    )
}

/// What was not read of the workspace's own theme, at the place that names the theme.
pub(super) fn left_out(theme: &Theme, site: &Site) -> Vec<Finding> {
    let found = |(name, why): &(String, LeftOut)| {
        let name = shown(name);
        let mut help =
            "put another file there, or remove it; a built-in file of that name takes its place".to_string();
        let (rule, message) = match why {
            LeftOut::TooLarge(bytes) => {
                let (has, most) = (*bytes as f64 / 1e6, limits::THEME_FILE as f64 / 1e6);
                let message =
                    format!("{name} has {has:.1} MB, expected at most {most:.0} MB in a file of a theme");
                ("beyond-limit", message)
            }
            LeftOut::Unreachable(why) => ("wrong-value", format!("{name} of the theme is not read: {why}")),
            LeftOut::Moved { to } => {
                help = format!("move it to `{to}` in the theme, and write `frame.` where it says `page.`");
                ("wrong-value", format!("{name} is not read: what pages are made with is in pages/ now"))
            }
        };
        Finding::new(rule, site.theme.span, message, help)
    };
    theme.left_out.iter().map(found).collect()
}

/// A language that the theme has no words for is a finding, and English takes its place.
fn settle_language(theme: &Theme, site: &mut Site) -> Option<Finding> {
    let finding = unknown_language(theme, &site.language)?;
    site.language.value = "en".to_string();
    Some(finding)
}

/// The finding for a language that the theme has no words for.
pub fn unknown_language(theme: &Theme, written: &Spanned<String>) -> Option<Finding> {
    let languages = theme.languages();
    let name = written.value.as_str();
    if languages.contains(&name) {
        return None;
    }
    let help = match nearest(name, languages.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("the theme has {}; add words/{name}.ftl to it for another", quoted(&languages)),
    };
    let message = format!("expected a language that the theme has words for, found {}", shown(name));
    Some(Finding::new("wrong-value", written.span, message, help))
}

/// The words of a language. Those that the theme's own file lacks, as one made for an earlier program
/// may, are the built-in ones of the language, or else the English ones.
///
/// # Errors
/// When the theme's words are no text, or have a mistake.
pub fn read_words(theme: &Theme, language: &str) -> Result<Words, OpenError> {
    let words = words_of(theme, language)?;
    let built_in = Theme::built_in();
    let known = if built_in.languages().contains(&language) { language } else { "en" };
    Ok(words.or_else(words_of(&built_in, known)?))
}

fn words_of(theme: &Theme, language: &str) -> Result<Words, OpenError> {
    let file = format!("words/{language}.ftl");
    let fluent = theme
        .text(&file)
        .ok_or_else(|| OpenError::Theme(format!("the theme's {file} is not text in UTF-8")))?;
    Words::read(language, fluent, theme.lists(language)).map_err(|mistakes| {
        OpenError::Theme(format!("the theme's {file} has a mistake: {}", mistakes.join("; ")))
    })
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "tests write the workspace that they read")]
mod tests {
    use std::borrow::Cow;

    use super::*;
    use crate::model::vocabulary::SectionName;
    use crate::review::testing::{edition, words};
    use crate::workspace::{Bytes, sample};

    #[test]
    fn texts_in_memory_say_what_they_say_on_the_disk() {
        let root = tempfile::tempdir().unwrap();
        let text = |(name, bytes): (String, Vec<u8>)| (name, String::from_utf8(bytes).unwrap());
        let mut files: Vec<(String, String)> = sample::files().into_iter().map(text).collect();
        for slip in ["content/exercises/broken.md", "content/exercises/heel-drop.md"] {
            files.retain(|(name, _)| name != slip);
            files.push((slip.to_string(), "```toml\ntitle = 7\n```\n".to_string()));
        }
        for (name, text) in &files {
            let path = root.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }
        let opened = Edition::open(root.path().to_path_buf()).unwrap();
        let read = edition(files);
        assert!(read.findings.len() > 10, "{:?}", read.findings);
        assert_eq!(read.findings, opened.findings);
        assert_eq!(read.words.plain(), opened.words.plain());
        let said = |edition: &Edition| format!("{:?} {:?}", edition.model, edition.sources);
        assert_eq!(said(&read), said(&opened));
    }

    #[test]
    fn texts_are_read_with_the_words_that_come_with_them() {
        let (theme, spanish) = (Arc::new(Theme::built_in()), read_words(&Theme::built_in(), "es").unwrap());
        let section = spanish.say("section-move");
        assert_ne!(section, words().say("section-move"));
        let entry = format!("```toml\ntitle = \"T\"\n```\n\n## {section}\n\n1. Rise.\n");
        let site = sample::text("site.toml").unwrap().to_string();
        let files = [("site.toml", site), ("content/exercises/t.md", entry)];
        let files = files.map(|(name, text)| (name.to_string(), Bytes::of(text.into_bytes())));
        let texts = Texts::sorted(Vec::from(files), Default::default());
        let edition = Edition::of_texts(PathBuf::new(), texts, theme, Arc::new(spanish));
        assert_eq!(edition.model.exercises["t"].prose.sections[0].name, Some(SectionName::Move));
    }

    /// What users have in their folders from an earlier program.
    #[test]
    fn the_former_name_of_the_theme_is_told_with_what_to_write() {
        let told = |site: &str, folder: Option<&str>| -> Vec<String> {
            let root = tempfile::tempdir().unwrap();
            for (name, bytes) in crate::workspace::sample::files() {
                let path = root.path().join(name);
                std::fs::create_dir_all(path.parent().unwrap()).unwrap();
                std::fs::write(path, bytes).unwrap();
            }
            let text = std::fs::read_to_string(root.path().join("site.toml")).unwrap();
            std::fs::write(root.path().join("site.toml"), format!("{site}\n{text}")).unwrap();
            if let Some(file) = folder {
                std::fs::create_dir_all(root.path().join(file).parent().unwrap()).unwrap();
                std::fs::write(root.path().join(file), "h1 { color: red; }").unwrap();
            }
            let loaded = Edition::open(root.path().to_path_buf()).unwrap();
            loaded.findings.iter().map(|f| f.message.clone()).collect()
        };
        let style = "themes/clearprint/style/text.css";
        assert_eq!(told("", None), [""; 0]);
        assert_eq!(told("theme = \"clearprint\"", None), ["the theme `clearprint` is called `wideleaf` now"]);
        let unread = "the files in themes/clearprint/ are not read: the theme is called `wideleaf` now";
        assert_eq!(told("", Some(style)), [unread]);
        assert_eq!(told("theme = \"wideleaf\"", Some(style)), [unread]);
        // A folder that is asked for by its name goes on working.
        assert_eq!(told("theme = \"clearprint\"", Some(style)), [""; 0]);
        let template = told("theme = \"clearprint\"", Some("themes/clearprint/templates/week.html"));
        let moved =
            "`themes/clearprint/templates/week.html` is not read: what pages are made with is in pages/ now";
        assert_eq!(template, [moved]);
    }

    #[test]
    fn a_words_file_that_lacks_some_words_keeps_working() {
        let mut theme = Theme::built_in();
        theme.files.insert("words/es.ftl".into(), Cow::Borrowed(b"level-stop = Alto\n"));
        theme.files.insert("words/fr.ftl".into(), Cow::Borrowed(b"level-stop = Arr\xc3\xaat\n"));
        let built_in = Theme::built_in();
        for (language, own, known) in [("es", "Alto", "es"), ("fr", "Arrêt", "en")] {
            let words = read_words(&theme, language).unwrap();
            let other = words_of(&built_in, known).unwrap();
            assert_eq!(words.language, language);
            assert_eq!(words.say("level-stop"), own);
            assert_eq!(words.say("level-ask"), other.say("level-ask"));
            assert!(words.has("level-ask") && !words.say("level-ask").starts_with('['));
            let mut expected = other.plain();
            expected.insert("level_stop".to_string(), own.to_string());
            assert_eq!(words.plain(), expected);
        }
    }
}
