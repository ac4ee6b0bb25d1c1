//! Flat shapes: hulls of balls seen from one side, and lines.
//!
//! Units are hundredths of stature to the right and downwards, so that a person who stands is a hundred high.

use std::sync::LazyLock;

use glam::{DVec2, DVec3};

use crate::model::figure::{Drawing, Side, View};

/// What a shape shows, which settles its color.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tone {
    Skin,
    FarSkin,
    Top,
    FarTop,
    Legs,
    FarLegs,
    Shoe,
    FarShoe,
    Hair,
    /// Cloth that goes on where one shape lies on another, without a line around it.
    Seam,
    /// A thing that stands in the picture.
    Thing,
    /// A thing that is held.
    Held,
}

/// One shape: all its parts under one outline, or a line.
#[derive(Clone, Debug)]
pub enum Shape {
    Solid {
        tone: Tone,
        parts: Vec<Outline>,
    },
    /// A line of its own; `strong` is as heavy as an outline.
    Line {
        points: Vec<DVec2>,
        strong: bool,
    },
    /// A small mark in the color of lines.
    Dot {
        at: DVec2,
        radius: f64,
    },
    /// A stretched band.
    Band {
        points: Vec<DVec2>,
    },
}

pub(super) type Outline = Vec<DVec2>;

/// A ball in space: where it is, and its radius, in fractions of stature.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ball {
    pub at: DVec3,
    pub radius: f64,
}

pub(super) fn ball(at: DVec3, radius: f64) -> Ball {
    Ball { at, radius }
}

/// From where space is seen.
#[derive(Clone, Copy, Debug)]
pub(super) struct Eye {
    pub(super) view: View,
    /// A view from the side is from her left, so that she faces left.
    from_left: bool,
}

/// Hundredths of stature.
pub(super) const SCALE: f64 = 100.0;
/// A view from the side comes a little from the front, so that the far leg and the far arm show beside the near ones.
const ASKEW: f64 = 0.16;
/// A view from above comes from the front as well, so high: the sine and the cosine of 41 degrees, about. Bent knees show as they
/// do from above, a lifted knee as it does from the front.
const UP: (f64, f64) = (0.66, 0.75);
/// In how many directions a hull is looked at. Every outline has as many points, so that one can turn into another.
const DIRECTIONS: usize = 32;
static AROUND: LazyLock<[DVec2; DIRECTIONS]> = LazyLock::new(|| {
    std::array::from_fn(|index| DVec2::from_angle(std::f64::consts::TAU * index as f64 / DIRECTIONS as f64))
});

impl Eye {
    pub(super) fn of(drawing: &Drawing) -> Eye {
        let from_left = drawing.faces.is_some_and(|faces| faces.value == Side::Left);
        Eye { from_left, ..Eye::seeing(drawing.view.value) }
    }

    pub(super) fn seeing(view: View) -> Eye {
        Eye { view, from_left: false }
    }

    /// True where the floor is seen along its surface, as a line.
    pub(super) fn sees_floor_as_line(self) -> bool {
        self.view != View::Above
    }

    /// Where a point is in the picture.
    pub(super) fn flat(self, point: DVec3) -> DVec2 {
        match self.view {
            View::Side if self.from_left => DVec2::new(point.y * ASKEW - point.x, -point.z) * SCALE,
            View::Side => DVec2::new(point.x + point.y * ASKEW, -point.z) * SCALE,
            View::Front => DVec2::new(point.y, -point.z) * SCALE,
            View::Above => DVec2::new(point.y, point.x * UP.0 - point.z * UP.1) * SCALE,
        }
    }

    /// How far away a point is.
    pub(super) fn depth(self, point: DVec3) -> f64 {
        match self.view {
            View::Side if self.from_left => -point.y,
            View::Side => point.y,
            View::Front => -point.x,
            View::Above => -point.x * UP.1 - point.z * UP.0,
        }
    }

    /// The outline of the smallest round shape that holds all the balls: its furthest point in each direction.
    pub(super) fn hull(self, balls: &[Ball]) -> Outline {
        let mut furthest = [(f64::NEG_INFINITY, DVec2::ZERO); DIRECTIONS];
        let around: &[DVec2; DIRECTIONS] = &AROUND;
        for ball in balls {
            let (center, radius) = (self.flat(ball.at), ball.radius * SCALE);
            for (far, along) in furthest.iter_mut().zip(around) {
                let reach = center.dot(*along) + radius;
                // Of two that reach as far, the later one.
                if reach >= far.0 {
                    *far = (reach, center + *along * radius);
                }
            }
        }
        furthest.iter().map(|far| far.1).collect()
    }

    /// The front of a box, or its side; from above its top as well, in one.
    pub(super) fn rectangle(self, low: DVec3, high: DVec3) -> Outline {
        // Things are seen square: only their near face is drawn.
        let square = |p: DVec3| match self.view {
            View::Side => DVec3::new(p.x, 0.0, p.z),
            View::Front | View::Above => p,
        };
        let (low, high) = match self.view {
            View::Above => (low.with_z(high.z), high.with_z(low.z)),
            _ => (low, high),
        };
        let (a, b) = (self.flat(square(low)), self.flat(square(high)));
        let (low, high) = (a.min(b), a.max(b));
        vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]
    }
}
