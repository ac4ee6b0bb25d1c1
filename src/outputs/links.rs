//! Where a link in an entry's prose leads: to another entry by the name of its file, to a media file, or
//! elsewhere. By names alone: whether the target exists, the review says.

use crate::workspace::layout::{self, Kind};

/// Schemes that a reader's browser or telephone opens. Others, such as `javascript:`, are not for prose.
pub const SCHEMES: [&str; 4] = ["http", "https", "mailto", "tel"];

/// A link that can be followed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    pub target: Target,
    /// The heading it leads to: what stands behind `#`.
    pub fragment: Option<String>,
}

/// What a link leads to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    /// The entry it stands in.
    Here,
    Exercise {
        id: String,
        file: String,
    },
    /// `id` is the file's name without its ending, such as `week-07`.
    Week {
        series: String,
        id: String,
        file: String,
    },
    Series {
        id: String,
        file: String,
    },
    Page {
        id: String,
        file: String,
    },
    /// A file under `content/media/`, by its name below `content/`.
    Media(String),
    /// A whole address: of the web, for mail or for the telephone.
    Elsewhere(String),
}

impl Target {
    /// The name of the entry's file, relative to the workspace.
    pub fn file(&self) -> Option<&str> {
        match self {
            Target::Exercise { file, .. }
            | Target::Week { file, .. }
            | Target::Series { file, .. }
            | Target::Page { file, .. } => Some(file),
            Target::Here | Target::Media(_) | Target::Elsewhere(_) => None,
        }
    }
}

/// Why a link cannot be followed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// There is nothing between its brackets.
    Empty,
    /// It begins with a scheme that is not one of [`SCHEMES`].
    Scheme(String),
    /// Nothing follows its scheme, or a space stands in it.
    Address,
    /// It begins at the root of a server, which a site in a folder does not know.
    Rooted,
    /// It leads out of the workspace.
    Outside,
    /// Files of that name are neither entries nor media; the name is relative to the workspace.
    NoEntry(String),
}

/// Where `href`, as it stands in the entry `from`, leads. `from` is the name of the entry's file relative
/// to the workspace, such as `content/pages/about.md`.
///
/// # Errors
/// What is wrong with the link.
pub fn resolve(from: &str, href: &str) -> Result<Link, Wrong> {
    let href = href.trim();
    if href.is_empty() {
        return Err(Wrong::Empty);
    }
    if let Some(scheme) = scheme(href) {
        return elsewhere(href, scheme);
    }
    if href.starts_with(['/', '\\']) {
        return Err(Wrong::Rooted);
    }
    let (path, fragment) = match href.split_once('#') {
        Some((path, fragment)) => (path, Some(decoded(fragment))),
        None => (href, None),
    };
    if path.is_empty() {
        return Ok(Link { target: Target::Here, fragment });
    }
    let target = entry(&beside(from, &decoded(path))?)?;
    Ok(Link { target, fragment })
}

/// The name, relative to the workspace, of the file that `path` means when it stands in the file `from`.
/// A path that begins with `media/` is below `content/`, as it is in the fields of an entry.
///
/// # Errors
/// When it leads out of the workspace.
pub fn beside(from: &str, path: &str) -> Result<String, Wrong> {
    if path.starts_with("media/") {
        return beside("content/", &format!("./{path}"));
    }
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in path.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop().ok_or(Wrong::Outside)?;
            }
            part => parts.push(part),
        }
    }
    Ok(parts.join("/"))
}

fn entry(file: &str) -> Result<Target, Wrong> {
    let media = file.strip_prefix("content/").filter(|name| name.starts_with("media/"));
    if let Some(name) = media {
        return Ok(Target::Media(name.to_string()));
    }
    let name = file.to_string();
    match layout::kind(file) {
        Some(Kind::Exercise { id }) => Ok(Target::Exercise { id, file: name }),
        Some(Kind::Week { series, id }) => Ok(Target::Week { series, id, file: name }),
        Some(Kind::Series { id }) => Ok(Target::Series { id, file: name }),
        Some(Kind::Page { id }) => Ok(Target::Page { id, file: name }),
        Some(Kind::Site | Kind::References | Kind::Stray { .. }) | None => Err(Wrong::NoEntry(name)),
    }
}

/// The scheme an address begins with (RFC 3986, section 3.1), in small letters.
fn scheme(href: &str) -> Option<String> {
    let (scheme, _) = href.split_once(':')?;
    let fits = |c: char| c.is_ascii_alphanumeric() || "+-.".contains(c);
    let is_scheme = scheme.starts_with(|c: char| c.is_ascii_alphabetic()) && scheme.chars().all(fits);
    is_scheme.then(|| scheme.to_ascii_lowercase())
}

fn elsewhere(href: &str, scheme: String) -> Result<Link, Wrong> {
    if !SCHEMES.contains(&scheme.as_str()) {
        return Err(Wrong::Scheme(scheme));
    }
    let rest = &href[scheme.len() + 1..];
    let rest = if scheme.starts_with("http") { rest.strip_prefix("//").unwrap_or("") } else { rest };
    if rest.is_empty() || rest.starts_with(['/', '?', '#']) || rest.contains(char::is_whitespace) {
        return Err(Wrong::Address);
    }
    Ok(Link { target: Target::Elsewhere(href.to_string()), fragment: None })
}

/// A part of an address with its percent signs decoded (RFC 3986, section 2.1); as it stands when that
/// gives no text.
fn decoded(part: &str) -> String {
    let mut bytes = Vec::with_capacity(part.len());
    let mut rest = part.as_bytes();
    while let Some((&first, after)) = rest.split_first() {
        let digits = after.get(..2).and_then(|d| std::str::from_utf8(d).ok());
        let digits = digits.filter(|d| first == b'%' && d.bytes().all(|b| b.is_ascii_hexdigit()));
        match digits.and_then(|d| u8::from_str_radix(d, 16).ok()) {
            Some(byte) => {
                bytes.push(byte);
                rest = &after[2..];
            }
            None => {
                bytes.push(first);
                rest = after;
            }
        }
    }
    String::from_utf8(bytes).unwrap_or_else(|_| part.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    const FROM: &str = "content/series/hill/week-02.md";

    fn target(href: &str) -> Target {
        resolve(FROM, href).unwrap_or_else(|wrong| panic!("{href}: {wrong:?}")).target
    }

    #[test]
    fn a_link_leads_to_the_entry_whose_file_it_names() {
        let file = |name: &str| format!("content/{name}");
        for (href, expected) in [
            (
                "../../exercises/heel-drop.md",
                Target::Exercise { id: "heel-drop".into(), file: file("exercises/heel-drop.md") },
            ),
            (
                "../../exercises/legs/heel-drop.md#move",
                Target::Exercise { id: "heel-drop".into(), file: file("exercises/legs/heel-drop.md") },
            ),
            (
                "week-01.md",
                Target::Week {
                    series: "hill".into(),
                    id: "week-01".into(),
                    file: file("series/hill/week-01.md"),
                },
            ),
            ("./series.toml", Target::Series { id: "hill".into(), file: file("series/hill/series.toml") }),
            (
                "../../pages/sobre%20m%C3%AD.md",
                Target::Page { id: "sobre mí".into(), file: file("pages/sobre mí.md") },
            ),
            ("../../media/a%20b.jpg", Target::Media("media/a b.jpg".into())),
            ("media/a.jpg", Target::Media("media/a.jpg".into())),
            ("#move", Target::Here),
            ("HTTPS://lantern.example/a?b#c", Target::Elsewhere("HTTPS://lantern.example/a?b#c".into())),
            ("mailto:hello@lantern.example", Target::Elsewhere("mailto:hello@lantern.example".into())),
            ("tel:+15550100", Target::Elsewhere("tel:+15550100".into())),
        ] {
            assert_eq!(target(href), expected, "{href}");
        }
    }

    #[test]
    fn the_fragment_is_what_stands_behind_the_first_hash_sign() {
        let fragment = |href| resolve(FROM, href).ok().and_then(|l| l.fragment);
        assert_eq!(fragment("week-01.md#qu%C3%A9-hacer"), Some("qué-hacer".to_string()));
        assert_eq!(fragment("#"), Some(String::new()));
        assert_eq!(fragment("week-01.md"), None);
        assert_eq!(fragment("#50%"), Some("50%".to_string()));
        assert_eq!(fragment("#50%é"), Some("50%é".to_string()));
    }

    #[test]
    fn what_cannot_be_followed_says_why() {
        for (href, expected) in [
            (" ", Wrong::Empty),
            ("javascript:alert(1)", Wrong::Scheme("javascript".into())),
            ("JavaScript:alert(1)", Wrong::Scheme("javascript".into())),
            ("data:text/html,hi", Wrong::Scheme("data".into())),
            ("C:\\photos\\a.jpg", Wrong::Scheme("c".into())),
            ("https://", Wrong::Address),
            ("https:lantern.example", Wrong::Address),
            ("https:///a", Wrong::Address),
            ("https://lantern.example/a b", Wrong::Address),
            ("tel:", Wrong::Address),
            ("/exercises/heel-drop.md", Wrong::Rooted),
            ("//lantern.example/", Wrong::Rooted),
            ("\\\\server\\a", Wrong::Rooted),
            ("../../../../secret.md", Wrong::Outside),
            ("../../exercises/", Wrong::NoEntry("content/exercises".into())),
            ("../../../site.toml", Wrong::NoEntry("site.toml".into())),
            ("../../references.bib", Wrong::NoEntry("content/references.bib".into())),
            ("week-one.md", Wrong::NoEntry("content/series/hill/week-one.md".into())),
            ("java\tscript:alert(1)", Wrong::NoEntry("content/series/hill/java\tscript:alert(1)".into())),
        ] {
            assert_eq!(resolve(FROM, href), Err(expected), "{href}");
        }
    }
}
