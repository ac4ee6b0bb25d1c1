//! Handouts: a week, some exercises, or what of them is right for one person, as what stands on the sheet.

use std::mem::take;

use jiff::civil::Date;

use super::names::Names;
use super::pictures::Pictures;
use super::places::Places;
use super::prose::{Item, Piece, Run};
use super::sheet::{
    Card, DayPlaces, Easier, Educator, Exercise, ExercisePlaces, Grid, Handout, Line, Online, PersonPlaces,
    PersonSheet, Placed, Practice, PracticePlaces, Section, Way, WayPlaces, WeekPlaces, WeekSheet,
};
use super::writer::Writer;
use super::{CODE, Order, Person, Press, Subject};
use crate::model::prose::Prose;
use crate::model::source::Spanned;
use crate::model::vocabulary::{Extent, SectionName, Vocabulary};
use crate::model::week::Week;
use crate::outputs::blocks::card::CardBlock;
use crate::outputs::blocks::care::CareBlock;
use crate::outputs::blocks::caution::CautionBlock;
use crate::outputs::blocks::exercise::{ExerciseBlock, SectionBlock, block};
use crate::outputs::blocks::grid::GridBlock;
use crate::outputs::blocks::person::{PersonBlock, for_line};
use crate::outputs::blocks::phrases::dialed;
use crate::outputs::blocks::practice::{DayBlock, PracticeBlock, Spread, of_person, of_week};
use crate::outputs::blocks::turn::TurnBlock;
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::blocks::way::WayBlock;
use crate::outputs::blocks::week::WeekBlock;

/// The handout that was ordered, with the lines that its pieces come from and the pictures it shows.
pub(super) struct Written<'m> {
    pub(super) handout: Handout<'m>,
    pub(super) places: Places,
    pub(super) pictures: Pictures,
}

pub(super) fn write<'m>(press: &Press<'m>, order: &Order<'m>) -> Written<'m> {
    let mut writer = Writer::new(press, order);
    let handout = writer.handout();
    Written { handout, places: writer.places, pictures: writer.pictures }
}

impl<'m> Writer<'_, 'm> {
    fn handout(&mut self) -> Handout<'m> {
        let words = self.press.words;
        let say = self.press.say();
        let exercises = self.exercises();
        let for_all = self.order.person.is_none();
        let alone = for_all && matches!(self.order.subject, Subject::Exercises(_)) && exercises.len() == 1;
        let week = self.order.subject.week();
        let title = match (week, exercises.first()) {
            (Some(week), _) => self.line(&week.title),
            (None, Some(used)) if alone => self.line(&used.exercise.title),
            (None, _) => {
                let place = self.places.at(self.order.place(self.press));
                Line { place, text: words.say("sheet-exercises-title") }
            }
        };
        let week_block = week.map(|week| WeekBlock::of(week, say));
        // A person's sheet speaks of nothing but what was chosen for her, and the page shows all the rest.
        let online = if for_all { self.online() } else { None };
        let names =
            self.order.person.as_ref().map(|person| Names::of(person, self.press.model, self.press.words));
        let may_say = |prose: &Prose| {
            names.as_ref().is_none_or(|names| names.absent_in_prose(prose.blocks()).is_none())
        };
        let welcome = match week.filter(|week| may_say(&week.prose)) {
            Some(week) => self.prose(&week.prose, 1),
            None => Vec::new(),
        };
        let running = match &self.order.person {
            Some(person) => Some(for_line(&person.client.name.value, say)),
            None => week_block.as_ref().map(|block| block.number_line.clone()),
        };
        let practice = self.practice(week);
        let time = practice.as_ref().map(|practice| practice.time.clone());
        let spread = practice.and_then(|practice| practice.spread);
        Handout {
            common: self.common(title, running),
            extent: self.order.extent.word(),
            alone,
            week: week_block.map(|block| WeekSheet {
                places: WeekPlaces { question: self.place(block.question) },
                block,
            }),
            person: self.order.person.as_ref().map(|person| self.person(person)),
            turns: exercises.iter().map(|used| self.turn(used)).collect(),
            time,
            needs: if alone { Vec::new() } else { self.needs(&exercises) },
            welcome,
            emergency_call: say.emergency_call(&self.press.model.site),
            care: self.care(&exercises),
            exercises: exercises
                .iter()
                .map(|used| self.exercise(used, if alone { 1 } else { 2 }, &exercises))
                .collect(),
            grid: self.grid(&exercises, spread.as_ref()),
            practice: spread.map(|spread| self.spread(spread)),
            online,
            educator: self.educator(),
            made: self
                .order
                .made
                .map(|day: Date| words.say_with("sheet-made", &[("date", say.day(day).into())])),
        }
    }

    fn person(&mut self, person: &Person<'m>) -> PersonSheet<'m> {
        let site = &self.press.model.site;
        let block = PersonBlock::of(person.client, &person.choices, &person.practice, site, self.press.say());
        let places = PersonPlaces {
            line: self.places.at(block.line.span),
            note: self.place(block.note),
            left_out: block.left_out.iter().map(|line| self.places.at(line.span)).collect(),
        };
        PersonSheet { block, places }
    }

    /// The practice week of a week or of a person; some exercises make none of their own.
    fn practice(&self, week: Option<&'m Week>) -> Option<PracticeBlock<'m>> {
        let say = self.press.say();
        match (&self.order.person, week) {
            (Some(person), _) => {
                let most = person.client.minutes.as_ref().map(|minutes| minutes.value);
                of_person(&person.practice, most, say)
            }
            (None, Some(week)) => of_week(self.press.model, week, say),
            (None, None) => None,
        }
    }

    fn spread(&mut self, block: Spread<'m>) -> Practice<'m> {
        let of_day = |day: &DayBlock<'m>| DayPlaces {
            exercises: day.exercises.iter().map(|e| self.places.at(e.title.span)).collect(),
        };
        let days = block.days.iter().map(of_day).collect();
        Practice { block, places: PracticePlaces { days } }
    }

    fn turn(&mut self, used: &UsedExercise<'_, 'm>) -> Placed<TurnBlock<'m>> {
        self.placed(used.title().span, TurnBlock::of(used, self.press.say()))
    }

    fn grid(&mut self, exercises: &[UsedExercise<'_, 'm>], spread: Option<&Spread<'m>>) -> Grid<'m> {
        let mut block = GridBlock::of(exercises, spread, self.press.say());
        let rows = take(&mut block.rows).into_iter().map(|row| self.placed(row.title.span, row)).collect();
        Grid { rows, block }
    }

    fn exercise(
        &mut self,
        used: &UsedExercise<'_, 'm>,
        level: u8,
        all: &[UsedExercise<'_, 'm>],
    ) -> Exercise<'m> {
        let e = used.exercise;
        let mut b: ExerciseBlock<'m> = block(used, self.press.model, self.press.say());
        let (intro, sections) = match b.own_steps {
            Some(steps) => (Vec::new(), vec![self.own_steps(b.title, steps)]),
            None => {
                let (intro, sections) = self.base_steps(&b, level);
                let named = self.order.person.as_ref().and_then(|person| {
                    Names::of(person, self.press.model, self.press.words).absent_in_prose(&e.prose.opening)
                });
                (if named.is_some() { Vec::new() } else { intro }, sections)
            }
        };
        let title = b.title;
        Exercise {
            place: self.places.at(title.span),
            places: ExercisePlaces {
                also_called: self.place(b.also_called.as_ref()),
                summary: self.place(b.summary),
                focus: self.place(b.focus),
                change: self.place(b.change),
            },
            cautions: self.cautions(take(&mut b.cautions)),
            figures: b.figures.iter().filter_map(|f| self.figure(f, &title.value)).collect(),
            intro,
            sections,
            easier: self.ways(take(&mut b.easier), title),
            other_ways: self.ways(take(&mut b.other_ways), title),
            harder: self.ways(take(&mut b.harder), title),
            card: (self.order.extent == Extent::Cards).then(|| self.card(used, all)),
            block: b,
        }
    }

    /// Whom the cards of a sheet for everyone are not for.
    fn care(&self, exercises: &[UsedExercise<'_, 'm>]) -> Option<CareBlock> {
        if self.order.person.is_some() || self.order.extent != Extent::Cards {
            return None;
        }
        let model = self.press.model;
        CareBlock::of(exercises, &self.order.subject.all_have(model), model, self.press.say())
    }

    fn card(&mut self, used: &UsedExercise<'_, 'm>, all: &[UsedExercise<'_, 'm>]) -> Card<'m> {
        let card = CardBlock::of(used, self.press.model, self.press.say());
        let number = |id: &str| all.iter().position(|other| other.exercise.id == id);
        Card {
            number: number(&used.exercise.id),
            barred: card.barred.into_iter().map(|barred| self.placed(barred.span, barred)).collect(),
            cautions: self.cautions(card.cautions),
            more: self.cautions(card.more),
            easier: card.easier.map(|easier| Easier {
                place: self.places.at(easier.text.span),
                text: &easier.text.value,
                number: easier.exercise.and_then(|(id, _)| number(id)),
                title: easier.exercise.map(|(_, title)| title),
            }),
        }
    }

    /// The steps of a variation that has its own, numbered.
    fn own_steps(&mut self, title: &'m Spanned<String>, steps: &'m [Spanned<String>]) -> Section {
        let items = steps.iter().map(|step| {
            let place = self.places.at(step.span);
            let words = vec![Run::plain(step.value.clone())];
            Item { place, pieces: vec![Piece::Paragraph { place, words }] }
        });
        let items: Vec<Item> = items.collect();
        let place = self.places.at(title.span);
        Section {
            name: SectionName::Move.word(),
            place,
            title: self.press.words.say("sheet-how"),
            pieces: if items.is_empty() {
                Vec::new()
            } else {
                vec![Piece::List { place, first: Some(1), items }]
            },
        }
    }

    /// The prose of the exercise: what opens it, and its sections.
    fn base_steps(&mut self, b: &ExerciseBlock<'m>, level: u8) -> (Vec<Piece>, Vec<Section>) {
        let intro = self.opening(b.intro, level);
        let section = |SectionBlock { name, section }: &SectionBlock<'m>| Section {
            name,
            place: self.places.at(section.title.span),
            title: section.title.value.clone(),
            pieces: self.section(section, level),
        };
        (intro, b.sections.iter().map(section).collect())
    }

    fn cautions(&mut self, cautions: Vec<CautionBlock<'m>>) -> Vec<Placed<CautionBlock<'m>>> {
        cautions.into_iter().map(|caution| self.placed(caution.span, caution)).collect()
    }

    /// Ways of the exercise of that title.
    fn ways(&mut self, ways: Vec<WayBlock<'m>>, of: &Spanned<String>) -> Vec<Way<'m>> {
        ways.into_iter().map(|way| self.way(way, of)).collect()
    }

    fn way(&mut self, mut way: WayBlock<'m>, of: &Spanned<String>) -> Way<'m> {
        let title = way.title.as_deref().unwrap_or(&of.value);
        Way {
            place: self.places.at(way.span),
            places: WayPlaces { steps: way.steps.iter().map(|step| self.places.at(step.span)).collect() },
            figures: way.figures.iter().filter_map(|figure| self.figure(figure, title)).collect(),
            cautions: self.cautions(take(&mut way.cautions)),
            block: way,
        }
    }

    fn online(&self) -> Option<Online> {
        let address = self.order.address(self.press)?;
        let description = self.press.words.say_with("sheet-code", &[("address", address.as_str().into())]);
        Some(Online { address, code: CODE, description })
    }

    fn educator(&self) -> Educator {
        let educator = &self.press.model.site.educator;
        let name = match &educator.credentials {
            Some(letters) => format!("{}, {letters}", educator.name),
            None => educator.name.clone(),
        };
        Educator {
            name: self.press.words.say_with("sheet-prepared", &[("name", name.into())]),
            lines: educator.clinic.iter().chain(&educator.place).cloned().collect(),
            phone: educator.phone.clone(),
            calls: educator.phone.as_deref().map(dialed),
            email: educator.email.clone(),
        }
    }
}

#[cfg(test)]
mod tests;
