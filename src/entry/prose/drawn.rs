//! Any Markdown, for tests of what becomes of it.

use proptest::collection::vec;
use proptest::prelude::*;

use crate::entry::Origin;
use crate::model::prose::Prose;
use crate::model::source::FileId;

/// The prose that begins at byte `start` of a text on a free page, unless it goes beyond the limits.
pub(crate) fn read_within(text: &str, start: usize, file: FileId) -> Option<Prose> {
    let mut findings = Vec::new();
    let origin = Origin { file, name: "content/pages/a.md" };
    let prose = super::read(text, start..text.len(), origin, &[], &mut findings);
    findings.is_empty().then_some(prose)
}

/// Pieces of Markdown that may be put together to anything.
pub(crate) fn markdown(with_html: bool) -> impl Strategy<Value = String> {
    let plain: &[&str] = &[
        "# ",
        "## ",
        "### ",
        "###### ",
        "- ",
        "* ",
        "1. ",
        "7) ",
        "> ",
        ": ",
        "    ",
        "  ",
        " ",
        "\n",
        "\n",
        "\n\n",
        "\n\n",
        "*",
        "**",
        "_",
        "`",
        "```",
        "~~~",
        "[",
        "](a.md)",
        "](https://x.example)",
        "]",
        "[@a]",
        "[^n]",
        "[^n]: ",
        "![",
        "](../media/counter.jpg)",
        "](../media/lost.jpg)",
        "| a | b |\n|---|---|\n",
        "|",
        "***",
        "---",
        "\\",
        "&amp;",
        "\t",
        "\r\n",
        "word",
        "añö",
        "Step out.",
        "(",
        ")",
        "!",
        "==",
    ];
    let html: &[&str] = &["<b>", "</b>", "<br>", "<div>", "</div>", "<!--", "-->", "<p>x</p>", "<li>"];
    let mut tokens: Vec<&'static str> = plain.to_vec();
    if with_html {
        tokens.extend(html);
    }
    vec(prop_oneof![9 => proptest::sample::select(tokens), 1 => Just("z")], 0..40)
        .prop_map(|tokens| tokens.concat())
        .prop_filter("it goes beyond the limits", |text| read_within(text, 0, FileId(0)).is_some())
}
