//! Each command that writes something for an author or for a person.

use crate::case::{Case, Way};
use crate::moments::kill;
use crate::workspace::Workspace;

#[test]
fn an_added_exercise_is_there_whole_or_not_at_all() {
    let add = ["add", "exercise", "Toe taps", "--component", "balance", "--position", "standing"];
    kill(&Case::new("add exercise", Workspace::begun(), &add, Way::New, "content/exercises"));
}

#[test]
fn an_added_series_is_there_whole_or_not_at_all() {
    let add = ["add", "series", "Winter mornings"];
    kill(&Case::new("add series", Workspace::begun(), &add, Way::New, "content/series/winter-mornings"));
}

#[test]
fn an_added_week_is_there_whole_or_not_at_all() {
    let add = ["add", "week", "--series", "first-steps"];
    kill(&Case::new("add week", Workspace::begun(), &add, Way::New, "content/series/first-steps"));
}

#[test]
fn a_planned_week_is_there_whole_or_not_at_all() {
    // Two weeks hold all that the sample has to choose from.
    let keep = ["tall-sit", "feet-together-stand", "sit-to-stand", "heel-raise"];
    let plan = [vec!["plan", "--write"], keep.iter().flat_map(|id| ["--keep", *id]).collect()].concat();
    kill(&Case::new("plan --write", Workspace::begun(), &plan, Way::New, "content/series/first-steps"));
}

#[test]
fn a_sheet_of_a_week_is_the_earlier_one_or_the_new_one() {
    let workspace = Workspace::begun();
    let sheets = workspace.path("sheets").display().to_string();
    let handout = ["handout", "--week", "first-steps/1", "--out", &sheets];
    kill(&Case::new("handout --week", workspace, &handout, Way::InPlace, "sheets"));
}

#[test]
fn a_sheet_for_a_person_is_the_earlier_one_or_the_new_one_and_stays_private() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", "name = \"A. Quill\"\nprecautions = [\"spine-fracture\"]\n");
    let profile = workspace.path("clients/ada.toml").display().to_string();
    let handout = ["handout", "--week", "first-steps/1", "--for", &profile];
    kill(&Case::new("handout --for", workspace, &handout, Way::InPlace, "clients/sheets"));
}

#[test]
fn a_workspace_in_a_new_folder_is_there_whole_or_not_at_all() {
    let workspace = Workspace::begun();
    let folder = workspace.path("clinics/north").display().to_string();
    kill(&Case::new("begin", workspace, &["begin", &folder], Way::New, "clinics"));
}

#[test]
fn a_workspace_in_an_empty_folder_is_whole_once_it_has_a_site() {
    let workspace = Workspace::begun();
    let folder = workspace.path("north").display().to_string();
    kill(&Case::new("begin in an empty folder", workspace, &["begin", &folder], Way::Filled, "north"));
}
