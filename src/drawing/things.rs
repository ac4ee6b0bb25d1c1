//! The things of a picture: what the figure stands at, sits on and holds.

use glam::{DVec2, DVec3};

use super::canvas::{Eye, Shape, Tone, ball};
use crate::model::figure::{Place, Point, Prop, Side, Thing, View};
use crate::reckon::figure::{Body, PlacedThing, Scene, Solid, middle, point, points};

/// The shapes of the things, in three layers.
#[derive(Default)]
pub(super) struct Things {
    /// Behind the person.
    pub behind: Vec<Shape>,
    /// Between her far side and the rest of her.
    pub amid: Vec<Shape>,
    /// Before her legs and trunk, under her arms.
    pub before: Vec<Shape>,
    /// Over her hands.
    pub over: Vec<Shape>,
}

/// The things that stand in the picture.
pub(super) fn standing(scene: &Scene<'_>, eye: Eye) -> Things {
    let mut layers = Things::default();
    for thing in &scene.things {
        let front = eye.view == View::Front;
        let ahead = thing.place == Place::Ahead;
        match thing.thing {
            Thing::Counter => {
                let shapes = counter(thing, eye);
                if front && ahead { layers.before.extend(shapes) } else { layers.behind.extend(shapes) }
            }
            Thing::Rail => {
                let shapes = rail(thing, eye);
                if front && ahead { layers.before.extend(shapes) } else { layers.behind.extend(shapes) }
            }
            Thing::Wall => layers.behind.extend(wall(thing, eye)),
            Thing::Chair => {
                layers.before.extend(chair_arms(thing, eye));
                let shapes = chair(thing, eye);
                if front && ahead && !sat_on(scene) {
                    layers.before.extend(shapes)
                } else {
                    layers.behind.extend(shapes)
                }
            }
            Thing::Bed => layers.behind.extend(bed(thing, eye)),
            Thing::Line => layers.behind.extend(line(thing, eye)),
            Thing::Step => {
                layers.behind.extend(thing.parts.iter().map(|part| plain(Tone::Thing, part, eye)));
            }
            _ => {}
        }
    }
    layers
}

fn sat_on(scene: &Scene<'_>) -> bool {
    use crate::model::vocabulary::Position;
    scene.drawing.poses.iter().any(|p| p.base.value == Position::Seated)
}

fn plain(tone: Tone, part: &Solid, eye: Eye) -> Shape {
    Shape::Solid { tone, parts: vec![eye.rectangle(part.low, part.high)] }
}

fn counter(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let front = eye.view == View::Front;
    let mut shapes = Vec::new();
    if let [top, body] = &thing.parts[..] {
        if front && matches!(thing.place, Place::Ahead | Place::Behind) {
            // Seen across its front it would hide the legs: only its top is drawn, and its ends on the floor.
            let narrow = Solid {
                low: DVec3::new(top.low.x, top.low.y + 0.16, top.low.z),
                high: DVec3::new(top.high.x, top.high.y - 0.16, top.high.z),
            };
            for y in [narrow.low.y + 0.015, narrow.high.y - 0.015] {
                let (from, to) = (DVec3::new(0.0, y, 0.0), DVec3::new(0.0, y, top.low.z));
                shapes.push(Shape::Line { points: vec![eye.flat(from), eye.flat(to)], strong: true });
            }
            shapes.push(plain(Tone::Thing, &narrow, eye));
        } else {
            shapes.push(plain(Tone::Thing, body, eye));
            shapes.push(plain(Tone::Thing, top, eye));
        }
    }
    shapes
}

fn rail(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let Some(bar) = thing.parts.first() else { return Vec::new() };
    let seen_along = matches!((eye.view, thing.place), (View::Side, Place::Ahead | Place::Behind))
        || matches!((eye.view, thing.place), (View::Front, Place::Left | Place::Right));
    let post = |x: f64, y: f64| {
        let low = DVec3::new(x, y, 0.0) - DVec3::new(0.008, 0.008, 0.0);
        Solid { low, high: DVec3::new(x + 0.008, y + 0.008, bar.low.z) }
    };
    let middle = bar.low.midpoint(bar.high);
    let posts = if seen_along {
        vec![post(middle.x, middle.y)]
    } else if eye.view == View::Side {
        vec![post(bar.low.x + 0.04, middle.y), post(bar.high.x - 0.04, middle.y)]
    } else {
        vec![post(middle.x, bar.low.y + 0.2), post(middle.x, bar.high.y - 0.2)]
    };
    let mut shapes: Vec<Shape> = posts.iter().map(|p| plain(Tone::Thing, p, eye)).collect();
    let bar = match (eye.view, thing.place) {
        (View::Front, Place::Ahead | Place::Behind) => Solid {
            low: DVec3::new(bar.low.x, bar.low.y + 0.16, bar.low.z),
            high: DVec3::new(bar.high.x, bar.high.y - 0.16, bar.high.z),
        },
        _ => *bar,
    };
    let bar = match eye.view {
        View::Side => Solid { low: bar.low.with_y(0.0), high: bar.high.with_y(0.0) },
        View::Front | View::Above => bar,
    };
    let ends = [bar.low + DVec3::splat(0.012), bar.high - DVec3::splat(0.012)];
    shapes.push(Shape::Solid { tone: Tone::Thing, parts: vec![eye.hull(&ends.map(|e| ball(e, 0.014)))] });
    shapes
}

/// A wall from its side, or a piece of it with its skirting behind a figure that is seen from the front.
fn wall(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let Some(part) = thing.parts.first() else { return Vec::new() };
    if eye.view == View::Side || matches!(thing.place, Place::Left | Place::Right) {
        return vec![plain(Tone::Thing, part, eye)];
    }
    let piece = |top: f64| Solid {
        low: DVec3::new(part.low.x, part.low.y + 0.08, 0.0),
        high: DVec3::new(part.high.x, part.high.y - 0.08, top),
    };
    vec![plain(Tone::Thing, &piece(part.high.z), eye), plain(Tone::Thing, &piece(0.055), eye)]
}

/// A mattress on its frame.
fn bed(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let Some(mattress) = thing.parts.first() else { return Vec::new() };
    let (from, to) = match eye.view {
        View::Side => (mattress.low.x, mattress.high.x),
        View::Front | View::Above => (mattress.low.y, mattress.high.y),
    };
    let post = |at: f64| match eye.view {
        View::Side => {
            Solid { low: DVec3::new(at, 0.0, 0.0), high: DVec3::new(at + 0.03, 0.0, mattress.low.z) }
        }
        View::Front | View::Above => {
            let x = if eye.view == View::Above { mattress.high.x } else { 0.0 };
            Solid { low: DVec3::new(x, at, 0.0), high: DVec3::new(x, at + 0.03, mattress.low.z) }
        }
    };
    if eye.view == View::Above {
        // Its top, and its front below that.
        let top = Solid { low: mattress.low.with_z(mattress.high.z), ..*mattress };
        let front = Solid { low: mattress.low.with_x(mattress.high.x), ..*mattress };
        let parts = [post(from + 0.05), post(to - 0.08), front, top];
        return parts.iter().map(|part| plain(Tone::Thing, part, eye)).collect();
    }
    [post(from + 0.05), post(to - 0.08), *mattress].iter().map(|part| plain(Tone::Thing, part, eye)).collect()
}

/// A strip on the floor. Where the floor is a line, it comes toward the eye below it.
fn line(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let Some(strip) = thing.parts.first() else { return Vec::new() };
    let across = matches!(thing.place, Place::Ahead | Place::Behind);
    let toward = match (eye.view, across) {
        (View::Above, _) => return vec![plain(Tone::Held, strip, eye)],
        // Seen along its length, it comes nearer; seen across, it lies along the floor.
        (View::Side, true) | (View::Front, false) => true,
        (View::Side, false) | (View::Front, true) => false,
    };
    let (a, b) = (eye.flat(strip.low.with_z(0.0)), eye.flat(strip.high.with_z(0.0)));
    let (low, high) = match (eye.view, toward) {
        (View::Side, true) => {
            let middle = eye.flat(strip.low.midpoint(strip.high).with_y(0.0).with_z(0.0)).x;
            (middle - LINE_SEEN, middle + LINE_SEEN)
        }
        (View::Front, true) => {
            let middle = (a.x + b.x) / 2.0;
            (middle - LINE_SEEN, middle + LINE_SEEN)
        }
        _ => (a.x.min(b.x), a.x.max(b.x)),
    };
    let (deep, lean) = if toward { (8.0, 2.6) } else { (2.5, 0.0) };
    let outline = vec![
        DVec2::new(low, 0.6),
        DVec2::new(high, 0.6),
        DVec2::new(high - lean, deep),
        DVec2::new(low - lean, deep),
    ];
    vec![Shape::Solid { tone: Tone::Held, parts: vec![outline] }]
}

/// Half of the width of a line on the floor that is seen along its length.
const LINE_SEEN: f64 = 2.0;

fn chair(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let [seat, back, ..] = &thing.parts[..] else { return Vec::new() };
    let thick = 0.016;
    let leg = |x: f64, y: f64, up: f64| {
        let low = DVec3::new(x, y, 0.0);
        Solid { low, high: DVec3::new(x + thick, y + thick, up) }
    };
    let mut shapes = Vec::new();
    for x in [seat.low.x, seat.high.x - thick] {
        for y in [seat.low.y, seat.high.y - thick] {
            let side = eye.view == View::Side;
            // Legs behind each other are drawn once.
            if (side && y == seat.low.y) || (!side && x > seat.low.x) {
                shapes.push(plain(Tone::Thing, &leg(x, y, seat.low.z), eye));
            }
        }
    }
    match eye.view {
        View::Side => shapes.push(plain(Tone::Thing, back, eye)),
        View::Front | View::Above => {
            let inner = Solid {
                low: back.low + DVec3::new(0.0, 0.03, 0.12),
                high: back.high - DVec3::new(0.0, 0.03, 0.0),
            };
            for y in [back.low.y, back.high.y - thick] {
                let post = Solid {
                    low: DVec3::new(back.low.x, y, back.low.z),
                    high: DVec3::new(back.high.x, y + thick, back.high.z),
                };
                shapes.push(plain(Tone::Thing, &post, eye));
            }
            shapes.push(plain(Tone::Thing, &inner, eye));
        }
    }
    shapes.push(plain(Tone::Thing, seat, eye));
    shapes
}

/// The arms of a chair, as far as they stand before the person: the near one from the side, both from the front.
fn chair_arms(thing: &PlacedThing<'_>, eye: Eye) -> Vec<Shape> {
    let near = |arm: &&Solid| eye.view != View::Side || eye.depth(arm.low.midpoint(arm.high)) < 0.0;
    let arms = thing.parts.iter().skip(2).filter(near);
    arms.flat_map(|arm| {
        let seat = thing.parts.first().map_or(0.0, |s| s.high.z);
        let front = arm.high.x - 0.035;
        let post = match eye.view {
            View::Side => {
                Solid { low: DVec3::new(front, 0.0, seat), high: DVec3::new(front + 0.016, 0.0, arm.low.z) }
            }
            View::Front | View::Above => {
                let middle = arm.low.midpoint(arm.high).y;
                Solid {
                    low: DVec3::new(0.0, middle - 0.008, seat),
                    high: DVec3::new(0.0, middle + 0.008, arm.low.z),
                }
            }
        };
        let ends = [arm.low + DVec3::new(0.01, 0.01, 0.009), arm.high - DVec3::new(0.01, 0.01, 0.009)];
        let flat =
            ends.map(|e| if eye.view == View::Side { DVec3::new(e.x, 0.0, arm.low.z + 0.009) } else { e });
        [
            plain(Tone::Thing, &post, eye),
            Shape::Solid { tone: Tone::Thing, parts: vec![eye.hull(&flat.map(|e| ball(e, 0.010)))] },
        ]
    })
    .collect()
}

/// The things that one moment of the figure holds or has on its body: behind it, and over its hands.
pub(super) fn held(scene: &Scene<'_>, body: &Body, eye: Eye) -> Things {
    let mut layers = Things::default();
    for prop in &scene.drawing.props {
        match prop.thing.value {
            Thing::Weights => {
                for side in [Side::Left, Side::Right] {
                    layers.over.push(weight(body, side, eye));
                }
            }
            // What lies under her, or between her knees, is there whatever it is.
            Thing::Cushion | Thing::Towel | Thing::Ball
                if prop.under.is_some() && prop.thing.value != Thing::Ball || prop.between.is_some() =>
            {
                match (prop.under, prop.between) {
                    (Some(under), _) => layers.before.push(under_part(scene, prop, body, eye, under.value)),
                    (None, Some(between)) => layers.amid.push(between_parts(prop, body, eye, between.value)),
                    (None, None) => {}
                }
            }
            Thing::Ball => {
                let at = middle(body, prop.to.map_or(Point::Hands, |p| p.value));
                layers
                    .before
                    .push(Shape::Solid { tone: Tone::Held, parts: vec![eye.hull(&[ball(at, 0.07)])] });
            }
            Thing::Towel => layers.over.push(towel(body, eye)),
            // What runs from the hands around the back lies under the arms.
            Thing::Band if ends(scene, prop).contains(&Point::Back) => {
                layers.before.push(band(scene, prop, body, eye))
            }
            Thing::Band => layers.over.push(band(scene, prop, body, eye)),
            Thing::Cushion => layers.behind.push(cushion(scene, prop, body, eye)),
            _ => {}
        }
    }
    layers
}

/// A cushion or a rolled towel under a part of the body, on whatever that lies on.
fn under_part(scene: &Scene<'_>, prop: &Prop, body: &Body, eye: Eye, part: Point) -> Shape {
    let place = |body: &Body| match part {
        Point::Head | Point::Chin => (body.trunk.head_at(0.0, 0.0, 0.06), 0.06),
        Point::Hips => (body.trunk.hips(), 0.06),
        Point::Belly | Point::Back => (body.trunk.points[1].lerp(body.trunk.points[2], 0.4), 0.05),
        Point::Hands | Point::LeftHand | Point::RightHand => (middle(body, part), 0.015),
        part => (middle(body, part), 0.034),
    };
    let lain_on = scene.poses.iter().map(|pose| place(&pose.body));
    // It stays where the part lies on it, wherever that goes afterwards.
    let lowest = lain_on.reduce(|low, next| if next.0.z < low.0.z - 0.02 { next } else { low });
    let (at, thick) = lowest.unwrap_or_else(|| place(body));
    let ground = match part {
        Point::Hips if sat_on(scene) => crate::reckon::figure::seat(scene.drawing),
        _ => crate::reckon::figure::surface(scene.drawing),
    };
    // As much as is left between the part and the ground; what is lain on gives way.
    let (least, most, half) = match (prop.thing.value, part) {
        (Thing::Towel, _) => (0.016, 0.045, 0.03),
        (_, Point::Belly | Point::Back) => (0.022, 0.06, 0.10),
        _ => (0.022, 0.06, 0.075),
    };
    let radius = ((at.z - thick - ground) / 2.0).clamp(least, most);
    let along = match eye.view {
        View::Side => DVec3::X,
        View::Front | View::Above => DVec3::Y,
    };
    let middle = at.with_z(ground + radius);
    let ends = [middle - along * half, middle + along * half];
    Shape::Solid { tone: Tone::Held, parts: vec![eye.hull(&ends.map(|end| ball(end, radius)))] }
}

/// What she holds between her knees, feet or hands.
fn between_parts(prop: &Prop, body: &Body, eye: Eye, parts: Point) -> Shape {
    let ends = points(body, parts);
    let [Some(left), Some(right)] = [ends.first().copied(), ends.last().copied()] else {
        return Shape::Solid { tone: Tone::Held, parts: Vec::new() };
    };
    let middle = left.midpoint(right);
    let apart = left.distance(right) / 2.0;
    let round = match (prop.thing.value, parts) {
        (Thing::Ball, _) => vec![ball(middle, 0.06)],
        // A pillow lies along the shanks.
        (Thing::Cushion, Point::Knees) => {
            let along = body.legs.left.ankle.midpoint(body.legs.right.ankle) - middle;
            let along = along.normalize_or_zero();
            vec![ball(middle - along * 0.05, 0.036_f64.max(apart)), ball(middle + along * 0.10, 0.036)]
        }
        (Thing::Cushion, _) => vec![ball(middle, 0.05_f64.max(apart))],
        _ => vec![ball(middle, 0.03_f64.max(apart * 0.6))],
    };
    Shape::Solid { tone: Tone::Held, parts: vec![eye.hull(&round)] }
}

/// A small bar with round ends, across the palm.
fn weight(body: &Body, side: Side, eye: Eye) -> Shape {
    let arm = body.arms.of(side);
    let at = arm.wrist.lerp(arm.tip, 0.42);
    // Along the thigh's side in a hanging hand, across the body in a lifted one.
    let lifted = (arm.elbow_flexion() / std::f64::consts::FRAC_PI_2).clamp(0.0, 1.0);
    let chest = body.trunk.chest();
    let across = chest.x_axis.lerp(chest.y_axis, lifted).normalize_or(chest.y_axis);
    let between = |from: f64, to: f64, radius: f64| {
        eye.hull(&[ball(at + across * from, radius), ball(at + across * to, radius)])
    };
    Shape::Solid {
        tone: Tone::Held,
        parts: vec![
            between(-0.05, 0.05, 0.009),
            between(0.036, 0.056, 0.023),
            between(-0.056, -0.036, 0.023),
        ],
    }
}

fn towel(body: &Body, eye: Eye) -> Shape {
    let hand = |side: Side| body.arms.of(side).wrist.lerp(body.arms.of(side).tip, 0.42);
    let ends = [hand(Side::Left), hand(Side::Right)];
    Shape::Solid { tone: Tone::Held, parts: vec![eye.hull(&ends.map(|e| ball(e, 0.014)))] }
}

/// Where a band starts and ends: from hand to hand, unless its author says otherwise.
fn ends(scene: &Scene<'_>, prop: &Prop) -> [Point; 2] {
    let rail = scene.things.iter().any(|t| t.thing == Thing::Rail);
    let usual = if rail { [Point::Hands, Point::Hands] } else { [Point::LeftHand, Point::RightHand] };
    [prop.from.map_or(usual[0], |p| p.value), prop.to.map_or(usual[1], |p| p.value)]
}

fn band(scene: &Scene<'_>, prop: &Prop, body: &Body, eye: Eye) -> Shape {
    let [left, right] = [Point::LeftHand, Point::RightHand].map(|p| point(body, p));
    let rail = scene.things.iter().find(|t| t.thing == Thing::Rail).and_then(|t| t.parts.first());
    let way: Vec<DVec3> = match (ends(scene, prop), rail) {
        // Around a rail, when nothing says where it ends.
        ([Point::Hands, _], Some(bar)) if prop.to.is_none() => {
            let middle = bar.low.midpoint(bar.high);
            let at = |y: f64| DVec3::new(middle.x, y.clamp(bar.low.y, bar.high.y), middle.z);
            vec![left, at(left.y * 0.4), at(right.y * 0.4), right]
        }
        ([Point::Hands, Point::Back] | [Point::Back, Point::Hands], _) => {
            let chest = body.trunk.points[2].lerp(body.trunk.points[3], 0.6);
            vec![left, chest - body.trunk.chest().x_axis * 0.066, right]
        }
        ([Point::Hands, Point::Feet] | [Point::Feet, Point::Hands], _) => {
            vec![left, point(body, Point::LeftFoot), point(body, Point::RightFoot), right]
        }
        ([from, to], _) => [from, to].iter().flat_map(|p| points(body, *p)).collect(),
    };
    Shape::Band { points: way.into_iter().map(|p| eye.flat(p)).collect() }
}

/// A cushion: on the seat, under the head of a lying person, or wherever its `to` says.
fn cushion(scene: &Scene<'_>, prop: &Prop, body: &Body, eye: Eye) -> Shape {
    let seated = sat_on(scene);
    let at = prop.to.map_or(if seated { Point::Hips } else { Point::Head }, |p| p.value);
    let (middle, half) = match at {
        Point::Hips if seated => {
            let hips = scene
                .poses
                .iter()
                .zip(&scene.drawing.poses)
                .find(|(_, p)| p.base.value == crate::model::vocabulary::Position::Seated);
            let hips = hips.map_or(body.trunk.hips(), |(s, _)| s.body.trunk.hips());
            (
                DVec3::new(hips.x + 0.02, 0.0, crate::reckon::figure::seat(scene.drawing) - 0.02),
                DVec3::new(0.11, 0.11, 0.0),
            )
        }
        Point::Back => {
            (body.trunk.points[1] - body.trunk.pelvis().x_axis * 0.07, DVec3::new(0.012, 0.06, 0.06))
        }
        Point::Hips => (body.trunk.hips() - body.trunk.pelvis().x_axis * 0.07, DVec3::new(0.07, 0.07, 0.0)),
        _ => {
            // Behind the head of a body on its back, under the ear of one on its side.
            match eye.view {
                View::Side => (body.trunk.head_at(-0.074, 0.0, 0.07), DVec3::new(0.07, 0.0, 0.0)),
                View::Front | View::Above => {
                    (body.trunk.head_at(0.0, -0.082, 0.07), DVec3::new(0.0, 0.09, 0.0))
                }
            }
        }
    };
    // It lies on the ground, however far the head sinks into it.
    let thick = 0.02;
    let ground = crate::reckon::figure::surface(scene.drawing);
    let middle = if seated { middle } else { middle.with_z(middle.z.max(ground + thick)) };
    let ends = [middle - half, middle + half];
    Shape::Solid { tone: Tone::Held, parts: vec![eye.hull(&ends.map(|e| ball(e, thick)))] }
}

/// The floor, as far as the picture reaches. From above it is a line below a bed, and else there is a mat.
pub(super) fn floor(scene: &Scene<'_>, eye: Eye, from: f64, to: f64) -> Option<Shape> {
    let bed =
        scene.things.iter().find(|thing| thing.thing == Thing::Bed).and_then(|thing| thing.parts.first());
    let y = match eye.sees_floor_as_line() {
        true => 0.0,
        false => eye.flat(bed?.high.with_z(0.0)).y,
    };
    Some(Shape::Line { points: vec![DVec2::new(from, y), DVec2::new(to, y)], strong: true })
}

/// What who is seen from above lies on, where there is no bed.
pub(super) fn mat(scene: &Scene<'_>, eye: Eye) -> Option<Shape> {
    if eye.sees_floor_as_line() || scene.things.iter().any(|thing| thing.thing == Thing::Bed) {
        return None;
    }
    let ends = scene.poses.iter().flat_map(|pose| {
        let Body { trunk, legs, arms } = &pose.body;
        let limbs = [Side::Left, Side::Right].map(|side| {
            let (leg, arm) = (legs.of(side), arms.of(side));
            [leg.knee, leg.ankle, leg.toe(), arm.elbow, arm.tip]
        });
        limbs.concat().into_iter().chain([trunk.hips(), trunk.shoulders(), trunk.top()])
    });
    let none = (DVec3::INFINITY, DVec3::NEG_INFINITY);
    let (low, high) = ends.fold(none, |(low, high), point| (low.min(point), high.max(point)));
    let around = DVec3::new(0.10, 0.08, 0.0);
    let solid = Solid { low: (low - around).with_z(0.0), high: (high + around).with_z(0.0) };
    Some(plain(Tone::Thing, &solid, eye))
}

/// One of both where a pair is named: that nearer to the eye.
pub(super) fn seen_point(body: &Body, at: Point, eye: Eye) -> DVec3 {
    let all = points(body, at);
    all.into_iter().min_by(|a, b| eye.depth(*a).total_cmp(&eye.depth(*b))).unwrap_or(DVec3::ZERO)
}
