//! Writes a sheet piece by piece: what handouts and cue sheets share.

use super::pictures::{Pictures, Sketch};
use super::places::{Place, Places};
use super::prose::{Piece, Setting, Sheet, set, set_section};
use super::sheet::{Common, Figure, Line, Placed};
use super::{Order, Press, Subject};
use crate::drawing::{Colors, Picture};
use crate::model::prose::{Block, Citation, Prose, Section};
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::Paper;
use crate::outputs::address::media_of;
use crate::outputs::blocks::figure::{FigureBlock, ShowsBlock};
use crate::outputs::blocks::needs::needs;
use crate::outputs::blocks::phrases::runs_from_right;
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::{Address, Shot};
use crate::reckon::figure::Scene;

/// Width to height of the space that a figure has on a sheet, about.
const SPACE: f64 = 1.75;

/// Writes a sheet piece by piece.
pub(super) struct Writer<'p, 'm> {
    pub(super) press: &'p Press<'m>,
    pub(super) order: &'p Order<'m>,
    pub(super) places: Places,
    pub(super) pictures: Pictures,
}

impl<'p, 'm> Writer<'p, 'm> {
    pub(super) fn new(press: &'p Press<'m>, order: &'p Order<'m>) -> Self {
        Writer { press, order, places: Places::default(), pictures: Pictures::default() }
    }

    pub(super) fn common(&mut self, title: Line, running: Option<String>) -> Common {
        let site = &self.press.model.site;
        let language = &self.press.words.language;
        let of_entry = match &self.order.subject {
            Subject::Week(..) => true,
            Subject::Exercises(list) => self.order.person.is_none() && list.len() == 1,
        };
        let client = self.order.person.as_ref().map(|person| person.client);
        Common {
            size: self.order.size,
            paper: match self.order.paper {
                Paper::A4 => "a4",
                Paper::Letter => "us-letter",
            },
            texts_language: self.press.texts_language().map(str::to_string),
            from_right: runs_from_right(language),
            language: language.clone(),
            draft: self.press.draft,
            logo: self.press.logo.clone(),
            author: site.educator.name.clone(),
            title,
            of_entry,
            running,
            running_place: client.map(|client| self.places.at(client.name.span)),
            page_of: self
                .press
                .words
                .say_with("sheet-page", &[("number", "{number}".into()), ("count", "{count}".into())]),
        }
    }

    /// The exercises of the sheet, or the forms of them that were chosen for a person and that her days have room
    /// for, each once.
    pub(super) fn exercises(&self) -> Vec<UsedExercise<'p, 'm>> {
        let model = self.press.model;
        match (&self.order.person, &self.order.subject) {
            (Some(person), subject) => UsedExercise::of_person(person.shown(), subject.week(), model),
            (None, Subject::Week(_, week)) => UsedExercise::of_week(model, week),
            (None, Subject::Exercises(list)) => UsedExercise::of_each(list),
        }
    }

    pub(super) fn line(&mut self, text: &Spanned<String>) -> Line {
        Line { place: self.places.at(text.span), text: text.value.clone() }
    }

    /// The place of a text that may be there.
    pub(super) fn place(&mut self, text: Option<&Spanned<String>>) -> Option<Place> {
        text.map(|text| self.places.at(text.span))
    }

    pub(super) fn placed<B>(&mut self, span: Span, block: B) -> Placed<B> {
        Placed { place: self.places.at(span), block }
    }

    /// What the exercises need, each thing once, in their order.
    pub(super) fn needs(&mut self, exercises: &[UsedExercise<'_, 'm>]) -> Vec<Line> {
        let needs = needs(exercises.iter().map(UsedExercise::form), self.press.say());
        needs.iter().map(|need| self.need(need)).collect()
    }

    pub(super) fn need(&mut self, need: &Spanned<String>) -> Line {
        Line { place: self.places.at(need.span), text: self.press.say().capital(&need.value) }
    }

    /// A figure of a form, which is called by this title; `None` where its photo is not there, which the review reports.
    pub(super) fn figure(&mut self, figure: &FigureBlock<'_>, title: &str) -> Option<Figure> {
        let (picture, drawn, labels) = match figure.shows {
            ShowsBlock::Photo(photo) => (self.photo(&Shot::of(photo))?, None, Vec::new()),
            ShowsBlock::Drawing(drawing) => {
                let draw = || Sketch::of(&Picture::of(&Scene::of(drawing)).fitted(SPACE), Colors::Paper);
                let (file, drawn) = self.pictures.drawing(&self.press.drawings.get(drawing.span, draw));
                (file, Some(drawn), drawing.labels.iter().map(|label| self.line(&label.text)).collect())
            }
        };
        Some(Figure {
            place: self.places.at(figure.span),
            picture,
            drawn,
            description: match figure.description {
                // The review reports it; a draft needs some words all the same, or it could not be tagged.
                "" => title.to_string(),
                description => description.to_string(),
            },
            caption: figure.caption.map(str::to_string),
            labels,
        })
    }

    /// The sheet's file with a photo.
    fn photo(&mut self, shot: &Shot) -> Option<String> {
        Some(self.pictures.photo(shot, self.press.photo(shot)?))
    }

    /// A whole prose.
    pub(super) fn prose(&mut self, prose: &Prose, level: u8) -> Vec<Piece> {
        self.set(level, |setting, sheet| set(prose.blocks(), setting, sheet))
    }

    /// What opens a prose before its first section.
    pub(super) fn opening(&mut self, blocks: &[Spanned<Block>], level: u8) -> Vec<Piece> {
        self.set(level, |setting, sheet| set(blocks, setting, sheet))
    }

    /// What is below the heading of a section.
    pub(super) fn section(&mut self, section: &Section, level: u8) -> Vec<Piece> {
        self.set(level, |setting, sheet| set_section(section, setting, sheet))
    }

    fn set(
        &mut self,
        level: u8,
        set: impl for<'s> FnOnce(&'s Setting<'s>, Sheet<'s>) -> Vec<Piece>,
    ) -> Vec<Piece> {
        let press = self.press;
        let cite = |list: &[Citation]| {
            let words: Vec<String> = list.iter().map(|c| press.references.words_of(c)).collect();
            format!("({})", words.join("; "))
        };
        let note =
            |number: usize| press.words.say_with("sheet-note", &[("number", number.to_string().into())]);
        let mut photo = |address: &str| {
            let shot = Shot::whole(media_of(address)?);
            Some(self.pictures.photo(&shot, press.photos.get(&shot)?))
        };
        let setting = Setting { cite: &cite, note: &note, level };
        set(&setting, Sheet { places: &mut self.places, photo: &mut photo })
    }
}

impl Order<'_> {
    /// Where findings about the sheet as a whole point.
    pub(super) fn place(&self, press: &Press<'_>) -> Span {
        self.subject.place().unwrap_or_else(|| Span::start_of(press.model.site.file))
    }

    /// The whole address of the page that the sheet belongs to; several exercises have none of their own.
    pub(super) fn address(&self, press: &Press<'_>) -> Option<String> {
        let page = match &self.subject {
            Subject::Week(series, week) => Address::week(series, week),
            Subject::Exercises(list) => match list.as_slice() {
                [one] => Address::Exercise(one.id.clone()),
                _ => return None,
            },
        };
        Some(format!("{}{}", press.model.site.address.value, page.path()))
    }
}

#[cfg(test)]
mod tests {
    use std::str::FromStr;

    use typst::layout::Dir;
    use typst::text::Lang;

    use super::runs_from_right;

    /// Else the lines at the side of a box would stand where its words end.
    #[test]
    fn the_sheet_and_the_typesetter_begin_lines_at_the_same_side() {
        for language in ["ar", "ar-EG", "fa", "he", "ur", "en", "es-MX", "el", "ru", "zh", "zh-Hant-TW"] {
            let base = Lang::from_str(language.split('-').next().unwrap()).unwrap();
            assert_eq!(runs_from_right(language), base.dir() == Dir::RTL, "{language}");
        }
    }
}
