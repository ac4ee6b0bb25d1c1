//! What the library of references cannot bear: it follows what names one another without end, and puts together what
//! doubles with each line. References are looked at for that before it resolves them.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use biblatex::{Field, Pair, RawBibliography, RawChunk};

use crate::model::limits::{BRACES, PIECES, REFERENCES, SOURCES, VALUE};

/// The place of what goes beyond, with what it is; the first alone.
pub(super) fn beyond<'r>(raw: &'r RawBibliography<'r>) -> Option<(Range<usize>, String)> {
    if let Some(entry) = raw.entries.get(REFERENCES) {
        return Some((entry.v.key.span.clone(), format!("more than {REFERENCES} references")));
    }
    let abbreviations = &raw.abbreviations;
    let fields = raw.entries.iter().flat_map(|entry| &entry.v.fields).chain(abbreviations);
    let mut lengths = Lengths {
        values: abbreviations.iter().map(|p| (p.key.v, &p.value.v)).collect(),
        known: BTreeMap::new(),
    };
    for pair in fields {
        if let Some(what) = of_value(pair, &mut lengths) {
            return Some((pair.key.span.clone(), what));
        }
    }
    endless_sources(raw, &lengths)
}

fn of_value<'r>(pair: &'r Pair<'r>, lengths: &mut Lengths<'r>) -> Option<String> {
    let value = &pair.value.v;
    if value.len() > PIECES {
        return Some(format!("`{}` has {} pieces, expected at most {PIECES}", pair.key.v, value.len()));
    }
    if value.iter().any(|piece| matches!(piece.v, RawChunk::Normal(text) if depth(text) > BRACES)) {
        return Some(format!("`{}` has braces more than {BRACES} deep", pair.key.v));
    }
    match lengths.of(value, &mut BTreeSet::new()) {
        None => Some(format!("`{}` is made of abbreviations that name one another in a loop", pair.key.v)),
        Some(length) if length > VALUE => {
            Some(format!("`{}` is longer than {VALUE} letters, its abbreviations written out", pair.key.v))
        }
        Some(_) => None,
    }
}

fn depth(text: &str) -> usize {
    let (mut open, mut deepest) = (0usize, 0);
    for byte in text.bytes() {
        match byte {
            b'{' => open += 1,
            b'}' => open = open.saturating_sub(1),
            _ => {}
        }
        deepest = deepest.max(open);
    }
    deepest
}

/// How long values are with their abbreviations written out.
struct Lengths<'r> {
    values: BTreeMap<&'r str, &'r Field<'r>>,
    known: BTreeMap<&'r str, usize>,
}

impl<'r> Lengths<'r> {
    /// Bytes; `None` where abbreviations name one another in a loop. No deeper than [`PIECES`] names: what goes on
    /// beyond that counts as too long.
    fn of(&mut self, value: &Field<'r>, open: &mut BTreeSet<&'r str>) -> Option<usize> {
        let mut length = 0usize;
        for piece in value {
            let more = match piece.v {
                RawChunk::Normal(text) => text.len(),
                RawChunk::Abbreviation(name) => self.of_name(name, open)?,
            };
            length = length.saturating_add(more);
        }
        Some(length)
    }

    fn of_name(&mut self, name: &'r str, open: &mut BTreeSet<&'r str>) -> Option<usize> {
        if let Some(&length) = self.known.get(name) {
            return Some(length);
        }
        // A month, or an abbreviation that is not there, which the library tells.
        let Some(&value) = self.values.get(name) else { return Some(name.len()) };
        if open.len() >= PIECES {
            return Some(usize::MAX);
        }
        if !open.insert(name) {
            return None;
        }
        let length = self.of(value, open)?;
        open.remove(name);
        self.known.insert(name, length);
        Some(length)
    }

    /// The value written out, without braces.
    fn written(&self, value: &Field<'_>) -> String {
        let mut written = String::new();
        for piece in value {
            match piece.v {
                RawChunk::Normal(text) => written.push_str(text),
                RawChunk::Abbreviation(name) => {
                    if let Some(&value) = self.values.get(name) {
                        written.push_str(&self.written(value));
                    }
                }
            }
        }
        written.replace(['{', '}'], "")
    }
}

/// References that take their fields from one another (`crossref`, `xdata`) in a loop, or from too many.
fn endless_sources(raw: &RawBibliography<'_>, lengths: &Lengths<'_>) -> Option<(Range<usize>, String)> {
    let named = |at: usize, fields: &[&str]| -> Vec<String> {
        let pairs = raw.entries[at].v.fields.iter();
        let pairs = pairs.filter(|pair| fields.iter().any(|field| pair.key.v.eq_ignore_ascii_case(field)));
        let written = pairs.map(|pair| lengths.written(&pair.value.v));
        written
            .flat_map(|list| list.split(',').map(|key| key.trim().to_string()).collect::<Vec<_>>())
            .collect()
    };
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    for (at, entry) in raw.entries.iter().enumerate() {
        places.insert(entry.v.key.v.to_string(), at);
        places.extend(named(at, &["ids"]).into_iter().map(|alias| (alias, at)));
    }
    let sources: Vec<Vec<usize>> = (0..raw.entries.len())
        .map(|at| {
            named(at, &["crossref", "xdata"]).iter().filter_map(|key| places.get(key).copied()).collect()
        })
        .collect();
    (0..sources.len()).find_map(|at| {
        let what = match followed(at, &sources) {
            Some(0..=SOURCES) => return None,
            Some(_) => format!("takes its fields from more than {SOURCES} others"),
            None => "takes its fields from itself, by `crossref` or `xdata`".to_string(),
        };
        let key = &raw.entries[at].v.key;
        Some((key.span.clone(), format!("`{}` {what}", key.v)))
    })
}

/// How many steps lead from a reference to all its sources, as the library walks them; `None` where one leads back to it. It stops counting beyond
/// [`SOURCES`].
fn followed(from: usize, sources: &[Vec<usize>]) -> Option<usize> {
    let mut steps = 0;
    let mut next: Vec<usize> = sources[from].clone();
    while let Some(at) = next.pop() {
        if at == from {
            return None;
        }
        steps += 1;
        if steps > SOURCES {
            break;
        }
        next.extend(&sources[at]);
    }
    Some(steps)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(text: &str) -> Option<String> {
        let raw = RawBibliography::parse(text).unwrap();
        beyond(&raw).map(|(_, what)| what)
    }

    #[test]
    fn references_that_lead_back_to_themselves_are_told() {
        let itself = "`a` takes its fields from itself, by `crossref` or `xdata`";
        for text in [
            "@misc{a,title={T},crossref={a}}",
            "@misc{a,title={T},crossref={b}}\n@misc{b,title={T},crossref={a}}",
            "@misc{a,title={T},XDATA={c, b}}\n@xdata{b,xdata={a}}\n@misc{c,title={T}}",
            "@string{s = {a}}\n@misc{a,title={T},crossref=s}",
            "@misc{a,ids={z},title={T},crossref={z}}",
        ] {
            assert_eq!(told(text).as_deref(), Some(itself), "{text}");
        }
        // `a` leads into a loop that it is not part of.
        let beside = "@misc{a,title={T},crossref={b}}\n@misc{b,title={T},crossref={b}}";
        assert_eq!(told(beside).as_deref(), Some("`a` takes its fields from more than 100 others"));
    }

    #[test]
    fn chains_and_lists_without_end_are_told() {
        let chain: String =
            (0..900).map(|n| format!("@misc{{k{n},title={{T}},crossref={{k{}}}}}\n", n + 1)).collect();
        assert!(told(&chain).unwrap().contains("more than 100 others"));
        // Each of a layer leads to all of the next, which is walked once for each way that leads there.
        let layer = |n: usize| (0..4).map(|m| format!("k{n}-{m}")).collect::<Vec<_>>();
        let lines = |n: usize| {
            let next = layer(n + 1).join(",");
            layer(n).iter().map(|key| format!("@xdata{{{key},xdata={{{next}}}}}\n")).collect::<String>()
        };
        let tree: String = (0..8).map(lines).collect();
        assert!(told(&tree).unwrap().contains("more than 100 others"));
    }

    #[test]
    fn abbreviations_that_double_or_loop_are_told() {
        let line = |n: usize| format!("@string{{a{} = a{n} # a{n}}}\n", n + 1);
        let bomb: String = (0..40).map(line).collect();
        assert!(
            told(&format!("@string{{a0 = {{xxxx}}}}\n{bomb}")).unwrap().contains("longer than 20000 letters")
        );
        assert!(told("@string{a = a # a}\n").unwrap().contains("in a loop"));
        assert!(told("@string{a = b}\n@string{b = a}\n@misc{k,title=a}").unwrap().contains("in a loop"));
        let chain: String = (0..2_000).map(|n| format!("@string{{a{n} = a{}}}\n", n + 1)).collect();
        assert!(told(&chain).is_some());
    }

    #[test]
    fn deep_braces_and_many_pieces_are_told() {
        let deep = |n: usize| format!("@misc{{a,title={{{}x{}}}}}", "\\textbf{".repeat(n), "}".repeat(n));
        assert_eq!(told(&deep(30)), None);
        assert!(told(&deep(31)).unwrap().contains("braces more than 30 deep"));
        assert!(told(&deep(100_000)).is_some());
        let pieces = format!("@misc{{a,title={{x}}{}}}", " # \"a\"".repeat(100_000));
        assert!(told(&pieces).unwrap().contains("100001 pieces"));
    }

    #[test]
    fn what_people_write_is_no_finding() {
        let usual = "@string{osteo = \"Osteoporosis International\"}\n\
            @proceedings{p, title={P {{T}}}, date={2020}}\n\
            @inproceedings{a, title={A}, journaltitle=osteo # { and more}, crossref={p}, month=jan}\n\
            @inproceedings{b, title={B}, crossref={p}}\n";
        assert_eq!(told(usual), None);
    }
}
