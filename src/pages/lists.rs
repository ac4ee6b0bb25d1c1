//! The ways through a list that stands on several pages: from its first page to the others, and between those.

#[cfg(test)]
mod tests;

use serde::Serialize;

use super::series::named;
use super::{LabeledId, Link, Pages};
use crate::model::exercise::Exercise;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::outputs::address::Links;
use crate::outputs::lists::of_component;
use crate::outputs::{Address, List, ListPage};

/// The pages of a component, as the first page of a list leads to them.
#[derive(Serialize)]
pub(super) struct ComponentPages {
    component: LabeledId,
    parts: Vec<Link>,
}

/// Where a page of a list leads: never to all of them, which may be many.
#[derive(Serialize)]
pub(super) struct Around {
    /// To the first page of each other component.
    kinds: Vec<Link>,
    previous: Option<Link>,
    next: Option<Link>,
}

/// The pages of a list by their component; none where one page holds the whole list.
pub(super) fn kinds(pages: &Pages<'_>, links: &Links, list: List) -> Vec<ComponentPages> {
    if !List::is_split(pages.model) {
        return Vec::new();
    }
    let kind = |&component| {
        let exercises = of_component(component, pages.model);
        let parts: Vec<&[&Exercise]> = exercises.chunks(list.most()).collect();
        let named = named(pages, component);
        let link = |(at, part): (usize, &&[&Exercise])| {
            let text = match parts.len() {
                1 => whole(pages, &named.word, part.len()),
                _ => {
                    let number = (at + 1).to_string();
                    let told = [
                        ("component", named.word.as_str().into()),
                        ("number", number.into()),
                        ("titles", titles(pages, part).into()),
                    ];
                    pages.words.say_with("part-link", &told)
                }
            };
            Link { href: links.to(&address(list, ListPage { component, number: at + 1 })), text }
        };
        let parts: Vec<Link> = parts.iter().enumerate().map(link).collect();
        ComponentPages { component: named, parts }
    };
    Component::ALL.iter().map(kind).filter(|kind| !kind.parts.is_empty()).collect()
}

pub(super) fn around(pages: &Pages<'_>, links: &Links, list: List, page: ListPage) -> Around {
    let all = list.pages(pages.model);
    let others = all.iter().filter(|other| other.number == 1 && other.component != page.component);
    let beside = |number: Option<usize>, id| {
        let other = ListPage { number: number?, ..page };
        let exercises = list.exercises(other, pages.model);
        (all.contains(&other)).then(|| Link {
            href: links.to(&address(list, other)),
            text: pages.words.say_with(id, &[("titles", titles(pages, &exercises).into())]),
        })
    };
    Around {
        kinds: others
            .map(|other| Link {
                href: links.to(&address(list, *other)),
                text: named(pages, other.component).word,
            })
            .collect(),
        previous: beside(page.number.checked_sub(1), "part-previous"),
        next: beside(page.number.checked_add(1), "part-next"),
    }
}

/// What a page of a list is called.
pub(super) fn title(pages: &Pages<'_>, list: List, page: ListPage) -> String {
    let words = pages.words;
    let title = words.say(match list {
        List::Library => "library-title",
        List::Figures => "figures-title",
    });
    let count = list.pages(pages.model).iter().filter(|other| other.component == page.component).count();
    let told = [("list", title.into()), ("component", named(pages, page.component).word.into())];
    if count < 2 {
        return words.say_with("part-title-only", &told);
    }
    let [list, component] = told;
    let (number, count) = (page.number.to_string(), count.to_string());
    words.say_with("part-title", &[list, component, ("number", number.into()), ("count", count.into())])
}

fn address(list: List, page: ListPage) -> Address {
    match list {
        List::Library => Address::LibraryPage(page),
        List::Figures => Address::FiguresPage(page),
    }
}

/// "Posture: 45 exercises".
fn whole(pages: &Pages<'_>, component: &str, count: usize) -> String {
    let exercises = pages.say().counted("part-exercises", count.to_string(), count as f64);
    let told = [("component", component.into()), ("exercises", exercises.into())];
    pages.words.say_with("part-link-only", &told)
}

/// "Chin tuck to Wall slide": the first and the last.
fn titles(pages: &Pages<'_>, exercises: &[&Exercise]) -> String {
    match exercises {
        [] => String::new(),
        [only] => only.title.value.clone(),
        [first, .., last] => {
            let ends =
                [("first", first.title.value.as_str().into()), ("last", last.title.value.as_str().into())];
            pages.words.say_with("part-titles", &ends)
        }
    }
}
