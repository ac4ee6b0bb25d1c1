//! Which file of a workspace is what, by its name alone.

/// What a file is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileKind {
    Site,
    Exercise {
        id: String,
    },
    Series {
        id: String,
    },
    Week {
        series: String,
        id: String,
    },
    Page {
        id: String,
    },
    References,
    /// Captions, by their name below `content/`.
    Captions {
        name: String,
    },
    /// A style sheet of the user's own theme.
    Style,
    /// A text where no text is expected, with what is.
    Stray {
        expected: &'static str,
    },
    /// What may be meant as an entry and is none by its ending, such as `heel-drop.md.txt`.
    Aside {
        /// The name that would make an entry of it.
        instead: String,
    },
}

/// Where texts are expected.
pub const PLACES: &str = "exercises/ID.md, pages/ID.md, series/ID/series.toml, series/ID/week-NN.md or references.bib below content/";

/// What the file of that name is; `None` for media and everything that is not text of ours.
pub fn kind(name: &str) -> Option<FileKind> {
    let parts: Vec<&str> = name.split('/').collect();
    let stem = |file: &str| file.strip_suffix(".md").map(str::to_string);
    Some(match parts.as_slice() {
        ["site.toml"] => FileKind::Site,
        ["content", "references.bib"] => FileKind::References,
        ["content", rest @ .., file] if is_captions(file) => {
            FileKind::Captions { name: rest.iter().chain([file]).copied().collect::<Vec<_>>().join("/") }
        }
        ["content", "media", ..] | ["content", "series", _, "captions", ..] => return None,
        ["content", .., ".md"] => FileKind::Stray { expected: "a name before .md, such as heel-drop.md" },
        ["content", .., file] if is_loud(file) => {
            FileKind::Stray { expected: "a name that ends in small letters, such as heel-drop.md" }
        }
        ["content", .., file]
            if TEXTS.iter().any(|end| file.ends_with(end)) && parts.iter().any(|part| is_reserved(part)) =>
        {
            FileKind::Stray {
                expected: "another name: Windows keeps con, prn, aux, nul, com1 to com9 and lpt1 to lpt9 for itself",
            }
        }
        ["content", "exercises", .., file] if file.ends_with(".md") => FileKind::Exercise { id: stem(file)? },
        ["content", "pages", .., file] if file.ends_with(".md") => FileKind::Page { id: stem(file)? },
        ["content", "series", id, "series.toml"] => FileKind::Series { id: id.to_string() },
        ["content", "series", series, file] if is_week(file) => {
            FileKind::Week { series: series.to_string(), id: stem(file)? }
        }
        ["content", .., file] if TEXTS.iter().any(|end| file.ends_with(end)) => {
            FileKind::Stray { expected: PLACES }
        }
        ["themes", _, "style", .., file] if file.ends_with(".css") => FileKind::Style,
        ["content", .., file] => FileKind::Aside { instead: meant(file)? },
        _ => return None,
    })
}

/// The name of an entry that a file of a word processor, or of an editor that adds an ending, is most likely meant to be.
fn meant(file: &str) -> Option<String> {
    const ENDINGS: [&str; 11] = [
        ".md.txt",
        ".toml.txt",
        ".bib.txt",
        ".markdown",
        ".mdown",
        ".mkd",
        ".docx",
        ".doc",
        ".odt",
        ".rtf",
        ".txt",
    ];
    let quiet = file.to_ascii_lowercase();
    let ending = ENDINGS.iter().find(|ending| quiet.ends_with(*ending) && quiet.len() > ending.len())?;
    let stem = file.get(..file.len() - ending.len())?;
    let own = TEXTS.iter().find(|own| ending.starts_with(*own)).unwrap_or(&".md");
    Some(format!("{stem}{own}"))
}

/// How the names of texts end.
const TEXTS: [&str; 3] = [".md", ".toml", ".bib"];

/// `con.md`: a name that no file can have in Windows, whatever its ending, nor a folder.
fn is_reserved(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or_default().to_ascii_lowercase();
    let numbered =
        |word: &str| stem.strip_prefix(word).is_some_and(|n| matches!(n.as_bytes(), [b'1'..=b'9']));
    ["con", "prn", "aux", "nul"].contains(&stem.as_str()) || numbered("com") || numbered("lpt")
}

/// `New.MD`: a text whose ending is in capitals.
fn is_loud(file: &str) -> bool {
    let quiet = file.to_ascii_lowercase();
    TEXTS.iter().any(|end| quiet.ends_with(end) && !file.ends_with(end))
}

/// `week-07.md`: the number's own field says which week it is, the name only has to be a week's.
fn is_week(file: &str) -> bool {
    file.strip_prefix("week-")
        .and_then(|f| f.strip_suffix(".md"))
        .is_some_and(|n| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()))
}

/// `week-07.en.vtt`, wherever it stands.
fn is_captions(file: &str) -> bool {
    let quiet = file.to_ascii_lowercase();
    [".vtt", ".srt"].iter().any(|end| quiet.ends_with(end) && quiet.len() > end.len())
}

/// True for the name of a text that an author writes and may change: an entry, captions, or a person's profile.
pub fn is_written(name: &str) -> bool {
    let known = match kind(name) {
        Some(FileKind::Style | FileKind::Stray { .. } | FileKind::Aside { .. }) => false,
        Some(_) => true,
        None => is_profile(name),
    };
    known && !is_hidden(name)
}

/// True for the name of a person's profile.
pub fn is_profile(name: &str) -> bool {
    let file = name.strip_prefix("clients/").filter(|file| !file.contains('/') && !is_reserved(file));
    file.is_some_and(|file| file.to_ascii_lowercase().ends_with(".toml") && !is_hidden(file))
}

/// Files that desktop systems and editors leave behind.
pub fn is_hidden(name: &str) -> bool {
    name.split('/').any(|part| {
        (part.starts_with('.') && part != ".md")
            || part.ends_with('~')
            || matches!(part, "Thumbs.db" | "desktop.ini")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_be_meant_as_an_entry_has_the_name_of_one() {
        let instead = |name: &str| match kind(name) {
            Some(FileKind::Aside { instead }) => Some(instead),
            _ => None,
        };
        for (name, expected) in [
            ("content/exercises/heel-drop.md.txt", Some("heel-drop.md")),
            ("content/exercises/Heel drop.MD.TXT", Some("Heel drop.md")),
            ("content/references.bib.txt", Some("references.bib")),
            ("content/series/a/series.toml.txt", Some("series.toml")),
            ("content/series/a/week-03.docx", Some("week-03.md")),
            ("content/pages/about.markdown", Some("about.md")),
            ("content/media/leaf.txt", None),
            ("content/series/a/captions/notes.txt", None),
            ("content/exercises/photo.jpg", None),
            ("content/exercises/.txt", None),
            ("notes.txt", None),
        ] {
            assert_eq!(instead(name).as_deref(), expected, "{name}");
        }
    }

    #[test]
    fn names_that_windows_keeps_for_itself_are_none() {
        for name in [
            "content/exercises/con.md",
            "content/pages/NUL.md",
            "content/exercises/com1.old.md",
            "content/series/aux/series.toml",
            "content/series/lpt9/week-01.md",
        ] {
            assert!(matches!(kind(name), Some(FileKind::Stray { .. })), "{name}");
        }
        for name in ["content/exercises/console.md", "content/pages/com.md", "content/exercises/com10.md"] {
            assert!(!matches!(kind(name), Some(FileKind::Stray { .. })), "{name}");
        }
    }

    #[test]
    fn each_place_holds_its_own_kind() {
        assert_eq!(kind("site.toml"), Some(FileKind::Site));
        assert_eq!(
            kind("content/exercises/heel-drop.md"),
            Some(FileKind::Exercise { id: "heel-drop".into() })
        );
        assert_eq!(
            kind("content/exercises/legs/heel-drop.md"),
            Some(FileKind::Exercise { id: "heel-drop".into() })
        );
        assert_eq!(
            kind("content/series/hill/week-07.md"),
            Some(FileKind::Week { series: "hill".into(), id: "week-07".into() })
        );
        assert_eq!(kind("content/media/heel.jpg"), None);
        assert_eq!(kind("themes/mine/style/own/text.css"), Some(FileKind::Style));
        assert_eq!(kind("themes/mine/pages/text.css"), None);
        let captions = "series/hill/captions/week-07.en.vtt";
        assert_eq!(kind(&format!("content/{captions}")), Some(FileKind::Captions { name: captions.into() }));
        assert_eq!(kind("content/media/a.SRT"), Some(FileKind::Captions { name: "media/a.SRT".into() }));
        for stray in ["series/hill/wek-07.md", "exercises/New.MD", "exercises/.md", "series/hill/Series.TOML"]
        {
            assert!(matches!(kind(&format!("content/{stray}")), Some(FileKind::Stray { .. })), "{stray}");
        }
        assert!(!is_hidden("content/exercises/.md") && is_hidden("content/exercises/.#heel-drop.md"));
    }

    #[test]
    fn what_an_author_writes_is_known_by_its_name() {
        for name in [
            "site.toml",
            "content/references.bib",
            "content/exercises/heel-drop.md",
            "content/exercises/legs/heel-drop.md",
            "content/pages/about.md",
            "content/series/hill/series.toml",
            "content/series/hill/week-07.md",
            "content/series/hill/captions/week-07.en.vtt",
            "clients/j.toml",
            "clients/B.TOML",
        ] {
            assert!(is_written(name), "{name}");
        }
        for name in [
            "",
            "content",
            "content/exercises/New.MD",
            "content/exercises/.md",
            "content/exercises/.heel-drop.md",
            "content/.old/exercises/heel-drop.md",
            "content/exercises/con.md",
            "content/exercises/heel-drop.md.txt",
            "content/media/heel.jpg",
            "content/notes.md",
            "themes/mine/style/text.css",
            "clients/con.toml",
            "clients/.toml",
            "clients/j.toml~",
            "clients/j.md",
            "clients/old/j.toml",
            "clients/sheets/j.pdf",
            "ready/index.html",
            ".steadyleaf/earlier/site.toml/0001-2026-12-01T083000Z.toml",
            ".steadyleaf/earlier/content/exercises/heel-drop.md/0001-2026-12-01T083000Z.md",
        ] {
            assert!(!is_written(name), "{name}");
        }
    }
}
