//! Where a link in prose leads: authors link to each other's source files, readers to pages.

use crate::workspace::layout::{Kind, kind};

/// What a link means, with the fragment after its `#`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    pub target: Target,
    pub fragment: Option<String>,
}

/// What a link leads to. Whether it exists is for the review to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    Exercise(String),
    Series(String),
    Week {
        series: String,
        id: String,
    },
    Page(String),
    /// A file below `content/`, such as `media/heel-drop.jpg`.
    Media(String),
    /// Another website, a mail address, a phone number.
    Elsewhere(String),
    /// The entry itself.
    Here,
}

/// Resolves a link of the entry in file `from` (relative to the workspace).
///
/// # Errors
/// What is wrong with the link, in words that complete "this link …".
pub fn resolve(from: &str, href: &str) -> Result<Found, String> {
    if let Some((scheme, _)) = href.split_once(':')
        && !scheme.contains(['/', '#', '?', '.'])
    {
        return match scheme.to_ascii_lowercase().as_str() {
            "http" | "https" | "mailto" | "tel" => {
                Ok(Found { target: Target::Elsewhere(href.to_string()), fragment: None })
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
    let found = |target| Ok(Found { target, fragment: fragment.clone() });
    if path.is_empty() {
        return found(Target::Here);
    }
    let Some(name) = joined(from, &decoded(path)) else {
        return Err("leads out of the workspace".to_string());
    };
    match kind(&name) {
        Some(Kind::Exercise { id }) => found(Target::Exercise(id)),
        Some(Kind::Series { id }) => found(Target::Series(id)),
        Some(Kind::Week { series, id }) => found(Target::Week { series, id }),
        Some(Kind::Page { id }) => found(Target::Page(id)),
        _ => match name.strip_prefix("content/") {
            Some(media) if media.starts_with("media/") => found(Target::Media(media.to_string())),
            _ => Err(format!("leads to `{name}`, which is no exercise, week, series, page or media file")),
        },
    }
}

/// The path `to` as seen from the folder of the file `from`; a leading `/` starts at the workspace's
/// `content/`. `None` when it climbs out.
fn joined(from: &str, to: &str) -> Option<String> {
    let mut parts: Vec<&str> = match to.starts_with('/') {
        true => vec!["content"],
        false => from.split('/').collect::<Vec<_>>().split_last()?.1.to_vec(),
    };
    for part in to.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

/// Percent-encoding taken back; what is no valid encoding stays as it is.
fn decoded(text: &str) -> String {
    let bytes = text.as_bytes();
    let mut out = Vec::with_capacity(bytes.len());
    let mut at = 0;
    while at < bytes.len() {
        let hex = text.get(at + 1..at + 3).filter(|_| bytes[at] == b'%');
        match hex.and_then(|h| u8::from_str_radix(h, 16).ok()) {
            Some(byte) => {
                out.push(byte);
                at += 3;
            }
            None => {
                out.push(bytes[at]);
                at += 1;
            }
        }
    }
    String::from_utf8(out).unwrap_or_else(|_| text.to_string())
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
        assert_eq!(resolve(page, "#welcome").map(|f| f.fragment), Ok(Some("welcome".to_string())));
    }

    #[test]
    fn what_leads_nowhere_is_told() {
        assert!(target("content/pages/about.md", "javascript:alert(1)").is_err());
        assert!(target("content/pages/about.md", "../../../secret.md").is_err());
        assert!(target("content/pages/about.md", "//other.example/").is_err());
        assert!(target("content/pages/about.md", "../exercises/heel-drop").is_err());
        assert!(target("content/pages/about.md", "mailto:us@hill.example").is_ok());
    }
}
