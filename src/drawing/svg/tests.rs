//! Tests of pictures as SVG, on a figure that stands at a counter and rises.

use std::collections::BTreeSet;

use super::*;
use crate::entry::figure::figures_of;
use crate::reckon::figure::Scene;

const STYLE: &str = include_str!("../../../themes/wideleaf/style/figure.css");

const RISES: &str = r#"[[figure]]
props = ["counter", "weights", { thing = "band", from = "left-hand", to = "left-foot" }]
arrows = ["head"]
labels = [{ at = "right-heel", text = "High" }]
[[figure.pose]]
base = "standing"
right_hold = "counter"
[[figure.pose]]
base = "standing"
right_hold = "counter"
feet = "toes"
"#;

fn picture(lines: &str) -> Picture {
    drawn(lines, Picture::of)
}

fn drawn<T>(lines: &str, draw: fn(&Scene<'_>) -> T) -> T {
    let (figures, findings) = figures_of(lines);
    assert!(findings.is_empty(), "{findings:?}");
    draw(&Scene::of(figures[0].drawing().unwrap()))
}

fn words(description: &str) -> Words<'_> {
    Words { id: "exercise.rise.figure.1", title: "Heel raise", description }
}

fn panels(picture: &Picture, words: Words<'_>) -> Vec<String> {
    Panels::of(picture, Size::Large).with(words, None)
}

/// The values of each attribute of this name.
fn values<'s>(svg: &'s str, name: &str) -> Vec<&'s str> {
    let start = format!(" {name}=\"");
    svg.split(start.as_str()).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

#[test]
fn every_pose_is_an_element_and_the_first_has_the_words_of_all() {
    let panels = panels(&picture(RISES), words("Flat, then on <toes> & back."));
    assert_eq!(panels.len(), 2);
    assert!(panels[0].contains("<title id=\"exercise.rise.figure.1.title\">Heel raise</title>"));
    assert!(panels[0].contains(">Flat, then on &lt;toes&gt; &amp; back.</desc>"));
    assert!(panels[0].contains(r#"role="img""#) && !panels[0].contains("aria-hidden"));
    assert!(panels[1].contains(r#"aria-hidden="true""#) && !panels[1].contains("<title"));
    assert_eq!(values(&panels[0], "viewBox"), values(&panels[1], "viewBox"));
}

#[test]
fn only_the_last_pose_of_a_moving_figure_moves_and_each_moment_has_the_commands_of_the_first() {
    let still = panels(&picture(RISES), words("Rises.")).concat();
    assert!(!still.contains("<animate"));
    let motion = drawn(RISES, Motion::of);
    let moving = Panels::of(&picture(RISES), Size::Large).with(words("Rises."), motion.as_ref());
    assert!(!moving[0].contains("<animate"));
    // But for its movement, it is the still picture.
    let parts = moving.concat().replace(" data-paces=\"steady\"", "");
    let parts =
        parts.split("><animate").map(|part| part.split_once("></path>").map_or(part, |(_, rest)| rest));
    assert_eq!(parts.collect::<Vec<_>>().join("/>"), still);
    let animated = values(&moving[1], "values");
    assert!(animated.len() > 8, "{}", animated.len());
    for one in animated {
        let moments: Vec<&str> = one.split(';').collect();
        assert_eq!(moments.len(), 9);
        let shape = |path: &str| {
            // A minus is the only sign that may stand between two numbers without a space.
            let numbers = path.replace('-', " -");
            let commands: String = path.chars().filter(char::is_ascii_alphabetic).collect();
            let count = numbers
                .split(|c: char| c == ' ' || c.is_ascii_alphabetic())
                .filter(|n| !n.is_empty())
                .count();
            (commands, count)
        };
        let shapes: BTreeSet<_> = moments.into_iter().map(shape).collect();
        assert_eq!(shapes.len(), 1, "{shapes:?}");
    }
    assert_eq!(values(&moving[1], "begin").iter().collect::<BTreeSet<_>>(), BTreeSet::from([&"indefinite"]));
}

#[test]
fn a_small_picture_is_the_last_pose_without_words_and_numbers_and_weighs_less() {
    let whole = picture(RISES);
    let small = small(&whole).unwrap();
    assert!(small.contains(r#"aria-hidden="true""#));
    assert!(!small.contains("<title") && !small.contains("drawn-disc") && small.contains("drawn-arrow"));
    let large = panels(&whole, words(""));
    assert!(small.len() * 10 < large[1].len() * 9, "{} of {}", small.len(), large[1].len());
}

#[test]
fn the_style_of_the_theme_knows_every_class_and_no_other() {
    let over = RISES.replacen("props", "layout = \"over\"\nprops", 1);
    let front = RISES.replacen("props", "view = \"front\"\nprops", 1);
    let drawn = [picture(RISES), picture(&over), picture(&front)].map(|p| panels(&p, words("")).concat());
    let written: BTreeSet<&str> = drawn.iter().flat_map(|svg| values(svg, "class")).collect();
    let rules = STYLE.split(|c: char| !(c.is_ascii_alphanumeric() || c == '-' || c == '.'));
    let styled: BTreeSet<&str> =
        rules.filter_map(|word| word.strip_prefix('.')).filter(|class| class.starts_with("drawn")).collect();
    let unstyled: Vec<_> = written.difference(&styled).collect();
    // Arrows and numbers are hidden as a group while a figure moves.
    assert_eq!(unstyled, Vec::<&&str>::new());
    let unused: Vec<_> = styled.difference(&written).copied().collect();
    assert_eq!(unused, Vec::<&str>::new());
}

#[test]
fn the_picture_on_paper_has_all_poses_in_one_element_and_needs_no_style() {
    let paper = svg(&picture(RISES), Colors::Paper, Some(words("Rises.")));
    assert_eq!(paper.matches("<svg").count(), 1);
    assert!(!paper.contains("class=") && paper.contains("fill=\"#b4b4b4\""));
}

#[test]
fn whole_numbers_are_written_as_the_formatter_does() {
    for value in [0, 7, -7, 10, 99, 100, -1203, i32::MAX, i32::MIN] {
        let mut written = String::from("l");
        number(&mut written, value);
        assert_eq!(written, format!("l{value}"));
    }
}

#[test]
fn a_picture_that_was_drawn_takes_the_words_of_each_page() {
    let drawn = Panels::of(&picture(RISES), Size::Large);
    let (one, other) = (drawn.with(words("Flat."), None), drawn.with(words("On toes."), None));
    assert_eq!(one[0].replace(">Flat.<", ">On toes.<"), other[0]);
    assert_ne!(one[0], other[0]);
    assert_eq!(one[1], other[1]);
}
