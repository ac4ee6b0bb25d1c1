//! What proposals say, as the educator is told it on the command line.

use std::fmt::{Display, Formatter, Result};

use super::{Reason, Refusal, Unfit, Unknown, Wish};
use crate::model::nearest::quoted;
use crate::model::vocabulary::Vocabulary;

impl Display for Reason<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        match self {
            Reason::Kept => f.write_str("kept on purpose"),
            Reason::NextRung { from } => write!(f, "one rung up from {}", quoted(from)),
            Reason::SameRung { last } => write!(f, "the rung where the series stands, last in week {last}"),
            Reason::NewMovement => f.write_str("new, with nothing that has to come before it"),
            Reason::LowerRung { last } => write!(f, "an easier rung again, last in week {last}"),
            Reason::AtHand { things } if things.is_empty() => f.write_str("needs no equipment"),
            Reason::AtHand { things } => write!(f, "at hand: {}", things.join(", ")),
            Reason::NewEquipment { things } => write!(f, "needs something new: {}", things.join(", ")),
            Reason::OtherForm { precaution, form } => {
                write!(f, "another form for people with `{precaution}`: {form}")
            }
            Reason::NoForm { precaution } => write!(f, "no safe form of it for people with `{precaution}`"),
            Reason::SameDose { week } => write!(f, "in the same dose as in week {week}: change its dose"),
        }
    }
}

impl Display for Refusal<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        match self {
            Refusal::Unread { field } => write!(f, "its `{field}` could not be read"),
            Refusal::LeftOut => f.write_str("it is to be left out"),
            Refusal::Unanswered { demand: Some(demand), precaution } => {
                write!(f, "`{demand}` has no answer for `{precaution}`")
            }
            Refusal::Unanswered { demand: None, precaution } => {
                write!(f, "no form of it is for people with `{precaution}`")
            }
            Refusal::ForNobody { precaution } => {
                write!(f, "as it stands it is for nobody here, where all have `{precaution}`")
            }
            Refusal::Rung { below } => write!(f, "no earlier week used {}, just below it", quoted(below)),
            Refusal::Impact { impact, before } => {
                write!(f, "it asks for `{impact}`, and no earlier week has `{before}`")
            }
            Refusal::Recent { last, returns } => {
                write!(f, "it was in week {last} and may return in week {returns}")
            }
            Refusal::SameDose { week } => write!(f, "week {week} has it in the same dose"),
            Refusal::Landings { landings, most } => {
                write!(f, "`{landings}` landings a session, more than `{most}`")
            }
            Refusal::Work { minutes, before } => {
                write!(f, "`{minutes}` minutes of work a week, after at most `{before}` in the weeks before")
            }
            Refusal::Minutes { minutes } => write!(f, "it takes `{minutes}` minutes by itself"),
        }
    }
}

impl Display for Unfit<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        match self {
            Unfit::Kept { id } => write!(f, "`{id}` is to be kept, and cannot come next"),
            Unfit::Nothing { components } => {
                let words: Vec<&str> = components.iter().map(|component| component.word()).collect();
                write!(f, "there is nothing to propose for {}", quoted(&words))
            }
            Unfit::Work { component, minutes, before } => write!(
                f,
                "what is to be kept for `{}` is `{minutes}` minutes of work a week, after at most `{before}` in the weeks before",
                component.word()
            ),
            Unfit::Landings { least, most } => {
                write!(f, "every choice has at least `{least}` landings a session, more than `{most}`")
            }
            Unfit::Minutes { least } => write!(f, "every choice takes at least `{least}` minutes"),
        }
    }
}

impl Unfit<'_> {
    /// What to do about it.
    pub fn help(&self, wish: &Wish) -> String {
        match self {
            Unfit::Kept { id } if wish.leave_out.contains(*id) => {
                format!("name `{id}` with `--keep` or with `--leave-out`, not with both")
            }
            Unfit::Kept { .. } => "keep another, or fix the reason given beside it".to_string(),
            Unfit::Nothing { components } => format!(
                "keep one on purpose with `--keep ID`, set `weeks_apart` under [targets], or add one with `steadyleaf add exercise TITLE --component {}`",
                components.first().map_or("posture", |component| component.word())
            ),
            Unfit::Work { .. } => "keep fewer of them, or set `work_step` under [targets]".to_string(),
            Unfit::Landings { .. } => {
                "keep fewer exercises with landings, or change `impacts` under [targets] for clients who are supervised"
                    .to_string()
            }
            Unfit::Minutes { least } => {
                format!("allow them with `--minutes {least}`, or set `session_minutes` under [targets]")
            }
        }
    }
}

impl Display for Unknown<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        match self {
            Unknown::Series { field } => write!(f, "`{field}` in series.toml could not be read whole"),
            Unknown::Week { week } => write!(f, "{}.md could not be read whole", week.id),
            Unknown::Exercise { week, id } => {
                write!(f, "{}.md uses `{id}`, which is not there or could not be read whole", week.id)
            }
        }
    }
}
