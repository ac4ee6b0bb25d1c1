//! The style sheets of the user's own theme among the texts, so that what is found in one has its line.

use crate::entry::read_style;
use crate::model::finding::Finding;
use crate::model::site::Site;
use crate::model::source::{Source, Sources};
use crate::workspace::layout::{FileKind, kind};
use crate::workspace::theme::Theme;
use crate::workspace::{Bytes, decode};

/// True for a text that is a style sheet. What it says counts with the theme, as the bytes that are published.
pub(super) fn is_style(source: &Source) -> bool {
    kind(&source.name) == Some(FileKind::Style)
}

/// Puts the theme's own style sheets among the texts, each in the place of what it was, and returns what is found in them.
pub(super) fn read(theme: &Theme, site: &Site, sources: &mut Sources) -> Vec<Finding> {
    // One that is gone says nothing any more: it must be seen to say something when it comes back.
    let known = sources.iter().filter(|(_, source)| is_style(source) && !source.text.is_empty());
    for file in known.map(|(file, _)| file).collect::<Vec<_>>() {
        sources.replace(file, String::new());
    }
    let mut findings = Vec::new();
    for (name, bytes) in theme.own_styles(&site.theme.value) {
        let (text, content) = decode(Bytes::All(bytes.to_vec()));
        let file = match sources.find(&name) {
            Some(file) => file,
            None => sources.add(Source::new(name, String::new())),
        };
        findings.extend(read_style(&text, file, &content));
        sources.replace(file, text);
    }
    findings
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "tests write the workspace that they read")]
mod tests {
    use std::collections::BTreeMap;
    use std::fs;
    use std::path::Path;

    use jiff::civil::date;

    use crate::edition::{Edition, SiteFacts};
    use crate::review::report::text::{Look, render};
    use crate::workspace::sample;

    const MORE: &str = "themes/wideleaf/style/more.css";

    /// The sample with a theme of its own.
    fn workspace(files: &[(&str, &str)]) -> tempfile::TempDir {
        let root = tempfile::tempdir().unwrap();
        for (name, bytes) in sample::files() {
            write(root.path(), &name, &bytes);
        }
        for (name, text) in files {
            write(root.path(), name, text.as_bytes());
        }
        root
    }

    fn write(root: &Path, name: &str, bytes: &[u8]) {
        let path = root.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    fn open(root: &Path) -> Edition {
        Edition::open(root.to_path_buf()).unwrap()
    }

    /// The findings of the review, each as `file:line:column rule, level`.
    fn found(edition: &Edition) -> Vec<String> {
        let review = edition.review(date(2026, 1, 10));
        let told = review.findings.iter().map(|f| {
            let at = edition.sources().positions(f.span).0;
            let name = &edition.sources().get(f.span.file).name;
            format!("{name}:{}:{} {}, {}", at.line, at.column, f.rule, f.level.word())
        });
        told.collect()
    }

    #[test]
    fn a_broken_style_sheet_is_a_finding_at_its_line() {
        let root =
            workspace(&[(MORE, "\u{feff}/* Élan */\nh1 {\n  color red;\n}\n\nmain {\n  margin: 0;\n")]);
        let edition = open(root.path());
        let lines = [format!("{MORE}:3:3 broken-style, warning"), format!("{MORE}:6:6 broken-style, error")];
        assert_eq!(found(&edition), lines);
        let report =
            render(&edition.review(date(2026, 1, 10)), edition.sources(), Look { color: false, width: 100 });
        assert!(report.contains("color red;") && report.contains(&format!("{MORE}:3:3")), "{report}");
    }

    #[test]
    fn a_theme_read_again_says_what_a_workspace_opened_anew_says() {
        let root = workspace(&[(MORE, "h1 {\n"), ("themes/wideleaf/style/text.css", "h2 { margin: 0 }\n")]);
        let mut edition = open(root.path());
        let broken = "themes/wideleaf/style/text.css";
        for (name, text) in [
            (MORE, Some("h1 { margin: 0 }\n")),
            (broken, Some("\n}\n")),
            (MORE, None),
            ("themes/wideleaf/style/third.css", Some("h3 { margin }")),
            (broken, None),
            (MORE, Some("h1 { margin: 0 }\n")),
            (MORE, Some("h1 {\n")),
        ] {
            match text {
                Some(text) => write(root.path(), name, text.as_bytes()),
                None => fs::remove_file(root.path().join(name)).unwrap(),
            }
            // As a preview does: what says the same as before is not read again.
            assert_eq!(edition.read_again(name), None, "{name}: {text:?}");
            edition.read_theme_again().unwrap();
            assert_eq!(found(&edition), found(&open(root.path())), "{name}: {text:?}");
        }
        assert_eq!(found(&edition).len(), 2);
    }

    #[test]
    fn a_style_sheet_counts_once_with_the_theme() {
        let root = workspace(&[(MORE, "h1 { margin: 0 }\n")]);
        let facts = SiteFacts { today: date(2026, 1, 10), draft: false, program: blake3::hash(b"test") };
        let number = |edition: &Edition| edition.fingerprint(&facts, &BTreeMap::new());
        let mut edition = open(root.path());
        let before = number(&edition);
        let file = edition.sources.find(MORE).unwrap();
        edition.sources.replace(file, "other".to_string());
        assert_eq!(number(&edition), before);
        write(root.path(), MORE, b"h1 { margin: 1px }\n");
        assert_ne!(number(&open(root.path())), before);
    }
}
