//! Figures against published tables and geometry that was computed by hand.

mod any;
mod demonstration;
mod geometry;
mod moments;
mod published;
mod resting;
mod stepping;
mod tables;

use super::*;
use crate::entry::figure::figures_of;
use crate::model::figure::Side;

const SIDES: [Side; 2] = [Side::Left, Side::Right];

/// The angle at the knee, in radians, 0 when straight.
fn knee_flexion(leg: &Leg) -> f64 {
    (leg.knee - leg.hip).angle_between(leg.ankle - leg.knee)
}

/// The drawing of a figure with these fields.
fn drawing(fields: &str) -> Drawing {
    let text = format!("[[figure]]\ndescription = \"She moves.\"\n{fields}\n");
    let (figures, findings) = figures_of(&text);
    assert_eq!(findings.iter().map(|f| &f.message).collect::<Vec<_>>(), [""; 0], "{text}");
    figures.into_iter().find_map(|f| f.drawing().cloned()).expect("a drawing")
}

/// The only pose of a figure, in space.
fn pose(base: &str, fields: &str) -> Settled {
    let props = if base == "seated" { "props = [\"chair\"]\n" } else { "" };
    settle(&format!("{props}[[figure.pose]]\nbase = \"{base}\"\n{fields}"))
}

fn settle(fields: &str) -> Settled {
    let drawing = drawing(fields);
    Scene::of(&drawing).poses.remove(0)
}
