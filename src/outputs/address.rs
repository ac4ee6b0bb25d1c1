//! The address of every page, and the way from one page to another.
//!
//! Links are relative and name their file, so that the site works from any folder of a server and
//! straight from the disk.

use crate::model::series::Series;
use crate::model::week::Week;

/// A page of the site.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Address {
    Home,
    Series(String),
    Week { series: String, id: String },
    Exercise(String),
    Library,
    Free(String),
    Evidence,
    Safety,
    NotFound,
}

impl Address {
    pub fn week(series: &Series, week: &Week) -> Address {
        Address::Week { series: series.id.clone(), id: week.id.clone() }
    }

    /// Where the page's file is, relative to the site's root.
    pub fn path(&self) -> String {
        match self {
            Address::Home => "index.html".to_string(),
            Address::Series(id) => format!("series/{id}/index.html"),
            Address::Week { series, id } => format!("series/{series}/{id}.html"),
            Address::Exercise(id) => format!("exercises/{id}.html"),
            Address::Library => "exercises/index.html".to_string(),
            Address::Free(id) => format!("pages/{id}.html"),
            Address::Evidence => "evidence.html".to_string(),
            Address::Safety => "safety.html".to_string(),
            Address::NotFound => "404.html".to_string(),
        }
    }

    /// The link from this page to another.
    pub fn link_to(&self, other: &Address) -> String {
        relative(&self.path(), &other.path())
    }

    /// The link from this page to a file of the site, such as a style sheet.
    pub fn link_to_file(&self, path: &str) -> String {
        relative(&self.path(), path)
    }
}

/// The relative reference from one file of the site to another.
pub fn relative(from: &str, to: &str) -> String {
    let from: Vec<&str> = from.split('/').collect();
    let to: Vec<&str> = to.split('/').collect();
    let folders = from.len() - 1;
    let shared = from[..folders].iter().zip(&to[..to.len() - 1]).take_while(|(a, b)| a == b).count();
    let up = std::iter::repeat_n("..", folders - shared);
    up.chain(to[shared..].iter().copied()).collect::<Vec<_>>().join("/")
}

/// The media file that a picture's address in prose names, relative to `content/`: the part from
/// `media/` on, whatever folders lead up to it.
pub fn media_of(address: &str) -> Option<String> {
    let name = address.trim_start_matches("../").trim_start_matches("./");
    name.starts_with("media/").then(|| name.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_lead_from_any_page_to_any_other() {
        let week = Address::Week { series: "hill".into(), id: "week-07".into() };
        let drop = Address::Exercise("heel-drop".into());
        assert_eq!(week.link_to(&drop), "../../exercises/heel-drop.html");
        assert_eq!(drop.link_to(&Address::Library), "index.html");
        assert_eq!(Address::Home.link_to(&week), "series/hill/week-07.html");
        assert_eq!(drop.link_to(&Address::Home), "../index.html");
        assert_eq!(week.link_to_file("style/clearprint.css"), "../../style/clearprint.css");
    }
}
