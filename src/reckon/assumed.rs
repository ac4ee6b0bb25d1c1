//! What is reckoned with where a dose does not say it. Defaults, not advice: what an author writes comes
//! first.

use super::between::Between;
use crate::model::vocabulary::Component;

/// A default with where it is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Assumed {
    /// Milliseconds, or a count.
    pub value: Between,
    pub source: &'static str,
}

const fn seconds(low: u64, high: u64, source: &'static str) -> Assumed {
    Assumed { value: Between::new(low * 1000, high * 1000), source }
}

const fn count(low: u64, high: u64, source: &'static str) -> Assumed {
    Assumed { value: Between::new(low, high), source }
}

/// One repetition that is no hold.
pub fn pace(component: Component, impact: bool) -> Assumed {
    match component {
        _ if impact => seconds(
            1,
            4,
            "from 1 s for a hop with its reset (derived from the 50 hops in 2 minutes of Allison 2013, Bone 53:321-328) \
             to 4 s for a heel raise (1 s up, 3 s down; trial protocol, retirement-age adults, population from memory, not verified)",
        ),
        Component::Strength => seconds(
            4,
            7,
            "from 2 s up and 2 s down (trial protocol, retirement-age adults, population from memory, not verified) to 3 s up, 1 s hold, 3 s down \
             (NIH MedlinePlus Magazine, Spring 2012)",
        ),
        Component::Power => seconds(
            2,
            4,
            "from 2 s for a fast stand (2.28 to 2.96 s at ages 60 to 89, Bohannon 2006, Percept Mot Skills \
             103:215-222, rounded) to 1 s up and 3 s down (trial protocol, retirement-age adults, population from memory, not verified)",
        ),
        Component::Posture => seconds(5, 5, "common practice, no source (2 s, 1 s, 2 s)"),
        Component::Balance => seconds(4, 6, "common practice, no source"),
    }
}

/// Rest between sets.
pub fn rest(component: Component) -> Assumed {
    match component {
        Component::Strength => seconds(
            60,
            120,
            "1 to 2 min for beginners (from memory, not verified); about 1 min (NIA, a copy)",
        ),
        Component::Power => seconds(
            60,
            120,
            "1 to 2 min between sets of impacts (Beck 2017, J Sci Med Sport 20:438-445; from memory, not verified)",
        ),
        Component::Posture | Component::Balance => seconds(30, 60, "common practice, no source"),
    }
}

/// Days a week.
pub fn days(component: Component) -> Assumed {
    match component {
        Component::Strength => {
            count(2, 3, "Brooke-Wavell 2022, Br J Sports Med 56:837-846 (read in summaries); Kohrt 2004")
        }
        Component::Balance => count(
            3,
            7,
            "from WHO 2020, Br J Sports Med 54:1451-1462, to daily (Giangregorio 2015, Osteoporos Int \
             26:891-910, Table 4)",
        ),
        Component::Posture => count(
            5,
            7,
            "from 5 (Sinaki 2002, Bone 30:836-841) to daily (Giangregorio 2015, Osteoporos Int 26:891-910, Table 4)",
        ),
        Component::Power => {
            count(2, 3, "as for strength; power beside it 2 to 3 days, common practice, no source")
        }
    }
}

/// Sets, and repetitions of a hold.
pub const ONCE: Assumed = count(1, 1, "common practice, no source: what is not counted is done once");

/// From one side to the other.
pub const SIDE_CHANGE: Assumed = seconds(5, 10, "common practice, no source");

/// Into an exercise: from the one before, or into place.
pub const TRANSITION: Assumed = seconds(30, 60, "common practice, no source");

/// Down to a bed, a mat or the knees, and up again, beside the transition.
pub const TO_THE_FLOOR: Assumed = seconds(60, 60, "common practice, no source");
