//! How to draw a figure, for those who write exercises: every word, its lines, and what they draw.

use serde::Serialize;

use super::figure::{Called, DrawingView, drawing_view};
use super::frame::{About, frame};
use super::{Filled, Link, Pages};
use crate::drawing::{Panels, Picture, Size};
use crate::outputs::Address;
use crate::outputs::blocks::guide::{self, Example};
use crate::reckon::figure::Scene;

#[derive(Serialize)]
pub(super) struct DrawingPage {
    contents: Vec<Link>,
    parts: Vec<PartView>,
}

#[derive(Serialize)]
struct PartView {
    /// The place on the page.
    id: String,
    title: String,
    about: String,
    examples: Vec<ExampleView>,
}

#[derive(Serialize)]
struct ExampleView {
    name: &'static str,
    lines: String,
    caption: Option<String>,
    drawing: DrawingView,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<DrawingPage> {
    let about = pages.words.say("drawing-example");
    let example = |id: String, example: Example| ExampleView {
        drawing: drawing_view(
            &Panels::of(&Picture::of(&Scene::of(&example.drawing)), Size::Small),
            &Called { id: &id, title: example.name, description: &about },
            &example.drawing.labels.iter().map(|label| label.text.value.as_str()).collect::<Vec<_>>(),
            None,
        ),
        name: example.name,
        lines: example.lines,
        caption: example.caption,
    };
    let part = |part: guide::GuideSection| {
        let id = format!("drawing.{}", part.id);
        PartView {
            title: pages.words.say(&format!("drawing-{}", part.id)),
            about: pages.words.say(&format!("drawing-{}-about", part.id)),
            examples: part
                .examples
                .into_iter()
                .enumerate()
                .map(|(at, one)| example(format!("{id}.{}", at + 1), one))
                .collect(),
            id,
        }
    };
    let parts: Vec<PartView> = guide::parts().into_iter().map(part).collect();
    let contents = parts.iter().map(|p| Link { href: format!("#{}", p.id), text: p.title.clone() }).collect();
    let about = About::titled(pages.words.say("drawing-title"));
    frame(pages, address, about, DrawingPage { contents, parts })
}
