//! The structured fields of an entry: asks a spanned table for typed values and collects what is
//! wrong with them. The first of two stages; the typed entries are built from it.

use toml::de::{DeTable, DeValue};

use super::grammar::Mistakes;
use super::{Known, is_control};
use crate::model::finding::Finding;
use crate::model::limits::{self, GROUPS, ITEMS, ITEMS_IN_ALL};
use crate::model::nearest::{nearest, quoted, shown, suggestion};
use crate::model::source::{FileId, Span, Spanned};
use crate::model::standing::Standing;
use crate::model::vocabulary::Vocabulary;

/// What is noted while one entry is read.
pub(super) struct Notes {
    pub(super) file: FileId,
    /// Where the fields start in the file.
    base: usize,
    pub(super) findings: Vec<Finding>,
    /// Mistakes in the block's grammar. With one, a missing field may only have been lost.
    mistakes: Mistakes,
    /// Items of lists that have been read.
    items: usize,
}

impl Notes {
    pub(super) fn span(&self, range: std::ops::Range<usize>) -> Span {
        Span::new(self.file, range.start + self.base..range.end + self.base)
    }

    /// True for a value that no author wrote: the parser puts one where the grammar has a mistake.
    fn is_made_up(&self, value: &toml::Spanned<DeValue<'_>>) -> bool {
        let span = value.span();
        self.mistakes.any() && (span.is_empty() || self.mistakes.touch(span))
    }

    pub(super) fn wrong(&mut self, span: Span, message: impl Into<String>, help: impl Into<String>) {
        // A stand-in for what the grammar could not make out is no second mistake of the author.
        let at = span.range();
        if !self.mistakes.touch(at.start.saturating_sub(self.base)..at.end.saturating_sub(self.base)) {
            self.findings.push(Finding::new("wrong-value", span, message, help));
        }
    }
}

/// Parses the fields at `base` of a file. Every mistake in the grammar is a finding, and what could
/// be read beside it is in the table.
pub(super) fn parse<'t>(fields: &'t str, base: usize, file: FileId) -> (toml::Spanned<DeTable<'t>>, Notes) {
    let (table, errors) = DeTable::parse_recoverable(fields);
    let (mistakes, told) = Mistakes::of(fields, &errors);
    let mut notes = Notes { file, base, findings: Vec::new(), mistakes, items: 0 };
    for mistake in told {
        let span = notes.span(mistake.at);
        notes.findings.push(Finding::new("unreadable-entry", span, mistake.message, mistake.help));
    }
    (table, notes)
}

/// Fields of exercises, weeks, series and pages themselves.
const OF_ENTRIES: [&str; 17] = [
    "accept",
    "all_have",
    "also_called",
    "audience",
    "component",
    "date",
    "demands",
    "equipment",
    "exercises",
    "position",
    "question",
    "reviewed",
    "serves",
    "summary",
    "support",
    "title",
    "trains",
];

/// A table that is asked for its fields one by one, and at the end for those nobody asked for.
pub(super) struct Fields<'t> {
    table: &'t DeTable<'t>,
    /// Where findings about a field it lacks point.
    pub(super) whole: Span,
    /// "the exercise", "a variation".
    what: &'static str,
    asked: Vec<&'static str>,
    /// Of fields that it lacks: findings that fall away where a name like theirs stands there that nobody asks for.
    doubted: Vec<(&'static str, Finding)>,
    pub(super) standing: Standing,
    /// What to write for a name that nobody asks for, where it is clear what was meant.
    pub(super) other_way: fn(&str) -> Option<String>,
}

impl<'t> Fields<'t> {
    pub(super) fn new(table: &'t DeTable<'t>, whole: Span, what: &'static str, notes: &Notes) -> Fields<'t> {
        let mut standing = Standing::default();
        if notes.mistakes.any() {
            standing.mark_broken();
        }
        Fields { table, whole, what, asked: Vec::new(), doubted: Vec::new(), standing, other_way: |_| None }
    }

    /// The value of a field as it stands, with the place of its value.
    pub(super) fn value(&mut self, key: &'static str, notes: &Notes) -> Option<(&'t DeValue<'t>, Span)> {
        self.asked.push(key);
        let value = self.table.get(key).filter(|value| !notes.is_made_up(value))?;
        Some((value.get_ref(), notes.span(value.span())))
    }

    /// The place of a field's name.
    pub(super) fn key_span(&self, key: &str, notes: &Notes) -> Option<Span> {
        let (name, _) = self.table.get_key_value(key)?;
        Some(notes.span(name.span()))
    }

    /// Reports that a required field is absent, unless the block is broken and it may only be lost.
    pub(super) fn missing(&mut self, key: &'static str, example: &str, notes: &mut Notes) {
        self.standing.mark_stand_in(key);
        if notes.mistakes.any() {
            return;
        }
        let finding = Finding::new(
            "missing-field",
            self.whole,
            format!("{} has no `{key}`", self.what),
            format!("add `{key} = {example}`"),
        );
        match self.misspelt(key) {
            // A name that is like it may be another field, which is still to be asked for.
            Some(_) => self.doubted.push((key, finding)),
            None => notes.findings.push(finding),
        }
    }

    /// A field of no known name that is most likely `key`: one slip of the finger is one finding,
    /// that of the unknown field.
    fn misspelt(&self, key: &'static str) -> Option<&'t str> {
        let names = self.table.keys().map(|k| k.get_ref().as_ref());
        names.filter(|name| !self.asked.contains(name)).find(|name| nearest(name, [key]).is_some())
    }

    /// A text that is not blank.
    pub(super) fn text(&mut self, key: &'static str, notes: &mut Notes) -> Option<Spanned<String>> {
        let (value, span) = self.value(key, notes)?;
        let text = text(value, span, notes);
        if text.is_none() {
            self.standing.mark_stand_in(key);
        }
        text
    }

    /// A text that must be there; the stand-in for it is `otherwise`.
    pub(super) fn required_text(
        &mut self,
        key: &'static str,
        example: &str,
        otherwise: &str,
        notes: &mut Notes,
    ) -> Spanned<String> {
        if !self.table.contains_key(key) {
            self.missing(key, example, notes);
        }
        self.text(key, notes).unwrap_or_else(|| Spanned::new(otherwise.to_string(), self.whole))
    }

    /// One word of a closed set. A near miss counts as the word it is near to, so that one slip gives
    /// one finding.
    pub(super) fn word<V: Vocabulary>(&mut self, key: &'static str, notes: &mut Notes) -> Option<Spanned<V>> {
        let (value, span) = self.value(key, notes)?;
        let found = word(value, span, notes);
        if found.is_none() {
            self.standing.mark_stand_in(key);
        }
        found
    }

    pub(super) fn required_word<V: Vocabulary>(
        &mut self,
        key: &'static str,
        otherwise: V,
        notes: &mut Notes,
    ) -> Spanned<V> {
        if !self.table.contains_key(key) {
            let example = format!("\"{}\"", otherwise.word());
            self.missing(key, &example, notes);
        }
        self.word(key, notes).unwrap_or_else(|| Spanned::new(otherwise, self.whole))
    }

    /// A list of texts.
    pub(super) fn texts(&mut self, key: &'static str, notes: &mut Notes) -> Vec<Spanned<String>> {
        self.list(key, notes, text)
    }

    /// A list of words of a closed set.
    pub(super) fn words<V: Vocabulary>(&mut self, key: &'static str, notes: &mut Notes) -> Vec<Spanned<V>> {
        self.list(key, notes, word)
    }

    /// A list of ids, each one of `known`. A near miss counts as the id it is near to.
    pub(super) fn ids<'k>(
        &mut self,
        key: &'static str,
        kind: &str,
        known: impl Iterator<Item = &'k String> + Clone,
        notes: &mut Notes,
    ) -> Vec<Spanned<String>> {
        self.list(key, notes, |value, span, notes| {
            let text = text(value, span, notes)?;
            checked_id(text, kind, known.clone(), notes)
        })
    }

    /// Demands of the catalogue.
    pub(super) fn demands(
        &mut self,
        key: &'static str,
        known: &Known<'_>,
        notes: &mut Notes,
    ) -> Vec<Spanned<String>> {
        self.ids(key, "demand", known.catalogue.demands.keys(), notes)
    }

    /// Precautions of the catalogue.
    pub(super) fn precautions(
        &mut self,
        key: &'static str,
        known: &Known<'_>,
        notes: &mut Notes,
    ) -> Vec<Spanned<String>> {
        self.ids(key, "precaution", known.catalogue.precautions.keys(), notes)
    }

    /// A list whose items may be written in more than one way.
    pub(super) fn mixed<T>(
        &mut self,
        key: &'static str,
        notes: &mut Notes,
        read: impl FnMut(&'t DeValue<'t>, Span, &mut Notes) -> Option<T>,
    ) -> Vec<T> {
        self.list(key, notes, read)
    }

    fn list<T>(
        &mut self,
        key: &'static str,
        notes: &mut Notes,
        mut read: impl FnMut(&'t DeValue<'t>, Span, &mut Notes) -> Option<T>,
    ) -> Vec<T> {
        let Some((value, span)) = self.value(key, notes) else { return Vec::new() };
        let Some(array) = value.as_array() else {
            self.standing.mark_stand_in(key);
            notes.wrong(
                span,
                format!("expected a list in square brackets, found {}", kind_of(value)),
                "put the values between square brackets, with commas between them",
            );
            return Vec::new();
        };
        if self.is_too_long(key, array.len(), notes) {
            return Vec::new();
        }
        let before = notes.findings.len();
        let read: Vec<T> = array
            .iter()
            .filter(|item| !notes.is_made_up(item))
            .collect::<Vec<_>>()
            .into_iter()
            .filter_map(|item| {
                let span = notes.span(item.span());
                read(item.get_ref(), span, notes)
            })
            .collect();
        if read.len() < array.len() {
            self.standing.mark_stand_in(key);
        }
        // A near miss counts as the word it is near to, and is no more than a guess all the same.
        if notes.findings.len() > before {
            self.standing.mark_unsound(key);
        }
        read
    }

    /// Tells of a list that goes beyond the limits, by itself or with those before it.
    fn is_too_long(&mut self, key: &'static str, items: usize, notes: &mut Notes) -> bool {
        notes.items += items;
        let most = if ["variation", "figure", "exercises"].contains(&key) { GROUPS } else { ITEMS };
        let what = match items > most {
            true => format!("expected at most {most} items in `{key}`, found {items}"),
            false if notes.items > ITEMS_IN_ALL => {
                format!("more than {ITEMS_IN_ALL} items are in the lists up to this one")
            }
            false => return false,
        };
        self.standing.mark_stand_in(key);
        let span = self.key_span(key, notes).unwrap_or(self.whole);
        notes.findings.push(limits::beyond(span, what, "keep what is meant, and take out the rest"));
        true
    }

    /// A table, such as `[dose]` or `{ … }`.
    pub(super) fn table(&mut self, key: &'static str, notes: &mut Notes) -> Option<(&'t DeTable<'t>, Span)> {
        let (value, span) = self.value(key, notes)?;
        match value.as_table() {
            Some(table) => Some((table, self.key_span(key, notes).unwrap_or(span))),
            None => {
                self.standing.mark_stand_in(key);
                notes.wrong(
                    span,
                    format!("expected a group of fields, found {}", kind_of(value)),
                    format!("write `[{key}]` on a line of its own and the fields below it"),
                );
                None
            }
        }
    }

    /// A list of tables, such as `[[variation]]` blocks or `[{ … }, { … }]`.
    pub(super) fn tables(&mut self, key: &'static str, notes: &mut Notes) -> Vec<(&'t DeTable<'t>, Span)> {
        let Some((value, span)) = self.value(key, notes) else { return Vec::new() };
        if value.is_table() {
            self.standing.mark_stand_in(key);
            // The value of a line such as `accept = { … }` stands behind its name, that of `[caution]` around it.
            let in_line = self.key_span(key, notes).is_some_and(|name| name.end <= span.start);
            match in_line {
                true => notes.wrong(
                    span,
                    "expected a list in square brackets, found one group of fields",
                    format!("put square brackets around it: `{key} = [{{ … }}]`"),
                ),
                false => notes.wrong(
                    span,
                    format!("expected `[[{key}]]`, found `[{key}]`"),
                    format!("write `[[{key}]]` with double brackets"),
                ),
            }
            return Vec::new();
        }
        let wrong = |span: Span, found: &DeValue<'_>, notes: &mut Notes| {
            notes.wrong(
                span,
                format!("expected groups of fields, found {}", kind_of(found)),
                format!("write `[[{key}]]` on a line of its own and the fields below it, once for each"),
            );
        };
        let Some(array) = value.as_array() else {
            self.standing.mark_stand_in(key);
            wrong(span, value, notes);
            return Vec::new();
        };
        if self.is_too_long(key, array.len(), notes) {
            return Vec::new();
        }
        let mut tables = Vec::new();
        for item in array.iter() {
            let span = notes.span(item.span());
            match item.get_ref().as_table() {
                Some(table) => tables.push((table, span)),
                None => wrong(span, item.get_ref(), notes),
            }
        }
        if tables.len() < array.len() {
            self.standing.mark_stand_in(key);
        }
        tables
    }

    /// What to write for a field of a whole entry that stands in one of its groups, as all do below a line in brackets.
    fn above(&self, name: &str) -> Option<String> {
        let in_a_group = self.what.starts_with("a ") || self.what.starts_with("an ");
        (in_a_group && OF_ENTRIES.contains(&name)).then(|| {
            format!(
                "everything below a line in brackets belongs to it: if `{name}` is that of the whole entry, write it \
                 above the first such line"
            )
        })
    }

    /// Reports every field that nobody asked for, and hands back what the table's standing is.
    pub(super) fn finish(mut self, notes: &mut Notes) -> Standing {
        for (key, finding) in std::mem::take(&mut self.doubted) {
            if self.misspelt(key).is_none() {
                notes.findings.push(finding);
            }
        }
        for key in self.table.keys() {
            let name = key.get_ref().as_ref();
            if self.asked.contains(&name) || notes.mistakes.lost(key.span()) {
                continue;
            }
            let span = notes.span(key.span());
            let mut known = self.asked.clone();
            known.sort_unstable();
            known.dedup();
            let unset = known.iter().copied().filter(|k| !self.table.contains_key(*k));
            let help = (self.other_way)(name).or_else(|| self.above(name));
            let help = help.unwrap_or_else(|| match nearest(name, unset) {
                Some(near) => {
                    self.standing.mark_stand_in(near);
                    format!("did you mean `{near}`?")
                }
                None => format!("known here are {}", quoted(&known)),
            });
            notes.findings.push(Finding::new(
                "unknown-field",
                span,
                format!("{} has no field {}", self.what, shown(name)),
                help,
            ));
        }
        self.standing
    }
}

/// Reads a list of tables one by one.
pub(super) fn each<'t, T>(
    f: &mut Fields<'t>,
    key: &'static str,
    notes: &mut Notes,
    mut read: impl FnMut(&'t DeTable<'t>, Span, &mut Notes) -> Option<T>,
) -> Vec<T> {
    let tables = f.tables(key, notes);
    let all = tables.len();
    let before = notes.findings.len();
    let read: Vec<T> = tables.into_iter().filter_map(|(table, span)| read(table, span, notes)).collect();
    if read.len() < all {
        f.standing.mark_stand_in(key);
    }
    if notes.findings.len() > before {
        f.standing.mark_unsound(key);
    }
    read
}

/// A text that is not blank.
pub(super) fn text(value: &DeValue<'_>, span: Span, notes: &mut Notes) -> Option<Spanned<String>> {
    match value.as_str() {
        Some(text) if text.chars().any(is_control) => {
            notes.wrong(
                span,
                "expected words, found a control character that no page can show",
                "delete it: it is written with a backslash, such as `\\u0007`",
            );
            None
        }
        Some(text) if text.chars().any(is_seen) => Some(Spanned::new(text.to_string(), span)),
        Some(_) => {
            notes.wrong(span, "expected some words, found none", "write the words between the quotes");
            None
        }
        None => {
            notes.wrong(
                span,
                format!("expected text in quotes, found {}", kind_of(value)),
                "put straight quotes around it",
            );
            None
        }
    }
}

/// False for blanks, and for marks that join, part or turn what stands beside them and show nothing themselves.
pub(super) fn is_seen(c: char) -> bool {
    !c.is_whitespace()
        && !matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2064}' | '\u{feff}')
}

pub(super) fn word<V: Vocabulary>(value: &DeValue<'_>, span: Span, notes: &mut Notes) -> Option<Spanned<V>> {
    let text = text(value, span, notes)?;
    if let Some(found) = V::from_word(&text.value) {
        return Some(Spanned::new(found, span));
    }
    let words: Vec<&str> = V::ALL.iter().map(|v| v.word()).collect();
    notes.wrong(
        span,
        format!("expected one of {}, found {}", quoted(&words), shown(&text.value)),
        suggestion(&text.value, words.iter().copied()),
    );
    let near = nearest(&text.value, words)?;
    Some(Spanned::new(V::from_word(near)?, span))
}

/// The id if it is known; else a finding, and the id that was most likely meant, if one is near.
pub(super) fn checked_id<'k>(
    id: Spanned<String>,
    kind: &str,
    known: impl Iterator<Item = &'k String> + Clone,
    notes: &mut Notes,
) -> Option<Spanned<String>> {
    if known.clone().any(|k| *k == id.value) {
        return Some(id);
    }
    notes.wrong(
        id.span,
        format!("expected the name of a {kind}, found {}", shown(&id.value)),
        suggestion(&id.value, known.clone().map(String::as_str)),
    );
    let near = nearest(&id.value, known.map(String::as_str))?;
    Some(Spanned::new(near.to_string(), id.span))
}

/// What a value is, in an author's words.
pub(super) fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number with a decimal point",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a group of fields",
    }
}
