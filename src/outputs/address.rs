//! The address of every page, and the way from one page to another.
//!
//! Links are relative and name their file, so that the site works from any folder of a server and
//! straight from the disk.

use super::lists::{self, List, ListPage};
use super::video::spoken;
use crate::model::Model;
use crate::model::link::decoded;
use crate::model::series::Series;
use crate::model::week::Week;

/// Ends the name of the page with what is said in the video of a week.
const TRANSCRIPT: &str = "-transcript";

/// A page of the site.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Address {
    Home,
    Series(String),
    Week {
        series: String,
        id: String,
    },
    /// What is said in the video of a week.
    Transcript {
        series: String,
        id: String,
    },
    Exercise(String),
    /// The exercises of a week, counted out.
    WeekPractice {
        series: String,
        id: String,
    },
    /// One exercise, counted out.
    ExercisePractice(String),
    Library,
    /// Exercises of one kind, of a library that is too long for one page.
    LibraryPage(ListPage),
    Free(String),
    Evidence,
    Safety,
    /// What a reader's device keeps of the site.
    Saved,
    /// Where a reader says what is true for her.
    Yours,
    /// What a client has done, which only her own device knows.
    Days,
    /// The plan of every series, for educators.
    Plan,
    /// The plan of one series where they are many, for educators.
    SeriesPlan(String),
    /// Every figure of the site, for educators.
    Figures,
    /// The figures of exercises of one kind where they are many, for educators.
    FiguresPage(ListPage),
    /// How to draw a figure, for educators.
    Drawing,
    NotFound,
}

impl Address {
    pub fn week(series: &Series, week: &Week) -> Address {
        Address::Week { series: series.id.clone(), id: week.id.clone() }
    }

    /// Of a week whose video has captions.
    pub fn transcript(model: &Model, series: &Series, week: &Week) -> Option<Address> {
        spoken(model, series, week)?;
        Some(Address::Transcript { series: series.id.clone(), id: week.id.clone() })
    }

    /// The page that counts out what is on this one.
    pub fn practice(&self) -> Option<Address> {
        match self {
            Address::Week { series, id } => {
                Some(Address::WeekPractice { series: series.clone(), id: id.clone() })
            }
            Address::Exercise(id) => Some(Address::ExercisePractice(id.clone())),
            _ => None,
        }
    }

    /// True for what a search of the web should find. What is counted out stands on the page that leads there too.
    pub fn is_found(&self) -> bool {
        use Address::{ExercisePractice, NotFound, WeekPractice};
        !self.is_for_educators() && !matches!(self, NotFound | WeekPractice { .. } | ExercisePractice(_))
    }

    /// True for what clients need not read.
    pub fn is_for_educators(&self) -> bool {
        use Address::{Drawing, Figures, FiguresPage, Plan, SeriesPlan};
        matches!(self, Plan | SeriesPlan(_) | Figures | FiguresPage(_) | Drawing)
    }

    /// Where the page's file is, relative to the site's root.
    pub fn path(&self) -> String {
        match self {
            Address::Home => "index.html".to_string(),
            Address::Series(id) => format!("series/{id}/index.html"),
            Address::Week { series, id } => format!("series/{series}/{id}.html"),
            // No week is called so: their names are numbers.
            Address::Transcript { series, id } => format!("series/{series}/{id}{TRANSCRIPT}.html"),
            Address::Exercise(id) => format!("exercises/{id}.html"),
            // No week can be called so: behind `week-` they have a number alone.
            Address::WeekPractice { series, id } => format!("series/{series}/{id}{PRACTICE}.html"),
            // In a folder of their own: an exercise may be called as another and `-practice`.
            Address::ExercisePractice(id) => format!("exercises/practice/{id}.html"),
            Address::Library => "exercises/index.html".to_string(),
            // In a folder of their own: an exercise may be called as a component is.
            Address::LibraryPage(page) => format!("exercises/list/{}.html", page.name()),
            Address::Free(id) => format!("pages/{id}.html"),
            Address::Evidence => "evidence.html".to_string(),
            Address::Safety => "safety.html".to_string(),
            Address::Saved => "saved.html".to_string(),
            Address::Yours => "for-you.html".to_string(),
            Address::Days => "my-days.html".to_string(),
            Address::Plan => "plan.html".to_string(),
            // Beside the weeks, whose names all begin with `week-`.
            Address::SeriesPlan(id) => format!("series/{id}/plan.html"),
            Address::Figures => "figures.html".to_string(),
            Address::FiguresPage(page) => format!("figures/{}.html", page.name()),
            Address::Drawing => "drawing.html".to_string(),
            Address::NotFound => "404.html".to_string(),
        }
    }

    /// The page of the model whose file is there.
    pub fn at(path: &str, model: &Model) -> Option<Address> {
        let page = path.strip_suffix(".html")?;
        let address = match page.split('/').collect::<Vec<_>>().as_slice() {
            ["index"] => Address::Home,
            ["evidence"] => Address::Evidence,
            ["safety"] => Address::Safety,
            ["saved"] => Address::Saved,
            ["for-you"] => Address::Yours,
            ["my-days"] => Address::Days,
            ["plan"] => Address::Plan,
            ["figures"] => Address::Figures,
            ["drawing"] => Address::Drawing,
            ["404"] => Address::NotFound,
            ["exercises", "index"] => Address::Library,
            ["exercises", "list", name] => Address::LibraryPage(List::Library.page(name, model)?),
            ["figures", name] => Address::FiguresPage(List::Figures.page(name, model)?),
            ["exercises", "practice", id] => Address::ExercisePractice(model.exercises.get(id)?.id.clone()),
            ["exercises", id] => Address::Exercise(model.exercises.get(id)?.id.clone()),
            ["pages", id] => Address::Free(model.pages.get(id)?.id.clone()),
            ["series", id, "index"] => Address::Series(model.series.get(id)?.id.clone()),
            ["series", id, "plan"] => {
                Address::SeriesPlan(lists::planned_alone(model).find(|s| s.id == *id)?.id.clone())
            }
            ["series", series, name] => {
                let series = model.series.get(series)?;
                match (name.strip_suffix(TRANSCRIPT), name.strip_suffix(PRACTICE)) {
                    (Some(id), _) => Address::transcript(model, series, series.weeks.get(id)?)?,
                    (_, Some(id)) => Address::week(series, series.weeks.get(id)?).practice()?,
                    _ => Address::week(series, series.weeks.get(name)?),
                }
            }
            _ => return None,
        };
        Some(address)
    }
}

/// What the address of a week that is counted out ends with.
const PRACTICE: &str = "-practice";

/// The links of one page.
#[derive(Clone, Debug)]
pub struct Links {
    path: String,
    /// The site's folder on its server, for the page that is shown in place of any other.
    base: Option<String>,
}

impl Links {
    /// The links of the page at `from`, of a site with the given address.
    ///
    /// The not-found page is shown under whatever address was asked for, so a relative link on it
    /// would lead anywhere: its links name the site's folder instead.
    pub fn from(from: &Address, site: &str) -> Links {
        let base = (*from == Address::NotFound).then(|| folder(site));
        Links { path: from.path(), base }
    }

    /// The link to another page.
    pub fn to(&self, other: &Address) -> String {
        self.file(&other.path())
    }

    /// The link to a file of the site, such as a style sheet. What stands in its own address (`data:`) leads nowhere else.
    pub fn file(&self, path: &str) -> String {
        if path.starts_with("data:") {
            return path.to_string();
        }
        match &self.base {
            Some(base) => format!("{base}{path}"),
            None => relative(&self.path, path),
        }
    }

    /// The way to the site's root, to be followed by a path.
    pub fn root(&self) -> String {
        match &self.base {
            Some(base) => base.clone(),
            None => "../".repeat(self.path.matches('/').count()),
        }
    }
}

/// The folder of an address: `/steady/` of `https://hill.example/steady/`.
pub fn folder(address: &str) -> String {
    let host = address.split_once("://").map_or(address, |(_, rest)| rest);
    host.find('/').map_or("/".to_string(), |at| host[at..].to_string())
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
    let address = decoded(address);
    let mut name = address.as_str();
    while let Some(rest) = name.strip_prefix("../").or(name.strip_prefix("./")).or(name.strip_prefix('/')) {
        name = rest;
    }
    name.starts_with("media/").then(|| name.to_string())
}

/// The name under which a media file is published: the author's own where every letter of it can stand
/// in an address as it is; else the letters that can, and a part of a hash that keeps it unique.
pub fn published_name(name: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.' | '/');
    if name.chars().all(plain) {
        return name.to_string();
    }
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, "bin"));
    let stem: String = stem.chars().map(|c| if plain(c) && c != '.' { c } else { '-' }).collect();
    let ending: String = ending.chars().filter(char::is_ascii_alphanumeric).collect();
    let hash = blake3::hash(name.as_bytes()).to_hex();
    format!("{stem}-{}.{ending}", &hash[..8])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_lead_from_any_page_to_any_other() {
        let week = Address::Week { series: "hill".into(), id: "week-07".into() };
        let drop = Address::Exercise("heel-drop".into());
        let links = |from: &Address| Links::from(from, "https://hill.example/steady/");
        assert_eq!(links(&week).to(&drop), "../../exercises/heel-drop.html");
        assert_eq!(links(&drop).to(&Address::Library), "index.html");
        assert_eq!(links(&Address::Home).to(&week), "series/hill/week-07.html");
        assert_eq!(links(&drop).to(&Address::Home), "../index.html");
        assert_eq!(links(&week).file("style/text.css"), "../../style/text.css");
        assert_eq!(links(&week).root(), "../../");
        assert_eq!(links(&Address::NotFound).to(&drop), "/steady/exercises/heel-drop.html");
    }

    #[test]
    fn every_page_is_found_at_its_path_and_nothing_elsewhere() {
        use crate::review::{Review, testing};
        testing::with_model_on(Vec::new(), testing::TODAY, testing::words(), |case, _| {
            let mut pages = crate::outputs::pages(case.model);
            pages.extend(crate::outputs::pages_for_educators(case.model));
            assert!(pages.len() > 10);
            for page in pages {
                assert_eq!(Address::at(&page.path(), case.model), Some(page));
            }
            for path in [
                "",
                "index",
                "exercises/none.html",
                "exercises/list/posture.html",
                "exercises/practice/none.html",
                "series/first-steps/week-99-practice.html",
                "series/first-steps/index-practice.html",
                "figures/posture.html",
                "series/first-steps.html",
                "series/first-steps/plan.html",
                "series/first-steps/week-01-transcript.html",
                "series/first-steps/week-99-transcript.html",
                "pages/../index.html",
                "a/b/c/d.html",
            ] {
                assert_eq!(Address::at(path, case.model), None, "{path}");
            }
            Review::default()
        });
    }

    #[test]
    fn no_exercise_or_series_can_take_the_place_of_a_part_of_a_list() {
        use crate::review::testing::{copies, edited, with_pages};
        let exercise = edited("content/exercises/tall-sit.md", &[]).into_bytes();
        let series = edited("content/series/first-steps/series.toml", &[]).into_bytes();
        let names = [
            "posture",
            "posture-2",
            "list",
            "list-posture",
            "index-posture",
            "plan",
            "practice",
            "posture-practice",
            "week-01-practice",
        ];
        let exercises = names.map(|id| (format!("content/exercises/{id}.md"), exercise.clone()));
        let series = names.map(|id| (format!("content/series/{id}/series.toml"), series.clone()));
        let files = copies("tall-sit", 210).into_iter().chain(exercises).chain(series).collect();
        with_pages(files, |made| {
            let mut pages = crate::outputs::pages(made.model);
            pages.extend(crate::outputs::pages_for_educators(made.model));
            let parts = [List::Library, List::Figures].map(|list| list.pages(made.model));
            assert_eq!(parts.map(|parts| parts.len()), [5, 7]);
            let paths: std::collections::BTreeSet<String> =
                pages.iter().map(|page| page.path().to_lowercase()).collect();
            assert_eq!(paths.len(), pages.len(), "two pages have one path");
            for page in pages {
                assert_eq!(Address::at(&page.path(), made.model), Some(page));
            }
        });
    }

    #[test]
    fn a_media_file_is_published_under_a_name_that_needs_no_encoding() {
        assert_eq!(published_name("media/heel-drop_2.jpg"), "media/heel-drop_2.jpg");
        let odd = published_name("media/é a,b%20.png");
        assert!(odd.starts_with("media/--a-b-20-") && odd.ends_with(".png"), "{odd}");
        assert_ne!(odd, published_name("media/è a,b%20.png"));
    }

    #[test]
    fn the_folder_of_a_site_is_the_path_of_its_address() {
        assert_eq!(folder("https://hill.example/steady/"), "/steady/");
        assert_eq!(folder("https://hill.example/"), "/");
        assert_eq!(folder("https://hill.example"), "/");
    }
}
