//! Reckoned figures, each from low to high as the doses they come from.

use std::iter::Sum;
use std::ops::Add;

use crate::model::amount::{Amount, Time};

/// A figure from `low` to `high`, both included: a count, or a length of time in milliseconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Between {
    pub low: u64,
    pub high: u64,
}

impl Between {
    pub const ZERO: Between = Between::new(0, 0);

    pub const fn new(low: u64, high: u64) -> Between {
        Between { low, high }
    }

    pub const fn exactly(n: u64) -> Between {
        Between::new(n, n)
    }

    /// So many times as much: the low of both together, the high of both together.
    pub fn times(self, other: Between) -> Between {
        Between::new(self.low.saturating_mul(other.low), self.high.saturating_mul(other.high))
    }

    /// One less at both ends, never below nothing: the gaps between so many things.
    pub fn gaps(self) -> Between {
        Between::new(self.low.saturating_sub(1), self.high.saturating_sub(1))
    }

    /// At both ends at least as much as the other.
    pub fn at_least(self, other: Between) -> Between {
        Between::new(self.low.max(other.low), self.high.max(other.high))
    }

    /// Of a length of time: seconds.
    pub fn seconds(self) -> (f64, f64) {
        (self.low as f64 / 1000.0, self.high as f64 / 1000.0)
    }

    /// Of a length of time: minutes, each rounded to the nearest and never below 1 for what takes time.
    pub fn minutes(self) -> (u64, u64) {
        let rounded = |ms: u64| ((ms + 30_000) / 60_000).max(u64::from(ms > 0));
        (rounded(self.low), rounded(self.high))
    }
}

impl Add for Between {
    type Output = Between;

    fn add(self, other: Between) -> Between {
        Between::new(self.low.saturating_add(other.low), self.high.saturating_add(other.high))
    }
}

impl Sum for Between {
    fn sum<I: Iterator<Item = Between>>(all: I) -> Between {
        all.fold(Between::ZERO, Add::add)
    }
}

impl From<Amount> for Between {
    fn from(amount: Amount) -> Between {
        Between::new(amount.low.into(), amount.high.into())
    }
}

/// Milliseconds.
impl From<Time> for Between {
    fn from(time: Time) -> Between {
        Between::new(time.low.into(), time.high.into())
    }
}
