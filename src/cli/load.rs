//! What every command begins with: the workspace read, and the words of its language.
#![expect(clippy::disallowed_methods, reason = "the command line asks where it was started")]

use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::Common;
use super::outcome::Failure;
use crate::entry;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::finding::Finding;
use crate::model::limits;
use crate::model::nearest::{nearest, quoted, shown, suggestion};
use crate::model::series::Series;
use crate::model::site::Site;
use crate::model::source::{FileId, Sources, Spanned};
use crate::model::words::Words;
use crate::review::{self, Case, Kept, Review};
use crate::workspace::theme::{self, BUILT_IN_NAME, FORMER_NAME, LeftOut, Theme};
use crate::workspace::{self, Content, File, layout};

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

    /// What was found while reading.
    pub(super) fn found_while_reading(&self) -> &[Finding] {
        &self.findings
    }

    /// Reads one saved text again, and puts it in the place of what it was. `None` where only reading the whole
    /// workspace tells what has become of it; false when it says what it said before.
    pub(super) fn read_again(&mut self, name: &str) -> Option<bool> {
        let id = self.sources.find(name)?;
        let (text, content) = workspace::read_again(&self.root, name)?;
        if text == self.sources.get(id).text {
            return (content == Content::Text).then_some(false);
        }
        self.take(File { id, kind: layout::kind(name)?, content }, text)?;
        Some(true)
    }

    /// Puts another text in the place of what an entry says, in memory alone. `None` where it cannot be read by itself.
    pub(super) fn put(&mut self, id: FileId, text: String) -> Option<()> {
        let kind = layout::kind(&self.sources.get(id).name)?;
        self.take(File { id, kind, content: Content::Text }, text)
    }

    fn take(&mut self, file: File, text: String) -> Option<()> {
        let name = self.sources.get(file.id).name.clone();
        let found = entry::read_again(&mut self.model, &text, &file, &name, &self.words)?;
        self.sources.replace(file.id, text);
        self.findings.retain(|f| f.span.file != file.id);
        self.findings.extend(found);
        Some(())
    }

    /// Reads the theme again, but for its words.
    pub(super) fn read_theme_again(&mut self) -> Result<(), Failure> {
        let theme = Theme::read(&self.root, &self.model.site.theme.value)?;
        let before = left_out(&self.theme, &self.model.site);
        self.findings.retain(|finding| !before.contains(finding));
        self.findings.extend(left_out(&theme, &self.model.site));
        self.theme = theme;
        Ok(())
    }

    /// Reviews the workspace again; see [`review::review_again`].
    pub(super) fn review_again(&self, today: Date, kept: &mut Kept) -> Review {
        review::review_again(&self.case(today), self.findings.clone(), kept)
    }

    /// Reviews the workspace.
    pub(super) fn review(&self, today: Date) -> Review {
        review::review(&self.case(today), self.findings.clone())
    }

    /// The series of that id.
    pub(super) fn series(&self, id: &str) -> Result<&Series, Failure> {
        self.model.series.get(id).ok_or_else(|| {
            let known = suggestion(id, self.model.series.keys().map(String::as_str));
            Failure::Unreadable(format!("there is no series `{id}`; {known}"))
        })
    }
}

/// The exercise of that id, or a line that says what to name instead.
pub(super) fn exercise<'m>(model: &'m Model, id: &str) -> Result<&'m Exercise, String> {
    model.exercises.get(id).ok_or_else(|| match nearest(id, model.exercises.keys().map(String::as_str)) {
        Some(near) => format!("there is no exercise {}; did you mean `{near}`?", shown(id)),
        None => format!(
            "there is no exercise {}; use the name of its file in content/exercises/ without .md",
            shown(id)
        ),
    })
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
    load_from(root(common)?)
}

/// Reads the workspace in that folder.
pub(super) fn load_from(root: PathBuf) -> Result<Loaded, Failure> {
    let texts = workspace::read(&root)?;
    let (mut site, mut findings) = entry::read_site(&texts);
    findings.extend(settle_theme(&root, &mut site));
    let theme = Theme::read(&root, &site.theme.value)?;
    findings.extend(left_out(&theme, &site));
    findings.extend(theme::has_former(&root, &site.theme.value).then(|| former_folder(&site)));
    findings.extend(settle_language(&theme, &mut site));
    let words = read_words(&theme, &site.language.value)?;
    let (model, found) = entry::read(&texts, site, &words);
    findings.extend(found);
    Ok(Loaded { root, sources: texts.sources, model, theme, words, findings })
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
fn left_out(theme: &Theme, site: &Site) -> Vec<Finding> {
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
pub(super) fn unknown_language(theme: &Theme, written: &Spanned<String>) -> Option<Finding> {
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
pub(super) fn read_words(theme: &Theme, language: &str) -> Result<Words, Failure> {
    let words = words_of(theme, language)?;
    let built_in = Theme::built_in();
    let known = if built_in.languages().contains(&language) { language } else { "en" };
    Ok(words.or_else(words_of(&built_in, known)?))
}

fn words_of(theme: &Theme, language: &str) -> Result<Words, Failure> {
    let file = format!("words/{language}.ftl");
    let fluent = theme
        .text(&file)
        .ok_or_else(|| Failure::Unreadable(format!("the theme's {file} is not text in UTF-8")))?;
    Words::read(language, fluent, theme.lists(language)).map_err(|mistakes| {
        Failure::Unreadable(format!("the theme's {file} has a mistake: {}", mistakes.join("; ")))
    })
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "tests write the workspace that they read")]
mod tests {
    use std::borrow::Cow;

    use super::*;

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
            let loaded = load_from(root.path().to_path_buf()).unwrap_or_else(|_| panic!("it cannot be read"));
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
