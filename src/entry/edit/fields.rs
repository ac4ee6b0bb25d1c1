//! The fields of an entry with one of them changed.

use std::ops::Range;

use toml::{Table, Value};
use toml_edit::{Array, Document, InlineTable, Item, Table as Written};

use super::meant::{full, means, place_of};
use super::{Change, Step, Unchanged};

/// The fields with the change; those that say so already come back as they are. Where lines are to end with two letters, a
/// new text of several lines is written in one: its line ends would become two letters as well.
///
/// # Errors
/// When the place is not there, or what stands there can only be changed by hand.
pub(super) fn with_field(fields: &str, change: &Change, is_crlf: bool) -> Result<String, Unchanged> {
    let before: Table = fields.parse().map_err(|_| Unchanged::Unread)?;
    let document = Document::parse(fields).map_err(|_| Unchanged::Unread)?;
    let mut meant = before.clone();
    if !means(&mut meant, change) {
        return Err(Unchanged::NotThere { place: place_of(change).to_string() });
    }
    if meant == before && !matches!(change, Change::Move { .. }) {
        return Ok(fields.to_string());
    }
    let by_hand = || Unchanged::ByHand { place: place_of(change).to_string() };
    let text = Text { fields, document: &document, is_crlf };
    let edits = text.edits(change).ok_or_else(by_hand)?;
    let new = put(fields, edits).ok_or_else(by_hand)?;
    // What comes out is read once more: nothing else may have changed. With its last dotted field a table is gone as well.
    let is_meant = |said: Table| {
        said == meant || matches!(change, Change::Remove { .. }) && full(said) == full(meant.clone())
    };
    if new.parse::<Table>().is_ok_and(is_meant) { Ok(new) } else { Err(by_hand()) }
}

/// Other words at a place of the fields.
struct TextEdit {
    at: Range<usize>,
    new: String,
}

fn put(fields: &str, mut edits: Vec<TextEdit>) -> Option<String> {
    edits.sort_by_key(|edit| (edit.at.start, edit.at.end));
    let (mut new, mut from) = (String::new(), 0);
    for TextEdit { at, new: words } in edits {
        new.push_str(fields.get(from..at.start)?);
        new.push_str(&words);
        from = at.end;
    }
    new.push_str(fields.get(from..)?);
    Some(new)
}

/// What stands at a place.
#[derive(Clone, Copy)]
enum Node<'d> {
    Table(&'d Written),
    Inline(&'d InlineTable),
    Tables(&'d toml_edit::ArrayOfTables),
    Array(&'d Array),
    Other(&'d toml_edit::Value),
}

impl<'d> Node<'d> {
    fn of(item: &'d Item) -> Option<Node<'d>> {
        match item {
            Item::Table(table) => Some(Node::Table(table)),
            Item::ArrayOfTables(tables) => Some(Node::Tables(tables)),
            Item::Value(value) => Some(Node::of_value(value)),
            Item::None => None,
        }
    }

    fn of_value(value: &'d toml_edit::Value) -> Node<'d> {
        match value {
            toml_edit::Value::InlineTable(table) => Node::Inline(table),
            toml_edit::Value::Array(array) => Node::Array(array),
            other => Node::Other(other),
        }
    }

    fn next(self, step: &Step) -> Option<Node<'d>> {
        match (self, step) {
            (Node::Table(table), Step::Name(name)) => Node::of(table.get(name)?),
            (Node::Inline(table), Step::Name(name)) => Some(Node::of_value(table.get(name)?)),
            (Node::Tables(tables), Step::At(number)) => Some(Node::Table(tables.get(*number)?)),
            (Node::Array(array), Step::At(number)) => Some(Node::of_value(array.get(*number)?)),
            _ => None,
        }
    }
}

pub(super) struct Text<'d> {
    fields: &'d str,
    document: &'d Document<&'d str>,
    pub(super) is_crlf: bool,
}

impl<'d> Text<'d> {
    fn edits(&self, change: &Change) -> Option<Vec<TextEdit>> {
        let (last, way) = place_of(change).0.split_last()?;
        match change {
            Change::Set { value, .. } => self.set(way, last, value),
            Change::Remove { .. } => self.remove(way, last),
            Change::Insert { fields, .. } => self.insert(way, last, fields),
            Change::Move { to, .. } => self.moved(way, last, *to),
            Change::Section { .. } | Change::Opening { .. } => None,
        }
    }

    fn at(&self, way: &[Step]) -> Option<Node<'d>> {
        way.iter().try_fold(Node::Table(self.document.as_table()), |node, step| node.next(step))
    }

    fn set(&self, way: &[Step], last: &Step, value: &Value) -> Option<Vec<TextEdit>> {
        let Some(parent) = self.at(way) else { return self.set_in_new(way, last, value) };
        if let Some(node) = parent.next(last) {
            let at = match node {
                Node::Other(other) => other.span()?,
                Node::Array(array) => array.span()?,
                Node::Inline(table) => table.span()?,
                Node::Table(_) | Node::Tables(_) => return None,
            };
            return Some(vec![TextEdit { at, new: self.written(value)? }]);
        }
        let Step::Name(name) = last else { return None };
        match parent {
            Node::Table(table) => {
                let prefix = self.dotted(way)?;
                let line = format!("{prefix}{name} = {}\n", self.written(value)?);
                let at = self.after_values(way, table)?;
                Some(vec![TextEdit { at: at..at, new: self.on_a_line(at, &line) }])
            }
            Node::Inline(table) => self.in_one_line(table, &format!("{name} = {}", self.written(value)?)),
            _ => None,
        }
    }

    /// A field of a table that is not there yet, such as the first of a dose.
    fn set_in_new(&self, way: &[Step], last: &Step, value: &Value) -> Option<Vec<TextEdit>> {
        let (new, way) = way.split_last()?;
        let (Step::Name(new), Step::Name(name)) = (new, last) else { return None };
        match self.at(way)? {
            Node::Table(table) if !table.is_dotted() => {
                let path = if way.is_empty() { new.clone() } else { format!("{}.{new}", named(way)?) };
                let at = self.after_values(way, table)?;
                let lines = self.on_a_line(at, &format!("\n[{path}]\n{name} = {}\n", self.written(value)?));
                Some(vec![TextEdit { at: at..at, new: lines }])
            }
            Node::Inline(table) => {
                self.in_one_line(table, &format!("{new} = {{ {name} = {} }}", self.written(value)?))
            }
            _ => None,
        }
    }

    /// What stands before a name in a line of this table: nothing below its own header, else the names since the last header.
    fn dotted(&self, way: &[Step]) -> Option<String> {
        let mut node = Node::Table(self.document.as_table());
        let mut prefix = String::new();
        for step in way {
            node = node.next(step)?;
            match (node, step) {
                (Node::Table(table), Step::Name(name)) if table.is_dotted() => {
                    prefix.push_str(&format!("{name}."))
                }
                _ => prefix.clear(),
            }
        }
        Some(prefix)
    }

    fn in_one_line(&self, table: &InlineTable, words: &str) -> Option<Vec<TextEdit>> {
        let last = table.iter().filter_map(|(_, value)| value.span()).map(|at| at.end).max();
        Some(vec![match last {
            Some(end) => TextEdit { at: end..end, new: format!(", {words}") },
            None => TextEdit { at: table.span()?, new: format!("{{ {words} }}") },
        }])
    }

    /// Lines that begin where a line does.
    fn on_a_line(&self, at: usize, lines: &str) -> String {
        let begins = at == 0 || self.fields[..at].ends_with('\n');
        if begins { lines.to_string() } else { format!("\n{lines}") }
    }

    /// Where a line of a table goes: after its last value, or after its header.
    fn after_values(&self, way: &[Step], table: &Written) -> Option<usize> {
        let last = last_value(table);
        if let Some(end) = last {
            return Some(self.line_end(end));
        }
        if way.is_empty() {
            return Some(0);
        }
        Some(self.line_end(self.header(way)?.end))
    }

    /// The end of the line in which something ends that ends here.
    fn line_end(&self, end: usize) -> usize {
        let inside = end.saturating_sub(1);
        self.fields[inside..].find('\n').map_or(self.fields.len(), |at| inside + at + 1)
    }

    fn line_start(&self, at: usize) -> usize {
        self.fields[..at].rfind('\n').map_or(0, |end| end + 1)
    }

    fn remove(&self, way: &[Step], last: &Step) -> Option<Vec<TextEdit>> {
        let gone = |at: Range<usize>| Some(vec![TextEdit { at, new: String::new() }]);
        match (self.at(way)?, last) {
            (Node::Table(table), Step::Name(name)) => {
                let (key, item) = table.get_key_value(name)?;
                match item {
                    Item::Value(value) => {
                        let start = self.line_start(key.span()?.start);
                        gone(start..self.line_end(value.span()?.end))
                    }
                    Item::Table(inner) if !inner.is_dotted() && way.is_empty() => {
                        let headers = self.headers();
                        let first = headers.iter().position(|h| h.path == *name)?;
                        gone(self.chunk(&headers, first, name))
                    }
                    _ => None,
                }
            }
            (Node::Inline(table), Step::Name(name)) => {
                let spans: Option<Vec<(String, Range<usize>)>> = table
                    .iter()
                    .map(|(key, value)| {
                        Some((key.to_string(), table.key(key)?.span()?.start..value.span()?.end))
                    })
                    .collect();
                let spans = spans?;
                let at = spans.iter().position(|(key, _)| key == name)?;
                gone(match (at, spans.get(at + 1)) {
                    (0, None) => spans[0].1.clone(),
                    (0, Some((_, next))) => spans[0].1.start..next.start,
                    (at, _) => spans[at - 1].1.end..spans[at].1.end,
                })
            }
            (Node::Tables(_), Step::At(number)) => {
                let slots = self.slots(way)?;
                gone(slots.get(*number)?.clone())
            }
            (Node::Array(array), Step::At(number)) => {
                if let Some(rows) = self.rows(array) {
                    return gone(rows.get(*number)?.clone());
                }
                let spans: Vec<Range<usize>> = array.iter().map(|item| item.span()).collect::<Option<_>>()?;
                gone(match (*number, spans.get(number + 1)) {
                    (0, None) => spans.first()?.clone(),
                    (0, Some(next)) => spans.first()?.start..next.start,
                    (at, _) => spans.get(at - 1)?.end..spans.get(at)?.end,
                })
            }
            _ => None,
        }
    }

    fn insert(&self, way: &[Step], last: &Step, fields: &[(String, Value)]) -> Option<Vec<TextEdit>> {
        let Step::Name(name) = last else { return None };
        match self.at(way)?.next(last) {
            None | Some(Node::Tables(_)) if way.is_empty() => {
                let mut lines = format!("[[{name}]]\n");
                for (key, value) in fields {
                    lines.push_str(&format!("{key} = {}\n", self.written(value)?));
                }
                let of_all = [Step::Name(name.clone())];
                let at = match self.slots(&of_all).and_then(|slots| slots.last().cloned()) {
                    Some(last) => last.start + self.fields[last].trim_end_matches('\n').len(),
                    None => self.fields.trim_end_matches('\n').len(),
                };
                let lines = format!("\n\n{}", lines.trim_end_matches('\n'));
                let end = if self.fields[at..].is_empty() { "\n" } else { "" };
                Some(vec![TextEdit { at: at..at, new: format!("{lines}{end}") }])
            }
            Some(Node::Array(array)) => {
                let row = self.in_line(fields.iter().map(|(key, value)| (key, value)))?;
                if array.is_empty() {
                    return Some(vec![TextEdit { at: array.span()?, new: format!("[\n  {row},\n]") }]);
                }
                let end = array.iter().last()?.span()?.end;
                let Some(rows) = self.rows(array) else {
                    return Some(vec![TextEdit { at: end..end, new: format!(", {row}") }]);
                };
                let last = rows.last()?.clone();
                let indent: String =
                    self.fields[last.clone()].chars().take_while(|c| matches!(c, ' ' | '\t')).collect();
                let mut edits = vec![TextEdit { at: last.end..last.end, new: format!("{indent}{row},\n") }];
                if !self.has_comma(end, last.end) {
                    edits.push(TextEdit { at: end..end, new: ",".to_string() });
                }
                Some(edits)
            }
            _ => None,
        }
    }

    fn moved(&self, way: &[Step], last: &Step, to: usize) -> Option<Vec<TextEdit>> {
        let Step::At(from) = last else { return None };
        let (slots, mut pieces): (Vec<Range<usize>>, Vec<String>) = match self.at(way)? {
            Node::Tables(_) => {
                // The blank lines between them stay where they are.
                let trimmed =
                    |at: Range<usize>| at.start..at.start + self.fields[at].trim_end_matches('\n').len();
                let slots: Vec<Range<usize>> = self.slots(way)?.into_iter().map(trimmed).collect();
                let pieces = slots.iter().map(|at| self.fields[at.clone()].to_string()).collect();
                (slots, pieces)
            }
            Node::Array(array) => {
                let ends: Vec<usize> =
                    array.iter().map(|item| Some(item.span()?.end)).collect::<Option<_>>()?;
                match self.rows(array) {
                    Some(rows) => {
                        let piece = |(row, end): (&Range<usize>, &usize)| {
                            let comma = if self.has_comma(*end, row.end) { "" } else { "," };
                            format!("{}{comma}{}", &self.fields[row.start..*end], &self.fields[*end..row.end])
                        };
                        let pieces = rows.iter().zip(&ends).map(piece).collect();
                        (rows, pieces)
                    }
                    None => {
                        let slots: Vec<Range<usize>> =
                            array.iter().map(|item| item.span()).collect::<Option<_>>()?;
                        let pieces = slots.iter().map(|at| self.fields[at.clone()].to_string()).collect();
                        (slots, pieces)
                    }
                }
            }
            _ => return None,
        };
        if *from >= pieces.len() {
            return None;
        }
        let piece = pieces.remove(*from);
        pieces.insert(to.min(pieces.len()), piece);
        Some(slots.into_iter().zip(pieces).map(|(at, new)| TextEdit { at, new }).collect())
    }

    /// The lines of a list that has one item a line; none where items share lines.
    fn rows(&self, array: &Array) -> Option<Vec<Range<usize>>> {
        let opens = self.line_start(array.span()?.start);
        let mut rows: Vec<Range<usize>> = Vec::new();
        for item in array.iter() {
            let at = item.span()?;
            let row = self.line_start(at.start)..self.line_end(at.end);
            let alone = self.fields[row.start..at.start].trim().is_empty() && row.start > opens;
            let rest = self.fields[at.end..row.end].trim_start();
            let ends = rest.trim_start_matches(',').trim_start();
            let apart = rows.last().is_none_or(|before| before.end <= row.start);
            if !(alone && apart && (ends.is_empty() || ends.starts_with('#'))) {
                return None;
            }
            rows.push(row);
        }
        Some(rows)
    }

    fn has_comma(&self, end: usize, line_end: usize) -> bool {
        self.fields[end..line_end].trim_start().starts_with(',')
    }

    /// Every header of a table in its order.
    fn headers(&self) -> Vec<Header> {
        let mut inside: Vec<Range<usize>> = Vec::new();
        values(self.document.as_table(), &mut inside);
        let mut headers = Vec::new();
        let mut start = 0;
        for line in self.fields.split_inclusive('\n') {
            let at = start..start + line.len();
            start = at.end;
            let words = line.trim_start();
            let first = at.start + (line.len() - words.len());
            if words.starts_with('[') && !inside.iter().any(|value| value.contains(&first)) {
                let path = words.trim_start_matches('[').split(']').next().unwrap_or_default();
                let path: String =
                    path.split('.').map(|part| part.trim().trim_matches('"')).collect::<Vec<_>>().join(".");
                headers.push(Header { path, at });
            }
        }
        headers
    }

    /// The header of the table at this place.
    fn header(&self, way: &[Step]) -> Option<Range<usize>> {
        // How many tables of each list stand before it is counted along the way.
        let headers = self.headers();
        let mut from = 0;
        let mut path = String::new();
        for (number, step) in way.iter().enumerate() {
            match step {
                Step::Name(name) => {
                    path = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                    if !matches!(way.get(number + 1), Some(Step::At(_))) {
                        from += headers.get(from..)?.iter().position(|header| header.path == path)?;
                    }
                }
                Step::At(at) => {
                    let of_list =
                        headers.iter().enumerate().skip(from).filter(|(_, header)| header.path == path);
                    from = of_list.map(|(place, _)| place).nth(*at)?;
                }
            }
        }
        headers.get(from).map(|header| header.at.clone())
    }

    /// The text of each table of a list with everything that belongs to it.
    fn slots(&self, way: &[Step]) -> Option<Vec<Range<usize>>> {
        // Lists inside of lists are not moved.
        let [Step::Name(name)] = way else { return None };
        let headers = self.headers();
        let firsts = headers.iter().enumerate().filter(|(_, header)| header.path == *name);
        Some(firsts.map(|(first, _)| self.chunk(&headers, first, name)).collect())
    }

    /// From a header, with the remarks right above it, to the next header that is not of the same table.
    fn chunk(&self, headers: &[Header], first: usize, name: &str) -> Range<usize> {
        let below = format!("{name}.");
        let next = headers[first + 1..].iter().find(|header| !header.path.starts_with(&below));
        let end = next.map_or(self.fields.len(), |header| self.remarks_above(header.at.start));
        self.remarks_above(headers[first].at.start)..end
    }

    fn remarks_above(&self, at: usize) -> usize {
        let mut start = at;
        while start > 0 {
            let above = self.line_start(start - 1);
            if !self.fields[above..start].trim_start().starts_with('#') {
                break;
            }
            start = above;
        }
        start
    }
}

struct Header {
    path: String,
    at: Range<usize>,
}

/// Where every value stands.
fn values(table: &Written, spans: &mut Vec<Range<usize>>) {
    for (_, item) in table {
        match item {
            Item::Value(value) => spans.extend(value.span()),
            Item::Table(table) => values(table, spans),
            Item::ArrayOfTables(tables) => tables.iter().for_each(|table| values(table, spans)),
            Item::None => {}
        }
    }
}

/// Where the last value of a table ends that stands under its own header.
fn last_value(table: &Written) -> Option<usize> {
    let own = table.iter().filter_map(|(_, item)| match item {
        Item::Value(value) => value.span().map(|at| at.end),
        Item::Table(table) if table.is_dotted() => last_value(table),
        _ => None,
    });
    own.max()
}

/// The names of a place, as a header has them.
fn named(way: &[Step]) -> Option<String> {
    let names: Vec<&str> = way
        .iter()
        .filter_map(|step| match step {
            Step::Name(name) => Some(name.as_str()),
            Step::At(_) => None,
        })
        .collect();
    (!names.is_empty()).then(|| names.join("."))
}
