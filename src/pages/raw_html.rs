//! Raw HTML in prose: cut down to what prose needs, piece by piece, so that no tag reaches beyond the
//! line or the block it stands in.

use std::collections::HashSet;
use std::sync::LazyLock;

use crate::model::prose::html::{HtmlPlace, keeps, kept_in_blocks, opening_tags};

/// Tags that are open inside a line.
#[derive(Debug, Default)]
pub(super) struct Open {
    names: Vec<String>,
}

impl Open {
    /// What a page keeps of one raw tag inside a line: its bare name, or nothing.
    pub(super) fn tag(&mut self, tag: &str) -> String {
        if let Some(rest) = tag.strip_prefix("</") {
            let name = rest.trim_end_matches('>').trim().to_ascii_lowercase();
            return match self.names.pop_if(|open| *open == name) {
                Some(name) => format!("</{name}>"),
                None => String::new(),
            };
        }
        match opening_tags(tag).into_iter().next() {
            Some((name, _)) if keeps(&name, HtmlPlace::Inline) => {
                if !matches!(name.as_str(), "br" | "wbr") {
                    self.names.push(name.clone());
                }
                format!("<{name}>")
            }
            _ => String::new(),
        }
    }

    /// Closes what is still open, innermost first.
    pub(super) fn close_all(&mut self) -> String {
        self.names.drain(..).rev().map(|name| format!("</{name}>")).collect()
    }
}

static CLEANER: LazyLock<ammonia::Builder<'static>> = LazyLock::new(|| {
    let mut cleaner = ammonia::Builder::empty();
    cleaner
        .tags(kept_in_blocks().collect())
        .clean_content_tags(HashSet::from(["script", "style"]))
        .generic_attributes(HashSet::from(["id", "lang", "dir"]))
        .add_tag_attributes("a", ["href"])
        .add_tag_attributes("th", ["scope"])
        .add_tag_attributes("td", ["colspan", "rowspan"])
        .link_rel(None)
        .url_relative(ammonia::UrlRelative::PassThrough)
        .url_schemes(HashSet::from(["http", "https", "mailto", "tel"]));
    cleaner
});

/// What a page keeps of a block of raw HTML, every tag closed.
pub(super) fn block(html: &str) -> String {
    let mut clean = CLEANER.clean(html).to_string();
    if !clean.ends_with('\n') {
        clean.push('\n');
    }
    clean
}
