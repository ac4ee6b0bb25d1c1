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

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::review::report::example;
    use crate::review::rules;
    use crate::review::testing::review_files;

    fn log() -> Value {
        let (review, sources) = example();
        serde_json::from_str(&super::render(&review, &sources)).unwrap()
    }

    #[test]
    fn a_finding_is_a_result_with_its_region_and_rule() {
        let run = &log()["runs"][0];
        let result = &run["results"][0];
        let index = result["ruleIndex"].as_u64().unwrap() as usize;
        assert_eq!(run["tool"]["driver"]["rules"][index]["id"], "broken-link");
        assert_eq!(run["columnKind"], "unicodeCodePoints");
        assert_eq!(result["ruleId"], "broken-link");
        assert_eq!(result["level"], "error");
        assert_eq!(
            result["locations"],
            json!([{ "physicalLocation": {
                "artifactLocation": { "uri": "content/pages/about.md" },
                "region": { "startLine": 5, "startColumn": 8, "endLine": 5, "endColumn": 17 },
            } }])
        );
        assert_eq!(result.get("suppressions"), None);
    }

    #[test]
    fn an_exception_is_a_suppressed_result_with_its_reason() {
        let result = &log()["runs"][0]["results"][1];
        assert_eq!(result["ruleId"], "missing-caution");
        assert_eq!(
            result["suppressions"],
            json!([{ "kind": "inSource", "status": "accepted", "justification": "Sólo sentada." }])
        );
    }

    #[test]
    fn every_rule_is_described_in_order() {
        let log = log();
        assert_eq!(log["version"], "2.1.0");
        let described = log["runs"][0]["tool"]["driver"]["rules"].as_array().unwrap();
        let ids: Vec<&str> = described.iter().map(|r| r["id"].as_str().unwrap()).collect();
        assert_eq!(ids, rules::ALL.iter().map(|r| r.name).collect::<Vec<_>>());
        for rule in described {
            assert!(rule["shortDescription"]["text"].as_str().is_some_and(|t| !t.contains('\n')));
            assert!(
                ["note", "warning", "error"]
                    .contains(&rule["defaultConfiguration"]["level"].as_str().unwrap())
            );
        }
    }

    #[test]
    fn the_print_of_a_finding_stays_when_lines_are_added_above_it() {
        let print = |text: &str| {
            let (review, sources) = review_files(&[("content/pages/about.md", text)]);
            let log: Value = serde_json::from_str(&super::render(&review, &sources)).unwrap();
            log["runs"][0]["results"][0]["partialFingerprints"].clone()
        };
        let head = "```toml\ntitle = \"About us\"\n```\n";
        let one = print(&format!("{head}[x](a.md)\n"));
        assert!(one["findingHash/v1"].as_str().is_some_and(|p| p.len() == 32));
        assert_eq!(one, print(&format!("{head}Hello.\n\n[x](a.md)\n")));
        assert_ne!(one, print(&format!("{head}[x](b.md)\n")));
    }

    #[test]
    fn a_file_name_becomes_a_uri() {
        assert_eq!(super::uri("content/pages/sobre mí.md"), "content/pages/sobre%20m%C3%AD.md");
    }
}
