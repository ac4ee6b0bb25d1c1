//! Handouts: a week, some exercises, or what of them is right for one person, as what stands on the sheet.

use jiff::civil::Date;

use super::pictures::Pictures;
use super::places::Places;
use super::prose::{Piece, Run};
use super::sheet::{
    Caution, Educator, Exercise, Glance, Handout, Labelled, Line, Log, Online, PersonBlock, Practice,
    PracticeDay, Section, Way, Ways,
};
use super::writer::{Part, Writer};
use super::{CODE, Order, Person, Press, Subject, log};
use crate::model::exercise as model;
use crate::model::source::Span;
use crate::model::vocabulary::{SectionName, Vocabulary};
use crate::model::week::Week;
use crate::outputs::blocks::dose::{DoseBlock, glance};
use crate::outputs::blocks::exercise::{CautionBlock, ExerciseBlock, WayBlock, block, holds};
use crate::outputs::blocks::left_out::{left_out, no_room};
use crate::outputs::blocks::phrases::Phrases;
use crate::outputs::blocks::practice::{DayBlock, Done, PracticeBlock, of_person, of_week};
use crate::reckon::choice::cautions_for;

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
        let week = match &self.order.subject {
            Subject::Week(_, week) => Some(*week),
            Subject::Exercises(_) => None,
        };
        let title = match (week, parts.first()) {
            (Some(week), _) => self.line(&week.title),
            (None, Some(part)) if alone => self.line(&part.exercise.title),
            (None, _) => {
                let place = self.places.at(self.order.place(self.press));
                Line { place, text: words.say("sheet-exercises-title") }
            }
        };
        let number = week
            .map(|week| words.say_with("week-number", &[("number", week.number.value.to_string().into())]));
        // A person's sheet speaks of nothing but what was chosen for her, and the page shows all the rest.
        let online = if for_all { self.online() } else { None };
        let welcome = match week.filter(|_| for_all) {
            Some(week) => self.prose(week.file, week.prose.span, 1, false).concat(),
            None => Vec::new(),
        };
        let count = parts.len();
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
            lines: week
                .map(|week| words.say_with("week-of", &[("date", say.date(week.date.value).into())]))
                .into_iter()
                .collect(),
            person: self.order.person.as_ref().map(|person| self.person(person)),
            glance: if alone { Vec::new() } else { parts.iter().map(|part| self.glance(*part)).collect() },
            time,
            needs: if alone { Vec::new() } else { self.needs(&parts) },
            welcome,
            emergency_call: say.emergency_call(&self.press.model.site),
            exercises: parts
                .iter()
                .enumerate()
                .map(|(index, part)| {
                    let number = (!alone).then(|| {
                        words.say_with(
                            "exercise-of",
                            &[
                                ("number", (index + 1).to_string().into()),
                                ("count", count.to_string().into()),
                            ],
                        )
                    });
                    self.exercise(*part, number, if alone { 1 } else { 2 })
                })
                .collect(),
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
            dose: glance(&part.dose(), self.press.say()),
        }
    }

    fn exercise(&mut self, part: Part<'_, 'm>, number_line: Option<String>, level: u8) -> Exercise {
        let e = part.exercise;
        let say = self.press.say();
        let words = self.press.words;
        let b: ExerciseBlock<'m> = block(e, part.used, self.press.model, say);
        if let Some(variation) = part.variation() {
            return self.variation(part, variation, b, number_line);
        }
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
        // The order of the ways in the block is that of the entry.
        let spans = |list: &[model::Change]| list.iter().map(|c| c.span).collect::<Vec<_>>();
        let variations = e.variations.iter().map(|v| v.span).collect();
        let ways = [
            ("make-it-easier", Some("easier-first"), b.easier, spans(&e.regressions)),
            ("another-safe-way", None, b.other_ways, variations),
            ("make-it-harder", Some("harder-only-when-ready"), b.harder, spans(&e.progressions)),
        ];
        Exercise {
            place: self.places.at(e.title.span),
            title: b.title.to_string(),
            component: self.component(e),
            number_line,
            form_line: part.chosen.filter(|chosen| e.id != chosen.asked.id).map(|chosen| {
                words.say_with("sheet-in-place-of", &[("title", chosen.asked.title.value.as_str().into())])
            }),
            summary: Some(self.line(&e.summary)),
            focus: part.used.and_then(|used| used.focus.as_ref()).map(|focus| self.line(focus)),
            needs: self.labelled_needs(b.position, b.support, b.equipment),
            cautions: self.cautions(e, b.cautions),
            figures: b.figures.iter().filter_map(|figure| self.figure(figure, e)).collect(),
            intro,
            sections,
            // On a person's sheet stands only what was chosen for her.
            ways: ways
                .into_iter()
                .filter(|(_, _, list, _)| !list.is_empty() && part.chosen.is_none())
                .map(|(title, hint, list, spans)| Ways {
                    title: words.say(title),
                    hint: hint.map(|id| words.say(id)),
                    list: list.into_iter().zip(spans).map(|(way, span)| self.way(way, span)).collect(),
                })
                .collect(),
            reviewed: b.reviewed,
            dose: dose_block(part, b.dose, say),
        }
    }

    /// A variation that was chosen for a person: its own words and nothing of the steps, which ask for
    /// what is not for her.
    fn variation(
        &mut self,
        part: Part<'_, 'm>,
        variation: &'m model::Variation,
        b: ExerciseBlock<'m>,
        number_line: Option<String>,
    ) -> Exercise {
        let e = part.exercise;
        let say = self.press.say();
        let words = self.press.words;
        let position = variation
            .position
            .as_ref()
            .map_or(b.position, |p| words.say(&format!("position-{}", p.value.word())));
        let support = holds(e, variation, say).map(|text| say.capital(&text));
        let place = self.places.at(variation.text.span);
        let text = Run { text: variation.text.value.clone(), strong: false };
        Exercise {
            place: self.places.at(variation.title.span),
            title: variation.title.value.clone(),
            component: self.component(e),
            number_line,
            form_line: Some(words.say_with("sheet-your-way", &[("title", e.title.value.as_str().into())])),
            summary: None,
            focus: None,
            needs: self.labelled_needs(position, support, b.equipment),
            dose: DoseBlock { changed: false, ..dose_block(part, b.dose, say) },
            cautions: self.cautions(e, b.cautions),
            // The figures of the entry show its base form, which is not for her.
            figures: Vec::new(),
            intro: Vec::new(),
            sections: vec![Section {
                name: SectionName::Move.word(),
                place,
                title: words.say("sheet-how"),
                pieces: vec![Piece::Paragraph { place, words: vec![text] }],
            }],
            ways: Vec::new(),
            reviewed: b.reviewed,
        }
    }

    fn labelled_needs(&self, position: String, support: Option<String>, equipment: String) -> Vec<Labelled> {
        let label = |id: &str, text: String| Labelled { label: self.press.words.say(id), text };
        std::iter::once(label("position-label", position))
            .chain(support.map(|support| label("hold-on-to", support)))
            .chain(std::iter::once(label("what-you-need", equipment)))
            .collect()
    }

    /// The cautions of an exercise; on a person's sheet those for her precautions and for everyone.
    fn cautions(&mut self, e: &'m model::Exercise, list: Vec<CautionBlock<'m>>) -> Vec<Caution> {
        let hers = self.order.person.as_ref().map(|person| {
            let cautions = cautions_for(e, &person.client.precautions());
            cautions.into_iter().map(|c| c.span).collect::<Vec<_>>()
        });
        list.into_iter()
            .filter(|c| hers.as_ref().is_none_or(|hers| hers.contains(&c.span)))
            .map(|c| Caution {
                place: self.places.at(c.span),
                level: c.level.word(),
                who: c.who,
                strict: c.strict,
                text: c.text.to_string(),
            })
            .collect()
    }

    fn way(&mut self, way: WayBlock<'_>, span: Span) -> Way {
        Way {
            place: self.places.at(span),
            title: way.title,
            text: way.text.map(str::to_string),
            needs: way.needs,
            dose: way.dose,
        }
    }

    fn log(&mut self, part: Part<'_, 'm>) -> log::LogTable {
        let say = self.press.say();
        let dose = part.dose();
        log::LogTable {
            place: self.places.at(part.title().span),
            title: part.title().value.clone(),
            dose: glance(&dose, say),
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

/// The words of a dose are those of the page, unless it is the dose of a form that was chosen for a person.
fn dose_block(part: Part<'_, '_>, on_the_page: DoseBlock, say: Phrases<'_>) -> DoseBlock {
    match part.chosen {
        None => on_the_page,
        Some(chosen) => DoseBlock::of(&chosen.dose, Some(chosen.practice.whole()), on_the_page.changed, say),
    }
}

#[cfg(test)]
mod tests;
