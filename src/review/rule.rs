//! What a rule is: its name, its manual with two examples that run as tests, and its check.

use super::{Case, Sink};
use crate::model::finding::Level;

/// One rule of the review.
pub struct Rule {
    /// Says the defect, in words an author can look up.
    pub name: &'static str,
    /// The level it has unless the workspace changes it.
    pub level: Level,
    /// A safety rule cannot be changed for a workspace; its findings are accepted one by one.
    pub safety: bool,
    /// What it finds, in one sentence.
    pub finds: &'static str,
    /// Why that matters to a client or to the author.
    pub why: &'static str,
    /// An example that it finds fault with, the expected findings drawn under their lines.
    pub bad: Example,
    /// A better one, which the whole review is content with.
    pub good: Example,
    pub check: Check,
}

/// A file laid over the sample workspace. Under a line, a line of carets draws the finding that is
/// expected there: `^^^^ message`.
pub struct Example {
    pub file: &'static str,
    pub text: &'static str,
}

/// When a rule is checked.
pub enum Check {
    /// While an entry is read, by `entry`.
    WhileReading,
    /// On the whole model.
    Model(fn(&Case<'_>, &mut Sink<'_>)),
    /// When exceptions are matched with findings.
    Exceptions,
    /// On the finished pages, by `pages`.
    Pages,
}

/// The manual of a rule as plain text, for `review --explain`.
pub fn manual(rule: &Rule) -> String {
    let mut text = format!("{} ({})\n\n{}\n\n{}\n", rule.name, kind(rule), rule.finds, rule.why);
    for (heading, example) in [("An example", &rule.bad), ("Better", &rule.good)] {
        text.push_str(&format!("\n{heading}, in {}:\n\n", example.file));
        for line in example.text.trim_matches('\n').lines() {
            text.push_str(&format!("    {line}\n").replace("    \n", "\n"));
        }
    }
    text.push_str(match rule.safety {
        true => "\nThis is a safety rule: a finding can only be accepted in its entry, one by one, with\n",
        false => {
            "\nChange it for the site under [rules] in site.toml, or accept a finding in its entry with\n"
        }
    });
    text.push_str(&format!("accept = [{{ finding = \"{}\", because = \"the reason\" }}]\n", rule.name));
    text
}

fn kind(rule: &Rule) -> String {
    let level = rule.level.word();
    if rule.safety { format!("{level}, safety rule") } else { level.to_string() }
}
