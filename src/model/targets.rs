//! Targets of a week and of what is proposed for the next, and the limits of captions: what the site or the series
//! sets, or else a default. The sources disagree, so every one can be set under `[targets]`.

use super::amount::Amount;
use super::series::Series;
use super::site::Site;

/// A target with its default and where that is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Target {
    /// As it stands in `[targets]`.
    pub name: &'static str,
    pub default: Amount,
    /// The values that can be set.
    pub bounds: (u32, u32),
    pub source: &'static str,
    /// How a source was read that was not read itself: for the educator, and on no page.
    pub read: Option<&'static str>,
}

/// Every target.
pub const ALL: [Target; 17] = [
    POSTURE_DAYS,
    BALANCE_DAYS,
    BALANCE_MINUTES,
    STRENGTH_DAYS,
    STRENGTH_SETS,
    STRENGTH_REPS,
    IMPACT_DAYS,
    IMPACTS,
    WORK_STEP,
    CAPTION_WORDS,
    CAPTION_LETTERS,
    CAPTION_LINE,
    CAPTION_LINES,
    CAPTION_SECONDS,
    SESSION_MINUTES,
    WEEKS_APART,
    LONG_HOLD,
];

/// Days a week of posture.
pub const POSTURE_DAYS: Target = target(
    "posture_days",
    (5, 7),
    7,
    "from 5 days (Sinaki 2002, Bone 30:836-841) to daily (Giangregorio 2015, Osteoporos Int 26:891-910, \
         Table 4); Morin 2023, CMAJ 195:E1333-E1348, asks for 2 or more",
);

/// Days a week of balance.
pub const BALANCE_DAYS: Target = target(
    "balance_days",
    (3, 7),
    7,
    "from 3 (WHO 2020, Br J Sports Med 54:1451-1462) to daily (Giangregorio 2015, Osteoporos Int 26:891-910, \
         Table 4)",
)
.read("WHO 2020 read in a summary");

/// Minutes a week of balance.
pub const BALANCE_MINUTES: Target = target(
    "balance_minutes",
    (120, 600),
    600,
    "2 hours (Sherrington 2011, NSW Public Health Bull 22:78-83); more than 3 hours did best (Sherrington 2017, \
         Br J Sports Med 51:1750-1758); the upper end only bounds it",
);

/// Days a week of strength.
pub const STRENGTH_DAYS: Target = target(
    "strength_days",
    (2, 3),
    7,
    "Kohrt 2004, Med Sci Sports Exerc 36:1985-1996; Garber 2011, Med Sci Sports Exerc 43:1334-1359",
);

/// Sets of a strength exercise.
pub const STRENGTH_SETS: Target =
    target("strength_sets", (1, 3), 10, "Giangregorio 2015, Osteoporos Int 26:891-910, Table 4");

/// Repetitions in a set of a strength exercise.
pub const STRENGTH_REPS: Target = target(
    "strength_reps",
    (8, 15),
    30,
    "from 8 (8 to 12: Giangregorio 2015, Osteoporos Int 26:891-910, Table 4) to 15 for frail or older people \
         (Nelson 2007, Med Sci Sports Exerc 39:1435-1445)",
)
.read("the 15 from memory, not verified");

/// Days a week with landings.
pub const IMPACT_DAYS: Target = target(
    "impact_days",
    (4, 7),
    7,
    "most days, in people without spine fractures (Brooke-Wavell 2022, Br J Sports Med 56:837-846)",
)
.read("read in summaries");

/// Landings in a session; its high end is the cap.
pub const IMPACTS: Target = target(
    "impacts",
    (50, 100),
    200,
    "50 a session in people without spine fractures (Brooke-Wavell 2022, Br J Sports Med 56:837-846) to 100 (Beck \
         2017, J Sci Med Sport 20:438-445)",
)
.read("Brooke-Wavell 2022 read in summaries, the 100 from memory, not verified");

/// By how many percent the work of a component may rise above that of every week before.
pub const WORK_STEP: Target = target(
    "work_step",
    (100, 100),
    500,
    "common practice, no source; 2 to 10 percent is the step of the load of one lift (Ratamess 2009, Med Sci Sports \
     Exerc 41:687-708, abstract), and weeks of different movements differ by more than that",
);

/// Words a minute of captions: above the low end is too fast for many, above the high end for most.
pub const CAPTION_WORDS: Target = target(
    "caption_words",
    (160, 180),
    300,
    "160 to 180 (BBC Subtitle Guidelines 1.2.3, 2024, section 4); 150 to 160 at most for adults with special \
         needs (DCMP Captioning Key)",
);

/// Letters a second of captions, spaces included, as for words.
pub const CAPTION_LETTERS: Target = target(
    "caption_letters",
    (15, 20),
    40,
    "17 for children and 20 for adults is usual for recorded films; 15 for older adults is common practice, no source",
)
.read("what is usual read in summaries");

/// Letters in a line of captions: above the low end it may break on a small picture, above the high end it does.
pub const CAPTION_LINE: Target = target(
    "caption_line",
    (37, 42),
    80,
    "37 (BBC Subtitle Guidelines 1.2.3, 2024, section 5); 32 (DCMP Captioning Key) to 42 (usual for recorded films)",
)
.read("what is usual read in a university's guide");

/// Lines of captions at once, as for the letters of a line.
pub const CAPTION_LINES: Target = target(
    "caption_lines",
    (2, 3),
    6,
    "2, or 3 where they hide nothing (BBC Subtitle Guidelines 1.2.3, 2024, section 5; DCMP Captioning Key)",
);

/// Seconds that captions stand on the picture.
pub const CAPTION_SECONDS: Target = target(
    "caption_seconds",
    (1, 7),
    30,
    "from 1.33 s to 6 s (DCMP Captioning Key) or 0.83 s to 7 s (usual for recorded films); rounded to whole seconds",
)
.read("DCMP Captioning Key read in a copy, what is usual in a university's guide");

/// Minutes that a session of a proposed week may take; its high end is the most.
pub const SESSION_MINUTES: Target = target(
    "session_minutes",
    (30, 30),
    600,
    "about 30 a session, which may be split through the day (Campbell and Robertson 2007, ACC1162); about 30 of \
         strength (NIH MedlinePlus Magazine, Spring 2012)",
)
.read("of Campbell and Robertson the 30 read in a summary, the split in a copy of their booklet for clients");

/// Weeks before an exercise returns: one of the last so many is not proposed. Its high end counts.
pub const WEEKS_APART: Target = target("weeks_apart", (2, 2), 52, "common practice, no source");

/// Seconds: a longer hold in strength or posture is a long hold. Its high end counts.
pub const LONG_HOLD: Target = target("long_hold", (10, 10), 600, "common practice, no source");

const fn target(name: &'static str, (low, high): (u32, u32), most: u32, source: &'static str) -> Target {
    Target { name, default: Amount { low, high }, bounds: (0, most), source, read: None }
}

impl Target {
    /// Says how its source was read.
    const fn read(self, read: &'static str) -> Target {
        Target { read: Some(read), ..self }
    }

    /// The source and how it was read, for the educator.
    pub fn source_as_read(&self) -> String {
        match self.read {
            Some(read) => format!("{}; {read}", self.source),
            None => self.source.to_string(),
        }
    }

    /// What holds for a series: what it sets, else what the site sets, else the default.
    pub fn of(&self, series: Option<&Series>, site: &Site) -> Amount {
        self.set(series, site).unwrap_or(self.default)
    }

    /// What the series or the site sets, if any of them does.
    pub fn set(&self, series: Option<&Series>, site: &Site) -> Option<Amount> {
        let own = series.and_then(|series| series.targets.get(self.name));
        own.or_else(|| site.targets.get(self.name)).map(|amount| amount.value)
    }
}
