//! What the page of the plan says, and where it can be found.

use crate::outputs::Address;
use crate::review::testing::{edited, page, page_of};

const WEEK: &str = "content/series/first-steps/week-02.md";

/// The sample with a week more for each of these numbers: its second week with a heel drop of that many
/// repetitions.
fn with_weeks(repetitions: &[u32]) -> String {
    let week = |(at, reps): (usize, &u32)| {
        let number = at + 3;
        let text = edited(
            WEEK,
            &[
                ("week = 2", &format!("week = {number}")),
                ("\"heel-drop\"", &format!("\"heel-drop\", dose = {{ reps = {reps} }}")),
            ],
        );
        (format!("content/series/first-steps/week-0{number}.md"), text)
    };
    let files: Vec<(String, String)> = repetitions.iter().enumerate().map(week).collect();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    page_of(&files, &Address::Plan)
}

/// What stands between two texts, the first time.
fn between<'h>(html: &'h str, start: &str, end: &str) -> &'h str {
    let after = html.split_once(start).unwrap_or_else(|| panic!("no {start}")).1;
    after.split_once(end).unwrap_or_else(|| panic!("no {end}")).0
}

#[test]
fn no_page_of_the_site_leads_to_the_plan_and_search_engines_leave_it_out() {
    for address in [Address::Home, Address::Safety, Address::Series("first-steps".into())] {
        let html = page(&address);
        assert!(!html.contains("plan.html"), "{}", address.path());
        assert!(!html.contains("noindex") && !html.contains("style/plan.css"));
    }
    let plan = page(&Address::Plan);
    assert!(between(&plan, "<head>", "</head>").contains(r#"<meta name="robots" content="noindex">"#));
    let at = |text: &str| plan.find(text).unwrap_or_else(|| panic!("no {text}"));
    assert!(at("For educators</h2>") < at("Coverage"));
}

#[test]
fn the_longest_bar_takes_the_width_and_the_others_their_share() {
    let html = with_weeks(&[40]);
    let chart = between(&html, "session-landings.about\">", "</svg>");
    // Week 2 has 2 x 10 landings, week 3 has 2 x 40: 98 and 24.5 percent.
    assert!(html.contains("<li>Week 3: <strong>80</strong></li>"));
    assert!(chart.contains("width=\"98.00%\"") && chart.contains("width=\"24.50%\""), "{chart}");
    assert!(chart.contains("width=\"0.00%\""), "week 1 has none: {chart}");
}

#[test]
fn weeks_that_follow_each_other_with_the_same_figure_are_told_together() {
    let html = with_weeks(&[10, 20, 20, 10]);
    let target = between(&html, "Landings a session</h4>", "</ul>");
    let items: Vec<&str> = target.split("<span class=\"soft\">").skip(1).collect();
    let starts =
        ["Week 1:</span> none", "Weeks 2 to 3:</span> 20", "Weeks 4 to 5:</span> 40", "Week 6:</span> 20"];
    assert_eq!(items.len(), starts.len(), "{target}");
    for (item, start) in items.iter().zip(starts) {
        assert!(item.starts_with(start), "{item}");
    }
    let ladder = between(&html, "<ol class=\"ladder\">", "</ol>");
    assert!(ladder.contains("Weeks 2 to 6") && ladder.contains("Week 1"), "{ladder}");
}

#[test]
fn what_could_not_be_read_is_said_to_be_open_and_is_no_gap() {
    let missing = edited(WEEK, &[("\"feet-together-stand\"", "\"toe-stand\"")]);
    let html = page_of(&[(WEEK, &missing)], &Address::Plan);
    assert!(html.contains("Not known: there is no toe-stand"));
    assert!(html.contains("Could not all be read") && !html.contains("class=\"gap\""));
    let without = edited(WEEK, &[("  { id = \"feet-together-stand\", dose = { hold = \"15 s\" } },\n", "")]);
    let html = page_of(&[(WEEK, &without)], &Address::Plan);
    assert_eq!(html.matches("class=\"gap\"").count(), 1);
}

#[test]
fn several_series_stand_one_after_the_other_with_a_list_of_them_on_top() {
    let series = crate::workspace::sample::text("content/series/first-steps/series.toml").unwrap();
    let winter = series.replace("First Steps", "Winter mornings");
    let html = page_of(&[("content/series/winter/series.toml", &winter)], &Address::Plan);
    let contents = between(&html, "aria-label=\"On this page\"", "</nav>");
    assert!(contents.contains("href=\"#plan.1\"") && contents.contains("href=\"#plan.2\""));
    assert!(html.contains("This series has no week yet."));
    assert!(html.contains("For educators: the plan of each series"));
    assert!(page(&Address::Plan).contains("For educators: the plan of this series"));
}

/// Weeks 3 to 5 repeat the second; the exercises of all but the heel raise are then those of the last weeks.
#[test]
fn what_can_come_next_is_proposed_with_reasons_or_it_is_said_why_not() {
    let html = with_weeks(&[10, 20, 20]);
    let proposals = between(&html, "<section class=\"proposals\" id=\"plan.1.proposals\">", "</main>");
    assert!(proposals.contains("<h3>Proposals for week 6</h3>"), "{proposals}");
    assert!(proposals.contains("for a licensed clinician to judge"), "{proposals}");
    assert!(proposals.contains(
        "No choice fits: there is nothing to propose for Posture, Balance, and Strength. Keep an exercise on purpose, or add one."
    ), "{proposals}");
    let power = between(proposals, "Power</h4>", "</ol>");
    assert!(
        power.contains("Heel raise at the counter</a>")
            && power.contains("<li>An easier rung again, last in week 1</li>"),
        "{power}"
    );
    let posture = between(proposals, "Posture</h4>", "</section>");
    assert!(posture.contains("<p>Nothing to propose.</p>"), "{posture}");
    assert!(posture.contains("<li>It was in week 5 and may return in week 8</li>"), "{posture}");
}

#[test]
fn an_accepted_safety_finding_stands_on_top_with_who_and_how_long_ago() {
    const SIT: &str = "content/exercises/tall-sit.md";
    let accepted = |on: &str| {
        let row = format!(
            "demands = []\naccept = [{{ finding = \"missing-caution\", because = \"Seated <only>.\", by = \"A. Reviewer, PT\", on = {on} }}]"
        );
        let caution = "[[caution]]\nfor = [\"spine-fracture\"]\nlevel = \"adapt\"\n\
                       text = \"Grow tall gently. Do not arch your back.\"\n";
        page_of(&[(SIT, &edited(SIT, &[("demands = []", &row), (caution, "")]))], &Address::Plan)
    };
    for (on, line) in [
        ("2026-01-10", "Accepted by A. Reviewer, PT on January 10, 2026, today: Seated &lt;only&gt;."),
        ("2026-01-09", "Accepted by A. Reviewer, PT on January 9, 2026, 1 day ago: Seated &lt;only&gt;."),
        ("2025-08-23", "Accepted by A. Reviewer, PT on August 23, 2025, 20 weeks ago: Seated &lt;only&gt;."),
    ] {
        let html = accepted(on);
        let section = between(&html, "<section id=\"plan.accepted\"", "</section>");
        assert!(section.contains(line), "{section}");
        assert!(section.contains("<strong>Tall sit</strong>"), "{section}");
        assert!(section.contains(">missing-caution<"), "{section}");
        assert!(html.contains("href=\"#plan.accepted\""));
    }
    assert!(!page(&Address::Plan).contains("plan.accepted"));
    assert!(!accepted("2026-01-11").contains("plan.accepted"), "a day yet to come");
}

#[test]
fn who_is_thanked_unasked_is_not_named_though_it_is_accepted() {
    const WEEK: &str = "content/series/first-steps/week-01.md";
    let thanks = "accept = [{ finding = \"thanks-without-consent Ida\", because = \"She is away.\", by = \"A. Reviewer, PT\", on = 2026-01-10 }]\nquestion";
    let week = edited(
        WEEK,
        &[("question", thanks), ("```\nWelcome. This", "[[thanks]]\nname = \"Ida\"\n```\nWelcome. This")],
    );
    let html = page_of(&[(WEEK, &week)], &Address::Plan);
    assert!(html.contains("thanks-without-consent") && html.contains("She is away."), "{html}");
    assert!(!html.contains("Ida"));
}
