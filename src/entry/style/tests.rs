//! What is found in style sheets, drawn under their lines.

use super::read_style;
use crate::model::finding::Finding;
use crate::model::source::{FileId, Source};
use crate::workspace::theme::Theme;
use crate::workspace::{Bytes, Content, decode};

fn read(text: &str) -> Vec<Finding> {
    read_style(text, FileId(0), &Content::Text)
}

/// Each finding as `line:column words: message`, errors with a `!` before them.
fn found(text: &str) -> Vec<String> {
    let source = Source::new("a.css".to_string(), text.to_string());
    let told = read(text).into_iter().map(|f| {
        let at = source.position(f.span.start as usize);
        let mark = if f.severe { "!" } else { "" };
        format!("{mark}{}:{} {}: {}", at.line, at.column, &text[f.span.range()], f.message)
    });
    told.collect()
}

#[test]
fn what_is_not_closed_is_an_error_where_it_begins() {
    let rest = "everything after it is read as part of it";
    for (text, at, what) in [
        ("h1 {\n  margin: 0;\n\nh2 { margin: 0; }\n", "1:4 {", "block"),
        ("p { margin: 0 }\n@media print {\n  h1 { margin: 0; }\n", "2:14 {", "block"),
        ("h1 {\n  width: calc(100% - 2px;\n}\nh2 { margin 0 }\n", "2:10 calc(", "bracket"),
        ("a[href {\n  margin: 0;\n}\n", "1:2 [", "bracket"),
        ("h1 { margin: 0 }\n/* Later.\nh2 { margin 0 }\n", "2:1 /*", "comment"),
        ("h1 { margin: 0 } /*", "1:18 /*", "comment"),
        ("h1 { margin: 0 } /*/", "1:18 /*", "comment"),
        ("a { content: \"é", "1:14 \"é", "text in quotes"),
        ("a { content: 'é\\'", "1:14 'é\\'", "text in quotes"),
        ("a { content: \"", "1:14 \"", "text in quotes"),
        ("a { background: url(leaf.svg", "1:17 url(leaf.svg", "address"),
        ("a { background: url(my leaf.svg", "1:17 url(my leaf.svg", "address"),
    ] {
        assert_eq!(found(text), [format!("!{at}: this {what} is not closed: {rest}")], "{text}");
    }
    let both = found("h1 { margin 0 }\nh2 {\n");
    assert_eq!(both.len(), 2, "what stands before it is told too: {both:?}");
}

#[test]
fn what_closes_nothing_is_found_at_its_place() {
    let nothing = "closes nothing: browsers skip what stands around it";
    for (text, at, bracket) in [
        ("h1 { margin: 0 }\n}\nh2 { margin: 0 }\n", "2:1", "}"),
        ("h1 { margin: 0); }\n", "1:15", ")"),
        ("h1 margin: 0; }\nh2 { margin: 0 }\n", "1:15", "}"),
        ("h1] { margin: 0 }\n", "1:3", "]"),
        ("@media print) { h1 { margin: 0 } }\n", "1:13", ")"),
    ] {
        assert_eq!(found(text), [format!("{at} {bracket}: this `{bracket}` {nothing}")], "{text}");
    }
}

#[test]
fn a_declaration_without_its_colon_or_its_end_is_found() {
    let no_colon = "expected a property, `:` and a value, found";
    let no_end = |next: &str| {
        format!("{next}: expected `;` before `{next}`: browsers read it as part of the value before it")
    };
    let cases = [
        ("h1 {\n  margin 0;\n  padding: 0;\n}\n", format!("2:3 margin 0: {no_colon} `margin 0`")),
        ("h1 { margin: 0; padding }", format!("1:17 padding: {no_colon} `padding`")),
        (
            "h1 {\n  // Wide.\n  margin: 0;\n}\n",
            format!("2:3 // Wide.\n  margin: 0: {no_colon} `// Wide.   margin: 0`"),
        ),
        ("@media print { h1 { *margin: 0 } }", format!("1:21 *margin: 0: {no_colon} `*margin: 0`")),
        ("h1 {\n  margin: 0\n  padding: 0;\n}\n", format!("3:3 {}", no_end("padding:"))),
        (":root {\n  --a: 1px\n  --b: 2px;\n}\n", format!("3:3 {}", no_end("--b:"))),
        (":root {\n  --a: 1px\n  @media print { --b: 2px }\n}\n", format!("3:3 {}", no_end("@media"))),
        ("@font-face {\n  font-family: A\n  src: url(a.woff2);\n}\n", format!("3:3 {}", no_end("src:"))),
    ];
    for (text, expected) in cases {
        assert_eq!(found(text), [expected], "{text}");
    }
    let help = &read("h1 {\n  // Wide.\n  margin: 0;\n}\n")[0].help;
    assert!(help.contains("/*"), "{help}");
}

#[test]
fn a_rule_that_browsers_skip_is_found() {
    let skipped = "browsers skip its block";
    let cases = [
        ("h1 { margin: 0 };\nh2 { margin: 0 }\n", "1:17 ;: a `;` between two rules: browsers skip the rule after it".to_string()),
        ("h1 margin: 0;\nh2 { margin: 0 }\n", format!("1:1 h1 margin: 0;\nh2: expected a selector before `{{`, found `h1 margin: 0; h2`: {skipped}")),
        ("h1 {\n  margin: 0\n  b { margin: 0 }\n}\n", format!("2:3 margin: 0\n  b: expected a selector before `{{`, found `margin: 0   b`: {skipped}")),
        ("// Wide.\nh1 { margin: 0 }\n", format!("1:1 // Wide.\nh1: expected a selector before `{{`, found `// Wide. h1`: {skipped}")),
        ("{ margin: 0 }\n", "1:1 {: expected a selector before `{`: browsers skip this block".to_string()),
        ("h1 { margin: 0 }\nh2\n", "2:1 h2: expected a selector and a block, found `h2`".to_string()),
        ("@import \"a.css\"\nh1 { margin: 0 }\n", "1:1 @import: expected `;` after `@import` and what it names, found a block".to_string()),
        ("/* One.\n/* Two. */\nh1 { margin: 0 }\n", "1:1 /*: this comment goes on to the end of the next one, and what stands between them is not read".to_string()),
    ];
    for (text, expected) in cases {
        assert_eq!(found(text), [expected], "{text}");
    }
}

#[test]
fn quotes_and_addresses_that_cannot_be_read_are_found() {
    let quoted = found("a::before {\n  content: \"one;\n  color: red;\n}\n");
    assert_eq!(quoted, ["2:12 \"one;: this text in quotes does not end on its line"]);
    let address = found("a { background: url(my leaf.svg); }\n");
    let words = "this address cannot be read: it has quotes, a bracket or a blank in it";
    assert_eq!(address, [format!("1:17 url(my leaf.svg): {words}")]);
}

#[test]
fn what_browsers_read_as_it_is_written_has_no_finding() {
    for text in [
        "",
        "/* Only this. See style/*.css. */",
        ":root { --leaf: { a: b }; --empty:; --more: x: y }",
        "a:hover, a::before { color: red } a :first-child { margin: 0; }",
        "h1 { margin: 0; &:hover { color: red } .b > c:not(.d) { margin: 0 } e:hover { margin: 0 } }",
        "@media (min-width: 40em) { h1 { margin: 0 } @supports (display: grid) { h2 { margin: 0 } } }",
        "@import url(a.css); @layer one, two; @charset \"utf-8\"; @namespace svg url(http://a.example/);",
        "@keyframes turn { from { rotate: 0deg } 50%, 60% { rotate: 9deg } to { rotate: 1turn } }",
        "@page :first { margin: 18mm; @top-left { content: \"a;b{\" } }",
        "@tailwind-of-tomorrow foo bar { anything goes; here = { even this } }",
        "h1 { bloom: 3px !important; background: url(data:image/svg+xml;base64,AA==) }",
        "a { content: \"one \\\n two\"; content: '\\''; content: \"\\\\\" }",
        "a { width: calc((1px + var(--b, 2px)) * 2); grid: [a] \"b\" [c] / auto }",
        "h1 { margin: 0 }\r\n\r\nh2 { color: red;; }\r\n",
        "<!-- h1 { margin: 0 } -->",
    ] {
        assert_eq!(found(text), [""; 0], "{text}");
    }
}

#[test]
fn the_styles_of_the_program_have_no_finding() {
    let theme = Theme::built_in();
    let styles: Vec<(&str, &[u8])> =
        theme.below("style/").filter(|(name, _)| name.ends_with(".css")).collect();
    assert!(styles.len() >= 7, "{styles:?}");
    for (name, bytes) in styles {
        let (text, content) = decode(Bytes::All(bytes.to_vec()));
        assert_eq!(read_style(&text, FileId(0), &content), [], "{name}");
        // Whatever is lost of it by a slip at its end is told.
        let short = text.trim_end().strip_suffix('}').expect("a block at the end");
        assert!(read(short).iter().any(|f| f.severe), "{name}");
    }
}

#[test]
fn what_is_no_text_has_one_finding_and_what_is_empty_none() {
    let read = |bytes: &[u8]| {
        let (text, content) = decode(Bytes::All(bytes.to_vec()));
        read_style(&text, FileId(0), &content)
    };
    let latin = read(b"/* \xc9lan */\nh1 { margin }");
    assert_eq!(latin.iter().map(|f| (f.rule, f.span.start)).collect::<Vec<_>>(), [("broken-style", 3)]);
    assert_eq!(read(b" \n"), []);
}

/// Nothing overflows, and a file that is no style sheet does not fill the report.
#[test]
fn a_file_of_anything_has_few_findings() {
    let deep = read(&"a{".repeat(100_000));
    assert_eq!(deep.len(), 1);
    let mixed = read(&format!("h1 {{ margin }}\n{}", "[".repeat(100_000)));
    assert_eq!(mixed.len(), 2);
    assert_eq!(read(&"h1 { margin }\n".repeat(1000)).len(), super::MOST);
}
