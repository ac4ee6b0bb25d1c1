//! The theme: templates, style, words and fonts. The built-in files are part of the program; a file
//! under `themes/NAME/` in the workspace replaces the built-in file of the same name. One that cannot be had is left
//! out, and said: a link that leads out of the workspace, a pipe, more than the program reads.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::Path;

use include_dir::{Dir, include_dir};
use walkdir::WalkDir;

use super::{WorkspaceError, layout, links, read_whole, reason, relative};
use crate::model::limits::THEME_FILE;
use crate::model::words::Lists;

/// The name of the theme that the program holds.
pub const BUILT_IN_NAME: &str = "wideleaf";

/// What the theme of the program was called before.
pub const FORMER_NAME: &str = "clearprint";

/// Where the clinic's own mark stands among the files of the theme, and is published. It comes from the settings, never
/// from the theme's own folder: an edition puts it here when it has looked through it.
pub const LOGO_FOLDER: &str = "logo/";
pub const LOGO_DRAWN: &str = "logo/logo.svg";
pub const LOGO_PHOTO: &str = "logo/logo.png";

static BUILT_IN: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/themes/wideleaf");

/// Every file of the theme by its name, such as `pages/week.html`.
#[derive(Debug, Default)]
pub struct Theme {
    pub files: BTreeMap<String, Cow<'static, [u8]>>,
    /// The workspace's own files and folders that were not read, by their names in the workspace, with what kept them
    /// from it. The built-in files of these names take their place.
    pub left_out: Vec<(String, LeftOut)>,
}

/// Why a file of the workspace's own theme was not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// It has so many bytes, more than [`THEME_FILE`].
    TooLarge(u64),
    /// What the system or the program says against it.
    Unreachable(String),
    /// It stands where an earlier program looked for it; the present one looks there, inside the theme.
    Moved { to: String },
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
    ///
    /// # Errors
    /// When the theme's folder cannot be listed.
    pub fn read(root: &Path, name: &str) -> Result<Theme, WorkspaceError> {
        let mut theme = Theme::built_in();
        let folder = root.join("themes").join(name);
        if !folder.is_dir() {
            return Ok(theme);
        }
        let below = |path: &Path| relative(&folder, path).map(|(name, _)| name);
        let hidden = |path: &Path| below(path).is_some_and(|name| layout::is_hidden(&name));
        let walk = WalkDir::new(&folder).sort_by_file_name().follow_links(true);
        let mut walk = walk.into_iter().filter_entry(|item| !hidden(item.path()));
        while let Some(item) = walk.next() {
            let item = match item {
                Ok(item) => item,
                Err(error) => {
                    let path = error.path().unwrap_or(&folder).to_path_buf();
                    if path == folder {
                        return Err(WorkspaceError::Unreadable { path, why: error.into() });
                    }
                    if !hidden(&path) {
                        theme.leave_out(root, &path, LeftOut::Unreachable(reason(&error)));
                    }
                    continue;
                }
            };
            let is_folder = item.file_type().is_dir();
            if (is_folder || item.path_is_symlink())
                && let Err(why) = links::settle(root, item.path())
            {
                theme.leave_out(root, item.path(), LeftOut::Unreachable(why.to_string()));
                if is_folder {
                    walk.skip_current_dir();
                }
                continue;
            }
            let Some(name) = below(item.path()).filter(|_| !is_folder) else { continue };
            if let Some(to) = moved(&name) {
                theme.leave_out(root, item.path(), LeftOut::Moved { to });
                continue;
            }
            match read_whole(item.path(), THEME_FILE) {
                Ok(Ok(bytes)) => {
                    theme.files.insert(name, Cow::Owned(bytes));
                }
                Ok(Err(bytes)) => theme.leave_out(root, item.path(), LeftOut::TooLarge(bytes)),
                Err(why) => theme.leave_out(root, item.path(), LeftOut::Unreachable(why.to_string())),
            }
        }
        Ok(theme)
    }

    fn leave_out(&mut self, root: &Path, path: &Path, why: LeftOut) {
        self.left_out.extend(relative(root, path).map(|(name, _)| (name, why)));
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

    /// The clinic's own mark, which an edition has put here: the name of its file.
    pub fn logo(&self) -> Option<&str> {
        self.below(LOGO_FOLDER).map(|(name, _)| name).next()
    }

    /// The style sheets that are the workspace's own, each by its name in the workspace, of the theme of that name.
    pub fn own_styles(&self, theme: &str) -> impl Iterator<Item = (String, &[u8])> {
        self.files.iter().filter_map(move |(name, bytes)| {
            let Cow::Owned(bytes) = bytes else { return None };
            let name = format!("themes/{theme}/{name}");
            (layout::kind(&name) == Some(layout::FileKind::Style)).then_some((name, bytes.as_slice()))
        })
    }

    /// The word lists of a language. A list that the theme does not have for a language of a region, such as `es-MX`, is
    /// that of `es`; what it does not have either way is empty.
    pub fn lists(&self, language: &str) -> Lists<'_> {
        let of = |name: &str, language: &str| self.text(&format!("words/{name}.{language}.txt"));
        let base = language.split('-').next().unwrap_or(language);
        let list = |name: &str| of(name, language).or_else(|| of(name, base)).unwrap_or("");
        let of_all =
            |name: &str| self.languages().into_iter().filter_map(|other| of(name, other)).collect::<Vec<_>>();
        Lists {
            claims: list("claims"),
            evidence: list("evidence"),
            breath: list("breath"),
            forms: list("forms"),
            demands: list("demands"),
            terms: list("terms"),
            syllables: list("syllables"),
            doses: list("doses"),
            titles: of_all("titles"),
            things: of_all("things"),
            sentences: list("sentences"),
            steps: list("steps"),
            explained: list("explained"),
            spoken: list("spoken"),
            units: list("units"),
            numerals: list("numerals"),
            endings: list("endings"),
            synonyms: list("synonyms"),
            plurals: of_all("endings"),
        }
    }

    /// Languages the theme has words for.
    pub fn languages(&self) -> Vec<&str> {
        self.files.keys().filter_map(|n| n.strip_prefix("words/")?.strip_suffix(".ftl")).collect()
    }
}

/// Where a file stands now that an earlier program looked for there.
fn moved(name: &str) -> Option<String> {
    Some(match name.strip_prefix("templates/")? {
        "base.html" => "pages/frame.html".to_string(),
        "page.html" => "pages/free.html".to_string(),
        other => format!("pages/{other}"),
    })
}

/// True when the workspace has a folder of the theme's former name, and the site does not ask for it.
pub fn has_former(root: &Path, name: &str) -> bool {
    name != FORMER_NAME && root.join("themes").join(FORMER_NAME).is_dir()
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
    use std::os::unix::fs::symlink;

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
            ("wideleaf", true),
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
    fn a_template_where_an_earlier_program_looked_is_told_and_not_read() {
        let root = tempfile::tempdir().unwrap();
        let folder = root.path().join("themes/mine/templates");
        std::fs::create_dir_all(&folder).unwrap();
        for name in ["base.html", "page.html", "week.html"] {
            std::fs::write(folder.join(name), "mine").unwrap();
        }
        let theme = Theme::read(root.path(), "mine").unwrap();
        let told: Vec<(&str, &LeftOut)> = theme.left_out.iter().map(|(n, why)| (n.as_str(), why)).collect();
        let to = |to: &str| LeftOut::Moved { to: to.to_string() };
        assert_eq!(
            told,
            [
                ("themes/mine/templates/base.html", &to("pages/frame.html")),
                ("themes/mine/templates/page.html", &to("pages/free.html")),
                ("themes/mine/templates/week.html", &to("pages/week.html")),
            ]
        );
        assert_eq!(theme.files, Theme::built_in().files);
    }

    #[test]
    fn a_file_of_the_workspace_replaces_the_built_in_one() {
        let root = tempfile::tempdir().unwrap();
        let folder = root.path().join("themes/wideleaf/style");
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join("text.css"), "mine").unwrap();
        let theme = Theme::read(root.path(), "wideleaf").unwrap();
        assert_eq!(theme.text("style/text.css"), Some("mine"));
        assert_eq!(theme.text("words/en.ftl"), Theme::built_in().text("words/en.ftl"));
        assert!(theme.left_out.is_empty());
    }

    /// As a theme that was made before the program had some of the lists.
    #[test]
    fn a_list_that_a_workspace_lacks_is_the_built_in_one_of_its_language() {
        let root = tempfile::tempdir().unwrap();
        let folder = root.path().join("themes/mine/words");
        std::fs::create_dir_all(&folder).unwrap();
        for (name, text) in
            [("claims.en.txt", "mine"), ("es-MX.ftl", ""), ("claims.es-MX.txt", "mía"), ("fr.ftl", "")]
        {
            std::fs::write(folder.join(name), text).unwrap();
        }
        let (theme, built_in) = (Theme::read(root.path(), "mine").unwrap(), Theme::built_in());
        for (language, base, claims) in [("en", "en", "mine"), ("es-MX", "es", "mía")] {
            let (lists, known) = (theme.lists(language), built_in.lists(base));
            assert_eq!(lists.claims, claims);
            assert!(!lists.doses.is_empty(), "{language}");
            assert_eq!((lists.doses, lists.sentences), (known.doses, known.sentences), "{language}");
            assert_eq!((lists.titles, lists.things), (known.titles, known.things), "{language}");
        }
        let unknown = theme.lists("fr");
        assert_eq!((unknown.doses, unknown.claims), ("", ""));
        assert_eq!(unknown.titles, built_in.lists("en").titles);
    }

    /// A workspace with a folder for style sheets in its own theme.
    fn workspace() -> tempfile::TempDir {
        let root = tempfile::tempdir().unwrap();
        std::fs::create_dir_all(root.path().join("themes/wideleaf/style")).unwrap();
        root
    }

    /// The names of what was left out, each with a word for why.
    fn left_out(theme: &Theme) -> Vec<(&str, &str)> {
        let word = |why: &LeftOut| match why {
            LeftOut::Moved { .. } => "moved",
            LeftOut::Unreachable(_) => "unreachable",
            LeftOut::TooLarge(_) => "too large",
        };
        theme.left_out.iter().map(|(name, why)| (name.as_str(), word(why))).collect()
    }

    #[test]
    fn a_linked_file_of_the_workspace_is_read_and_one_from_outside_is_left_out() {
        let (root, outside) = (workspace(), tempfile::tempdir().unwrap());
        let theme = root.path().join("themes/wideleaf");
        std::fs::write(root.path().join("own.css"), "own").unwrap();
        std::fs::create_dir(root.path().join("icons")).unwrap();
        std::fs::write(root.path().join("icons/one.svg"), "icon").unwrap();
        std::fs::create_dir(outside.path().join("deep")).unwrap();
        for name in ["secret.css", "deep/one.css", "deep/two.css"] {
            std::fs::write(outside.path().join(name), "secret").unwrap();
        }
        symlink("../../../own.css", theme.join("style/own.css")).unwrap();
        symlink("../../icons", theme.join("icons")).unwrap();
        symlink(outside.path().join("secret.css"), theme.join("style/text.css")).unwrap();
        symlink(outside.path().join("deep"), theme.join("style/deep")).unwrap();
        symlink("nowhere.css", theme.join("style/gone.css")).unwrap();
        symlink("somebody@a.machine:1", theme.join("style/.#text.css")).unwrap();
        let theme = Theme::read(root.path(), "wideleaf").unwrap();
        assert_eq!((theme.text("style/own.css"), theme.text("icons/one.svg")), (Some("own"), Some("icon")));
        assert_eq!(theme.text("style/text.css"), Theme::built_in().text("style/text.css"));
        let names = ["deep", "gone.css", "text.css"].map(|name| format!("themes/wideleaf/style/{name}"));
        assert_eq!(left_out(&theme), names.each_ref().map(|name| (name.as_str(), "unreachable")));
    }

    #[test]
    fn the_folder_of_a_theme_may_be_a_link_that_stays_inside() {
        let (root, outside) = (workspace(), tempfile::tempdir().unwrap());
        let themes = root.path().join("themes");
        std::fs::write(themes.join("wideleaf/style/text.css"), "mine").unwrap();
        std::fs::write(outside.path().join("own.css"), "secret").unwrap();
        symlink("wideleaf", themes.join("mine")).unwrap();
        symlink(outside.path(), themes.join("theirs")).unwrap();
        let mine = Theme::read(root.path(), "mine").unwrap();
        assert_eq!((mine.text("style/text.css"), mine.left_out.len()), (Some("mine"), 0));
        let theirs = Theme::read(root.path(), "theirs").unwrap();
        assert_eq!(theirs.text("own.css"), None);
        assert_eq!(left_out(&theirs), [("themes/theirs", "unreachable")]);
    }

    /// Whoever opens a pipe waits until somebody writes into it.
    #[test]
    fn a_pipe_and_a_file_without_end_are_left_out() {
        let root = workspace();
        let style = root.path().join("themes/wideleaf/style");
        let pipe = style.join("text.css");
        assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        symlink("/dev/zero", style.join("endless.css")).unwrap();
        for (name, bytes) in [("large.css", THEME_FILE), ("larger.css", THEME_FILE + 1)] {
            std::fs::File::create(style.join(name)).unwrap().set_len(bytes).unwrap();
        }
        let theme = Theme::read(root.path(), "wideleaf").unwrap();
        assert_eq!(theme.text("style/text.css"), Theme::built_in().text("style/text.css"));
        assert_eq!(theme.files["style/large.css"].len() as u64, THEME_FILE);
        assert_eq!(
            left_out(&theme),
            [
                ("themes/wideleaf/style/endless.css", "unreachable"),
                ("themes/wideleaf/style/larger.css", "too large"),
                ("themes/wideleaf/style/text.css", "unreachable"),
            ]
        );
    }
}
