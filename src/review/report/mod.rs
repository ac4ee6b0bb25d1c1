//! A review as text for a person, as JSON, and as SARIF 2.1.0.

pub mod json;
pub mod sarif;
pub mod text;
mod window;

/// A review with one finding behind accents, and one exception: what the tests of the reports render.
#[cfg(test)]
fn example() -> (super::Review, crate::model::source::Sources) {
    const SIT: &str = "content/exercises/tall-sit.md";
    let about = "\u{feff}```toml\r\ntitle = \"About us\"\r\n```\r\n\r\nÀ côté [ñ](ñ.md).\r\n";
    let accept = "demands = []\naccept = [{ finding = \"missing-caution\", because = \"Sólo sentada.\", \
                  by = \"A. Reviewer, PT\", on = 2026-01-08 }]";
    let caution = "[[caution]]\nfor = [\"spine-fracture\"]\nlevel = \"adapt\"\n\
                   text = \"Grow tall gently. Do not arch your back.\"\n";
    let sit = super::testing::edited(SIT, &[("demands = []", accept), (caution, "")]);
    super::testing::review_files(&[("content/pages/about.md", about), (SIT, &sit)])
}
