//! Whether an exercise is still what a clinician approved: a fingerprint of all that she read of it.
//!
//! It is taken from a plain text that says every value of the model by its name, so that the order of fields, comments,
//! blank lines and line ends do not count. What an exercise does not have is not in that text: a field that the model
//! gains later changes the fingerprint of those exercises alone that use it. The title does not count, nor do
//! other names (`also_called`): another word for the same movement changes nothing that a clinician judges. Nor does what
//! is said about the entry itself (`reviewed`, `accept`).

use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Instruction, Reviewed, Variation, Way};
use crate::model::figure::{Crop, Drawing, Figure, Label, Photo, Pose, Prop, Shows, Side, Turn};
use crate::model::prose::settled;
use crate::model::source::Spanned;
use crate::model::vocabulary::Vocabulary;

/// How many hex digits of the hash a fingerprint has.
const DIGITS: usize = 16;

/// What an exercise's fields and prose say, in 16 hex digits: the same on every machine.
pub fn fingerprint(exercise: &Exercise) -> String {
    let mut content = Content(String::new());
    content.exercise(exercise);
    blake3::hash(content.0.as_bytes()).to_hex()[..DIGITS].to_string()
}

/// True when an exercise says something else than what was approved. Without a fingerprint nobody can know.
pub fn has_changed(exercise: &Exercise) -> bool {
    let of = exercise.reviewed.as_ref().and_then(|reviewed| reviewed.of.as_ref());
    of.is_some_and(|of| of.value != fingerprint(exercise))
}

/// The review of an exercise, unless it has changed since.
pub fn standing(exercise: &Exercise) -> Option<&Reviewed> {
    exercise.reviewed.as_ref().filter(|_| !has_changed(exercise))
}

/// The text that is hashed. Every value stands in a line of its own with its name and its length, so that no two
/// contents give the same text.
struct Content(String);

/// Each function takes its part of the model apart field by field, so that a new field is decided upon here.
impl Content {
    fn exercise(&mut self, exercise: &Exercise) {
        let Exercise {
            id: _,
            file: _,
            standing: _,
            title: _,
            also_called: _,
            summary,
            component,
            position,
            surface,
            support,
            equipment,
            demands,
            trains,
            dose,
            variations,
            regressions,
            progressions,
            cautions,
            figures,
            reviewed: _,
            accept: _,
            prose,
        } = exercise;
        self.text("summary", summary);
        self.word("component", component);
        self.word("position", position);
        self.word_if_any("surface", surface);
        self.words("support", support);
        self.texts("equipment", equipment);
        self.texts("demands", demands);
        self.words("trains", trains);
        self.dose("dose", Some(dose));
        self.each("variation", variations, Content::variation);
        self.each("regression", regressions, Content::change);
        self.each("progression", progressions, Content::change);
        self.each("caution", cautions, Content::caution);
        self.each("figure", figures, Content::figure);
        self.line("prose", prose.wording.to_hex().as_str());
    }

    fn variation(&mut self, variation: &Variation) {
        let Variation {
            span: _,
            title,
            text,
            instruction,
            position,
            surface,
            support,
            equipment,
            removes,
            adds,
            dose,
            figures,
        } = variation;
        self.text("title", title);
        self.text("text", text);
        match instruction {
            Instruction::Steps(steps) => self.texts("steps", steps),
            Instruction::Kept => self.line("keeps_steps", "true"),
            Instruction::Bare => {}
        }
        self.word_if_any("position", position);
        self.word_if_any("surface", surface);
        // An empty list says "none", where no list says "as the exercise".
        if let Some(support) = support {
            self.line("support", &support.len().to_string());
            self.words("support", support);
        }
        if let Some(equipment) = equipment {
            self.line("equipment", &equipment.len().to_string());
            self.texts("equipment", equipment);
        }
        self.texts("removes", removes);
        self.texts("adds", adds);
        self.dose("dose", dose.as_ref());
        self.each("figure", figures, Content::figure);
    }

    fn change(&mut self, change: &Change) {
        let Change { span: _, way, removes, adds, dose } = change;
        match way {
            Way::Exercise { id, text } => {
                self.text("exercise", id);
                self.text_if_any("text", text);
            }
            Way::Text(text) => self.text("text", text),
        }
        self.texts("removes", removes);
        self.texts("adds", adds);
        self.dose("dose", dose.as_ref());
    }

    fn caution(&mut self, caution: &Caution) {
        let Caution { span: _, applies, level, text, about, instead, dose, form } = caution;
        match applies {
            Applies::Everyone => self.line("for", "everyone"),
            Applies::Precautions(who) => self.texts("for", who),
        }
        self.word("level", level);
        self.text("text", text);
        if let Some(about) = about {
            self.line("about", &about.len().to_string());
            self.texts("about", about);
        }
        self.text_if_any("use", instead);
        self.dose("dose", dose.as_ref());
        self.text_if_any("form", form);
    }

    fn dose(&mut self, name: &str, dose: Option<&Dose>) {
        let Some(dose) = dose else { return };
        let Dose { span: _, reps, hold, time, sets, sides, rest, pace, days, rest_days, effort } = dose;
        self.open(name);
        for (name, amount) in
            [("reps", reps), ("sets", sets), ("days", days), ("rest_days", rest_days), ("effort", effort)]
        {
            if let Some(amount) = amount {
                self.line(name, &format!("{} {}", amount.value.low, amount.value.high));
            }
        }
        for (name, time) in [("hold", hold), ("time", time), ("rest", rest), ("pace", pace)] {
            if let Some(time) = time {
                let time = time.value;
                self.line(name, &format!("{} {} {}", time.low, time.high, time.unit.sign()));
            }
        }
        self.word_if_any("sides", sides);
        self.close();
    }

    fn figure(&mut self, figure: &Figure) {
        let Figure { span: _, description, caption, shows } = figure;
        self.text("description", description);
        self.text_if_any("caption", caption);
        match shows {
            Shows::Photo(Photo { file, crop }) => {
                self.text("file", file);
                if let Some(Crop { left, right, top, bottom }) = crop {
                    self.line("crop", &format!("{left} {right} {top} {bottom}"));
                }
            }
            Shows::Drawing(drawing) => self.drawing(drawing),
        }
    }

    fn drawing(&mut self, drawing: &Drawing) {
        let Drawing { span: _, view, faces, layout, rounded_back, poses, props, arrows, labels, asked: _ } =
            drawing;
        self.word("view", view);
        self.word_if_any("faces", faces);
        self.line("layout", layout.word());
        self.line("rounded_back", &rounded_back.to_string());
        self.each("pose", poses, Content::pose);
        self.each("prop", props, Content::prop);
        match arrows.as_deref() {
            Some([]) => self.line("arrows", "none"),
            arrows => self.words("arrows", arrows.unwrap_or_default()),
        }
        self.each("label", labels, |content, Label { span: _, at, text }| {
            content.line("at", at.word());
            content.text("text", text);
        });
    }

    fn pose(&mut self, pose: &Pose) {
        let Pose {
            span: _,
            base,
            turns,
            feet,
            holds,
            hold_at,
            back,
            stance,
            front_foot,
            stride,
            moved,
            weight,
            hips_raised,
            jump,
            pace,
        } = pose;
        self.word("base", base);
        // Each joint is a field, and the order of fields does not count.
        let mut turns: Vec<String> = turns.iter().map(turn).collect();
        turns.sort_unstable();
        for turn in turns {
            self.line("turn", &turn);
        }
        for side in Side::ALL {
            self.word_if_any(&format!("{}_foot", side.word()), feet.of(*side));
            self.word_if_any(&format!("{}_hold", side.word()), holds.of(*side));
            self.number(&format!("{}_hold_at", side.word()), hold_at.of(*side));
        }
        self.word_if_any("back", back);
        self.word_if_any("stance", stance);
        self.word_if_any("front_foot", front_foot);
        self.number("stride", stride);
        self.word_if_any("moved", moved);
        self.word_if_any("weight", weight);
        self.number("hips_raised", hips_raised);
        self.number("jump", jump);
        self.word_if_any("pace", pace);
    }

    fn prop(&mut self, prop: &Prop) {
        let Prop { thing, place, distance, height, from, to, under, between } = prop;
        self.word("thing", thing);
        self.word_if_any("place", place);
        self.number("distance", distance);
        self.number("height", height);
        self.word_if_any("from", from);
        self.word_if_any("to", to);
        self.word_if_any("under", under);
        self.word_if_any("between", between);
    }

    fn each<T>(&mut self, name: &str, all: &[T], mut say: impl FnMut(&mut Content, &T)) {
        for one in all {
            self.open(name);
            say(self, one);
            self.close();
        }
    }

    fn text(&mut self, name: &str, text: &Spanned<String>) {
        self.line(name, &settled(&text.value));
    }

    fn text_if_any(&mut self, name: &str, text: &Option<Spanned<String>>) {
        self.texts(name, text.as_slice());
    }

    fn texts(&mut self, name: &str, texts: &[Spanned<String>]) {
        for text in texts {
            self.text(name, text);
        }
    }

    fn word<V: Vocabulary>(&mut self, name: &str, word: &Spanned<V>) {
        self.line(name, word.value.word());
    }

    fn word_if_any<V: Vocabulary>(&mut self, name: &str, word: &Option<Spanned<V>>) {
        self.words(name, word.as_slice());
    }

    fn words<V: Vocabulary>(&mut self, name: &str, words: &[Spanned<V>]) {
        for word in words {
            self.word(name, word);
        }
    }

    fn number(&mut self, name: &str, number: &Option<Spanned<i16>>) {
        if let Some(number) = number {
            self.line(name, &number.value.to_string());
        }
    }

    fn line(&mut self, name: &str, value: &str) {
        self.0.push_str(&format!("{name} {}:{value}\n", value.len()));
    }

    fn open(&mut self, name: &str) {
        self.0.push_str(&format!("{name} (\n"));
    }

    fn close(&mut self) {
        self.0.push_str(")\n");
    }
}

fn turn(turn: &Turn) -> String {
    let Turn { joint, side, motion, degrees } = turn;
    let side = side.map_or("", |side| side.word());
    format!("{side} {} {} {}", joint.word(), motion.word(), degrees.value)
}

#[cfg(test)]
mod tests;
