//! The theme's style sheets in one, with its letters inside.

use std::ops::RangeInclusive;

use super::alone::address_of;
use crate::workspace::theme::Theme;

/// Those that a person's page needs, in their order.
const SHEETS: [&str; 11] =
    ["colours", "text", "frame", "exercise", "figure", "lists", "pages", "paper", "practice", "days", "own"];

const FACE: &str = "@font-face";

pub(super) struct Style {
    rules: String,
    faces: Vec<Face>,
}

/// Letters of one weight, for some of all characters.
struct Face {
    rule: String,
    characters: Vec<RangeInclusive<u32>>,
}

impl Style {
    pub(super) fn of(theme: &Theme) -> Style {
        let sheets = SHEETS.iter().filter_map(|name| theme.text(&format!("style/{name}.css")));
        let whole: String = sheets.map(short).collect();
        let mut parts = whole.split(FACE);
        let mut rules = parts.next().unwrap_or_default().to_string();
        let mut faces = Vec::new();
        for part in parts {
            let (rule, rest) = part.split_once('}').unwrap_or((part, ""));
            match file_of(rule) {
                None => rules.push_str(&format!("{FACE}{rule}}}")),
                Some(file) => faces.extend(Face::of(rule, file, theme)),
            }
            rules.push_str(rest);
        }
        Style { rules, faces }
    }

    /// The style with the device's own letters.
    pub(super) fn without_letters(&self) -> String {
        self.rules.clone()
    }

    /// The style with the letters that a text needs.
    pub(super) fn for_text(&self, text: &str) -> String {
        let needed = |face: &&Face| {
            text.chars().any(|c| face.characters.iter().any(|some| some.contains(&u32::from(c))))
        };
        let faces: String = self.faces.iter().filter(needed).map(|face| face.rule.as_str()).collect();
        faces + &self.rules
    }
}

impl Face {
    /// `None` where the file is not there.
    fn of(rule: &str, file: &str, theme: &Theme) -> Option<Face> {
        let bytes = theme.files.get(file.trim_start_matches("../"))?;
        let kind = format!("font/{}", file.rsplit('.').next().unwrap_or("woff2"));
        let rule = format!("{FACE}{}}}", rule.replace(file, &address_of(&kind, bytes)));
        let characters = rule.split("unicode-range:").nth(1).map_or_else(
            || vec![0..=u32::MAX],
            |listed| listed.split([';', '}']).next().unwrap_or("").split(',').filter_map(range).collect(),
        );
        Some(Face { rule, characters })
    }
}

/// `U+0100-02BA` or `U+2122`.
fn range(text: &str) -> Option<RangeInclusive<u32>> {
    let text = text.trim().strip_prefix("U+")?;
    let (from, to) = text.split_once('-').unwrap_or((text, text));
    Some(u32::from_str_radix(from, 16).ok()?..=u32::from_str_radix(to, 16).ok()?)
}

/// The file that a rule of letters loads.
fn file_of(rule: &str) -> Option<&str> {
    let (_, rest) = rule.split_once("url(")?;
    Some(rest.split_once(')')?.0.trim_matches(['"', '\'']))
}

/// A style sheet without what is only for those who write it.
fn short(sheet: &str) -> String {
    let mut parts = sheet.split("/*");
    let mut text = parts.next().unwrap_or_default().to_string();
    parts.for_each(|part| text.push_str(part.split_once("*/").map_or("", |(_, rest)| rest)));
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.map(|line| format!("{line}\n")).collect()
}
