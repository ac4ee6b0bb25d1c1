//! Places a pose in space: from where the body touches, joint by joint, so that its weight is carried.

use glam::{DMat3, DVec3};

use super::angles::Angles;
use super::body::{Arm, Body, Leg, Root, Trunk, sign};
use super::mass;
use super::props::{self, LYING, SEATED, Standing, WRIST, held};
use super::segments::{
    ANKLE_HEIGHT, BALL, FOOT_LENGTH, FOREARM, HEEL, HIP_JOINT, HIP_WIDTH, SHANK, THIGH, TRUNK, UPPER_ARM,
};
use crate::model::figure::{Drawing, Foot, Hold, Joint, Motion, Pair, Pose, Rest, Side, Stance, Weight};
use crate::model::vocabulary::Position;

/// A pose in space, with what it could not reach.
#[derive(Clone, Debug)]
pub struct Settled {
    pub body: Body,
    /// How each foot touches.
    pub feet: Pair<Foot>,
    /// What each hand rests on.
    pub holds: Pair<Option<Hold>>,
    /// How far each hand stays from what it holds.
    pub hand_gaps: Pair<f64>,
    /// How far each foot stays from where it stands.
    pub foot_gaps: Pair<f64>,
}

/// How a head lies on its forehead when nobody speaks of the neck: lifted so far that there is room to breathe.
const FACE_DOWN: f64 = -0.5;
const SIDES: [Side; 2] = [Side::Left, Side::Right];
/// A standing knee that nobody speaks of is soft, not locked.
const SOFT_KNEE: f64 = 0.07;
/// How far the middle of a foot that carries weight lies before its ankle.
const MID_FOOT: f64 = (FOOT_LENGTH - HEEL - HEEL) / 2.0;
/// How far the middle of a knee that is knelt on stands over the ground; ours.
const KNELT: f64 = 0.034;

/// What settling a pose needs to know of its drawing.
pub(super) struct Ground<'s, 'd> {
    pub(super) drawing: &'d Drawing,
    pub(super) things: &'s [Standing<'d>],
}

impl Ground<'_, '_> {
    pub(super) fn settle(&self, pose: &Pose) -> Settled {
        match pose.base.value {
            Position::Standing => self.standing(pose),
            Position::Seated => self.seated(pose),
            Position::Kneeling => self.kneeling(pose),
            Position::HandsAndKnees => self.hands_and_knees(pose),
            Position::Lying | Position::SideLying | Position::Prone => self.lying(pose),
        }
    }

    fn rounding(&self) -> f64 {
        f64::from(self.drawing.rounded_back).to_radians()
    }

    /// The body on a pelvis whose place is known, with legs that are.
    fn above(&self, pose: &Pose, hips: DVec3, pelvis: DMat3, legs: Pair<Leg>, feet: Pair<Foot>) -> Settled {
        let angles = Angles::of(pose);
        let mut turns = angles.trunk(self.rounding());
        if angles.get(Joint::Neck, None, Motion::Flexion).is_none() {
            turns.neck_flexion = match pose.base.value {
                Position::Prone => FACE_DOWN,
                // The head stays where it lies when the hips are raised.
                Position::Lying => pelvis.z_axis.z.clamp(-1.0, 1.0).asin().abs(),
                _ => 0.0,
            };
        }
        let trunk = Trunk::on(hips, pelvis, &turns);
        let mut hand_gaps = Pair::from_fn(|_| 0.0);
        let mut holds = Pair::from_fn(|_| None);
        let arms = Pair::from_fn(|side| {
            let hold = pose.holds.of(side).map(|h| h.value).or_else(|| usual_hold(pose, side));
            *holds.of_mut(side) = hold;
            let (forward, lifted) = angles.blade(side);
            // The shoulder that is lain on gives way forward.
            let lain_on = pose.base.value == Position::SideLying && side == Side::Right;
            let shoulder = trunk.shoulder(side, forward + if lain_on { 0.6 } else { 0.0 }, lifted);
            let wanted = hold.and_then(|hold| self.wrist(pose, hold, side, &trunk, &legs, shoulder));
            match wanted {
                Some((wrist, hand)) => {
                    // Elbows hang down, a little out and back; before a wall there is no room behind them.
                    let chest = trunk.chest();
                    let (back, aside) = match hold {
                        Some(Hold::Chest) => (-0.5, 0.4),
                        _ if pose.back.is_some() => (-0.2, 1.6),
                        _ => (0.35, 0.4),
                    };
                    let pole = -chest.z_axis - chest.x_axis * back + chest.y_axis * sign(side) * aside;
                    let arm = Arm::reaching(shoulder, wrist, pole, hand);
                    *hand_gaps.of_mut(side) = arm.wrist.distance(wrist);
                    arm
                }
                None => {
                    let lies = matches!(pose.base.value, Position::Lying | Position::Prone);
                    let base = match lies {
                        true => self.lain_arm(trunk.chest(), side, shoulder),
                        false => usual_arm(pose.base.value),
                    };
                    let root = angles.root(Joint::Shoulder, side, base);
                    let usual = match lies {
                        true => 0.03,
                        false if angles.says(Joint::Shoulder, side) => 0.1,
                        false => 0.2,
                    };
                    let elbow = angles.on(Joint::Elbow, side, Motion::Flexion).unwrap_or(usual);
                    let wrist = angles.on(Joint::Wrist, side, Motion::Extension).unwrap_or(0.0);
                    Arm::turned(shoulder, trunk.chest(), side, root, elbow, wrist)
                }
            }
        });
        Settled {
            body: Body { trunk, arms, legs },
            feet,
            holds,
            hand_gaps,
            foot_gaps: Pair::from_fn(|_| 0.0),
        }
    }

    /// The turns of an arm that rests beside the body, on what the body lies on, however the hips are raised.
    fn lain_arm(&self, chest: DMat3, side: Side, shoulder: DVec3) -> Root {
        let length = UPPER_ARM + FOREARM;
        let drop = (shoulder.z - props::surface(self.drawing) - WRIST).max(0.0);
        let along = DVec3::new((length * length - drop * drop).max(0.0).sqrt(), 0.0, -drop) / length;
        Root { abduction: 0.16, ..Root::of(along, chest, side) }
    }

    fn wrist(
        &self,
        pose: &Pose,
        hold: Hold,
        side: Side,
        trunk: &Trunk,
        legs: &Pair<Leg>,
        shoulder: DVec3,
    ) -> Option<(DVec3, DVec3)> {
        let out = trunk.chest().y_axis * sign(side);
        match hold {
            Hold::Thigh => {
                let leg = legs.of(side);
                let along = leg.knee - leg.hip;
                Some((leg.hip + along * 0.55 + leg.thigh.x_axis * 0.052, along))
            }
            Hold::Hip => Some((
                trunk.hips() + trunk.pelvis().z_axis * 0.07 + out * 0.095 + trunk.pelvis().x_axis * 0.01,
                trunk.pelvis().x_axis - out * 0.8 - trunk.pelvis().z_axis * 0.3,
            )),
            // In the fold before the hip, where a hand feels it bend.
            Hold::HipCrease => {
                let thigh = legs.of(side).thigh.x_axis;
                let front = (trunk.pelvis().x_axis + thigh).normalize_or(thigh);
                Some((
                    trunk.hips() + front * 0.075 + out * 0.085 + trunk.pelvis().z_axis * 0.035,
                    -trunk.pelvis().z_axis - out * 0.9,
                ))
            }
            Hold::Chest => Some((
                trunk.shoulders() - trunk.chest().z_axis * 0.055 + trunk.chest().x_axis * 0.085 - out * 0.015,
                trunk.chest().z_axis * 0.5 - out,
            )),
            hold => {
                let ground = props::surface(self.drawing);
                held(hold, side, pose, self.drawing.view.value, self.things, shoulder, ground)
            }
        }
    }

    /// Where the ankle of a foot is that touches the ground at this height, and how the foot is turned: its sole on the
    /// ground, its heel or its toes lifted by the turn of the ankle.
    fn planted(&self, pose: &Pose, side: Side, foot: Foot, x: f64, y: f64, ground: f64) -> (DVec3, DMat3) {
        let turn = Angles::of(pose).on(Joint::Ankle, side, Motion::Plantarflexion);
        let flat = DVec3::new(x, y, ground + ANKLE_HEIGHT);
        match foot {
            Foot::Toes => {
                let foot = DMat3::from_rotation_y(turn.unwrap_or(0.6));
                let ball = flat + DVec3::new(BALL, 0.0, -ANKLE_HEIGHT);
                (ball - foot * DVec3::new(BALL, 0.0, -ANKLE_HEIGHT), foot)
            }
            Foot::Heel => {
                let foot = DMat3::from_rotation_y(turn.unwrap_or(-0.35));
                let heel = flat + DVec3::new(-HEEL, 0.0, -ANKLE_HEIGHT);
                (heel - foot * DVec3::new(-HEEL, 0.0, -ANKLE_HEIGHT), foot)
            }
            Foot::Flat | Foot::Step | Foot::Lifted => (flat, DMat3::IDENTITY),
        }
    }

    /// A leg that does not stand, with the base's turns where the author gives none.
    fn free_leg(
        &self,
        pose: &Pose,
        side: Side,
        hip: DVec3,
        pelvis: DMat3,
        base: Root,
        knee: f64,
        ankle: f64,
    ) -> Leg {
        let angles = Angles::of(pose);
        let root = angles.root(Joint::Hip, side, base);
        let knee = angles.on(Joint::Knee, side, Motion::Flexion).unwrap_or(knee);
        let ankle = angles.on(Joint::Ankle, side, Motion::Dorsiflexion).unwrap_or(ankle);
        Leg::turned(hip, pelvis, side, root, knee, ankle)
    }

    fn standing(&self, pose: &Pose) -> Settled {
        let angles = Angles::of(pose);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Flat, |f| f.value));
        let stands = |side: Side| *feet.of(side) != Foot::Lifted;
        let raised = pose.jump.map_or(0.0, |j| props::cm(j.value));
        let planted = Pair::from_fn(|side| {
            let foot = *feet.of(side);
            let (x, y) = self.foot_place(pose, side, foot);
            let ground = if foot == Foot::Step { props::step(self.drawing) } else { raised };
            self.planted(pose, side, foot, x, y, ground)
        });
        let share = Pair::from_fn(|side| match pose.weight.map(|w| w.value) {
            _ if !stands(side) => 0.0,
            _ if !stands(side.other()) => 1.0,
            Some(Weight::Left) => {
                if side == Side::Left {
                    0.92
                } else {
                    0.08
                }
            }
            Some(Weight::Right) => {
                if side == Side::Right {
                    0.92
                } else {
                    0.08
                }
            }
            Some(Weight::Even) | None => 0.5,
        });
        let under = |side: Side| match feet.of(side) {
            Foot::Toes => BALL + 0.012,
            Foot::Heel => -HEEL + 0.01,
            _ => MID_FOOT,
        };
        let carries: Vec<Side> = SIDES.into_iter().filter(|s| *share.of(*s) > 0.0).collect();
        let target = carries.iter().fold(DVec3::ZERO, |sum, side| {
            // The ankle of a foot on its toes has moved; what it stands on has not.
            let (x, y) = self.foot_place(pose, *side, *feet.of(*side));
            sum + (DVec3::new(x + under(*side), y, 0.0)) * *share.of(*side)
        });
        let knee = |side: Side| angles.on(Joint::Knee, side, Motion::Flexion).unwrap_or(SOFT_KNEE);
        let hip_bend = mean(carries.iter().filter_map(|s| angles.on(Joint::Hip, *s, Motion::Flexion)));
        // An ankle that the author turns sets the lean of the body; otherwise the weight does.
        let lean = carries.iter().find_map(|side| {
            let flat = matches!(feet.of(*side), Foot::Flat | Foot::Step);
            let said = angles.on(Joint::Ankle, *side, Motion::Dorsiflexion).filter(|_| flat);
            let lean = said.or_else(|| match hip_bend {
                Some(bend) => at_wall(pose).then(|| knee(*side) - bend),
                None => at_wall(pose).then(|| self.lean_at_wall(knee(*side))),
            })?;
            Some((*side, lean))
        });
        let mut hips = DVec3::new(target.x - 0.02, target.y, 0.0);
        let mut pitch = 0.0;
        let mut round = || {
            let pelvis = DMat3::from_rotation_y(pitch);
            let socket = |side: Side| DVec3::new(0.0, sign(side) * HIP_JOINT, 0.0);
            if let Some((side, lean)) = lean {
                let ankle = planted.of(side).0.x;
                hips.x = ankle + SHANK * lean.sin() + THIGH * (lean - knee(side)).sin();
            }
            // The hips are as high as the leg lets them that has the least to give.
            hips.z = carries.iter().fold(f64::INFINITY, |least, side| {
                let length = leg_length(knee(*side));
                let way = planted.of(*side).0 - (hips + socket(*side));
                let up = (length * length - way.x * way.x - way.y * way.y).max(0.0).sqrt();
                least.min(planted.of(*side).0.z + up)
            });
            let hips_now =
                if hips.z.is_finite() { hips } else { DVec3::new(hips.x, hips.y, leg_length(0.0)) };
            let legs = Pair::from_fn(|side| {
                let hip = hips_now + pelvis * socket(side);
                if stands(side) {
                    let (ankle, foot) = *planted.of(side);
                    let leg = Leg::reaching(hip, ankle, DVec3::X, foot);
                    let on_toes = *feet.of(side) == Foot::Toes;
                    Leg { toes: if on_toes { DMat3::IDENTITY } else { foot }, ..leg }
                } else {
                    let usual = Root { flexion: 0.45, ..Root::default() };
                    self.free_leg(pose, side, hip, pelvis, usual, 0.95, -0.05)
                }
            });
            pitch = match hip_bend {
                Some(bend) => {
                    let leans = carries.iter().map(|s| {
                        let thigh = legs.of(*s).hip - legs.of(*s).knee;
                        thigh.x.atan2(thigh.z)
                    });
                    mean(leans).unwrap_or(0.0) + bend
                }
                None => 0.0,
            };
            let now = self.above(pose, hips_now, pelvis, legs, feet);
            let off = target - mass::centre(&now.body);
            if lean.is_none() {
                hips.x += off.x * 0.9;
            }
            hips.y += off.y * 0.9;
            now
        };
        let mut settled = round();
        for _ in 1..ROUNDS {
            settled = round();
        }
        settled.foot_gaps = Pair::from_fn(|side| {
            if stands(side) { settled.body.legs.of(side).ankle.distance(planted.of(side).0) } else { 0.0 }
        });
        settled
    }

    /// How far the shin leans ahead when the back slides along a wall and the feet stay. The pose that sinks lowest has its
    /// shins upright; the others stand as far from the wall.
    fn lean_at_wall(&self, knee: f64) -> f64 {
        let poses = self.drawing.poses.iter().filter(|pose| at_wall(pose));
        let knees = poses.filter_map(|p| Angles::of(p).on(Joint::Knee, Side::Right, Motion::Flexion));
        let deepest = knees.fold(knee, f64::max);
        let behind = -THIGH * deepest.sin();
        (behind / leg_length(knee)).clamp(-1.0, 1.0).asin()
            + (THIGH * knee.sin()).atan2(SHANK + THIGH * knee.cos())
    }

    /// Where a standing foot's ankle is over the ground, from the stance.
    fn foot_place(&self, pose: &Pose, side: Side, foot: Foot) -> (f64, f64) {
        let stance = pose.stance.map_or(Stance::HipWidth, |s| s.value);
        let in_front = pose.front_foot.map_or(Side::Right, |s| s.value) == side;
        let (ahead, apart) = match stance {
            Stance::Together => (0.0, 0.029),
            Stance::HipWidth => (0.0, HIP_JOINT),
            Stance::Wide => (0.0, 0.125),
            Stance::SemiTandem => (FOOT_LENGTH * 0.68, 0.030),
            Stance::Tandem => (FOOT_LENGTH + 0.008, 0.004),
            Stance::Step => (0.20, 0.045),
        };
        let x = match foot {
            Foot::Step => props::riser(self.drawing) + HEEL + 0.02,
            _ if in_front => ahead,
            _ => 0.0,
        };
        (x, sign(side) * apart)
    }

    fn seated(&self, pose: &Pose) -> Settled {
        let angles = Angles::of(pose);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Flat, |f| f.value));
        let stands = |side: Side| *feet.of(side) != Foot::Lifted;
        let height = props::seat(self.drawing) + SEATED;
        let knee = |side: Side| angles.on(Joint::Knee, side, Motion::Flexion).unwrap_or(SQUARE);
        // The thigh that brings the foot to the ground: how far the knee drops below the hip, as an angle.
        let drop = |side: Side| {
            let (ankle, _) = self.planted(pose, side, *feet.of(side), 0.0, 0.0, 0.0);
            drop_of_thigh(height - ankle.z, knee(side))
        };
        let ahead = |side: Side| {
            let drop = drop(side);
            THIGH * drop.cos() + SHANK * (drop + knee(side)).cos()
        };
        // The standing foot of the figure is where its other poses have it: under the seat's front.
        let reference = SIDES.into_iter().rev().find(|s| stands(*s));
        let hips_x = reference.map_or(-THIGH, |side| {
            let (ankle, _) = self.planted(pose, side, *feet.of(side), 0.0, 0.0, 0.0);
            ankle.x - ahead(side)
        });
        let hips = DVec3::new(hips_x, 0.0, height);
        let bends = SIDES.into_iter().filter(|s| stands(*s) || reference.is_none());
        let bend = mean(bends.filter_map(|s| {
            angles
                .on(Joint::Hip, s, Motion::Flexion)
                .map(|h| h - SQUARE + if stands(s) { drop(s) } else { 0.0 })
        }));
        let pelvis = DMat3::from_rotation_y(bend.filter(|_| reference.is_some()).unwrap_or(0.0));
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            if stands(side) {
                let foot = *feet.of(side);
                let apart = match pose.stance.map(|s| s.value) {
                    Some(Stance::Wide) => 0.11,
                    Some(Stance::Together) => 0.029,
                    _ => HIP_JOINT,
                };
                let ankle_z = self.planted(pose, side, foot, 0.0, 0.0, 0.0).0.z;
                let (_, turned) = self.planted(pose, side, foot, 0.0, 0.0, 0.0);
                let ankle = DVec3::new(hip.x + ahead(side), sign(side) * apart, ankle_z);
                let leg = Leg::reaching(hip, ankle, DVec3::X + DVec3::Z, turned);
                Leg { toes: if foot == Foot::Toes { DMat3::IDENTITY } else { turned }, ..leg }
            } else {
                let usual = Root { flexion: SQUARE, ..Root::default() };
                self.free_leg(pose, side, hip, pelvis, usual, SQUARE, 0.0)
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }

    fn kneeling(&self, pose: &Pose) -> Settled {
        let angles = Angles::of(pose);
        let ground = props::surface(self.drawing);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Toes, |f| f.value));
        let half = SIDES.into_iter().find(|s| *feet.of(*s) == Foot::Flat);
        let knelt = SIDES.into_iter().find(|s| Some(*s) != half).unwrap_or(Side::Right);
        let knee = angles.on(Joint::Knee, knelt, Motion::Flexion).unwrap_or(SQUARE);
        let back = SQUARE - knee;
        let hips = DVec3::new(THIGH * back.sin(), 0.0, ground + KNELT + THIGH * back.cos());
        let bend = angles.on(Joint::Hip, knelt, Motion::Flexion);
        let pelvis = DMat3::from_rotation_y(bend.map_or(0.0, |b| back + b));
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            if Some(side) == half {
                let ankle = DVec3::new(THIGH, hip.y, ground + ANKLE_HEIGHT);
                Leg::reaching(hip, ankle, DVec3::X + DVec3::Z, DMat3::IDENTITY)
            } else {
                let thigh = DMat3::from_rotation_y(back);
                self.knelt(hip, thigh)
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }

    /// A leg that kneels: its shank lies on the ground behind the knee.
    fn knelt(&self, hip: DVec3, thigh: DMat3) -> Leg {
        let knee = hip - thigh.z_axis * THIGH;
        let shank = DMat3::from_rotation_y(SQUARE + 0.015);
        let ankle = knee - shank.z_axis * SHANK;
        let foot = shank * DMat3::from_rotation_y(1.25);
        Leg { hip, knee, ankle, thigh, shank, foot, toes: foot }
    }

    fn hands_and_knees(&self, pose: &Pose) -> Settled {
        let angles = Angles::of(pose);
        let ground = props::surface(self.drawing);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Toes, |f| f.value));
        let free = |side: Side| *feet.of(side) == Foot::Lifted;
        let hips = DVec3::new(0.0, 0.0, ground + KNELT + THIGH);
        // Straight arms from the hands up carry the shoulders.
        let rise = (ground + WRIST + UPPER_ARM + FOREARM - 0.004 - hips.z) / TRUNK;
        let bend = angles.get(Joint::Spine, None, Motion::Flexion).unwrap_or(0.0);
        let pitch = SQUARE - rise.clamp(-0.9, 0.9).asin() - bend * 0.5;
        let pelvis = DMat3::from_rotation_y(pitch);
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            if free(side) {
                self.free_leg(pose, side, hip, pelvis, Root::default(), 0.0, -0.5)
            } else {
                self.knelt(hip, DMat3::IDENTITY)
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }

    fn lying(&self, pose: &Pose) -> Settled {
        let angles = Angles::of(pose);
        let base = pose.base.value;
        let ground = props::surface(self.drawing);
        let flat = |side: Side| pose.feet.of(side).is_some_and(|f| f.value == Foot::Flat);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Lifted, |f| f.value));
        let raised = pose.hips_raised.map_or(0.0, |h| props::cm(h.value));
        // The shoulders stay where they lie when the hips are raised.
        let tilt = (raised / TRUNK).clamp(-0.9, 0.9).asin();
        let (pelvis, over) = match base {
            Position::Lying => (DMat3::from_cols(DVec3::Z, DVec3::Y, -DVec3::X), LYING),
            Position::Prone => (DMat3::from_cols(-DVec3::Z, -DVec3::Y, -DVec3::X), LYING),
            // Seen from the front: the head to the left of the picture, the left side up.
            _ => (DMat3::from_cols(DVec3::X, DVec3::Z, -DVec3::Y), HIP_WIDTH / 2.0 + 0.022),
        };
        let pelvis = if base == Position::Lying { DMat3::from_rotation_y(-tilt) * pelvis } else { pelvis };
        let shoulders_x = -TRUNK;
        let hips_x = match base {
            Position::Lying => shoulders_x + TRUNK * tilt.cos(),
            // Who sits on the edge of the bed in another pose lies where she sat.
            Position::SideLying if sits(self.drawing) => -THIGH - 0.04,
            _ => 0.0,
        };
        let hips = DVec3::new(hips_x, 0.0, ground + over + raised);
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            let knee = angles.on(Joint::Knee, side, Motion::Flexion);
            if flat(side) && base == Position::Lying {
                // The foot stands where the knee's bend has it while the hips lie.
                let length = leg_length(knee.unwrap_or(1.75));
                let down = LYING - ANKLE_HEIGHT;
                let ankle_x = (length * length - down * down).max(0.0).sqrt();
                let ankle = DVec3::new(ankle_x, hip.y, ground + ANKLE_HEIGHT);
                Leg::reaching(hip, ankle, DVec3::Z, DMat3::IDENTITY)
            } else {
                let (root, knee, ankle) = match base {
                    Position::SideLying => (Root { flexion: 0.7, ..Root::default() }, 1.2, -0.2),
                    Position::Prone => (Root { flexion: 0.06, ..Root::default() }, 0.03, -0.9),
                    // Straight legs lie on their heels.
                    _ => (Root { flexion: -0.02, ..Root::default() }, 0.02, -0.25),
                };
                self.free_leg(pose, side, hip, pelvis, root, knee, ankle)
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }
}

fn sits(drawing: &Drawing) -> bool {
    drawing.poses.iter().any(|pose| pose.base.value == Position::Seated)
}

fn at_wall(pose: &Pose) -> bool {
    pose.base.value == Position::Standing && pose.back.is_some_and(|b| b.value == Rest::Wall)
}

const SQUARE: f64 = std::f64::consts::FRAC_PI_2;
/// Each round brings the centre of mass ten times nearer to where the feet carry it.
const ROUNDS: usize = 9;

/// From the hip to the ankle of a leg whose knee is bent so far.
fn leg_length(knee: f64) -> f64 {
    (THIGH * THIGH + SHANK * SHANK + 2.0 * THIGH * SHANK * knee.cos()).sqrt()
}

/// How far the knee drops below a hip that is `over` above the ankle, as the angle of the thigh below the level, for a
/// knee that is bent so far.
fn drop_of_thigh(over: f64, knee: f64) -> f64 {
    let height = |t: f64| THIGH * t.sin() + SHANK * (t + knee).sin();
    let (mut low, mut high) = (-1.3_f64, 1.3_f64);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if height(middle) < over { low = middle } else { high = middle }
    }
    (low + high) / 2.0
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = values.fold((0.0, 0), |(sum, count), v| (sum + v, count + 1));
    (count > 0).then(|| sum / f64::from(count))
}

/// What a hand rests on that nobody speaks of.
fn usual_hold(pose: &Pose, side: Side) -> Option<Hold> {
    let angles = Angles::of(pose);
    let said = angles.says(Joint::Shoulder, side) || angles.says(Joint::Elbow, side);
    match pose.base.value {
        _ if said => None,
        Position::Seated => Some(Hold::Thigh),
        Position::HandsAndKnees => Some(Hold::Floor),
        _ => None,
    }
}

fn usual_arm(base: Position) -> Root {
    match base {
        Position::SideLying => Root { flexion: 1.1, ..Root::default() },
        _ => Root { flexion: 0.05, abduction: 0.12, outward: 0.0 },
    }
}
