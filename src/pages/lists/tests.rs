//! A workspace of some hundred exercises and of several series: its long lists stand on several pages.

use std::collections::{BTreeMap, BTreeSet, HashSet};

use serde_json::Value;

use crate::model::reads::{Read, watched};
use crate::outputs::lists::MOST_CITING;
use crate::outputs::{self, Address, List};
use crate::pages::Pages;
use crate::pages::inspect::{dangling, inspect};
use crate::review::testing::{copies, edited, page, with_pages};
use crate::workspace::sample;
use crate::workspace::theme::Theme;

/// Of strength two parts in the library and four among the figures, of posture one and three, of the others one.
fn large() -> Vec<(String, Vec<u8>)> {
    copies("sit-to-stand", 210).into_iter().chain(copies("tall-sit", 130)).collect()
}

/// The sample with as many exercises in all.
fn of(count: usize) -> Vec<(String, Vec<u8>)> {
    let own = sample::files().iter().filter(|(name, _)| name.starts_with("content/exercises/")).count();
    copies("tall-sit", count - own)
}

/// The sample with as many series in all.
fn with_series(count: usize) -> Vec<(String, Vec<u8>)> {
    let series = |number: usize| {
        let text = edited(
            "content/series/first-steps/series.toml",
            &[("\"First Steps\"", &format!("\"Series {number}\""))],
        );
        (format!("content/series/series-{number}/series.toml"), text.into_bytes())
    };
    (1..count).map(series).collect()
}

fn html(pages: &Pages<'_>, address: &Address) -> String {
    pages.render(address).unwrap_or_else(|e| panic!("{}: {e}", address.path()))
}

/// What stands between two texts, the first time.
fn between<'h>(html: &'h str, start: &str, end: &str) -> &'h str {
    let after = html.split_once(start).unwrap_or_else(|| panic!("no {start}")).1;
    after.split_once(end).unwrap_or_else(|| panic!("no {end}")).0
}

/// The pages that list exercises or plans.
fn lists(pages: &Pages<'_>) -> Vec<Address> {
    use Address::{Figures, FiguresPage, Library, LibraryPage, Plan, SeriesPlan};
    let lists = |address: &Address| {
        matches!(address, Library | Figures | Plan | LibraryPage(_) | FiguresPage(_) | SeriesPlan(_))
    };
    let all = outputs::pages(pages.model).into_iter().chain(outputs::pages_for_educators(pages.model));
    all.filter(lists).collect()
}

/// The ids of the exercises that a page lists, each as often as it is there.
fn listed(html: &str) -> Vec<&str> {
    let main = between(html, "<main", "</main>");
    let links = ["<h2><a href=\"", "<h3><a href=\""].into_iter().flat_map(|start| main.split(start).skip(1));
    let paths = links.filter_map(|rest| rest.split_once('"')?.0.strip_suffix(".html"));
    paths.filter_map(|path| path.rsplit('/').next()).collect()
}

#[test]
fn no_page_of_a_large_library_lists_more_than_its_bound_and_each_exercise_stands_on_one() {
    with_pages(large(), |pages| {
        let all: Vec<&str> = pages.model.exercises.keys().map(String::as_str).collect();
        for (list, first, count) in
            [(List::Library, Address::Library, 5), (List::Figures, Address::Figures, 9)]
        {
            let of_list = |address: &Address| match address {
                Address::LibraryPage(_) => list == List::Library,
                Address::FiguresPage(_) => list == List::Figures,
                _ => false,
            };
            let parts: Vec<Address> = lists(pages).into_iter().filter(of_list).collect();
            assert_eq!(parts.len(), count);
            let mut seen = Vec::new();
            for part in &parts {
                let html = html(pages, part);
                let here = listed(&html);
                assert!(!here.is_empty() && here.len() <= list.most(), "{}: {}", part.path(), here.len());
                seen.extend(here.into_iter().map(str::to_string));
            }
            seen.sort();
            assert_eq!(seen, all, "{list:?}");
            let html = html(pages, &first);
            assert_eq!(listed(&html), [""; 0]);
            let main = between(&html, "<main", "</main>");
            for part in &parts {
                let link = format!("href=\"{}\"", pages.links(&first).to(part));
                assert_eq!(main.matches(&link).count(), 1, "{link}");
            }
        }
    });
}

#[test]
fn the_search_of_a_large_library_reads_other_names() {
    const RAISE: &str = "content/exercises/heel-raise.md";
    let named =
        edited(RAISE, &[("component =", "also_called = [\"Toe raise\", \"Heel lift\"]\ncomponent =")]);
    let mut files = large();
    files.push((RAISE.to_string(), named.into_bytes()));
    with_pages(files, |pages| {
        let html = html(pages, &Address::Library);
        let list = between(&html, "<script type=\"application/json\" id=\"find.list\">", "</script>");
        let read: Value = serde_json::from_str(list).unwrap();
        let rows = read["exercises"].as_array().unwrap();
        let names: Vec<_> =
            rows.iter().filter_map(|row| Some((row[0].as_str()?, row[5].as_str()?))).collect();
        assert_eq!(names, [("heel-raise.html", "Also called: Toe raise, Heel lift")]);
        let rows_without = rows.iter().filter(|row| row.as_array().unwrap().len() == 5).count();
        assert_eq!(rows_without, rows.len() - 1);
    });
}

#[test]
fn the_first_page_of_a_large_library_searches_every_exercise() {
    with_pages(large(), |pages| {
        let html = html(pages, &Address::Library);
        let list = between(&html, "<script type=\"application/json\" id=\"find.list\">", "</script>");
        assert!(!list.contains('<'));
        let read: Value = serde_json::from_str(list).unwrap();
        let rows = read["exercises"].as_array().unwrap();
        assert!(list.len() < rows.len() * 120 + 4_000, "{} bytes for {}", list.len(), rows.len());
        let ids: BTreeSet<String> =
            rows.iter().map(|row| row[0].as_str().unwrap().replace(".html", "")).collect();
        assert_eq!(rows.len(), pages.model.exercises.len());
        assert!(ids.iter().eq(pages.model.exercises.keys()));
        let drop = rows.iter().find(|row| row[0] == "heel-drop.html").unwrap();
        assert_eq!(drop[1], "Heel drop at the counter");
        assert_eq!(drop[2], "Rise on your toes, then let your heels drop with a light thud.");
        let has = |field: &str, place: usize| -> Vec<&str> {
            let set = &read["sets"][drop[3].as_u64().unwrap() as usize];
            let places = set[place].as_array().unwrap().iter();
            places.map(|at| read[field][at.as_u64().unwrap() as usize]["id"].as_str().unwrap()).collect()
        };
        assert_eq!(has("component", 0), ["power"]);
        assert_eq!(has("position", 1), ["standing"]);
        assert_eq!(has("support", 2), ["counter", "chair"]);
        assert_eq!(has("equipment", 3), [""; 0]);
        // What the card of the same exercise says to the filter of its own page.
        let power = html_of_card(pages, "heel-drop");
        let answers = between(&power, "data-precaution=\"", "\"").split(' ').collect::<Vec<_>>();
        assert_eq!(has("precaution", 4), answers);
        assert!(answers.len() > 1);
        // The form offers what the rows have, and one look of a found exercise for each component.
        for field in ["component", "position", "support", "precaution"] {
            for choice in read[field].as_array().unwrap() {
                let value = format!("value=\"{}\"", choice["id"].as_str().unwrap());
                assert!(between(&html, "<form", "</form>").contains(&value), "{field}: {value}");
            }
        }
        assert_eq!(html.matches("<template data-kind=").count(), 4);
        assert!(
            html.contains("type=\"reset\">Start again</button>"),
            "nothing was shown that could be again"
        );
    });
}

fn html_of_card(pages: &Pages<'_>, id: &str) -> String {
    let part = List::Library.page("power", pages.model).unwrap();
    let html = html(pages, &Address::LibraryPage(part));
    let link = format!("href=\"../{id}.html\"");
    html.split("<li data-component").find(|card| card.contains(&link)).unwrap().to_string()
}

#[test]
fn every_link_of_the_lists_leads_somewhere_and_no_page_has_a_fault() {
    let files = large().into_iter().chain(with_series(4)).collect();
    with_pages(files, |pages| {
        let theme = Theme::built_in();
        let outputs = outputs::previewed(pages.model, &theme);
        let files: HashSet<String> = outputs.iter().flat_map(|o| o.paths(&BTreeMap::new())).collect();
        let looked: Vec<_> = lists(pages)
            .iter()
            .map(|address| inspect(&address.path(), &html(pages, address), "/", &files))
            .collect();
        assert_eq!(looked.len(), 3 + 5 + 9 + 4);
        for page in &looked {
            assert_eq!(page.faults, [], "{}", page.path);
        }
        let lost: Vec<String> = dangling(&looked, &files)
            .iter()
            .filter(|lost| lost.link.fragment.is_none())
            .map(|lost| format!("{} to {}", lost.path, lost.link.path))
            .collect();
        assert_eq!(lost, [""; 0]);
    });
}

#[test]
fn a_part_leads_back_to_its_list_to_the_other_kinds_and_to_the_parts_beside_it() {
    with_pages(large(), |pages| {
        let part = |name| Address::LibraryPage(List::Library.page(name, pages.model).unwrap());
        let first = html(pages, &part("strength"));
        let second = html(pages, &part("strength-2"));
        assert!(first.contains("<h1>Exercises: Strength, page 1 of 2</h1>"));
        assert!(second.contains("<h1>Exercises: Strength, page 2 of 2</h1>"));
        assert!(html(pages, &part("power")).contains("<h1>Exercises: Power</h1>"));
        for html in [&first, &second] {
            assert!(between(html, "class=\"trail\"", "</nav>").contains("href=\"../index.html\""));
            let kinds = between(html, "<h2 id=\"kinds\">Other kinds of exercise</h2>", "</nav>");
            let links: Vec<&str> =
                kinds.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
            assert_eq!(links, ["posture.html", "balance.html", "power.html"]);
            assert!(html.contains("exercises found on this page."), "the count is of the page");
        }
        let beside = |html: &str| between(html, "<nav class=\"other-weeks\"", "</nav>").to_string();
        let (next, previous) = (beside(&first), beside(&second));
        assert!(next.contains("rel=\"next\" href=\"strength-2.html\"") && !next.contains("rel=\"prev\""));
        assert!(next.contains("Next page: 201. Sit to stand to Sit to stand</a>"), "{next}");
        assert!(
            previous.contains("rel=\"prev\" href=\"strength.html\"") && !previous.contains("rel=\"next\"")
        );
        assert!(previous.contains("Previous page: 001. Sit to stand to 200. Sit to stand</a>"), "{previous}");
        let whole = html(pages, &Address::Library);
        assert!(whole.contains("Posture: 131 exercises</a>") && whole.contains("Balance: 1 exercise</a>"));
        assert!(whole.contains("Strength, page 2: 201. Sit to stand to Sit to stand</a>"));
    });
}

/// The script of the library asks its form for every kind of choice.
#[test]
fn a_form_has_a_field_for_each_kind_of_choice_and_hides_what_offers_none() {
    with_pages(large(), |pages| {
        let hidden = |name: &str| {
            let part = List::Library.page(name, pages.model).unwrap();
            let html = html(pages, &Address::LibraryPage(part));
            let form = between(&html, "<form", "</form>");
            for name in ["component", "words", "position", "support", "equipment", "precaution"] {
                assert_eq!(form.matches(&format!(" name=\"{name}\"")).count(), 1, "{name} in {form}");
            }
            form.split("<select name=\"")
                .skip(1)
                .map(|rest| rest.split('"').next().unwrap().to_string())
                .collect()
        };
        let (strength, power): (Vec<String>, Vec<String>) = (hidden("strength"), hidden("power"));
        assert_eq!(strength, ["component"]);
        assert_eq!(power, ["component", "equipment"]);
    });
}

#[test]
fn a_library_that_fits_stands_on_one_page_as_ever() {
    with_pages(of(List::WHOLE), |pages| {
        assert_eq!(lists(pages), [Address::Library, Address::Plan, Address::Figures]);
        let library = html(pages, &Address::Library);
        assert_eq!(listed(&library).len(), List::WHOLE);
        assert!(library.contains("Every exercise, in one list.") && !library.contains("find.list"));
        assert_eq!(listed(&html(pages, &Address::Figures)).len(), List::WHOLE);
    });
    with_pages(of(List::WHOLE + 1), |pages| {
        assert_eq!(lists(pages).len(), 3 + 4 + 4);
        assert!(html(pages, &Address::Library).contains("find.list"));
    });
    let library = page(&Address::Library);
    for word in ["href=\"list/", "find.list", "other-weeks", "Other kinds", "on this page"] {
        assert!(!between(&library, "<main", "</main>").contains(word), "{word}");
    }
}

#[test]
fn only_the_page_that_searches_allows_and_has_the_script_that_does() {
    with_pages(large(), |pages| {
        let allowed = |html: &str| between(html, "script-src ", ";").split(' ').count();
        let part = Address::LibraryPage(List::Library.page("posture", pages.model).unwrap());
        let (search, part) = (html(pages, &Address::Library), html(pages, &part));
        assert_eq!(allowed(&search), allowed(&part) + 1);
        assert_eq!(allowed(&part), allowed(&page(&Address::Library)));
        assert!(search.contains("<script data-name=\"find\">") && !search.contains("data-name=\"library\""));
        assert!(part.contains("<script data-name=\"library\">") && !part.contains("data-name=\"find\""));
    });
}

#[test]
fn each_of_many_series_has_a_page_with_its_plan_and_the_plan_leads_to_them() {
    with_pages(with_series(3), |pages| {
        assert!(!lists(pages).iter().any(|address| matches!(address, Address::SeriesPlan(_))));
        assert_eq!(html(pages, &Address::Plan).matches("class=\"proposals\"").count(), 3);
    });
    with_pages(with_series(4), |pages| {
        let plan = html(pages, &Address::Plan);
        assert!(!plan.contains("class=\"proposals\"") && !plan.contains("There is no series yet."));
        let links = between(&plan, "<h2 id=\"plan.parts\">Each series</h2>", "</section>");
        for series in pages.model.series.values() {
            let address = Address::SeriesPlan(series.id.clone());
            let title = &series.title.value;
            let link = format!("<a href=\"series/{}/plan.html\">{title}</a>", series.id);
            assert!(links.contains(&link), "{links}");
            let html = html(pages, &address);
            assert!(html.contains(&format!("<h1>The plan: {title}</h1>")));
            assert_eq!(html.matches("class=\"proposals\"").count(), 1);
            assert!(between(&html, "<head>", "</head>").contains("noindex"));
            assert!(between(&html, "<main", "</main>").contains("href=\"../../plan.html\""));
            assert!(address.is_for_educators() && !address.is_found());
        }
    });
}

#[test]
fn the_evidence_names_so_many_pages_of_each_reference_and_is_made_from_no_others() {
    const KEY: &str = "giangregorio-2015";
    let part = |copies_of: usize| {
        let mut told = (String::new(), Default::default());
        with_pages(copies("tall-sit", copies_of), |pages| {
            let (html, reads) = watched(|| html(pages, &Address::Evidence));
            told = (between(&html, &format!("<li id=\"{KEY}\">"), "</main>").to_string(), reads);
        });
        told
    };
    for (copies, named, more) in [
        (MOST_CITING - 1, MOST_CITING, None),
        (MOST_CITING, MOST_CITING, Some("<p>And 1 more page.</p>")),
        (MOST_CITING + 1, MOST_CITING, Some("<p>And 2 more pages.</p>")),
    ] {
        let (part, reads) = part(copies);
        assert_eq!(part.matches("href=\"exercises/tall-sit").count(), named, "{part}");
        assert_eq!(part.contains("<p>And "), more.is_some(), "{part}");
        assert!(more.is_none_or(|more| part.contains(more)), "{part}");
        assert!(reads.contains(&Read::Citing(KEY.to_string())), "{reads:?}");
        let made_from = |number: usize| reads.contains(&Read::Exercise(format!("tall-sit-{number:03}")));
        assert!(made_from(MOST_CITING - 1) && !made_from(MOST_CITING), "{reads:?}");
    }
}
