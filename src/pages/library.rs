//! The exercise library: every exercise in one list with what the filters need, or a page for each component and one
//! that searches them all.

mod filter;
pub(super) mod search;
mod words;

use serde::Serialize;

use self::filter::{Answering, Filter, equipment_ids, position, support_ids};
use super::figure::{Small, small};
use super::frame::{About, frame};
use super::lists::{Around, around, title};
use super::series::named;
use super::{Filled, LabeledId, Link, Pages};
use crate::model::exercise::Exercise;
use crate::outputs::blocks::dose::glance;
use crate::outputs::blocks::exercise::also_called;
use crate::outputs::lists::in_order;
use crate::outputs::{Address, List, ListPage};

#[derive(Serialize)]
pub(super) struct Library {
    lead: String,
    filter: Filter,
    exercises: Vec<Item>,
    /// In which the script looks up the forms that are the reader's.
    yours: String,
    /// Where a part of the library leads.
    around: Option<Around>,
}

#[derive(Serialize)]
struct Item {
    id: String,
    href: String,
    title: String,
    /// "Also called: …"; the search reads it with all that is seen of the item.
    also_called: Option<String>,
    summary: String,
    component: LabeledId,
    position: LabeledId,
    dose: String,
    /// What it looks like, for those who see it.
    #[serde(flatten)]
    small: Small,
    /// Ids with spaces between them, as the filters compare them.
    support_ids: String,
    equipment_ids: String,
    precaution_ids: String,
    /// What the search finds it by beside what is seen of it.
    words: String,
}

/// Every exercise.
pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Library> {
    let exercises = answering(pages, in_order(pages.model.exercises.values()));
    let lead = pages.words.say("library-lead");
    let body = Library {
        filter: Filter::of_all(pages, &exercises).with(pages.links(address).to(&Address::Yours)),
        exercises: items(pages, address, &exercises),
        yours: table(pages, address, &exercises),
        around: None,
        lead: lead.clone(),
    };
    let about = About { description: Some(lead), ..About::titled(pages.words.say("library-title")) };
    frame(pages, address, about, body)
}

/// Those of one component, or as many of them as one page may hold.
pub(super) fn list_page(pages: &Pages<'_>, address: &Address, page: ListPage) -> Filled<Library> {
    let links = pages.links(address);
    let exercises = answering(pages, List::Library.exercises(page, pages.model));
    let lead = pages.words.say("library-part-lead");
    let body = Library {
        filter: Filter::of_part(pages, &exercises).with(links.to(&Address::Yours)),
        exercises: items(pages, address, &exercises),
        yours: table(pages, address, &exercises),
        around: Some(around(pages, &links, List::Library, page)),
        lead: lead.clone(),
    };
    let about = About {
        description: Some(lead),
        trail: Some(Link {
            href: links.to(&Address::Library),
            text: pages.words.say("exercise-back-to-library"),
        }),
        ..About::titled(title(pages, List::Library, page))
    };
    frame(pages, address, about, body)
}

fn answering<'m>(pages: &Pages<'m>, exercises: Vec<&'m Exercise>) -> Vec<Answering<'m>> {
    exercises.into_iter().map(|e| Answering::of(pages, e)).collect()
}

fn table<'m>(pages: &Pages<'m>, address: &Address, exercises: &[Answering<'m>]) -> String {
    let each: Vec<_> = exercises.iter().map(|answering| (answering.exercise, None)).collect();
    super::yours::table(pages, address, &each, &pages.model.all_have())
}

fn items(pages: &Pages<'_>, address: &Address, exercises: &[Answering<'_>]) -> Vec<Item> {
    let links = pages.links(address);
    let item = |Answering { exercise: e, precautions }: &Answering<'_>| Item {
        id: e.id.clone(),
        words: words::beside(pages, e),
        href: links.to(&Address::Exercise(e.id.clone())),
        title: e.title.value.clone(),
        also_called: also_called(e, pages.say()).map(|names| names.value),
        summary: e.summary.value.clone(),
        component: named(pages, e.component.value),
        position: position(pages, e.position.value),
        dose: glance(&e.dose, pages.say()),
        small: small(pages, &links, e),
        support_ids: support_ids(e).join(" "),
        equipment_ids: equipment_ids(e).join(" "),
        precaution_ids: precautions.iter().copied().collect::<Vec<_>>().join(" "),
    };
    exercises.iter().map(item).collect()
}
