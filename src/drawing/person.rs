//! A person: what stands around the bones of a body, from the farthest shape to the nearest.
//!
//! Breadths are ours, drawn after the published widths of shoulders and hips.

use glam::DVec3;

use super::canvas::{Ball, Eye, Shape, Tone, ball};
use crate::model::figure::{Pair, Side, View};
use crate::reckon::figure::{Body, Leg, sign};

/// The shapes of a person in the order in which they are drawn: those behind the things she holds, and the hands and
/// arms that lie over them.
pub(super) struct Person {
    pub behind: Vec<Shape>,
    pub over: Vec<Shape>,
}

/// Which side of a body is farther from the eye, and whether its arms lie behind it: settled once for all moments of a
/// movement, so that their shapes can turn into each other.
#[derive(Clone, Copy, Debug)]
pub(super) struct Order {
    pub far: Side,
    pub far_arm_behind: bool,
    pub near_arm_behind: bool,
    /// Legs whose knees are lifted towards the eye.
    pub knees_before: Pair<bool>,
    pub from_behind: bool,
}

impl Order {
    pub fn of(body: &Body, eye: Eye) -> Order {
        let depth = |side: Side| eye.depth(body.arms.of(side).shoulder);
        let far = if depth(Side::Left) >= depth(Side::Right) { Side::Left } else { Side::Right };
        let chest = eye.depth(body.trunk.shoulders());
        let behind = |side: Side| {
            eye.depth(body.arms.of(side).elbow.midpoint(body.arms.of(side).wrist)) > chest + 0.02
        };
        let face = eye.depth(body.trunk.head_at(0.05, 0.0, 0.06));
        Order {
            far,
            far_arm_behind: eye.view == View::Side || behind(far),
            near_arm_behind: eye.view == View::Front && behind(far.other()),
            knees_before: Pair::from_fn(|side| {
                let leg = body.legs.of(side);
                eye.view == View::Front && eye.depth(leg.knee) < eye.depth(leg.hip) - 0.07
            }),
            from_behind: face > eye.depth(body.trunk.head_at(0.0, 0.0, 0.06)) + 0.02,
        }
    }
}

pub(super) fn person(body: &Body, eye: Eye, order: Order) -> Person {
    let (far, near) = (order.far, order.far.other());
    let side_view = eye.view == View::Side;
    let mut behind = Vec::new();
    let mut over = Vec::new();
    let mut arm = |side: Side, back: bool, behind: &mut Vec<Shape>| {
        let shapes = arm(body, side, eye, side_view && side == far);
        if back { behind.extend(shapes) } else { over.extend(shapes) }
    };
    arm(far, order.far_arm_behind, &mut behind);
    if order.near_arm_behind {
        arm(near, true, &mut behind);
    }
    let (legs_before, legs_behind): (Vec<Side>, Vec<Side>) =
        [far, near].into_iter().partition(|side| *order.knees_before.of(*side));
    for side in legs_behind {
        behind.extend(leg(body, side, eye, side_view && side == far));
    }
    behind.extend(seat(body, eye));
    behind.push(neck(body, eye));
    behind.push(chest(body, eye));
    for side in legs_before {
        behind.extend(leg(body, side, eye, false));
    }
    behind.extend(head(body, eye, order.from_behind));
    if !order.near_arm_behind {
        arm(near, false, &mut behind);
    }
    Person { behind, over }
}

fn solid(tone: Tone, parts: Vec<Vec<Ball>>, eye: Eye) -> Shape {
    Shape::Solid { tone, parts: parts.iter().map(|balls| eye.hull(balls)).collect() }
}

/// A foot in its shoe, and the trouser leg of a far leg.
fn leg(body: &Body, side: Side, eye: Eye, far: bool) -> Vec<Shape> {
    let leg = body.legs.of(side);
    let (shoe_tone, leg_tone, skin) = match far {
        true => (Tone::FarShoe, Tone::FarLegs, Tone::FarSkin),
        false => (Tone::Shoe, Tone::Legs, Tone::Skin),
    };
    let ankle =
        solid(skin, vec![vec![ball(leg.knee.lerp(leg.ankle, 0.8), 0.019), ball(leg.ankle, 0.018)]], eye);
    let mut shapes = vec![ankle, shoe(leg, shoe_tone, eye)];
    // The near leg of a side view is one piece of cloth with the seat.
    if far || eye.view == View::Front {
        shapes.push(solid(leg_tone, trouser_leg(leg), eye));
    }
    shapes
}

fn shoe(leg: &Leg, tone: Tone, eye: Eye) -> Shape {
    let at = |front: f64, left: f64, up: f64| leg.ankle + leg.foot * DVec3::new(front, left, up - 0.039);
    let balls = vec![
        ball(at(-0.021, 0.0, 0.019), 0.019),
        ball(at(-0.008, 0.0, 0.034), 0.019),
        ball(at(0.030, 0.0, 0.024), 0.019),
        ball(at(0.068, 0.008, 0.017), 0.017),
        ball(at(0.068, -0.008, 0.017), 0.017),
    ];
    let toe = leg.ball() + leg.toes * DVec3::new(0.027, 0.0, 0.013);
    let front = vec![
        ball(at(0.066, 0.008, 0.017), 0.017),
        ball(at(0.066, -0.008, 0.017), 0.017),
        ball(leg.ball() + leg.toes * DVec3::new(0.0, 0.0, 0.015), 0.015),
        ball(toe, 0.013),
    ];
    solid(tone, vec![balls, front], eye)
}

fn trouser_leg(leg: &Leg) -> Vec<Vec<Ball>> {
    let calf = leg.knee.lerp(leg.ankle, 0.32) - leg.shank.x_axis * 0.005;
    let hem = leg.knee.lerp(leg.ankle, 0.86);
    vec![
        vec![
            ball(leg.hip, 0.050),
            ball(leg.hip.lerp(leg.knee, 0.35) + leg.thigh.x_axis * 0.003, 0.046),
            ball(leg.knee, 0.034),
        ],
        vec![ball(leg.knee, 0.034), ball(calf, 0.034)],
        vec![ball(calf, 0.034), ball(hem, 0.026)],
    ]
}

/// The seat of the trousers, with the near leg in a side view.
fn seat(body: &Body, eye: Eye) -> Vec<Shape> {
    let trunk = &body.trunk;
    let at = |front: f64, left: f64, up: f64| trunk.hips() + trunk.pelvis() * DVec3::new(front, left, up);
    let mut parts = vec![vec![
        ball(at(-0.010, 0.043, 0.004), 0.052),
        ball(at(-0.010, -0.043, 0.004), 0.052),
        ball(at(0.0, 0.038, 0.055), 0.050),
        ball(at(0.0, -0.038, 0.055), 0.050),
    ]];
    if eye.view == View::Side {
        let depth = |side: Side| eye.depth(body.legs.of(side).hip);
        let near = if depth(Side::Left) < depth(Side::Right) { Side::Left } else { Side::Right };
        parts.extend(trouser_leg(body.legs.of(near)));
    }
    vec![solid(Tone::Legs, parts, eye)]
}

fn chest(body: &Body, eye: Eye) -> Shape {
    let t = &body.trunk;
    let on = |index: usize, front: f64, left: f64, up: f64| {
        t.points[index] + t.turned[index.min(2)] * DVec3::new(front, left, up)
    };
    let pair = |index: usize, front: f64, left: f64, up: f64, radius: f64| {
        [ball(on(index, front, left, up), radius), ball(on(index, front, -left, up), radius)]
    };
    let hem = pair(0, -0.003, 0.040, 0.026, 0.0575);
    let waist = pair(1, 0.004, 0.034, 0.030, 0.052);
    let ribs = pair(2, 0.006, 0.044, 0.040, 0.056);
    let breast = pair(2, 0.020, 0.036, 0.056, 0.050);
    let shoulders = [
        ball(body.arms.left.shoulder.lerp(t.shoulders(), 0.16), 0.032),
        ball(body.arms.right.shoulder.lerp(t.shoulders(), 0.16), 0.032),
    ];
    let collar = [ball(on(2, -0.002, 0.0, 0.122), 0.038)];
    let parts = vec![
        [hem, waist].concat(),
        [waist, ribs].concat(),
        [ribs, breast].concat(),
        [&ribs[..], &breast[..], &shoulders[..], &collar[..]].concat(),
    ];
    solid(Tone::Top, parts, eye)
}

fn neck(body: &Body, eye: Eye) -> Shape {
    let t = &body.trunk;
    let root = t.shoulders() - t.chest().z_axis * 0.012;
    solid(
        Tone::Skin,
        vec![vec![ball(root, 0.030), ball(t.nape, 0.029), ball(t.head_at(-0.004, 0.0, 0.03), 0.029)]],
        eye,
    )
}

/// Hair, face and ear; the face last, unless the head is seen from behind.
fn head(body: &Body, eye: Eye, from_behind: bool) -> Vec<Shape> {
    let t = &body.trunk;
    let at = |front: f64, left: f64, up: f64| t.head_at(front, left, up);
    let hair = solid(
        Tone::Hair,
        vec![
            vec![
                ball(at(-0.008, 0.0, 0.079), 0.057),
                ball(at(-0.012, 0.034, 0.068), 0.032),
                ball(at(-0.012, -0.034, 0.068), 0.032),
                ball(at(-0.028, 0.020, 0.042), 0.028),
                ball(at(-0.028, -0.020, 0.042), 0.028),
                ball(at(0.014, 0.0, 0.094), 0.040),
            ],
            vec![ball(at(-0.066, 0.0, 0.082), 0.024)],
        ],
        eye,
    );
    let face = solid(
        Tone::Skin,
        vec![
            vec![
                ball(at(0.014, 0.011, 0.068), 0.040),
                ball(at(0.014, -0.011, 0.068), 0.040),
                ball(at(0.027, 0.0, 0.087), 0.028),
                ball(at(0.004, 0.018, 0.036), 0.024),
                ball(at(0.004, -0.018, 0.036), 0.024),
                ball(at(0.030, 0.0, 0.022), 0.022),
                ball(at(0.040, 0.0, 0.017), 0.016),
            ],
            vec![
                ball(at(0.050, 0.0, 0.072), 0.006),
                ball(at(0.066, 0.0, 0.052), 0.0075),
                ball(at(0.050, 0.0, 0.046), 0.008),
            ],
        ],
        eye,
    );
    // A mark for each eye that is seen.
    let eyes = [Side::Left, Side::Right].into_iter().filter_map(|side| {
        let point = at(0.050, sign(side) * 0.019, 0.066);
        let middle = at(0.0, 0.0, 0.070);
        let toward = eye.depth(middle) - eye.depth(point);
        (toward > 0.006).then(|| Shape::Dot { at: eye.flat(point), radius: 0.62 })
    });
    let ear = [Side::Left, Side::Right].into_iter().filter_map(|side| {
        let point = at(-0.014, sign(side) * 0.052, 0.056);
        let toward = eye.depth(at(0.0, 0.0, 0.058)) - eye.depth(point);
        (toward > 0.035).then(|| {
            solid(Tone::Skin, vec![vec![ball(point, 0.011), ball(point - t.head.z_axis * 0.010, 0.008)]], eye)
        })
    });
    // A mouth, where the face looks at the eye.
    let corner = |way: f64| at(0.047, way * 0.015, 0.0275);
    let ahead = eye.depth(at(0.0, 0.0, 0.03)) - eye.depth(at(0.047, 0.0, 0.03));
    let mouth = (ahead > 0.03).then(|| Shape::Line {
        points: [corner(1.0), at(0.050, 0.0, 0.0235), corner(-1.0)].map(|p| eye.flat(p)).to_vec(),
        strong: false,
    });
    if from_behind {
        return vec![face, hair];
    }
    [hair, face].into_iter().chain(eyes).chain(mouth).chain(ear).collect()
}

fn arm(body: &Body, side: Side, eye: Eye, far: bool) -> Vec<Shape> {
    let arm = body.arms.of(side);
    let (skin, sleeve) = if far { (Tone::FarSkin, Tone::FarTop) } else { (Tone::Skin, Tone::Top) };
    let palm = arm.wrist.lerp(arm.tip, 0.42);
    let fingers = arm.wrist.lerp(arm.tip, 0.86);
    let cuff = arm.shoulder.lerp(arm.elbow, 0.74);
    let bare = vec![
        vec![ball(cuff, 0.023), ball(arm.elbow, 0.0215)],
        vec![ball(arm.elbow, 0.0215), ball(arm.elbow.lerp(arm.wrist, 0.3), 0.0215), ball(arm.wrist, 0.0145)],
        vec![ball(arm.wrist, 0.0145), ball(palm, 0.018), ball(fingers, 0.0105)],
    ];
    let cloth = vec![vec![
        ball(arm.shoulder, 0.034),
        ball(arm.shoulder.lerp(arm.elbow, 0.3), 0.031),
        ball(cuff, 0.0275),
    ]];
    vec![solid(skin, bare, eye), solid(sleeve, cloth, eye)]
}
