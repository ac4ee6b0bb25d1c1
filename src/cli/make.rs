//! `steadyleaf make`: review, then the site into `ready/`. An error stops it and leaves `ready/` as it was.

use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::io;

use clap::Args;
use rayon::prelude::*;

use super::Common;
use super::load::{Loaded, load};
use super::outcome::{Failure, Outcome};
use super::site::{self, Body, Made};
use super::terminal::Terminal;
use crate::feeds::{Feeds, offline};
use crate::model::finding::Finding;
use crate::outputs::address::folder;
use crate::outputs::feed::preview_path;
use crate::outputs::offline::{WORKER, saved};
use crate::outputs::{self, Address, Output, Sheet, Shot};
use crate::pages::inspect::{Inspection, inspect};
use crate::pages::{self, Pages, Photo, Sheets, photo_finding};
use crate::print::{self, Order, Press, SheetError, Subject, Unprinted};
use crate::publish::{self, Staging, Store};
use crate::review::{self, Review, report};
use crate::workspace;

/// Review the workspace, then make the site into ready/
#[derive(Args)]
pub(super) struct Make {
    /// Go on in spite of errors, and mark every page as a draft
    #[arg(long)]
    draft: bool,
}

pub(super) fn run(command: &Make, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let loaded = load(common)?;
    let review = loaded.review(terminal.today);
    if review.has_errors() && !command.draft {
        return stopped(&review, &loaded, terminal);
    }
    let photos = outputs::media::photos(&loaded.model);
    let program = workspace::program()
        .map_err(|e| Failure::Unreadable(format!("the program cannot read itself: {e}")))?;
    let fingerprint = fingerprint(&loaded, &photos, command, terminal, &program)?;
    let shelf = publish::open(&loaded.root)?;
    tell_dropped(shelf.dropped(), terminal)?;
    if shelf.is_current(&fingerprint) {
        tell(&review, &loaded, terminal)?;
        terminal.say("Nothing has changed: ready/ is as it should be.")?;
        return Ok(Outcome::Done);
    }
    let store = shelf.store();
    let staging = shelf.stage()?;
    let site = Site { loaded: &loaded, draft: command.draft, program, staging: &staging, terminal };
    let (inspections, files, earlier) = site.render(&photos, &store)?;
    let mut found = pages::findings(&loaded.case(terminal.today), &inspections, &files);
    found.extend(earlier);
    let mut review = review;
    if !found.is_empty() {
        review = review::join(&loaded.case(terminal.today), review, found);
        if review.has_errors() && !command.draft {
            return stopped(&review, &loaded, terminal);
        }
    }
    let published = staging.publish(&fingerprint)?;
    if !command.draft {
        // The sheets of a draft are kept beside those of the site itself, which will be wanted again.
        store.sweep();
    }
    tell(&review, &loaded, terminal)?;
    tell_dropped(&published.dropped, terminal)?;
    terminal.say(&format!(
        "Made {} files in ready/: {} new or changed, {} as before, {} removed. Open ready/index.html.",
        published.written + published.unchanged,
        published.written,
        published.unchanged,
        published.removed
    ))?;
    Ok(Outcome::Done)
}

/// The report, and that nothing was made.
fn stopped(review: &Review, loaded: &Loaded, terminal: &Terminal) -> Result<Outcome, Failure> {
    terminal.print(&report::text::render(review, &loaded.sources, terminal.look()))?;
    terminal.print("Nothing was made: ready/ is as it was. Fix the errors, or see a draft with `steadyleaf make --draft`.\n")?;
    Ok(Outcome::ErrorsFound)
}

/// What the review found, short when there are no problems.
fn tell(review: &Review, loaded: &Loaded, terminal: &Terminal) -> Result<(), Failure> {
    if review.findings.is_empty() {
        return Ok(());
    }
    terminal.print(&report::text::render(review, &loaded.sources, terminal.look()))
}

/// Which files of the author's own went with an earlier site: none but those that file browsers leave in any folder.
fn tell_dropped(files: &[String], terminal: &Terminal) -> Result<(), Failure> {
    const MOST: usize = 3;
    let named = files[..files.len().min(MOST)].join(", ").replace(char::is_control, "\u{fffd}");
    match files.len() {
        0 => Ok(()),
        1 => terminal.say(&format!("1 file of your computer's file browser was not kept: {named}.")),
        n if n <= MOST => {
            terminal.say(&format!("{n} files of your computer's file browser were not kept: {named}."))
        }
        n => terminal.say(&format!(
            "{n} files of your computer's file browser were not kept: {named} and {} more.",
            n - MOST
        )),
    }
}

/// One number for everything that the site is made from: texts, photos, theme, day, and the program.
fn fingerprint(
    loaded: &Loaded,
    photos: &BTreeSet<Shot>,
    command: &Make,
    terminal: &Terminal,
    program: &blake3::Hash,
) -> Result<blake3::Hash, Failure> {
    let mut hasher = blake3::Hasher::new();
    let mut add = |name: &str, bytes: &[u8]| {
        hasher.update(&(name.len() as u64).to_le_bytes());
        hasher.update(name.as_bytes());
        hasher.update(&(bytes.len() as u64).to_le_bytes());
        hasher.update(bytes);
    };
    add("program", program.as_bytes());
    add("today", terminal.today.to_string().as_bytes());
    add("draft", &[u8::from(command.draft)]);
    loaded.sources.iter().for_each(|(_, source)| add(&source.name, source.text.as_bytes()));
    loaded.theme.files.iter().for_each(|(name, bytes)| add(name, bytes));
    let shown: BTreeSet<&str> = photos.iter().map(|shot| shot.file.as_str()).collect();
    let files = outputs::media::files(&loaded.model);
    for name in shown.into_iter().chain(files.iter().map(String::as_str)) {
        let hash = workspace::attachment_hash(&loaded.root, name).map_err(|e| unread(name, &e))?;
        add(name, hash.as_bytes());
    }
    Ok(hasher.finalize())
}

fn unread(name: &str, why: &io::Error) -> Failure {
    Failure::Unreadable(format!("content/{name} cannot be read: {why}"))
}

type Rendered = (Vec<Inspection>, HashSet<String>, Vec<Finding>);

/// The site that is being made.
struct Site<'a> {
    loaded: &'a Loaded,
    draft: bool,
    program: blake3::Hash,
    staging: &'a Staging,
    terminal: &'a Terminal,
}

/// The photos of the site: as pages show them, and as sheets do.
#[derive(Default)]
struct Photos {
    shown: BTreeMap<Shot, Photo>,
    printed: BTreeMap<Shot, print::Photo>,
}

impl Site<'_> {
    /// Renders every output on all cores and stages it. Photos come first, whose dimensions pages need,
    /// then sheets, whose numbers of pages they say.
    fn render(&self, photos: &BTreeSet<Shot>, store: &Store) -> Result<Rendered, Failure> {
        let loaded = self.loaded;
        let outputs = outputs::all(&loaded.model, &loaded.theme);
        let (photos, mut findings) = self.photos(photos)?;
        let sheets = self.sheets(&photos.printed, store, &mut findings)?;
        let widths = |photo: &Photo| photo.widths.iter().map(|w| w.path.clone()).collect();
        let photo_paths: BTreeMap<Shot, Vec<String>> =
            photos.shown.iter().map(|(shot, photo)| (shot.clone(), widths(photo))).collect();
        let files: HashSet<String> = outputs.iter().flat_map(|o| o.paths(&photo_paths)).collect();
        let made = pages::Made { photos: photos.shown, sheets: Sheets::Printed(sheets) };
        let pages = Pages::new(
            &loaded.model,
            &loaded.sources,
            &loaded.words,
            &loaded.theme,
            made,
            self.terminal.today,
            self.draft,
        )
        .map_err(|e| Failure::Unreadable(e.to_string()))?;
        let feeds = Feeds { model: &loaded.model, words: &loaded.words, today: self.terminal.today };
        let site = folder(&loaded.model.site.address.value);
        let progress = self.terminal.progress("Making pages", outputs.len());
        let inspections = outputs
            .par_iter()
            .filter_map(|output| {
                progress.step();
                self.put(output, &pages, &feeds, &site, &files).transpose()
            })
            .collect::<Result<Vec<_>, Failure>>()?;
        progress.finish();
        let saved = saved(&loaded.model, self.terminal.today, &outputs, &photo_paths);
        self.staging.put(WORKER, offline::worker(&self.version(), &saved).as_bytes())?;
        Ok((inspections, files, findings))
    }

    /// A number for all files of the site as they are staged.
    fn version(&self) -> String {
        let mut hasher = blake3::Hasher::new();
        for (path, hash) in self.staging.added() {
            hasher.update(&(path.len() as u64).to_le_bytes());
            hasher.update(path.as_bytes());
            hasher.update(hash.as_bytes());
        }
        hasher.finalize().to_hex()[..16].to_string()
    }

    /// Makes the file of one output and stages it; a page is inspected.
    fn put(
        &self,
        output: &Output,
        pages: &Pages<'_>,
        feeds: &Feeds<'_>,
        site: &str,
        files: &HashSet<String>,
    ) -> Result<Option<Inspection>, Failure> {
        let made = site::file(output, pages, feeds, self.loaded).map_err(|e| match output {
            Output::Page(address) => Failure::Unreadable(format!("{} cannot be made: {e}", address.path())),
            _ => Failure::Unreadable(e.to_string()),
        })?;
        let Some(Made { path, body }) = made else { return Ok(None) };
        match body {
            Body::Page(html) => {
                let inspection = inspect(&path, &html, site, files);
                self.staging.put(&path, html.as_bytes())?;
                return Ok(Some(inspection));
            }
            Body::Bytes(bytes) => self.staging.put(&path, &bytes)?,
            Body::Attachment(source) => self.staging.put_file(&path, &source)?,
        }
        Ok(None)
    }

    /// Makes the photos, each read when its turn has come: a camera's files are large.
    fn photos(&self, photos: &BTreeSet<Shot>) -> Result<(Photos, Vec<Finding>), Failure> {
        let progress = self.terminal.progress("Making photos", photos.len());
        let made: Vec<_> = photos
            .par_iter()
            .map(|shot| {
                progress.step();
                let bytes = workspace::photo(&self.loaded.root, &shot.file)
                    .map_err(|why| photo_finding(&self.loaded.model, &shot.file, &why.to_string()));
                let made = match bytes.and_then(|bytes| site::photo(self.loaded, shot, &bytes)) {
                    Ok(made) => made,
                    Err(finding) => return Ok(Err(finding)),
                };
                for (path, bytes) in &made.files {
                    self.staging.put(path, bytes)?;
                }
                Ok(Ok((shot.clone(), made.shown, made.printed)))
            })
            .collect::<Result<_, Failure>>()?;
        progress.finish();
        let mut photos = Photos::default();
        let mut findings = Vec::new();
        for photo in made {
            match photo {
                Ok((shot, shown, widest)) => {
                    photos.printed.extend(widest.map(|photo| (shot.clone(), photo)));
                    photos.shown.insert(shot, shown);
                }
                Err(finding) => findings.push(finding),
            }
        }
        Ok((photos, findings))
    }

    /// Prints every sheet, or takes it from the store when nothing that it is made from has changed. A
    /// sheet with a finding is not written.
    fn sheets(
        &self,
        photos: &BTreeMap<Shot, print::Photo>,
        store: &Store,
        findings: &mut Vec<Finding>,
    ) -> Result<BTreeMap<Address, Vec<(Sheet, u32)>>, Failure> {
        let loaded = self.loaded;
        let theme = |e: SheetError| Failure::Unreadable(e.to_string());
        let press = Press::new(
            &loaded.model,
            &loaded.sources,
            &loaded.words,
            &loaded.theme,
            photos,
            self.draft,
            &self.program,
        )
        .map_err(theme)?;
        let sheets = outputs::sheet::all(&loaded.model);
        let progress = self.terminal.progress("Printing handouts", sheets.len());
        let made = print::workers::each(&sheets, rayon::current_num_threads(), |sheet| {
            progress.step();
            let Some(subject) = Subject::of(&sheet.of, &loaded.model) else { return Ok(Err(Vec::new())) };
            let manuscript = press.handout(&Order::of(subject, sheet.size, sheet.paper)).map_err(theme)?;
            let key = press.key(&manuscript);
            if let Some(kept) = store.get(&key) {
                self.staging.put(&sheet.path(), &kept.pdf)?;
                return Ok(Ok(kept.pages));
            }
            match press.print(&manuscript) {
                Ok(printed) => {
                    self.staging.put(&sheet.path(), &printed.pdf)?;
                    // The sheet is made; that it cannot be kept for the next time costs only time.
                    let _ = store.keep(&key, printed.pages, &printed.pdf);
                    Ok(Ok(printed.pages))
                }
                Err(Unprinted::Findings(found)) => Ok(Err(found)),
                Err(Unprinted::Theme(error)) => Err(theme(error)),
            }
        });
        progress.finish();
        self.previews(&press, store)?;
        let mut ready: BTreeMap<Address, Vec<(Sheet, u32)>> = BTreeMap::new();
        for (sheet, made) in sheets.into_iter().zip(made.into_iter().collect::<Result<Vec<_>, Failure>>()?) {
            match made {
                Ok(pages) => ready.entry(sheet.of.clone()).or_default().push((sheet, pages)),
                Err(found) => print::add_findings(findings, found),
            }
        }
        Ok(ready)
    }
}

impl Site<'_> {
    /// Draws the image of every week, or takes it from the store.
    fn previews(&self, press: &Press<'_>, store: &Store) -> Result<(), Failure> {
        let weeks: Vec<_> = self.loaded.model.weeks().collect();
        let progress = self.terminal.progress("Drawing images", weeks.len());
        let theme = |e: SheetError| Failure::Unreadable(e.to_string());
        let drawn = print::workers::each(&weeks, rayon::current_num_threads(), |(series, week)| {
            progress.step();
            let path = preview_path(&series.id, &week.id);
            let manuscript = press.preview(week).map_err(theme)?;
            let key = press.key(&manuscript);
            if let Some(kept) = store.get(&key) {
                return Ok(self.staging.put(&path, &kept.pdf)?);
            }
            let png = press.draw(&manuscript).map_err(theme)?;
            self.staging.put(&path, &png)?;
            let _ = store.keep(&key, 1, &png);
            Ok(())
        });
        progress.finish();
        drawn.into_iter().collect()
    }
}
