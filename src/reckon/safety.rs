//! Whether a form is safe for people with a precaution, and why not. This is the one place that decides it: the review,
//! the choice for a person, the library, the proposals and the pages all ask here.
//!
//! Each precaution is judged by itself, so what a form refuses is a set of precautions with the reasons for each.

use std::collections::BTreeMap;
use std::fmt;

use super::choice::rungs;
use super::demands::{self, Demand};
use crate::model::Model;
use crate::model::client::{Clearance, Cleared};
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Instruction};
use crate::model::form::Form;
use crate::model::site::Site;
use crate::model::source::Spanned;
use crate::model::vocabulary::{CautionLevel, Restriction};

/// A form as it is asked for: where a regression leads to it, and what the week changes of its dose.
#[derive(Clone, Copy, Debug)]
pub struct Offer<'m> {
    pub form: Form<'m>,
    /// The regression that leads to the exercise, with its own words and dose; `None` at the exercise that was asked for.
    pub link: Option<&'m Change>,
    /// What the week that asks for the exercise changes of its dose.
    pub changed: Option<&'m Dose>,
}

/// One reason why a form is not for people with a precaution, the weightiest kinds first.
#[derive(Clone, Debug)]
pub enum Why<'m> {
    /// Nothing is known of the precaution.
    Unknown { precaution: &'m str },
    /// Something in this field of the exercise could not be read, or names what is not there.
    Unread { field: &'static str },
    /// The exercise speaks of a demand that it does not ask: its list of demands may have lost it.
    Lost { demand: &'m str },
    /// It is a variation with neither steps of its own nor those of the exercise.
    Bare,
    /// A caution that belongs to the form says to stop.
    Stop { precaution: &'m str, caution: &'m Caution },
    /// The precaution says to avoid what the form asks of the body.
    Avoid { precaution: &'m str, demand: Demand<'m> },
    /// A caution that belongs to the form says to do another form.
    Instead { precaution: &'m str, caution: &'m Caution },
    /// A caution that belongs to the form says to ask first, about these demands of it.
    AskFirst { precaution: &'m str, caution: &'m Caution, about: Vec<&'m str> },
    /// The precaution says to ask about what the form asks of the body.
    Ask { precaution: &'m str, demand: Demand<'m> },
    /// The precaution says to modify it, and no caution that belongs to the form says how.
    NoCaution { precaution: &'m str, demand: Demand<'m> },
}

/// What a form refuses: precautions, each with its reasons, the weightiest first.
pub type Refusals<'m> = BTreeMap<&'m str, Vec<Why<'m>>>;

/// The precautions, of these, whose people a form is not for, each with every reason. Nothing is cleared here:
/// [`Why::lifted_by`] says which reason a clearance lifts.
pub fn refusals<'m>(offer: &Offer<'m>, precautions: &[&'m str], model: &'m Model) -> Refusals<'m> {
    let demands = offer.demands(model);
    let judged =
        precautions.iter().map(|&precaution| (precaution, offer.why_not(precaution, &demands, model)));
    judged.filter(|(_, why)| !why.is_empty()).collect()
}

/// The demands that a caution speaks of for people with a precaution: those it is about, or else the one demand of the
/// form it was written for that the precaution restricts. With several of these nobody can tell, and it speaks of none.
pub fn about<'m>(
    caution: &'m Caution,
    exercise: &'m Exercise,
    precaution: &str,
    model: &'m Model,
) -> Vec<&'m str> {
    if let Some(about) = &caution.about {
        return about.iter().map(|d| d.value.as_str()).collect();
    }
    let restricted = restricted(caution, exercise, precaution, model);
    if restricted.len() == 1 { restricted } else { Vec::new() }
}

/// The demands that a precaution restricts of the form a caution was written for: of the variation it names, else of the
/// exercise as it stands; each in its own dose.
pub fn restricted<'m>(
    caution: &Caution,
    exercise: &'m Exercise,
    precaution: &str,
    model: &'m Model,
) -> Vec<&'m str> {
    let variation = caution.form.as_ref().and_then(|form| exercise.variation(&form.value));
    let form = Form { exercise, variation };
    let is_restricted = |d: &Demand<'m>| model.site.catalogue.row(precaution, d.id).is_some();
    let demands = demands::of(&form, &form.dose(None), &model.site);
    demands.into_iter().filter(is_restricted).map(|d| d.id).collect()
}

/// True when a caution belongs to a form that asks this of the body: for everyone, to every form; else the variation it names; else the exercise as it
/// stands, and the variations that still have a demand it is about or, where it does not say, that keep the steps.
pub fn belongs(caution: &Caution, form: &Form<'_>, demands: &[Demand<'_>]) -> bool {
    if caution.form.is_some() {
        return form.is_named_by(caution);
    }
    caution.applies == Applies::Everyone
        || form.variation.is_none()
        || match &caution.about {
            Some(about) => about.iter().any(|d| demands::has(demands, &d.value)),
            None => form.keeps_steps(),
        }
}

/// The form that a caution of an exercise says to do instead: a variation of it, or an exercise below it on its ladder.
/// `None` where it names none, or what is not there.
pub fn instead<'m>(caution: &'m Caution, exercise: &'m Exercise, model: &'m Model) -> Option<Offer<'m>> {
    let name = &caution.instead.as_ref()?.value;
    if let Some(variation) = exercise.variation(name) {
        let form = Form { exercise, variation: Some(variation) };
        return Some(Offer { form, link: None, changed: None });
    }
    let below = rungs(exercise, model).into_iter().skip(1);
    let (easier, link) = below.into_iter().find(|(rung, _)| rung.id == *name)?;
    Some(Offer { form: Form::base(easier), link, changed: None })
}

/// Why a form is for nobody, whatever the precautions. A field of its exercise could not all be read, although the forms
/// are safe only if it was; or the exercise speaks of a demand that it does not ask; or it is a variation without
/// instruction, and what she would be given is a sentence.
pub fn against_all<'m>(form: &Form<'m>, site: &Site) -> Vec<Why<'m>> {
    let mut why: Vec<Why<'m>> = unsound(form.exercise).map(|field| Why::Unread { field }).collect();
    // Of what could not be read nobody knows what it asks.
    if why.is_empty() {
        let lost = demands::lost(form.exercise, site);
        why.extend(
            lost.removed.into_iter().chain(lost.about).map(|demand| Why::Lost { demand: &demand.value }),
        );
    }
    why.extend(form.variation.filter(|v| v.instruction == Instruction::Bare).map(|_| Why::Bare));
    why
}

/// True when all could be read that decides for whom the forms of an exercise are, and where its regressions lead. Of any
/// other nothing can be concluded.
pub fn is_readable(exercise: &Exercise) -> bool {
    unsound(exercise).next().is_none() && exercise.standing.is_sound("regression")
}

fn unsound(exercise: &Exercise) -> impl Iterator<Item = &'static str> {
    SAFE_FIELDS.into_iter().filter(|field| !exercise.standing.is_sound(field))
}

/// The component is among them: it says whether a hold is effort.
const SAFE_FIELDS: [&str; 8] =
    ["demands", "variation", "caution", "position", "surface", "figure", "dose", "component"];

impl<'m> Offer<'m> {
    /// The exercise as it stands, or as a week uses it.
    pub fn base(exercise: &'m Exercise, changed: Option<&'m Dose>) -> Offer<'m> {
        Offer { form: Form::base(exercise), link: None, changed }
    }

    /// Its dose: that of the exercise as the week uses it, then what the regression that led to it and the variation
    /// change.
    pub fn dose(&self) -> Dose {
        let form = self.form;
        let own = Form::base(form.exercise).dose(self.changed);
        let changes = self.link.and_then(|link| link.dose.as_ref());
        let changes = changes.into_iter().chain(form.variation.and_then(|v| v.dose.as_ref()));
        changes.fold(own, |dose, change| dose.overridden_by(change))
    }

    /// What it asks of the body, each demand once. What a regression to the exercise adds counts too; what the regression
    /// removes takes away nothing that the exercise says of itself.
    pub fn demands(&self, model: &Model) -> Vec<Demand<'m>> {
        let mut all = demands::of(&self.form, &self.dose(), &model.site);
        let linked: &'m [Spanned<String>] = self.link.map_or(&[], |link| &link.adds);
        for added in linked.iter().filter(|d| !self.form.exercise.declares(&d.value)) {
            if !demands::has(&all, &added.value) {
                all.push(Demand { id: &added.value, from: demands::Origin::Declared(added) });
            }
        }
        all
    }

    /// The cautions that belong to it and concern people with these precautions, those for everyone among them, the
    /// strictest first.
    pub fn cautions(&self, precautions: &[&str], model: &Model) -> Vec<&'m Caution> {
        let demands = self.demands(model);
        let concerns = |c: &&Caution| {
            let hers = c.applies == Applies::Everyone || precautions.iter().any(|p| c.names(p));
            hers && belongs(c, &self.form, &demands)
        };
        let mut cautions: Vec<&Caution> = self.form.exercise.cautions.iter().filter(concerns).collect();
        cautions.sort_by_key(|c| c.strictness());
        cautions
    }

    /// Every reason why it is not for people with a precaution, the weightiest first; empty when it is.
    fn why_not(&self, precaution: &'m str, demands: &[Demand<'m>], model: &'m Model) -> Vec<Why<'m>> {
        let exercise = self.form.exercise;
        let mut why = Vec::new();
        if !model.site.catalogue.precautions.contains_key(precaution) {
            why.push(Why::Unknown { precaution });
        }
        for caution in exercise.cautions.iter().filter(|c| c.names(precaution)) {
            if !is_whole(caution, exercise, model) {
                why.push(Why::Unread { field: "caution" });
            } else if belongs(caution, &self.form, demands) {
                why.extend(self.barred_by(caution, precaution, model));
            }
        }
        for &demand in demands {
            let Some(row) = model.site.catalogue.row(precaution, demand.id) else { continue };
            match row.by {
                Restriction::Avoid => why.push(Why::Avoid { precaution, demand }),
                Restriction::Ask => why.push(Why::Ask { precaution, demand }),
                Restriction::Modify if self.is_modified(precaution, demand.id, demands, model) => {}
                Restriction::Modify => why.push(Why::NoCaution { precaution, demand }),
            }
        }
        why.sort_by_key(Why::weight);
        why
    }

    /// What a caution that belongs to the form has against it.
    fn barred_by(&self, caution: &'m Caution, precaution: &'m str, model: &'m Model) -> Option<Why<'m>> {
        let exercise = self.form.exercise;
        match caution.level.value {
            CautionLevel::Stop => Some(Why::Stop { precaution, caution }),
            CautionLevel::Ask => Some(Why::AskFirst {
                precaution,
                caution,
                about: about(caution, exercise, precaution, model),
            }),
            CautionLevel::Adapt => instead(caution, exercise, model)
                .filter(|other| !other.form.is(&self.form))
                .map(|_| Why::Instead { precaution, caution }),
        }
    }

    /// True when a caution for the precaution says how to change what the form asks, and belongs to the form.
    fn is_modified(&self, precaution: &str, demand: &str, demands: &[Demand<'_>], model: &Model) -> bool {
        let exercise = self.form.exercise;
        let answers = |c: &&Caution| {
            c.names(precaution)
                && c.level.value == CautionLevel::Adapt
                && c.instead.is_none()
                && belongs(c, &self.form, demands)
                && about(c, exercise, precaution, model).contains(&demand)
        };
        exercise.cautions.iter().any(|c| answers(&c)) && !(demand == "long-hold" && self.is_stretched())
    }

    /// True when the week asks for a longer hold than the form has by itself: its cautions were written for the shorter
    /// one.
    fn is_stretched(&self) -> bool {
        let longest = |dose: Dose| dose.hold.map_or(0, |hold| hold.value.high);
        let own = Offer { changed: None, ..*self };
        longest(self.dose()) > longest(own.dose())
    }
}

/// True when all that a caution names is there.
fn is_whole(caution: &Caution, exercise: &Exercise, model: &Model) -> bool {
    let led = caution.instead.is_none() || instead(caution, exercise, model).is_some();
    led && caution.form.as_ref().is_none_or(|form| exercise.variation(&form.value).is_some())
}

impl<'m> Why<'m> {
    pub(super) fn weight(&self) -> u8 {
        match self {
            Why::Unknown { .. } => 0,
            Why::Unread { .. } => 1,
            Why::Lost { .. } => 2,
            Why::Stop { .. } => 3,
            Why::Avoid { .. } => 4,
            Why::Instead { .. } => 5,
            Why::AskFirst { .. } => 6,
            Why::Ask { .. } => 7,
            Why::NoCaution { .. } => 8,
            // Of a form that is not for her in any case, that it is bare says least.
            Why::Bare => 9,
        }
    }

    /// True where something could not be read, is lost or is not known, which is told where it stands.
    pub fn is_told_elsewhere(&self) -> bool {
        matches!(self, Why::Unread { .. } | Why::Lost { .. } | Why::Unknown { .. })
    }

    /// The demand that it is about, where it is about one.
    pub fn demand(&self) -> Option<&Demand<'m>> {
        match self {
            Why::Avoid { demand, .. } | Why::Ask { demand, .. } | Why::NoCaution { demand, .. } => {
                Some(demand)
            }
            _ => None,
        }
    }

    /// The caution that speaks, where one does.
    pub fn caution(&self) -> Option<&'m Caution> {
        match self {
            Why::Stop { caution, .. } | Why::Instead { caution, .. } | Why::AskFirst { caution, .. } => {
                Some(caution)
            }
            _ => None,
        }
    }

    /// The clearances, of these, that lift this reason about a form of the exercise; empty where it stands. Only what is
    /// to be asked about can be lifted: by a clearance of the exercise, or of every demand in question.
    pub fn lifted_by<'c>(&self, exercise: &Exercise, clearances: &[&'c Clearance]) -> Vec<&'c Clearance> {
        let find = |precaution: &str, is_it: &dyn Fn(&Cleared) -> bool| {
            let given = |c: &&&Clearance| c.of.iter().any(|p| p.value == precaution) && is_it(&c.what);
            clearances.iter().find(given).copied()
        };
        let of_exercise = |what: &Cleared| matches!(what, Cleared::Exercise(id) if id.value == exercise.id);
        let of_demand =
            |what: &Cleared, demand: &str| matches!(what, Cleared::Demand(id) if id.value == demand);
        match self {
            Why::Ask { precaution, demand, .. } => {
                let is_it = |what: &Cleared| of_exercise(what) || of_demand(what, demand.id);
                find(precaution, &is_it).into_iter().collect()
            }
            Why::AskFirst { precaution, about, .. } => {
                if let Some(whole) = find(precaution, &of_exercise) {
                    return vec![whole];
                }
                let each = about.iter().map(|demand| find(precaution, &|what| of_demand(what, demand)));
                each.collect::<Option<Vec<_>>>().unwrap_or_default()
            }
            _ => Vec::new(),
        }
    }
}

/// As the educator is told it.
impl fmt::Display for Why<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Why::Unknown { precaution } => write!(f, "`{precaution}` is no precaution of this workspace"),
            Why::Unread { field } => write!(f, "its `{field}` could not be read"),
            Why::Lost { demand } => {
                write!(f, "it speaks of `{demand}`, which it does not ask; its `demands` may have lost it")
            }
            Why::Bare => f.write_str("it has neither steps of its own nor `keeps_steps = true`"),
            Why::Stop { precaution, .. } => write!(f, "its caution for `{precaution}` says to stop"),
            Why::Instead { precaution, caution } => {
                let form = caution.instead.as_ref().map_or("another form", |form| form.value.as_str());
                write!(f, "its caution for `{precaution}` says to do `{form}`")
            }
            Why::AskFirst { precaution, .. } => {
                write!(f, "its caution for `{precaution}` says to ask first, and nothing is cleared")
            }
            Why::Avoid { precaution, demand, .. } => {
                write!(f, "`{precaution}` says to avoid `{}`", demand.id)
            }
            Why::Ask { precaution, demand, .. } => {
                write!(f, "`{precaution}` says to ask about `{}`, and nothing is cleared", demand.id)
            }
            Why::NoCaution { precaution, demand, .. } => write!(
                f,
                "`{precaution}` says to modify `{}`, and no caution for `{precaution}` says how",
                demand.id
            ),
        }
    }
}
