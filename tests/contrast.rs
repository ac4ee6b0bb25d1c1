//! The contrast of every color pair of the theme, in light, in dark and on paper, by the formula of WCAG 2.2.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

const COLORS: &str = include_str!("../themes/wideleaf/style/colours.css");
const PANEL: &str = include_str!("../src/proof/panel.css");
const PAIRS: &str = include_str!("../themes/wideleaf/style/pairs.toml");

/// Where `colors.css` says each mode's colors: the comment that opens its block.
const MODES: [&str; 3] = ["light", "dark", "print"];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pairs {
    pair: Vec<Pair>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pair {
    name: String,
    foreground: String,
    background: String,
    /// 7 for text (1.4.6), 3 for lines and rings (1.4.11).
    minimum: f64,
    #[serde(default)]
    never_printed: bool,
}

#[test]
fn every_pair_of_the_theme_has_its_contrast_in_every_mode() {
    let pairs = toml::from_str::<Pairs>(PAIRS).unwrap().pair;
    let mut faults = Vec::new();
    for mode in MODES {
        let colors = colors(mode);
        for pair in pairs.iter().filter(|p| !(p.never_printed && mode == "print")) {
            let color = |name: &str| *colors.get(name).unwrap_or_else(|| panic!("{mode}: no color {name}"));
            let found = ratio(color(&pair.foreground), color(&pair.background));
            // Unrounded: 6.999 is not 7.
            if found < pair.minimum {
                faults.push(format!("{mode}: {}: {found:.3}, expected {} or more", pair.name, pair.minimum));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The panel of the preview has colors of its own: any of its words may stand on any of its grounds.
#[test]
fn every_text_of_the_preview_s_panel_has_its_contrast_on_each_ground() {
    const GROUNDS: [&str; 3] = ["--paper", "--line", "--mark"];
    for mode in ["light", "dark"] {
        let colors = colors_of(PANEL, mode);
        let (grounds, mut texts): (Vec<_>, Vec<_>) =
            colors.iter().partition(|(name, _)| GROUNDS.contains(&name.as_str()));
        // The ring of the focus is no text.
        texts.retain(|(name, _)| *name != "--focus");
        assert_eq!((grounds.len(), texts.len()), (3, 8), "{mode}");
        for (ground, behind) in grounds {
            for (text, color) in &texts {
                let found = ratio(**color, *behind);
                assert!(found >= 7.0, "{mode}: {text} on {ground}: {found:.3}");
            }
        }
    }
}

#[test]
fn the_minimum_of_a_pair_is_that_of_wcag_2_2() {
    for pair in toml::from_str::<Pairs>(PAIRS).unwrap().pair {
        let expected = if pair.name.contains(" text ") { 7.0 } else { 3.0 };
        assert_eq!(pair.minimum, expected, "{}", pair.name);
    }
}

#[test]
fn every_color_but_the_decoration_is_in_a_pair_and_every_mode_names_the_same() {
    let pairs = toml::from_str::<Pairs>(PAIRS).unwrap().pair;
    let paired: BTreeSet<String> = pairs.into_iter().flat_map(|p| [p.foreground, p.background]).collect();
    for mode in MODES {
        let mut named: BTreeSet<String> = colors(mode).into_keys().collect();
        assert!(named.remove("--line"), "{mode}: no --line");
        assert_eq!(named, paired, "{mode}");
    }
}

#[test]
fn no_other_style_sheet_of_the_theme_names_a_color() {
    let sheets = [
        ("days.css", include_str!("../themes/wideleaf/style/days.css")),
        ("exercise.css", include_str!("../themes/wideleaf/style/exercise.css")),
        ("figure.css", include_str!("../themes/wideleaf/style/figure.css")),
        ("frame.css", include_str!("../themes/wideleaf/style/frame.css")),
        ("lists.css", include_str!("../themes/wideleaf/style/lists.css")),
        ("pages.css", include_str!("../themes/wideleaf/style/pages.css")),
        ("own.css", include_str!("../themes/wideleaf/style/own.css")),
        ("paper.css", include_str!("../themes/wideleaf/style/paper.css")),
        ("plan.css", include_str!("../themes/wideleaf/style/plan.css")),
        ("saved.css", include_str!("../themes/wideleaf/style/saved.css")),
        ("text.css", include_str!("../themes/wideleaf/style/text.css")),
        ("yours.css", include_str!("../themes/wideleaf/style/yours.css")),
    ];
    for (name, sheet) in sheets {
        for (number, line) in sheet.lines().enumerate() {
            let value = line.split_once(':').map_or("", |(_, value)| value);
            let names_one = ["#", "rgb", "hsl", "oklch", "color-mix", " white", " black"];
            let found = names_one.iter().any(|word| value.contains(word)) && line.ends_with(';');
            assert!(!found, "{name}, line {}: {line}", number + 1);
        }
    }
}

/// Computed from the formula with another tool, to 4 decimals.
#[test]
fn the_ratio_of_known_pairs_is_right_to_four_decimals() {
    let worked = [
        ("#000000", "#ffffff", "21.0000"),
        ("#ffffff", "#ffffff", "1.0000"),
        ("#777777", "#ffffff", "4.4781"),
        ("#767676", "#ffffff", "4.5422"),
        ("#595959", "#ffffff", "7.0047"),
        ("#5a5a5a", "#ffffff", "6.8969"),
        ("#949494", "#ffffff", "3.0335"),
        ("#959595", "#ffffff", "2.9953"),
        ("#ff0000", "#ffffff", "3.9985"),
        ("#0000ff", "#ffffff", "8.5925"),
        ("#008000", "#ffffff", "5.1374"),
        ("#00ff00", "#ffffff", "1.3722"),
        ("#ffff00", "#ffffff", "1.0738"),
        ("#ffff00", "#000000", "19.5560"),
        ("#0000ee", "#ffffff", "9.3976"),
        ("#800000", "#ffffff", "10.9498"),
        ("#333333", "#ffffcc", "12.2905"),
    ];
    for (one, other, expected) in worked {
        let (a, b) = (hex(one).unwrap(), hex(other).unwrap());
        assert_eq!(format!("{:.4}", ratio(a, b)), expected, "{one} on {other}");
        assert_eq!(ratio(a, b), ratio(b, a), "{one} and {other}, either way round");
    }
}

/// WCAG 2.0 and 2.1 as first published said 0.03928; no color of 8 bits lies between the two.
#[test]
fn the_older_threshold_gives_the_same_for_every_value_of_eight_bits() {
    for value in 0..=u8::MAX {
        assert_eq!(linear(value, 0.04045), linear(value, 0.03928), "{value}");
    }
}

/// WCAG 2.2, "contrast ratio": the lighter luminance plus 0.05 over the darker plus 0.05.
fn ratio(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// WCAG 2.2, "relative luminance", of an sRGB color: 0 for black to 1 for white.
fn luminance([red, green, blue]: [u8; 3]) -> f64 {
    let part = |value| linear(value, 0.04045);
    0.2126 * part(red) + 0.7152 * part(green) + 0.0722 * part(blue)
}

/// One channel without its gamma curve.
fn linear(value: u8, threshold: f64) -> f64 {
    let share = f64::from(value) / 255.0;
    if share <= threshold { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
}

/// The custom properties of one mode's block.
fn colors(mode: &str) -> BTreeMap<String, [u8; 3]> {
    colors_of(COLORS, mode)
}

fn colors_of(sheet: &str, mode: &str) -> BTreeMap<String, [u8; 3]> {
    let start = format!("/* colours: {mode} */");
    let (_, block) = sheet.split_once(&start).unwrap_or_else(|| panic!("no block for {mode}"));
    let block = block.split("/* colours: ").next().unwrap();
    let mut colors = BTreeMap::new();
    for line in block.lines().map(str::trim).filter(|line| line.starts_with("--")) {
        let (name, value) = line.trim_end_matches(';').split_once(": ").unwrap();
        let color = hex(value).unwrap_or_else(|| panic!("{mode}: expected #rrggbb, found `{line}`"));
        assert!(colors.insert(name.to_string(), color).is_none(), "{mode}: {name} twice");
    }
    assert!(!colors.is_empty(), "no color for {mode}");
    colors
}

fn hex(text: &str) -> Option<[u8; 3]> {
    let digits = text.strip_prefix('#').filter(|d| d.len() == 6)?;
    let number = u32::from_str_radix(digits, 16).ok()?;
    let [_, red, green, blue] = number.to_be_bytes();
    Some([red, green, blue])
}
