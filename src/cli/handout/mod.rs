//! `steadyleaf handout`: handouts as PDF, of a week, of some exercises, or for people; and the cue sheet.

mod json;
mod profiles;
mod subject;
mod table;
mod told;
mod too_short;

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::Common;
use super::bars::Bars;
use super::load::load;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::{Asked, AskedPages, AskedSheet, Edition, NamedBy, Profile, SameName, Unready};
use crate::model::vocabulary;
use crate::print::Subject;
use crate::publish;
use crate::review::report;
use told::Told;

/// Print large-print handouts as PDF: of a week, of some exercises, or for people
///
/// A handout for a person shows of each exercise only the form that is safe for that person. It goes into
/// clients/sheets/, which only you can read. With --page a page for her telephone goes beside it.
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
    /// Name the files of people's handouts by a number instead of by their profiles, for a shared printer or a mail
    ///
    /// A person's number stays the same as long as the profile is called the same.
    #[arg(long, requires = "people")]
    anonymous: bool,
    /// Beside each handout, one page for a telephone or a computer that needs no other file and no internet: her exercises,
    /// Practice now, and My days
    ///
    /// It is an HTML file with everything inside, for a mail or a USB stick. Her name is not in it. It says what her
    /// handout says.
    #[arg(long)]
    page: bool,
    /// Say on the page whom it is for
    #[arg(long, requires = "page")]
    named: bool,
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
    #[arg(long, conflicts_with_all = ["people", "exercise", "extent", "page"])]
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

pub(super) fn run(command: &Handout, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    if command.page && command.people.is_empty() {
        let whom = "--page makes a page for one person: say for whom, such as --for clients/j.toml --page";
        return Err(Failure::Unreadable(whom.to_string()));
    }
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
    let unready = |error: Unready| Failure::Unreadable(error.to_string());
    let supplies = edition.supplies_for(&sheets).map_err(unready)?;
    let presses = edition.presses(&sheets, &supplies, terminal.today).map_err(unready)?;

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
    let placed = presses.print_into(&folder, &sheets, &Bars::on(terminal));
    if !told {
        terminal.print(&json::render(&people, &sheets, &placed, &edition, terminal.today)?)?;
    }
    Told { command, edition: &edition, terminal, folder: &folder }.end(&sheets, placed, unusable)
}

/// Where the sheets go: never into what the site is made from, or into the site.
fn folder(command: &Handout, edition: &Edition) -> Result<PathBuf, Failure> {
    let folder = match &command.out {
        Some(folder) => folder.clone(),
        None if command.people.is_empty() => PathBuf::from("."),
        None => edition.folder_of_people(),
    };
    Ok(publish::allowed_folder(edition.root(), &folder)?)
}

/// The sheets to print.
fn sheets<'m>(
    command: &Handout,
    edition: &'m Edition,
    subject: &Subject<'m>,
    people: &'m [Profile],
    terminal: &Terminal,
) -> Result<Vec<AskedSheet<'m>>, Failure> {
    let asked = Asked {
        extent: Some(command.extent.into()),
        size: command.size.map(Size::points),
        paper: command.paper.map(Into::into),
    };
    if command.cue_sheet {
        return Ok(vec![edition.cue_sheet(subject, asked, terminal.today)]);
    }
    if command.people.is_empty() {
        if command.extent == Extent::OnePage && matches!(subject, Subject::Exercises(list) if list.len() == 1)
        {
            return Err(Failure::Unreadable(
                "one exercise has no handout that shows many on one page: leave out `--extent`, and its card is printed"
                    .to_string(),
            ));
        }
        return Ok(vec![edition.handout(subject, asked, terminal.today)]);
    }
    let named_by = if command.anonymous { NamedBy::Number } else { NamedBy::Profile };
    let pages = match (command.page, command.named) {
        (false, _) => AskedPages::None,
        (true, false) => AskedPages::Nameless,
        (true, true) => AskedPages::Named,
    };
    edition.handouts_for(subject, people, asked, named_by, pages, terminal.today).map_err(|SameName(stem)| {
        Failure::Unreadable(format!(
            "two profiles are called `{stem}.toml`, and their handouts would be one file; rename one of them"
        ))
    })
}
