//! Reasoned exceptions: an `accept` row takes the findings it names out of the review and lists them
//! with the reason.

use std::collections::BTreeMap;

use super::rule::Check;
use super::{Case, Review, captions, rules};
use crate::model::accept::Accept;
use crate::model::finding::Finding;
use crate::model::nearest::suggestion;
use crate::model::source::{FileId, Span};

/// A finding that its entry accepts.
#[derive(Debug)]
pub struct Exception {
    pub finding: Finding,
    /// The `accept` row.
    pub span: Span,
    pub because: String,
}

/// Matches every `accept` row with the findings of its own file, and of the captions that its week names.
pub(super) fn apply(case: &Case<'_>, findings: Vec<Finding>) -> Review {
    let rows = rows(case);
    let weeks = captions::weeks(case);
    let mut review = Review::default();
    // Each row looks at the findings of its own file and rule only: a file may have thousands.
    let mut groups: BTreeMap<(FileId, &'static str), Vec<Finding>> = BTreeMap::new();
    for finding in findings {
        let file = weeks.get(&finding.span.file).copied().unwrap_or(finding.span.file);
        match rows.get(&file).is_some_and(|rows| !rows.is_empty()) {
            true => groups.entry((file, finding.rule)).or_default().push(finding),
            false => review.findings.push(finding),
        }
    }
    for (file, rows) in rows {
        for row in rows {
            apply_row(file, row, &mut groups, &mut review);
        }
    }
    review.findings.extend(groups.into_values().flatten());
    review
}

fn apply_row(
    file: FileId,
    row: &Accept,
    groups: &mut BTreeMap<(FileId, &'static str), Vec<Finding>>,
    review: &mut Review,
) {
    let mut words = row.finding.value.split_whitespace();
    let name = words.next().unwrap_or("");
    let Some(rule) = rules::find(name) else {
        let help = suggestion(name, rules::ALL.iter().map(|r| r.name));
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected the name of a rule, found `{name}`"),
            help,
        ));
        return;
    };
    if matches!(rule.check, Check::WhileReading | Check::Exceptions) {
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected a finding that can be accepted, found `{name}`"),
            "mend what it points at, and remove this row",
        ));
        return;
    }
    let words: Vec<String> = words.map(|w| format!("`{w}`")).collect();
    let matches = |f: &Finding| words.iter().all(|w| f.message.contains(w));
    let group = groups.entry((file, rule.name)).or_default();
    let count = group.iter().filter(|f| matches(f)).count();
    // What the finished pages show is known only to `make`.
    if count == 0 && matches!(rule.check, Check::Pages) {
        return;
    }
    if count == 0 {
        review.findings.push(Finding::new(
            "needless-exception",
            row.span,
            format!("this entry accepts `{}`, but there is no such finding", row.finding.value),
            "remove this row",
        ));
    } else if rule.safety && count > 1 {
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected one finding of a safety rule to accept, found {count} that `{}` fits", row.finding.value),
            "add words of the finding you mean, such as `unanswered-demand impact-low spine-fracture`, and a row for each",
        ));
    } else {
        let (accepted, rest): (Vec<Finding>, _) = std::mem::take(group).into_iter().partition(matches);
        *group = rest;
        review.exceptions.extend(accepted.into_iter().map(|finding| Exception {
            finding,
            span: row.span,
            because: row.because.value.clone(),
        }));
    }
}

fn rows<'a>(case: &Case<'a>) -> BTreeMap<FileId, Vec<&'a Accept>> {
    let model = case.model;
    let exercises = model.exercises.values().map(|e| (e.file, &e.accept));
    let series = model.series.values().map(|s| (s.file, &s.accept));
    let weeks = model.weeks().map(|(_, w)| (w.file, &w.accept));
    let pages = model.pages.values().map(|p| (p.file, &p.accept));
    let all = exercises.chain(series).chain(weeks).chain(pages);
    let mut rows: BTreeMap<FileId, Vec<&Accept>> = BTreeMap::new();
    for (file, accept) in all {
        rows.entry(file).or_default().extend(accept);
    }
    rows
}

#[cfg(test)]
mod tests {
    use crate::model::finding::Level;
    use crate::review::testing::{edited, found, review_files};
    use crate::review::{Review, rules};

    const DROP: &str = "content/exercises/heel-drop.md";
    const SIT: &str = "content/exercises/tall-sit.md";
    const SITE: &str = "site.toml";

    /// heel-drop without an answer for two precautions, with `accept`.
    fn unanswered(accept: &str) -> String {
        edited(
            DROP,
            &[
                (
                    "demands = [\"impact-low\", \"tiptoe\"]",
                    &format!("demands = [\"end-range-twist\", \"tiptoe\"]\naccept = [{accept}]"),
                ),
                ("removes = [\"impact-low\", \"tiptoe\"]\n", "removes = [\"tiptoe\"]\n"),
                (
                    "exercise = \"heel-raise\"\nremoves = [\"impact-low\"]\n",
                    "exercise = \"heel-raise\"\nadds = [\"end-range-twist\"]\n",
                ),
                ("about = [\"impact-low\"]", "about = [\"end-range-twist\"]"),
            ],
        )
    }

    fn rules_of(review: &Review) -> Vec<&str> {
        review.findings.iter().map(|f| f.rule).collect()
    }

    #[test]
    fn a_safety_finding_is_accepted_one_by_one_and_listed_with_its_reason() {
        let row = "{ finding = \"unanswered-demand end-range-twist spine-fracture\", because = \"Only in class.\" }";
        let (review, sources) = review_files(&[(DROP, &unanswered(row))]);
        assert_eq!(rules_of(&review), ["unanswered-demand"], "the other precaution stands");
        assert!(review.findings[0].message.contains("`low-bone-density`"));
        assert_eq!(review.exceptions.len(), 1);
        let exception = &review.exceptions[0];
        assert_eq!(exception.because, "Only in class.");
        assert!(exception.finding.message.contains("`spine-fracture`"));
        assert_eq!(sources.slice(exception.span), row);
        assert!(review.has_errors());
    }

    #[test]
    fn one_row_cannot_accept_several_findings_of_a_safety_rule() {
        let row = "{ finding = \"unanswered-demand end-range-twist\", because = \"Only in class.\" }";
        let (review, _) = review_files(&[(DROP, &unanswered(row))]);
        assert_eq!(rules_of(&review), ["unanswered-demand", "unanswered-demand", "wrong-value"]);
        assert_eq!(review.exceptions.len(), 0);
    }

    #[test]
    fn one_row_may_accept_several_findings_of_another_rule() {
        let accept = "accept = [{ finding = \"broken-link\", because = \"The pages come next month.\" }]\n";
        let text = format!("```toml\ntitle = \"About us\"\n{accept}```\n[x](a.md) [y](b.md)\n");
        let (review, _) = review_files(&[("content/pages/about.md", &text)]);
        assert_eq!(rules_of(&review), [""; 0]);
        assert_eq!(review.exceptions.len(), 2);
    }

    #[test]
    fn an_exception_counts_in_its_own_entry_only() {
        let accept = "accept = [{ finding = \"missing-caution\", because = \"Seated.\" }]\n\n[dose]";
        let sit = edited(SIT, &[("[dose]", accept)]);
        let whole = edited(DROP, &[]);
        let (before, rest) = whole.split_once("# `about` names").unwrap();
        let (cautions, figure) = rest.split_once("[[figure]]\ndescription = \"She holds").unwrap();
        assert_eq!(cautions.matches("[[caution]]").count(), 3);
        let drop = format!("{before}[[figure]]\ndescription = \"She holds{figure}");
        let (review, _) = review_files(&[(SIT, &sit), (DROP, &drop)]);
        assert_eq!(rules_of(&review), ["missing-caution", "needless-exception"]);
    }

    #[test]
    fn an_exception_without_a_reason_is_an_error_and_accepts_nothing() {
        for because in ["because = \"\"", "because = \"  \"", ""] {
            let comma = if because.is_empty() { "" } else { ", " };
            let row = format!("{{ finding = \"missing-caution\"{comma}{because} }}");
            let text = edited(
                SIT,
                &[
                    ("demands = []", &format!("demands = []\naccept = [{row}]")),
                    (
                        "[[caution]]\nfor = [\"spine-fracture\"]\nlevel = \"adapt\"\ntext = \"Grow tall gently. Do not arch your back.\"\n",
                        "",
                    ),
                ],
            );
            let (review, _) = review_files(&[(SIT, &text)]);
            let rule = if because.is_empty() { "missing-field" } else { "wrong-value" };
            assert_eq!(rules_of(&review), ["missing-caution", rule], "{row}");
            assert!(review.findings.iter().all(|f| f.level == Level::Error));
            assert_eq!(review.exceptions.len(), 0);
        }
    }

    #[test]
    fn an_exception_names_a_rule_that_can_be_accepted() {
        for (name, message) in [
            ("mising-caution", "expected the name of a rule, found `mising-caution`"),
            ("wrong-value", "expected a finding that can be accepted, found `wrong-value`"),
            ("unreadable-entry", "expected a finding that can be accepted, found `unreadable-entry`"),
            ("needless-exception", "expected a finding that can be accepted, found `needless-exception`"),
        ] {
            let accept = format!("demands = []\naccept = [{{ finding = \"{name}\", because = \"So.\" }}]");
            let found = found(&[(SIT, &edited(SIT, &[("demands = []", &accept)]))]);
            assert_eq!(found, [format!("wrong-value 10:23 {message}")]);
        }
    }

    #[test]
    fn a_rule_that_is_no_safety_rule_can_be_lowered_raised_or_switched_off() {
        let link = "```toml\ntitle = \"About us\"\n```\n[x](a.md)\n";
        let old = "# [rules]\n# review-overdue = \"note\"\n";
        for (setting, expected) in [
            ("off", None),
            ("note", Some(Level::Note)),
            ("warning", Some(Level::Warning)),
            ("error", Some(Level::Error)),
        ] {
            let site = edited(SITE, &[(old, &format!("[rules]\nbroken-link = \"{setting}\"\n"))]);
            let (review, _) = review_files(&[(SITE, &site), ("content/pages/about.md", link)]);
            let levels: Vec<Level> = review.findings.iter().map(|f| f.level).collect();
            assert_eq!(levels, Vec::from_iter(expected), "{setting}");
        }
    }

    #[test]
    fn no_safety_rule_can_be_switched_off_or_lowered() {
        let old = "# [rules]\n# review-overdue = \"note\"\n";
        let drop = unanswered("");
        for rule in rules::ALL.iter().filter(|r| r.safety) {
            for setting in ["off", "note", "warning"] {
                let site = edited(SITE, &[(old, &format!("[rules]\n{} = \"{setting}\"\n", rule.name))]);
                let (review, _) = review_files(&[(SITE, &site), (DROP, &drop)]);
                assert_eq!(
                    rules_of(&review),
                    ["unanswered-demand", "unanswered-demand", "wrong-value"],
                    "{}",
                    rule.name
                );
                assert!(review.findings.iter().all(|f| f.level == Level::Error), "{}", rule.name);
                let message =
                    format!("`{}` is a safety rule, which no site can change as a whole", rule.name);
                assert!(review.findings.iter().any(|f| f.message == message), "{message}");
            }
        }
    }

    #[test]
    fn the_safety_rules_are_these() {
        let safety: Vec<&str> = rules::ALL.iter().filter(|r| r.safety).map(|r| r.name).collect();
        assert_eq!(
            safety,
            [
                "unreadable-entry",
                "unknown-field",
                "wrong-value",
                "missing-field",
                "missing-caution",
                "unanswered-demand",
                "unclear-caution",
                "caution-without-form",
                "bare-variation",
                "no-easier-way",
                "floor-only",
                "unsteady-without-support",
                "demand-not-declared",
                "figure-position-mismatch",
                "impossible-joint",
                "floating-figure",
                "through-the-prop",
                "impact-unprepared",
                "absent-form",
                "thanks-without-consent"
            ]
        );
        assert!(rules::ALL.iter().filter(|r| r.safety).all(|r| r.level == Level::Error));
    }

    #[test]
    fn site_settings_name_rules_and_levels_that_exist() {
        let old = "# [rules]\n# review-overdue = \"note\"\n";
        for (line, message) in [
            ("broken-lnk = \"off\"", "31:1 expected the name of a rule, found `broken-lnk`"),
            ("broken-link = \"of\"", "31:15 expected one of `off`, `note`, `warning`, `error`, found `of`"),
            ("broken-link = false", "31:15 expected one of `off`, `note`, `warning`, `error`, found no word"),
        ] {
            let site = edited(SITE, &[(old, &format!("[rules]\n{line}\n"))]);
            assert_eq!(found(&[(SITE, &site)]), [format!("wrong-value {message}")]);
        }
    }
}
