//! What a row accepts, and what it is told when it accepts nothing.

use super::{Age, Exception, of_safety};
use crate::model::finding::Level;
use crate::review::figures::with_figure;
use crate::review::testing::{edited, found, review_files, with_case};
use crate::review::{Review, rules};

const DROP: &str = "content/exercises/heel-drop.md";
const SIT: &str = "content/exercises/tall-sit.md";
const SITE: &str = "site.toml";
/// Who accepted something two days before the day of the tests.
const SIGNED: &str = ", by = \"A. Reviewer, PT\", on = 2026-01-08";

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
            ("Let your heels drop to the floor with a light thud.", "Lower your heels to the floor."),
        ],
    )
}

fn rules_of(review: &Review) -> Vec<&str> {
    review.findings.iter().map(|f| f.rule).collect()
}

#[test]
fn a_safety_finding_is_accepted_one_by_one_and_listed_with_its_reason() {
    let row = format!(
        "{{ finding = \"unanswered-demand end-range-twist spine-fracture\", because = \"Only in class.\"{SIGNED} }}"
    );
    let (review, sources) = review_files(&[(DROP, &unanswered(&row))]);
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
fn a_help_proposes_rows_that_accept_one_finding_each() {
    let row = |finding: &str| format!("{{ finding = \"{finding}\", because = \"Only in class.\"{SIGNED} }}");
    let (low, fracture) = (
        "unanswered-demand end-range-twist low-bone-density",
        "unanswered-demand end-range-twist spine-fracture",
    );
    for (finding, rule, help) in [
        // Fits both.
        (
            "unanswered-demand end-range-twist",
            "wrong-value",
            format!("write a row for each that you mean, such as `{low}` or `{fracture}`"),
        ),
        // A word of the message that is no subject, and a demand that was answered since.
        (
            "unanswered-demand answer",
            "needless-exception",
            format!("write `{low}` or `{fracture}`, or remove this row"),
        ),
        (
            "unanswered-demand impact-low spine-fracture",
            "needless-exception",
            format!("write `{low}` or `{fracture}`, or remove this row"),
        ),
        ("missing-caution", "needless-exception", "remove this row".to_string()),
    ] {
        let (review, _) = review_files(&[(DROP, &unanswered(&row(finding)))]);
        let told: Vec<_> = review.findings.iter().filter(|f| f.rule != "unanswered-demand").collect();
        assert_eq!(told.len(), 1, "{finding}: {told:?}");
        assert_eq!((told[0].rule, &told[0].help), (rule, &help), "{finding}");
    }
    let both = format!("{}, {}", row(low), row(fracture));
    let (review, _) = review_files(&[(DROP, &unanswered(&both))]);
    assert_eq!(rules_of(&review), [""; 0]);
    assert_eq!(review.exceptions.len(), 2);
}

#[test]
fn a_title_is_named_whole_and_a_number_as_it_stands() {
    let sit = |finding: &str| uncautioned(SIGNED).replace("\"missing-caution\"", &format!("\"{finding}\""));
    let (review, _) = review_files(&[(SIT, &sit("missing-caution Tall sit"))]);
    assert_eq!(rules_of(&review), [""; 0]);
    let (review, _) = review_files(&[(SIT, &sit("missing-caution Tall"))]);
    assert_eq!(rules_of(&review), ["missing-caution", "needless-exception"]);
    assert_eq!(review.findings[1].help, "write `missing-caution Tall sit`, or remove this row");
    let about = |number: &str| {
        let long = "word ".repeat(40);
        format!(
            "```toml\ntitle = \"About us\"\naccept = [{{ finding = \"long-sentence {number}\", because = \"So.\" }}]\n\
             ```\nThis is {long}long.\n"
        )
    };
    for (number, accepted) in [("43", true), ("42", false), ("4", false)] {
        let (review, _) = review_files(&[("content/pages/about.md", &about(number))]);
        assert_eq!(rules_of(&review).contains(&"long-sentence"), !accepted, "{number}");
    }
}

#[test]
fn the_same_fault_of_two_figures_and_of_two_poses_is_accepted_one_by_one() {
    let seated = "[[figure.pose]]\nbase = \"seated\"\n";
    let figures =
        format!("props = []\n{seated}{seated}[[figure]]\ndescription = \"She waits.\"\nprops = []\n{seated}");
    let text = with_figure(SIT, &figures);
    let review = |findings: &[&str]| {
        let row = |finding: &&str| format!("{{ finding = \"{finding}\", because = \"A bench.\"{SIGNED} }}");
        let rows = findings.iter().map(row).collect::<Vec<_>>().join(", ");
        let text = text.replacen("component = ", &format!("accept = [{rows}]\ncomponent = "), 1);
        review_files(&[(SIT, &text)]).0
    };
    let all = review(&["floating-figure"]);
    assert_eq!(rules_of(&all), ["wrong-value", "floating-figure", "floating-figure", "floating-figure"]);
    let rows = [
        "floating-figure pose 1 She moves.",
        "floating-figure pose 2 She moves.",
        "floating-figure pose 1 She waits.",
    ];
    let help = format!(
        "write a row for each that you mean, such as `{}` or `{}` or `{}`",
        rows[0], rows[1], rows[2]
    );
    assert_eq!(all.findings[0].help, help);
    assert_eq!(rules_of(&review(&rows[1..])), ["floating-figure"]);
    assert_eq!(rules_of(&review(&rows)), [""; 0]);
}

#[test]
fn what_only_make_can_find_is_no_needless_exception() {
    for rule in ["sheet-split", "skipped-heading"] {
        let accept = format!("accept = [{{ finding = \"{rule}\", because = \"A long step.\" }}]\n");
        let text =
            edited("content/exercises/tall-sit.md", &[("component = ", &format!("{accept}component = "))]);
        assert_eq!(found(&[("content/exercises/tall-sit.md", &text)]), [""; 0], "{rule}");
    }
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
            let message = format!("`{}` is a safety rule, which no site can change as a whole", rule.name);
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
            "beyond-limit",
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

const CAUTION: &str = "[[caution]]\nfor = [\"spine-fracture\"]\nlevel = \"adapt\"\n\
                       text = \"Grow tall gently. Do not arch your back.\"\n";

/// tall-sit without its caution, which is accepted with these fields beside the reason.
fn uncautioned(signed: &str) -> String {
    let row = format!("{{ finding = \"missing-caution\", because = \"Seated.\"{signed} }}");
    edited(SIT, &[("demands = []", &format!("demands = []\naccept = [{row}]")), (CAUTION, "")])
}

#[test]
fn an_exception_to_a_safety_rule_holds_only_with_a_name_and_a_day_that_has_come() {
    const BY: &str = ", by = \"A. Reviewer, PT\"";
    for (signed, expected) in [
        (
            "".to_string(),
            "missing-field 10:11 this exception to the safety rule `missing-caution` has no `by` and `on`, so the finding remains",
        ),
        (
            BY.to_string(),
            "missing-field 10:11 this exception to the safety rule `missing-caution` has no `on`, so the finding remains",
        ),
        (
            ", on = 2026-01-08".to_string(),
            "missing-field 10:11 this exception to the safety rule `missing-caution` has no `by`, so the finding remains",
        ),
        (
            format!("{BY}, on = 2026-01-11"),
            "wrong-value 10:92 expected the day on which `missing-caution` was accepted, found 2026-01-11, a day yet to come",
        ),
    ] {
        let (review, sources) = review_files(&[(SIT, &uncautioned(&signed))]);
        assert_eq!(review.exceptions.len(), 0, "{signed}");
        assert!(review.findings.iter().all(|f| f.level == Level::Error), "{signed}");
        assert!(rules_of(&review).contains(&"missing-caution"), "{signed}");
        let lines = crate::review::testing::lines(&(review, sources));
        assert_eq!(lines.len(), 2, "{lines:?}");
        assert!(lines.iter().any(|line| line == expected), "{lines:?}");
    }
    for day in ["2026-01-10", "2024-01-10"] {
        let (review, _) = review_files(&[(SIT, &uncautioned(&format!("{BY}, on = {day}")))]);
        assert_eq!(rules_of(&review), [""; 0], "{day}");
        assert_eq!(review.exceptions[0].by.as_deref(), Some("A. Reviewer, PT"));
        assert_eq!(review.exceptions[0].on.map(|on| on.to_string()).as_deref(), Some(day));
    }
}

#[test]
fn a_name_or_a_day_that_cannot_be_read_is_one_mistake_and_accepts_nothing() {
    for signed in [", by = 7, on = 2026-01-08", ", by = \"A. Reviewer, PT\", on = \"May\""] {
        let (review, _) = review_files(&[(SIT, &uncautioned(signed))]);
        assert_eq!(rules_of(&review), ["missing-caution", "wrong-value"], "{signed}");
        assert_eq!(review.exceptions.len(), 0);
    }
}

#[test]
fn the_exceptions_to_safety_rules_alone_are_those_of_the_whole_review() {
    let about = "```toml\ntitle = \"About us\"\naccept = [{ finding = \"broken-link\", because = \"Soon.\" }]\n```\n[x](a.md)\n";
    let files = [(SIT, &*uncautioned(SIGNED)), ("content/pages/about.md", about)];
    let (review, _) = review_files(&files);
    assert_eq!(review.exceptions.len(), 2);
    with_case(&files, |case| {
        let told = |e: &Exception| (e.finding.message.clone(), e.because.clone(), e.span, e.by.clone(), e.on);
        let of_safety: Vec<_> = of_safety(case).iter().map(told).collect();
        let whole: Vec<_> = review.exceptions.iter().filter(|e| e.is_of_safety()).map(told).collect();
        assert_eq!(of_safety, whole);
        assert_eq!(of_safety.len(), 1);
    });
    with_case(&[], |case| assert!(of_safety(case).is_empty()));
}

#[test]
fn an_exception_is_so_many_days_old_and_from_two_weeks_on_so_many_weeks() {
    let (review, _) = review_files(&[(SIT, &uncautioned(SIGNED))]);
    let age = |year, month, day| review.exceptions[0].age(jiff::civil::date(year, month, day));
    assert_eq!(age(2026, 1, 8), Some(Age::Days(0)));
    assert_eq!(age(2026, 1, 21), Some(Age::Days(13)));
    assert_eq!(age(2026, 1, 22), Some(Age::Weeks(2)));
    assert_eq!(age(2026, 6, 3), Some(Age::Weeks(20)));
    assert_eq!(age(2027, 1, 8), Some(Age::Weeks(52)));
}
