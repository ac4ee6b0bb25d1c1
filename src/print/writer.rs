//! Writes a sheet piece by piece: what handouts and cue sheets share.

use std::collections::BTreeSet;

use super::pictures::{Pictures, Sketch};
use super::places::Places;
use super::prose::{Piece, Setting, Sheet, set, set_section};
use super::sheet::{Common, Component, Figure, Line};
use super::{Order, Press, Subject};
use crate::drawing::{Colours, Picture};
use crate::model::dose::Dose;
use crate::model::exercise as model;
use crate::model::form::Form;
use crate::model::prose::{Block, Citation, Prose, Section};
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{Paper, Vocabulary};
use crate::model::week::WeekExercise;
use crate::outputs::address::media_of;
use crate::outputs::blocks::exercise::holds;
use crate::outputs::blocks::figure::{FigureBlock, ShowsBlock};
use crate::outputs::{Address, Shot};
use crate::reckon::figure::Scene;
use crate::reckon::personal::Chosen;

/// Width to height of the space that a figure has on a sheet, about.
const SPACE: f64 = 1.75;

/// Writes a sheet piece by piece.
pub(super) struct Writer<'p, 'm> {
    pub(super) press: &'p Press<'m>,
    pub(super) order: &'p Order<'m>,
    pub(super) places: Places,
    pub(super) pictures: Pictures,
}

/// An exercise of the sheet as it is used.
#[derive(Clone, Copy)]
pub(super) struct Part<'p, 'm> {
    pub(super) exercise: &'m model::Exercise,
    pub(super) used: Option<&'m WeekExercise>,
    /// The form that was chosen for a person, and her days.
    pub(super) chosen: Option<&'p Chosen<'m>>,
}

impl<'m> Part<'_, 'm> {
    /// The form that stands on the sheet.
    pub(super) fn form(&self) -> Form<'m> {
        self.chosen.map_or(Form::base(self.exercise), |chosen| chosen.form)
    }

    pub(super) fn title(&self) -> &'m Spanned<String> {
        self.form().title()
    }

    pub(super) fn dose(&self) -> Dose {
        match self.chosen {
            Some(chosen) => chosen.dose.clone(),
            None => self.form().dose(self.used.and_then(|used| used.dose.as_ref())),
        }
    }
}

impl<'p, 'm> Writer<'p, 'm> {
    pub(super) fn new(press: &'p Press<'m>, order: &'p Order<'m>) -> Self {
        Writer { press, order, places: Places::default(), pictures: Pictures::default() }
    }

    pub(super) fn common(&self, title: Line, running: Option<String>) -> Common {
        let site = &self.press.model.site;
        Common {
            size: self.order.size,
            paper: match self.order.paper {
                Paper::A4 => "a4",
                Paper::Letter => "us-letter",
            },
            language: self.press.words.language.clone(),
            draft: self.press.draft,
            author: site.educator.name.clone(),
            title,
            running,
            page_of: self
                .press
                .words
                .say_with("sheet-page", &[("number", "{number}".into()), ("count", "{count}".into())]),
        }
    }

    /// The exercises of the sheet, or the forms of them that were chosen for a person and that her days have room
    /// for, each once.
    pub(super) fn parts(&self) -> Vec<Part<'p, 'm>> {
        let Some(person) = &self.order.person else {
            let asked = self.order.subject.exercises(self.press.model);
            let mut seen = BTreeSet::new();
            let each = asked.into_iter().filter(|(exercise, _)| seen.insert(&exercise.id));
            return each.map(|(exercise, used)| Part { exercise, used, chosen: None }).collect();
        };
        let part = |chosen: &'p Chosen<'m>| Part {
            exercise: chosen.form.exercise,
            used: chosen.used,
            chosen: Some(chosen),
        };
        person.shown().map(part).collect()
    }

    pub(super) fn line(&mut self, text: &Spanned<String>) -> Line {
        Line { place: self.places.at(text.span), text: text.value.clone() }
    }

    pub(super) fn component(&self, exercise: &model::Exercise) -> Component {
        let id = exercise.component.value.word();
        Component { id, word: self.press.words.say(&format!("component-{id}")) }
    }

    /// Adds a thing unless the list has it: "sturdy chair" is "A sturdy chair" in other words.
    pub(super) fn add_need(&mut self, needs: &mut Vec<Line>, span: Span, text: String) {
        // By whole words at the end, so that a can is no cane.
        let ends = |long: &str, short: &str| {
            long == short || long.strip_suffix(short).is_some_and(|rest| rest.ends_with(' '))
        };
        let caseless = text.to_lowercase();
        let same = |need: &&mut Line| {
            let known = need.text.to_lowercase();
            ends(&known, &caseless) || ends(&caseless, &known)
        };
        match needs.iter_mut().find(same) {
            Some(need) if need.text.len() >= text.len() => {}
            Some(need) => need.text = text,
            None => needs.push(Line { place: self.places.at(span), text }),
        }
    }

    /// What the exercises need, each thing once, in their order.
    pub(super) fn needs(&mut self, parts: &[Part<'_, 'm>]) -> Vec<Line> {
        let say = self.press.say();
        let mut needs: Vec<Line> = Vec::new();
        for part in parts {
            let form = part.form();
            let place = form.support().first().map_or(part.exercise.place(), |s| s.span);
            let support = holds(&form, say).map(|text| (place, say.capital(&text)));
            let equipment = form.equipment().iter().map(|thing| (thing.span, say.capital(&thing.value)));
            for (span, text) in support.into_iter().chain(equipment) {
                self.add_need(&mut needs, span, text);
            }
        }
        needs
    }

    /// A figure of a form, which is called by this title; `None` where its photo is not there, which the review reports.
    pub(super) fn figure(&mut self, figure: &FigureBlock<'_>, title: &str) -> Option<Figure> {
        let (picture, drawn, labels) = match figure.shows {
            ShowsBlock::Photo(photo) => (self.photo(&Shot::of(photo))?, None, Vec::new()),
            ShowsBlock::Drawing(drawing) => {
                let draw = || Sketch::of(&Picture::of(&Scene::of(drawing)).fitted(SPACE), Colours::Paper);
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
        match &self.subject {
            Subject::Week(_, week) => week.place(),
            Subject::Exercises(list) => {
                list.first().map_or(Span::start_of(press.model.site.file), |e| e.place())
            }
        }
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
