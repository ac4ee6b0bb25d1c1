//! `steadyleaf handout`: handouts as PDF, of a week, of some exercises, or for people; and the cue sheet.

mod json;
mod profiles;
mod reasons;
mod subject;
mod table;
mod too_short;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::Common;
use super::load::load;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::{Asked, Edition};
use crate::model::finding::Finding;
use crate::model::vocabulary::{self, Vocabulary};
use crate::model::words::Words;
use crate::outputs::sheet::ending;
use crate::print::{self, Order, Press, Printed, SheetError, Subject, Unprinted};
use crate::publish;
use crate::review::{self, report};
use profiles::Profile;

/// Print large-print handouts as PDF: of a week, of some exercises, or for people
///
/// A handout for a person shows of each exercise only the form that is safe for that person. It goes into
/// clients/sheets/, which only you can read.
#[derive(Args)]
#[command(after_help = "Without --week and --exercise, --for and --cue-sheet take this week.")]
pub(super) struct Handout {
    /// A week, such as lantern-hill/7
    #[arg(long, value_name = "SERIES/WEEK")]
    week: Option<String>,
    /// Exercises by their ids, on one handout
    #[arg(long, value_name = "ID", num_args = 1.., conflicts_with = "week")]
    exercise: Vec<String>,
    /// A handout for each of these people: profiles such as clients/j.toml, or a folder of them
    #[arg(long = "for", value_name = "FILE", num_args = 1..)]
    people: Vec<PathBuf>,
    /// How much it says: each exercise on a card, everything that is known, or a week on one side
    #[arg(long, value_enum, default_value_t = Extent::Cards)]
    extent: Extent,
    /// Points [default: what the profile says, or the first size in site.toml]
    #[arg(long)]
    size: Option<Size>,
    /// Paper [default: what the profile says, or the first paper in site.toml]
    #[arg(long)]
    paper: Option<Paper>,
    /// The cue sheet, to read while recording: when each exercise begins, what to say, counts and faults to watch for; in 18
    /// point unless `--size` says otherwise
    #[arg(long, conflicts_with_all = ["people", "exercise", "extent"])]
    cue_sheet: bool,
    /// The forms chosen for people as text, or as JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text, requires = "people")]
    format: Format,
    /// Where the handouts go [default: clients/sheets/ for people, else the folder you are in]
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
}

#[derive(Clone, Copy, ValueEnum)]
enum Size {
    #[value(name = "18")]
    Large,
    #[value(name = "24")]
    Larger,
    #[value(name = "32")]
    Largest,
}

impl Size {
    fn points(self) -> u32 {
        match self {
            Size::Large => 18,
            Size::Larger => 24,
            Size::Largest => 32,
        }
    }
}

#[derive(Clone, Copy, ValueEnum)]
enum Paper {
    A4,
    Letter,
}

impl From<Paper> for vocabulary::Paper {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::A4 => vocabulary::Paper::A4,
            Paper::Letter => vocabulary::Paper::Letter,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Extent {
    Cards,
    Full,
    OnePage,
}

impl From<Extent> for vocabulary::Extent {
    fn from(extent: Extent) -> Self {
        match extent {
            Extent::Cards => vocabulary::Extent::Cards,
            Extent::Full => vocabulary::Extent::Full,
            Extent::OnePage => vocabulary::Extent::OnePage,
        }
    }
}

/// One sheet to print, and the name of its file.
struct Sheet<'m> {
    order: Order<'m>,
    language: &'m str,
    name: String,
    cue_sheet: bool,
}

pub(super) fn run(command: &Handout, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut edition = load(common)?;
    let review = edition.review(terminal.today);
    if review.has_errors() {
        terminal.print(&report::text::render(&review, edition.sources(), terminal.look()))?;
        terminal.print("Nothing was printed. Fix the errors, then run again.\n")?;
        return Ok(Outcome::ErrorsFound);
    }
    let folder = folder(command, &edition)?;
    let (people, unusable) = profiles::read(&command.people, &mut edition)?;
    let subject = subject::read(command, edition.model(), terminal.today)?;
    let sheets = sheets(command, &edition, &subject, &people, terminal)?;
    let photos = edition.photos_on(sheets.iter().map(|sheet| &sheet.order));
    let photos = photos.map_err(|unshown| Failure::Unreadable(unshown.to_string()))?;
    let words = languages(&edition, &sheets)?;
    let presses = presses(&edition, &words, &photos)?;

    let told = command.format == Format::Text;
    if told {
        for (client, hold) in people.iter().filter_map(|p| Some((&p.client, p.client.hold.as_ref()?))) {
            terminal.say(&format!(
                "{} ({}): no handout. On hold since {} ({}): {}",
                client.name.value,
                edition.sources().get(client.file).name,
                hold.on.value,
                hold.by.value,
                hold.because.value
            ))?;
        }
        for sheet in &sheets {
            table::print(&sheet.order, &edition, terminal)?;
        }
    }
    let progress = terminal.progress("Printing handouts", sheets.len());
    let made = print::workers::each(&sheets, rayon::current_num_threads(), |sheet| {
        let made = make(sheet, &presses[sheet.language], &folder);
        progress.step();
        made
    });
    progress.finish();
    if !told {
        terminal.print(&as_json(&people, &sheets, &made, &edition, terminal)?)?;
    }
    report(command, &edition, terminal, &folder, made, unusable)
}

/// Everyone, in the order of the command line, with what was chosen and what was printed.
fn as_json(
    people: &[Profile],
    sheets: &[Sheet<'_>],
    made: &[SheetResult],
    edition: &Edition,
    terminal: &Terminal,
) -> Result<String, Failure> {
    let mut all = Vec::new();
    for Profile { client, .. } in people {
        if let Some(hold) = &client.hold {
            all.push(json::One::held(client, &hold.because.value, edition));
        }
        for (sheet, made) in sheets.iter().zip(made) {
            let Some(person) = sheet.order.person.as_ref().filter(|p| p.client.file == client.file) else {
                continue;
            };
            let mut one = json::One::of(person, edition, terminal.today);
            if let SheetResult::Sheet(path, _) = made {
                one.sheets.push(path.display().to_string());
            }
            all.push(one);
        }
    }
    let text = serde_json::to_string_pretty(&json::People { people: all });
    Ok(format!("{}\n", text.map_err(|e| Failure::Unreadable(e.to_string()))?))
}

/// How a sheet ended.
enum SheetResult {
    /// At that place, with so many pages.
    Sheet(PathBuf, u32),
    Findings(Vec<Finding>),
    Theme(SheetError),
    Unwritten(Failure),
}

fn make(sheet: &Sheet<'_>, press: &Press<'_>, folder: &Path) -> SheetResult {
    let write = if sheet.cue_sheet { Press::cue_sheet } else { Press::handout };
    let printed = match write(press, &sheet.order).map_err(Unprinted::Theme).and_then(|m| press.print(&m)) {
        Ok(printed) => printed,
        Err(Unprinted::Findings(found)) => return SheetResult::Findings(found),
        Err(Unprinted::Theme(error)) => return SheetResult::Theme(error),
    };
    let Printed { pages, pdf } = printed;
    let put = if sheet.order.person.is_some() { publish::write_private } else { publish::write_open };
    match put(folder, &sheet.name, &pdf) {
        Ok(path) => SheetResult::Sheet(path, pages),
        Err(error) => SheetResult::Unwritten(error.into()),
    }
}

/// Tells what was made and what was not. What went wrong with one sheet stopped no other.
fn report(
    command: &Handout,
    edition: &Edition,
    terminal: &Terminal,
    folder: &Path,
    made: Vec<SheetResult>,
    unusable: Vec<Finding>,
) -> Result<Outcome, Failure> {
    let bad_profiles = profiles::count(&unusable);
    let mut findings = unusable;
    let mut failures: Vec<Failure> = Vec::new();
    let (mut count, mut failed) = (0, 0);
    for one in made {
        match one {
            SheetResult::Sheet(path, pages) => {
                count += 1;
                let pages = format!("{pages} {}", if pages == 1 { "page" } else { "pages" });
                if command.format == Format::Json {
                    continue;
                }
                terminal.say(&format!("{}  {pages}", path.display()))?;
                continue;
            }
            SheetResult::Findings(found) => print::add_findings(&mut findings, found),
            SheetResult::Theme(error) => failures.push(Failure::Unreadable(error.to_string())),
            SheetResult::Unwritten(failure) => failures.push(failure),
        }
        failed += 1;
    }
    if !findings.is_empty() {
        let review = review::settle(&edition.case(terminal.today), findings);
        let text = report::text::render(&review, edition.sources(), terminal.look());
        match command.format {
            Format::Text => terminal.print(&text)?,
            // What a program reads is the JSON alone.
            Format::Json => terminal.complain(&Failure::Unreadable(text)),
        }
    }
    let handouts = |n: usize| format!("{n} {}", if n == 1 { "handout" } else { "handouts" });
    if command.format == Format::Text && (!command.people.is_empty() || failed > 0) {
        let mut line = format!("Printed {} into {}", handouts(count), folder.display());
        if failed > 0 {
            line.push_str(&format!("; {} could not be printed", handouts(failed)));
        }
        if bad_profiles > 0 {
            let profiles = if bad_profiles == 1 { "profile" } else { "profiles" };
            line.push_str(&format!("; {bad_profiles} {profiles} could not be used"));
        }
        terminal.say(&format!("{line}."))?;
    }
    // The first of several is told; the others are most likely the same.
    match failures.into_iter().next() {
        Some(failure) => Err(failure),
        None if failed > 0 || bad_profiles > 0 => Ok(Outcome::ErrorsFound),
        None => Ok(Outcome::Done),
    }
}

/// Where the sheets go: never into what the site is made from, or into the site.
fn folder(command: &Handout, edition: &Edition) -> Result<PathBuf, Failure> {
    let folder = match &command.out {
        Some(folder) => folder.clone(),
        None if command.people.is_empty() => PathBuf::from("."),
        None => edition.root().join("clients").join("sheets"),
    };
    Ok(publish::allowed_folder(edition.root(), &folder)?)
}

/// The sheets to print. Two of the same name would overwrite each other.
fn sheets<'m>(
    command: &Handout,
    edition: &'m Edition,
    subject: &subject::NamedSubject<'m>,
    people: &'m [Profile],
    terminal: &Terminal,
) -> Result<Vec<Sheet<'m>>, Failure> {
    let asked = Asked {
        extent: Some(command.extent.into()),
        size: command.size.map(Size::points),
        paper: command.paper.map(Into::into),
    };
    let (subject, stem, today) = (&subject.subject, &subject.name, terminal.today);
    let language = edition.language_for(None);
    if command.cue_sheet {
        let order = edition.cue_order(subject, asked, today);
        let name = format!("{stem}-cue-sheet-{}.pdf", order.paper.word());
        return Ok(vec![Sheet { order, language, name, cue_sheet: true }]);
    }
    if command.people.is_empty() {
        if command.extent == Extent::OnePage && matches!(subject, Subject::Exercises(list) if list.len() == 1)
        {
            return Err(Failure::Unreadable(
                "one exercise has no handout that shows many on one page: leave out `--extent`, and its card is printed"
                    .to_string(),
            ));
        }
        let order = edition.order(subject, None, asked, today);
        let name = format!("{stem}-{}.pdf", ending(order.extent, order.size, order.paper));
        return Ok(vec![Sheet { order, language, name, cue_sheet: false }]);
    }
    let mut sheets: Vec<Sheet<'m>> = Vec::new();
    for Profile { stem: own, client } in people.iter().filter(|p| p.client.hold.is_none()) {
        let order = edition.order(subject, Some(client), asked, today);
        let name = format!("{own}-{stem}-{}.pdf", ending(order.extent, order.size, order.paper));
        if sheets.iter().any(|other| other.name == name) {
            return Err(Failure::Unreadable(format!(
                "two profiles are called `{own}.toml`, and their handouts would be one file; rename one of them"
            )));
        }
        sheets.push(Sheet { order, language: edition.language_for(Some(client)), name, cue_sheet: false });
    }
    Ok(sheets)
}

/// The words of every language that a sheet is in.
fn languages<'m>(edition: &Edition, sheets: &[Sheet<'m>]) -> Result<BTreeMap<&'m str, Words>, Failure> {
    let mut words = BTreeMap::new();
    for sheet in sheets {
        if !words.contains_key(sheet.language) {
            words.insert(sheet.language, crate::edition::read_words(edition.theme(), sheet.language)?);
        }
    }
    Ok(words)
}

fn presses<'m>(
    edition: &'m Edition,
    words: &'m BTreeMap<&'m str, Words>,
    photos: &'m print::Photos<'m>,
) -> Result<BTreeMap<&'m str, Press<'m>>, Failure> {
    // These sheets are not kept, so that no number for the program is needed.
    let program = blake3::hash(b"");
    words
        .iter()
        .map(|(language, words)| {
            let press = Press::new(
                edition.model(),
                edition.sources(),
                words,
                edition.theme(),
                photos,
                false,
                &program,
            );
            Ok((*language, press.map_err(|e| Failure::Unreadable(e.to_string()))?))
        })
        .collect()
}
