//! What a rule is: its name, its manual with two examples that run as tests, and its check.

use super::figures::Drawn;
use super::texts::Texts;
use super::{Case, Sink};
use crate::model::finding::Level;
use crate::reckon::ladder::Ladders;
use crate::workspace::sample;

/// One rule of the review.
pub struct Rule {
    /// Says the defect, in words an author can look up.
    pub name: &'static str,
    /// The level it has unless the workspace changes it.
    pub level: Level,
    /// A safety rule cannot be changed for a workspace; its findings are accepted one by one.
    pub safety: bool,
    /// What it finds, in a sentence or two.
    pub finds: &'static str,
    /// Why that matters to a client or to the author.
    pub why: &'static str,
    /// An example that it finds fault with, the expected findings drawn under their lines.
    pub bad: Example,
    /// A better one, which the whole review is content with.
    pub good: Example,
    pub check: Check,
}

/// When a rule is checked.
pub enum Check {
    /// While an entry is read, by `entry`. Such a finding cannot be accepted: other rules draw no
    /// conclusion from what could not be read, so an exception would hide their findings too.
    WhileReading,
    /// While an entry is read, and on the ladders when all are. It cannot be accepted either.
    Limits(fn(&Case<'_>, &Ladders<'_>, &mut Sink<'_>)),
    /// On the whole model.
    Model(fn(&Case<'_>, &mut Sink<'_>)),
    /// On the ladders of the whole model.
    Ladders(fn(&Case<'_>, &Ladders<'_>, &mut Sink<'_>)),
    /// On each drawn figure, which is placed in space once for all rules. What a rule finds in it follows from its entry alone.
    Figures(FigureCheck),
    /// On the whole model, and on each drawn figure as well.
    ModelAndFigures(fn(&Case<'_>, &mut Sink<'_>), FigureCheck),
    /// On the client-facing texts of each exercise, week and free page.
    Texts(fn(&Case<'_>, &Texts<'_>, &mut Sink<'_>)),
    /// When exceptions are matched with findings.
    Exceptions,
    /// On the finished pages, by `pages`.
    Pages,
    /// On the sheets as they were set, by `print`. One that loses nothing that a client needs may go out where its entry accepts that.
    Sheets(Bearing),
}

/// Whether a sheet may go out with a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearing {
    /// All is there and can be read, if not as it should be.
    Borne,
    /// Something is lost, or must not be there. It cannot be accepted.
    Never,
}

/// Looks at a drawn figure.
pub type FigureCheck = fn(&Drawn<'_>, &mut Sink<'_>);

impl Check {
    /// What looks at each drawn figure, if something does.
    pub fn of_figures(&self) -> Option<FigureCheck> {
        match self {
            Check::Figures(check) | Check::ModelAndFigures(_, check) => Some(*check),
            _ => None,
        }
    }
}

/// A file laid over the sample workspace. Under a line, a line of carets draws the finding that is
/// expected there: `^^^^ message`.
pub struct Example {
    pub file: &'static str,
    text: Text,
    /// Another file that the example needs.
    beside: Option<(&'static str, Text)>,
}

/// Whole lines of a file of the sample, each time with those that stand in their place.
type Replaced = &'static [(&'static str, &'static str)];

#[derive(Clone, Copy)]
enum Text {
    Whole(&'static str),
    Lines(Replaced),
}

impl Example {
    /// A whole file.
    pub const fn whole(file: &'static str, text: &'static str) -> Example {
        Example { file, text: Text::Whole(text), beside: None }
    }

    /// The sample's file with some of its lines replaced: `(lines that stand there, lines instead)`.
    pub const fn lines(file: &'static str, replaced: Replaced) -> Example {
        Example { file, text: Text::Lines(replaced), beside: None }
    }

    /// The same example, with some lines of another file of the sample replaced.
    pub const fn beside(self, file: &'static str, replaced: Replaced) -> Example {
        Example { beside: Some((file, Text::Lines(replaced))), ..self }
    }

    /// The same example, with another whole file.
    pub const fn with(self, file: &'static str, text: &'static str) -> Example {
        Example { beside: Some((file, Text::Whole(text))), ..self }
    }

    /// The other file that the example changes, with its text.
    pub fn other_file(&self) -> Option<(&'static str, String)> {
        let (file, text) = self.beside?;
        Some((file, text.lines(file).into_iter().map(|line| line.text + "\n").collect()))
    }

    /// The text of the file with the findings drawn in it.
    pub fn drawn(&self) -> String {
        self.drawn_lines().into_iter().map(|line| line.text + "\n").collect()
    }

    /// The part that a reader has to see: a whole file, or the replaced lines with three lines around.
    fn excerpt(&self) -> String {
        let mut text = excerpt(&self.drawn_lines());
        if let Some((file, beside)) = self.beside {
            text.push_str(&format!("\nand in {file}:\n\n{}", excerpt(&beside.lines(file))));
        }
        text
    }

    fn drawn_lines(&self) -> Vec<Line> {
        self.text.lines(self.file)
    }

    /// Every passage that [`Example::lines`] replaces stands exactly once in the sample's file.
    #[cfg(test)]
    pub(super) fn check_passages(&self) {
        for (file, text) in std::iter::once((self.file, self.text)).chain(self.beside) {
            let Text::Lines(replaced) = text else { continue };
            let sample = sample::text(file).unwrap_or_else(|| panic!("the sample has no {file}"));
            for (old, _) in replaced {
                let old = format!("\n{}\n", old.trim_matches('\n'));
                let count = format!("\n{sample}").matches(&old).count();
                assert_eq!(count, 1, "times that these lines stand in {file}:{old}");
            }
        }
    }
}

impl Text {
    fn lines(self, file: &str) -> Vec<Line> {
        match self {
            Text::Whole(text) => {
                let lines = text.trim_matches('\n').lines();
                lines.map(|l| Line { text: l.to_string(), new: true }).collect()
            }
            Text::Lines(replaced) => replaced_lines(file, replaced),
        }
    }
}

/// The new lines of a text, with three lines around.
fn excerpt(lines: &[Line]) -> String {
    const AROUND: usize = 3;
    let near = |i: usize| {
        let from = i.saturating_sub(AROUND);
        lines[from..lines.len().min(i + AROUND + 1)].iter().any(|l| l.new)
    };
    let mut text = String::new();
    let mut left_out = false;
    for (i, line) in lines.iter().enumerate() {
        if !near(i) {
            left_out = true;
            continue;
        }
        if std::mem::take(&mut left_out) {
            text.push_str("    …\n");
        }
        text.push_str(format!("    {}", line.text).trim_end());
        text.push('\n');
    }
    if left_out {
        text.push_str("    …\n");
    }
    text
}

/// The lines of a file of the sample with some replaced.
fn replaced_lines(file: &str, replaced: Replaced) -> Vec<Line> {
    let sample = sample::text(file).unwrap_or_default();
    let mut lines: Vec<Line> = sample.lines().map(|l| Line { text: l.to_string(), new: false }).collect();
    for (old, new) in replaced {
        let old: Vec<&str> = old.trim_matches('\n').lines().collect();
        let mut new: Vec<Line> =
            new.trim_matches('\n').lines().map(|l| Line { text: l.to_string(), new: true }).collect();
        let Some(at) = lines.windows(old.len().max(1)).position(|w| w.iter().map(|l| &l.text).eq(&old))
        else {
            continue;
        };
        if new.is_empty() && at > 0 {
            // Lines that were only taken out show by what stands around them.
            new.push(Line { text: lines[at - 1].text.clone(), new: true });
            lines.splice(at - 1..at + old.len(), new);
        } else {
            lines.splice(at..at + old.len(), new);
        }
    }
    lines
}

struct Line {
    text: String,
    new: bool,
}

/// The manual of a rule as plain text, for `review --explain`.
pub fn manual(rule: &Rule) -> String {
    let mut text = format!("{} ({})\n\n{}\n\n{}\n", rule.name, kind(rule), rule.finds, rule.why);
    for (heading, example) in [("An example", &rule.bad), ("Better", &rule.good)] {
        text.push_str(&format!("\n{heading}, in {}:\n\n{}", example.file, example.excerpt()));
    }
    text.push('\n');
    if let Check::WhileReading | Check::Limits(_) = rule.check {
        text.push_str(
            "It can neither be changed for the site nor accepted: what cannot be read cannot be reviewed.\n",
        );
        return text;
    }
    text.push_str(match rule.safety {
        true => "This is a safety rule: a finding can only be accepted in its entry, one by one, with\n",
        false => "Change it for the site under [rules] in site.toml, or accept a finding in its entry with\n",
    });
    let signed = if rule.safety { ", by = \"Name, PT\", on = 2026-10-01" } else { "" };
    text.push_str(&format!(
        "accept = [{{ finding = \"{}\", because = \"the reason\"{signed} }}]\n",
        rule.name
    ));
    text
}

fn kind(rule: &Rule) -> String {
    let level = rule.level.word();
    if rule.safety { format!("{level}, safety rule") } else { level.to_string() }
}

#[cfg(test)]
mod tests {
    use crate::review::rules;

    #[test]
    fn a_manual_shows_the_lines_that_matter_with_three_lines_around() {
        let manual = super::manual(rules::find("unanswered-demand").unwrap());
        insta::assert_snapshot!(manual);
    }
}
