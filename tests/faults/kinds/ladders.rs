//! Faults of ladders and of the links that make them.

use std::collections::BTreeSet;
use std::ops::Range;

use toml::Table;

use crate::demonstration::{Demonstration, Entry, below};
use crate::draw::Draw;
use crate::edit::{blocks_at, cut, fields_at, insert, lines_at, put};
use crate::fault::{Edits, Fault};
use crate::measure::{amount, work};

const UP: &str = "[[progression]]";
const DOWN: &str = "[[regression]]";

/// Where the harder exercise makes the same demands and more, and has more work at the high end and no less at the low
/// one: turned round, it leads up to less.
pub(super) fn turned_to_less(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (easier, harder) in d.links() {
        let (low, high) = (&d.exercises[&easier], &d.exercises[&harder]);
        let demands = |e: &Entry| e.demands().into_iter().collect::<BTreeSet<_>>();
        let more = demands(low).is_subset(&demands(high)) && demands(low) != demands(high);
        if let (true, Some(less), Some(much)) = (more, work(low.dose()), work(high.dose()))
            && less.1 < much.1
            && less.0 <= much.0
        {
            let named = link_at(high, DOWN, &easier).is_some();
            let file = if named { &high.file } else { &low.file };
            faults.push(Fault::new(format!("{easier} and {harder}"), turned(low, high), file));
        }
    }
    faults
}

/// Where the exercise that is now the upper one comes first in the series, with nothing else below it.
pub(super) fn turned_in_use(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (easier, harder) in d.links() {
        let mut links = d.links();
        links.remove(&(easier.clone(), harder.clone()));
        links.insert((harder.clone(), easier.clone()));
        let Some(week) = d.first_week(&easier) else { continue };
        let below = below(&links, &easier);
        if !below.contains(&easier) && below.is_disjoint(&d.used_before(week)) {
            let edits = turned(&d.exercises[&easier], &d.exercises[&harder]);
            faults.push(Fault::new(format!("{easier} and {harder}"), edits, &d.weeks[week].file));
        }
    }
    faults
}

/// The link between two exercises turned round, in both files.
fn turned(easier: &Entry, harder: &Entry) -> Edits {
    let mut edits = Edits::default();
    for (entry, from, to, other) in [(easier, UP, DOWN, harder), (harder, DOWN, UP, easier)] {
        if let Some(block) = link_at(entry, from, &other.id) {
            let heading = block.start..block.start + from.len();
            edits = edits.and(&entry.file, put(&entry.text, heading, to));
        }
    }
    edits
}

/// Where an exercise names another under a heading.
fn link_at(entry: &Entry, heading: &str, id: &str) -> Option<Range<usize>> {
    let line = format!("exercise = \"{id}\"\n");
    blocks_at(&entry.text, heading).into_iter().find(|block| entry.text[block.clone()].contains(&line))
}

/// Less of the dose and one demand fewer, told as harder.
pub(super) fn lighter_harder_way(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values().filter(|e| work(e.dose()).is_some()) {
        let (demands, lighter) = (exercise.demands(), lighter(exercise.dose(), draw));
        if let (false, Some(lighter)) = (demands.is_empty(), lighter) {
            let demand = draw.one(&demands);
            let way =
                format!("removes = [\"{demand}\"]\ndose = {{ {lighter} }}\ntext = \"Do it this way.\"\n");
            faults.push(with_way(exercise, UP, &way));
        }
    }
    faults
}

fn lighter(dose: &Table, draw: &mut Draw) -> Option<String> {
    let mut ways = Vec::new();
    for field in ["reps", "sets"] {
        let least = amount(dose, field).map_or(1, |(low, _)| low);
        if least > 1 {
            ways.push(format!("{field} = {}", draw.within(1, least - 1)));
        }
    }
    let hold = amount(dose, "hold").filter(|(low, high)| low < high && !dose.contains_key("pace"));
    ways.extend(hold.map(|(low, _)| format!("hold = \"{low} s\"")));
    (!ways.is_empty()).then(|| draw.one(&ways).clone())
}

/// More of the dose and one demand more, told as easier.
pub(super) fn heavier_easier_way(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    const DEMANDS: [&str; 5] = ["kneeling", "wrist-load", "head-turn", "overhead-reach", "floor-transfer"];
    let mut faults = Vec::new();
    for exercise in d.exercises.values().filter(|e| work(e.dose()).is_some() && e.dose().contains_key("reps"))
    {
        let demand = *draw.one(&DEMANDS);
        let (low, high) = amount(exercise.dose(), "reps").unwrap();
        if !exercise.demands().contains(&demand.to_string()) {
            let more = format!("reps = \"{}-{}\"", low + draw.within(0, 1), high + draw.within(2, 6));
            let way = format!("adds = [\"{demand}\"]\ndose = {{ {more} }}\ntext = \"Do it this way.\"\n");
            faults.push(with_way(exercise, DOWN, &way));
        }
    }
    faults
}

fn with_way(exercise: &Entry, heading: &str, way: &str) -> Fault {
    let end = fields_at(&exercise.text).end;
    let text = insert(&exercise.text, end, &format!("\n{heading}\n{way}"));
    Fault::inside(&exercise.file, format!("{heading} {}", way.replace('\n', " ")), text)
}

/// An exercise that names one far below itself as harder. The loop is told at one of the exercises on it.
pub(super) fn looped(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let links = d.links();
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let under = below(&links, &exercise.id);
        for bottom in &under {
            let between = under.iter().filter(|id| *id == bottom || below(&links, id).contains(bottom));
            let files =
                between.map(|id| &d.exercises[id]).chain([exercise]).map(|e| e.file.clone()).collect();
            let way = format!("exercise = \"{bottom}\"\n");
            faults.push(Fault { files, ..with_way(exercise, UP, &way) });
        }
    }
    faults
}

pub(super) fn crossed(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let others: Vec<&Entry> =
            d.exercises.values().filter(|e| e.fields["component"] != exercise.fields["component"]).collect();
        for line in
            lines_at(&exercise.text, fields_at(&exercise.text), |line| line.starts_with("exercise = "))
        {
            let other = &draw.one(&others).id;
            let text = put(&exercise.text, line.clone(), &format!("exercise = \"{other}\"\n"));
            let what = format!("{other} in place of {}", exercise.text[line].trim_end());
            faults.push(Fault::inside(&exercise.file, what, text));
        }
    }
    faults
}

/// The other end is where the finding belongs: it names what does not name it back.
pub(super) fn one_sided(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (easier, harder) in d.links() {
        let (low, high) = (&d.exercises[&easier], &d.exercises[&harder]);
        let (Some(up), Some(down)) = (link_at(low, UP, &harder), link_at(high, DOWN, &easier)) else {
            continue;
        };
        for (entry, block, other) in [(low, up, high), (high, down, low)] {
            let edits = Edits::of(&entry.file, cut(&entry.text, vec![block]));
            faults.push(Fault::new(format!("{} no longer names {}", entry.id, other.id), edits, &other.file));
        }
    }
    faults
}

/// In a link between exercises, or in a week.
pub(super) fn id_mistyped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let ids: Vec<&str> = d.exercises.keys().map(String::as_str).collect();
    let mut faults = Vec::new();
    for entry in d.entries() {
        for start in ["exercise = \"", "  { id = \""] {
            for line in lines_at(&entry.text, fields_at(&entry.text), |line| line.starts_with(start)) {
                let from = line.start + start.len();
                let id = &entry.text[from..from + entry.text[from..].find('"').unwrap()];
                let slipped = draw.slip(id, &ids);
                let text = put(&entry.text, from..from + id.len(), &slipped);
                faults.push(Fault::inside(&entry.file, format!("{slipped} for {id}"), text));
            }
        }
    }
    faults
}
