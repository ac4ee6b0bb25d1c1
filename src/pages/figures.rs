//! Every figure of the site in one place, each with the lines that draw it, for educators.

use serde::Serialize;

use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::{Filled, Link, Pages};
use crate::model::exercise::Exercise;
use crate::outputs::Address;
use crate::outputs::blocks::figure::{FigureBlock, lines};

#[derive(Serialize)]
pub(super) struct FiguresPage {
    exercises: Vec<Shown>,
    /// The exercises that have none.
    without: Vec<Link>,
}

/// An exercise with its figures.
#[derive(Serialize)]
struct Shown {
    id: String,
    href: String,
    title: String,
    figures: Vec<Told>,
}

/// A figure, what it shows in words, and what makes it.
#[derive(Serialize)]
struct Told {
    view: FigureView,
    description: String,
    lines: String,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<FiguresPage> {
    let links = pages.links(address);
    let mut exercises: Vec<&Exercise> = pages.model.exercises.values().collect();
    exercises.sort_by_key(|e| (e.component.value, e.title.value.to_lowercase(), &e.id));
    let (with, without): (Vec<&Exercise>, Vec<&Exercise>) =
        exercises.into_iter().partition(|e| e.all_figures().next().is_some());
    let href = |e: &Exercise| links.to(&Address::Exercise(e.id.clone()));
    let told = |e: &Exercise| {
        let source = &pages.sources.get(e.file).text;
        let one = |(at, written)| {
            let block = FigureBlock::of(written);
            let id = format!("figures.{}.{}", e.id, at + 1);
            Some(Told {
                view: figure::view(pages, &links, &block, &id, &e.title.value, false)?,
                description: block.description.to_string(),
                lines: lines(written, source),
            })
        };
        e.all_figures().enumerate().filter_map(one).collect()
    };
    let body = FiguresPage {
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
    };
    frame(pages, address, About::titled(pages.words.say("figures-title")), body)
}
