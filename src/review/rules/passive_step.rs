//! `passive-step`: a step that says what is done, not what to do.

use crate::model::finding::{Level, Subject};
use crate::reckon::readability::parsed::ParsedSentence;
use crate::review::grammar::{WordList, is_in, is_parted_before, main_clause};
use crate::review::rule::{Check, Example, Rule};
use crate::review::texts::Texts;
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "passive-step",
    level: Level::Warning,
    safety: false,
    finds: "A step of Move is told in the passive (`The heels are lifted`) and not as what to do (`Lift your heels`).\n\
            Sentences that begin with what to do are fine whatever follows (`Wait until your feet are planted`).\n\
            English only: the rule knows no other grammar and is silent in other languages.",
    why: "A step is read while the body waits. Who does what must be clear at once, and a verb in front says it.\n\
          (The checklist PEMAT-P of the AHRQ asks for the active voice in material for patients.)",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "3. Lower your heels slowly to the floor.",
            "
3. Both heels are then slowly lowered to the floor.
              ^^^^^^^^^^^^^^^^^^^^^^^ this step is passive: `are then slowly lowered`",
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "3. Lower your heels slowly to the floor.",
            "3. Lower both heels slowly until they are placed on the floor.",
        )],
    ),
    check: Check::Texts(check),
};

static BE: WordList = WordList::of(&["am", "are", "be", "been", "being", "get", "gets", "is", "was"]);

/// What a clause with a subject begins with; an instruction begins with its verb.
static SUBJECTS: WordList = WordList::of(&[
    "a",
    "all",
    "an",
    "ankles",
    "any",
    "arm",
    "arms",
    "back",
    "body",
    "both",
    "chin",
    "each",
    "elbows",
    "every",
    "feet",
    "hands",
    "head",
    "heels",
    "hips",
    "it",
    "knees",
    "legs",
    "one",
    "shoulders",
    "that",
    "the",
    "these",
    "they",
    "this",
    "those",
    "toes",
    "two",
    "weight",
    "you",
    "your",
    "his",
    "her",
    "its",
]);

/// Participles that do not end in -ed.
const IRREGULAR: [&str; 32] = [
    "begun", "bent", "bound", "brought", "caught", "done", "drawn", "driven", "felt", "found", "given",
    "held", "hung", "kept", "laid", "led", "left", "made", "met", "put", "said", "seen", "sent", "set",
    "shown", "spread", "sprung", "swung", "taken", "thrown", "told", "worn",
];

static CONJUNCTIONS: WordList = WordList::of(&["as", "because", "if", "so", "until", "when", "while"]);

/// Words in -ed that are no participle.
const NO_PARTICIPLES: [&str; 4] = ["bed", "need", "red", "indeed"];

fn check(_: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    if !texts.english {
        return;
    }
    for step in texts.parsed.steps() {
        if let Some((from, to)) = passive(&step) {
            sink.about([Subject::Words(step.written(from, to).to_string())]).add(
                step.span_of(from, to),
                format!("this step is passive: `{}`", step.written(from, to)),
                "begin with the verb and say what to do, such as `Lift your heels`",
            );
        }
    }
}

/// The words of the passive verb of the main clause, from the form of "be" to the participle.
fn passive(step: &ParsedSentence<'_>) -> Option<(usize, usize)> {
    let start = main_clause(step);
    if !is_in(step, start, &SUBJECTS) {
        return None;
    }
    let count = step.words.len();
    let be = (start + 1..count).find(|i| is_in(step, *i, &BE))?;
    // "Your foot moves until it is placed …": the first clause has its verb.
    let conjunction = |i: usize| is_in(step, i, &CONJUNCTIONS);
    if (start + 1..be).any(|i| conjunction(i) || is_parted_before(step, i)) {
        return None;
    }
    let mut at = be + 1;
    while at < count && is_between(&step.word(at).to_lowercase()) {
        at += 1;
    }
    is_participle(&step.word(at).to_lowercase()).then_some((be, at))
}

/// Small words between "be" and the participle.
fn is_between(word: &str) -> bool {
    word.ends_with("ly")
        || ["again", "also", "always", "being", "both", "never", "not", "now", "once", "still", "then"]
            .contains(&word)
}

fn is_participle(word: &str) -> bool {
    IRREGULAR.contains(&word) || (word.len() > 3 && word.ends_with("ed") && !NO_PARTICIPLES.contains(&word))
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn passive(step: &str) -> Option<String> {
        let text = edited(RAISE, &[("2. Stand tall for a moment.", &format!("2. {step}"))]);
        let mut found = found(&[(RAISE, &text)]).into_iter();
        let first = found.next()?;
        assert_eq!(found.next(), None, "{step}");
        Some(first.rsplit('`').nth(1)?.to_string())
    }

    #[test]
    fn a_passive_step_is_found_by_its_verb() {
        for (step, verb) in [
            ("The heels are lifted.", "are lifted"),
            ("Your arms should be held at your sides.", "be held"),
            ("With the left hand, the band is pulled back.", "is pulled"),
            ("Then both knees are bent.", "are bent"),
            ("Stand tall. The chin is not raised.", "is not raised"),
            ("Each foot is now *gently* placed on the floor.", "is now gently placed"),
            ("Arms are crossed.", "are crossed"),
        ] {
            assert_eq!(passive(step).as_deref(), Some(verb), "{step}");
        }
    }

    #[test]
    fn an_instruction_and_a_state_are_not_passive() {
        for step in [
            "Wait until your feet are planted.",
            "When your heels are lifted, hold.",
            "Stand tall, with your heels lifted.",
            "Your back stays long until the band is pulled.",
            "Both heels are level.",
            "Keep what is bent bent.",
            "The chair is behind you.",
            "Is your back long? Go on.",
        ] {
            assert_eq!(passive(step), None, "{step}");
        }
    }

    #[test]
    fn only_steps_are_looked_at() {
        let text = edited(
            RAISE,
            &[
                ("Stand with both feet flat until you feel steady.", "1. Both heels are lowered."),
                ("- Your weight stays over your big toes.", "- Your heels are lifted."),
            ],
        );
        assert_eq!(found(&[(RAISE, &text)]), [""; 0]);
    }
}
