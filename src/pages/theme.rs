//! The theme's templates, made ready, and what every template may say: the words, the shapes, the
//! scripts, the site.

use std::collections::BTreeMap;
use std::fmt;

use serde::Serialize;
use tera::Tera;

use super::Link;
use super::scripts::Scripts;
use crate::model::site::Site;
use crate::model::words::Words;
use crate::outputs::Address;
use crate::outputs::blocks::phrases::{Phrases, clinic, dialed, runs_from_right};
use crate::workspace::theme::Theme;

/// A mistake in a template of the theme.
#[derive(Clone, Debug)]
pub struct TemplateError(String);

impl TemplateError {
    pub(super) fn no_such_page(address: &Address) -> TemplateError {
        TemplateError(format!("there is nothing to put on {}", address.path()))
    }

    pub(super) fn no_text(file: &str) -> TemplateError {
        TemplateError(format!("the theme's {file} is not text in UTF-8"))
    }

    /// A page that stands alone leads to another file, or loads one.
    pub(super) fn leads_out(template: &str, what: &str) -> TemplateError {
        TemplateError(format!(
            "the theme's pages/{template} makes a page that needs another file, and a person's page has to stand alone: {what}"
        ))
    }

    /// `part` begins with `<`.
    pub(super) fn breaks_out(file: &str, part: &str) -> TemplateError {
        TemplateError(format!(
            "the theme's {file} cannot stand in a page: a browser takes its `{part}` for a part of the page; write `<\\{}` in it instead",
            &part[1..]
        ))
    }
}

impl fmt::Display for TemplateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for TemplateError {}

impl From<tera::Error> for TemplateError {
    /// Syntax and rendering errors carry a report with the template's line.
    fn from(error: tera::Error) -> TemplateError {
        TemplateError(format!("a template of the theme has a mistake:\n{}", error.to_string().trim_end()))
    }
}

#[derive(Serialize)]
struct SiteWords<'a> {
    title: &'a str,
    language: &'a str,
    /// Whether it is written from right to left.
    from_right: bool,
    emergency_call: MaybeLink,
    educator: EducatorWords<'a>,
    logo: Option<Logo<'a>>,
}

/// The clinic's own mark.
#[derive(Serialize)]
struct Logo<'a> {
    /// Its path from the root of the site.
    path: &'a str,
    description: String,
    /// In any unit: a browser keeps its place by their ratio before it is there.
    width: u32,
    height: u32,
}

#[derive(Serialize)]
struct EducatorWords<'a> {
    name: String,
    clinic: Option<&'a str>,
    place: &'a [String],
    phone: Option<Link>,
    email: Option<Link>,
}

#[derive(Serialize)]
struct MaybeLink {
    text: String,
    href: Option<String>,
}

/// What pages are made with: the templates and scripts of a theme, ready for the words and the settings of a site.
pub struct Templates {
    pub(super) tera: Tera,
    pub(super) scripts: Scripts,
}

impl Templates {
    /// # Errors
    /// When a template or a script of the theme has a mistake.
    pub fn of(theme: &Theme, words: &Words, site: &Site) -> Result<Templates, TemplateError> {
        let scripts = Scripts::of(theme)?;
        Ok(Templates { tera: load(theme, words, site, &scripts)?, scripts })
    }
}

/// Parses the theme's templates.
fn load(theme: &Theme, words: &Words, site: &Site, scripts: &Scripts) -> Result<Tera, TemplateError> {
    let mut tera = Tera::default();
    let mut templates = Vec::new();
    for (name, bytes) in theme.below("pages/") {
        let short = name.trim_start_matches("pages/");
        let text = std::str::from_utf8(bytes).map_err(|_| TemplateError::no_text(name))?;
        templates.push((short, text));
    }
    tera.add_raw_templates(templates)?;
    let shapes: BTreeMap<&str, String> = theme
        .below("shapes/")
        .filter_map(|(name, bytes)| {
            let kind = name.strip_prefix("shapes/")?.strip_suffix(".svg")?;
            Some((kind, std::str::from_utf8(bytes).ok()?.trim().to_string()))
        })
        .collect();
    let global = tera.global_context();
    global.insert("w", &words.plain());
    global.insert("shapes", &shapes);
    global.insert("scripts", &scripts.elements);
    global.insert("script_src", &scripts.allowed);
    global.insert("site", &site_words(site, words, logo(theme, site)));
    Ok(tera)
}

fn site_words<'a>(site: &'a Site, words: &Words, logo: Option<Logo<'a>>) -> SiteWords<'a> {
    let educator = &site.educator;
    let emergency_call = MaybeLink {
        text: Phrases { words }.emergency_call(site),
        href: educator.emergency.as_deref().map(dialed),
    };
    SiteWords {
        title: &site.title.value,
        language: &site.language.value,
        from_right: runs_from_right(&site.language.value),
        emergency_call,
        logo,
        educator: EducatorWords {
            name: match &educator.credentials {
                Some(letters) => format!("{}, {letters}", educator.name),
                None => educator.name.clone(),
            },
            clinic: educator.clinic.as_deref(),
            place: &educator.place,
            phone: educator.phone.as_ref().map(|p| Link { href: dialed(p), text: p.clone() }),
            email: educator.email.as_ref().map(|e| Link { href: format!("mailto:{e}"), text: e.clone() }),
        },
    }
}

fn logo<'a>(theme: &'a Theme, site: &Site) -> Option<Logo<'a>> {
    let path = theme.logo()?;
    let (width, height) = theme.files.get(path).and_then(|bytes| sides(bytes)).unwrap_or((1, 1));
    Some(Logo { path, description: clinic(site), width, height })
}

/// The width and the height of a mark as an edition writes it: pixels as PNG (W3C PNG, 11.2.1), shapes as SVG with both in
/// its first tag.
fn sides(bytes: &[u8]) -> Option<(u32, u32)> {
    if bytes.starts_with(b"\x89PNG") {
        let number = |at: usize| Some(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?));
        return Some((number(16)?, number(20)?));
    }
    let text = std::str::from_utf8(bytes).ok()?;
    let tag = text.split_once("<svg")?.1.split_once('>')?.0;
    let side = |name: &str| {
        let value = tag.split_once(&format!(" {name}=\""))?.1.split_once('"')?.0;
        // Hundredths keep the ratio of a small drawing.
        Some((value.parse::<f64>().ok()? * 100.0).round() as u32)
    };
    Some((side("width")?, side("height")?)).filter(|(width, height)| *width > 0 && *height > 0)
}

#[cfg(test)]
mod tests {
    use std::borrow::Cow;

    use crate::outputs::Address;
    use crate::pages::{Pages, Prepared, TemplateError};
    use crate::review::testing::{TODAY, with_case, words};
    use crate::workspace::theme::Theme;

    #[test]
    fn the_sides_of_a_mark_are_those_of_its_pixels_or_of_its_drawing() {
        let png = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x01\x40\0\0\0\x64\x08";
        assert_eq!(super::sides(png), Some((320, 100)));
        let svg = |sides: &str| {
            format!("<svg {sides} xmlns=\"http://www.w3.org/2000/svg\"><path d=\"M0 0\"/></svg>")
        };
        assert_eq!(super::sides(svg("width=\"96\" height=\"32.5\"").as_bytes()), Some((9600, 3250)));
        for none in ["", "width=\"96\"", "width=\"a\" height=\"1\"", "width=\"0\" height=\"0\""] {
            assert_eq!(super::sides(svg(none).as_bytes()), None, "{none}");
        }
    }

    #[test]
    fn a_mistake_in_a_template_is_told_with_its_file_and_line() {
        for (text, line) in [("<p>\n{{ words }\n</p>\n", 2), ("<p>\n\n{{ no_such_thing }}\n", 3)] {
            let mut theme = Theme::built_in();
            theme.files.insert("pages/home.html".to_string(), Cow::Owned(text.as_bytes().to_vec()));
            with_case(&[], |case| {
                let made = Prepared::default();
                let pages = Pages::new(case.model, case.sources, words(), &theme, made, TODAY, false);
                let made: Result<String, TemplateError> =
                    pages.and_then(|pages| pages.render(&Address::Home));
                let told = made.expect_err("a mistake").to_string();
                assert!(told.contains(&format!("home.html:{line}:")), "{told}");
            });
        }
    }
}
