//! A drawing laid out: its poses beside each other or one over the other, with what stands around them.

use glam::{DVec2, DVec3};

use super::canvas::{Eye, Shape};
use super::person::{Order, Person, person};
use super::things::{self, Things};
use crate::model::figure::{Drawing, Layout, Side, Thing};
use crate::reckon::figure::{Body, Scene, between};

/// A picture, in hundredths of stature.
#[derive(Clone, Debug)]
pub struct Picture {
    pub left: f64,
    pub top: f64,
    pub width: f64,
    pub height: f64,
    pub panels: Vec<Panel>,
}

/// One pose with its surroundings, drawn so far to the right and down.
#[derive(Clone, Debug)]
pub struct Panel {
    pub shift: DVec2,
    pub still: Vec<Shape>,
    /// The start, in a lighter line, where the finish is drawn over it.
    pub start: Vec<Shape>,
    pub figure: Vec<Shape>,
    pub arrows: Vec<Arrow>,
    pub labels: Vec<Mark>,
}

/// The way of a point of the body.
#[derive(Clone, Debug)]
pub struct Arrow {
    pub points: Vec<DVec2>,
}

/// A numbered mark with a line to what it speaks of.
#[derive(Clone, Debug)]
pub struct Mark {
    pub number: usize,
    pub at: DVec2,
    pub disc: DVec2,
}

/// The figure of the last panel at moments of its movement, from the first pose to the last; all have the same shapes.
#[derive(Clone, Debug)]
pub struct Motion {
    pub moments: Vec<Vec<Shape>>,
}

/// Radius of a label's disc.
pub(super) const DISC: f64 = 5.2;
/// Space around everything.
const MARGIN: f64 = 3.0;
/// Between two poses.
const GAP: f64 = 9.0;
/// Into how many steps a movement from pose to pose is divided.
const STEPS: usize = 8;

impl Motion {
    /// The movement of a scene; `None` for a single pose.
    pub fn of(scene: &Scene<'_>) -> Option<Motion> {
        let last = scene.poses.last().filter(|_| scene.poses.len() > 1)?;
        let eye = Eye { view: scene.drawing.view.value };
        let around = things::standing(scene, eye);
        // In the order of the last pose, whose figure it is that moves.
        let order = Order::of(&last.body, eye);
        let shapes = |body: &Body| figure(scene, body, eye, order, &around);
        Some(Motion { moments: moments(scene).iter().map(shapes).collect() })
    }
}

impl Picture {
    /// The still picture of a scene.
    pub fn of(scene: &Scene<'_>) -> Picture {
        let drawing = scene.drawing;
        let eye = Eye { view: drawing.view.value };
        let bodies: Vec<&Body> = scene.poses.iter().map(|p| &p.body).collect();
        let (Some(first), Some(last)) = (bodies.first(), bodies.last()) else { return Picture::empty() };
        let around = things::standing(scene, eye);
        let still = |body: &Body| figure(scene, body, eye, Order::of(body, eye), &around);
        let arrows = arrows(scene, eye);
        let labels = labels(drawing, last, eye);

        let mut panels: Vec<Panel> = match drawing.layout {
            Layout::Over => {
                let mut one = Panel::of(&around, still(last));
                if bodies.len() > 1 {
                    one.start = still(first);
                }
                vec![one]
            }
            Layout::Beside => bodies.iter().map(|body| Panel::of(&around, still(body))).collect(),
        };
        if let Some(end) = panels.last_mut() {
            end.arrows = arrows;
            end.labels = labels;
        }
        let bounds = Bounds::of(&panels);
        for panel in &mut panels {
            panel.still.insert(0, things::floor(bounds.low.x - MARGIN, bounds.high.x + MARGIN));
        }
        Picture::beside(panels, &bounds)
    }

    /// The last pose by itself, without the floor, arrows and labels, for a row of several figures on one floor.
    pub fn finish(scene: &Scene<'_>) -> Picture {
        let Some(last) = scene.poses.last() else { return Picture::empty() };
        let eye = Eye { view: scene.drawing.view.value };
        let around = things::standing(scene, eye);
        let panels =
            vec![Panel::of(&around, figure(scene, &last.body, eye, Order::of(&last.body, eye), &around))];
        let bounds = Bounds::of(&panels);
        Picture::beside(panels, &bounds)
    }

    /// Its poses beside or below each other, whichever shows them larger in a space that is so many times as wide as high.
    pub fn fitted(mut self, ratio: f64) -> Picture {
        let panel = DVec2::new(self.panel_width(), self.height);
        let count = self.panels.len() as f64;
        let height = panel.y * count + GAP * (count - 1.0);
        let scale = |width: f64, height: f64| (ratio / width).min(1.0 / height);
        if scale(panel.x, height) > scale(self.width, self.height) {
            for (index, one) in self.panels.iter_mut().enumerate() {
                one.shift = DVec2::new(0.0, index as f64 * (panel.y + GAP));
            }
            (self.width, self.height) = (panel.x, height);
        }
        self
    }

    /// How far below the floor it ends.
    pub fn below_floor(&self) -> f64 {
        self.top + self.height
    }

    /// The width of one pose where all stand beside each other: all have the same.
    pub(super) fn panel_width(&self) -> f64 {
        let count = self.panels.len().max(1) as f64;
        (self.width - GAP * (count - 1.0)) / count
    }

    /// True for poses that are wider than high, which stand below each other where a page is narrow.
    pub fn is_wide(&self) -> bool {
        self.panel_width() > self.height * 1.15
    }

    /// Panels of the same bounds in a row.
    fn beside(mut panels: Vec<Panel>, bounds: &Bounds) -> Picture {
        let size = bounds.high - bounds.low + DVec2::splat(MARGIN * 2.0);
        let count = panels.len() as f64;
        for (index, panel) in panels.iter_mut().enumerate() {
            panel.shift = DVec2::new(index as f64 * (size.x + GAP), 0.0);
        }
        Picture {
            left: bounds.low.x - MARGIN,
            top: bounds.low.y - MARGIN,
            width: size.x * count + GAP * (count - 1.0),
            height: size.y,
            panels,
        }
    }

    fn empty() -> Picture {
        Picture { left: 0.0, top: 0.0, width: 1.0, height: 1.0, panels: Vec::new() }
    }
}

impl Panel {
    fn of(around: &Things, figure: Vec<Shape>) -> Panel {
        Panel {
            shift: DVec2::ZERO,
            still: around.behind.clone(),
            start: Vec::new(),
            figure,
            arrows: Vec::new(),
            labels: Vec::new(),
        }
    }
}

fn figure(scene: &Scene<'_>, body: &Body, eye: Eye, order: Order, around: &Things) -> Vec<Shape> {
    let grips = scene.drawing.props.iter().any(|p| matches!(p.thing.value, Thing::Weights | Thing::Band));
    let Person { behind, over } = person(body, eye, order, grips);
    let held = things::held(scene, body, eye);
    let mut all = held.behind;
    all.extend(behind);
    all.extend(around.before.iter().cloned());
    all.extend(held.before);
    all.extend(over);
    all.extend(held.over);
    all
}

/// The bodies of a scene from its first pose to its last, step by step.
fn moments(scene: &Scene<'_>) -> Vec<Body> {
    let mut bodies: Vec<Body> = scene.poses.first().map(|p| p.body.clone()).into_iter().collect();
    for pair in scene.poses.windows(2) {
        for step in 1..=STEPS {
            bodies.push(between(&pair[0], &pair[1], step as f64 / STEPS as f64));
        }
    }
    bodies
}

fn arrows(scene: &Scene<'_>, eye: Eye) -> Vec<Arrow> {
    if scene.drawing.arrows.is_empty() {
        return Vec::new();
    }
    let bodies = moments(scene);
    let way = |point| {
        let points: Vec<DVec2> =
            bodies.iter().map(|body| eye.flat(things::seen_point(body, point, eye))).collect();
        Arrow { points: long_enough(points, &bodies.last().map_or(Vec::new(), |b| bones(b, eye))) }
    };
    scene.drawing.arrows.iter().map(|point| way(point.value)).collect()
}

/// A short way is drawn longer, so that its arrow can be seen: from where it comes, if there is room outside of the
/// body, or else on that side of it where the body is farther away.
fn long_enough(mut points: Vec<DVec2>, body: &[DVec2]) -> Vec<DVec2> {
    const LEAST: f64 = 13.0;
    const BESIDE: f64 = 10.0;
    let (Some(first), Some(last)) = (points.first().copied(), points.last().copied()) else { return points };
    let way = last - first;
    if way.length() < LEAST && way.length() > 0.5 {
        let along = way.normalize();
        let room = |here: DVec2| body.iter().map(|p| p.distance(here)).fold(f64::INFINITY, f64::min);
        let tail = last - along * LEAST;
        points = if room(tail) > BESIDE && room(tail.midpoint(last)) > BESIDE * 0.6 {
            vec![tail, last]
        } else {
            let middle = first.midpoint(last);
            let sides = [middle + along.perp() * BESIDE, middle - along.perp() * BESIDE];
            let center = if room(sides[0]) < room(sides[1]) { sides[1] } else { sides[0] };
            vec![center - along * LEAST / 2.0, center + along * LEAST / 2.0]
        };
        // None starts under the floor.
        let low = points.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
        points.iter_mut().for_each(|p| p.y -= (low + 1.0).max(0.0));
    }
    points
}

/// Points along the bones of a body.
fn bones(body: &Body, eye: Eye) -> Vec<DVec2> {
    let mut points: Vec<DVec3> = body.trunk.points.to_vec();
    points.push(body.trunk.head_at(0.0, 0.0, 0.06));
    for side in [Side::Left, Side::Right] {
        let (arm, leg) = (body.arms.of(side), body.legs.of(side));
        let chains =
            [[arm.shoulder, arm.elbow, arm.wrist, arm.tip], [leg.hip, leg.knee, leg.ankle, leg.ball()]];
        for pair in chains.iter().flat_map(|chain| chain.windows(2)) {
            points.extend([0.25, 0.5, 0.75, 1.0].map(|share| pair[0].lerp(pair[1], share)));
        }
    }
    points.into_iter().map(|p| eye.flat(p)).collect()
}

fn labels(drawing: &Drawing, body: &Body, eye: Eye) -> Vec<Mark> {
    let middle = eye.flat(body.trunk.points[1].lerp(body.trunk.points[3], 0.3));
    let mark = |(index, label): (usize, &crate::model::figure::Label)| {
        let at = eye.flat(things::seen_point(body, label.at, eye));
        let out = (at - middle).normalize_or(DVec2::X);
        let out = DVec2::new(if out.x < 0.0 { -1.0 } else { 1.0 }, out.y * 0.5).normalize();
        Mark { number: index + 1, at, disc: at + out * 19.0 }
    };
    drawing.labels.iter().enumerate().map(mark).collect()
}

/// How far the shapes of a picture reach.
struct Bounds {
    low: DVec2,
    high: DVec2,
}

impl Default for Bounds {
    fn default() -> Bounds {
        Bounds { low: DVec2::INFINITY, high: DVec2::NEG_INFINITY }
    }
}

impl Bounds {
    /// Of panels that lie over each other, and of the floor below them.
    fn of(panels: &[Panel]) -> Bounds {
        let mut bounds = Bounds::default();
        panels.iter().for_each(|panel| bounds.take_panel(panel));
        bounds.take(DVec2::ZERO);
        bounds
    }

    fn take(&mut self, point: DVec2) {
        self.low = self.low.min(point);
        self.high = self.high.max(point);
    }

    fn take_panel(&mut self, panel: &Panel) {
        for shape in panel.still.iter().chain(&panel.start).chain(&panel.figure) {
            match shape {
                Shape::Solid { parts, .. } => parts.iter().flatten().for_each(|p| self.take(*p)),
                Shape::Line { points, .. } | Shape::Band { points } => {
                    points.iter().for_each(|p| self.take(*p))
                }
                Shape::Dot { at, .. } => self.take(*at),
            }
        }
        for arrow in &panel.arrows {
            arrow.points.iter().for_each(|p| self.take(*p));
        }
        for mark in &panel.labels {
            self.take(mark.disc - DVec2::splat(DISC));
            self.take(mark.disc + DVec2::splat(DISC));
        }
    }
}
