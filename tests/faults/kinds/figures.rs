//! Faults of drawn figures: what no body can do, what nothing carries, and what the entry does not say.

use crate::demonstration::{Demonstration, Entry};
use crate::draw::Draw;
use crate::edit::{blocks_at, insert};
use crate::fault::{Edits, Fault};

/// A plain figure of an exercise: what stands in its picture, and its pose.
struct Plain {
    props: &'static str,
    base: &'static str,
    /// The plain pose at the counter, where it is one.
    hold: &'static str,
}

/// Standing exercises are drawn at a counter, seated ones on a chair.
fn plain(entry: &Entry) -> Option<Plain> {
    match entry.text_of("position") {
        "standing" => Some(Plain { props: "\"counter\"", base: "standing", hold: "hold = \"counter\"\n" }),
        "seated" => Some(Plain { props: "\"chair\"", base: "seated", hold: "" }),
        _ => None,
    }
}

/// The exercise with one more figure, before its first caution.
fn with_figure(entry: &Entry, props: &str, pose: &str) -> String {
    let figure = format!(
        "[[figure]]\ndescription = \"She moves slowly.\"\nprops = [{props}]\n\n[[figure.pose]]\n{pose}\n"
    );
    let caution = blocks_at(&entry.text, "[[caution]]").remove(0);
    insert(&entry.text, caution.start, &figure)
}

/// A slip in a figure that was put into the exercise beforehand.
fn slip(entry: &Entry, what: String, before: (&str, &str), after: (&str, &str)) -> Fault {
    let ground = with_figure(entry, before.0, before.1);
    let text = with_figure(entry, after.0, after.1);
    Fault::inside(&entry.file, what, text).on(Edits::of(&entry.file, ground))
}

/// Slips that add a line, or lines, to the plain pose with free arms.
fn turned(d: &Demonstration, draw: &mut Draw, lines: &[&str]) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.exercises.values() {
        let Some(plain) = plain(entry) else { continue };
        let line = *draw.one(lines);
        let pose = format!("base = \"{}\"\n", plain.base);
        let after = format!("{pose}{line}");
        faults.push(slip(entry, line.replace('\n', ", "), (plain.props, &pose), (plain.props, &after)));
    }
    faults
}

/// Beyond every column of the published ranges.
pub(super) fn impossible(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let lines = [
        "neck.flexion = 70",
        "neck.rotation_left = 120",
        "right_elbow.flexion = 175",
        "left_elbow.extension = 30",
        "shoulder.extension = 90",
        "right_wrist.extension = 110\nright_shoulder.flexion = 20",
        "spine.extension = 60",
    ];
    turned(d, draw, &lines)
}

/// Within them, beyond the means of older adults.
pub(super) fn beyond_older(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let lines = [
        "right_elbow.flexion = 155",
        "left_wrist.flexion = 80\nleft_shoulder.flexion = 20",
        "right_shoulder.external_rotation = 88",
        "left_shoulder.extension = 55",
        "shoulder.flexion = 175",
    ];
    turned(d, draw, &lines)
}

/// A joint that the ground places, and fields of other poses.
pub(super) fn idle(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let lines =
        ["left_hip.external_rotation = 20", "front_foot = \"left\"", "hold_at = 100", "pace = \"quick\""];
    turned(d, draw, &lines)
}

/// What is held or sat on is not there, is too far away, or both feet are off the floor.
pub(super) fn floating(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.exercises.values() {
        let Some(plain) = plain(entry) else { continue };
        let pose = format!("base = \"{}\"\n{}", plain.base, plain.hold);
        let lifted = format!("{pose}feet = \"lifted\"\n");
        let in_the_air = lifted.replace(plain.hold, "");
        let slips = match plain.base {
            "standing" => vec![
                ("the counter taken out", "", pose.as_str()),
                ("the counter out of reach", "{ thing = \"counter\", distance = 130 }", &pose),
                ("another thing than what is held", "\"wall\"", &pose),
                ("both feet in the air", plain.props, &in_the_air),
            ],
            _ => vec![
                ("the chair taken out", "", pose.as_str()),
                ("another thing than a chair", "\"ball\"", &pose),
            ],
        };
        let (what, props, after) = draw.one(&slips);
        faults.push(slip(entry, what.to_string(), (plain.props, &pose), (props, after)));
    }
    faults
}

/// The thing is moved into the body, or the body into the floor.
pub(super) fn through(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.exercises.values().filter(|e| e.text_of("position") == "standing") {
        let pose = "base = \"standing\"\n";
        let (what, props, after) = *draw.one(&[
            ("a counter in the belly", "{ thing = \"counter\", distance = 0 }", "hold = \"counter\"\n"),
            ("a wall in the face", "{ thing = \"wall\", distance = 4 }", ""),
            ("a wall before a bow", "{ thing = \"wall\", distance = 12 }", "hip.flexion = 80\n"),
            ("a step in the shin", "{ thing = \"step\", distance = 0, height = 40 }", ""),
        ]);
        faults.push(slip(entry, what.to_string(), ("", pose), (props, &format!("{pose}{after}"))));
    }
    faults
}

/// A lean that the ankles are told to make, far over the toes.
pub(super) fn unbalanced(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let standing = d.exercises.values().filter(|e| e.text_of("position") == "standing");
    let fault = |entry: &Entry| {
        let lean = 22 + draw.below(15);
        let pose = "base = \"standing\"\n";
        let after = format!("{pose}ankle.dorsiflexion = {lean}\nhip.flexion = 20\n");
        slip(entry, format!("leans by {lean} degrees"), ("", pose), ("", &after))
    };
    standing.map(fault).collect()
}

/// Every pose that is drawn in the exercise's position is drawn in another.
pub(super) fn mismatched(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.exercises.values() {
        let Some(plain) = plain(entry) else { continue };
        let other = if plain.base == "seated" { "standing" } else { "seated" };
        let ground = with_figure(entry, plain.props, &format!("base = \"{}\"\n", plain.base));
        let base = |word: &str| format!("base = \"{word}\"");
        let text = ground.replace(&base(plain.base), &base(other));
        let what = format!("drawn {other}, done {}", plain.base);
        faults.push(Fault::inside(&entry.file, what, text).on(Edits::of(&entry.file, ground)));
    }
    faults
}

/// The picture shows what the entry does not ask for.
pub(super) fn undeclared(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let shows = [
        ("standing", "single-leg-stance", "left_foot = \"lifted\""),
        ("standing", "narrow-stance", "stance = \"tandem\""),
        ("standing", "deep-knee-bend", "knee.flexion = 110\nhip.flexion = 85"),
        ("standing", "deep-hip-bend", "hip.flexion = 110\nknee.flexion = 30"),
        ("standing", "overhead-reach", "shoulder.flexion = 160"),
        ("standing", "end-range-flexion", "spine.flexion = 50"),
        ("standing", "end-range-twist", "spine.rotation_left = 28"),
        ("standing", "impact-moderate", "jump = 4"),
        ("seated", "deep-hip-bend", "hip.flexion = 110"),
        ("seated", "overhead-reach", "shoulder.flexion = 160"),
        ("seated", "end-range-flexion", "spine.flexion = 50"),
        ("seated", "head-turn", "neck.rotation_right = 60"),
    ];
    let mut faults = Vec::new();
    for entry in d.exercises.values() {
        let Some(plain) = plain(entry) else { continue };
        let fits = |(base, demand, _): &&(&str, &str, &str)| {
            *base == plain.base && !entry.demands().contains(&(*demand).to_string())
        };
        let fitting: Vec<_> = shows.iter().filter(fits).collect();
        let (_, demand, line) = **draw.one(&fitting);
        let pose = format!("base = \"{}\"\n", plain.base);
        let after = format!("{pose}{line}\n");
        faults.push(slip(entry, format!("shows {demand}"), (plain.props, &pose), (plain.props, &after)));
    }
    faults
}
