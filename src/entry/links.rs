//! Where a link in prose leads, by the names of files alone.

use crate::model::link::{ResolvedLink, Target, decoded};
use crate::model::source::beside;
use crate::workspace::layout::{FileKind, kind};

/// Resolves a link of the entry in file `from` (relative to the workspace).
///
/// # Errors
/// What is wrong with the link, in words that complete "this link …".
pub fn resolve(from: &str, href: &str) -> Result<ResolvedLink, String> {
    let href = href.trim();
    if href.is_empty() {
        return Err("leads nowhere: there is nothing between its round brackets".to_string());
    }
    if let Some((scheme, rest)) = href.split_once(':')
        && !scheme.contains(['/', '#', '?'])
    {
        let web = matches!(scheme.to_ascii_lowercase().as_str(), "http" | "https");
        let rest = if web { rest.strip_prefix("//").unwrap_or("") } else { rest };
        return match scheme.to_ascii_lowercase().as_str() {
            "http" | "https" | "mailto" | "tel"
                if rest.is_empty()
                    || rest.starts_with(['/', '?', '#'])
                    || rest.contains(char::is_whitespace) =>
            {
                Err(format!("leads to `{href}`, which is no whole address"))
            }
            "http" | "https" | "mailto" | "tel" => {
                Ok(ResolvedLink { target: Target::Elsewhere(href.to_string()), fragment: None })
            }
            _ => Err(format!("uses `{scheme}:`, which no reader's browser should open")),
        };
    }
    if href.starts_with("//") {
        return Err("has no `https:` in front of it".to_string());
    }
    let (path, fragment) = match href.split_once('#') {
        Some((path, fragment)) => (path, Some(decoded(fragment))),
        None => (href, None),
    };
    let found = |target| Ok(ResolvedLink { target, fragment: fragment.clone() });
    if path.is_empty() {
        return found(Target::Here);
    }
    let Some(name) = beside(from, &decoded(path)) else {
        return Err("leads out of the workspace".to_string());
    };
    match meant_by(&name) {
        Some(target) => found(target),
        None => Err(format!("leads to `{name}`, which is no exercise, week, series, page or media file")),
    }
}

/// What a link to the file of that name, relative to the workspace, means.
pub fn meant_by(name: &str) -> Option<Target> {
    match kind(name) {
        Some(FileKind::Exercise { id }) => Some(Target::Exercise(id)),
        Some(FileKind::Series { id }) => Some(Target::Series(id)),
        Some(FileKind::Week { series, id }) => Some(Target::Week { series, id }),
        Some(FileKind::Page { id }) => Some(Target::Page(id)),
        Some(
            FileKind::Site
            | FileKind::References
            | FileKind::Captions { .. }
            | FileKind::Style
            | FileKind::Stray { .. }
            | FileKind::Aside { .. },
        )
        | None => {
            let media = name.strip_prefix("content/").filter(|media| media.starts_with("media/"));
            media.map(|media| Target::Media(media.to_string()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn target(from: &str, href: &str) -> Result<Target, String> {
        resolve(from, href).map(|f| f.target)
    }

    #[test]
    fn links_name_the_source_file_of_the_other_entry() {
        let page = "content/pages/about.md";
        assert_eq!(target(page, "../exercises/heel-drop.md"), Ok(Target::Exercise("heel-drop".into())));
        assert_eq!(target(page, "/exercises/heel-drop.md"), Ok(Target::Exercise("heel-drop".into())));
        assert_eq!(
            target(page, "../series/hill/week-07.md#welcome"),
            Ok(Target::Week { series: "hill".into(), id: "week-07".into() })
        );
        assert_eq!(target(page, "../series/hill/series.toml"), Ok(Target::Series("hill".into())));
        assert_eq!(target(page, "../media/heel%20drop.jpg"), Ok(Target::Media("media/heel drop.jpg".into())));
        assert_eq!(target(page, "media/heel.jpg"), Ok(Target::Media("media/heel.jpg".into())));
        assert_eq!(
            target("content/series/hill/week-02.md", "week-01.md"),
            target(page, "../series/hill/week-01.md")
        );
        let fragment = |href| resolve(page, href).map(|f| f.fragment);
        assert_eq!(fragment("#welcome"), Ok(Some("welcome".to_string())));
        assert_eq!(fragment("#qu%C3%A9-hacer"), Ok(Some("qué-hacer".to_string())));
        assert_eq!(fragment("#50%é"), Ok(Some("50%é".to_string())));
    }

    #[test]
    fn what_leads_nowhere_is_told() {
        for (href, expected) in [
            (" ", "leads nowhere: there is nothing between its round brackets"),
            ("javascript:alert(1)", "uses `javascript:`, which no reader's browser should open"),
            ("JavaScript:alert(1)", "uses `JavaScript:`, which no reader's browser should open"),
            ("java\tscript:alert(1)", "uses `java\tscript:`, which no reader's browser should open"),
            ("data:text/html,hi", "uses `data:`, which no reader's browser should open"),
            ("x.y:hi", "uses `x.y:`, which no reader's browser should open"),
            ("C:\\a.jpg", "uses `C:`, which no reader's browser should open"),
            ("https://", "leads to `https://`, which is no whole address"),
            ("https:hill.example", "leads to `https:hill.example`, which is no whole address"),
            ("https:///a", "leads to `https:///a`, which is no whole address"),
            ("https://hill.example/a b", "leads to `https://hill.example/a b`, which is no whole address"),
            ("tel:", "leads to `tel:`, which is no whole address"),
            ("//other.example/", "has no `https:` in front of it"),
            ("../../../secret.md", "leads out of the workspace"),
            (
                "../exercises/heel-drop",
                "leads to `content/exercises/heel-drop`, which is no exercise, week, series, page or media file",
            ),
            (
                "../references.bib",
                "leads to `content/references.bib`, which is no exercise, week, series, page or media file",
            ),
        ] {
            assert_eq!(target("content/pages/about.md", href), Err(expected.to_string()), "{href}");
        }
        for href in ["mailto:us@hill.example", "tel:+15550100", "HTTPS://hill.example/a?b#c"] {
            assert_eq!(target("content/pages/about.md", href), Ok(Target::Elsewhere(href.into())), "{href}");
        }
    }
}
