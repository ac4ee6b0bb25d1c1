//! Which form of an exercise a person gets, worked out a second time from the words of the design alone
//! (section 4, "Demands and precautions"), slowly and plainly. Nothing here is shared with the program: it works on
//! the fields as an author writes them, and never on anything the program has made of them.
//!
//! Entries are taken to be without figures, so no demand comes from a pose.
//!
//! # Readings
//! Where the words are silent or can be read two ways, the reading is taken that gives the person less.
//!
//! Demands
//! 1. "(base and derived, less `removes`, plus `adds`)": what is derived for the base form goes over to a variation
//!    too, until `removes` takes it away; and what the variation's own fields derive counts whatever `removes` says.
//! 2. A variation that states a position and no surface is on the default surface of that position, even where the
//!    base form is on a bed. One that states neither is where the base form is.
//! 3. `surface = "floor"` gives `floor-transfer` in every position in which an author writes it.
//! 4. A hold that is a range counts with its high end.
//! 5. The hold is the one that is printed: that of the variation, else of the regression that led there, else of the
//!    week, else of the exercise. A week that asks for a longer hold than the form has by itself asks for what its
//!    cautions were not written for, so that no caution says how to change a `long-hold` then.
//! 6. The week's dose is a dose of the exercise that the week names, not of easier ones.
//! 7. A regression that links: its `adds` count for every form of the exercise it leads to, but for what that exercise
//!    says of itself, which its variations may take away; its `removes` take nothing away. Where several regressions of the ladder lead to one exercise, the first in the order of trying counts.
//! 8. The dose of an `adapt` caution may make a hold long, never short, and then for everybody: each precaution is
//!    judged by itself.
//! 9. Ten seconds is the limit of a hold; a site that sets another number is not looked at.
//!
//! Forms
//! 10. A variation with neither `steps` nor `keeps_steps = true` is no whole instruction, so it is nobody's form.
//!     A regression in words is none either.
//! 30. An exercise that speaks of a demand it does not ask may have lost it from its list, and is nobody's: a `removes`
//!     of what its base form has not, an `about` of what no form of it has.
//!
//! Cautions
//! 11. "Has a demand of its `about`": the variation's own demands count, those it `adds` as well.
//! 12. Without `about`, a caution is about the one demand of the exercise that the precaution restricts, counted over
//!     the form that the caution is written for (`form`, else the base form) in its own dose. Where there are none or several it is about no demand: it answers none, and no
//!     clearance of a demand opens it.
//! 13. A caution about a demand that the base form does not have belongs to the base form all the same.
//! 14. A caution for everyone belongs to every form even with `about` or `form`, and answers no precaution's demand.
//!     One that says `stop` or `ask`, or names another form, is wrong, and the exercise is nobody's.
//! 15. An `adapt` caution with `use` says no change, so it answers no `modify`, not even for the form it names.
//! 16. `adapt` with `use` closes every form it belongs to but the one it names. `stop` closes that one as well.
//! 17. A caution of one exercise says nothing about the forms of another.
//!
//! Clearances
//! 18. A clearance of an exercise holds for every form of that exercise and for no exercise below it. (The words say
//!     "exercise", and an exercise is all its forms; the stricter reading, the base form alone, is not in them.)
//! 19. A caution that names several of her precautions must be cleared for each; one with several demands in
//!     `about` must be cleared for each demand, also for those that the form does not have.
//! 20. `on` is its first day; `until` is its last. 29 February and 12 months is 28 February.
//! 21. A clearance without `of` or without `on` clears nothing; with both `exercise` and `demand` it is that demand in
//!     that exercise.
//! 22. Clearances open what is to `ask` about. They open no `avoid`, no `stop`, and no `modify` without its caution.
//!
//! Order
//! 23. A `prefer` counts when it names the exercise asked for. Its form is a variation of that exercise or the base
//!     form of that exercise or of one on its ladder; any other exercise is not tried. The same holds for `use`.
//! 24. "An exercise that a regression leads to" is any on the ladder below, by one regression or several.
//! 25. "The form that a caution for her names": every caution of the exercise that is for her, unless it belongs to one
//!     variation alone (`form`), or is an `ask` that is cleared for her. Where there are several, the forms in
//!     which she sits or lies come first, else in the order written: a second precaution never gives her more to do.
//! 26. "Down the ladder": rung by rung, first all exercises one regression away, then those two away. On a rung the
//!     form that a caution of that exercise names for her, its base form, its variations as written.
//!
//! Equipment
//! 27. A form whose equipment she lacks cannot be done: "if none can be done, the exercise is left out". Of a profile
//!     without `equipment` nobody knows what there is at home, and nothing is lacking.
//! 28. A variation without `equipment` needs what the base form needs.
//!
//! Person
//! 29. With a `hold`, everything is left out.

use std::collections::{BTreeMap, BTreeSet};

use toml::{Table, Value};

/// Year, month, day.
pub(crate) type Day = (u16, u8, u8);

/// What a person gets where a week asks for an exercise.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Outcome {
    /// The base form of `exercise`, or its variation of that title.
    Form {
        exercise: String,
        variation: Option<String>,
    },
    LeftOut,
}

/// What the person of `profile` gets on the day `today` for the exercise `asked`. `entries` are the fields of all
/// exercises by id, `rows` is the catalogue with its `[[precaution]]` tables, `week_dose` the week's own dose.
pub(crate) fn expected(
    entries: &BTreeMap<String, Table>,
    rows: &Table,
    asked: &str,
    week_dose: Option<&Table>,
    profile: &Table,
    all_have: &[String],
    today: Day,
) -> Outcome {
    // "`hold = { because, by, on }` (she is not to exercise for now: no sheet is made, and the command says so)"
    if profile.contains_key("hold") || !entries.contains_key(asked) {
        return Outcome::LeftOut;
    }
    // "Choosing for a person (her precautions, and those of `all_have`)."
    let mut hers: BTreeSet<String> = all_have.iter().cloned().collect();
    hers.extend(words(profile, "precautions"));

    let question = Question { entries, rows, asked, week_dose, profile, hers, today };
    // "Among safe forms, one whose equipment she has comes before one whose equipment she lacks. If none is safe or
    // none can be done, the exercise is left out"
    for form in question.forms_in_order() {
        if question.is_safe(form) && question.can_be_done(form) {
            let variation = form.variation.map(|variation| text(variation, "title"));
            return Outcome::Form { exercise: form.exercise.to_owned(), variation };
        }
    }
    Outcome::LeftOut
}

/// Everything the answer depends on.
struct Question<'a> {
    entries: &'a BTreeMap<String, Table>,
    rows: &'a Table,
    asked: &'a str,
    week_dose: Option<&'a Table>,
    profile: &'a Table,
    hers: BTreeSet<String>,
    today: Day,
}

/// "one way to do an exercise: the exercise as it stands (its base form), or one of its variations"
#[derive(Clone, Copy)]
struct Form<'a> {
    exercise: &'a str,
    entry: &'a Table,
    variation: Option<&'a Table>,
}

impl Form<'_> {
    /// Whether a `use` with this name means this form.
    fn is_named(&self, name: &str) -> bool {
        match self.variation {
            Some(variation) => text(variation, "title") == name,
            None => self.exercise == name,
        }
    }
}

// The order in which forms are tried.
impl<'a> Question<'a> {
    /// "The forms are tried in this order: the educator's `prefer`; the form that a caution for her names in `use`;
    /// the base form; its variations as written; then regressions down the ladder with their variations."
    fn forms_in_order(&self) -> Vec<Form<'a>> {
        let mut order = Vec::new();
        for prefer in tables(self.profile, "prefer") {
            if text(prefer, "exercise") == self.asked {
                order.extend(self.form_named(&text(prefer, "form"), self.asked));
            }
        }
        let mut rungs = vec![self.asked];
        rungs.extend(self.ladder());
        for rung in rungs {
            let (mut named_seated, mut named_standing) = (Vec::new(), Vec::new());
            for caution in tables(&self.entries[rung], "caution") {
                let of_one = caution.contains_key("form");
                if !caution.contains_key("use") || of_one || !self.stands_for_her(caution, rung) {
                    continue;
                }
                if let Some(form) = self.form_named(&text(caution, "use"), rung) {
                    let rests =
                        ["seated", "lying", "side-lying", "prone"].contains(&position_of(form).as_str());
                    if rests { named_seated.push(form) } else { named_standing.push(form) }
                }
            }
            order.extend(named_seated);
            order.extend(named_standing);
            order.extend(self.forms_of(rung));
        }
        order
    }

    /// "The base form, then each variation as written. A form is a whole instruction: its own `steps`, or
    /// `keeps_steps = true`"
    fn forms_of(&self, exercise: &str) -> Vec<Form<'a>> {
        let Some((exercise, entry)) = self.entries.get_key_value(exercise) else { return Vec::new() };
        let mut forms = all_forms(exercise, entry);
        forms.retain(|form| {
            form.variation.is_none_or(|v| !words(v, "steps").is_empty() || is_true(v, "keeps_steps"))
        });
        forms
    }

    /// "`form` (a variation's title or an exercise's id)"; "`use` names a variation's title or an exercise that a
    /// regression leads to."
    fn form_named(&self, name: &str, from: &str) -> Option<Form<'a>> {
        for form in self.forms_of(from) {
            if form.is_named(name) {
                return Some(form);
            }
        }
        for rung in self.ladder_below(from) {
            if rung == name {
                return self.forms_of(rung).first().copied();
            }
        }
        None
    }

    /// "exercises linked by progressions, easiest first", followed downwards by regressions: the exercises below the
    /// one asked for, nearest first, each once.
    fn ladder(&self) -> Vec<&'a str> {
        self.ladder_below(self.asked)
    }

    fn ladder_below(&self, top: &str) -> Vec<&'a str> {
        let mut found: Vec<&'a str> = Vec::new();
        let mut rung = vec![top];
        while !rung.is_empty() {
            let mut below = Vec::new();
            for exercise in rung {
                for regression in tables(&self.entries[exercise], "regression") {
                    let Some((easier, _)) = self.entries.get_key_value(&text(regression, "exercise")) else {
                        continue;
                    };
                    if easier != top && !found.contains(&easier.as_str()) {
                        found.push(easier);
                        below.push(easier.as_str());
                    }
                }
            }
            rung = below;
        }
        found
    }

    /// Whether a caution is for her and no clearance has taken it away. "`ask`: not this form until a clearance;
    /// until then as `stop`"
    fn stands_for_her(&self, caution: &Table, exercise: &str) -> bool {
        if names(caution, "everyone") {
            return true;
        }
        self.hers.iter().any(|precaution| {
            names(caution, precaution)
                && !(text(caution, "level") == "ask"
                    && self.is_caution_cleared(caution, precaution, exercise))
        })
    }
}

// What a form asks of the body.
impl<'a> Question<'a> {
    fn demands(&self, form: Form) -> BTreeSet<String> {
        let week_dose = if form.exercise == self.asked { self.week_dose } else { None };
        self.demands_in(form, &self.links_to(form.exercise), week_dose)
    }

    /// Whether the exercise asks all that it speaks of, and says nothing to everyone that bars somebody.
    fn is_sure(&self, exercise: &str) -> bool {
        let entry = &self.entries[exercise];
        let forms: Vec<BTreeSet<String>> =
            all_forms(exercise, entry).into_iter().map(|form| self.demands_in(form, &[], None)).collect();
        let ways = ["variation", "regression", "progression"];
        let removed = ways.iter().flat_map(|way| tables(entry, way)).flat_map(|way| words(way, "removes"));
        let cautions = tables(entry, "caution");
        let about = cautions.iter().flat_map(|caution| words(caution, "about"));
        let bars = |caution: &&&Table| caution.contains_key("use") || text(caution, "level") != "adapt";
        removed.into_iter().all(|demand| forms[0].contains(&demand))
            && about.into_iter().all(|demand| forms.iter().any(|form| form.contains(&demand)))
            && !cautions.iter().filter(|caution| names(caution, "everyone")).any(|caution| bars(&caution))
    }

    /// "A variation has its own demands (base and derived, less `removes`, plus `adds`)"
    fn demands_in(&self, form: Form, links: &[&Table], week_dose: Option<&Table>) -> BTreeSet<String> {
        let entry = form.entry;
        let position = text(entry, "position");

        let mut demands: BTreeSet<String> = words(entry, "demands").into_iter().collect();
        if let Some(link) = links.first() {
            demands.extend(words(link, "adds"));
        }
        demands.extend(derived_from_place(&position, &surface_of(entry, &position)));
        if self.hold(form, links, week_dose).is_some_and(|hold| is_long(entry, hold))
            || has_lengthening_caution(entry)
        {
            demands.insert("long-hold".to_owned());
        }

        let Some(variation) = form.variation else { return demands };
        for removed in words(variation, "removes") {
            demands.remove(&removed);
        }
        demands.extend(words(variation, "adds"));

        // "Demands are declared and derived. What the fields already say counts whether or not it is declared"
        let surface = if variation.contains_key("surface") {
            text(variation, "surface")
        } else if variation.contains_key("position") {
            default_surface(&text(variation, "position"))
        } else {
            surface_of(entry, &position)
        };
        let position =
            if variation.contains_key("position") { text(variation, "position") } else { position };
        demands.extend(derived_from_place(&position, &surface));
        if self.hold(form, links, week_dose).is_some_and(|hold| is_long(entry, hold))
            || has_lengthening_caution(entry)
        {
            demands.insert("long-hold".to_owned());
        }
        let own = words(entry, "demands");
        let added = links.first().into_iter().flat_map(|link| words(link, "adds"));
        demands.extend(added.filter(|demand| !own.contains(demand)));
        demands
    }

    /// The seconds of the hold that is printed: "`dose` overrides fields for that week".
    fn hold(&self, form: Form, links: &[&Table], week_dose: Option<&Table>) -> Option<f64> {
        let own = form.variation.and_then(hold_of_dose);
        let link = links.first().and_then(|link| hold_of_dose(link));
        own.or(link).or(week_dose.and_then(hold_of)).or(hold_of_dose(form.entry))
    }

    /// Whether the week asks for a longer hold than the form has by itself.
    fn is_stretched(&self, form: Form) -> bool {
        let week_dose = if form.exercise == self.asked { self.week_dose } else { None };
        let links = self.links_to(form.exercise);
        self.hold(form, &links, week_dose).unwrap_or(0.0) > self.hold(form, &links, None).unwrap_or(0.0)
    }

    /// The regressions of the ladder that lead to an exercise below the one asked for.
    fn links_to(&self, exercise: &str) -> Vec<&'a Table> {
        let mut links = Vec::new();
        if exercise == self.asked {
            return links;
        }
        let mut above = vec![self.asked];
        above.extend(self.ladder());
        for harder in above {
            for regression in tables(&self.entries[harder], "regression") {
                if text(regression, "exercise") == exercise {
                    links.push(regression);
                }
            }
        }
        links
    }
}

// Whether a form is for her.
impl Question<'_> {
    /// "A form is safe when for each of her precautions: …"
    fn is_safe(&self, form: Form) -> bool {
        if !self.is_sure(form.exercise) {
            return false;
        }
        let demands = self.demands(form);
        for precaution in &self.hers {
            for (demand, by) in self.restricted_by(precaution) {
                if !demands.contains(&demand) {
                    continue;
                }
                let is_met = match by.as_str() {
                    // "no demand of it is one to `avoid`"
                    "avoid" => false,
                    // "each demand to `ask` about is cleared for her on that day"
                    "ask" => self.is_demand_cleared(&demand, precaution, form.exercise),
                    // "each demand to `modify` has an `adapt` caution for that precaution about it that belongs to
                    // the form"
                    "modify" => self.is_changed_in_words(&demand, precaution, form, &demands),
                    other => panic!("a row of `{precaution}` restricts by `{other}`"),
                };
                if !is_met {
                    return false;
                }
            }
        }

        // "and no caution that belongs to the form says `stop`, uncleared `ask`, or `adapt` with another form"
        for caution in tables(form.entry, "caution") {
            if !belongs(caution, form, &demands) {
                continue;
            }
            for whose in self.hers.iter().map(String::as_str).chain(["everyone"]) {
                if !names(caution, whose) {
                    continue;
                }
                let is_closed = match text(caution, "level").as_str() {
                    "stop" => true,
                    "ask" => !self.is_caution_cleared(caution, whose, form.exercise),
                    "adapt" => caution.contains_key("use") && !form.is_named(&text(caution, "use")),
                    other => panic!("a caution of `{}` has the level `{other}`", form.exercise),
                };
                if is_closed {
                    return false;
                }
            }
        }
        true
    }

    /// Each demand that a precaution restricts, and how.
    fn restricted_by(&self, precaution: &str) -> Vec<(String, String)> {
        let mut restricted = Vec::new();
        for row in tables(self.rows, "precaution") {
            if text(row, "id") == precaution {
                for restriction in tables(row, "restricts") {
                    restricted.push((text(restriction, "demand"), text(restriction, "by")));
                }
            }
        }
        restricted
    }

    fn is_changed_in_words(
        &self,
        demand: &str,
        precaution: &str,
        form: Form,
        demands: &BTreeSet<String>,
    ) -> bool {
        let is_new_to_them = demand == "long-hold" && self.is_stretched(form);
        !is_new_to_them
            && tables(form.entry, "caution").into_iter().any(|caution| {
                text(caution, "level") == "adapt"
                    && !caution.contains_key("use")
                    && names(caution, precaution)
                    && self.about(caution, precaution, form.exercise).contains(demand)
                    && belongs(caution, form, demands)
            })
    }

    /// "`about` names the demands that the caution speaks of. It may be left out where the precaution restricts at
    /// most one demand of the exercise; else the caution is a finding (`unclear-caution`)."
    fn about(&self, caution: &Table, precaution: &str, exercise: &str) -> BTreeSet<String> {
        if caution.contains_key("about") {
            return words(caution, "about").into_iter().collect();
        }
        let restricted = self.restricted_by(precaution);
        let named = text(caution, "form");
        let forms = all_forms(exercise, &self.entries[exercise]);
        let is_named =
            |form: &&Form| form.variation.is_some_and(|variation| text(variation, "title") == named);
        let demands = self.demands_in(*forms.iter().find(is_named).unwrap_or(&forms[0]), &[], None);
        let candidates =
            restricted.iter().map(|(demand, _)| demand.clone()).filter(|one| demands.contains(one));
        let candidates: BTreeSet<String> = candidates.collect();
        if candidates.len() == 1 { candidates } else { BTreeSet::new() }
    }

    /// "a clinician's written word that a person may do what a caution or a precaution says to ask about"; here a
    /// caution of `exercise`, for one of the precautions it names.
    fn is_caution_cleared(&self, caution: &Table, precaution: &str, exercise: &str) -> bool {
        let about = self.about(caution, precaution, exercise);
        let by_demands = !about.is_empty()
            && about.iter().all(|demand| self.is_demand_cleared(demand, precaution, exercise));
        let by_exercise = self
            .clearances_of(precaution)
            .into_iter()
            .any(|clearance| text(clearance, "exercise") == exercise && !clearance.contains_key("demand"));
        by_demands || by_exercise
    }

    /// "`[[cleared]]`: `exercise` or `demand`, `of = [precautions]`"
    fn is_demand_cleared(&self, demand: &str, precaution: &str, exercise: &str) -> bool {
        self.clearances_of(precaution).into_iter().any(|clearance| {
            let has_exercise = clearance.contains_key("exercise");
            let has_demand = clearance.contains_key("demand");
            (has_exercise || has_demand)
                && (!has_exercise || text(clearance, "exercise") == exercise)
                && (!has_demand || text(clearance, "demand") == demand)
        })
    }

    /// The clearances that hold today. "`until` (a date; 12 months after `on` when it is left out …)"
    fn clearances_of(&self, precaution: &str) -> Vec<&Table> {
        let mut valid = Vec::new();
        for clearance in tables(self.profile, "cleared") {
            let Some(on) = day(clearance, "on") else { continue };
            let until = day(clearance, "until").unwrap_or(a_year_after(on));
            let is_of = words(clearance, "of").iter().any(|one| one == precaution);
            if is_of && on <= self.today && self.today <= until {
                valid.push(clearance);
            }
        }
        valid
    }

    fn can_be_done(&self, form: Form) -> bool {
        if !self.profile.contains_key("equipment") {
            return true;
        }
        let hers = words(self.profile, "equipment");
        let needed = match form.variation {
            Some(variation) if variation.contains_key("equipment") => words(variation, "equipment"),
            _ => words(form.entry, "equipment"),
        };
        needed.iter().all(|one| hers.contains(one))
    }
}

/// "The base form, then each variation as written."
fn all_forms<'a>(exercise: &'a str, entry: &'a Table) -> Vec<Form<'a>> {
    let variations = tables(entry, "variation").into_iter().map(Some);
    std::iter::once(None).chain(variations).map(|variation| Form { exercise, entry, variation }).collect()
}

fn position_of(form: Form) -> String {
    let own = form.variation.filter(|variation| variation.contains_key("position"));
    text(own.unwrap_or(form.entry), "position")
}

/// "A caution belongs to the base form and to every variation that still has a demand of its `about` (without `about`:
/// to those with `keeps_steps`); with `form` it belongs to that variation alone. Cautions for everyone belong to every
/// form"
fn belongs(caution: &Table, form: Form, demands: &BTreeSet<String>) -> bool {
    if names(caution, "everyone") {
        return true;
    }
    if caution.contains_key("form") {
        return form.variation.is_some_and(|variation| text(variation, "title") == text(caution, "form"));
    }
    let Some(variation) = form.variation else { return true };
    if caution.contains_key("about") {
        words(caution, "about").iter().any(|demand| demands.contains(demand))
    } else {
        is_true(variation, "keeps_steps")
    }
}

/// Whether a caution's `for` holds this precaution or is this word.
fn names(caution: &Table, whose: &str) -> bool {
    text(caution, "for") == whose || words(caution, "for").iter().any(|one| one == whose)
}

/// "`floor` (default for lying, side-lying, prone, kneeling, hands-and-knees) or `bed`"
fn default_surface(position: &str) -> String {
    match position {
        "lying" | "side-lying" | "prone" | "kneeling" | "hands-and-knees" => "floor".to_owned(),
        _ => String::new(),
    }
}

fn surface_of(entry: &Table, position: &str) -> String {
    if entry.contains_key("surface") { text(entry, "surface") } else { default_surface(position) }
}

/// "a floor surface gives `floor-transfer`; lying gives `lying-flat`, prone `lying-prone`, kneeling `kneeling`,
/// hands-and-knees `kneeling` and `wrist-load`"
fn derived_from_place(position: &str, surface: &str) -> Vec<String> {
    let mut derived = Vec::new();
    if surface == "floor" {
        derived.push("floor-transfer");
    }
    match position {
        "lying" => derived.push("lying-flat"),
        "prone" => derived.push("lying-prone"),
        "kneeling" => derived.push("kneeling"),
        "hands-and-knees" => derived.extend(["kneeling", "wrist-load"]),
        _ => {}
    }
    derived.into_iter().map(str::to_owned).collect()
}

/// "a hold of more than 10 seconds in strength or posture gives `long-hold`"
fn is_long(entry: &Table, seconds: f64) -> bool {
    let component = text(entry, "component");
    (component == "strength" || component == "posture") && seconds > 10.0
}

/// "this form, changed as the text says (and with the caution's `dose`)"
fn has_lengthening_caution(entry: &Table) -> bool {
    tables(entry, "caution").into_iter().any(|caution| {
        text(caution, "level") == "adapt"
            && !caution.contains_key("use")
            && hold_of_dose(caution).is_some_and(|hold| is_long(entry, hold))
    })
}

fn hold_of_dose(table: &Table) -> Option<f64> {
    table.get("dose").and_then(Value::as_table).and_then(hold_of)
}

/// The seconds of a dose's `hold`: "Durations are a number and `s` or `min`", or a range of them.
fn hold_of(dose: &Table) -> Option<f64> {
    let hold = dose.get("hold")?.as_str()?;
    let (number, unit) = hold.split_once(' ')?;
    let high: f64 = number.rsplit('-').next()?.parse().ok()?;
    match unit {
        "s" => Some(high),
        "min" => Some(high * 60.0),
        _ => None,
    }
}

fn a_year_after((year, month, day): Day) -> Day {
    let day = if (month, day) == (2, 29) { 28 } else { day };
    (year + 1, month, day)
}

fn day(table: &Table, key: &str) -> Option<Day> {
    let date = table.get(key)?.as_datetime()?.date?;
    Some((date.year, date.month, date.day))
}

fn text(table: &Table, key: &str) -> String {
    table.get(key).and_then(Value::as_str).unwrap_or_default().to_owned()
}

fn is_true(table: &Table, key: &str) -> bool {
    table.get(key).and_then(Value::as_bool).unwrap_or(false)
}

fn words(table: &Table, key: &str) -> Vec<String> {
    let list = table.get(key).and_then(Value::as_array);
    list.into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect()
}

fn tables<'a>(table: &'a Table, key: &str) -> Vec<&'a Table> {
    let list = table.get(key).and_then(Value::as_array);
    list.into_iter().flatten().filter_map(Value::as_table).collect()
}
