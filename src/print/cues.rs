//! The cue sheet: what the educator reads while she records a week.

use super::pictures::Pictures;
use super::places::Places;
use super::prose::{Piece, plain_words};
use super::sheet::{Cue, CueSheet, Figure, Line};
use super::writer::Writer;
use super::{Order, Press, Subject};
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::figure::Drawing;
use crate::model::vocabulary::{CautionLevel, SectionName, Vocabulary};
use crate::outputs::blocks::card::CardBlock;
use crate::outputs::blocks::dose::count;
use crate::outputs::blocks::exercise::block;
use crate::outputs::blocks::figure::{FigureBlock, ShowsBlock};
use crate::outputs::blocks::needs::{add, needs};
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::blocks::way::WayBlock;
use crate::outputs::blocks::week::number_line;
use crate::text::sentences::Splitter;

/// The fewest and the most cues that an eye can catch beside a camera (common practice, no source).
const CUES: std::ops::RangeInclusive<usize> = 3..=6;

/// The cue sheet of a week, with the lines that its pieces come from and the pictures it shows.
pub(super) struct Written {
    pub(super) sheet: CueSheet,
    pub(super) places: Places,
    pub(super) pictures: Pictures,
}

pub(super) fn write(press: &Press<'_>, order: &Order<'_>) -> Written {
    let mut writer = Writer::new(press, order);
    let sheet = writer.cue_sheet();
    Written { sheet, places: writer.places, pictures: writer.pictures }
}

impl<'m> Writer<'_, 'm> {
    fn cue_sheet(&mut self) -> CueSheet {
        let words = self.press.words;
        let exercises = self.exercises();
        let week = match &self.order.subject {
            Subject::Week(series, week) => Some((*series, *week)),
            Subject::Exercises(_) => None,
        };
        let title = match week {
            Some((_, week)) => self.line(&week.title),
            None => Line {
                place: self.places.at(self.order.place(self.press)),
                text: words.say("sheet-exercises-title"),
            },
        };
        let number = week.map(|(_, week)| number_line(week, self.press.say()));
        let next = week.and_then(|(series, week)| series.weeks.beside(&week.id).1);
        CueSheet {
            common: self.common(title, number.clone()),
            eyebrow: number,
            props: self.props(&exercises),
            asks_first: self.asks_first(&exercises),
            exercises: exercises.iter().map(|used| self.cue(*used)).collect(),
            question: week.and_then(|(_, week)| week.question.as_ref()).map(|q| self.line(q)),
            next: next.map(|week| self.line(&week.title)),
        }
    }

    /// What the exercises need, and what their other ways hold on to, each thing once.
    fn props(&mut self, exercises: &[UsedExercise<'_, 'm>]) -> Vec<Line> {
        let say = self.press.say();
        let mut props = needs(exercises.iter().map(UsedExercise::form), say);
        for variation in exercises.iter().flat_map(|used| &used.exercise.variations) {
            for support in variation.support.iter().flatten() {
                add(&mut props, support.span, say.support(support.value));
            }
        }
        props.iter().map(|prop| self.need(prop)).collect()
    }

    fn cue(&mut self, used: UsedExercise<'_, 'm>) -> Cue {
        let e = used.exercise;
        let b = block(&used, self.press.model, self.press.say());
        let (mut steps, mut feel, mut faults) = (Vec::new(), Vec::new(), Vec::new());
        for section in &e.prose.sections {
            let lines = lines(&self.section(section, 1), &self.press.words.splitter);
            match section.name {
                Some(SectionName::Move) => steps = lines,
                Some(SectionName::Feel) => feel = lines,
                Some(SectionName::WatchFor) => faults = lines,
                _ => {}
            }
        }
        let focus = used.in_week.and_then(|row| row.focus.as_ref()).map(|focus| self.line(focus));
        let splitter = &self.press.words.splitter;
        let first = |ways: Vec<WayBlock<'_>>| {
            ways.into_iter().next().map(|way| in_a_line(way, self.press.model, splitter))
        };
        // Where no easier exercise is named, another safe way is the easier one.
        let easier = first(b.easier).or_else(|| first(b.other_ways));
        let harder = first(b.harder);
        let at = used.in_week.and_then(|row| row.at.as_ref());
        let at = at.map(|at| Line { place: self.places.at(at.span), text: clock(at.value) });
        let cautions = self.cautions_aloud(&used);
        let figure = b.figures.first().and_then(|figure| self.unlabeled(figure, e));
        let place = self.places.at(e.title.span);
        let change = |text: Option<String>| text.map(|text| Line { place, text });
        Cue {
            easier: change(easier),
            harder: change(harder),
            place,
            title: e.title.value.clone(),
            component: b.component,
            figure,
            count: count(&used.dose(), self.press.say()),
            at,
            cautions,
            cues: cues(steps, feel, usize::from(focus.is_some())),
            focus,
            faults,
        }
    }
}

impl<'m> Writer<'_, 'm> {
    /// What its card says to be careful about, in words to say aloud: who leaves it out, then what is for everyone. Who asks
    /// first is said once for all exercises.
    fn cautions_aloud(&mut self, used: &UsedExercise<'_, 'm>) -> Vec<Line> {
        let card = CardBlock::of(used, self.press.model, self.press.say());
        let mut lines = Vec::new();
        for barred in card.barred.into_iter().filter(|barred| barred.level == CautionLevel::Stop) {
            let level = self.press.words.say(&format!("level-{}", barred.level.word()));
            let both = [("who", barred.who.into()), ("level", level.into())];
            let text = self.press.words.say_with("cue-barred", &both);
            lines.push(Line { place: self.places.at(barred.span), text });
        }
        lines.extend(card.cautions.iter().map(|caution| self.line(caution.text)));
        lines
    }

    /// Whether somebody asks a clinician before one of the exercises.
    fn asks_first(&self, exercises: &[UsedExercise<'_, 'm>]) -> bool {
        let card = |used| CardBlock::of(used, self.press.model, self.press.say());
        exercises.iter().any(|used| card(used).barred.iter().any(|barred| barred.level == CautionLevel::Ask))
    }

    /// A figure without its labels: their numbers would have no words beside a cue.
    fn unlabeled(&mut self, figure: &FigureBlock<'m>, of: &Exercise) -> Option<Figure> {
        let ShowsBlock::Drawing(drawing) = figure.shows else { return self.figure(figure, &of.title.value) };
        let bare = Drawing { labels: Vec::new(), ..drawing.clone() };
        let figure = FigureBlock { shows: ShowsBlock::Drawing(&bare), labels: Vec::new(), ..figure.clone() };
        self.figure(&figure, &of.title.value)
    }
}

/// Seconds from the start of a video, as an author writes them: "3:35".
fn clock(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        hours => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

/// Three to six cues, the week's own among them: the steps in their order, two in a line where there are
/// more, and what to feel where there are fewer. No step is lost.
fn cues(steps: Vec<Line>, feel: Vec<Line>, focus: usize) -> Vec<Line> {
    let most = CUES.end() - focus;
    let lines = steps.len().clamp(1, most);
    let mut cues: Vec<Line> = Vec::new();
    for (index, step) in steps.into_iter().enumerate() {
        match cues.last_mut() {
            // The last lines take up what does not fit: they are said in one breath.
            Some(last) if index >= lines => last.text = format!("{} {}", last.text, step.text),
            _ => cues.push(step),
        }
    }
    let lacking = CUES.start().saturating_sub(focus + cues.len());
    cues.extend(feel.into_iter().take(lacking));
    cues
}

/// The first sentence of every item of a section's lists, or of its paragraphs where it has none.
fn lines(pieces: &[Piece], splitter: &Splitter) -> Vec<Line> {
    let sentence = |words: &str| splitter.first(words).to_string();
    let mut items: Vec<Line> = Vec::new();
    let mut paragraphs: Vec<Line> = Vec::new();
    for piece in pieces {
        match piece {
            Piece::List { items: list, .. } => {
                for item in list {
                    if let Some(Piece::Paragraph { words, .. }) = item.pieces.first() {
                        items.push(Line { place: item.place, text: sentence(&plain_words(words)) });
                    }
                }
            }
            Piece::Paragraph { place, words } => {
                paragraphs.push(Line { place: *place, text: sentence(&plain_words(words)) });
            }
            _ => {}
        }
    }
    if items.is_empty() { paragraphs } else { items }
}

/// An easier or harder way in a line: the exercise it leads to, or its title and first sentence.
fn in_a_line(way: WayBlock<'_>, model: &Model, splitter: &Splitter) -> String {
    if let Some(exercise) = way.exercise.and_then(|id| model.exercises.get(id)) {
        return exercise.title.value.clone();
    }
    match (way.title, way.text) {
        (Some(title), Some(text)) => format!("{title}. {}", splitter.first(&text.value)),
        (Some(title), None) => title,
        (None, text) => text.map(|text| splitter.first(&text.value).to_string()).unwrap_or_default(),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::model::vocabulary::{Extent, Paper};
    use crate::print::demonstration::DEMONSTRATION;
    use crate::print::handout;
    use crate::print::sheet;
    use crate::review::testing::words;

    fn list(texts: &[&str]) -> Vec<Line> {
        texts.iter().map(|t| Line { place: 0, text: t.to_string() }).collect()
    }

    fn said(steps: usize, feel: usize, focus: usize) -> Vec<String> {
        let steps: Vec<String> = (1..=steps).map(|n| format!("{n}.")).collect();
        let feel: Vec<String> = (1..=feel).map(|n| format!("f{n}.")).collect();
        let line = |texts: &[String]| list(&texts.iter().map(String::as_str).collect::<Vec<_>>());
        cues(line(&steps), line(&feel), focus).into_iter().map(|line| line.text).collect()
    }

    #[test]
    fn there_are_three_to_six_cues_and_no_step_is_lost() {
        assert_eq!(said(4, 2, 0), ["1.", "2.", "3.", "4."]);
        assert_eq!(said(1, 3, 1), ["1.", "f1."]);
        assert_eq!(said(8, 0, 0), ["1.", "2.", "3.", "4.", "5.", "6. 7. 8."]);
        assert_eq!(said(6, 0, 1), ["1.", "2.", "3.", "4.", "5. 6."]);
        assert!(said(0, 0, 0).is_empty());
    }

    /// The first sentence of each item of a section.
    fn said_in(shown: &sheet::Exercise<'_>, name: SectionName) -> Vec<String> {
        let sections = shown.sections.iter().filter(|section| section.name == name.word());
        sections.flat_map(|section| lines(&section.pieces, &words().splitter)).map(|line| line.text).collect()
    }

    #[test]
    fn a_cue_sheet_of_the_demonstration_says_each_step_and_fault_and_a_way_each() {
        let read = &*DEMONSTRATION;
        let press = read.press();
        let mut numbers = BTreeSet::new();
        for (series, week) in read.model.weeks() {
            let order = Order::of(Subject::Week(series, week), Extent::Full, 32, Paper::A4);
            let Written { sheet, places, .. } = write(&press, &order);
            let handout = handout::write(&press, &order).handout;
            assert_eq!(sheet.exercises.len(), week.exercises.len(), "{}", week.id);
            for (cue, shown) in sheet.exercises.iter().zip(&handout.exercises) {
                let about = format!("{} in {}", cue.title, week.id);
                let number = cue.cues.len() + usize::from(cue.focus.is_some());
                assert!(CUES.contains(&number), "{about}: {number} cues");
                numbers.insert(number);
                let steps = said_in(shown, SectionName::Move);
                let faults = said_in(shown, SectionName::WatchFor);
                assert!(!steps.is_empty() && !faults.is_empty(), "{about}");
                let cues: Vec<&str> = cue.cues.iter().map(|line| line.text.as_str()).collect();
                assert!(cues.join(" ").starts_with(&steps.join(" ")), "{about}: {cues:?}");
                assert!(cue.faults.iter().map(|line| &line.text).eq(&faults), "{about}");
                assert!(cue.easier.is_some(), "{about} has no easier way");
                assert_eq!(cue.harder.is_some(), !shown.harder.is_empty());
                assert_eq!(cue.title, shown.block.title.value);
                assert!(shown.block.dose.glance.starts_with(&cue.count), "{about}: {}", cue.count);
                for line in cue.cues.iter().chain(&cue.faults) {
                    let span = places.get(line.place).expect("a place that is known");
                    let word = line.text.split_whitespace().next().unwrap();
                    assert!(read.sources.slice(span).contains(word), "{about}: {}", line.text);
                }
            }
            let next = series.weeks.iter().find(|w| w.number.value == week.number.value + 1);
            assert_eq!(sheet.next.map(|line| line.text), next.map(|w| w.title.value.clone()), "{}", week.id);
            let props: Vec<String> = sheet.props.iter().map(|line| line.text.to_lowercase()).collect();
            for (_, exercise) in read.model.exercises_of(week) {
                for thing in &exercise.equipment {
                    let thing = thing.value.to_lowercase();
                    let known = props.iter().any(|p| p.contains(&thing) || thing.contains(p.as_str()));
                    assert!(known, "{}: no {thing} in {props:?}", week.id);
                }
            }
        }
        assert!(numbers.len() > 1, "every exercise has as many cues: {numbers:?}");
    }
}
