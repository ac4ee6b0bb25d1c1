//! Figures as HTML: a photo in its widths, or a drawing in the theme's colors with the words of its labels.

#[cfg(test)]
mod tests;

use std::cell::LazyCell;

use serde::Serialize;

use super::Pages;
use crate::drawing::{self, Counted, Motion, Panels, Picture, Size, Words};
use crate::model::exercise::Exercise;
use crate::model::figure::{Drawing, Photo};
use crate::outputs::Shot;
use crate::outputs::address::Links;
use crate::outputs::blocks::figure::{FigureBlock, ShowsBlock};
use crate::reckon::figure::Scene;

/// A figure as templates show it: with a photo or with a drawing.
#[derive(Serialize)]
pub(super) struct FigureView {
    photo: Option<PhotoView>,
    drawing: Option<DrawingView>,
    caption: Option<String>,
}

#[derive(Serialize)]
struct PhotoView {
    src: String,
    srcset: String,
    width: u32,
    height: u32,
    description: String,
}

/// A drawing: an SVG element for each pose, or one for all where they lie over each other.
#[derive(Serialize)]
pub(super) struct DrawingView {
    panels: Vec<String>,
    /// Wider than high, so that two stand below each other where the page is narrow.
    wide: bool,
    /// What the numbers in it stand for, from 1.
    labels: Vec<String>,
    /// The last panel can show the movement.
    moves: bool,
    /// The id of its description.
    text: String,
}

impl FigureView {
    pub(super) fn moves(&self) -> bool {
        self.drawing.as_ref().is_some_and(|drawing| drawing.moves)
    }
}

/// What a drawing is called on its page.
pub(super) struct Called<'c> {
    /// Unlike the id of anything else on the page.
    pub(super) id: &'c str,
    pub(super) title: &'c str,
    pub(super) description: &'c str,
}

/// A figure of an exercise; `None` for a photo that was not made. `moving` is for the one page that can show the
/// movement.
pub(super) fn view(
    pages: &Pages<'_>,
    links: &Links,
    figure: &FigureBlock<'_>,
    id: &str,
    title: &str,
    moving: bool,
) -> Option<FigureView> {
    let mut view = FigureView { photo: None, drawing: None, caption: figure.caption.map(str::to_string) };
    match figure.shows {
        ShowsBlock::Photo(photo) => view.photo = Some(photo_view(pages, links, photo, figure.description)?),
        ShowsBlock::Drawing(drawing) => {
            let called = Called { id, title, description: figure.description };
            let scene = LazyCell::new(|| Scene::of(drawing));
            let panels = pages.drawings.get(drawing.span, || Panels::of(&Picture::of(&scene), Size::Large));
            let motion = if moving { Motion::of(&scene) } else { None };
            view.drawing = Some(drawing_view(&panels, &called, &figure.labels, motion.as_ref()));
        }
    }
    Some(view)
}

/// The same for a page that counts, which has the figures of many forms.
pub(super) fn counted(
    pages: &Pages<'_>,
    links: &Links,
    figure: &FigureBlock<'_>,
    id: &str,
    title: &str,
    moving: bool,
) -> Option<FigureView> {
    let ShowsBlock::Drawing(drawing) = figure.shows else {
        return view(pages, links, figure, id, title, false);
    };
    let counted = pages.counted.get(drawing.span, || {
        let scene = Scene::of(drawing);
        Counted::of(&Picture::of(&scene), Motion::coarse(&scene).as_ref())
    });
    let counted = (*counted).as_ref()?;
    let words = Words { id, title, description: figure.description };
    let drawing = DrawingView {
        panels: vec![counted.with(Some(words), moving)],
        wide: counted.wide,
        labels: figure.labels.iter().map(|label| label.to_string()).collect(),
        moves: moving && counted.moves(),
        text: words.description_id(),
    };
    Some(FigureView { photo: None, drawing: Some(drawing), caption: figure.caption.map(str::to_string) })
}

/// The same for a page that counts it out and is read as well: all its poses, the last of which moves.
pub(super) fn read_and_counted(
    pages: &Pages<'_>,
    links: &Links,
    figure: &FigureBlock<'_>,
    id: &str,
    title: &str,
) -> Option<FigureView> {
    let ShowsBlock::Drawing(drawing) = figure.shows else {
        return view(pages, links, figure, id, title, false);
    };
    let scene = Scene::of(drawing);
    let picture = Picture::of(&scene);
    let words = Words { id, title, description: figure.description };
    let mut panels = Panels::of(&picture, Size::Small).with(words, None);
    let last = Counted::beside_others(&picture, Motion::coarse(&scene).as_ref())?;
    panels.pop();
    panels.push(last.with(panels.is_empty().then_some(words), true));
    let drawing = DrawingView {
        panels,
        wide: last.wide,
        labels: figure.labels.iter().map(|label| label.to_string()).collect(),
        moves: last.moves(),
        text: words.description_id(),
    };
    Some(FigureView { photo: None, drawing: Some(drawing), caption: figure.caption.map(str::to_string) })
}

pub(super) fn drawing_view(
    panels: &Panels,
    called: &Called<'_>,
    labels: &[&str],
    motion: Option<&Motion>,
) -> DrawingView {
    let words = Words { id: called.id, title: called.title, description: called.description };
    DrawingView {
        panels: panels.with(words, motion),
        wide: panels.wide,
        labels: labels.iter().map(|label| label.to_string()).collect(),
        moves: motion.is_some(),
        text: words.description_id(),
    }
}

/// A small picture of an exercise, for a list that says its name and what it is beside it: its first drawing, or else its
/// first photo.
#[derive(Default, Serialize)]
pub(super) struct Small {
    pub(super) figure: Option<String>,
    photo: Option<PhotoView>,
    /// The id of the exercise, where its drawing stands elsewhere on the page.
    pub(super) picture: Option<String>,
}

pub(super) fn small(pages: &Pages<'_>, links: &Links, exercise: &Exercise) -> Small {
    let drawn = exercise.figures.iter().find_map(|figure| figure.drawing());
    let draw = |drawing: &Drawing| drawing::small(&Picture::of(&Scene::of(drawing)));
    if let Some(figure) = drawn.and_then(|one| (*pages.small.get(one.span, || draw(one))).clone()) {
        return Small { figure: Some(figure), ..Small::default() };
    }
    let shown = exercise.figures.iter().find_map(|figure| Some((figure.photo()?, &figure.description.value)));
    let photo = shown.and_then(|(photo, description)| {
        let narrowest = pages.photo(&Shot::of(photo))?.widths.first()?.path.clone();
        let view = photo_view(pages, links, photo, description)?;
        Some(PhotoView { src: links.file(&narrowest), ..view })
    });
    Small { photo, ..Small::default() }
}

fn photo_view(pages: &Pages<'_>, links: &Links, photo: &Photo, description: &str) -> Option<PhotoView> {
    let made = pages.photo(&Shot::of(photo))?;
    let widest = made.widths.last()?;
    let src = links.file(&widest.path);
    Some(PhotoView {
        // One that stands in its own address has no other widths.
        srcset: if src.starts_with("data:") { String::new() } else { made.srcset(links) },
        src,
        width: widest.width,
        height: widest.height,
        description: description.to_string(),
    })
}

impl super::Photo {
    /// The `srcset` of its widths.
    pub(super) fn srcset(&self, links: &Links) -> String {
        let one = |w: &super::PhotoWidth| format!("{} {}w", links.file(&w.path), w.width);
        self.widths.iter().map(one).collect::<Vec<_>>().join(", ")
    }
}
