//! Faults against what a clinician approved or accepted.

use steadyleaf::entry::edit::{Approved, with_reviewed};

use crate::TODAY;
use crate::demonstration::Demonstration;
use crate::draw::Draw;
use crate::edit::{blocks_at, field_at, fields_at, insert, steps_at};
use crate::fault::{Edits, Fault};

/// An exercise with the fingerprint of what it says: the ground. Then one text in it is changed.
pub(super) fn changed(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let of = d.fingerprint(&exercise.id);
        let approved = Approved { by: "A. Reviewer, PT", on: TODAY, of: &of };
        let text = with_reviewed(&exercise.text, approved).unwrap();
        let (what, changed) = match draw.below(3) {
            0 => {
                let step = steps_at(&text).remove(0);
                ("a step", insert(&text, step.end, " Go slowly."))
            }
            1 => {
                let summary = field_at(&text, fields_at(&text), "summary").unwrap();
                ("the summary", insert(&text, summary.end - 2, " Go slowly."))
            }
            _ => {
                let caution = blocks_at(&text, "[[caution]]").pop().unwrap();
                let end = text[caution.clone()].rfind("text = ").unwrap() + caution.start;
                let end = end + text[end..].find("\"\n").unwrap();
                ("a caution", insert(&text, end, " Go slowly."))
            }
        };
        let ground = Edits::of(&exercise.file, text);
        faults.push(Fault::inside(&exercise.file, format!("{what} changed"), changed).on(ground));
    }
    faults
}

/// A week that thanks somebody unasked, which was accepted: the ground. Then the name or the day of who accepted it goes,
/// or both.
pub(super) fn unsigned(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    const BY: &str = ", by = \"A. Reviewer, PT\"";
    const ON: &str = ", on = 2027-01-04";
    let mut faults = Vec::new();
    for week in &d.weeks {
        let thanked = insert(&week.text, fields_at(&week.text).end, "\n[[thanks]]\nname = \"Ida\"\n");
        let with = |signed: &str| {
            let row = format!(
                "accept = [{{ finding = \"thanks-without-consent\", because = \"Soon.\"{signed} }}]\n"
            );
            insert(&thanked, fields_at(&thanked).start, &row)
        };
        let slip = *draw.one(&["", BY, ON]);
        let ground = Edits::of(&week.file, with(&format!("{BY}{ON}")));
        faults.push(Fault::inside(&week.file, format!("accepted with `{slip}`"), with(slip)).on(ground));
    }
    faults
}
