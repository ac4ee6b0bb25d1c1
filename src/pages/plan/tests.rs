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
fn only_the_foot_of_a_page_leads_to_the_plan_and_search_engines_leave_it_out() {
    for address in [Address::Home, Address::Safety, Address::Series("first-steps".into())] {
        let html = page(&address);
        assert_eq!(html.matches("plan.html").count(), 1);
        assert!(between(&html, "<footer", "</footer>").contains("plan.html"));
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
