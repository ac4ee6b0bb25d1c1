//! `steadyleaf make`: review, then the site into `ready/`. An error stops it and leaves `ready/` as it was.

use std::collections::{BTreeMap, HashSet};

use clap::Args;
use rayon::prelude::*;

use super::Common;
use super::load::{Loaded, load};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::feeds::{self, Feeds, offline, webvtt};
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::address::{folder, published_name};
use crate::outputs::blocks::phrases::Phrases;
use crate::outputs::blocks::{chapters, digest};
use crate::outputs::feed::{Paste, preview_path};
use crate::outputs::offline::{MANIFEST, WORKER, saved};
use crate::outputs::video::{captions_path, chapters_path};
use crate::outputs::{self, Address, Output, Sheet};
use crate::pages::inspect::{Inspection, inspect};
use crate::pages::{Made, Pages, Photo, PhotoWidth, photo};
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
    let photos = read_photos(&loaded)?;
    let fingerprint = fingerprint(&loaded, &photos, command, terminal)?;
    let shelf = publish::open(&loaded.root)?;
    if shelf.is_current(&fingerprint) {
        tell(&review, &loaded, terminal)?;
        terminal.say("Nothing has changed: ready/ is as it should be.")?;
        return Ok(Outcome::Done);
    }
    let store = shelf.store();
    let staging = shelf.stage()?;
    let site = Site { loaded: &loaded, draft: command.draft, staging: &staging, terminal };
    let (inspections, files, earlier) = site.render(&photos, &store)?;
    let mut found = crate::pages::findings(&loaded.case(terminal.today), &inspections, &files);
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
    terminal.print("Nothing was made: ready/ is as it was. Mend the errors, or see a draft with `steadyleaf make --draft`.\n")?;
    Ok(Outcome::ErrorsFound)
}

/// What the review found, short when there is nothing to mend.
fn tell(review: &Review, loaded: &Loaded, terminal: &Terminal) -> Result<(), Failure> {
    if review.findings.is_empty() {
        return Ok(());
    }
    terminal.print(&report::text::render(review, &loaded.sources, terminal.look()))
}

/// The photos that the site shows, by their names below `content/`.
fn read_photos(loaded: &Loaded) -> Result<BTreeMap<String, Vec<u8>>, Failure> {
    outputs::media::photos(&loaded.model)
        .into_iter()
        .map(|name| {
            let bytes = workspace::attachment(&loaded.root, &name)
                .map_err(|e| Failure::Unreadable(format!("content/{name} cannot be read: {e}")))?;
            Ok((name, bytes))
        })
        .collect()
}

/// One number for everything that the site is made from: texts, photos, theme, day, and the program.
fn fingerprint(
    loaded: &Loaded,
    photos: &BTreeMap<String, Vec<u8>>,
    command: &Make,
    terminal: &Terminal,
) -> Result<blake3::Hash, Failure> {
    let program = program()?;
    let mut hasher = blake3::Hasher::new();
    let mut add = |name: &str, bytes: &[u8]| {
        hasher.update(&(name.len() as u64).to_le_bytes());
        hasher.update(name.as_bytes());
        hasher.update(&(bytes.len() as u64).to_le_bytes());
        hasher.update(bytes);
    };
    add("program", &program);
    add("today", terminal.today.to_string().as_bytes());
    add("draft", &[u8::from(command.draft)]);
    loaded.sources.iter().for_each(|(_, source)| add(&source.name, source.text.as_bytes()));
    loaded.theme.files.iter().for_each(|(name, bytes)| add(name, bytes));
    photos.iter().for_each(|(name, bytes)| add(name, bytes));
    for name in outputs::media::files(&loaded.model) {
        let hash = workspace::attachment_hash(&loaded.root, &name)
            .map_err(|e| Failure::Unreadable(format!("content/{name} cannot be read: {e}")))?;
        add(&name, hash.as_bytes());
    }
    Ok(hasher.finalize())
}

type Rendered = (Vec<Inspection>, HashSet<String>, Vec<Finding>);

/// The site that is being made.
struct Site<'a> {
    loaded: &'a Loaded,
    draft: bool,
    staging: &'a Staging,
    terminal: &'a Terminal,
}

/// The photos of the site: as pages show them, and as sheets do.
#[derive(Default)]
struct Photos {
    shown: BTreeMap<String, Photo>,
    printed: BTreeMap<String, print::Photo>,
}

impl Site<'_> {
    /// Renders every output on all cores and stages it. Photos come first, whose dimensions pages need,
    /// then sheets, whose numbers of pages they say.
    fn render(&self, photos: &BTreeMap<String, Vec<u8>>, store: &Store) -> Result<Rendered, Failure> {
        let loaded = self.loaded;
        let outputs = outputs::all(&loaded.model, &loaded.theme);
        let (photos, mut findings) = self.photos(photos)?;
        let sheets = self.sheets(&photos.printed, store, &mut findings)?;
        let widths = |photo: &Photo| photo.widths.iter().map(|w| w.path.clone()).collect();
        let photo_paths: BTreeMap<String, Vec<String>> =
            photos.shown.iter().map(|(name, photo)| (name.clone(), widths(photo))).collect();
        let files: HashSet<String> = outputs.iter().flat_map(|o| o.paths(&photo_paths)).collect();
        let made = Made { photos: photos.shown, sheets };
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
                match output {
                    Output::Page(address) => Some((|| {
                        let html = pages.render(address).map_err(|e| Failure::Unreadable(e.to_string()))?;
                        let path = address.path();
                        let inspection = inspect(&path, &html, &site, &files);
                        self.staging.put(&path, html.as_bytes())?;
                        Ok(inspection)
                    })()),
                    Output::Asset(name) => {
                        let bytes = loaded.theme.files.get(name)?;
                        self.staging.put(name, bytes).err().map(|e| Err(e.into()))
                    }
                    Output::Media(name) => {
                        let source = workspace::attachment_path(&loaded.root, name);
                        let put = self.staging.put_file(&published_name(name), &source);
                        put.err().map(|e| Err(e.into()))
                    }
                    Output::Captions(name) => {
                        let captions = loaded.model.captions.get(name)?;
                        let text = webvtt::captions(captions);
                        self.staging.put(&captions_path(name), text.as_bytes()).err().map(|e| Err(e.into()))
                    }
                    Output::Chapters { series, week } => {
                        let found = loaded.model.series.get(series)?.weeks.iter().find(|w| w.id == *week)?;
                        let chapters = chapters::of_week(&loaded.model, &loaded.words, found);
                        let text = webvtt::chapters(&chapters);
                        let path = chapters_path(series, week);
                        self.staging.put(&path, text.as_bytes()).err().map(|e| Err(e.into()))
                    }
                    Output::Feed(feed) => {
                        let text = feeds.write(feed)?;
                        self.staging.put(&feed.path(), text.as_bytes()).err().map(|e| Err(e.into()))
                    }
                    Output::Words { series, week, kind } => {
                        let found = loaded.model.series.get(series)?;
                        let of_it = found.weeks.iter().find(|w| w.id == *week)?;
                        let text = match self.words(&pages, found, of_it, *kind) {
                            Ok(text) => text,
                            Err(failure) => return Some(Err(failure)),
                        };
                        self.staging
                            .put(&kind.path(series, week), text.as_bytes())
                            .err()
                            .map(|e| Err(e.into()))
                    }
                    Output::Manifest => {
                        let text = offline::manifest(&loaded.model);
                        self.staging.put(MANIFEST, text.as_bytes()).err().map(|e| Err(e.into()))
                    }
                    // It is made when all others are.
                    Output::Worker => None,
                    // They were made before the pages.
                    Output::Photo(_) | Output::Sheet(_) | Output::Preview { .. } => None,
                }
            })
            .collect::<Result<Vec<_>, Failure>>()?;
        progress.finish();
        let saved = saved(&loaded.model, self.terminal.today, &outputs, &photo_paths);
        self.staging.put(WORKER, offline::worker(&self.version(), &saved).as_bytes())?;
        Ok((inspections, files, findings))
    }

    fn photos(&self, photos: &BTreeMap<String, Vec<u8>>) -> Result<(Photos, Vec<Finding>), Failure> {
        let progress = self.terminal.progress("Making photos", photos.len());
        let made: Vec<_> = photos
            .par_iter()
            .map(|(name, bytes)| {
                progress.step();
                let renditions = match photo::renditions(bytes) {
                    Ok(renditions) => renditions,
                    Err(error) => {
                        let finding =
                            crate::pages::photo_finding(&self.loaded.model, name, &error.to_string());
                        return Ok(Err(finding));
                    }
                };
                let mut widths = Vec::new();
                let mut widest = None;
                for r in renditions {
                    let path = photo_path(name, r.width, r.extension);
                    self.staging.put(&path, &r.bytes)?;
                    widths.push(PhotoWidth { path, width: r.width, height: r.height });
                    widest = Some(print::Photo { extension: r.extension, bytes: r.bytes });
                }
                Ok(Ok((name.clone(), Photo { widths }, widest)))
            })
            .collect::<Result<_, Failure>>()?;
        progress.finish();
        let mut photos = Photos::default();
        let mut findings = Vec::new();
        for photo in made {
            match photo {
                Ok((name, shown, widest)) => {
                    photos.printed.extend(widest.map(|photo| (name.clone(), photo)));
                    photos.shown.insert(name, shown);
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
        photos: &BTreeMap<String, print::Photo>,
        store: &Store,
        findings: &mut Vec<Finding>,
    ) -> Result<BTreeMap<Address, Vec<(Sheet, u32)>>, Failure> {
        let loaded = self.loaded;
        let program = blake3::hash(&program()?);
        let theme = |e: SheetError| Failure::Unreadable(e.to_string());
        let press = Press::new(
            &loaded.model,
            &loaded.sources,
            &loaded.words,
            &loaded.theme,
            photos,
            self.draft,
            &program,
        )
        .map_err(theme)?;
        let sheets = outputs::sheet::all(&loaded.model);
        let progress = self.terminal.progress("Printing sheets", sheets.len());
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

    fn words(&self, pages: &Pages<'_>, series: &Series, week: &Week, kind: Paste) -> Result<String, Failure> {
        let (model, words) = (&self.loaded.model, &self.loaded.words);
        let digest = || digest::of_week(model, &self.loaded.sources, series, week, Phrases { words });
        Ok(match kind {
            Paste::Description => feeds::words::description(&digest(), words, self.draft),
            Paste::Letter => feeds::words::letter(&digest(), &model.site, words, self.draft),
            Paste::LetterPage => {
                pages.letter(series, week).map_err(|e| Failure::Unreadable(e.to_string()))?
            }
        })
    }

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

fn program() -> Result<Vec<u8>, Failure> {
    workspace::program().map_err(|e| Failure::Unreadable(format!("the program cannot read itself: {e}")))
}

/// `media/heel-drop.jpg` at 480 pixels is `media/heel-drop-480.jpg`.
fn photo_path(name: &str, width: u32, extension: &str) -> String {
    let name = published_name(name);
    let stem = name.rsplit_once('.').map_or(name.as_str(), |(stem, _)| stem);
    format!("{stem}-{width}.{extension}")
}
