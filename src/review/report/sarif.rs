//! A review as SARIF 2.1.0 (OASIS standard, 2020), for editors and code hosts.

use serde_json::{Value, json};

use crate::model::finding::{Finding, Level};
use crate::model::source::Sources;
use crate::review::rules;
use crate::review::{Review, rule};

/// The report as a SARIF log with one run. An exception is a suppressed result.
pub fn render(review: &Review, sources: &Sources) -> String {
    let open = review.findings.iter().map(|f| result(f, sources, None));
    let accepted = review.exceptions.iter().map(|e| result(&e.finding, sources, Some(&e.because)));
    let log = json!({
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "steadyleaf",
                "version": env!("CARGO_PKG_VERSION"),
                "rules": rules::ALL.iter().map(|r| descriptor(r)).collect::<Vec<_>>(),
            } },
            "columnKind": "unicodeCodePoints",
            "results": open.chain(accepted).collect::<Vec<_>>(),
        }],
    });
    let mut text = serde_json::to_string_pretty(&log).unwrap_or_default();
    text.push('\n');
    text
}

fn descriptor(rule: &rule::Rule) -> Value {
    json!({
        "id": rule.name,
        "shortDescription": { "text": one_line(rule.finds) },
        "fullDescription": { "text": one_line(rule.why) },
        "help": { "text": rule::manual(rule) },
        "defaultConfiguration": { "level": rule.level.word() },
    })
}

fn result(finding: &Finding, sources: &Sources, because: Option<&str>) -> Value {
    let (start, end) = sources.positions(finding.span);
    let name = &sources.get(finding.span.file).name;
    let index = rules::ALL.iter().position(|r| r.name == finding.rule);
    let mut result = json!({
        "ruleId": finding.rule,
        "level": match finding.level { Level::Error => "error", Level::Warning => "warning", Level::Note => "note" },
        "message": { "text": format!("{}. {}", finding.message, finding.help) },
        "locations": [{ "physicalLocation": {
            "artifactLocation": { "uri": uri(name) },
            "region": {
                "startLine": start.line,
                "startColumn": start.column,
                "endLine": end.line,
                "endColumn": end.column,
            },
        } }],
        // The same finding keeps its print when lines above it are added.
        "partialFingerprints": { "findingHash/v1": print(finding, name) },
    });
    if let Some(index) = index {
        result["ruleIndex"] = json!(index);
    }
    if let Some(because) = because {
        result["suppressions"] =
            json!([{ "kind": "inSource", "status": "accepted", "justification": because }]);
    }
    result
}

fn print(finding: &Finding, name: &str) -> String {
    let text = format!("{}\n{name}\n{}", finding.rule, finding.message);
    blake3::hash(text.as_bytes()).to_hex()[..32].to_string()
}

/// A relative reference as RFC 3986 wants it: what is not unreserved is percent-encoded.
fn uri(name: &str) -> String {
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._~/".contains(&b);
    name.bytes().map(|b| if plain(b) { (b as char).to_string() } else { format!("%{b:02X}") }).collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
