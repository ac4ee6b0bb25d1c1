//! CommonMark's own examples through our path from Markdown to HTML.
//!
//! The examples are under a license of their own and stay outside this repository. `tests/all` installs them
//! and says in `STEADYLEAF_COMMONMARK` where they are, as JSON: a list of `{ markdown, html, number }`.
//! Without that variable the examples are not checked, and the test says so.

use serde::Deserialize;
use steadyleaf::entry::read_prose;
use steadyleaf::pages::markdown::render_plain;

const EXAMPLES: &str = "STEADYLEAF_COMMONMARK";

/// Of CommonMark 0.31.2.
const HOW_MANY: usize = 652;

/// Examples that come out otherwise, and why.
const OTHERWISE: &[(usize, &str)] = &[];

#[derive(Deserialize)]
struct Example {
    markdown: String,
    html: String,
    number: usize,
}

#[test]
#[expect(clippy::disallowed_methods, reason = "the examples are outside the repository")]
fn the_examples_of_commonmark_come_out_as_it_says() {
    let Some(path) = std::env::var_os(EXAMPLES) else {
        println!("NOT CHECKED: CommonMark's examples, since {EXAMPLES} is not set; tests/all sets it");
        return;
    };
    let json = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let examples: Vec<Example> = serde_json::from_str(&json).unwrap();
    assert_eq!(examples.len(), HOW_MANY, "the examples of another version");
    let mut faults = Vec::new();
    for example in &examples {
        let found = normal(&render_plain(&read_prose(&example.markdown)));
        let same = found == normal(&example.html);
        let listed = OTHERWISE.iter().find(|(number, _)| *number == example.number);
        match (same, listed) {
            (true, None) | (false, Some(_)) => {}
            (true, Some((number, why))) => faults.push(format!("{number} is listed ({why}), yet it matches")),
            (false, None) => faults.push(format!(
                "{}:\n{}\nexpected {}\nfound    {found}",
                example.number,
                example.markdown,
                normal(&example.html)
            )),
        }
    }
    assert!(faults.is_empty(), "{} of {HOW_MANY}:\n{}", faults.len(), faults.join("\n\n"));
    println!("CommonMark: {HOW_MANY} examples, {} of them otherwise for a reason", OTHERWISE.len());
}

#[test]
fn what_differs_in_more_than_whitespace_between_blocks_is_not_the_same() {
    assert_eq!(normal("<ul>\n<li>a</li>\n</ul>\n"), normal("<ul><li>a</li></ul>"));
    assert_ne!(normal("<p>a b</p>"), normal("<p>ab</p>"));
    assert_ne!(normal("<p>a\nb</p>"), normal("<p>a<br>b</p>"));
    assert_ne!(normal("<pre><code>a\n\nb\n</code></pre>"), normal("<pre><code>a\nb\n</code></pre>"));
    assert_eq!(normal("<p>&quot;a&quot;</p>"), normal("<p>\"a\"</p>"));
    assert_ne!(normal("<p>&quot;a</p>"), normal("<p>a</p>"));
    assert_ne!(normal("<p><em>a</em></p>"), normal("<p>a</p>"));
}

/// HTML whose differences are seen by a reader: white space between blocks does not count, in `<pre>` all of it does;
/// a quotation mark in text may be written out.
fn normal(html: &str) -> String {
    let html = &with_plain_quotation_marks(html);
    let mut out = String::new();
    let mut rest = html.as_str();
    while let Some(at) = rest.find("<pre") {
        let end = rest[at..].find("</pre>").map_or(rest.len(), |end| at + end);
        out.push_str(&without_space_between_blocks(&rest[..at]));
        out.push_str(&rest[at..end]);
        rest = &rest[end..];
    }
    out.push_str(&without_space_between_blocks(rest));
    out.trim().to_string()
}

/// `&quot;` in text, but not in a tag, is `"`.
fn with_plain_quotation_marks(html: &str) -> String {
    let parts = html.split_inclusive('>').map(|part| {
        let (text, tag) = part.split_at(part.find('<').unwrap_or(part.len()));
        text.replace("&quot;", "\"") + tag
    });
    parts.collect()
}

fn without_space_between_blocks(html: &str) -> String {
    const BLOCKS: [&str; 12] =
        ["p", "ul", "ol", "li", "h1", "h2", "h3", "h4", "h5", "h6", "blockquote", "hr"];
    let mut html = html.replace("<br />", "<br>").replace("<hr />", "<hr>");
    for block in BLOCKS {
        for tag in [format!("<{block}>"), format!("</{block}>")] {
            html = html.replace(&format!("\n{tag}"), &tag).replace(&format!("{tag}\n"), &tag);
        }
    }
    html.replace("\n</pre>", "</pre>").replace("</pre>\n", "</pre>")
}
