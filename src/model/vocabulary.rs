//! The closed sets of words that authors choose from.

/// A closed set of words: every value, and the word an author writes for it.
pub trait Vocabulary: Copy + Sized + 'static {
    const ALL: &'static [Self];
    fn word(self) -> &'static str;

    /// The value an author's word stands for.
    fn from_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|v| v.word() == word)
    }
}

macro_rules! vocabulary {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($variant),+ }

        impl Vocabulary for $name {
            const ALL: &'static [Self] = &[$($name::$variant),+];
            fn word(self) -> &'static str {
                match self { $($name::$variant => $word),+ }
            }
        }
    };
}

pub(super) use vocabulary;

vocabulary! {
    /// Training component. Every week holds all four.
    Component { Posture = "posture", Balance = "balance", Strength = "strength", Power = "power" }
}

vocabulary! {
    /// The position an exercise is done in.
    Position {
        Lying = "lying", SideLying = "side-lying", Prone = "prone", Kneeling = "kneeling",
        HandsAndKnees = "hands-and-knees", Seated = "seated", Standing = "standing",
    }
}

impl Position {
    /// True for positions that are taken on a surface: the floor unless the entry says otherwise.
    pub fn is_on_floor(self) -> bool {
        !matches!(self, Position::Seated | Position::Standing)
    }
}

vocabulary! {
    /// What a form that is done lying, kneeling or on hands and knees is done on.
    Surface { Floor = "floor", Bed = "bed" }
}

vocabulary! {
    /// A region of the body that an exercise trains.
    Region {
        Neck = "neck", UpperBack = "upper-back", LowerBack = "lower-back", Chest = "chest", Shoulders = "shoulders",
        Arms = "arms", Belly = "belly", Hips = "hips", Thighs = "thighs", Calves = "calves",
    }
}

vocabulary! {
    /// What the hands hold.
    Support {
        Counter = "counter", Wall = "wall", Chair = "chair", Doorway = "doorway", Rail = "rail",
        Partner = "partner",
    }
}

vocabulary! {
    /// How repetitions are shared between the sides of the body.
    Sides { BothTogether = "both-together", Each = "each", Alternating = "alternating" }
}

vocabulary! {
    /// How strictly a caution is to be taken.
    CautionLevel { Stop = "stop", Adapt = "adapt", Ask = "ask" }
}

vocabulary! {
    /// What a precaution says about a demand.
    Restriction { Avoid = "avoid", Modify = "modify", Ask = "ask" }
}

vocabulary! {
    /// A day of the week, in the order of the week.
    Day {
        Monday = "monday", Tuesday = "tuesday", Wednesday = "wednesday", Thursday = "thursday",
        Friday = "friday", Saturday = "saturday", Sunday = "sunday",
    }
}

impl Day {
    /// Monday is 1, Sunday 7 (ISO 8601).
    pub fn number(self) -> i8 {
        self as i8 + 1
    }
}

vocabulary! {
    /// Paper of printed sheets.
    Paper { A4 = "a4", Letter = "letter" }
}

vocabulary! {
    /// How much a printed sheet says: each exercise on a card, everything that is known, or a week on one side.
    Extent { Cards = "cards", Full = "full", OnePage = "one-page" }
}

vocabulary! {
    /// Sections of an exercise's prose that the model knows.
    SectionName {
        SetUp = "set-up", Move = "move", Finish = "finish", Feel = "feel", WatchFor = "watch-for",
    }
}
