//! Changes texts as authors and attackers would: fields with values from the schemas, lines, words, and repetition.

use serde_json::Value;
use steadyleaf::entry::schema::{self, SchemaKind};

/// What a target's inputs are made of.
pub(crate) struct Grammar {
    /// A name on the first line, which stays.
    named: bool,
    fields: Vec<Field>,
    /// Words that mean something where they stand.
    words: Vec<&'static str>,
}

/// A field and what can stand behind it.
struct Field {
    key: String,
    values: Vec<String>,
}

/// SplitMix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014; from memory, not
/// verified).
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u32) -> Random {
        Random(u64::from(seed))
    }

    pub(crate) fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) % end.max(1) as u64) as usize
    }

    fn of<'t, T>(&mut self, all: &'t [T]) -> &'t T {
        &all[self.below(all.len())]
    }
}

const MARKDOWN: [&str; 60] = [
    "[@beck2018]",
    "[@beck2018; @giangregorio2014]",
    "[@none]",
    "[a](exercise:heel-drop)",
    "[a](../exercises/tall-sit.md)",
    "[a](week:first-steps/week-01)",
    "[a](javascript:alert(1))",
    "![a](media/clinic.jpg)",
    "![](media/none.png)",
    "<b>",
    "<script>",
    "</div>",
    "<div>",
    "<!--",
    "> ",
    "- ",
    "1. ",
    "    ",
    "\t",
    "|a|b|\n|-|-|\n|c|d|\n",
    "```",
    "~~~",
    "**",
    "_",
    "`",
    "\\",
    "\u{feff}",
    "\u{200b}",
    "\u{2060}",
    "\u{202e}",
    "\u{0301}",
    "\u{fffe}",
    "\u{1f469}\u{200d}\u{1f9b3}",
    "\u{0}",
    "\u{1b}[31m",
    "\r",
    "\r\n",
    "&amp;",
    "&#0;",
    "[^1]",
    "[^1]: note\n",
    "term\n: meaning\n",
    "# ",
    "## Move\n",
    "## Set up\n",
    "## Watch for\n",
    "***",
    "---",
    "![a][b]",
    "[b]: x\n",
    "3 x 10",
    "10-12 times",
    "8 seconds",
    "hold 1 min",
    "http://a.example",
    "mailto:a@b.example",
    "$x$",
    "#let x = 1",
    "@ref",
    "<lab>",
];
const BIB: [&str; 34] = [
    "@article{",
    "@misc{a,title={T}}",
    "@string{a = {b}}",
    "@string{a = a # a}",
    "crossref={",
    "xdata={",
    "# a # a",
    "title = {",
    "author = {",
    "and others",
    "date = {2018-02/2019}",
    "date = {9999-12-31}",
    "year = 2018,",
    "url={javascript:alert(1)}",
    "url = {https://a.example/}",
    "doi = {10.1000/182}",
    "\\textbf{",
    "\\emph{",
    "{",
    "}",
    "\"",
    "$",
    "$\\alpha$",
    "~",
    "---",
    "\\'e",
    "%",
    "@comment{",
    "@preamble{",
    "<b>",
    "journaltitle",
    "pages = {1--9}",
    "langid = {spanish}",
    "eprint = {1234.5678}",
];
const CAPTIONS: [&str; 30] = [
    "WEBVTT",
    "\n\n",
    "00:00:01.000 --> 00:00:02.000",
    "00:00:01,000 --> 00:00:02,000",
    "99:59:59.999",
    "-->",
    "align:left",
    "position:10%",
    "line:-1",
    "size:100%",
    "region:a",
    "NOTE a\n",
    "STYLE\n::cue{}",
    "REGION\nid:a",
    "<v Ann>",
    "</v>",
    "<c.red>",
    "<00:00:01.500>",
    "<i>",
    "&lt;",
    "&amp;",
    "&nbsp;",
    "&#",
    "1\n",
    "{\\an8}",
    "\u{feff}",
    "\r",
    "\u{200f}",
    "X-TIMESTAMP-MAP=",
    "<ruby>a<rt>b</rt></ruby>",
];
const LISTS: [&str; 24] = [
    " = ",
    "[a|b]",
    "[a|b|]",
    "[",
    "]",
    "|",
    "# ",
    "{ $count ->\n  [one] a\n *[other] b\n }",
    "{ $name }",
    "{",
    "}",
    "{ level-ask }",
    "-term = a\n",
    "level-ask = ",
    "    .attr = b",
    "\"\\u00e9\"",
    "{ NUMBER($count) }",
    " when standing",
    "…",
    "gait = way of walking",
    "kyphosis = 4",
    "\u{202e}",
    "[a|b][c|d][e|f][g|h]",
    "\n\n",
];
const REQUESTS: [&str; 44] = [
    "GET ",
    "HEAD ",
    "POST ",
    "PUT ",
    "OPTIONS ",
    "/",
    "//",
    "/../",
    "/%2e%2e/",
    "/..%2f",
    "/%00",
    "/clients/anna.toml",
    "/../clients/anna.toml",
    "/site.toml",
    "/content/",
    "/media/film.mp4",
    "/exercises/index.html",
    "/series/first-steps/week-01.html",
    "/-/page.js",
    "/-/panel/index.html",
    "/-/excerpt/1/0",
    "/-/excerpt/18446744073709551615/0",
    "/-/changes/index.html",
    " HTTP/1.1\r\n",
    " HTTP/1.0\r\n",
    "Host: 127.0.0.1:PORT\r\n",
    "Host: localhost:PORT\r\n",
    "Host: hill.example\r\n",
    "Origin: http://127.0.0.1:PORT\r\n",
    "Origin: null\r\n",
    "Sec-Fetch-Site: cross-site\r\n",
    "Range: bytes=0-\r\n",
    "Range: bytes=5-9\r\n",
    "Range: bytes=0-18446744073709551615\r\n",
    "Range: bytes=18446744073709551615-\r\n",
    "Content-Length: 5\r\n",
    "Transfer-Encoding: chunked\r\n",
    "Expect: 100-continue\r\n",
    "Upgrade: h2c\r\n",
    "Connection: close\r\n",
    "\r\n\r\n",
    "?a=b",
    "#a",
    "http://hill.example/",
];

pub(crate) fn entries() -> Grammar {
    let kinds = [SchemaKind::Exercise, SchemaKind::Week, SchemaKind::Page, SchemaKind::Series];
    Grammar { named: true, fields: fields(&kinds), words: MARKDOWN.to_vec() }
}

pub(crate) fn settings() -> Grammar {
    Grammar { named: true, fields: fields(&[SchemaKind::Site, SchemaKind::Series]), words: MARKDOWN.to_vec() }
}

pub(crate) fn profiles() -> Grammar {
    Grammar { named: false, fields: fields(&[SchemaKind::Client]), words: MARKDOWN.to_vec() }
}

pub(crate) fn figures() -> Grammar {
    let schema = serde_json::to_value(schema::of(SchemaKind::Exercise, &[])).unwrap();
    let mut all = Vec::new();
    collect(&schema, &schema["$defs"]["Figure"], 0, &mut all);
    assert!(!all.is_empty(), "the schema of an exercise defines its figures");
    Grammar { named: false, fields: all, words: vec!["[[figure]]", "[[figure.pose]]", "# "] }
}

pub(crate) fn references() -> Grammar {
    Grammar { named: false, fields: Vec::new(), words: BIB.to_vec() }
}

pub(crate) fn captions() -> Grammar {
    Grammar { named: true, fields: Vec::new(), words: CAPTIONS.to_vec() }
}

pub(crate) fn words() -> Grammar {
    Grammar { named: true, fields: Vec::new(), words: LISTS.to_vec() }
}

pub(crate) fn requests() -> Grammar {
    Grammar { named: false, fields: Vec::new(), words: REQUESTS.to_vec() }
}

/// Every field of these kinds of file, at whatever depth.
fn fields(kinds: &[SchemaKind]) -> Vec<Field> {
    let mut all = Vec::new();
    for &kind in kinds {
        let schema = serde_json::to_value(schema::of(kind, &[])).unwrap();
        collect(&schema, &schema, 0, &mut all);
        if let Some(shared) = schema["$defs"].as_object() {
            shared.values().for_each(|part| collect(&schema, part, 0, &mut all));
        }
    }
    all
}

fn collect(root: &Value, schema: &Value, depth: usize, all: &mut Vec<Field>) {
    let Some(properties) = schema["properties"].as_object() else { return };
    for (key, of) in properties {
        all.push(Field { key: key.clone(), values: values(root, of, depth) });
    }
}

/// What may stand behind a field by its schema, and what just may not, as TOML.
fn values(root: &Value, schema: &Value, depth: usize) -> Vec<String> {
    if depth > 4 {
        return vec!["1".into()];
    }
    if let Some(name) = schema["$ref"].as_str() {
        let part = root.pointer(name.trim_start_matches('#')).unwrap_or(&Value::Null);
        return values(root, part, depth + 1);
    }
    let mut all: Vec<String> = Vec::new();
    for key in ["enum", "examples"] {
        all.extend(schema[key].as_array().into_iter().flatten().map(Value::to_string));
    }
    all.extend(schema.get("const").map(Value::to_string));
    for key in ["anyOf", "oneOf", "allOf"] {
        all.extend(schema[key].as_array().into_iter().flatten().flat_map(|s| values(root, s, depth + 1)));
    }
    match schema["type"].as_str() {
        Some("string") => all.extend(
            [
                "\"\"",
                "\"a\"",
                "\"2027-02-15\"",
                "\"3 x 10\"",
                "\"\\u200b\"",
                "'''\na\n'''",
                "\"heel-drop\"",
                "\"Seated heel press\"",
            ]
            .map(String::from),
        ),
        Some("integer") => {
            all.extend(["0", "1", "-1", "7", "100000", "9223372036854775807"].map(String::from))
        }
        Some("number") => {
            all.extend(["0.0", "-0.0", "1e308", "nan", "inf", "-45", "90", "1e-308"].map(String::from))
        }
        Some("boolean") => all.extend(["true", "false"].map(String::from)),
        Some("array") => {
            let items = values(root, &schema["items"], depth + 1);
            all.push("[]".into());
            all.extend(items.iter().take(12).map(|item| format!("[{item}]")));
            all.extend(items.windows(2).take(12).map(|two| format!("[{}, {}]", two[0], two[1])));
        }
        Some("object") => {
            let mut inside = Vec::new();
            collect(root, schema, depth + 1, &mut inside);
            for pick in 0..4 {
                let pairs = inside.iter().filter(|f| !f.values.is_empty());
                let pairs = pairs
                    .map(|f| format!("{} = {}", f.key, f.values[pick % f.values.len()].replace('\n', " ")));
                all.push(format!("{{ {} }}", pairs.collect::<Vec<_>>().join(", ")));
            }
        }
        _ => {}
    }
    all
}

/// The text with one to four changes.
pub(crate) fn changed(data: &[u8], grammar: &Grammar, random: &mut Random) -> Vec<u8> {
    let mut text = String::from_utf8_lossy(data).into_owned();
    for _ in 0..1 + random.below(4) {
        change(&mut text, grammar, random);
    }
    text.into_bytes()
}

fn change(text: &mut String, grammar: &Grammar, random: &mut Random) {
    let mut lines: Vec<String> = text.split('\n').map(String::from).collect();
    let first = usize::from(grammar.named && lines.len() > 1);
    let at = first + random.below(lines.len() - first);
    let field = (!grammar.fields.is_empty()).then(|| random.of(&grammar.fields));
    match random.below(12) {
        // Another value for the field of a line; that of another field, where the schema has none for it.
        0 | 1 if field.is_some() => {
            let key = lines[at].split_once('=').map(|(key, _)| key.trim().to_string());
            let known =
                grammar.fields.iter().filter(|f| Some(&f.key) == key.as_ref() && !f.values.is_empty());
            let known: Vec<&Field> = known.collect();
            let of = if known.is_empty() { field.unwrap() } else { random.of(&known) };
            if !of.values.is_empty() {
                let value = random.of(&of.values);
                lines[at] = format!("{} = {value}", key.as_ref().unwrap_or(&of.key));
            }
        }
        2 | 3 if field.is_some_and(|f| !f.values.is_empty()) => {
            let field = field.unwrap();
            let value = random.of(&field.values);
            let line = match random.below(4) {
                0 => format!("[[{}]]", field.key),
                1 => format!("[{}]", field.key),
                _ => format!("{} = {value}", field.key),
            };
            lines.insert(at, line);
        }
        4 => drop(lines.remove(at)),
        5 => lines.insert(at, lines[at].clone()),
        6 => {
            let other = first + random.below(lines.len() - first);
            lines.swap(at, other);
        }
        // A part of the text again.
        7 => {
            let end = (at + 1 + random.below(12)).min(lines.len());
            let part = lines[at..end].to_vec();
            let to = first + random.below(lines.len() - first);
            lines.splice(to..to, part);
        }
        // Something said over and over.
        8 => {
            let word = *random.of(&grammar.words);
            let times = 1 << random.below(13);
            let place = place(&lines[at], random);
            lines[at].insert_str(place, &word.repeat(times));
        }
        _ => {
            let word = *random.of(&grammar.words);
            let place = place(&lines[at], random);
            lines[at].insert_str(place, word);
        }
    }
    *text = lines.join("\n");
}

/// A place between two characters.
fn place(line: &str, random: &mut Random) -> usize {
    let places: Vec<usize> = line.char_indices().map(|(at, _)| at).chain([line.len()]).collect();
    *random.of(&places)
}
