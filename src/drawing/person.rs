//! A person: what stands around the bones of a body, from the farthest shape to the nearest.
//!
//! Breadths are ours, drawn after the published widths of shoulders and hips.

use glam::DVec3;

use super::canvas::{Ball, Eye, Shape, Tone, ball};
use crate::model::figure::{Pair, Side};
use crate::reckon::figure::{Body, Leg, Trunk, sign};

/// The shapes of a person in the order in which they are drawn: those behind the things she holds, and the hands and
/// arms that lie over them.
pub(super) struct Person {
    /// Her far side, where she is seen edgewise.
    pub far: Vec<Shape>,
    pub behind: Vec<Shape>,
    pub over: Vec<Shape>,
}

/// What of a body lies before what, and which parts of its face are seen: settled once for all moments of a movement, so
/// that their shapes can turn into each other.
#[derive(Clone, Copy, Debug)]
pub(super) struct Order {
    far: Side,
    /// One of her sides is behind the other.
    edgewise: bool,
    arms_behind: Pair<bool>,
    /// Legs whose knees are lifted toward the eye.
    knees_before: Pair<bool>,
    eyes: Pair<bool>,
    ears: Pair<bool>,
    mouth: bool,
    from_behind: bool,
}

impl Order {
    pub(super) fn of(body: &Body, eye: Eye) -> Order {
        let t = &body.trunk;
        let depth = |side: Side| eye.depth(body.arms.of(side).shoulder);
        let far = if depth(Side::Left) >= depth(Side::Right) { Side::Left } else { Side::Right };
        let apart = eye.depth(t.hip(Side::Left)) - eye.depth(t.hip(Side::Right));
        let edgewise = apart.abs() > EDGEWISE;
        let chest = eye.depth(t.shoulders());
        // How far a point of the head lies before its middle line.
        let toward = |point: DVec3, up: f64| eye.depth(t.head_at(0.0, 0.0, up)) - eye.depth(point);
        Order {
            far,
            edgewise,
            arms_behind: Pair::from_fn(|side| match edgewise {
                true => side == far,
                false => eye.depth(body.arms.of(side).wrist) > chest + 0.02,
            }),
            knees_before: Pair::from_fn(|side| {
                let leg = body.legs.of(side);
                !edgewise && eye.depth(leg.knee) < eye.depth(leg.hip) - 0.12
            }),
            eyes: Pair::from_fn(|side| toward(eye_at(t, side), EYES) > 0.006),
            ears: Pair::from_fn(|side| toward(ear_at(t, side, 0.0, 0.0), EARS) > 0.035),
            mouth: toward(t.head_at(0.047, 0.0, 0.03), 0.03) > 0.03,
            from_behind: toward(t.head_at(0.05, 0.0, 0.06), 0.06) < -0.02,
        }
    }
}

/// So far one hip joint lies behind the other where a body is seen from one of its sides.
const EDGEWISE: f64 = 0.05;
/// How high the eyes and the ears stand over the chin.
const EYES: f64 = 0.066;
const EARS: f64 = 0.056;

fn eye_at(trunk: &Trunk, side: Side) -> DVec3 {
    trunk.head_at(0.050, sign(side) * 0.019, EYES)
}

fn ear_at(trunk: &Trunk, side: Side, front: f64, up: f64) -> DVec3 {
    trunk.head_at(front - 0.013, sign(side) * 0.051, EARS + up)
}

/// A person; `grips` makes fists of her hands.
pub(super) fn person(body: &Body, eye: Eye, order: Order, grips: bool) -> Person {
    let far = order.far;
    let edgewise = order.edgewise;
    let mut far_side = Vec::new();
    let mut behind = Vec::new();
    let mut over = Vec::new();
    let arm = |side: Side| arm(body, side, eye, edgewise && side == far, grips);
    let (back, front): (Vec<Side>, Vec<Side>) =
        [far, far.other()].into_iter().partition(|side| *order.arms_behind.of(*side));
    back.into_iter().for_each(|side| far_side.extend(arm(side)));
    let (lifted, standing): (Vec<Side>, Vec<Side>) =
        [far, far.other()].into_iter().partition(|side| *order.knees_before.of(*side));
    // Seen from her side, the far leg stands apart in its own tone.
    let (apart, together): (Vec<Side>, Vec<Side>) =
        standing.into_iter().partition(|side| edgewise && *side == far);
    for side in apart {
        far_side.extend(foot(body, side, eye, true));
        far_side.push(solid(Tone::FarLegs, trouser_leg(body.legs.of(side)), eye));
    }
    together.iter().for_each(|side| behind.extend(foot(body, *side, eye, false)));
    behind.push(trousers(body, &together, eye));
    behind.push(neck(body, eye));
    behind.push(chest(body, eye));
    for side in lifted {
        behind.extend(foot(body, side, eye, false));
        behind.push(solid(Tone::Legs, trouser_leg(body.legs.of(side)), eye));
    }
    behind.extend(head(body, eye, order));
    for side in front {
        over.extend(arm(side));
        if !edgewise {
            over.push(seam(body, side, eye));
        }
    }
    Person { far: far_side, behind, over }
}

fn solid(tone: Tone, parts: Vec<Vec<Ball>>, eye: Eye) -> Shape {
    Shape::Solid { tone, parts: parts.iter().map(|balls| eye.hull(balls)).collect() }
}

/// A foot in its shoe.
fn foot(body: &Body, side: Side, eye: Eye, far: bool) -> Vec<Shape> {
    let leg = body.legs.of(side);
    let (tone, skin) = if far { (Tone::FarShoe, Tone::FarSkin) } else { (Tone::Shoe, Tone::Skin) };
    let ankle = vec![ball(leg.knee.lerp(leg.ankle, 0.8), 0.0185), ball(leg.ankle, 0.0165)];
    vec![solid(skin, vec![ankle], eye), shoe(leg, tone, eye)]
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
    let thigh = leg.hip.lerp(leg.knee, 0.32) + leg.thigh.x_axis * 0.003;
    vec![
        vec![ball(leg.hip, 0.050), ball(thigh, 0.0465)],
        vec![ball(thigh, 0.0465), ball(leg.knee, 0.0325)],
        vec![ball(leg.knee, 0.0325), ball(calf, 0.0335)],
        vec![ball(calf, 0.0335), ball(hem, 0.0235)],
    ]
}

/// The seat of the trousers and the legs that are one piece of cloth with it.
fn trousers(body: &Body, legs: &[Side], eye: Eye) -> Shape {
    let trunk = &body.trunk;
    let at = |front: f64, left: f64, up: f64| trunk.hips() + trunk.pelvis() * DVec3::new(front, left, up);
    let mut parts = vec![vec![
        ball(at(-0.010, 0.043, 0.004), 0.052),
        ball(at(-0.010, -0.043, 0.004), 0.052),
        ball(at(0.0, 0.038, 0.055), 0.050),
        ball(at(0.0, -0.038, 0.055), 0.050),
    ]];
    legs.iter().for_each(|side| parts.extend(trouser_leg(body.legs.of(*side))));
    solid(Tone::Legs, parts, eye)
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
    // Shoulders slope from the neck.
    let shoulder =
        |side: Side| body.arms.of(side).shoulder.lerp(t.shoulders(), 0.16) - t.chest().z_axis * 0.004;
    let shoulders = [ball(shoulder(Side::Left), 0.029), ball(shoulder(Side::Right), 0.029)];
    let collar = [ball(on(2, -0.002, 0.018, 0.131), 0.031), ball(on(2, -0.002, -0.018, 0.131), 0.031)];
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

/// Hair, face and ears; the face last, unless the head is seen from behind.
fn head(body: &Body, eye: Eye, order: Order) -> Vec<Shape> {
    let t = &body.trunk;
    let at = |front: f64, left: f64, up: f64| t.head_at(front, left, up);
    let hair = solid(
        Tone::Hair,
        vec![
            vec![
                ball(at(-0.008, 0.0, 0.080), 0.057),
                ball(at(-0.012, 0.030, 0.084), 0.033),
                ball(at(-0.012, -0.030, 0.084), 0.033),
                ball(at(-0.030, 0.018, 0.044), 0.027),
                ball(at(-0.030, -0.018, 0.044), 0.027),
                ball(at(0.014, 0.0, 0.097), 0.040),
            ],
            vec![ball(at(-0.056, 0.0, 0.112), 0.025)],
        ],
        eye,
    );
    let face = solid(
        Tone::Skin,
        vec![
            vec![
                ball(at(0.014, 0.011, 0.066), 0.040),
                ball(at(0.014, -0.011, 0.066), 0.040),
                ball(at(0.027, 0.0, 0.085), 0.028),
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
    if order.from_behind {
        return vec![face, hair];
    }
    // The rim of an ear.
    let ears = [Side::Left, Side::Right].into_iter().filter(|side| *order.ears.of(*side)).map(|side| {
        let rim = [
            (0.007, 0.008),
            (-0.001, 0.013),
            (-0.009, 0.008),
            (-0.008, -0.004),
            (0.0, -0.013),
            (0.004, -0.008),
        ];
        let points = rim.map(|(front, up)| eye.flat(ear_at(t, side, front, up)));
        Shape::Line { points: points.to_vec(), strong: false }
    });
    let eyes = [Side::Left, Side::Right].into_iter().filter(|side| *order.eyes.of(*side));
    let eyes = eyes.map(|side| Shape::Dot { at: eye.flat(eye_at(t, side)), radius: 0.62 });
    let mouth = order.mouth.then(|| Shape::Line {
        points: [at(0.047, 0.015, 0.0275), at(0.050, 0.0, 0.0235), at(0.047, -0.015, 0.0275)]
            .map(|p| eye.flat(p))
            .to_vec(),
        strong: false,
    });
    [hair, face].into_iter().chain(eyes).chain(mouth).chain(ears).collect()
}

fn arm(body: &Body, side: Side, eye: Eye, far: bool, grips: bool) -> Vec<Shape> {
    let arm = body.arms.of(side);
    let (skin, sleeve) = if far { (Tone::FarSkin, Tone::FarTop) } else { (Tone::Skin, Tone::Top) };
    let along = |share: f64| arm.wrist.lerp(arm.tip, share);
    let thumb = thumb(body, side);
    let [hand, fingers, thumb] = if grips {
        [
            vec![ball(arm.wrist, 0.0135), ball(along(0.34), 0.0205)],
            vec![ball(along(0.34), 0.0205), ball(along(0.50), 0.0175)],
            vec![ball(along(0.30) + thumb * 0.010, 0.009), ball(along(0.52) + thumb * 0.014, 0.008)],
        ]
    } else {
        [
            vec![ball(arm.wrist, 0.0135), ball(along(0.26), 0.0165), ball(along(0.48), 0.0165)],
            vec![ball(along(0.48), 0.0165), ball(along(0.92), 0.0085)],
            vec![ball(along(0.20) + thumb * 0.006, 0.0095), ball(along(0.56) + thumb * 0.0225, 0.0062)],
        ]
    };
    // Fullest below the elbow, slim at the wrist.
    let forearm = arm.elbow.lerp(arm.wrist, 0.28);
    let cuff = arm.shoulder.lerp(arm.elbow, 0.70);
    let bare = vec![
        vec![ball(cuff, 0.0235), ball(arm.elbow, 0.0195)],
        vec![ball(arm.elbow, 0.0195), ball(forearm, 0.0215)],
        vec![ball(forearm, 0.0215), ball(arm.elbow.lerp(arm.wrist, 0.7), 0.0165), ball(arm.wrist, 0.0135)],
        hand,
        fingers,
        thumb,
    ];
    // The sleeve is cut wider than the arm, and its shoulder is round.
    let cloth = vec![
        vec![ball(arm.shoulder, 0.0345), ball(arm.shoulder.lerp(arm.elbow, 0.28), 0.0335)],
        vec![ball(arm.shoulder.lerp(arm.elbow, 0.28), 0.0335), ball(cuff, 0.0265)],
    ];
    vec![solid(skin, bare, eye), solid(sleeve, cloth, eye)]
}

/// Where the sleeve is one with the shirt: over the shoulder, inside of both.
fn seam(body: &Body, side: Side, eye: Eye) -> Shape {
    let arm = body.arms.of(side);
    let chest = body.trunk.chest();
    let inside = arm.shoulder.lerp(body.trunk.shoulders(), 0.42) - chest.z_axis * 0.020;
    let parts = vec![
        vec![ball(inside, 0.026), ball(arm.shoulder, 0.0285)],
        vec![ball(arm.shoulder, 0.0285), ball(arm.shoulder.lerp(arm.elbow, 0.16), 0.0285)],
    ];
    solid(Tone::Seam, parts, eye)
}

/// Where a thumb points: ahead and in from a hand that hangs, in from one that reaches. Nobody turns a forearm about its
/// length in a figure, so this is how hands are held at ease.
fn thumb(body: &Body, side: Side) -> DVec3 {
    let arm = body.arms.of(side);
    let along = (arm.tip - arm.wrist).normalize_or(-DVec3::Z);
    let chest = body.trunk.chest();
    let hangs = (-along.dot(chest.z_axis)).clamp(0.0, 1.0);
    let wanted = chest.x_axis * (0.9 * hangs) - chest.y_axis * sign(side) * (1.0 - 0.45 * hangs);
    (wanted - along * wanted.dot(along)).normalize_or_zero()
}
