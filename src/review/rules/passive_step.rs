//! `passive-step`: a step that says what is done, not what to do.

use crate::model::finding::{Level, Subject};
use crate::model::words::endings::{Endings, ends_with_one};
use crate::review::grammar::{Role, Step};
use crate::review::rule::{Check, Example, Rule};
use crate::review::texts::Texts;
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "passive-step",
    level: Level::Warning,
    safety: false,
    finds: "A step of Move is told in the passive (`The heels are lifted`) and not as what to do (`Lift your heels`).\n\
            Sentences that begin with what to do are fine whatever follows (`Wait until your feet are planted`).\n\
            English only: the rule knows no other grammar and is silent in other languages. Its words are in the theme, words/steps.en.txt and endings.en.txt.",
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

fn check(case: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    if !texts.english {
        return;
    }
    for step in texts.steps() {
        if let Some((from, to)) = passive(&step, &case.words.endings) {
            let written = step.sentence.written(from, to);
            sink.about([Subject::Words(written.to_string())]).add(
                step.sentence.span_of(from, to),
                format!("this step is passive: `{written}`"),
                "begin with the verb and say what to do, such as `Lift your heels`",
            );
        }
    }
}

/// The words of the passive verb of the main clause, from the form of "be" to the participle.
fn passive(step: &Step<'_>, endings: &Endings) -> Option<(usize, usize)> {
    let start = step.main_clause();
    if !step.has(start, Role::Subject) {
        return None;
    }
    let count = step.roles.len();
    let be = (start + 1..count).find(|i| step.has(*i, Role::Be))?;
    // "Your foot moves until it is placed …": the first clause has its verb.
    if (start + 1..be).any(|i| step.has(i, Role::Conjunction) || step.is_parted_before(i)) {
        return None;
    }
    let at = (be + 1..count).find(|i| !is_between(step, *i, endings))?;
    is_participle(step, at, endings).then_some((be, at))
}

/// A small word between "be" and the participle, or one that says how.
fn is_between(step: &Step<'_>, i: usize, endings: &Endings) -> bool {
    let word = step.sentence.word(i).to_lowercase();
    step.has(i, Role::BeforeParticiple) || ends_with_one(&word, &endings.adverbs)
}

fn is_participle(step: &Step<'_>, i: usize, endings: &Endings) -> bool {
    let word = step.sentence.word(i).to_lowercase();
    let regular =
        word.len() > 3 && ends_with_one(&word, &endings.participles) && !step.has(i, Role::NoParticiple);
    regular || step.has(i, Role::Participle)
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
