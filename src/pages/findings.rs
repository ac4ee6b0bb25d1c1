//! What the last look at the finished pages found, as findings at the entries they came from.

use std::collections::HashSet;

use super::inspect::{FaultKind, Inspection, PageLink, dangling};
use super::prose::exercise_prefix;
use crate::model::Model;
use crate::model::figure::Figure;
use crate::model::finding::{Finding, Subject};
use crate::model::prose::texts::html;
use crate::model::prose::{Heading, Link, Prose};
use crate::model::source::Span;
use crate::outputs::Address;

/// The findings of all pages. `files` are all files of the site.
pub fn findings(model: &Model, pages: &[Inspection], files: &HashSet<String>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for page in pages {
        for fault in &page.faults {
            let entry = EntryOnPage::of(model, &page.path, fault.within.as_deref());
            let found = finding(&entry, &page.path, &fault.kind);
            findings.push(found.about(subjects(&page.path, &fault.kind)));
        }
    }
    for lost in dangling(pages, files) {
        let entry = EntryOnPage::of(model, lost.path, lost.link.within.as_deref());
        findings.push(lost_link(&entry, lost.path, lost.link));
    }
    findings
}

/// The finding for a photo that cannot be decoded, at the first place that shows it.
pub fn photo_finding(model: &Model, name: &str, why: &str) -> Finding {
    let figures = model.exercises.values().flat_map(|e| e.all_figures());
    let figure =
        figures.filter_map(|f: &Figure| Some(&f.photo()?.file)).find(|p| p.value == name).map(|p| p.span);
    let image = model.proses().flat_map(|(_, p)| &p.images).find(|i| i.address.value.ends_with(name));
    Finding::new(
        "broken-link",
        figure.or(image.map(|i| i.address.span)).unwrap_or(Span::start_of(model.site.file)),
        format!("the photo `{name}` cannot be shown: {why}"),
        "save it again as JPEG, PNG or WebP, under 50 megapixels",
    )
    .about([Subject::Place(name.into())])
}

/// What the id of an exercise's block begins with.
pub(super) const BLOCK: &str = "exercise.";

/// The entry that a part of a page came from.
struct EntryOnPage<'m> {
    place: Span,
    prose: Option<&'m Prose>,
    /// What stands before the ids of its headings.
    prefix: String,
}

impl<'m> EntryOnPage<'m> {
    /// The entry of a page, or of the exercise block on it that has the id `within`.
    fn of(model: &'m Model, path: &str, within: Option<&str>) -> EntryOnPage<'m> {
        let id = within.and_then(|block| block.strip_prefix(BLOCK));
        if let Some(e) = id.and_then(|id| model.exercises.get(id)) {
            return EntryOnPage { place: e.place(), prose: Some(&e.prose), prefix: exercise_prefix(&e.id) };
        }
        let exercises =
            model.exercises.values().map(|e| (Address::Exercise(e.id.clone()), e.place(), &e.prose));
        let pages = model.pages.values().map(|p| (Address::Free(p.id.clone()), p.title.span, &p.prose));
        let weeks = model.weeks().map(|(s, w)| (Address::week(s, w), w.place(), &w.prose));
        let found = exercises.chain(pages).chain(weeks).find(|(address, _, _)| address.path() == path);
        match found {
            Some((address, place, prose)) => {
                let prefix = match &address {
                    Address::Exercise(id) => exercise_prefix(id),
                    _ => String::new(),
                };
                EntryOnPage { place, prose: Some(prose), prefix }
            }
            None => {
                EntryOnPage { place: Span::start_of(model.site.file), prose: None, prefix: String::new() }
            }
        }
    }

    /// The entry's heading with this id.
    fn heading(&self, id: &str) -> Option<Span> {
        let anchor = id.strip_prefix(&self.prefix)?;
        self.prose?.headings.iter().find(|h| h.anchor == anchor).map(|h| h.title.span)
    }

    /// The first heading that skips a level in the prose itself, with the level it follows.
    fn skipping_heading(&self) -> Option<(&'m Heading, u8)> {
        let mut last = 1;
        self.prose?.headings.iter().find_map(|h| {
            let follows = std::mem::replace(&mut last, h.level);
            (h.level > follows + 1).then_some((h, follows))
        })
    }

    /// The second place in the prose where raw HTML gives this id.
    fn second_raw_id(&self, id: &str) -> Option<Span> {
        let written = [format!("id=\"{id}\""), format!("id='{id}'"), format!("id={id}")];
        let mut places = Vec::new();
        for (tags, place) in html(self.prose?.blocks()) {
            let of = |(at, found): (usize, &str)| {
                let start = place.range().start + at;
                Span::new(place.file, start..start + found.len())
            };
            places.extend(written.iter().flat_map(|w| tags.match_indices(w.as_str())).map(of));
        }
        places.sort_unstable();
        places.get(1).or(places.first()).copied()
    }
}

/// What a fault on a page is about.
fn subjects(path: &str, kind: &FaultKind) -> Vec<Subject> {
    let what = match kind {
        FaultKind::TwinId(id) => Some(id),
        FaultKind::NoDescription { source } => Some(source),
        FaultKind::LeadsOut(address) => Some(address),
        FaultKind::DeadScript { file } => file.as_ref(),
        FaultKind::SkippedHeading { .. } => None,
    };
    what.map(String::as_str).into_iter().chain([path]).map(|place| Subject::Place(place.into())).collect()
}

fn finding(entry: &EntryOnPage<'_>, path: &str, kind: &FaultKind) -> Finding {
    match kind {
        FaultKind::TwinId(id) => {
            let place = entry.second_raw_id(id).or_else(|| entry.heading(id));
            let page = if place.is_some() { "this page".to_string() } else { format!("the page `{path}`") };
            Finding::new(
                "twin-anchor",
                place.unwrap_or(entry.place),
                format!("two elements of {page} have the id `{id}`"),
                "give one of them another id: change the raw HTML, the heading, or the file's name",
            )
        }
        FaultKind::SkippedHeading { from, to } => match entry.skipping_heading() {
            Some((heading, follows)) => Finding::new(
                "skipped-heading",
                heading.title.span,
                format!("this heading skips a level: level {} follows level {follows}", heading.level),
                "begin with level 2 (##), and go one level deeper at a time",
            ),
            None => Finding::new(
                "skipped-heading",
                entry.place,
                format!("a heading of the page `{path}` skips a level: level {to} follows level {from}"),
                "fix the theme's template, or the raw HTML of the entry",
            ),
        },
        FaultKind::NoDescription { source } => Finding::new(
            "undescribed-figure",
            entry.place,
            format!("a picture on the page `{path}` has no description: `{source}`"),
            "describe what the picture shows, for readers who cannot see it",
        ),
        FaultKind::LeadsOut(address) => Finding::new(
            "broken-link",
            entry.place,
            format!("a link on the page `{path}` leads out of the site: `{address}`"),
            "write the whole address, beginning with https://",
        ),
        FaultKind::DeadScript { file: Some(file) } => Finding::new(
            "broken-link",
            entry.place,
            format!("a script on the page `{path}` is loaded from a file, which no browser runs: `{file}`"),
            in_the_page(file),
        ),
        FaultKind::DeadScript { file: None } => Finding::new(
            "dropped-html",
            entry.place,
            format!("a script on the page `{path}` is not named by its policy, so no browser runs it"),
            in_the_page("NAME.js"),
        ),
    }
}

/// How a theme has a script: as a file of its own, which a template puts into the page.
fn in_the_page(file: &str) -> String {
    let name = file.rsplit('/').next().unwrap_or(file).split(['?', '#']).next().unwrap_or(file);
    let name = name.strip_suffix(".js").unwrap_or(name);
    format!(
        "put it into the theme as script/{name}.js, write {{{{ scripts[\"{name}\"] | safe }}}} in the template in its place, \
         and {{{{ script_src | safe }}}} after script-src in the policy of frame.html"
    )
}

fn lost_link(entry: &EntryOnPage<'_>, path: &str, link: &PageLink) -> Finding {
    let fragment = link.fragment.as_ref().map(|f| format!("#{f}")).unwrap_or_default();
    let place = entry.prose.and_then(|prose| {
        let about = |l: &&Link| {
            let l = &l.address;
            let file = link.path.rsplit('/').next().unwrap_or("").trim_end_matches(".html");
            let leads = l.value.contains(file) || l.value.starts_with('#');
            leads
                && link
                    .fragment
                    .as_ref()
                    .is_none_or(|f| f.ends_with(l.value.rsplit('#').next().unwrap_or("")))
        };
        prose.links.iter().find(about).map(|l| l.address.span)
    });
    Finding::new(
        "broken-link",
        place.unwrap_or(entry.place),
        format!("a link on the page `{path}` leads nowhere: `{}{fragment}`", link.path),
        "link to a page, a heading or a file that exists",
    )
    .about([Subject::Place(format!("{}{fragment}", link.path)), Subject::Place(path.into())])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pages::inspect::inspect;
    use crate::review::rule::Check;
    use crate::review::{rules, testing};

    #[test]
    fn rules_of_the_finished_pages_find_what_their_examples_draw() {
        let rules = rules::ALL.iter().filter(|r| matches!(r.check, Check::Pages));
        for rule in rules {
            testing::check_pages(rule.name, &rule.bad);
            testing::check_pages(rule.name, &rule.good);
        }
    }

    #[test]
    fn an_id_that_stands_twice_is_told_at_the_heading_that_has_it_behind_the_prefix_of_its_exercise() {
        testing::with_case(&[], |case| {
            let twice = |id: &str| {
                let html =
                    format!("<article id='exercise.heel-drop'><p id='{id}'></p><p id='{id}'></p></article>");
                let files = HashSet::new();
                let page = inspect("series/first-steps/week-02.html", &html, "/", &files);
                let found = findings(case.model, &[page], &files);
                let [found] = &found[..] else { panic!("{found:?}") };
                assert_eq!(found.rule, "twin-anchor");
                case.sources.slice(found.span).to_string()
            };
            assert_eq!(twice("heel-drop.set-up"), "## Set up");
            let title = "Heel drop at the counter";
            // What only ends as an anchor does is another id.
            for other in ["set-up", "heel-drop.warm-set-up", "warm-set-up", "tall-sit.set-up"] {
                assert!(twice(other).contains(title), "{other}");
            }
        });
    }

    #[test]
    fn an_id_that_raw_html_gives_twice_is_told_where_it_stands_in_html_for_the_second_time() {
        const PAGE: &str = "content/pages/about.md";
        let html =
            "Write `id=\"twice\"`.\n\nOne *<i\nid=\"twice\">way</i>*.\n\n> <p\n> id='twice'>Another.</p>\n";
        let text = format!("{}\n{html}", testing::edited(PAGE, &[]));
        testing::with_case(&[(PAGE, &text)], |case| {
            let files = HashSet::new();
            let page = inspect("pages/about.html", "<p id='twice'></p><p id='twice'></p>", "/", &files);
            let found = findings(case.model, &[page], &files);
            let [found] = &found[..] else { panic!("{found:?}") };
            assert_eq!(case.sources.slice(found.span), "id='twice'");
        });
    }

    #[test]
    fn a_script_that_no_browser_runs_is_told_with_what_to_write() {
        testing::with_case(&[], |case| {
            let html = "<meta http-equiv='Content-Security-Policy' content=\"script-src 'self'\">\
                        <script src='../script/own-list.js?2' defer></script><script>run();</script>";
            let files = HashSet::new();
            let found =
                findings(case.model, &[inspect("exercises/heel-drop.html", html, "/", &files)], &files);
            let rules: Vec<_> = found.iter().map(|f| f.rule).collect();
            assert_eq!(rules, ["broken-link", "dropped-html"]);
            assert!(found[0].message.contains("`../script/own-list.js?2`"), "{}", found[0].message);
            assert!(found[0].help.contains("script/own-list.js"), "{}", found[0].help);
            assert!(found[0].help.contains(r#"{{ scripts["own-list"] | safe }}"#), "{}", found[0].help);
            assert!(found[1].help.contains("{{ script_src | safe }}"), "{}", found[1].help);
        });
    }
}
