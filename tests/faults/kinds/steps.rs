//! Faults of single steps.

use crate::demonstration::Demonstration;
use crate::draw::Draw;
use crate::edit::{cut, put, steps_at};
use crate::fault::Fault;

const SUBJECTS: [(&str, &str); 14] = [
    ("Your heels", "are"),
    ("Both arms", "are"),
    ("The band", "is"),
    ("Your chin", "is"),
    ("One foot", "is"),
    ("The other knee", "is"),
    ("Each hand", "is"),
    ("Shoulders", "are"),
    ("The weight of your body", "is"),
    ("Your right leg", "is"),
    ("The elbows", "are"),
    ("Hips", "are"),
    ("Your whole back", "is"),
    ("The hands and the arms", "are"),
];

const PARTICIPLES: [&str; 16] = [
    "lifted",
    "lowered",
    "brought forward",
    "pulled back",
    "held",
    "pushed away",
    "bent",
    "turned",
    "put down",
    "drawn in",
    "kept long",
    "placed on the floor",
    "swung out",
    "moved to the side",
    "set down",
    "stretched",
];

const OPENINGS: [&str; 6] =
    ["", "", "As you breathe out, ", "Then ", "With both feet flat, ", "When you feel steady, "];

const BETWEEN: [&str; 5] = ["", "", "slowly ", "then ", "gently "];

/// A step told as what is done, in place of one that says what to do.
pub(super) fn passive(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let step = draw.one(&steps_at(&exercise.text)).clone();
        let (subject, be) = *draw.one(&SUBJECTS);
        let opening = *draw.one(&OPENINGS);
        let be = *draw.one(&[be, be, "should be", "can be", "must now be"]);
        let subject = match opening {
            "" => subject.to_string(),
            _ => subject[..1].to_lowercase() + &subject[1..],
        };
        let told = format!("{opening}{subject} {be} {}{}.", draw.one(&BETWEEN), draw.one(&PARTICIPLES));
        faults.push(Fault::inside(&exercise.file, told.clone(), put(&exercise.text, step, &told)));
    }
    faults
}

/// What a step of one movement begins with: a verb by which a part of the body or something held changes its place, and that
/// is no push which makes the next one.
const MOVES: [&str; 18] = [
    "Bend", "Bring", "Draw", "Float", "Lift", "Lower", "Move", "Put", "Raise", "Reach", "Rise", "Sit",
    "Slide", "Step", "Swing", "Tap", "Turn", "Walk",
];

/// Two steps that follow one another, each a movement, made into one.
pub(super) fn two_actions(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let steps = steps_at(&exercise.text);
        for pair in steps.windows(2) {
            let [first, second] = [&exercise.text[pair[0].clone()], &exercise.text[pair[1].clone()]];
            let moves = |step: &str| {
                let sentence = step.trim_end_matches('.');
                MOVES.iter().any(|verb| sentence.starts_with(&format!("{verb} ")))
                    && !sentence.contains(['.', ','])
            };
            if !moves(first) || !moves(second) {
                continue;
            }
            let joint = draw.one(&[" and ", ", then ", " and then ", ", and "]);
            let told = format!(
                "{}{joint}{}{}",
                first.trim_end_matches('.'),
                second[..1].to_lowercase(),
                &second[1..]
            );
            // The number of the second step goes with it.
            let line = exercise.text[..pair[1].start].rfind('\n').unwrap()..pair[1].end;
            let text = put(&cut(&exercise.text, vec![line]), pair[0].clone(), &told);
            faults.push(Fault::inside(&exercise.file, told, text));
        }
    }
    faults
}

/// What asks for a demand in words that nobody takes for anything else; any of these names it.
const DEMANDING: [(&str, &[&str]); 14] = [
    ("Close your eyes.", &["eyes-closed"]),
    ("Keep your eyes closed.", &["eyes-closed"]),
    ("Stand on one leg.", &["single-leg-stance"]),
    ("Balance on one foot for a moment.", &["single-leg-stance"]),
    ("Stand up quickly.", &["quick-rise"]),
    ("Jump lightly.", &["impact-moderate", "impact-high"]),
    ("Hop to the side.", &["impact-moderate", "impact-high"]),
    ("Twist to the left.", &["end-range-twist"]),
    ("Arch your back.", &["end-range-extension"]),
    ("Round your back.", &["end-range-flexion", "loaded-flexion"]),
    ("Look up.", &["look-up"]),
    ("Turn your head to the right.", &["head-turn", "quick-head-move"]),
    ("Lie down on your back.", &["lying-flat"]),
    ("Hold your breath.", &["breath-strain"]),
];

/// A step that asks for something the exercise does not name, at the place of another.
pub(super) fn demanding(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let demands = exercise.demands();
        let lies = exercise.text_of("position") == "lying";
        let is_new = |ids: &[&str]| {
            !ids.iter().any(|id| demands.iter().any(|d| d == id) || lies && *id == "lying-flat")
        };
        let new: Vec<&str> = DEMANDING.iter().filter(|(_, ids)| is_new(ids)).map(|(step, _)| *step).collect();
        let (step, opening) = (*draw.one(&new), *draw.one(&["", "", "Breathe out. ", "Do not hurry. "]));
        let told = format!("{opening}{step}");
        let at = draw.one(&steps_at(&exercise.text)).clone();
        faults.push(Fault::inside(&exercise.file, told.clone(), put(&exercise.text, at, &told)));
    }
    faults
}
