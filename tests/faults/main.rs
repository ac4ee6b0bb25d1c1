//! Seeded faults: single slips put into the demonstration's text at random places, each of which the rule meant for it
//! has to find in the file that is meant; and the demonstration as it stands, of which nothing is found.
//!
//! Whether a place is one where the slip is a fault is decided here, from the text alone, and never by asking the
//! rule. `cargo test --test faults -- --nocapture` prints the table.
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod demonstration;
mod draw;
mod edit;
mod fault;
mod kinds;
mod measure;
mod obedience;

use std::collections::BTreeSet;

use jiff::civil::{Date, date};
use rayon::prelude::*;
use steadyleaf::review::rule::{Check, Rule};
use steadyleaf::review::rules;

use demonstration::{Demonstration, Found};
use draw::Draw;
use fault::{Fault, Kind};

/// A day in the middle of the series, within a year of every clinical review.
const TODAY: Date = date(2027, 2, 15);

/// Faults of a kind, where it has so many places.
const EACH: usize = 6;

#[test]
fn nothing_is_found_in_the_demonstration() {
    let demonstration = Demonstration::read();
    // Before the series, in the middle of it, and after its last week.
    for day in [date(2026, 11, 26), TODAY, date(2027, 3, 25)] {
        let found = demonstration.review(&Default::default(), day);
        assert_eq!(found, BTreeSet::new(), "on {day}");
    }
}

#[test]
fn single_faults_are_found_by_the_rule_and_in_the_file_that_are_meant() {
    let demonstration = Demonstration::read();
    let rows: Vec<Row> = kinds::ALL.iter().map(|kind| try_kind(&demonstration, kind)).collect();
    println!("{:<58} {:<26} {:>5} {:>7} {:>6}", "fault", "rule", "made", "caught", "rate");
    for row in &rows {
        println!(
            "{:<58} {:<26} {:>5} {:>7} {:>5.0}%",
            row.kind.name,
            row.kind.rule,
            row.made,
            row.caught(),
            100.0 * row.rate()
        );
    }
    let (made, caught): (usize, usize) =
        (rows.iter().map(|r| r.made).sum(), rows.iter().map(Row::caught).sum());
    println!("{:<58} {:<26} {made:>5} {caught:>7} {:>5.1}%", "all", "", 100.0 * caught as f64 / made as f64);
    let missed: Vec<String> = rows.iter().flat_map(|row| row.missed.iter().cloned()).collect();
    println!("{}", missed.join("\n"));

    for row in &rows {
        let least = if rule(row.kind).safety { 1.0 } else { 0.95 };
        assert!(row.rate() >= least, "{}: {} of {} caught", row.kind.name, row.caught(), row.made);
        assert!(row.made >= 5, "{}: only {} places", row.kind.name, row.made);
    }
    assert!(made >= 300, "only {made} faults");
}

#[test]
fn every_rule_on_the_model_has_a_kind_of_fault() {
    let on_later_stages = |rule: &&&Rule| matches!(rule.check, Check::Pages | Check::Sheets(_));
    let meant: BTreeSet<&str> = kinds::ALL.iter().map(|kind| rule(kind).name).collect();
    let all: BTreeSet<&str> = rules::ALL.iter().filter(|r| !on_later_stages(r)).map(|r| r.name).collect();
    assert_eq!(meant, all);
}

/// What came of the faults of one kind.
struct Row {
    kind: &'static Kind,
    made: usize,
    missed: Vec<String>,
}

impl Row {
    fn caught(&self) -> usize {
        self.made - self.missed.len()
    }

    fn rate(&self) -> f64 {
        self.caught() as f64 / self.made.max(1) as f64
    }
}

fn rule(kind: &Kind) -> &'static Rule {
    rules::find(kind.rule).unwrap_or_else(|| panic!("{}: there is no rule `{}`", kind.name, kind.rule))
}

fn try_kind(demonstration: &Demonstration, kind: &'static Kind) -> Row {
    let mut draw = Draw::seeded(kind.name);
    let mut places = (kind.places)(demonstration, &mut draw);
    draw.shuffle(&mut places);
    places.truncate(EACH);
    let missed = places.par_iter().filter_map(|fault| missed(demonstration, kind, fault)).collect();
    Row { kind, made: places.len(), missed }
}

/// What happened instead, if the meant rule did not find the fault in the file that is meant.
fn missed(demonstration: &Demonstration, kind: &Kind, fault: &Fault) -> Option<String> {
    let before = match fault.ground.is_empty() {
        true => BTreeSet::new(),
        false => demonstration.review(&fault.ground, TODAY),
    };
    assert_eq!(
        before,
        BTreeSet::new(),
        "{}: what was laid out for {} is no clean ground",
        kind.name,
        fault.what
    );
    let found = demonstration.review(&fault.edits, TODAY);
    let meant = |found: &&Found| found.rule == kind.rule && fault.files.contains(&found.file);
    if found.iter().any(|f| meant(&f)) {
        return None;
    }
    let others: Vec<String> =
        found.iter().map(|f| format!("{} in {}: {}", f.rule, f.file, f.message)).collect();
    Some(format!("MISSED {}: {}\n       found instead: {}", kind.name, fault.what, others.join("; ")))
}
