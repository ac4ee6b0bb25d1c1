//! The sample's first week with a video, for the tests of the rules on it.

use super::{A_CUE, WITH_VIDEO};
use crate::review::rule::Rule;
use crate::review::testing::{edited, found};

const WEEK: &str = "content/series/first-steps/week-01.md";
const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

/// What a rule finds in captions with these cues, each as `line:column message`.
pub(in crate::review) fn with_cues(rule: &Rule, cues: &str) -> Vec<String> {
    found_in(rule, &edited(WEEK, &[WITH_VIDEO]), &format!("WEBVTT\n\n{cues}"))
}

/// What a rule finds with these places of the exercises in a video of 11:20; one that is empty is not there.
pub(in crate::review) fn with_places(rule: &Rule, places: [&str; 4]) -> Vec<String> {
    let ids = ["tall-sit", "feet-together-stand", "sit-to-stand", "heel-raise"];
    let mut week = edited(WEEK, &[WITH_VIDEO]);
    for (id, place) in ids.into_iter().zip(places).filter(|(_, place)| !place.is_empty()) {
        week = week.replace(&format!("{{ id = \"{id}\""), &format!("{{ id = \"{id}\", at = \"{place}\""));
    }
    found_in(rule, &week, A_CUE)
}

fn found_in(rule: &Rule, week: &str, captions: &str) -> Vec<String> {
    let found = found(&[(WEEK, week), (CAPTIONS, captions)]);
    found.into_iter().filter_map(|f| Some(f.strip_prefix(rule.name)?.trim_start().to_string())).collect()
}
