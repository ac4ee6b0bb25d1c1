//! The digits of labels as strokes, so that they need no font and read alike on a page and on paper.

use glam::DVec2;

/// The strokes of a digit in a box of height 1, its middle at zero; digits above 9 have none.
pub(super) fn strokes(digit: usize) -> Vec<Vec<DVec2>> {
    let round = |x: f64, y: f64, rx: f64, ry: f64, from: f64, to: f64| -> Vec<DVec2> {
        (0..=12)
            .map(|i| {
                let angle = (from + (to - from) * f64::from(i) / 12.0).to_radians();
                DVec2::new(x + rx * angle.cos(), y + ry * angle.sin())
            })
            .collect()
    };
    let line = |points: &[(f64, f64)]| points.iter().map(|(x, y)| DVec2::new(*x, *y)).collect::<Vec<_>>();
    match digit {
        1 => vec![line(&[(-0.18, -0.28), (0.06, -0.5), (0.06, 0.5)])],
        2 => {
            let mut top = round(0.0, -0.22, 0.27, 0.28, -170.0, 35.0);
            top.extend(line(&[(-0.28, 0.5), (0.29, 0.5)]));
            vec![top]
        }
        3 => {
            let mut both = round(-0.02, -0.25, 0.25, 0.25, -160.0, 80.0);
            both.extend(round(-0.02, 0.23, 0.29, 0.27, -80.0, 160.0));
            vec![both]
        }
        4 => vec![line(&[(0.30, 0.2), (-0.32, 0.2), (0.12, -0.5), (0.12, 0.5)])],
        5 => {
            let mut bowl = line(&[(0.24, -0.5), (-0.20, -0.5), (-0.24, -0.08)]);
            bowl.extend(round(-0.02, 0.17, 0.30, 0.33, -120.0, 150.0));
            vec![bowl]
        }
        6 => {
            let mut curve = line(&[(0.16, -0.5), (-0.16, -0.06)]);
            curve.extend(round(0.0, 0.20, 0.28, 0.30, -170.0, 190.0));
            vec![curve]
        }
        _ => Vec::new(),
    }
}
