//! `two-actions`: a step that asks for two movements.

use crate::model::finding::{Level, Subject};
use crate::review::grammar::{Role, Step};
use crate::review::rule::{Check, Example, Rule};
use crate::review::texts::Texts;
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "two-actions",
    level: Level::Note,
    safety: false,
    finds: "A step of Move asks for two movements, joined by `and` or `then`. One movement with breathing, looking,\n\
            waiting or holding is fine (`Breathe out and lift your heel`, `Lift one foot and hold`), and so is a\n\
            push and the movement that it makes (`Press your feet down and stand up`). English only: the rule\n\
            knows no other grammar and is silent in other languages. Its words are in the theme, words/steps.en.txt.",
    why: "One step, one movement: anyone who reads it, does it, and looks at the handout again finds the\n\
          place. The second movement is the one that is forgotten, and it may be the one that keeps the first\n\
          one safe.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                "1. Rise on your toes with a little speed.",
                "
1. Rise on your toes with a little speed and then lower your heels.
                                         ^^^^^^^^^^^^^^ `lower` is a second movement in this step, beside `rise`",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[("1. Rise on your toes with a little speed.", "1. Breathe out and rise on your toes, and hold.")],
    ),
    check: Check::Texts(check),
};

fn check(_: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    if !texts.english {
        return;
    }
    for step in texts.steps() {
        if let Some(Second { first, from, verb }) = second_movement(&step) {
            let word = |i: usize| step.sentence.word(i).to_lowercase();
            let (first, second) = (word(first), word(verb));
            let message = format!("`{second}` is a second movement in this step, beside `{first}`");
            sink.about([Subject::Words(second), Subject::Words(first)]).add(
                step.sentence.span_of(from, verb),
                message,
                "make it a step of its own",
            );
        }
    }
}

/// A second movement: the words of the two verbs, and of the joint before the second.
struct Second {
    first: usize,
    from: usize,
    verb: usize,
}

fn second_movement(step: &Step<'_>) -> Option<Second> {
    let start = step.main_clause();
    let mut first = Some(start).filter(|i| is_movement(step, *i));
    let makes_another = |first: Option<usize>| first.is_none_or(|i| step.has(i, Role::MakesAnother));
    for from in start + 1..step.roles.len() {
        if step.has(from, Role::Joint) {
            let small = (from + 1..).take_while(|i| step.has(*i, Role::BeforeVerb)).count();
            let verb = from + 1 + small;
            if !is_movement(step, verb) {
                continue;
            }
            match first {
                Some(first) if !makes_another(Some(first)) && verb > first => {
                    return Some(Second { first, from, verb });
                }
                // A push makes one other movement, not two.
                _ => first = Some(verb),
            }
        } else if step.is_parted_before(from) && is_movement(step, from) && makes_another(first) {
            first = Some(from);
        }
    }
    None
}

fn is_movement(step: &Step<'_>, i: usize) -> bool {
    let lets_move = || step.has(i, Role::Let) && lets_move(step, i);
    (step.has(i, Role::Movement) && !step.has(i + 1, Role::HoldsOneself)) || lets_move()
}

/// How many words may name what is let move: "let the whole weight of your body move".
const NAMED: usize = 6;

/// "Let your heels drop", but neither "let go" nor "let your arms hang".
fn lets_move(step: &Step<'_>, i: usize) -> bool {
    let named =
        (i + 2..=i + 1 + NAMED).take_while(|i| !step.is_parted_before(*i) && !step.has(*i, Role::Joint));
    step.has(i + 1, Role::Possessive) && named.into_iter().any(|i| step.has(i, Role::Movement))
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const RAISE: &str = "content/exercises/heel-raise.md";

    /// The second movement and the first.
    fn two(step: &str) -> Option<(String, String)> {
        let text = edited(RAISE, &[("2. Stand tall for a moment.", &format!("2. {step}"))]);
        let mut found = found(&[(RAISE, &text)]).into_iter().filter(|f| f.starts_with("two-actions"));
        let first = found.next()?;
        assert_eq!(found.next(), None, "{step}");
        let mut quoted = first.split('`').skip(1).step_by(2).map(str::to_string);
        Some((quoted.next()?, quoted.next()?))
    }

    #[test]
    fn a_second_movement_is_found() {
        for (step, second, first) in [
            ("Lift your heel and turn your foot.", "turn", "lift"),
            ("Lift your heel, then slowly lower it.", "lower", "lift"),
            ("Breathe out, lift your arms and bend your knees.", "bend", "lift"),
            ("Breathe out and lift your arms and bend your knees.", "bend", "lift"),
            ("When you feel steady, step forward and sit down.", "sit", "step"),
            ("Press your feet down, stand up and turn.", "turn", "stand"),
            ("Press your feet down and stand up, then turn.", "turn", "stand"),
            ("Step forward and let your weight move onto that foot.", "let", "step"),
            ("Rise on your toes, then let your heels drop.", "let", "rise"),
        ] {
            assert_eq!(two(step), Some((second.to_string(), first.to_string())), "{step}");
        }
    }

    #[test]
    fn breathing_holding_and_a_push_with_what_it_makes_are_one() {
        for step in [
            "Breathe out and lift your heel.",
            "Lift your heel and hold it.",
            "Lift your heel and keep breathing.",
            "Lift your heel and stand tall.",
            "Press your feet down and stand up.",
            "Breathe out, press your feet down and stand up.",
            "Lean forward and rise.",
            "Put your hand and your foot down.",
            "Reach with your arm and leg.",
            "Lift your heel. Then lower it.",
            "Lift your heel until you stand and feel steady.",
            "Lower your arms and let go.",
            "Sit tall and let your arms hang.",
        ] {
            assert_eq!(two(step), None, "{step}");
        }
    }
}
