//! The demonstration as it is printed: for everyone, for three invented people, and for recording.

use std::path::Path;
use std::sync::LazyLock;

use steadyleaf::edition::{Edition, make_photo, read_words};
use steadyleaf::model::client::Client;
use steadyleaf::model::source::Source;
use steadyleaf::model::vocabulary::{Extent, Paper, Vocabulary};
use steadyleaf::model::words::Words;
use steadyleaf::outputs;
use steadyleaf::print::{Manuscript, Order, Person, Photos, Press, Printed, Subject, Unprinted};
use steadyleaf::workspace::{self, Content};

/// The sizes that sheets are made in, in points.
const SIZES: [u32; 3] = [18, 24, 32];

/// Invented people: one who keeps off the floor, one who reads Spanish and has many precautions, one who has
/// none and is free for a while on any day.
const PEOPLE: [(&str, &str); 3] = [
    (
        "clients/ada.toml",
        "name = \"A. Quill\"\nprecautions = [\"low-bone-density\", \"no-floor\"]\n\
         days = [\"monday\", \"wednesday\", \"saturday\"]\nequipment = [\"sturdy chair\"]\n\
         note = \"Bring your walking stick to the next visit.\"\n",
    ),
    (
        "clients/ines.toml",
        "name = \"Inés O.\"\nlanguage = \"es\"\n\
         precautions = [\"spine-fracture\", \"unsteady\", \"high-blood-pressure\", \"knee-arthritis\"]\n\
         days = [\"tuesday\", \"friday\"]\nnote = \"Traiga sus zapatos: ¿son cómodos?\"\n",
    ),
    ("clients/tom.toml", "name = \"Tom\"\nprecautions = []\nminutes = 12\n"),
];

pub(crate) struct Demonstration {
    edition: Edition,
    spanish: Words,
    people: Vec<Client>,
    photos: Photos<'static>,
}

pub(crate) static DEMONSTRATION: LazyLock<Demonstration> = LazyLock::new(read);

fn read() -> Demonstration {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut edition = Edition::open(root.to_path_buf()).unwrap();
    let spanish = read_words(edition.theme(), "es").unwrap();
    let people = PEOPLE.map(|(name, text)| {
        let profile = Source::new(name.to_string(), text.to_string());
        edition.take_profile(profile, &Content::Text).unwrap_or_else(|found| panic!("{name}: {found:?}"))
    });
    let model = edition.model();
    let photos = outputs::media::photos(model)
        .into_iter()
        .map(|shot| {
            let bytes = workspace::photo(root, &shot.file).unwrap();
            let made = make_photo(model, &shot, &bytes).unwrap();
            (shot, made.printed.unwrap())
        })
        .collect();
    Demonstration { edition, spanish, people: people.into(), photos }
}

/// A sheet of the demonstration.
pub(crate) struct Sheet {
    /// "week-07 for Tom, 18 point a4".
    pub(crate) name: String,
    order: Order<'static>,
    cue_sheet: bool,
    spanish: bool,
}

impl Sheet {
    /// Whether it has the cards of a week for everyone.
    pub(crate) fn is_for_everyone(&self) -> bool {
        let Order { subject, person, extent, .. } = &self.order;
        matches!(subject, Subject::Week(..))
            && person.is_none()
            && *extent == Extent::Cards
            && !self.cue_sheet
    }

    /// How many exercises it is asked for.
    pub(crate) fn exercises(&self) -> usize {
        self.order.subject.exercises(DEMONSTRATION.edition.model()).len()
    }
}

/// The presses of the demonstration, one for each language.
pub(crate) struct Presses {
    english: Press<'static>,
    spanish: Press<'static>,
}

impl Presses {
    pub(crate) fn new() -> Presses {
        let d: &'static Demonstration = &DEMONSTRATION;
        let (model, sources, theme) = (d.edition.model(), d.edition.sources(), d.edition.theme());
        let program = blake3::hash(b"test");
        let press = |words| Press::new(model, sources, words, theme, &d.photos, false, &program).unwrap();
        Presses { english: press(d.edition.words()), spanish: press(&d.spanish) }
    }

    fn of(&self, sheet: &Sheet) -> &Press<'static> {
        if sheet.spanish { &self.spanish } else { &self.english }
    }

    /// Prints a sheet, or says what stands in the way.
    pub(crate) fn print(&self, sheet: &Sheet) -> Result<Printed, String> {
        let press = self.of(sheet);
        let write = if sheet.cue_sheet { Press::cue_sheet } else { Press::handout };
        let manuscript: Manuscript = write(press, &sheet.order).map_err(|e| e.to_string())?;
        press.print(&manuscript).map_err(|unprinted| match unprinted {
            Unprinted::Theme(error) => error.to_string(),
            Unprinted::Findings(findings) => {
                let told = findings.iter().map(|f| {
                    let (at, _) = DEMONSTRATION.edition.sources().positions(f.span);
                    let file = &DEMONSTRATION.edition.sources().get(f.span.file).name;
                    format!("{file}:{}: {}", at.line, f.message)
                });
                told.collect::<Vec<_>>().join("\n")
            }
        })
    }
}

/// Every sheet: the cards of each week and each exercise for everyone, of each week for each person, each week on one page, and
/// the cue sheet of each week, in every size on every paper; all that is known of each week and exercise, in every size on one.
pub(crate) fn sheets() -> Vec<Sheet> {
    let d: &'static Demonstration = &DEMONSTRATION;
    let model = d.edition.model();
    let mut sheets = Vec::new();
    let mut add =
        |name: &str, subject: &Subject<'static>, person: Option<&Person<'static>>, cue_sheet, extent| {
            let papers = if extent == Extent::Full { &[Paper::Letter] } else { Paper::ALL };
            for size in SIZES {
                for &paper in papers {
                    let mut order = Order::of(subject.clone(), extent, size, paper);
                    order.person = person.cloned();
                    let language = person.and_then(|person| person.client.language.as_ref());
                    sheets.push(Sheet {
                        name: format!("{name}, {size} point {}", paper.word()),
                        order,
                        cue_sheet,
                        spanish: language.is_some_and(|language| language.value == "es"),
                    });
                }
            }
        };
    for (series, week) in model.weeks() {
        let subject = Subject::Week(series, week);
        add(&week.id, &subject, None, false, Extent::Cards);
        add(&format!("all of {}", week.id), &subject, None, false, Extent::Full);
        add(&format!("{} on one page", week.id), &subject, None, false, Extent::OnePage);
        add(&format!("cue sheet of {}", week.id), &subject, None, true, Extent::Cards);
        for client in &d.people {
            let person = Person::of(client, &subject, model, jiff::civil::date(2027, 2, 15));
            add(
                &format!("{} for {}", week.id, client.name.value),
                &subject,
                Some(&person),
                false,
                Extent::Cards,
            );
        }
    }
    for exercise in model.exercises.values() {
        let subject = Subject::Exercises(vec![exercise]);
        add(&exercise.id, &subject, None, false, Extent::Cards);
        add(&format!("all of {}", exercise.id), &subject, None, false, Extent::Full);
    }
    sheets
}

/// As many threads as there are.
pub(crate) fn threads() -> usize {
    std::thread::available_parallelism().unwrap().get()
}
