//! What an author wrote of a figure that changes nothing in it, and what stands where nobody meant it.

use std::cell::RefCell;

use super::Scene;
use super::points::middle;
use crate::model::figure::{Foot, Hold, Joint, Motion, Place, Point, Pose, Prop, Side, Stance, Thing, View};
use crate::model::source::Span;
use crate::model::vocabulary::{Position, Vocabulary};

/// The turns of joints that a body was drawn from.
#[derive(Clone, Debug, Default)]
pub(super) struct Heeded(RefCell<Vec<Span>>);

impl Heeded {
    pub(super) fn note(&self, turn: Span) {
        let mut turns = self.0.borrow_mut();
        if !turns.contains(&turn) {
            turns.push(turn);
        }
    }

    fn has(&self, turn: Span) -> bool {
        self.0.borrow().contains(&turn)
    }
}

/// Something written that the picture does not show.
#[derive(Clone, Debug, PartialEq)]
pub struct Idle {
    pub span: Span,
    /// The pose that says it, from 0; `None` for the figure itself.
    pub pose: Option<usize>,
    pub what: Unseen,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Unseen {
    /// A joint that is placed by something else.
    Turn { joint: Joint, sides: Vec<Option<Side>>, motion: Motion, because: Because },
    /// A field of a pose, with what it needs.
    Field(&'static str, &'static str),
    /// A field of a thing, with where that stands.
    OfThing(Thing, &'static str),
    /// An arrow of what does not move.
    Arrow(Point),
    /// A cushion that nobody lies or sits on.
    Cushion(Thing),
    /// A step that no foot stands on.
    Step,
}

/// What places a joint that the author turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Because {
    /// The foot stands on the ground.
    Stands(Side),
    /// The hand holds something.
    Holds,
    /// The position itself.
    Base,
}

impl Scene<'_> {
    /// Everything that changes nothing, in the order in which it stands in the file.
    pub fn idle(&self) -> Vec<Idle> {
        let mut all = Vec::new();
        for (index, pose) in self.drawing.poses.iter().enumerate() {
            self.idle_turns(index, pose, &mut all);
            let fields = idle_fields(index, pose).into_iter();
            all.extend(fields.map(|(span, what)| Idle { span, pose: Some(index), what }));
        }
        if let Some(faces) = self.drawing.faces.filter(|_| self.drawing.view.value != View::Side) {
            let what = Unseen::Field("faces", "`view = \"side\"`");
            all.push(Idle { span: faces.span, pose: None, what });
        }
        for prop in &self.drawing.props {
            let of_prop = self.idle_prop(prop).into_iter();
            all.extend(of_prop.map(|(span, what)| Idle { span, pose: None, what }));
        }
        for arrow in self.drawing.arrows.iter().flatten() {
            let at = |index: usize| middle(&self.poses[index].body, arrow.value);
            let moves = (1..self.poses.len()).any(|index| at(index).distance(at(index - 1)) > STILL);
            if !moves {
                all.push(Idle { span: arrow.span, pose: None, what: Unseen::Arrow(arrow.value) });
            }
        }
        all.sort_by_key(|idle| idle.span.start);
        all
    }

    /// Turns that no body was drawn from. What turns both sides counts when one of them does.
    fn idle_turns(&self, index: usize, pose: &Pose, all: &mut Vec<Idle>) {
        let settled = &self.poses[index];
        for turn in &pose.turns {
            let span = turn.degrees.span;
            let told = all.iter().any(|idle| idle.span == span);
            // One that goes over that of both sides leaves it to the other side.
            if told || self.heeded.has(span) {
                continue;
            }
            let same = pose.turns.iter().filter(|other| other.degrees.span == span);
            let because = match (turn.joint, turn.side) {
                (Joint::Hip | Joint::Knee | Joint::Ankle, Some(side))
                    if *settled.feet.of(side) != Foot::Lifted =>
                {
                    Because::Stands(side)
                }
                (Joint::Shoulder | Joint::Elbow | Joint::Wrist, Some(side))
                    if settled.holds.of(side).is_some() =>
                {
                    Because::Holds
                }
                _ => Because::Base,
            };
            let sides = same.map(|other| other.side).collect();
            let what = Unseen::Turn { joint: turn.joint, sides, motion: turn.motion, because };
            all.push(Idle { span, pose: Some(index), what });
        }
    }

    fn idle_prop(&self, prop: &Prop) -> Vec<(Span, Unseen)> {
        let thing = prop.thing.value;
        let base = |p: fn(Position) -> bool| self.drawing.poses.iter().any(|pose| p(pose.base.value));
        let sits = base(|p| p == Position::Seated);
        // Where it stands follows from who sits on it.
        let under_her = match thing {
            Thing::Chair => sits || prop.place.is_none() && !self.is_held_standing(Hold::Chair),
            thing => thing == Thing::Bed,
        };
        let soft =
            matches!(thing, Thing::Cushion | Thing::Towel | Thing::Band | Thing::Ball | Thing::Weights);
        let carried = soft || thing == Thing::Floor;
        let fields = [
            (
                "place",
                prop.place.map(|p| p.span),
                !(carried
                    || under_her
                    || thing == Thing::Step && prop.place.is_some_and(|p| p.value == Place::Behind)),
            ),
            ("distance", prop.distance.map(|d| d.span), !(carried || under_her)),
            (
                "height",
                prop.height.map(|h| h.span),
                !(carried || thing == Thing::Line || thing == Thing::Chair && !under_her),
            ),
            ("under", prop.under.map(|u| u.span), matches!(thing, Thing::Cushion | Thing::Towel)),
            (
                "between",
                prop.between.map(|b| b.span),
                matches!(thing, Thing::Cushion | Thing::Towel | Thing::Ball)
                    && prop.under.is_none()
                    && prop
                        .between
                        .is_some_and(|b| matches!(b.value, Point::Hands | Point::Feet | Point::Knees)),
            ),
            ("from", prop.from.map(|f| f.span), thing == Thing::Band),
            (
                "to",
                prop.to.map(|t| t.span),
                thing == Thing::Band
                    || matches!(thing, Thing::Ball | Thing::Cushion)
                        && prop.under.is_none()
                        && prop.between.is_none(),
            ),
        ];
        let idle = fields.into_iter().filter(|(_, _, counts)| !counts);
        let mut all: Vec<(Span, Unseen)> =
            idle.filter_map(|(field, span, _)| Some((span?, Unseen::OfThing(thing, field)))).collect();
        let unplaced = prop.to.is_none() && prop.under.is_none() && prop.between.is_none();
        let rests = base(|p| matches!(p, Position::Seated | Position::Lying | Position::SideLying));
        if thing == Thing::Cushion && unplaced && !rests {
            all.push((prop.thing.span, Unseen::Cushion(thing)));
        }
        let on_step = self.poses.iter().any(|s| [s.feet.left, s.feet.right].contains(&Foot::Step));
        if thing == Thing::Step && !on_step {
            all.push((prop.thing.span, Unseen::Step));
        }
        all
    }

    fn is_held_standing(&self, hold: Hold) -> bool {
        let standing = self.drawing.poses.iter().filter(|pose| pose.base.value == Position::Standing);
        let mut holds = standing.flat_map(|pose| [pose.holds.left, pose.holds.right]);
        holds.any(|held| held.is_some_and(|held| held.value == hold))
    }
}

/// Less is no movement: half a centimeter.
const STILL: f64 = 0.5 / super::segments::STATURE_CM;

/// The fields of a pose beside its joints that say nothing there.
fn idle_fields(index: usize, pose: &Pose) -> Vec<(Span, Unseen)> {
    let base = pose.base.value;
    let standing = base == Position::Standing;
    let stance = pose.stance.map(|s| s.value);
    let lifted = |side: Side| pose.feet.of(side).is_some_and(|foot| foot.value == Foot::Lifted);
    let both_stand = !lifted(Side::Left) && !lifted(Side::Right);
    let one_ahead = matches!(stance, Some(Stance::SemiTandem | Stance::Tandem | Stance::Step));
    let lies = matches!(base, Position::Lying | Position::Prone | Position::SideLying);
    let mut fields = vec![
        (
            "stance",
            pose.stance.map(|s| s.span),
            standing
                || base == Position::Seated
                    && matches!(stance, Some(Stance::Wide | Stance::Together | Stance::HipWidth)),
            "a standing pose",
        ),
        (
            "front_foot",
            pose.front_foot.map(|f| f.span),
            standing && one_ahead,
            "a stance with one foot ahead: `semi-tandem`, `tandem` or `step`",
        ),
        (
            "stride",
            pose.stride.map(|s| s.span),
            standing && matches!(stance, Some(Stance::Wide | Stance::Step)),
            "`stance = \"wide\"` or `stance = \"step\"`",
        ),
        ("moved", pose.moved.map(|m| m.span), standing && index > 0, "a standing pose after the first"),
        ("weight", pose.weight.map(|w| w.span), standing && both_stand, "a standing pose on both feet"),
        ("hips_raised", pose.hips_raised.map(|h| h.span), lies, "a pose that lies"),
        ("jump", pose.jump.map(|j| j.span), standing, "a standing pose"),
        ("pace", pose.pace.map(|p| p.span), index > 0, "a pose after the first"),
    ];
    for side in Side::ALL {
        let on_wall = pose.holds.of(*side).is_some_and(|hold| hold.value == Hold::Wall);
        let said = pose.hold_at.of(*side).map(|at| at.span);
        // That of both hands counts when one of them is on a wall.
        let other = pose.hold_at.of(side.other()).map(|at| at.span) == said
            && pose.holds.of(side.other()).is_some_and(|hold| hold.value == Hold::Wall);
        let twice = *side == Side::Right && pose.hold_at.left.map(|at| at.span) == said;
        fields.push(("hold_at", said.filter(|_| !twice), on_wall || other, "`hold = \"wall\"`"));
    }
    let idle = fields.into_iter().filter(|(_, _, counts, _)| !counts);
    idle.filter_map(|(field, span, _, needs)| Some((span?, Unseen::Field(field, needs)))).collect()
}
