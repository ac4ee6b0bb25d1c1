//! Every figure of the site, each with the lines that draw it, for educators: on one page, or on pages for each component.

use serde::Serialize;

use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::lists::{Around, ComponentPages, around, kinds, title};
use super::{Filled, Link, Pages};
use crate::model::exercise::Exercise;
use crate::outputs::blocks::figure::{FigureBlock, lines};
use crate::outputs::lists::in_order;
use crate::outputs::{Address, List, ListPage};

#[derive(Serialize)]
pub(super) struct FiguresPage {
    exercises: Vec<Shown>,
    /// The exercises that have none.
    without: Vec<Link>,
    /// To the pages of the components, where one page cannot hold all exercises.
    kinds: Vec<ComponentPages>,
    /// Where a page of a component leads.
    around: Option<Around>,
}

/// An exercise with its figures.
#[derive(Serialize)]
struct Shown {
    id: String,
    href: String,
    title: String,
    figures: Vec<FigureLines>,
}

/// A figure, what it shows in words, and what makes it.
#[derive(Serialize)]
struct FigureLines {
    view: FigureView,
    description: String,
    lines: String,
}

/// Every exercise, or the way to the pages that have them.
pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<FiguresPage> {
    let about = About::titled(pages.words.say("figures-title"));
    let kinds = kinds(pages, &pages.links(address), List::Figures);
    let exercises = if kinds.is_empty() { in_order(pages.model.exercises.values()) } else { Vec::new() };
    frame(pages, address, about, FiguresPage { kinds, ..shown(pages, address, exercises) })
}

/// Those of one component, or as many of them as one page may hold.
pub(super) fn list_page(pages: &Pages<'_>, address: &Address, page: ListPage) -> Filled<FiguresPage> {
    let about = About::titled(title(pages, List::Figures, page));
    let around = Some(around(pages, &pages.links(address), List::Figures, page));
    let exercises = List::Figures.exercises(page, pages.model);
    frame(pages, address, about, FiguresPage { around, ..shown(pages, address, exercises) })
}

fn shown(pages: &Pages<'_>, address: &Address, exercises: Vec<&Exercise>) -> FiguresPage {
    let links = pages.links(address);
    let (with, without): (Vec<&Exercise>, Vec<&Exercise>) =
        exercises.into_iter().partition(|e| e.all_figures().next().is_some());
    let href = |e: &Exercise| links.to(&Address::Exercise(e.id.clone()));
    let told = |e: &Exercise| {
        let source = &pages.sources.get(e.file).text;
        let one = |(at, written)| {
            let block = FigureBlock::of(written);
            let id = format!("figures.{}.{}", e.id, at + 1);
            Some(FigureLines {
                view: figure::view(pages, &links, &block, &id, &e.title.value, false)?,
                description: block.description.to_string(),
                lines: lines(written, source),
            })
        };
        e.all_figures().enumerate().filter_map(one).collect()
    };
    FiguresPage {
        exercises: with
            .into_iter()
            .map(|e| Shown {
                id: e.id.clone(),
                href: href(e),
                title: e.title.value.clone(),
                figures: told(e),
            })
            .collect(),
        without: without.into_iter().map(|e| Link { href: href(e), text: e.title.value.clone() }).collect(),
        kinds: Vec::new(),
        around: None,
    }
}
