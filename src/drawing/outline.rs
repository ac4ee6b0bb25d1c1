//! The points that an outline needs: a hull has as many in each direction, and most of them lie on a line with their
//! neighbors.

use glam::DVec2;

use super::canvas::Shape;

/// Which points of each part of a shape are kept.
pub(super) struct KeptPoints(Vec<Vec<bool>>);

impl KeptPoints {
    /// The points of a part that are kept.
    pub(super) fn of(&self, part: usize, points: &[DVec2]) -> Vec<DVec2> {
        let is_kept = |at: usize| self.0.get(part).and_then(|kept| kept.get(at)).is_none_or(|kept| *kept);
        points.iter().enumerate().filter(|(at, _)| is_kept(*at)).map(|(_, point)| *point).collect()
    }
}

/// The points without which one of the shapes would be drawn further than `close` beside its place. All have the same
/// parts.
pub(super) fn kept(shapes: &[&Shape], close: f64) -> KeptPoints {
    let mut all: Vec<Vec<bool>> = Vec::new();
    for shape in shapes {
        let Shape::Solid { parts, .. } = shape else { continue };
        all.resize(parts.len().max(all.len()), Vec::new());
        for (kept, part) in all.iter_mut().zip(parts) {
            kept.resize(part.len().max(kept.len()), false);
            keep_ring(part, close, kept);
        }
    }
    KeptPoints(all)
}

/// A closed line is two: from its first point to the farthest from it, and back.
fn keep_ring(points: &[DVec2], close: f64, kept: &mut [bool]) {
    let Some(first) = points.first() else { return };
    let far = farthest(points, |point| point.distance(*first)).map_or(0, |(at, _)| at);
    kept[0] = true;
    kept[far] = true;
    let ring: Vec<DVec2> = points.iter().copied().chain([*first]).collect();
    let mut open = vec![(0, far), (far, ring.len() - 1)];
    while let Some((from, to)) = open.pop() {
        if to <= from + 1 {
            continue;
        }
        let aside = |point: DVec2| distance(point, ring[from], ring[to]);
        if let Some((at, away)) = farthest(&ring[from + 1..to], aside)
            && away > close
        {
            let middle = from + 1 + at;
            kept[middle] = true;
            open.extend([(from, middle), (middle, to)]);
        }
    }
}

fn farthest(points: &[DVec2], measure: impl Fn(DVec2) -> f64) -> Option<(usize, f64)> {
    let measured = points.iter().map(|point| measure(*point)).enumerate();
    measured.max_by(|one, other| one.1.total_cmp(&other.1))
}

/// From a point to the line between two others.
fn distance(point: DVec2, from: DVec2, to: DVec2) -> f64 {
    let along = to - from;
    let share = (point - from).dot(along) / along.length_squared().max(f64::MIN_POSITIVE);
    point.distance(from + along * share.clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::super::canvas::Tone;
    use super::*;

    fn circle(points: usize, radius: f64) -> Vec<DVec2> {
        let on = |at| DVec2::from_angle(std::f64::consts::TAU * at as f64 / points as f64) * radius;
        (0..points).map(on).collect()
    }

    fn solid(part: Vec<DVec2>) -> Shape {
        Shape::Solid { tone: Tone::Skin, parts: vec![part] }
    }

    #[test]
    fn fewer_points_are_never_further_off_than_was_asked_for() {
        for radius in [0.5, 2.0, 4.0] {
            let ring = circle(32, radius);
            let shape = solid(ring.clone());
            let few = kept(&[&shape], 0.1).of(0, &ring);
            assert!(few.len() < ring.len(), "{radius}: {}", few.len());
            for point in &ring {
                let pairs = few.iter().zip(few.iter().cycle().skip(1));
                let off = pairs.map(|(a, b)| distance(*point, *a, *b)).fold(f64::INFINITY, f64::min);
                assert!(off <= 0.1, "{radius}: {off}");
            }
        }
    }

    #[test]
    fn the_corners_of_a_box_stay() {
        let corners = vec![DVec2::ZERO, DVec2::new(9.0, 0.0), DVec2::new(9.0, 4.0), DVec2::new(0.0, 4.0)];
        assert_eq!(kept(&[&solid(corners.clone())], 0.3).of(0, &corners), corners);
    }

    #[test]
    fn every_moment_of_a_movement_keeps_the_points_that_one_of_them_needs() {
        let (small, large) = (circle(32, 1.0), circle(32, 6.0));
        let one = kept(&[&solid(small.clone())], 0.1).of(0, &small).len();
        let both = kept(&[&solid(small.clone()), &solid(large.clone())], 0.1);
        assert_eq!(both.of(0, &small).len(), both.of(0, &large).len());
        assert!(both.of(0, &small).len() > one);
    }
}
