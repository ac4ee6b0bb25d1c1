//! Draws small workspaces by a seed: exercises that link to each other, a week that asks for one of them, and a
//! person. Few demands and few precautions, so that they meet often. The same seed always draws the same case.
//!
//! No step, text or summary names a form or tells of a demand; what is to be found out stands in the fields.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use toml::Table;

use crate::oracle::Day;

/// One workspace, one week, one person.
#[derive(Debug)]
pub(crate) struct Case {
    pub(crate) seed: u64,
    /// Exercises by id.
    pub(crate) entries: BTreeMap<String, Written>,
    /// `series.toml`, with `all_have`.
    pub(crate) series: Written,
    /// The fields of week 1, which asks for one exercise.
    pub(crate) week: Written,
    /// `clients/NAME.toml`.
    pub(crate) profile: Written,
    pub(crate) asked: String,
    pub(crate) today: Day,
}

/// Fields as an author writes them, and as TOML reads them.
#[derive(Debug, PartialEq)]
pub(crate) struct Written {
    pub(crate) toml: String,
    pub(crate) table: Table,
}

impl Case {
    pub(crate) fn tables(&self) -> BTreeMap<String, Table> {
        self.entries.iter().map(|(id, entry)| (id.clone(), entry.table.clone())).collect()
    }

    /// The week's own dose for the exercise asked for.
    pub(crate) fn week_dose(&self) -> Option<&Table> {
        self.week.table["exercises"][0].get("dose").and_then(toml::Value::as_table)
    }

    pub(crate) fn all_have(&self) -> Vec<String> {
        let list = self.series.table["all_have"].as_array().expect("every drawn series has the list");
        list.iter().filter_map(toml::Value::as_str).map(str::to_owned).collect()
    }

    /// The whole file of an exercise.
    pub(crate) fn exercise_file(&self, id: &str) -> String {
        format!(
            "```toml\n{}```\n\n## Set up\nGet ready.\n\n## Move\n1. Move.\n2. Rest.\n\n## Finish\nRest.\n\n## Feel\nCalm.\n\n## Watch for\nPain.\n",
            self.entries[id].toml
        )
    }

    /// The whole file of the week.
    pub(crate) fn week_file(&self) -> String {
        format!("```toml\n{}```\n\nWelcome.\n", self.week.toml)
    }
}

/// 1 March 2027 for every case.
const TODAY: Day = (2027, 3, 1);

const IDS: [&str; 6] = ["a", "b", "c", "d", "e", "f"];
const NAMES: [&str; 6] = ["Alder", "Birch", "Cedar", "Date", "Elder", "Fig"];
const TITLES: [&str; 3] = ["Amber", "Blue", "Coral"];
const LEVELS: [&str; 20] = [
    "stop", "stop", "stop", "ask", "ask", "ask", "ask", "ask", "adapt", "adapt", "adapt", "adapt", "adapt",
    "adapt", "adapt", "adapt", "adapt", "adapt", "adapt", "adapt",
];
const POSITIONS: [&str; 14] = [
    "standing",
    "standing",
    "standing",
    "standing",
    "seated",
    "seated",
    "seated",
    "lying",
    "lying",
    "side-lying",
    "prone",
    "kneeling",
    "kneeling",
    "hands-and-knees",
];
const CALM_POSITIONS: [&str; 6] = ["seated", "seated", "seated", "standing", "lying", "kneeling"];
const COMPONENTS: [&str; 4] = ["posture", "balance", "strength", "power"];
const DEMANDS: [&str; 8] = [
    "impact-low",
    "impact-moderate",
    "floor-transfer",
    "kneeling",
    "long-hold",
    "loaded-flexion",
    "quick-rise",
    "hands-full",
];
const PRECAUTIONS: [&str; 7] = [
    "spine-fracture",
    "unsteady",
    "low-bone-density",
    "no-floor",
    "high-blood-pressure",
    "knee-replacement",
    "hip-replacement",
];
/// What the catalogue lets pass with a change in words, among the precautions and demands drawn.
const CHANGED_IN_WORDS: [(&str, &str); 7] = [
    ("spine-fracture", "floor-transfer"),
    ("spine-fracture", "quick-rise"),
    ("spine-fracture", "lying-prone"),
    ("unsteady", "quick-rise"),
    ("unsteady", "floor-transfer"),
    ("unsteady", "impact-moderate"),
    ("high-blood-pressure", "long-hold"),
];
/// What the catalogue asks about, among the precautions and demands drawn.
const ASKED_ABOUT: [(&str, &str); 7] = [
    ("spine-fracture", "impact-low"),
    ("low-bone-density", "impact-moderate"),
    ("hip-replacement", "floor-transfer"),
    ("hip-replacement", "impact-moderate"),
    ("knee-replacement", "kneeling"),
    ("knee-replacement", "impact-moderate"),
    ("spine-fracture", "floor-transfer"),
];
const HOLDS: [&str; 7] = ["5 s", "10 s", "8-10 s", "5-12 s", "10-20 s", "15 s", "1 min"];
const EQUIPMENT: [&str; 2] = ["band", "cushion"];
/// First days and last days of clearances: in force, too old, not yet begun, and the days at the edges.
const SPANS: [(&str, Option<&str>); 14] = [
    ("2026-09-01", None),
    ("2027-01-10", None),
    ("2026-05-20", Some("2027-06-30")),
    ("2027-02-01", Some("2027-04-01")),
    ("2024-01-15", Some("2029-01-15")),
    ("2026-11-11", Some("2028-01-01")),
    ("2025-01-15", None),
    ("2026-10-01", Some("2027-02-01")),
    ("2027-06-01", None),
    ("2027-03-02", Some("2027-12-31")),
    ("2027-03-01", None),
    ("2026-03-02", None),
    ("2026-03-01", None),
    ("2026-12-01", Some("2027-03-01")),
];

/// The case of a seed.
pub(crate) fn case(seed: u64) -> Case {
    let mut dice = Dice::of(seed);
    let count = 3 + dice.below(4);
    let ids = &IDS[..count];
    let titles: Vec<Vec<&str>> = ids.iter().map(|_| TITLES[..dice.below(4)].to_vec()).collect();
    let mut entries = BTreeMap::new();
    for (at, id) in ids.iter().enumerate() {
        entries.insert((*id).to_owned(), written(exercise(&mut dice, at, ids, &titles[at])));
    }

    let asked_at = if dice.chance(70) { 0 } else { dice.below(count) };
    let asked = ids[asked_at];
    let all_have = if dice.chance(25) { dice.some(&PRECAUTIONS, 1) } else { Vec::new() };
    let series = written(format!(
        "title = \"Twelve weeks\"\nsummary = \"A quiet series.\"\naudience = \"Everyone.\"\nstart = 2027-03-01\nserves = []\nall_have = {}\n",
        list(&all_have)
    ));
    let dose = if dice.chance(25) { format!(", dose = {}", inline_dose(&mut dice)) } else { String::new() };
    let week = written(format!(
        "week = 1\ntitle = \"Begin\"\ndate = 2027-03-01\nexercises = [{{ id = \"{asked}\"{dose} }}]\n"
    ));
    let profile = written(profile(&mut dice, asked_at, ids, &titles));
    Case { seed, entries, series, week, profile, asked: asked.to_owned(), today: TODAY }
}

fn exercise(dice: &mut Dice, at: usize, ids: &[&str], titles: &[&str]) -> String {
    let component = dice.pick(&COMPONENTS);
    let position = dice.pick(&POSITIONS);
    let mut toml =
        format!("title = \"{}\"\ncomponent = \"{component}\"\nposition = \"{position}\"\n", NAMES[at]);
    let surface = place(dice, &mut toml, position);
    if position == "standing" {
        toml.push_str("support = [\"counter\"]\n");
    }
    if dice.chance(20) {
        line(&mut toml, "equipment", &dice.some(&EQUIPMENT, 1));
    }
    let hold = if dice.chance(45) { Some(dice.pick(&HOLDS)) } else { None };

    // What an author declares: some demands of the movement, and often those that follow from the other fields.
    let wanted = dice.below(3);
    let mut demands: BTreeSet<&str> = dice.some(&DEMANDS, wanted).into_iter().collect();
    let mut derived = derived(position, surface);
    if hold.is_some_and(is_long) && matches!(component, "strength" | "posture") {
        derived.push("long-hold");
    }
    let declares_all = dice.chance(50);
    if declares_all {
        demands.extend(&derived);
    }
    line(&mut toml, "demands", &demands.iter().copied().collect::<Vec<_>>());
    let all: Vec<&str> =
        demands.iter().copied().chain(derived).collect::<BTreeSet<_>>().into_iter().collect();

    if component == "strength" {
        toml.push_str("trains = [\"hips\"]\n");
    }
    toml.push_str("summary = \"Move a little.\"\n\n[dose]\n");
    match hold {
        Some(hold) => writeln!(toml, "hold = \"{hold}\"").expect("text grows"),
        None => toml.push_str("reps = 10\n"),
    }
    toml.push_str("sets = 2\ndays = \"3-4\"\n");

    for title in titles {
        variation(dice, &mut toml, title, &all);
    }
    let easier = regressions(dice, &mut toml, &all, at, ids, titles.is_empty());
    if dice.chance(25) {
        writeln!(toml, "\n[[progression]]\nexercise = \"{}\"", dice.pick(ids)).expect("text grows");
    }
    cautions(dice, &mut toml, titles, &easier, &all);
    toml
}

fn variation(dice: &mut Dice, toml: &mut String, title: &str, base: &[&str]) {
    write!(toml, "\n[[variation]]\ntitle = \"{title}\"\ntext = \"Do it this way.\"\n").expect("text grows");
    match dice.below(100) {
        0..50 => toml.push_str("steps = [\"Get ready.\", \"Move.\", \"Rest.\"]\n"),
        50..94 => toml.push_str("keeps_steps = true\n"),
        _ => {}
    }
    if dice.chance(50) {
        let position = dice.pick(&CALM_POSITIONS);
        writeln!(toml, "position = \"{position}\"").expect("text grows");
        place(dice, toml, position);
    } else if dice.chance(10) {
        writeln!(toml, "surface = \"{}\"", dice.pick(&["bed", "floor"])).expect("text grows");
    }
    if dice.chance(25) {
        let wanted = dice.below(2);
        line(toml, "equipment", &dice.some(&EQUIPMENT, wanted));
    }
    let removes: Vec<&str> = base.iter().copied().filter(|_| dice.chance(55)).collect();
    if !removes.is_empty() {
        line(toml, "removes", &removes);
    }
    if dice.chance(15) {
        line(toml, "adds", &dice.some(&DEMANDS, 1));
    }
    if dice.chance(25) {
        writeln!(toml, "dose = {}", inline_dose(dice)).expect("text grows");
    }
}

/// Writes the easier ways and gives the exercises they lead to, without the exercise itself. Links go forwards
/// mostly; some go back, and some to the exercise itself.
fn regressions(
    dice: &mut Dice,
    toml: &mut String,
    base: &[&str],
    at: usize,
    ids: &[&str],
    needs_one: bool,
) -> Vec<String> {
    let mut easier = Vec::new();
    let mut links = dice.below(3);
    if needs_one && links == 0 {
        links = 1;
    }
    for _ in 0..links {
        toml.push_str("\n[[regression]]\n");
        let to = match dice.below(100) {
            0..65 if at + 1 < ids.len() => Some(ids[at + 1 + dice.below(ids.len() - at - 1)]),
            0..88 => Some(dice.pick(ids)),
            88..93 => Some(ids[at]),
            _ => None,
        };
        match to {
            Some(to) => writeln!(toml, "exercise = \"{to}\"").expect("text grows"),
            None => toml.push_str("text = \"Do less.\"\n"),
        }
        if dice.chance(40) && !base.is_empty() {
            line(toml, "removes", &dice.some(base, 1));
        } else if dice.chance(4) {
            line(toml, "removes", &dice.some(&DEMANDS, 1));
        }
        if dice.chance(12) {
            line(toml, "adds", &dice.some(&DEMANDS, 1));
        }
        if dice.chance(50) {
            writeln!(toml, "dose = {}", inline_dose(dice)).expect("text grows");
        }
        easier.extend(to.filter(|to| *to != ids[at]).map(str::to_owned));
    }
    easier
}

fn cautions(dice: &mut Dice, toml: &mut String, titles: &[&str], easier: &[String], all: &[&str]) {
    let ways: Vec<&str> = titles.iter().copied().chain(easier.iter().map(String::as_str)).collect();
    // An author who means well writes the change that the catalogue wants, and asks where it asks.
    for (precaution, demand) in CHANGED_IN_WORDS {
        if all.contains(&demand) && dice.chance(55) {
            caution(toml, &[precaution], "adapt");
            line(toml, "about", &[demand]);
        }
    }
    for (precaution, demand) in ASKED_ABOUT {
        if all.contains(&demand) && dice.chance(35) {
            caution(toml, &[precaution], "ask");
            line(toml, "about", &[demand]);
            if !ways.is_empty() && dice.chance(75) {
                writeln!(toml, "use = \"{}\"", dice.pick(&ways)).expect("text grows");
            }
        }
    }
    // And anything else that the fields allow.
    for _ in 0..dice.below(3) {
        let whom = 1 + usize::from(dice.chance(25));
        let whom = dice.some(&PRECAUTIONS, whom);
        let level = dice.pick(&LEVELS);
        caution(toml, &whom, level);
        if dice.chance(65) {
            let how_many = 1 + usize::from(dice.chance(35));
            let pool = if all.is_empty() || dice.chance(5) { &DEMANDS[..] } else { all };
            line(toml, "about", &dice.some(pool, how_many));
        }
        let form = if !titles.is_empty() && dice.chance(15) { Some(dice.pick(titles)) } else { None };
        if let Some(form) = form {
            writeln!(toml, "form = \"{form}\"").expect("text grows");
        }
        let others: Vec<&str> = ways.iter().copied().filter(|way| Some(*way) != form).collect();
        if !others.is_empty() && dice.chance(50) {
            writeln!(toml, "use = \"{}\"", dice.pick(&others)).expect("text grows");
        } else if level == "adapt" && dice.chance(40) {
            writeln!(toml, "dose = {}", inline_dose(dice)).expect("text grows");
        }
    }
    toml.push_str("\n[[caution]]\nfor = \"everyone\"\nlevel = \"adapt\"\ntext = \"Go slowly.\"\n");
    if dice.chance(6) {
        writeln!(toml, "dose = {}", inline_dose(dice)).expect("text grows");
    }
}

fn caution(toml: &mut String, whom: &[&str], level: &str) {
    write!(
        toml,
        "\n[[caution]]\nfor = {}\nlevel = \"{level}\"\ntext = \"Take care, so that it stays calm.\"\n",
        list(whom)
    )
    .expect("text grows");
}

fn profile(dice: &mut Dice, asked_at: usize, ids: &[&str], titles: &[Vec<&str>]) -> String {
    let asked = ids[asked_at];
    let wanted = if dice.chance(8) { 0 } else { 1 + dice.below(3) };
    let hers = dice.some(&PRECAUTIONS, wanted);
    let mut toml = "name = \"A. B.\"\n".to_owned();
    line(&mut toml, "precautions", &hers);
    if dice.chance(60) {
        let wanted = 1 + dice.below(2);
        line(&mut toml, "equipment", &dice.some(&EQUIPMENT, wanted));
    }
    for _ in 0..dice.below(4) {
        // Mostly what there is to ask about for her; sometimes anything.
        let (mut of, mut demand) = dice.pick(&ASKED_ABOUT);
        if dice.chance(20) {
            (of, demand) = (dice.pick(&PRECAUTIONS), dice.pick(&DEMANDS));
        } else if !hers.is_empty() {
            of = dice.pick(&hers);
            let about_her: Vec<&str> =
                ASKED_ABOUT.iter().filter(|row| row.0 == of).map(|row| row.1).collect();
            demand = if about_her.is_empty() { demand } else { dice.pick(&about_her) };
        }
        toml.push_str("\n[[cleared]]\n");
        match dice.below(100) {
            0..55 => writeln!(toml, "demand = \"{demand}\""),
            55..85 => writeln!(toml, "exercise = \"{asked}\""),
            _ => writeln!(toml, "exercise = \"{}\"", dice.pick(ids)),
        }
        .expect("text grows");
        let mut whom = vec![of];
        whom.extend(hers.iter().copied().filter(|one| *one != of && dice.chance(40)));
        line(&mut toml, "of", &whom);
        let (on, until) = dice.pick(&SPANS);
        write!(toml, "by = \"A. Reviewer, PT\"\non = {on}\n").expect("text grows");
        if let Some(until) = until {
            writeln!(toml, "until = {until}").expect("text grows");
        }
    }
    for _ in 0..dice.below(5).saturating_sub(2) {
        let at = if dice.chance(80) { asked_at } else { dice.below(ids.len()) };
        let form =
            if !titles[at].is_empty() && dice.chance(65) { dice.pick(&titles[at]) } else { dice.pick(ids) };
        write!(
            toml,
            "\n[[prefer]]\nexercise = \"{}\"\nform = \"{form}\"\nbecause = \"She likes it.\"\n",
            ids[at]
        )
        .expect("text grows");
    }
    toml
}

/// Writes a surface where one belongs, and gives the one that counts.
fn place(dice: &mut Dice, toml: &mut String, position: &str) -> &'static str {
    if matches!(position, "standing" | "seated") {
        return "";
    }
    match dice.below(100) {
        0..45 => {
            toml.push_str("surface = \"bed\"\n");
            "bed"
        }
        45..60 => {
            toml.push_str("surface = \"floor\"\n");
            "floor"
        }
        _ => "floor",
    }
}

/// What an author of a base form would declare for its place, so that `removes` and cautions can speak of it.
fn derived(position: &str, surface: &str) -> Vec<&'static str> {
    let mut derived = match position {
        "lying" => vec!["lying-flat"],
        "prone" => vec!["lying-prone"],
        "kneeling" => vec!["kneeling"],
        "hands-and-knees" => vec!["kneeling", "wrist-load"],
        _ => Vec::new(),
    };
    if surface == "floor" {
        derived.push("floor-transfer");
    }
    derived
}

fn is_long(hold: &str) -> bool {
    matches!(hold, "5-12 s" | "10-20 s" | "15 s" | "1 min")
}

fn inline_dose(dice: &mut Dice) -> String {
    if dice.chance(75) {
        format!("{{ hold = \"{}\" }}", dice.pick(&HOLDS))
    } else {
        "{ reps = 6 }".to_owned()
    }
}

fn line(toml: &mut String, key: &str, values: &[&str]) {
    writeln!(toml, "{key} = {}", list(values)).expect("text grows");
}

fn list(values: &[&str]) -> String {
    let quoted: Vec<String> = values.iter().map(|value| format!("\"{value}\"")).collect();
    format!("[{}]", quoted.join(", "))
}

fn written(toml: String) -> Written {
    let table = toml.parse().unwrap_or_else(|error| panic!("drawn TOML does not parse: {error}\n{toml}"));
    Written { toml, table }
}

/// SplitMix64 (Steele, Lea and Flood 2014): every seed is a good one.
struct Dice(u64);

impl Dice {
    fn of(seed: u64) -> Dice {
        Dice(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    fn pick<T: Copy>(&mut self, among: &[T]) -> T {
        among[self.below(among.len())]
    }

    /// Up to `count` different ones.
    fn some<'a>(&mut self, among: &[&'a str], count: usize) -> Vec<&'a str> {
        let mut chosen: Vec<&str> = Vec::new();
        for _ in 0..count {
            let one = self.pick(among);
            if !chosen.contains(&one) {
                chosen.push(one);
            }
        }
        chosen
    }
}
