//! What a link means: authors link to each other's source files, readers to pages.

/// What a link means, with the fragment after its `#`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ResolvedLink {
    pub target: Target,
    pub fragment: Option<String>,
}

/// What a link leads to. Whether it exists is for the review to say.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
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

/// Percent-encoding taken back; what is no valid encoding stays as it is.
pub fn decoded(text: &str) -> String {
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
