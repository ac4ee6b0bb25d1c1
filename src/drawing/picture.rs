//! A drawing laid out: its poses beside each other or one over the other, with what stands around them.

use glam::DVec2;

use super::arrows::{Arrow, Said, arrows};
use super::canvas::{Eye, Shape};
use super::person::{Order, Person, person};
use super::things::{self, Things};
use crate::model::figure::{Drawing, Layout, Pace, Point, Thing};
use crate::reckon::figure::{Body, Scene};

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
    /// Which of several poses it is, and where that is said.
    pub number: Option<(usize, DVec2)>,
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
    /// How fast each pose is reached from the one before it.
    pub paces: Vec<Pace>,
}

/// Radius of a label's disc.
pub(super) const DISC: f64 = 5.2;
/// Space around everything.
const MARGIN: f64 = 3.0;
/// Between two poses.
const GAP: f64 = 9.0;
/// Into how many steps a movement from pose to pose is divided, and the way of an arrow.
const STEPS: usize = 8;
/// The same where a page has many movements.
const FEW_STEPS: usize = 4;
const STEPS_OF_ARROWS: usize = 6;

impl Motion {
    /// The movement of a scene; `None` for a single pose, and where there is no way from pose to pose.
    pub fn of(scene: &Scene<'_>) -> Option<Motion> {
        Motion::in_steps(scene, STEPS)
    }

    /// The same with fewer moments, for a page that has many movements.
    pub fn coarse(scene: &Scene<'_>) -> Option<Motion> {
        Motion::in_steps(scene, FEW_STEPS)
    }

    fn in_steps(scene: &Scene<'_>, steps: usize) -> Option<Motion> {
        let last = scene.poses.last().filter(|_| scene.poses.len() > 1)?;
        let moments = scene.moments(steps)?;
        let eye = Eye::of(scene.drawing);
        let around = things::standing(scene, eye);
        // In the order of the last pose, whose figure it is that moves.
        let order = Order::of(&last.body, eye);
        let shapes = |body: &Body| figure(scene, body, eye, order, &around);
        let paces = scene.drawing.poses.iter().skip(1);
        Some(Motion {
            moments: moments.iter().map(shapes).collect(),
            paces: paces.map(|pose| pose.pace.map_or(Pace::Steady, |pace| pace.value)).collect(),
        })
    }
}

impl Picture {
    /// The still picture of a scene.
    pub fn of(scene: &Scene<'_>) -> Picture {
        let drawing = scene.drawing;
        let eye = Eye::of(drawing);
        let bodies: Vec<&Body> = scene.poses.iter().map(|p| &p.body).collect();
        let (Some(first), Some(last)) = (bodies.first(), bodies.last()) else { return Picture::empty() };
        let around = things::standing(scene, eye);
        let still = |body: &Body| figure(scene, body, eye, Order::of(body, eye), &around);
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
            end.labels = labels;
        }
        draw_arrows(scene, eye, &mut panels);
        if let Some(mat) = things::mat(scene, eye) {
            panels.iter_mut().for_each(|panel| panel.still.insert(0, mat.clone()));
        }
        let mut bounds = Bounds::of(&panels);
        number(&mut panels, &mut bounds);
        let floor = things::floor(scene, eye, bounds.low.x - MARGIN, bounds.high.x + MARGIN);
        for panel in &mut panels {
            panel.still.splice(0..0, floor.clone());
        }
        Picture::beside(panels, &bounds)
    }

    /// The last pose by itself, without the floor, arrows and labels, for a row of several figures on one floor.
    pub fn finish(scene: &Scene<'_>) -> Picture {
        let Some(last) = scene.poses.last() else { return Picture::empty() };
        let eye = Eye::of(scene.drawing);
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
            number: None,
        }
    }
}

/// Each pose after the first has the arrows that lead to it; where the first lies under the last, all are in one.
fn draw_arrows(scene: &Scene<'_>, eye: Eye, panels: &mut [Panel]) {
    let named = scene.drawing.arrows.as_ref();
    if named.is_some_and(Vec::is_empty) || scene.poses.len() < 2 {
        return;
    }
    let poses = &scene.drawing.poses;
    let bodies = scene.path(STEPS_OF_ARROWS);
    // From which pose to which.
    let ways: Vec<(usize, usize)> = match panels.len() {
        1 => vec![(0, poses.len() - 1)],
        _ => (1..poses.len()).map(|at| (at - 1, at)).collect(),
    };
    let first = panels.len() - ways.len();
    for (panel, (from, to)) in panels[first..].iter_mut().zip(ways) {
        let said = Said {
            points: named.map(|points| points.iter().map(|point| point.value).collect::<Vec<Point>>()),
            moved: poses[to].moved.map(|moved| moved.value),
            changes: poses[from].base.value != poses[to].base.value,
        };
        let shapes: Vec<&Shape> = panel.still.iter().chain(&panel.start).chain(&panel.figure).collect();
        panel.arrows = arrows(&bodies[from * STEPS_OF_ARROWS..=to * STEPS_OF_ARROWS], eye, said, &shapes);
    }
}

/// Numbers several poses, all in the same corner: where it is free, else beside what is drawn.
fn number(panels: &mut [Panel], bounds: &mut Bounds) {
    if panels.len() < 2 {
        return;
    }
    let (low, high) = (bounds.low, bounds.high);
    let top = low.y + DISC;
    let corners = [DVec2::new(low.x + DISC, top), DVec2::new(high.x - DISC, top)];
    let is_free = |at: &DVec2| {
        panels.iter().all(|panel| {
            let marks = panel.labels.iter().map(|mark| mark.disc);
            let arrows = panel.arrows.iter().flat_map(|arrow| arrow.points.iter().copied());
            let taken = marks.chain(arrows).all(|point| point.distance(*at) > DISC * 2.0 + 1.0);
            taken && panel.figure.iter().chain(&panel.start).all(|shape| is_clear_of(shape, *at))
        })
    };
    let at = corners.into_iter().find(is_free).unwrap_or_else(|| {
        bounds.low.x -= DISC * 2.0 + 1.0;
        DVec2::new(bounds.low.x + DISC, top)
    });
    for (index, panel) in panels.iter_mut().enumerate() {
        panel.number = Some((index + 1, at));
    }
}

/// True where no part of a shape comes near the disc of a number.
fn is_clear_of(shape: &Shape, at: DVec2) -> bool {
    let Shape::Solid { parts, .. } = shape else { return true };
    parts.iter().flatten().all(|point| point.distance_squared(at) > (DISC + 1.5) * (DISC + 1.5))
}

fn figure(scene: &Scene<'_>, body: &Body, eye: Eye, order: Order, around: &Things) -> Vec<Shape> {
    let grips = scene.drawing.props.iter().any(|p| matches!(p.thing.value, Thing::Weights | Thing::Band));
    let Person { far, behind, over } = person(body, eye, order, grips);
    let held = things::held(scene, body, eye);
    let mut all = held.behind;
    all.extend(far);
    all.extend(held.amid);
    all.extend(behind);
    all.extend(around.before.iter().cloned());
    all.extend(held.before);
    all.extend(over);
    all.extend(held.over);
    all
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
