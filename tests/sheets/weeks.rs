//! How many pages a week has at most.

use steadyleaf::print::workers;

use super::demonstration::{Presses, Sheet, sheets, threads};

/// The most pages of a sheet of a week: of its cards, of the week on one page, of its cue sheet. The cards for everyone name
/// whom they are not for, which takes three of the weeks over the pages that all others keep to. A person's card may take
/// twice its sides for her cautions, on Letter paper for those for everyone: their pages are in the list of all sheets.
fn most(sheet: &Sheet) -> Option<usize> {
    let (name, form) = sheet.name.split_once(", ")?;
    let exercises = sheet.exercises();
    let long = ["week-06", "week-07", "week-12"].iter().any(|week| name.starts_with(week));
    match form {
        "18 point a4" if name.ends_with(" for Tom") && exercises <= 5 => Some(9),
        "18 point a4" | "18 point letter" if sheet.is_for_everyone() && exercises <= 5 => {
            Some(if long { 10 } else { 9 })
        }
        "24 point a4" | "24 point letter" if sheet.is_for_everyone() && exercises <= 5 => {
            Some(if long { 18 } else { 16 })
        }
        "24 point a4" | "24 point letter" if name.ends_with(" for Tom") && exercises <= 5 => {
            Some(if long { 17 } else { 16 })
        }
        "18 point a4" | "18 point letter" if name.ends_with(" on one page") => Some(exercises.div_ceil(5)),
        "18 point a4" | "18 point letter" if name.starts_with("cue sheet of ") => Some(2),
        _ => None,
    }
}

#[test]
fn a_week_of_five_exercises_has_nine_pages_in_18_point_and_sixteen_in_24_and_one_for_the_fridge() {
    let presses = Presses::new();
    let sheets: Vec<Sheet> = sheets().into_iter().filter(|sheet| most(sheet).is_some()).collect();
    // One week has six exercises.
    assert_eq!(sheets.len(), 11 * (3 + 4) + 12 * (2 + 2));
    let made =
        workers::each(&sheets, threads(), |sheet| presses.print(sheet).map(|printed| printed.pages as usize));
    let mut faults = Vec::new();
    for (sheet, made) in sheets.iter().zip(made) {
        let most = most(sheet).unwrap();
        match made {
            Ok(pages) if pages <= most => {}
            Ok(pages) => faults.push(format!("{}: {pages} pages, {most} at most", sheet.name)),
            Err(why) => faults.push(format!("{}: {why}", sheet.name)),
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
