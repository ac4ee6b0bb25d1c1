//! Counts and lengths of time, each a range from low to high.

use std::fmt;

/// A count, such as repetitions: from `low` to `high`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Amount {
    pub low: u32,
    pub high: u32,
}

impl Amount {
    pub fn exactly(n: u32) -> Amount {
        Amount { low: n, high: n }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.low == self.high {
            write!(f, "{}", self.low)
        } else {
            write!(f, "{}-{}", self.low, self.high)
        }
    }
}

/// The unit the author wrote a length of time in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TimeUnit {
    Second,
    Minute,
}

/// A length of time from `low` to `high`, in milliseconds, with the unit the author chose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Time {
    pub low: u32,
    pub high: u32,
    pub unit: TimeUnit,
}

impl Time {
    /// Low and high in the author's unit.
    pub fn in_unit(self) -> (f64, f64) {
        let each = self.unit.millis();
        (f64::from(self.low) / each, f64::from(self.high) / each)
    }
}

impl TimeUnit {
    pub fn millis(self) -> f64 {
        match self {
            TimeUnit::Second => 1_000.0,
            TimeUnit::Minute => 60_000.0,
        }
    }

    /// The sign an author writes.
    pub fn sign(self) -> &'static str {
        match self {
            TimeUnit::Second => "s",
            TimeUnit::Minute => "min",
        }
    }
}

impl fmt::Display for Time {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (low, high) = self.in_unit();
        if low == high {
            write!(f, "{low} {}", self.unit.sign())
        } else {
            write!(f, "{low}-{high} {}", self.unit.sign())
        }
    }
}
