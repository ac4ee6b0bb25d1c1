//! When a load has become too light, by the repetitions that are done of it.

/// What repetitions beyond the planned ones call for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// The load fits.
    Stay,
    /// The last session went beyond the plan: the load is light, and no reason yet to raise it.
    /// Giangregorio et al. 2014, Osteoporos Int 25(3):821-835, Table 6.
    Light,
    /// Two sessions running went at least two beyond it: raise the load by one step.
    Raise,
}

/// By how many percent a load is raised in one step, from low to high.
/// Ratamess et al. 2009, Med Sci Sports Exerc 41(3):687-708, abstract.
pub const STEP_PERCENT: (u32, u32) = (2, 10);

/// What the repetitions of the last sessions, the latest at the end, say of a load that was meant for `most`
/// repetitions. Two beyond the plan in two sessions running raise it: Baechle and Earle, Essentials of
/// Strength Training and Conditioning (read in a summary).
pub fn progress(most: u32, done: &[u32]) -> Progress {
    let beyond = |reps: &u32, by: u32| *reps >= most.saturating_add(by);
    match done {
        [.., before, last] if beyond(before, 2) && beyond(last, 2) => Progress::Raise,
        [.., last] if beyond(last, 1) => Progress::Light,
        _ => Progress::Stay,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A load for 12 repetitions. Ratamess et al. 2009 and the two-for-two rule; the note on 13 from
    /// Giangregorio et al. 2014, Table 6.
    #[test]
    fn two_beyond_the_plan_in_two_sessions_running_raise_the_load() {
        assert_eq!(progress(12, &[14, 14]), Progress::Raise);
        assert_eq!(STEP_PERCENT, (2, 10));
        for (done, expected) in [
            (vec![13], Progress::Light),
            (vec![12, 14], Progress::Light),
            (vec![14, 12], Progress::Stay),
            (vec![14, 14, 12], Progress::Stay),
            (vec![12, 15, 14], Progress::Raise),
            (vec![13, 14], Progress::Light),
            (vec![12], Progress::Stay),
            (vec![], Progress::Stay),
        ] {
            assert_eq!(progress(12, &done), expected, "{done:?}");
        }
    }
}
