//! What a sheet gets that is not made with the site: its extent, its size, its paper, its language, its photos.

use std::collections::BTreeMap;
use std::fmt;

use jiff::civil::Date;

use super::Edition;
use crate::model::client::Client;
use crate::model::vocabulary::{Extent, Paper};
use crate::outputs::Shot;
use crate::outputs::media::photos_of;
use crate::pages;
use crate::pages::photo::renditions;
use crate::print::{self, Order, Person, Subject};
use crate::workspace;

/// The size of a cue sheet when nobody asks for another, in points: read at arm's length, beside a camera, on two pages.
const CUE_SIZE: u32 = 18;

/// What somebody asks of a sheet. Else it is as the profile says that it is made for, or else as the site says.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked {
    /// Cards, when nobody asks for another.
    pub extent: Option<Extent>,
    /// Points.
    pub size: Option<u32>,
    pub paper: Option<Paper>,
}

/// A photo that cannot stand on a sheet.
#[derive(Debug)]
pub struct Unshown {
    /// Below `content/`.
    file: String,
    /// "cannot be read" or "cannot be shown", and why.
    why: String,
}

impl fmt::Display for Unshown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "content/{} {}", self.file, self.why)
    }
}

impl std::error::Error for Unshown {}

impl Edition {
    /// The sheet of a subject, made on a day, for a person or for everyone.
    pub fn order<'m>(
        &'m self,
        subject: &Subject<'m>,
        client: Option<&'m Client>,
        asked: Asked,
        today: Date,
    ) -> Order<'m> {
        let print = &self.model.site.print;
        let size = asked.size.or_else(|| client.and_then(|client| client.size));
        let paper = asked.paper.or_else(|| client.and_then(|client| client.paper));
        Order {
            subject: subject.clone(),
            person: client.map(|client| Person::of(client, subject, &self.model, today)),
            extent: asked.extent.unwrap_or(Extent::Cards),
            size: size.unwrap_or_else(|| print.size()),
            paper: paper.unwrap_or_else(|| print.paper()),
            made: Some(today),
        }
    }

    /// The cue sheet of a subject, made on a day.
    pub fn cue_order<'m>(&'m self, subject: &Subject<'m>, asked: Asked, today: Date) -> Order<'m> {
        let size = asked.size.unwrap_or(CUE_SIZE);
        Order {
            extent: Extent::Full,
            ..self.order(subject, None, Asked { size: Some(size), ..asked }, today)
        }
    }

    /// The language of a sheet for a person, or for everyone.
    pub fn language_for<'m>(&'m self, client: Option<&'m Client>) -> &'m str {
        let own = client.and_then(|client| client.language.as_ref());
        &own.unwrap_or(&self.model.site.language).value
    }

    /// The photos that stand on sheets, as they are printed and as they stand inside a person's page: those of what was asked
    /// for and of what people do instead.
    ///
    /// # Errors
    /// The first that cannot be had.
    pub fn photos_on<'o, 'm: 'o>(
        &'m self,
        orders: impl Iterator<Item = &'o Order<'m>> + Clone,
    ) -> Result<(print::Photos<'static>, BTreeMap<Shot, pages::Photo>), Unshown> {
        let exercises = || {
            orders.clone().flat_map(|order| {
                let asked = order.subject.exercises(&self.model).into_iter().map(|(exercise, _)| exercise);
                let choices = order.person.iter().flat_map(|person| &person.choices);
                asked.chain(choices.filter_map(|choice| Some(choice.form()?.exercise)))
            })
        };
        let weeks = orders.clone().filter_map(|order| match &order.subject {
            Subject::Week(_, week) => Some(&week.prose),
            Subject::Exercises(_) => None,
        });
        let proses = weeks.chain(exercises().map(|exercise| &exercise.prose));
        let (mut photos, mut inside) = (print::Photos::default(), BTreeMap::new());
        for shot in photos_of(&self.model, exercises(), proses) {
            let unshown = |why: String| Unshown { file: shot.file.clone(), why };
            let bytes = workspace::photo(&self.root, &shot.file)
                .map_err(|error| unshown(format!("cannot be read: {error}")))?;
            let widths = renditions(&bytes, shot.crop)
                .map_err(|error| unshown(format!("cannot be shown: {error}")))?;
            if let Some(narrowest) = widths.first() {
                inside.insert(shot.clone(), pages::own::photo(narrowest));
            }
            if let Some(widest) = widths.into_iter().last() {
                photos.insert(shot, print::Photo { extension: widest.extension, bytes: widest.bytes });
            }
        }
        Ok((photos, inside))
    }
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "tests write the workspace that they read")]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::entry::read_client;
    use crate::model::source::FileId;
    use crate::review::testing::{PHOTO, edited};
    use crate::workspace::sample;

    /// The sample with these files over it.
    fn workspace(files: &[(&str, &str)]) -> (tempfile::TempDir, Edition) {
        let root = tempfile::tempdir().unwrap();
        let all = sample::files();
        let own = files.iter().map(|(name, text)| (name.to_string(), text.as_bytes().to_vec()));
        for (name, bytes) in all.into_iter().chain(own) {
            let path = root.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, bytes).unwrap();
        }
        let edition = Edition::open(root.path().to_path_buf()).unwrap();
        (root, edition)
    }

    fn client(edition: &Edition, fields: &str) -> Client {
        let profile = format!("name = \"J. K.\"\nprecautions = []\n{fields}");
        read_client(&profile, FileId(0), &edition.model().site.catalogue).0.unwrap()
    }

    #[test]
    fn a_sheet_is_as_somebody_asks_or_as_the_profile_says_or_as_the_site_does() {
        let site = edited("site.toml", &[]);
        let site = site.split("[print]").next().unwrap();
        let site = format!("{site}\n[print]\nsizes = [24, 18]\npapers = [\"letter\", \"a4\"]\n");
        let (_root, edition) = workspace(&[("site.toml", &site)]);
        let own = client(&edition, "size = 32\npaper = \"a4\"\nlanguage = \"es\"\n");
        let plain = client(&edition, "");
        let subject = Subject::Exercises(vec![&edition.model().exercises["heel-drop"]]);
        let today = date(2027, 2, 1);
        let asked = Asked { extent: Some(Extent::Full), size: Some(18), paper: Some(Paper::Letter) };
        let facts = |order: Order<'_>| (order.extent, order.size, order.paper, order.person.is_some());
        for (client, asked, expected) in [
            (None, Asked::default(), (Extent::Cards, 24, Paper::Letter, false)),
            (Some(&plain), Asked::default(), (Extent::Cards, 24, Paper::Letter, true)),
            (Some(&own), Asked::default(), (Extent::Cards, 32, Paper::A4, true)),
            (Some(&own), asked, (Extent::Full, 18, Paper::Letter, true)),
        ] {
            assert_eq!(facts(edition.order(&subject, client, asked, today)), expected);
        }
        let cues = |asked| facts(edition.cue_order(&subject, asked, today));
        assert_eq!(cues(Asked { size: Some(32), ..asked }), (Extent::Full, 32, Paper::Letter, false));
        assert_eq!(cues(Asked::default()), (Extent::Full, CUE_SIZE, Paper::Letter, false));
        let languages = [None, Some(&plain), Some(&own)].map(|client| edition.language_for(client));
        assert_eq!(languages, ["en", "en", "es"]);
    }

    #[test]
    fn a_photo_that_cannot_be_shown_stops_only_the_sheets_that_it_stands_on() {
        let drop = "content/exercises/heel-drop.md";
        let name = PHOTO.strip_prefix("content/").unwrap();
        let figure =
            format!("[[figure]]\nfile = \"{name}\"\ndescription = \"She stands.\"\n\n[[regression]]");
        let text = edited(drop, &[("[[regression]]", &figure)]);
        let (_root, edition) = workspace(&[(drop, &text), (PHOTO, "no photo")]);
        let order = |id: &str| {
            let subject = Subject::Exercises(vec![&edition.model().exercises[id]]);
            edition.order(&subject, None, Asked::default(), date(2027, 2, 1))
        };
        let (with, without) = (order("heel-drop"), order("tall-sit"));
        let unshown = edition.photos_on([&with, &without].into_iter()).err().unwrap().to_string();
        assert!(unshown.starts_with(&format!("{PHOTO} cannot be shown: ")), "{unshown}");
        assert!(edition.photos_on([&without].into_iter()).is_ok());
    }
}
