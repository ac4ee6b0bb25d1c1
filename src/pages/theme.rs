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
    global.insert("site", &site_words(site, words, theme.logo()));
    Ok(tera)
}

fn site_words<'a>(site: &'a Site, words: &Words, logo: Option<&'a str>) -> SiteWords<'a> {
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
        logo: logo.map(|path| Logo { path, description: clinic(site) }),
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

#[cfg(test)]
mod tests {
    use std::borrow::Cow;

    use crate::outputs::Address;
    use crate::pages::{Pages, Prepared, TemplateError};
    use crate::review::testing::{TODAY, with_case, words};
    use crate::workspace::theme::Theme;

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
