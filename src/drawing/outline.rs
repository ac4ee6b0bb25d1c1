//! Shapes in the whole numbers that are written of them, and the points that an outline needs: a hull has as many in each
//! direction, and most of them lie on a line with their neighbors.

use glam::DVec2;

use super::canvas::Shape;

/// A point of a shape in tenths of the picture's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Spot {
    pub x: i32,
    pub y: i32,
}

/// Tenths of the picture's units.
pub(super) const FINE: f64 = 10.0;

impl Spot {
    /// The tenths nearest to a point.
    pub(super) fn of(point: DVec2) -> Spot {
        Spot { x: tenths(point.x), y: tenths(point.y) }
    }

    /// How far it is away from another, to the right and down.
    fn away(self, other: Spot) -> (i64, i64) {
        (i64::from(self.x) - i64::from(other.x), i64::from(self.y) - i64::from(other.y))
    }
}

/// Rounds to tenths. Above zero to round is to cut off, which is one step; the standard library's way calls a function, and a
/// movement has ten thousand numbers.
pub(super) fn tenths(value: f64) -> i32 {
    const ABOVE: i32 = 1 << 24;
    ((value * FINE + (f64::from(ABOVE) + 0.5)) as i32).saturating_sub(ABOVE)
}

/// The spots of a shape, part after part.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Trace {
    spots: Vec<Spot>,
    /// Where each part ends among the spots.
    ends: Vec<usize>,
}

impl Trace {
    pub(super) fn of(shape: &Shape) -> Trace {
        let mut trace = Trace::default();
        match shape {
            Shape::Solid { parts, .. } => parts.iter().for_each(|part| trace.part(part)),
            Shape::Line { points, .. } | Shape::Band { points } => trace.part(points),
            Shape::Dot { at, .. } => trace.part(&[*at]),
        }
        trace
    }

    fn part(&mut self, points: &[DVec2]) {
        self.spots.extend(points.iter().map(|point| Spot::of(*point)));
        self.ends.push(self.spots.len());
    }

    /// Where the spots of each part are.
    fn parts(&self) -> impl Iterator<Item = std::ops::Range<usize>> {
        let starts = std::iter::once(0).chain(self.ends.iter().copied());
        starts.zip(&self.ends).map(|(start, end)| start..*end)
    }

    /// True when the other has as many spots in each part, so that one can turn into the other.
    pub(super) fn matches(&self, other: &Trace) -> bool {
        self.ends == other.ends
    }

    /// The spots of each part that are kept.
    pub(super) fn kept<'t>(&'t self, kept: &'t Kept) -> impl Iterator<Item = impl Iterator<Item = Spot>> {
        self.parts().map(move |part| {
            let spots = self.spots[part.clone()].iter().zip(&kept.0[part]);
            spots.filter(|(_, kept)| **kept).map(|(spot, _)| *spot)
        })
    }
}

/// Which spots of a shape are kept.
pub(super) struct Kept(Vec<bool>);

impl Kept {
    /// Every spot of shapes that match each other.
    pub(super) fn all(shapes: &[Trace]) -> Kept {
        Kept(vec![true; spots(shapes)])
    }

    /// The spots of closed parts without which one of the shapes would be drawn further than so many tenths beside its
    /// place. All match each other.
    pub(super) fn needed(shapes: &[Trace], close: i64) -> Kept {
        let mut kept = vec![false; spots(shapes)];
        for shape in shapes {
            for part in shape.parts() {
                keep_ring(&shape.spots[part.clone()], close, &mut kept[part]);
            }
        }
        Kept(kept)
    }
}

/// How many spots each of the shapes has.
fn spots(shapes: &[Trace]) -> usize {
    shapes.first().map_or(0, |shape| shape.spots.len())
}

/// Keeps what a ring needs besides the spots of it that are kept already.
fn keep_ring(ring: &[Spot], close: i64, kept: &mut [bool]) {
    let Some(first) = ring.first() else { return };
    if !kept[0] {
        // A closed line is two: from its first point to the farthest from it, and back.
        kept[0] = true;
        if let Some(far) = (0..ring.len()).max_by_key(|at| square(ring[*at].away(*first))) {
            kept[far] = true;
        }
    }
    let mut from = 0;
    for to in 1..=ring.len() {
        if to == ring.len() || kept[to] {
            keep_between(ring, from, to, close, kept);
            from = to;
        }
    }
}

/// Keeps the spot farthest from the line between two others, if it is too far, and what is needed on both sides of it.
fn keep_between(ring: &[Spot], from: usize, to: usize, close: i64, kept: &mut [bool]) {
    let line = Segment::between(ring[from], ring[to % ring.len()]);
    let Some((at, off)) = (from + 1..to).map(|at| (at, line.off(ring[at]))).max_by_key(|(_, off)| *off)
    else {
        return;
    };
    if off > line.scaled(close) {
        kept[at] = true;
        keep_between(ring, from, at, close, kept);
        keep_between(ring, at, to, close, kept);
    }
}

/// A line from which distances are measured without a root or a division: squared, and times the square of its length.
struct Segment {
    from: Spot,
    to: Spot,
    along: (i64, i64),
    length: i64,
}

impl Segment {
    fn between(from: Spot, to: Spot) -> Segment {
        let along = to.away(from);
        // Without a length distances are those from its one point.
        Segment { from, to, along, length: square(along).max(1) }
    }

    /// How far a spot lies from it.
    fn off(&self, spot: Spot) -> i64 {
        let (x, y) = spot.away(self.from);
        let share = x * self.along.0 + y * self.along.1;
        if share <= 0 {
            square((x, y)) * self.length
        } else if share >= self.length {
            square(spot.away(self.to)) * self.length
        } else {
            let across = x * self.along.1 - y * self.along.0;
            across * across
        }
    }

    /// A distance in the measure of `off`.
    fn scaled(&self, distance: i64) -> i64 {
        distance * distance * self.length
    }
}

fn square((x, y): (i64, i64)) -> i64 {
    x * x + y * y
}

#[cfg(test)]
mod tests {
    use super::super::canvas::Tone;
    use super::*;

    fn circle(points: usize, radius: f64) -> Vec<DVec2> {
        let on = |at| DVec2::from_angle(std::f64::consts::TAU * at as f64 / points as f64) * radius;
        (0..points).map(on).collect()
    }

    fn traced(part: Vec<DVec2>) -> Trace {
        Trace::of(&Shape::Solid { tone: Tone::Skin, parts: vec![part] })
    }

    /// The spots that are kept of the one part.
    fn few(trace: &Trace, kept: &Kept) -> Vec<Spot> {
        trace.kept(kept).flatten().collect()
    }

    #[test]
    fn fewer_points_are_never_further_off_than_was_asked_for() {
        for radius in [0.5, 2.0, 4.0] {
            let rings = [traced(circle(32, radius))];
            let few = few(&rings[0], &Kept::needed(&rings, 1));
            assert!(few.len() < 32, "{radius}: {}", few.len());
            for spot in &rings[0].spots {
                let pairs = few.iter().zip(few.iter().cycle().skip(1));
                let mut lines = pairs.map(|(a, b)| Segment::between(*a, *b));
                assert!(lines.any(|line| line.off(*spot) <= line.scaled(1)), "{radius}: {spot:?} of {few:?}");
            }
        }
    }

    #[test]
    fn the_corners_of_a_box_stay() {
        let corners = vec![DVec2::ZERO, DVec2::new(9.0, 0.0), DVec2::new(9.0, 4.0), DVec2::new(0.0, 4.0)];
        let rings = [traced(corners)];
        assert_eq!(few(&rings[0], &Kept::needed(&rings, 3)), rings[0].spots);
    }

    #[test]
    fn every_moment_of_a_movement_keeps_the_points_that_one_of_them_needs() {
        let [small, large] = [1.0, 6.0].map(|radius| traced(circle(32, radius)));
        let one = few(&small, &Kept::needed(&[traced(circle(32, 1.0))], 1)).len();
        let moments = [small, large];
        let both = Kept::needed(&moments, 1);
        let [small, large] = [0, 1].map(|at| few(&moments[at], &both).len());
        assert_eq!(small, large);
        assert!(small > one);
    }

    #[test]
    fn tenths_are_the_nearest_on_both_sides_of_zero() {
        for (value, nearest) in
            [(0.0, 0), (0.04, 0), (0.06, 1), (-0.04, 0), (-0.06, -1), (-123.46, -1235), (99.94, 999)]
        {
            assert_eq!(tenths(value), nearest, "{value}");
        }
    }

    #[test]
    fn a_line_without_a_length_measures_from_its_point() {
        let spot = |x, y| Spot { x, y };
        let point = Segment::between(spot(3, 4), spot(3, 4));
        assert_eq!(point.off(spot(6, 8)), point.scaled(5));
        let line = Segment::between(spot(0, 0), spot(10, 0));
        assert_eq!([spot(5, 2), spot(-2, 0), spot(12, 0)].map(|at| line.off(at)), [line.scaled(2); 3]);
    }
}
