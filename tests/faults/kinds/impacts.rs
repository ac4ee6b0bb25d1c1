//! Faults of landings.

use crate::demonstration::Demonstration;
use crate::draw::Draw;
use crate::edit::{field_at, fields_at, put, row_at, set_dose, set_row_dose};
use crate::fault::{Edits, Fault};
use crate::measure::{amount, doses, reps};

/// The most landings of a session (Beck 2017; see the target `impacts`).
const CAP: i64 = 100;

/// In an exercise's own dose, or in that of a week.
pub(super) fn over_the_cap(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values().filter(|e| e.demands().iter().any(|d| d.starts_with("impact-"))) {
        let each = reps(exercise.dose()).1 / amount(exercise.dose(), "reps").unwrap().1;
        let raised = CAP / each + draw.within(1, 40);
        let text = set_dose(&exercise.text, "reps", &raised.to_string());
        faults.push(Fault::inside(&exercise.file, format!("{raised} repetitions"), text));
    }
    for week in &d.weeks {
        for (exercise, dose) in doses(d, week) {
            if exercise.demands().iter().any(|d| d.starts_with("impact-")) {
                let each = reps(&dose).1 / amount(&dose, "reps").unwrap().1;
                let raised = CAP / each + draw.within(1, 40);
                let text = set_row_dose(&week.text, &exercise.id, "reps", &raised.to_string());
                faults.push(Fault::inside(&week.file, format!("{} {raised} times", exercise.id), text));
            }
        }
    }
    faults
}

/// A jump before any week with a low impact; or an exercise whose impact turns out to be harder than what any earlier
/// week prepares for.
pub(super) fn unprepared(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let asks = |id: &str, impact: &str| d.exercises[id].demands().iter().any(|demand| demand == impact);
    let first =
        |impact: &str| d.weeks.iter().position(|week| week.row_ids().iter().any(|id| asks(id, impact)));
    let first_low = first("impact-low").unwrap();
    assert_eq!(first("impact-moderate"), None);
    let mut faults = Vec::new();
    for week in &d.weeks[..=first_low] {
        let power = week.row_ids().into_iter().find(|id| d.component(id) == "power").unwrap();
        let row = row_at(&week.text, &power);
        let jump = "  { id = \"low-jump\" },\n";
        let beside = put(&week.text, row.start..row.start, jump);
        faults.push(Fault::inside(
            &week.file,
            format!("a jump in place of {power}"),
            put(&week.text, row, jump),
        ));
        faults.push(Fault::inside(&week.file, format!("a jump beside {power}"), beside));
    }
    for exercise in d.exercises.values().filter(|e| e.demands().contains(&"impact-low".to_string())) {
        let Some(week) = d.first_week(&exercise.id) else { continue };
        let harder = if week <= first_low { ["impact-moderate", "impact-high"] } else { ["impact-high"; 2] };
        for impact in harder {
            let line = field_at(&exercise.text, fields_at(&exercise.text), "demands").unwrap();
            let new = exercise.text[line.clone()].replace("impact-low", impact);
            let edits = Edits::of(&exercise.file, put(&exercise.text, line, &new));
            faults.push(Fault::new(
                format!("{} asks for {impact}", exercise.file),
                edits,
                &d.weeks[week].file,
            ));
        }
    }
    faults
}
