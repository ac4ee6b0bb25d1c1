//! Demands and precautions: which a workspace knows, and what each precaution restricts.
//!
//! The built-in rows are data (`precautions.toml`), each with its source; `site.toml` extends and
//! changes them.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::vocabulary::{Restriction, Vocabulary};

/// The built-in demands: what a movement asks of the body.
pub const DEMANDS: [&str; 37] = [
    "floor-transfer",
    "lying-flat",
    "lying-prone",
    "kneeling",
    "end-range-flexion",
    "loaded-flexion",
    "end-range-twist",
    "end-range-extension",
    "overhead-reach",
    "overhead-load",
    "wrist-load",
    "deep-knee-bend",
    "deep-hip-bend",
    "crossing-midline",
    "single-leg-stance",
    "narrow-stance",
    "eyes-closed",
    "head-turn",
    "head-below-heart",
    "quick-rise",
    "long-hold",
    "breath-strain",
    "heavy-load",
    "impact-low",
    "impact-moderate",
    "impact-high",
    "hands-full",
    "tiptoe",
    "step-back",
    "step-down",
    "lie-to-sit",
    "look-up",
    "quick-head-move",
    "hip-extension",
    "hip-turn-in",
    "grip",
    "dual-task",
];

/// What a workspace knows of demands and precautions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Catalogue {
    /// Demands by id; the label is the workspace's own wording, where it has one.
    pub demands: BTreeMap<String, Option<String>>,
    pub precautions: BTreeMap<String, Precaution>,
}

/// A condition of a person that restricts demands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Precaution {
    /// The workspace's own wording, where it has one; else the theme's words have it.
    pub label: Option<String>,
    /// By demand.
    pub restricts: BTreeMap<String, Row>,
}

/// What a precaution says about one demand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    pub by: Restriction,
    /// What to do instead.
    pub instead: Option<String>,
    /// Where the row is from, or "common practice, no source".
    pub source: String,
}

impl Catalogue {
    /// The rows the program comes with.
    pub fn built_in() -> Catalogue {
        let file: File = toml::from_str(include_str!("precautions.toml"))
            .expect("the built-in rows are valid, which a test shows");
        let precautions = file.precaution.into_iter().map(|p| {
            let restricts = p.restricts.into_iter().filter_map(|r| {
                let by = Restriction::from_word(&r.by)?;
                Some((r.demand, Row { by, instead: Some(r.instead), source: r.source }))
            });
            (p.id, Precaution { label: None, restricts: restricts.collect() })
        });
        Catalogue {
            demands: DEMANDS.iter().map(|d| (d.to_string(), None)).collect(),
            precautions: precautions.collect(),
        }
    }

    /// What a precaution says about a demand, if anything.
    pub fn row(&self, precaution: &str, demand: &str) -> Option<&Row> {
        self.precautions.get(precaution)?.restricts.get(demand)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    precaution: Vec<FilePrecaution>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FilePrecaution {
    id: String,
    restricts: Vec<FileRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileRow {
    demand: String,
    by: String,
    instead: String,
    source: String,
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_built_in_row_is_valid_and_has_a_source() {
        let file: File = toml::from_str(include_str!("precautions.toml")).unwrap();
        for precaution in &file.precaution {
            let mut seen = BTreeSet::new();
            for row in &precaution.restricts {
                let place = format!("{} / {}", precaution.id, row.demand);
                assert!(DEMANDS.contains(&row.demand.as_str()), "{place}: unknown demand");
                assert!(Restriction::from_word(&row.by).is_some(), "{place}: by = {}", row.by);
                assert!(!row.source.trim().is_empty(), "{place}: no source");
                assert!(!row.instead.trim().is_empty(), "{place}: nothing to do instead");
                assert!(seen.insert(&row.demand), "{place}: twice");
            }
        }
    }

    /// The limits of the published table of movement precautions, row by row.
    /// Sources: Giangregorio et al. 2015, Osteoporos Int 26(3):891-910, Tables 4 and 5; Brooke-Wavell
    /// et al. 2022, Br J Sports Med 56(15):837-846, abstract; Eannucci et al. 2019, HSS J 15:247-253;
    /// Jasien et al. 2015, PLoS ONE 10(12):e0144505; Campbell and Robertson 2007, ACC1162; the doctor-first list of the National
    /// Institutes of Health's pages for older adults; the rest common practice, no source.
    #[test]
    fn the_rows_agree_with_the_published_precautions() {
        use Restriction::{Ask, Avoid, Modify};
        let catalogue = Catalogue::built_in();
        for (precaution, demand, by, source) in [
            ("spine-fracture", "end-range-flexion", Avoid, "Giangregorio 2015"),
            ("low-bone-density", "end-range-flexion", Modify, "Giangregorio 2015"),
            ("spine-fracture", "end-range-twist", Avoid, "Giangregorio 2015"),
            ("low-bone-density", "end-range-twist", Modify, "Giangregorio 2015"),
            ("spine-fracture", "loaded-flexion", Avoid, "Giangregorio 2015"),
            ("spine-fracture", "overhead-load", Avoid, "Giangregorio 2015"),
            ("spine-fracture", "impact-moderate", Avoid, "Brooke-Wavell 2022"),
            ("spine-fracture", "impact-high", Avoid, "Brooke-Wavell 2022"),
            ("spine-fracture", "floor-transfer", Modify, "Giangregorio 2015"),
            ("low-bone-density", "impact-high", Ask, "Allison 2013"),
            ("rounded-upper-back", "lying-flat", Modify, "Giangregorio 2015"),
            ("rounded-upper-back", "lying-prone", Modify, "common practice"),
            ("high-blood-pressure", "breath-strain", Avoid, "National Institute on Aging"),
            ("high-blood-pressure", "long-hold", Modify, "National Institute on Aging"),
            ("low-bone-density", "impact-moderate", Ask, "Allison 2013"),
            ("other-fracture", "impact-moderate", Avoid, "Brooke-Wavell 2022"),
            ("spine-fracture", "lie-to-sit", Modify, "Giangregorio 2015"),
            ("hip-replacement", "deep-hip-bend", Ask, "Eannucci 2019"),
            ("hip-replacement", "crossing-midline", Ask, "Eannucci 2019"),
            ("hip-replacement", "hip-turn-in", Ask, "Reimert"),
            ("hip-replacement", "hip-extension", Ask, "common practice"),
            ("knee-replacement", "kneeling", Ask, "common practice"),
            ("knee-replacement", "deep-knee-bend", Ask, "common practice"),
            ("unsteady", "hands-full", Avoid, "Campbell and Robertson 2007"),
            ("unsteady", "step-back", Modify, "common practice"),
            ("foot-numbness", "impact-low", Modify, "National Institutes of Health"),
            ("hernia-or-aneurysm", "heavy-load", Ask, "National Institutes of Health"),
            ("eye-surgery", "head-below-heart", Ask, "National Institutes of Health"),
            ("heart-or-lung", "lying-flat", Modify, "common practice"),
            ("wrist-fracture", "wrist-load", Modify, "common practice"),
            ("unsteady", "single-leg-stance", Modify, "Giangregorio 2015"),
            ("unsteady", "narrow-stance", Modify, "Giangregorio 2015"),
            ("unsteady", "eyes-closed", Avoid, "Giangregorio 2015"),
            ("unsteady", "head-turn", Modify, "Giangregorio 2015"),
            ("no-floor", "floor-transfer", Avoid, "common practice"),
            ("pelvic-floor-symptoms", "impact-high", Avoid, "common practice"),
            ("dizziness", "eyes-closed", Avoid, "common practice"),
            ("dizzy-on-standing", "quick-rise", Modify, "common practice"),
            ("shoulder-pain", "overhead-load", Avoid, "common practice"),
            ("glaucoma", "head-below-heart", Avoid, "Jasien 2015"),
            ("spinal-stenosis", "end-range-extension", Ask, "common practice"),
            ("knee-arthritis", "deep-knee-bend", Modify, "common practice"),
            ("foot-numbness", "impact-moderate", Ask, "common practice"),
        ] {
            let row = catalogue.row(precaution, demand);
            let row = row.unwrap_or_else(|| panic!("{precaution} says nothing about {demand}"));
            assert_eq!(row.by, by, "{precaution} / {demand}");
            assert!(row.source.contains(source), "{precaution} / {demand}: {}", row.source);
        }
        assert_eq!(catalogue.precautions.len(), 27);
    }
}
