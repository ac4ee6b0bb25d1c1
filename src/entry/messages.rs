//! What the messages of the TOML library mean: the one place that knows their words.
//!
//! The library tells a mistake by a place and a sentence, and has no kinds. Its version is pinned in `Cargo.toml`, and the
//! test below fails when a sentence changes.

/// A mistake in the grammar of the fields, as far as its place does not say what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Slip {
    /// A field, or a heading in brackets, that stands there already.
    Twice,
    /// A heading whose brackets do not close.
    Heading,
    /// A list that never closes; told where it ends.
    UnclosedList,
    /// Something in a list that does not belong there, which a list that never closes often has first.
    InList,
    /// A text with a quote missing, or with something in it that no text has.
    Text,
    /// A text without quotes, or no value at all.
    Unquoted,
    /// A day or a time that cannot be.
    Date,
    Other,
}

/// The prefixes of the sentences, of which the first that fits counts.
const PREFIXES: [(&str, Slip); 16] = [
    ("duplicate key", Slip::Twice),
    ("unclosed array table", Slip::Heading),
    ("unclosed table", Slip::Heading),
    ("unclosed array", Slip::UnclosedList),
    ("missing comma between array elements", Slip::InList),
    ("unexpected `=` in array", Slip::InList),
    ("extra comma in array", Slip::InList),
    ("missing array opening", Slip::InList),
    ("invalid basic string", Slip::Text),
    ("invalid literal string", Slip::Text),
    ("invalid multi-line basic string", Slip::Text),
    ("invalid multi-line literal string", Slip::Text),
    ("string values must be quoted", Slip::Unquoted),
    ("invalid date", Slip::Date),
    ("invalid time", Slip::Date),
    ("invalid offset", Slip::Date),
];

impl Slip {
    /// What a sentence of the library tells of.
    pub(super) fn of(sentence: &str) -> Slip {
        let fits = |(prefix, _): &&(&str, Slip)| sentence.starts_with(prefix);
        PREFIXES.iter().find(fits).map_or(Slip::Other, |(_, slip)| *slip)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first mistake of a document, as the library tells it.
    fn told(document: &str) -> String {
        let (_, errors) = toml::de::DeTable::parse_recoverable(document);
        errors.first().map(|e| e.message().to_string()).unwrap_or_default()
    }

    #[test]
    fn the_library_says_what_it_said_when_its_sentences_were_read() {
        let cases = [
            ("a = 1\na = 2\n", "duplicate key", Slip::Twice),
            ("[a]\n[a]\n", "duplicate key", Slip::Twice),
            ("[[a]\n", "unclosed array table, expected `]`", Slip::Heading),
            ("[a\n", "unclosed table, expected `]`", Slip::Heading),
            ("a = [1, 2\n", "unclosed array, expected `]`", Slip::UnclosedList),
            ("a = ['1' '2']\n", "missing comma between array elements, expected `,`", Slip::InList),
            ("a = [b = 1]\n", "unexpected `=` in array, expected value, `]`", Slip::InList),
            ("a = [, 1]\n", "extra comma in array, expected value", Slip::InList),
            ("a = ]\n", "missing array opening, expected `[`", Slip::InList),
            ("a = \"b\n", "invalid basic string, expected `\"`", Slip::Text),
            ("a = 'b\n", "invalid literal string, expected `'`", Slip::Text),
            ("a = \"\"\"b\n", "invalid multi-line basic string, expected `\"`", Slip::Text),
            ("a = '''b\n", "invalid multi-line literal string, expected `'`", Slip::Text),
            ("a = b\n", "string values must be quoted, expected literal string", Slip::Unquoted),
            ("a = \n", "string values must be quoted, expected literal string", Slip::Unquoted),
            ("a = 3-4\n", "invalid date, expected `-` (MM-DD)", Slip::Date),
            ("a = 2026-02-30\n", "invalid date, expected day between 01 and 28", Slip::Date),
            ("a = 2026-01-01T25:00:00\n", "invalid time, expected hour between 00 and 23", Slip::Date),
            (
                "a = 2026-01-01T10:00:00+99:00\n",
                "invalid offset, expected hours between 00 and 23",
                Slip::Date,
            ),
            ("a: 1\n", "key with no value, expected `=`", Slip::Other),
        ];
        let found: Vec<(&str, String, Slip)> = cases
            .iter()
            .map(|(document, ..)| (*document, told(document), Slip::of(&told(document))))
            .collect();
        let expected = cases.map(|(document, sentence, slip)| (document, sentence.to_string(), slip));
        assert_eq!(found, expected);
        for (prefix, _) in PREFIXES {
            let first =
                |sentence: &str| PREFIXES.iter().find(|(b, _)| sentence.starts_with(b)).map(|(b, _)| *b);
            assert!(cases.iter().any(|(_, s, _)| first(s) == Some(prefix)), "no case has `{prefix}`");
        }
    }
}
