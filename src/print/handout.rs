//! Handouts: a week, some exercises, or what of them is right for one person, as what stands on the sheet.

use jiff::civil::Date;

use super::names::Names;
use super::pictures::Pictures;
use super::places::Places;
use super::prose::{Item, Piece, Run};
use super::sheet::{
    Caution, Educator, Exercise, Glance, Handout, Labelled, Line, Log, Online, PersonBlock, Practice,
    PracticeDay, Section, Way, Ways,
};
use super::writer::Writer;
use super::{CODE, Order, Person, Press, Subject, log};
use crate::model::exercise::{self as model, Instruction};
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{SectionName, Vocabulary};
use crate::model::week::Week;
use crate::outputs::blocks::exercise::{
    CautionBlock, ExerciseBlock, WayBlock, block, equipment, holds, position,
};
use crate::outputs::blocks::figure::FigureBlock;
use crate::outputs::blocks::left_out::{left_out, no_room};
use crate::outputs::blocks::part::Part;
use crate::outputs::blocks::practice::{DayBlock, Done, PracticeBlock, of_person, of_week};
use crate::outputs::blocks::week::{date_line, number_line};

/// The handout that was ordered, with the lines that its pieces come from and the pictures it shows.
pub(super) struct Written {
    pub(super) handout: Handout,
    pub(super) places: Places,
    pub(super) pictures: Pictures,
}

pub(super) fn write(press: &Press<'_>, order: &Order<'_>) -> Written {
    let mut writer = Writer::new(press, order);
    let handout = writer.handout();
    Written { handout, places: writer.places, pictures: writer.pictures }
}

impl<'m> Writer<'_, 'm> {
    fn handout(&mut self) -> Handout {
        let words = self.press.words;
        let say = self.press.say();
        let parts = self.parts();
        let for_all = self.order.person.is_none();
        let alone = for_all && matches!(self.order.subject, Subject::Exercises(_)) && parts.len() == 1;
        let week = self.order.subject.week();
        let title = match (week, parts.first()) {
            (Some(week), _) => self.line(&week.title),
            (None, Some(part)) if alone => self.line(&part.exercise.title),
            (None, _) => {
                let place = self.places.at(self.order.place(self.press));
                Line { place, text: words.say("sheet-exercises-title") }
            }
        };
        let number = week.map(|week| number_line(week, say));
        // A person's sheet speaks of nothing but what was chosen for her, and the page shows all the rest.
        let online = if for_all { self.online() } else { None };
        let names = self.order.person.as_ref().map(|person| Names::of(person, self.press.model));
        let may_say = |text: &str| names.as_ref().is_none_or(|names| names.absent_in(text).is_none());
        let welcome = match week.filter(|week| may_say(self.press.sources.slice(week.prose.span))) {
            Some(week) => self.prose(week.file, week.prose.span, 1, false).concat(),
            None => Vec::new(),
        };
        let running = match &self.order.person {
            Some(person) => {
                let name = person.client.name.value.as_str();
                Some(words.say_with("sheet-for", &[("name", name.trim_end_matches('.').into())]))
            }
            None => number.clone(),
        };
        let practice = self.practice(week);
        let time = practice.as_ref().map(|practice| practice.time.clone());
        let spread = practice.and_then(|practice| practice.spread);
        Handout {
            common: self.common(title, running),
            alone,
            eyebrow: number,
            lines: week.map(|week| date_line(week, say)).into_iter().collect(),
            person: self.order.person.as_ref().map(|person| self.person(person)),
            glance: if alone { Vec::new() } else { parts.iter().map(|part| self.glance(*part)).collect() },
            time,
            needs: if alone { Vec::new() } else { self.needs(&parts) },
            welcome,
            emergency_call: say.emergency_call(&self.press.model.site),
            exercises: parts.iter().map(|part| self.exercise(*part, if alone { 1 } else { 2 })).collect(),
            question: week.and_then(|week| week.question.as_ref()).map(|question| self.line(question)),
            practice: spread.map(|spread| Practice {
                title: spread.title,
                days: self.practice_days(spread.days),
                advice: spread.advice,
            }),
            log: Log {
                weeks: [1, 2].map(|n| words.say_with("log-week", &[("number", n.to_string().into())])),
                choose_days: for_all && parts.iter().any(|part| log::chooses_days(&part.dose())),
                tables: parts.iter().map(|part| self.log(*part)).collect(),
            },
            online,
            educator: self.educator(),
            made: self
                .order
                .made
                .map(|day: Date| words.say_with("sheet-made", &[("date", say.day(day).into())])),
        }
    }

    fn person(&mut self, person: &Person<'m>) -> PersonBlock {
        let client = person.client;
        let words = self.press.words;
        let say = self.press.say();
        let days: Vec<String> =
            client.days.iter().map(|day| words.say(&format!("weekday-{}", day.value.number()))).collect();
        let site = &self.press.model.site;
        PersonBlock {
            line: Line {
                place: self.places.at(client.name.span),
                text: words.say_with("sheet-for", &[("name", client.name.value.as_str().into())]),
            },
            days: (!days.is_empty())
                .then(|| words.say_with("sheet-days", &[("days", say.and(&days).into())])),
            note: client.note.as_ref().map(|note| self.line(note)),
            left_out: person
                .choices
                .iter()
                .filter_map(|choice| {
                    let crowded = || person.practice.chosen_for(choice).filter(|one| one.days.is_empty());
                    let text =
                        left_out(choice, site, say).or_else(|| crowded().map(|_| no_room(choice, say)))?;
                    Some(Line { place: self.places.at(choice.asked.place()), text })
                })
                .collect(),
        }
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

    fn practice_days(&mut self, days: Vec<DayBlock<'m>>) -> Vec<PracticeDay> {
        let mut exercise = |done: Done<'m>| self.line(done.title);
        days.into_iter()
            .map(|day| PracticeDay {
                name: day.name,
                time: day.time,
                exercises: day.exercises.into_iter().map(&mut exercise).collect(),
            })
            .collect()
    }

    fn glance(&mut self, part: Part<'_, 'm>) -> Glance {
        Glance {
            place: self.places.at(part.title().span),
            component: self.component(part.exercise),
            title: part.title().value.clone(),
            dose: part.glance(self.press.say()),
        }
    }

    fn exercise(&mut self, part: Part<'_, 'm>, level: u8) -> Exercise {
        let e = part.exercise;
        let say = self.press.say();
        let words = self.press.words;
        let form = part.form();
        let b: ExerciseBlock<'m> = block(&part, self.press.model, say);
        let own_steps = match form.variation.map(|v| &v.instruction) {
            Some(Instruction::Steps(steps)) => Some(steps.as_slice()),
            Some(Instruction::Bare) => Some(&[][..]),
            Some(Instruction::Kept) | None => None,
        };
        let (intro, sections) = match own_steps {
            Some(steps) => (Vec::new(), vec![self.own_steps(form.title(), steps)]),
            None => {
                let (intro, sections) = self.base_steps(e, &b, level);
                let named = self.order.person.as_ref().and_then(|person| {
                    Names::of(person, self.press.model).absent_in(self.press.sources.slice(e.prose.intro))
                });
                (if named.is_some() { Vec::new() } else { intro }, sections)
            }
        };
        let ways = if part.chosen.is_some() {
            Vec::new()
        } else {
            self.all_ways(e, b.easier, b.other_ways, b.harder)
        };
        Exercise {
            place: self.places.at(part.title().span),
            title: part.title().value.clone(),
            also_called: b.also_called.filter(|_| form.variation.is_none()).map(|text| Line {
                place: self.places.at(e.also_called.first().map_or(e.place(), |name| name.span)),
                text,
            }),
            component: self.component(e),
            number_line: b.number_line,
            form_line: part.form_line(say),
            summary: match form.variation {
                Some(_) if form.keeps_steps() => None,
                Some(variation) => Some(self.line(&variation.text)),
                None => Some(self.line(&e.summary)),
            },
            focus: part
                .used
                .filter(|_| form.variation.is_none())
                .and_then(|used| used.focus.as_ref())
                .map(|focus| self.line(focus)),
            needs: self.labelled_needs(
                position(&form, say),
                holds(&form, say).map(|text| say.capital(&text)),
                equipment(&form, say),
            ),
            cautions_title: words.say(if part.chosen.is_some() { "for-you" } else { "take-care" }),
            cautions: match part.chosen {
                Some(chosen) => chosen.cautions.iter().map(|c| self.her_caution(c)).collect(),
                None => b.cautions.into_iter().map(|c| self.caution(c)).collect(),
            },
            figures: form
                .figures()
                .iter()
                .filter_map(|f| self.figure(&FigureBlock::of(f), &form.title().value))
                .collect(),
            change: form.variation.filter(|_| form.keeps_steps()).map(|variation| self.line(&variation.text)),
            intro,
            sections,
            ways,
            reviewed: b.reviewed,
            dose: b.dose,
        }
    }

    /// The steps of a variation that has its own, numbered.
    fn own_steps(&mut self, title: &'m Spanned<String>, steps: &'m [Spanned<String>]) -> Section {
        let items = steps.iter().map(|step| {
            let place = self.places.at(step.span);
            let words = vec![Run { text: step.value.clone(), strong: false }];
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
    fn base_steps(
        &mut self,
        e: &'m model::Exercise,
        b: &ExerciseBlock<'m>,
        level: u8,
    ) -> (Vec<Piece>, Vec<Section>) {
        let mut parts = self.prose(e.file, e.prose.span, level, true).into_iter();
        let intro = parts.next().unwrap_or_default();
        let sections = b.sections.iter().zip(&e.prose.sections).zip(parts);
        let sections = sections
            .map(|((section, source), pieces)| Section {
                name: section.name,
                place: self.places.at(source.title.span),
                title: section.title.to_string(),
                pieces,
            })
            .collect();
        (intro, sections)
    }

    /// Easier, other and harder ways, which stand on a sheet for everyone.
    fn all_ways(
        &mut self,
        e: &'m model::Exercise,
        easier: Vec<WayBlock<'m>>,
        other: Vec<WayBlock<'m>>,
        harder: Vec<WayBlock<'m>>,
    ) -> Vec<Ways> {
        let words = self.press.words;
        // The order of the ways in the block is that of the entry.
        let spans = |list: &[model::Change]| list.iter().map(|c| c.span).collect::<Vec<_>>();
        let variations = e.variations.iter().map(|v| v.span).collect();
        let ways = [
            ("make-it-easier", Some("easier-first"), easier, spans(&e.regressions)),
            ("another-safe-way", None, other, variations),
            ("make-it-harder", Some("harder-only-when-ready"), harder, spans(&e.progressions)),
        ];
        ways.into_iter()
            .filter(|(_, _, list, _)| !list.is_empty())
            .map(|(title, hint, list, spans)| Ways {
                title: words.say(title),
                hint: hint.map(|id| words.say(id)),
                list: list.into_iter().zip(spans).map(|(way, span)| self.way(way, span, e)).collect(),
            })
            .collect()
    }

    fn labelled_needs(&self, position: String, support: Option<String>, equipment: String) -> Vec<Labelled> {
        let label = |id: &str, text: String| Labelled { label: self.press.words.say(id), text };
        std::iter::once(label("position-label", position))
            .chain(support.map(|support| label("hold-on-to", support)))
            .chain(std::iter::once(label("what-you-need", equipment)))
            .collect()
    }

    fn caution(&mut self, c: CautionBlock<'m>) -> Caution {
        Caution {
            place: self.places.at(c.span),
            level: c.level.word(),
            who: c.who,
            strict: c.strict,
            text: c.text.to_string(),
        }
    }

    /// A caution of the form that she does, said to her alone.
    fn her_caution(&mut self, c: &'m model::Caution) -> Caution {
        Caution {
            place: self.places.at(c.span),
            level: c.level.value.word(),
            who: String::new(),
            strict: String::new(),
            text: c.text.value.clone(),
        }
    }

    fn way(&mut self, way: WayBlock<'m>, span: Span, of: &model::Exercise) -> Way {
        let title = way.title.as_deref().unwrap_or(&of.title.value);
        let figures = way.figures.iter().filter_map(|figure| self.figure(figure, title)).collect();
        Way {
            place: self.places.at(span),
            title: way.title,
            text: way.text.map(str::to_string),
            steps: way.steps.into_iter().map(|step| self.line(step)).collect(),
            figures,
            needs: way.needs,
            dose: way.dose,
            cautions: way.cautions.into_iter().map(|c| self.caution(c)).collect(),
            not_for: way.not_for,
        }
    }

    fn log(&mut self, part: Part<'_, 'm>) -> log::LogTable {
        let say = self.press.say();
        let dose = part.dose();
        log::LogTable {
            place: self.places.at(part.title().span),
            title: part.title().value.clone(),
            dose: part.glance(say),
            rows: log::rows(&dose, part.chosen.map(|chosen| chosen.days), say),
            boxes: log::boxes(&dose, say),
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
            email: educator.email.clone(),
        }
    }
}

#[cfg(test)]
mod tests;
