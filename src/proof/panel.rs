//! The panel at the foot of an open page: what the review found, those of this page first, and whether the page
//! is the last good one.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

use super::dress::escaped;
use crate::model::finding::Finding;
use crate::model::source::Sources;
use crate::review::Review;
use crate::review::report::text::summary;

/// Findings of other entries beyond these are only counted: a panel is no place for a thousand.
const MOST_OF_OTHERS: usize = 60;

/// What a panel is made from.
pub struct About<'a> {
    pub review: &'a Review,
    /// Which review this is: an excerpt is asked for with it.
    pub number: u64,
    /// The texts as the review saw them.
    pub sources: &'a Sources,
    /// The names of the entries that the page is about.
    pub entries: &'a BTreeSet<&'a str>,
    /// Why the page is not as the files are now.
    pub held: Option<&'a str>,
}

/// The panel's content.
pub fn html(about: &About<'_>) -> String {
    let findings = about.review.findings.iter().enumerate();
    let is_here = |f: &Finding| about.entries.contains(about.sources.get(f.span.file).name.as_str());
    let (here, others): (Vec<_>, Vec<_>) = findings.partition(|(_, f)| is_here(f));
    let mut html = String::new();
    let held = about.held.map(|why| {
        (
            "<strong class=\"proof-error\">Showing the last good version.</strong> ",
            format!("<p class=\"proof-why\">{}</p>\n", with_code(why)),
        )
    });
    let (mark, why) = held.unwrap_or_default();
    let _ = write!(
        html,
        "<summary><span role=\"status\">{mark}Review: {}</span></summary>\n<div class=\"proof-all\" tabindex=\"-1\">\n{why}",
        escaped(&summary(about.review))
    );
    list(about, "On this page", &here, here.len(), &mut html);
    list(about, "In other entries", &others, MOST_OF_OTHERS, &mut html);
    html.push_str("</div>\n");
    html
}

fn list(about: &About<'_>, title: &str, findings: &[(usize, &Finding)], most: usize, html: &mut String) {
    if findings.is_empty() {
        return;
    }
    let _ = write!(html, "<h2>{title}</h2>\n<ul>\n");
    let mut names: BTreeMap<String, usize> = BTreeMap::new();
    for (index, finding) in &findings[..findings.len().min(most)] {
        let source = about.sources.get(finding.span.file);
        let line = about.sources.positions(finding.span).0.line;
        let level = finding.level.word();
        // A finding that stays keeps its name from one review to the next, so that it stays open.
        let name =
            blake3::hash(format!("{title} {} {} {}", finding.rule, source.name, finding.message).as_bytes());
        let name = name.to_hex()[..12].to_string();
        let times = names.entry(name.clone()).or_default();
        *times += 1;
        let _ = write!(
            html,
            "<li id=\"proof.{name}.{times}\"><details data-excerpt=\"/-/excerpt/{}/{index}\"><summary><span class=\"proof-{level}\">{level}</span> {} \
             <span class=\"proof-place\">{}, line {line}</span></summary>\n<div class=\"proof-excerpt\"></div>\
             <p>{}</p><p class=\"proof-rule\">Rule: <code>{}</code></p></details></li>\n",
            about.number,
            with_code(&finding.message),
            escaped(&source.name),
            with_code(&finding.help),
            finding.rule
        );
    }
    html.push_str("</ul>\n");
    if findings.len() > most {
        let _ = writeln!(
            html,
            "<p>And {} more: <code>steadyleaf review</code> shows all.</p>",
            findings.len() - most
        );
    }
}

/// A message in HTML; what stands in backticks is the author's own.
fn with_code(message: &str) -> String {
    let mut html = String::new();
    for (n, part) in message.split('`').enumerate() {
        match n % 2 {
            0 => html.push_str(&escaped(part)),
            _ => {
                let _ = write!(html, "<code>{}</code>", escaped(part));
            }
        }
    }
    html
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::review_files;

    #[test]
    fn findings_of_the_page_stand_first_and_the_rest_is_counted() {
        let entry =
            |title: &str| format!("```toml\ntitle = \"{title}\"\n```\n[x](nowhere.md) <b onclick='x'>\n");
        let files: Vec<(String, String)> =
            (0..80).map(|n| (format!("content/pages/page-{n:02}.md"), entry("A < B"))).collect();
        let files: Vec<(&str, &str)> = files.iter().map(|(n, t)| (n.as_str(), t.as_str())).collect();
        let (review, sources) = review_files(&files);
        let entries = BTreeSet::from(["content/pages/page-79.md"]);
        let html = html(&About {
            review: &review,
            number: 3,
            sources: &sources,
            entries: &entries,
            held: Some("`x` broke"),
        });
        let at = |words: &str| html.find(words).unwrap_or_else(|| panic!("no {words} in {html}"));
        assert!(at("page-79.md, line 4") < at("In other entries"));
        assert!(at("In other entries") < at("page-00.md, line 4"));
        assert!(html.contains("data-excerpt=\"/-/excerpt/3/") && html.contains("<code>x</code> broke"));
        assert!(html.contains(" more: <code>steadyleaf review</code>"));
        assert!(!html.contains("onclick='x'>"), "{html}");
    }
}
