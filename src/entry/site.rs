//! Reads `site.toml`: whose site it is, its language, its print sizes, its rules, and the demands and
//! precautions it adds or changes.

use std::collections::{BTreeMap, BTreeSet};

use toml::de::{DeTable, DeValue};

use super::fields::{Fields, Notes, each, is_seen};
use super::values::integer;
use super::week::web_address;
use super::{fields, unreadable};
use crate::model::catalogue::{Catalogue, Row};
use crate::model::finding::Finding;
use crate::model::nearest::{nearest, quoted, shown, suggestion};
use crate::model::site::{Educator, Print, RuleSetting, Site, Targets};
use crate::model::source::{FileId, Span, Spanned};
use crate::model::targets;
use crate::model::vocabulary::{Extent, Paper, Restriction, Vocabulary};
use crate::workspace::Texts;
use crate::workspace::theme::BUILT_IN_NAME;

/// Reads the settings, or stand-ins for what cannot be read of them.
pub fn read_site(texts: &Texts) -> (Site, Vec<Finding>) {
    let Some(file) = texts.site() else { return (stand_in(FileId(0)), Vec::new()) };
    if let Some(finding) = unreadable(file.id, &file.content) {
        return (stand_in(file.id), vec![finding]);
    }
    let text = &texts.sources.get(file.id).text;
    let (table, mut notes) = fields::parse(text, 0, file.id);
    let mut f = Fields::new(table.get_ref(), Span::start_of(file.id), "the site", &notes);
    let n = &mut notes;
    let otherwise = stand_in(file.id);

    let title = f.required_text("title", "\"Lantern Hill\"", "steadyleaf", n);
    let summary = f.text("summary", n);
    let language = f.required_text("language", "\"en\"", "en", n);
    let address =
        f.required_text("address", "\"https://lantern-hill.example/\"", &otherwise.address.value, n);
    let address =
        web_address(address, n).and_then(|a| site_address(a, n)).map_or(otherwise.address, with_slash);
    let theme = f.text("theme", n).unwrap_or(otherwise.theme);
    let time_parameter = f.text("time_parameter", n).and_then(|name| parameter(name, n));
    let educator = match f.table("educator", n) {
        Some((table, span)) => read_educator(table, span, n),
        None => {
            f.missing("educator", "{ name = \"A. Educator\" }", n);
            Educator::default()
        }
    };
    let print = f.table("print", n).map_or(otherwise.print, |(table, span)| read_print(table, span, n));
    let targets = read_targets(&mut f, n);
    let rules = f.table("rules", n).map(|(table, _)| read_rules(table, n)).unwrap_or_default();
    let catalogue = read_catalogue(&mut f, n);
    f.finish(n);
    let site = Site {
        file: file.id,
        title,
        summary,
        language,
        address,
        theme,
        time_parameter,
        educator,
        print,
        targets,
        rules,
        catalogue,
    };
    (site, notes.findings)
}

fn stand_in(file: FileId) -> Site {
    let at = |text: &str| Spanned::new(text.to_string(), Span::start_of(file));
    Site {
        file,
        title: at("steadyleaf"),
        summary: None,
        language: at("en"),
        address: at("https://site.example/"),
        theme: at(BUILT_IN_NAME),
        time_parameter: None,
        educator: Educator::default(),
        print: Print::default(),
        targets: Targets::new(),
        rules: BTreeMap::new(),
        catalogue: Catalogue::built_in(),
    }
}

/// The name of a parameter in an address: letters that stand there as they are.
fn parameter(name: Spanned<String>, n: &mut Notes) -> Option<Spanned<String>> {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    if name.value.chars().all(plain) {
        return Some(name);
    }
    n.wrong(
        name.span,
        format!("expected the name of a parameter, found {}", shown(&name.value)),
        "write only the name: the `t` of an address that ends in `?t=65`",
    );
    None
}

/// The address that all pages stand below: folders only, in letters that stand in addresses as they are.
fn site_address(address: Spanned<String>, n: &mut Notes) -> Option<Spanned<String>> {
    let odd = |c: char| c.is_whitespace() || c.is_control() || r#"?#"'`<>\{}|^"#.contains(c);
    let found = match (address.value.chars().find(|c| odd(*c)), address.value.split_once("://")) {
        (Some(c), _) => shown(&c.to_string()),
        (None, Some((_, rest))) if rest.contains("//") => "`//` after the name of the machine".to_string(),
        _ => return Some(address),
    };
    n.wrong(
        address.span,
        format!("expected the address of the site's first page, found {found} in it"),
        "write it with folders only, such as \"https://lantern-hill.example/exercises/\"",
    );
    None
}

fn with_slash(address: Spanned<String>) -> Spanned<String> {
    address.map(|a| if a.ends_with('/') { a } else { a + "/" })
}

fn read_educator(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Educator {
    let mut f = Fields::new(table, span, "the educator", n);
    let educator = Educator {
        credentials: f.text("credentials", n).map(|t| t.value),
        clinic: f.text("clinic", n).map(|t| t.value),
        phone: f.text("phone", n).and_then(|t| phone(t, n)),
        email: f.text("email", n).and_then(|t| email(t, n)),
        emergency: f.text("emergency", n).and_then(|t| phone(t, n)),
        logo: f.text("logo", n),
        name: f.required_text("name", "\"A. Educator\"", "", n).value,
        place: f.texts("place", n).into_iter().map(|l| l.value).collect(),
    };
    f.finish(n);
    educator
}

/// A number that can be dialled: at least two digits, and nothing that would make it another kind of address.
fn phone(number: Spanned<String>, n: &mut Notes) -> Option<String> {
    let odd = |c: char| c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}' | ':' | ';' | '@' | '<' | '>');
    if number.value.chars().filter(char::is_ascii_digit).count() >= 2 && !number.value.contains(odd) {
        return Some(number.value);
    }
    n.wrong(
        number.span,
        format!("expected a telephone number, found {}", shown(&number.value)),
        "write it as it is to be dialed and printed, such as \"555 0142\"",
    );
    None
}

/// An address that mail can be sent to, and no more than that.
fn email(address: Spanned<String>, n: &mut Notes) -> Option<String> {
    let odd = |c: char| !is_seen(c) || c.is_control() || r#"@?&:;,<>()"\"#.contains(c);
    let parts = address.value.split_once('@');
    if parts
        .is_some_and(|(name, host)| [name, host].iter().all(|part| !part.is_empty() && !part.contains(odd)))
    {
        return Some(address.value);
    }
    n.wrong(
        address.span,
        format!("expected a mail address, found {}", shown(&address.value)),
        "write the address alone, such as \"hello@lantern-hill.example\"",
    );
    None
}

fn read_print(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Print {
    let mut f = Fields::new(table, span, "the print settings", n);
    let mut sizes = Vec::new();
    if let Some((value, span)) = f.value("sizes", n) {
        let Some(list) = value.as_array() else {
            n.wrong(span, "expected a list of sizes in points", "write `sizes = [18, 24]`");
            return Print::default();
        };
        for item in list.iter() {
            match size(item.get_ref()) {
                Some(size) => sizes.push(size),
                None => {
                    let span = n.span(item.span());
                    n.wrong(span, NO_SIZE, "write `sizes = [18, 24]`, without quotes");
                }
            }
        }
    }
    let papers: Vec<Paper> = f.words("papers", n).into_iter().map(|p| p.value).collect();
    // In one order whatever the author's: cards first.
    let extents: BTreeSet<Extent> = f.words("extents", n).into_iter().map(|e| e.value).collect();
    f.finish(n);
    let otherwise = Print::default();
    Print {
        extents: if extents.is_empty() { otherwise.extents } else { extents.into_iter().collect() },
        sizes: if sizes.is_empty() { otherwise.sizes } else { sizes },
        papers: if papers.is_empty() { otherwise.papers } else { papers },
    }
}

/// What is wrong with a size that is none of ours.
pub(super) const NO_SIZE: &str = "expected 18, 24 or 32 points";

/// The size of the letters of a sheet, in points, if it is one that sheets are made in.
pub(super) fn size(value: &DeValue<'_>) -> Option<u32> {
    integer(value).filter(|points| Print::SIZES.contains(points))
}

/// The `[targets]` of a workspace or a series.
pub(super) fn read_targets(f: &mut Fields<'_>, n: &mut Notes) -> Targets {
    let Some((table, span)) = f.table("targets", n) else { return Targets::new() };
    let outer = f;
    let mut f = Fields::new(table, span, "the list of targets", n);
    let mut found = Targets::new();
    for target in &targets::ALL {
        if let Some(amount) = f.amount(target.name, target.bounds, n) {
            found.insert(target.name.to_string(), amount);
        }
    }
    let standing = f.finish(n);
    if !targets::ALL.iter().all(|target| standing.knows(target.name)) {
        outer.standing.mark_unsound("targets");
    }
    found
}

/// Whether a rule of that name exists, and may be changed at all, the review decides.
fn read_rules(table: &DeTable<'_>, n: &mut Notes) -> BTreeMap<String, Spanned<RuleSetting>> {
    let mut rules = BTreeMap::new();
    for (name, value) in table.iter() {
        let name_span = n.span(name.span());
        match value.get_ref().as_str().and_then(RuleSetting::from_word) {
            Some(setting) => {
                rules.insert(name.get_ref().to_string(), Spanned::new(setting, name_span));
            }
            None => {
                let span = n.span(value.span());
                let found = value.get_ref().as_str().map_or("no word".to_string(), shown);
                n.wrong(
                    span,
                    format!("expected one of {}, found {found}", quoted(&RuleSetting::WORDS)),
                    "write for example `repeated-exercise = \"off\"`",
                );
            }
        }
    }
    rules
}

fn read_catalogue(f: &mut Fields<'_>, n: &mut Notes) -> Catalogue {
    let mut catalogue = Catalogue::built_in();
    let demands = each(f, "demand", n, |table, span, n| {
        let mut f = Fields::new(table, span, "a demand", n);
        let id = f.required_text("id", "\"stairs\"", "", n);
        let label = f.required_text("label", "\"climbing stairs\"", "", n);
        let fits = f.standing.knows("id") && is_id(&id, n);
        if !fits {
            f.standing.mark_stand_in("id");
        }
        f.finish(n).knows("id").then_some((id.value, label.value))
    });
    for (id, label) in demands {
        catalogue.demands.insert(id, Some(label));
    }
    let precautions = each(f, "precaution", n, |table, span, n| {
        let mut f = Fields::new(table, span, "a precaution", n);
        let id = f.required_text("id", "\"spine-fracture\"", "", n);
        let label = f.text("label", n);
        let fits = f.standing.knows("id") && is_id(&id, n) && !is_slip(&id, label.is_some(), &catalogue, n);
        if !fits {
            f.standing.mark_stand_in("id");
        }
        if label.is_none() && f.standing.knows("id") && !catalogue.precautions.contains_key(&id.value) {
            f.missing("label", "\"what clients call it\"", n);
        }
        let rows = each(&mut f, "restricts", n, |table, span, n| read_row(table, span, &catalogue, n));
        f.finish(n).knows("id").then_some((id.value, label, rows))
    });
    for (id, label, rows) in precautions {
        let precaution = catalogue.precautions.entry(id).or_default();
        precaution.label = label.map(|l| l.value).or(precaution.label.take());
        for (demand, row) in rows {
            match row {
                Some(row) => precaution.restricts.insert(demand, row),
                None => precaution.restricts.remove(&demand),
            };
        }
    }
    catalogue
}

/// Ids stand in other entries and in the files of the theme. `everyone` is what a caution says for all.
fn is_id(id: &Spanned<String>, n: &mut Notes) -> bool {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    let fits = id.value.chars().all(plain) && id.value != "everyone";
    if !fits {
        n.wrong(
            id.span,
            format!(
                "expected small letters a to z, digits and hyphens, but not `everyone`, found {}",
                shown(&id.value)
            ),
            "choose another id, such as `hip-fracture`, and put what clients call it in `label`",
        );
    }
    fits
}

/// True, with a finding, for an id that is most likely a built-in precaution with a slip in it. One with
/// a label of its own may be near another on purpose: `hip-arthritis` beside `knee-arthritis`.
fn is_slip(id: &Spanned<String>, labeled: bool, catalogue: &Catalogue, n: &mut Notes) -> bool {
    const MOST_WITH_LABEL: usize = 2;
    if catalogue.precautions.contains_key(&id.value) {
        return false;
    }
    let near = nearest(&id.value, catalogue.precautions.keys().map(String::as_str));
    let near =
        near.filter(|near| !labeled || strsim::damerau_levenshtein(&id.value, near) <= MOST_WITH_LABEL);
    if let Some(near) = near {
        n.wrong(
            id.span,
            format!("expected the name of a precaution, found {}", shown(&id.value)),
            format!("did you mean `{near}`? A precaution of your own needs another name and a `label`"),
        );
    }
    near.is_some()
}

/// A row that sets what a precaution says about a demand, or with `by = "none"` takes it back.
fn read_row(
    table: &DeTable<'_>,
    span: Span,
    catalogue: &Catalogue,
    n: &mut Notes,
) -> Option<(String, Option<Row>)> {
    let mut f = Fields::new(table, span, "a restriction", n);
    let demand = f.required_text("demand", "\"impact-low\"", "", n);
    let by = f.required_text("by", "\"modify\"", "", n);
    let instead = f.text("instead", n).map(|t| t.value);
    let source = f.required_text("source", "\"common practice, no source\"", "", n);
    let standing = f.finish(n);
    if standing.knows("demand") && !catalogue.demands.contains_key(&demand.value) {
        n.wrong(
            demand.span,
            format!("expected the name of a demand, found {}", shown(&demand.value)),
            suggestion(&demand.value, catalogue.demands.keys().map(String::as_str)),
        );
        return None;
    }
    if !(standing.knows("demand") && standing.knows("by") && standing.knows("source")) {
        return None;
    }
    if by.value == "none" {
        return Some((demand.value, None));
    }
    match Restriction::from_word(&by.value) {
        Some(by) => Some((demand.value, Some(Row { by, instead, source: source.value }))),
        None => {
            let words = ["avoid", "modify", "ask", "none"];
            n.wrong(
                by.span,
                format!("expected one of {}, found {}", quoted(&words), shown(&by.value)),
                suggestion(&by.value, words),
            );
            None
        }
    }
}
