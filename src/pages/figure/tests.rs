//! Tests of drawn figures on the pages that show them.

use std::collections::HashSet;

use crate::outputs::Address;
use crate::pages::inspect::inspect;
use crate::pages::{Pages, Prepared, Sheets};
use crate::review::testing::{edited, page, page_of, undrawn, with_case, with_sample};
use crate::workspace::theme::Theme;

const NAME: &str = "content/exercises/heel-drop.md";
const MOVEMENT: &str = "<script data-name=\"movement\">";
/// What stands before the picture of the exercise itself.
const PICTURE: &str = "<div class=\"exercise-picture\">\n<figure>";
const FIGURE: &str = r#"[[figure]]
description = "She stands at the counter, high on her toes, then flat on her feet."
caption = "Let your heels drop."
props = ["counter"]
labels = [{ at = "hands", text = "Both hands hold on" }]
[[figure.pose]]
base = "standing"
hold = "counter"
feet = "toes"

[[figure.pose]]
base = "standing"
hold = "counter"
"#;

/// The heel drop of the sample with this figure and no other.
fn with(figure: &str) -> String {
    let sample = crate::workspace::sample::files();
    let (_, bytes) = sample.iter().find(|(name, _)| name == NAME).unwrap();
    let text = std::str::from_utf8(bytes).unwrap();
    let (fields, rest) = text.split_once("\n```\n").unwrap();
    let fields = fields.split("[[figure]]").next().unwrap();
    format!("{}\n\n{}```\n{rest}", fields.trim_end(), figure)
}

fn shown(address: &Address) -> String {
    page_of(&[(NAME, &with(FIGURE))], address)
}

fn between<'h>(html: &'h str, start: &str, end: &str) -> &'h str {
    let (_, rest) = html.split_once(start).unwrap_or_else(|| panic!("no {start}"));
    rest.split_once(end).unwrap_or_else(|| panic!("no {end}")).0
}

#[test]
fn an_exercise_shows_its_figure_first_then_its_cautions_then_its_steps() {
    let html = shown(&Address::Exercise("heel-drop".into()));
    let at = |text: &str| html.find(text).unwrap_or_else(|| panic!("no {text}"));
    // Before it stand the forms that a reader may get, in templates.
    assert!(at(PICTURE) < at("class=\"cautions\""));
    assert!(at("class=\"cautions\"") < at("class=\"section set-up\""));
    let figure = between(&html, PICTURE, "</figure>");
    assert_eq!(figure.matches("<svg").count(), 2);
    assert!(figure.contains("<title id=\"exercise.heel-drop.figure.1.title\">Heel drop"));
    assert!(figure.contains("<desc id=\"exercise.heel-drop.figure.1.text\">She stands at the counter, high"));
    assert!(figure.contains("<ol class=\"numbered\">\n<li>Both hands hold on</li>"));
    assert!(figure.contains("<figcaption>Let your heels drop.</figcaption>"));
}

#[test]
fn only_the_exercise_s_own_page_can_show_the_movement() {
    let own = shown(&Address::Exercise("heel-drop".into()));
    assert!(own.contains("<animate") && own.contains(MOVEMENT));
    assert!(between(&own, PICTURE, "</figure>").contains("data-stop=\"Stop the movement\""));
    let week = Address::Week { series: "first-steps".into(), id: "week-02".into() };
    for address in [week, Address::Library, Address::Figures, Address::Drawing] {
        let html = shown(&address);
        assert!(html.contains("class=\"drawn\""), "{}", address.path());
        assert!(!html.contains("<animate") && !html.contains(MOVEMENT), "{}", address.path());
        assert!(!html.contains("Stop the movement"), "{}", address.path());
    }
    let one = with(FIGURE.rsplit_once("\n[[figure.pose]]").unwrap().0);
    let still = page_of(&[(NAME, &one.to_string())], &Address::Exercise("heel-drop".into()));
    assert!(still.contains("class=\"drawn\"") && !still.contains(MOVEMENT));
}

#[test]
fn the_library_shows_the_last_pose_beside_the_words_that_say_it() {
    let html = shown(&Address::Library);
    let entry = html.split("<li data-component").skip(1).find(|li| li.contains("heel-drop.html")).unwrap();
    let entry = entry.split("</li>").next().unwrap();
    assert_eq!(entry.matches("<svg").count(), 2, "the figure and the shape of the component");
    let figure = between(entry, "<svg width", ">");
    assert!(figure.contains("aria-hidden=\"true\""), "{figure}");
    assert!(!entry.contains("<title"));
}

#[test]
fn the_sheet_of_all_figures_has_each_with_the_lines_that_draw_it_and_names_those_without() {
    let html = shown(&Address::Figures);
    assert!(between(&html, "<head>", "</head>").contains("noindex"));
    let lines = between(&html, "heel-drop</code>", "</details>");
    let lines = between(lines, "<pre><code>", "</code></pre>").replace("&quot;", "\"");
    assert_eq!(lines, FIGURE.trim_end());
    assert!(html.contains("<input type=\"checkbox\""));
    assert!(html.contains("<pre><code>[[variation.figure]]"), "and those of variations");
    const SIT: &str = "content/exercises/tall-sit.md";
    let bare = page_of(&[(SIT, &undrawn(&edited(SIT, &[])))], &Address::Figures);
    assert!(between(&bare, "Exercises without a figure", "</ul>").contains("tall-sit.html"));
}

#[test]
fn the_guide_draws_every_example_and_no_id_stands_twice() {
    let html = page(&Address::Drawing);
    let inspection = inspect("drawing.html", &html, "/", &HashSet::new());
    assert_eq!(inspection.faults, []);
    let examples = html.matches("<figure>").count();
    assert!(examples > 90);
    assert_eq!(html.matches("<title id=\"drawing.").count(), examples);
    assert_eq!(html.matches("<pre><code>[[figure]]").count(), examples);
}

#[test]
fn pages_for_educators_lead_to_each_other_and_the_foot_of_a_preview_alone_leads_to_the_plan() {
    let titles = [
        (Address::Plan, "plan.html"),
        (Address::Figures, "figures.html"),
        (Address::Drawing, "drawing.html"),
    ];
    for (address, _) in &titles {
        let html = page(address);
        let main = between(&html, "<main", "</main>");
        for (other, path) in &titles {
            assert_eq!(
                main.contains(&format!("href=\"{path}\"")),
                other != address,
                "{} to {path}",
                address.path()
            );
        }
    }
    for published in [Address::Home, Address::Exercise("heel-drop".into()), Address::Safety] {
        let html = page(&published);
        for (_, path) in &titles {
            assert!(!html.contains(path), "{} leads to {path}", published.path());
        }
        let previewed = preview_of(&published);
        assert_eq!(previewed.matches("plan.html").count(), 1, "{}", published.path());
        assert!(!previewed.contains("figures.html") && !previewed.contains("drawing.html"));
    }
    with_sample(&[], |model| {
        let published = crate::outputs::pages(model);
        assert!(published.iter().all(|page| !page.is_for_educators()));
        let others = crate::outputs::pages_for_educators(model);
        assert!(others.len() > 2 && others.iter().all(Address::is_for_educators));
    });
}

/// The page as a preview shows it.
fn preview_of(address: &Address) -> String {
    let mut html = String::new();
    with_case(&[], |case| {
        let made = Prepared { sheets: Sheets::WhenAsked, ..Prepared::default() };
        let theme = Theme::built_in();
        let pages = Pages::new(case.model, case.sources, case.words, &theme, made, case.today, false);
        html = pages.expect("templates without mistakes").render(address).expect("a page");
    });
    html
}
