//! The review: every rule over the whole model, then what the workspace accepts or changes.
//! Never writes, never changes the model.

pub mod accepted;
mod aims;
mod cache;
mod captions;
mod doses;
pub mod exceptions;
mod figures;
mod grammar;
mod mentions;
pub(crate) mod named;
pub mod report;
pub mod rule;
pub mod rules;
mod subjects;
pub mod texts;

#[cfg(test)]
pub(crate) mod testing;

use std::collections::BTreeSet;

use jiff::civil::Date;
use rayon::prelude::*;

use crate::model::Model;
use crate::model::finding::{Finding, Level, Subject};
use crate::model::nearest::suggestion;
use crate::model::series::Series;
use crate::model::site::RuleSetting;
use crate::model::source::{FileId, Sources, Span};
use crate::model::words::Words;
use crate::reckon::ladder::Ladders;
use crate::workspace::layout;
use cache::ByEntry;
pub use cache::ReviewCache;
use exceptions::Exception;
pub use figures::Drawn;
use rule::{Check, Rule};

/// What the rules look at.
pub struct Case<'a> {
    pub model: &'a Model,
    pub sources: &'a Sources,
    pub words: &'a Words,
    /// The day that dates are compared with.
    pub today: Date,
}

/// What a review found.
#[derive(Debug, Default)]
pub struct Review {
    /// In order of file and place.
    pub findings: Vec<Finding>,
    /// Findings that an entry accepts, each with the reason.
    pub exceptions: Vec<Exception>,
}

impl Review {
    /// How many findings have this level.
    pub fn count(&self, level: Level) -> usize {
        self.findings.iter().filter(|f| f.level == level).count()
    }

    /// True when something stands in the way of publishing.
    pub fn has_errors(&self) -> bool {
        self.count(Level::Error) > 0
    }

    /// The errors in these files alone.
    pub fn errors_in(mut self, files: &BTreeSet<FileId>) -> Review {
        self.findings.retain(|f| f.level == Level::Error && files.contains(&f.span.file));
        self.exceptions.clear();
        self
    }

    /// Keeps what concerns a series: in its own files and those of the exercises that its weeks use, and in the settings
    /// and the style sheets, which all pages are made with.
    pub fn keep_series(&mut self, case: &Case<'_>, series: &Series) {
        let mut files = BTreeSet::from([series.file, case.model.site.file]);
        for week in &series.weeks {
            files.insert(week.file);
            files.extend(case.model.exercises_of(week).map(|(_, exercise)| exercise.file));
        }
        let is_style = |file| layout::kind(&case.sources.get(file).name) == Some(layout::FileKind::Style);
        let about = |f: &Finding| files.contains(&f.span.file) || is_style(f.span.file);
        self.findings.retain(about);
        self.exceptions.retain(|exception| about(&exception.finding));
    }
}

/// Runs every rule, beside what was found while reading, and settles levels and exceptions.
pub fn review(case: &Case<'_>, found_while_reading: Vec<Finding>) -> Review {
    look(case, found_while_reading, &mut ReviewCache::default(), &|| true)
}

/// Says whether somebody still waits for a review. It is asked between entries and between rules, on every thread that
/// reviews; once it has said no, it never says yes again.
pub type Awaited<'w> = &'w (dyn Fn() -> bool + Sync);

/// The same as [`review`], for a workspace that was reviewed before: of `kept`, whatever has changed must have been
/// forgotten. `None` as soon as nobody waits for it; what was looked at until then is kept.
pub fn review_while(
    case: &Case<'_>,
    found_while_reading: Vec<Finding>,
    kept: &mut ReviewCache,
    awaited: Awaited<'_>,
) -> Option<Review> {
    let review = look(case, found_while_reading, kept, awaited);
    awaited().then_some(review)
}

/// The findings of every rule that is come to while somebody waits for them.
fn look(
    case: &Case<'_>,
    found_while_reading: Vec<Finding>,
    kept: &mut ReviewCache,
    awaited: Awaited<'_>,
) -> Review {
    let mut findings = found_while_reading;
    findings.extend(check_settings(case));
    let ReviewCache { texts, figures } = kept;
    // First, so that no rule places a figure once more for what it asks of a body.
    findings.extend(figures::review(case, figures, awaited));
    // Side by side: a rule on the whole model keeps one core busy, however long it takes.
    let (of_model, of_texts) =
        rayon::join(|| check_model(case, |_| awaited()), || texts::review(case, texts, awaited));
    if !awaited() {
        return Review::default();
    }
    findings.extend(of_model);
    findings.extend(of_texts);
    settle(case, findings)
}

/// What the rules find that are wanted, and no others.
fn check(case: &Case<'_>, wanted: impl Fn(&Rule) -> bool + Sync) -> Vec<Finding> {
    let mut findings = check_model(case, &wanted);
    let any = |is: fn(&Check) -> bool| rules::ALL.iter().any(|rule| wanted(rule) && is(&rule.check));
    let mut add = |found: Vec<Finding>| {
        findings.extend(found.into_iter().filter(|f| rules::find(f.rule).is_some_and(&wanted)));
    };
    if any(|check| matches!(check, Check::Texts(_))) {
        add(texts::review(case, &mut ByEntry::new(), &|| true));
    }
    if any(|check| check.of_figures().is_some()) {
        add(figures::review(case, &mut ByEntry::new(), &|| true));
    }
    findings
}

/// What the wanted rules on the whole model find.
fn check_model(case: &Case<'_>, wanted: impl Fn(&Rule) -> bool + Sync) -> Vec<Finding> {
    let ladders = Ladders::of(case.model);
    let found = rules::ALL.par_iter().filter(|rule| wanted(rule)).flat_map_iter(|rule| {
        let mut sink = Sink { rule, findings: Vec::new() };
        match rule.check {
            Check::Model(check) | Check::ModelAndFigures(check, _) => check(case, &mut sink),
            Check::Ladders(check) | Check::Limits(check) => check(case, &ladders, &mut sink),
            _ => {}
        }
        sink.findings
    });
    found.collect()
}

/// A review with what a later stage found beside it. The exceptions are matched anew, since a later
/// finding may be what an entry accepts.
pub fn join(case: &Case<'_>, earlier: Review, later: Vec<Finding>) -> Review {
    let matched_by_exceptions = |f: &Finding| f.rule == "needless-exception";
    let open = earlier.findings.into_iter().filter(|f| !matched_by_exceptions(f));
    let accepted = earlier.exceptions.into_iter().map(|e| e.finding);
    settle(case, open.chain(accepted).chain(later).collect())
}

/// Settles the levels and exceptions of findings: those of [`review`], or those that a later stage adds.
pub fn settle(case: &Case<'_>, findings: Vec<Finding>) -> Review {
    let mut review = exceptions::apply(case, findings);
    review.findings.retain_mut(|finding| match level(case, finding) {
        Some(level) => {
            finding.level = level;
            true
        }
        None => false,
    });
    fn key<'f>(case: &'f Case<'_>, f: &'f Finding) -> (&'f str, Span, &'static str) {
        (&case.sources.get(f.span.file).name, f.span, f.rule)
    }
    review.findings.sort_by(|a, b| key(case, a).cmp(&key(case, b)).then_with(|| a.message.cmp(&b.message)));
    review.findings.dedup();
    review.exceptions.sort_by(|a, b| key(case, &a.finding).cmp(&key(case, &b.finding)));
    review
}

/// The level a finding has in this workspace; `None` when its rule is switched off.
fn level(case: &Case<'_>, finding: &Finding) -> Option<Level> {
    // A finding of a rule that is missing from the list is never lost for it.
    let Some(rule) = rules::find(finding.rule) else { return Some(finding.level) };
    if finding.severe {
        return Some(Level::Error);
    }
    match case.model.site.rules.get(rule.name) {
        Some(setting) if !rule.safety => match setting.value {
            RuleSetting::Off => None,
            RuleSetting::At(level) => Some(level),
        },
        _ => Some(rule.level),
    }
}

/// The `[rules]` of `site.toml` name rules that exist and may be changed.
fn check_settings(case: &Case<'_>) -> Vec<Finding> {
    let settings = case.model.site.rules.iter();
    settings
        .filter_map(|(name, setting)| match rules::find(name) {
            None => Some(Finding::new(
                "wrong-value",
                setting.span,
                format!("expected the name of a rule, found `{name}`"),
                suggestion(name, rules::ALL.iter().map(|r| r.name)),
            )),
            Some(rule) if rule.safety => Some(Finding::new(
                "wrong-value",
                setting.span,
                format!("`{name}` is a safety rule, which no site can change as a whole"),
                "remove this line, and accept single findings in their entries with `accept = [{ finding, because, by, on }]`",
            )),
            Some(_) => None,
        })
        .collect()
}

/// Takes the findings of one rule.
pub struct Sink<'r> {
    rule: &'r Rule,
    findings: Vec<Finding>,
}

impl Sink<'_> {
    /// Adds a finding: `message` says what is wrong, `help` what to do.
    pub fn add(&mut self, span: Span, message: impl Into<String>, help: impl Into<String>) {
        self.add_at(false, span, message, help);
    }

    /// Adds a finding; a severe one is an error whatever level its rule has in the workspace.
    pub fn add_at(&mut self, severe: bool, span: Span, message: impl Into<String>, help: impl Into<String>) {
        self.about([]).add_at(severe, span, message, help);
    }

    /// Takes a finding about these, the most telling first: an exception to it can name them.
    pub fn about(&mut self, subjects: impl IntoIterator<Item = Subject>) -> About<'_> {
        About { rule: self.rule.name, findings: &mut self.findings, subjects: subjects.into_iter().collect() }
    }
}

/// Takes one finding of a rule, of which it is known what it is about.
pub struct About<'s> {
    rule: &'static str,
    findings: &'s mut Vec<Finding>,
    subjects: Vec<Subject>,
}

impl About<'_> {
    /// Adds the finding: `message` says what is wrong, `help` what to do.
    pub fn add(self, span: Span, message: impl Into<String>, help: impl Into<String>) {
        self.add_at(false, span, message, help);
    }

    /// Adds the finding; a severe one is an error whatever level its rule has in the workspace.
    pub fn add_at(self, severe: bool, span: Span, message: impl Into<String>, help: impl Into<String>) {
        let finding = Finding::new(self.rule, span, message, help).about(self.subjects);
        self.findings.push(Finding { severe, ..finding });
    }
}

#[cfg(test)]
mod tests {
    use super::testing::{TODAY, review_files, with_model_on, words};

    #[test]
    fn of_a_series_its_entries_the_settings_and_the_style_sheets_are_kept() {
        let broken = "```toml\n```\nWords.\n";
        let files = [
            ("content/exercises/tall-sit.md", broken),
            ("content/exercises/used-by-nobody.md", broken),
            ("content/pages/about.md", broken),
            ("themes/wideleaf/style/more.css", "h1 {"),
        ];
        let owned = files.iter().map(|(name, text)| (name.to_string(), text.as_bytes().to_vec())).collect();
        let (kept, sources) = with_model_on(owned, TODAY, words(), |case, findings| {
            let mut review = super::review(case, findings);
            let series = case.model.series.values().next().expect("the series of the sample");
            review.keep_series(case, series);
            review
        });
        let name = |file| sources.get(file).name.as_str();
        let kept: std::collections::BTreeSet<&str> =
            kept.findings.iter().map(|f| name(f.span.file)).collect();
        assert!(kept.contains("content/exercises/tall-sit.md") && kept.contains(files[3].0), "{kept:?}");
        assert!(!kept.contains(files[1].0) && !kept.contains(files[2].0), "{kept:?}");
        let (all, sources) = review_files(&files);
        let name = |file| sources.get(file).name.as_str();
        assert!(all.findings.iter().any(|f| name(f.span.file) == files[1].0), "nothing to leave out");
    }
}
