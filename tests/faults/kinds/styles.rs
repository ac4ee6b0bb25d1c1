//! Faults of the style sheets of a user's own theme.

use steadyleaf::workspace::theme::Theme;

use crate::demonstration::Demonstration;
use crate::draw::Draw;
use crate::edit::put;
use crate::fault::{Edits, Fault};

/// A style sheet of the program as the user's own, with one sign of its grammar left out.
pub(super) fn sign_left_out(_: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let theme = Theme::built_in();
    let mut faults = Vec::new();
    for (name, bytes) in theme.below("style/").filter(|(name, _)| name.ends_with(".css")) {
        let text = String::from_utf8_lossy(bytes).into_owned();
        let file = format!("themes/wideleaf/{name}");
        for sign in [": ", ";\n", "{\n", "}\n", "*/"] {
            let places = text.match_indices(sign).filter(|(at, _)| !is_commented(&text, *at, sign));
            for (at, _) in places {
                // After the last declaration of a block no `;` is needed.
                let last = text[at + sign.len()..].trim_start().starts_with('}');
                let blank = sign.len() - sign.trim_end().len();
                if (sign == ";\n" && last) || (sign == ": " && !is_after_property(&text[..at])) {
                    continue;
                }
                let slipped = put(&text, at..at + sign.len() - blank, "");
                let what = format!("{:?} left out at byte {at}", sign.trim_end());
                let ground = Edits::of(&file, text.clone());
                faults.push(Fault::inside(&file, what, slipped).on(ground));
            }
        }
    }
    faults
}

/// True inside a comment, where no sign of the grammar but its end is one.
fn is_commented(text: &str, at: usize, sign: &str) -> bool {
    sign != "*/" && text[..at].rfind("/*") > text[..at].rfind("*/")
}

/// True where nothing but the name of a property stands before on the line: brackets have signs of their own.
fn is_after_property(before: &str) -> bool {
    let line = before.rsplit('\n').next().unwrap_or_default().trim_start();
    line.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-')
}
