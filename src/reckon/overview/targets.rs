//! Each target with what every week has of it: met, perhaps met or missed.

use super::super::aims::{self, Aim, Figure, NoAim, Side, Unknown, aim};
use super::super::between::Between;
use crate::model::Model;
use crate::model::series::Series;
use crate::model::targets::Target;
use crate::model::week::Week;

/// A target over the weeks of a series.
pub struct TargetUse<'m> {
    pub target: &'static Target,
    pub aim: Result<Aim, NoAim>,
    /// One of every week, in their order.
    pub weeks: Vec<Score<'m>>,
}

/// What one week has of a target.
pub struct Score<'m> {
    /// One figure, or one of each exercise that the target is about. None where the week has nothing of it.
    pub figures: Result<Vec<Figure<'m>>, Unknown<'m>>,
    pub verdict: Verdict,
}

/// How a week stands to a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    Met,
    /// Only the high end of the doses meets it.
    Perhaps,
    Below,
    Above,
    /// Some of its exercises are below, others above.
    BelowAndAbove,
    /// The week has nothing of it.
    Nothing,
    /// There is no aim, or the figures are not known.
    Open,
}

pub(super) fn of<'m>(model: &'m Model, series: &'m Series) -> Vec<TargetUse<'m>> {
    let figures: Vec<Result<Vec<Figure<'m>>, Unknown<'m>>> =
        series.weeks.iter().map(|week| figures(model, week)).collect();
    let use_of = |target: &'static Target| {
        let aim = aim(target, series, &model.site);
        let weeks = figures.iter().map(|figures| {
            let figures = figures.clone().map(|all| all.into_iter().filter(|f| f.target == target).collect());
            Score { verdict: verdict(&figures, &aim), figures }
        });
        TargetUse { target, weeks: weeks.collect(), aim }
    };
    aims::TARGETS.into_iter().map(use_of).collect()
}

fn figures<'m>(model: &'m Model, week: &'m Week) -> Result<Vec<Figure<'m>>, Unknown<'m>> {
    aims::unknown(model, week).map_or_else(|| Ok(aims::figures(model, week)), Err)
}

fn verdict(figures: &Result<Vec<Figure<'_>>, Unknown<'_>>, aim: &Result<Aim, NoAim>) -> Verdict {
    let (Ok(figures), Ok(aim)) = (figures, aim) else { return Verdict::Open };
    let on = |side| figures.iter().any(|figure| Side::of(figure.value, aim.amount) == side);
    match (on(Side::Below), on(Side::Above)) {
        _ if figures.is_empty() => Verdict::Nothing,
        (true, true) => Verdict::BelowAndAbove,
        (true, false) => Verdict::Below,
        (false, true) => Verdict::Above,
        (false, false) if on(Side::Perhaps) => Verdict::Perhaps,
        (false, false) => Verdict::Met,
    }
}

impl Score<'_> {
    /// From the lowest to the highest of its figures.
    pub fn range(&self) -> Option<Between> {
        let figures = self.figures.as_ref().ok()?;
        let low = figures.iter().map(|figure| figure.value.low).min()?;
        let high = figures.iter().map(|figure| figure.value.high).max()?;
        Some(Between::new(low, high))
    }
}

impl TargetUse<'_> {
    /// In how many weeks it is met or missed.
    pub fn judged(&self) -> usize {
        let open = [Verdict::Nothing, Verdict::Open];
        self.weeks.iter().filter(|score| !open.contains(&score.verdict)).count()
    }

    /// In how many weeks it stands so.
    pub fn count(&self, verdict: Verdict) -> usize {
        self.weeks.iter().filter(|score| score.verdict == verdict).count()
    }
}
