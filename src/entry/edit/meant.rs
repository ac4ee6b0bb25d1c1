//! What a change makes of the fields as values, by which the new text is judged.

use toml::{Table, Value};

use super::{Change, Place, Step};

/// The place that a change is about; none for one of the prose.
pub(super) fn place_of(change: &Change) -> &Place {
    static NONE: Place = Place(Vec::new());
    match change {
        Change::Set { at, .. } | Change::Remove { at } | Change::Move { at, .. } => at,
        Change::Insert { into, .. } => into,
        Change::Section { .. } | Change::Opening { .. } => &NONE,
    }
}

/// Makes the change in the fields as values; false where its place is not there.
pub(super) fn means(table: &mut Table, change: &Change) -> bool {
    let mut whole = Value::Table(std::mem::take(table));
    let done = is_made(&mut whole, change);
    if let Value::Table(now) = whole {
        *table = now;
    }
    done
}

fn is_made(whole: &mut Value, change: &Change) -> bool {
    let Some((last, way)) = place_of(change).0.split_last() else { return false };
    let adds = matches!(change, Change::Set { .. });
    let Some(at) = way.iter().try_fold(whole, |at, step| match (step, at) {
        (Step::Name(name), Value::Table(table)) => match adds {
            true => Some(table.entry(name.clone()).or_insert_with(|| Value::Table(Table::new()))),
            false => table.get_mut(name),
        },
        (Step::At(number), Value::Array(items)) => items.get_mut(*number),
        _ => None,
    }) else {
        return false;
    };
    match (change, last, at) {
        (Change::Set { value, .. }, Step::Name(name), Value::Table(table)) => {
            table.insert(name.clone(), value.clone());
            true
        }
        (Change::Set { value, .. }, Step::At(number), Value::Array(items)) => {
            items.get_mut(*number).map(|item| *item = value.clone()).is_some()
        }
        (Change::Remove { .. }, Step::Name(name), Value::Table(table)) => table.remove(name).is_some(),
        (Change::Remove { .. }, Step::At(number), Value::Array(items)) if *number < items.len() => {
            items.remove(*number);
            true
        }
        (Change::Insert { fields, .. }, Step::Name(name), Value::Table(table)) => {
            match table.entry(name.clone()).or_insert_with(|| Value::Array(Vec::new())) {
                Value::Array(items) => {
                    items.push(Value::Table(fields.iter().cloned().collect()));
                    true
                }
                _ => false,
            }
        }
        (Change::Move { to, .. }, Step::At(number), Value::Array(items)) if *number < items.len() => {
            let item = items.remove(*number);
            items.insert((*to).min(items.len()), item);
            true
        }
        _ => false,
    }
}

/// Without tables that hold nothing.
pub(super) fn full(table: Table) -> Table {
    let full = table.into_iter().map(|(name, value)| match value {
        Value::Table(table) => (name, Value::Table(full(table))),
        Value::Array(items) => {
            let items = items.into_iter().map(|item| match item {
                Value::Table(table) => Value::Table(full(table)),
                other => other,
            });
            (name, Value::Array(items.collect()))
        }
        other => (name, other),
    });
    full.filter(|(_, value)| value.as_table().is_none_or(|table| !table.is_empty())).collect()
}
