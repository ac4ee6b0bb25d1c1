//! The letter on a week as HTML that mail programs show: whole in itself, without scripts, its styles in the line.

use serde::Serialize;

use super::{Pages, TemplateError};
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::blocks::digest::{self, Digest};

/// The digest of a week as a letter.
#[derive(Serialize)]
struct Letter {
    draft: bool,
    #[serde(flatten)]
    digest: Digest,
    cautions: Vec<String>,
    /// Cautions for one condition or another stand on the page of the week alone.
    more_cautions: bool,
}

impl Pages<'_> {
    /// Writes the letter on a week.
    ///
    /// # Errors
    /// When the theme's letter asks for something that is not there.
    pub fn letter(&self, series: &Series, week: &Week) -> Result<String, TemplateError> {
        let digest = digest::of_week(self.model, series, week, self.say());
        let mut context = tera::Context::new();
        context.insert("letter", &letter(digest, self.draft));
        self.templates.tera.render("letter.html", &context).map_err(TemplateError::from)
    }
}

fn letter(digest: Digest, draft: bool) -> Letter {
    let cautions = digest
        .exercises
        .iter()
        .flat_map(|e| e.cautions.iter().map(|caution| format!("{}. {caution}", e.title)));
    Letter { draft, cautions: cautions.collect(), more_cautions: digest.has_more_cautions(), digest }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pages::Prepared;
    use crate::review::testing::with_case;
    use crate::workspace::theme::Theme;

    #[test]
    fn a_letter_says_whom_to_call_in_an_emergency() {
        with_case(&[], |case| {
            let theme = Theme::built_in();
            let made = Prepared::default();
            let pages = Pages::new(case.model, case.sources, case.words, &theme, made, case.today, false);
            let (series, week) = case.model.weeks().next().expect("a week");
            let html = pages.expect("templates without mistakes").letter(series, week).expect("a letter");
            assert!(html.contains("a knock to the head is an emergency. Call 911.</strong>"), "{html}");
        });
    }
}
