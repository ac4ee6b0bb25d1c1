//! `two-actions`: a step that asks for two movements.

use crate::model::finding::{Level, Subject};
use crate::reckon::readability::parsed::ParsedSentence;
use crate::review::grammar::{WordList, is_in, is_parted_before, main_clause};
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
            knows no other grammar and is silent in other languages.",
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

/// Verbs of movement, as an instruction has them.
static MOVEMENTS: WordList = WordList::of(&[
    "bend",
    "bring",
    "carry",
    "circle",
    "clap",
    "climb",
    "cross",
    "curl",
    "dip",
    "drag",
    "draw",
    "drop",
    "extend",
    "flex",
    "float",
    "glide",
    "hinge",
    "hop",
    "jump",
    "kick",
    "kneel",
    "land",
    "lean",
    "lie",
    "lift",
    "lower",
    "march",
    "move",
    "nod",
    "open",
    "pedal",
    "place",
    "point",
    "press",
    "pull",
    "push",
    "put",
    "raise",
    "reach",
    "return",
    "rise",
    "rock",
    "roll",
    "rotate",
    "shift",
    "shrug",
    "sit",
    "slide",
    "spread",
    "squat",
    "squeeze",
    "stamp",
    "stand",
    "step",
    "straighten",
    "swing",
    "sway",
    "tap",
    "throw",
    "tilt",
    "tuck",
    "turn",
    "twist",
    "walk",
]);

/// Verbs whose movement makes the next one: a push and the rise that comes of it are one movement.
static MAKE_ANOTHER: WordList = WordList::of(&["lean", "press", "push"]);

/// "Stand tall" and the like are a way to hold oneself, no movement.
static HOLD_ONESELF: WordList = WordList::of(&["quietly", "quiet", "still", "tall", "upright"]);

/// What joins two movements.
static JOINTS: WordList = WordList::of(&["and", "then"]);

static LET: WordList = WordList::of(&["let"]);

/// What may stand between "and" and the verb.
static SMALL: WordList = WordList::of(&[
    "again",
    "carefully",
    "gently",
    "immediately",
    "now",
    "quickly",
    "slowly",
    "softly",
    "then",
]);

fn check(_: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    if !texts.english {
        return;
    }
    for step in texts.parsed.steps() {
        if let Some(Second { first, from, verb }) = second_movement(&step) {
            let (first, second) = (step.word(first).to_lowercase(), step.word(verb).to_lowercase());
            let message = format!("`{second}` is a second movement in this step, beside `{first}`");
            sink.about([Subject::Words(second), Subject::Words(first)]).add(
                step.span_of(from, verb),
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

fn second_movement(step: &ParsedSentence<'_>) -> Option<Second> {
    let start = main_clause(step);
    let mut first = Some(start).filter(|i| is_movement(step, *i));
    let makes_another = |first: Option<usize>| first.is_none_or(|i| is_in(step, i, &MAKE_ANOTHER));
    for from in start + 1..step.words.len() {
        if is_in(step, from, &JOINTS) {
            let small = (from + 1..).take_while(|i| is_in(step, *i, &SMALL)).count();
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
        } else if is_parted_before(step, from) && is_movement(step, from) && makes_another(first) {
            first = Some(from);
        }
    }
    None
}

fn is_movement(step: &ParsedSentence<'_>, i: usize) -> bool {
    let lets_move = || is_in(step, i, &LET) && lets_move(step, i);
    (is_in(step, i, &MOVEMENTS) && !is_in(step, i + 1, &HOLD_ONESELF)) || lets_move()
}

/// How many words may name what is let move: "let the whole weight of your body move".
const NAMED: usize = 6;

/// "Let your heels drop", but neither "let go" nor "let your arms hang".
fn lets_move(step: &ParsedSentence<'_>, i: usize) -> bool {
    let named =
        (i + 2..=i + 1 + NAMED).take_while(|i| !is_parted_before(step, *i) && !is_in(step, *i, &JOINTS));
    is_in(step, i + 1, &POSSESSIVES) && named.into_iter().any(|i| is_in(step, i, &MOVEMENTS))
}

/// What the name of a part of the body begins with.
static POSSESSIVES: WordList = WordList::of(&["both", "each", "the", "them", "your"]);

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
