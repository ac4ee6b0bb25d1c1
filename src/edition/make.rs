//! Makes the site of an edition into a staged folder: photos, then sheets, then pages and feeds, each only where what it
//! is made from has changed since the last site; the rest stays as it lies.

use std::collections::{BTreeMap, HashSet};
use std::fmt;

use rayon::prelude::*;

use super::Edition;
use super::inputs::{Stamp, Versions};
use super::photos::make_photo;
use super::record::{Fact, Record, RecordedOutput, Recorder, Unchanged};
use super::site::{Body, OutputFile, SetOutput, Site, SiteFacts, Unmade};
use crate::feeds::offline;
use crate::model::finding::Finding;
use crate::model::reads::{Read, Reads, note, watched};
use crate::outputs::address::folder;
use crate::outputs::offline::{WORKER, saved};
use crate::outputs::{self, Address, Output, Sheet, Shot};
use crate::pages::inspect::{Inspection, inspect};
use crate::pages::{self, Photo, Sheets, photo_finding};
use crate::print::{self, Press};
use crate::publish::{PublishError, Staging, Store};
use crate::workspace;

/// What is being made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    Photos,
    Sheets,
    Images,
    Pages,
}

/// Hears how far the work is, from any thread.
pub trait Progress: Sync {
    /// A stage begins, with so many outputs.
    fn begin(&self, stage: Stage, outputs: usize);
    /// One more output of the stage is made or kept.
    fn step(&self);
    /// The stage is done.
    fn end(&self);
}

/// Why the site could not be made.
#[derive(Debug)]
pub enum MakeError {
    /// The theme has a mistake, in a line for a person.
    Theme(String),
    Publish(PublishError),
}

impl fmt::Display for MakeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            MakeError::Theme(line) => f.write_str(line),
            MakeError::Publish(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for MakeError {}

impl From<PublishError> for MakeError {
    fn from(error: PublishError) -> MakeError {
        MakeError::Publish(error)
    }
}

/// A staged site.
pub struct Finished {
    /// What finished pages and sheets show.
    pub findings: Vec<Finding>,
    /// How many outputs were made anew; the others were kept.
    pub made: usize,
    /// What the site is made from, for the next one.
    pub record: Option<Vec<u8>>,
}

impl Edition {
    /// Makes the whole site into `staging`. `last` is the record of the site that is published, and `attachments` what
    /// its media files hold now.
    ///
    /// # Errors
    /// When the theme has a mistake, or a file cannot be written.
    pub fn make_site(
        &self,
        facts: SiteFacts,
        attachments: &BTreeMap<String, blake3::Hash>,
        staging: &Staging,
        store: &Store,
        progress: &dyn Progress,
    ) -> Result<Finished, MakeError> {
        let versions = Versions::of(self, facts, attachments);
        let last = staging.last().and_then(Record::from_bytes).unwrap_or_default();
        let mut round = Round {
            edition: self,
            facts,
            staging,
            store,
            progress,
            unchanged: last.compare(&versions),
            last: &last,
            recorder: Recorder::new(&versions),
            made: 0,
        };
        let (photos, mut findings) = round.photos()?;
        let sheets = round.sheets(&photos, &mut findings)?;
        let made = pages::Prepared { photos, sheets: Sheets::Printed(sheets) };
        versions.learn(&made);
        round.unchanged.look_again(&versions);
        findings.extend(round.pages(made)?);
        Ok(Finished { findings, made: round.made, record: round.recorder.finish().to_bytes() })
    }
}

/// One making of the site.
struct Round<'e, 'v, 's> {
    edition: &'e Edition,
    facts: SiteFacts,
    staging: &'s Staging,
    store: &'s Store,
    progress: &'s dyn Progress,
    last: &'v Record,
    unchanged: Unchanged<'v>,
    recorder: Recorder<'v, 'e>,
    made: usize,
}

/// The outputs that are there, each with what others need to know of it.
type Facts<'o> = Vec<(&'o Output, Fact)>;

/// How an output came to be.
enum Done<'r> {
    Kept(&'r RecordedOutput),
    Made(Vec<String>, Reads, Fact),
    /// It is there, and not as it should be, which its entry accepts. Only what is as it should be is kept for the next time.
    Accepted(Fact, Vec<Finding>),
    /// It is not there, or not as it should be; so it is made again the next time.
    Not(Vec<Finding>),
}

impl<'v> Round<'_, 'v, '_> {
    /// Does the work on every output, on all cores, and writes down what each was made from.
    fn each<'o>(
        &mut self,
        stage: Stage,
        outputs: &'o [Output],
        work: impl Fn(&Output) -> Result<Done<'v>, MakeError> + Sync,
    ) -> Result<(Facts<'o>, Vec<Finding>), MakeError> {
        self.progress.begin(stage, outputs.len());
        let progress = self.progress;
        let kept = |output: &Output| -> Result<Option<Done<'v>>, MakeError> {
            let Some(kept) = self.unchanged.get(output) else { return Ok(None) };
            if let Fact::Sheet { key, .. } = &kept.fact {
                self.store.still(key);
            }
            Ok(self.staging.keep(&kept.files)?.then_some(Done::Kept(kept)))
        };
        // Those that are kept are no work for the typesetter's threads, which tidy up behind each of theirs.
        let kept: Vec<Option<Done<'v>>> = outputs.par_iter().map(kept).collect::<Result<_, _>>()?;
        let open: Vec<&Output> =
            outputs.iter().zip(&kept).filter(|(_, kept)| kept.is_none()).map(|(output, _)| output).collect();
        kept.iter().flatten().for_each(|_| progress.step());
        let one = |output: &&Output| {
            let done = work(output);
            progress.step();
            done
        };
        let done: Vec<Result<Done<'v>, MakeError>> = match stage {
            Stage::Sheets | Stage::Images => print::workers::each(&open, rayon::current_num_threads(), one),
            Stage::Photos | Stage::Pages => open.par_iter().map(one).collect(),
        };
        let mut done = done.into_iter();
        let done = kept.into_iter().filter_map(|kept| kept.map(Ok).or_else(|| done.next()));
        self.progress.end();
        let mut facts = Vec::with_capacity(outputs.len());
        let mut findings = Vec::new();
        for (output, done) in outputs.iter().zip(done) {
            match done? {
                Done::Kept(kept) => {
                    self.recorder.kept(self.last, output, kept, kept.fact.clone());
                    facts.push((output, kept.fact.clone()));
                }
                Done::Made(files, reads, fact) => {
                    self.made += 1;
                    self.recorder.made(output, files, &reads, fact.clone());
                    facts.push((output, fact));
                }
                Done::Accepted(fact, found) => {
                    self.made += 1;
                    facts.push((output, fact));
                    print::add_findings(&mut findings, found);
                }
                Done::Not(found) => print::add_findings(&mut findings, found),
            }
        }
        Ok((facts, findings))
    }

    /// Makes the photos, each read when its turn has come: a camera's files are large.
    fn photos(&mut self) -> Result<(BTreeMap<Shot, Photo>, Vec<Finding>), MakeError> {
        let edition = self.edition;
        let shots = outputs::media::photos(&edition.model);
        let outputs: Vec<Output> = shots.into_iter().map(Output::Photo).collect();
        let staging = self.staging;
        let (facts, findings) = self.each(Stage::Photos, &outputs, |output| {
            let Output::Photo(shot) = output else { return Ok(Done::Not(Vec::new())) };
            let (made, reads) = watched(|| {
                note(|| Read::Bytes(shot.file.clone()));
                let bytes = workspace::photo(&edition.root, &shot.file)
                    .map_err(|why| photo_finding(&edition.model, &shot.file, &why.to_string()));
                bytes.and_then(|bytes| make_photo(&edition.model, shot, &bytes))
            });
            let made = match made {
                Ok(made) => made,
                Err(finding) => return Ok(Done::Not(vec![finding])),
            };
            for (path, bytes) in &made.files {
                staging.put(path, bytes)?;
            }
            let files = made.files.into_iter().map(|(path, _)| path).collect();
            Ok(Done::Made(files, reads, Fact::Photo(made.shown)))
        })?;
        let photo = |(output, fact): (&Output, Fact)| match (output, fact) {
            (Output::Photo(shot), Fact::Photo(photo)) => Some((shot.clone(), photo)),
            _ => None,
        };
        Ok((facts.into_iter().filter_map(photo).collect(), findings))
    }

    /// Prints every sheet and draws the image of every week, or takes them from the store. A sheet with a finding is
    /// not written.
    fn sheets(
        &mut self,
        photos: &BTreeMap<Shot, Photo>,
        findings: &mut Vec<Finding>,
    ) -> Result<BTreeMap<Address, Vec<(Sheet, u32)>>, MakeError> {
        let edition = self.edition;
        let facts = self.facts;
        let made = |shot: &Shot| {
            let bytes = workspace::photo(&edition.root, &shot.file).ok()?;
            make_photo(&edition.model, shot, &bytes).ok()?.printed
        };
        let photos = print::Photos::when_asked(photos.keys().cloned(), made);
        let press = LazyPress { press: std::sync::OnceLock::new(), edition, facts, photos: &photos };
        let sheets = outputs::sheet::all(&edition.model).into_iter().map(Output::Sheet).collect::<Vec<_>>();
        let weeks = edition.model.weeks();
        let images =
            weeks.map(|(series, week)| Output::Preview { series: series.id.clone(), week: week.id.clone() });
        let images: Vec<Output> = images.collect();
        let (staging, store) = (self.staging, self.store);
        let set = |output: &Output| set(edition, press.get()?, staging, store, output);
        let (made, found) = self.each(Stage::Sheets, &sheets, set)?;
        print::add_findings(findings, found);
        let (_, found) = self.each(Stage::Images, &images, set)?;
        print::add_findings(findings, found);
        let mut ready: BTreeMap<Address, Vec<(Sheet, u32)>> = BTreeMap::new();
        for (output, fact) in made {
            if let (Output::Sheet(sheet), Fact::Sheet { pages, .. }) = (output, fact) {
                ready.entry(sheet.of.clone()).or_default().push((sheet.clone(), pages));
            }
        }
        Ok(ready)
    }

    /// Makes pages, feeds and everything else; last the program that keeps the site on a device.
    fn pages(&mut self, made: pages::Prepared) -> Result<Vec<Finding>, MakeError> {
        let edition = self.edition;
        let outputs = outputs::all(&edition.model, &edition.theme);
        let widths = |photo: &Photo| photo.widths.iter().map(|w| w.path.clone()).collect();
        let photos: BTreeMap<Shot, Vec<String>> =
            made.photos.iter().map(|(shot, photo)| (shot.clone(), widths(photo))).collect();
        let files: HashSet<String> = outputs.iter().flat_map(|o| o.paths(&photos)).collect();
        let site = edition.site(&self.facts, made).map_err(|e| MakeError::Theme(e.to_string()))?;
        let folder = folder(&edition.model.site.address.value);
        let staged = |output: &&Output| {
            !matches!(output, Output::Photo(_) | Output::Sheet(_) | Output::Preview { .. } | Output::Worker)
        };
        let pages: Vec<Output> = outputs.iter().filter(staged).cloned().collect();
        let staging = self.staging;
        let put = |output: &Output| put(&site, staging, output, &folder, &files);
        let (facts, mut findings) = self.each(Stage::Pages, &pages, put)?;
        let inspections = self.inspections(facts, &folder, &files)?;
        findings.extend(pages::findings(&edition.model, &inspections, &files));
        let saved = saved(&edition.model, self.facts.today, &outputs, &photos);
        staging.put(WORKER, offline::worker(&version(staging), &saved).as_bytes())?;
        Ok(findings)
    }

    /// What was seen on each page. What was seen on a page that is kept still holds, unless a file is gone to which it
    /// may lead.
    fn inspections(
        &self,
        facts: Facts<'_>,
        folder: &str,
        files: &HashSet<String>,
    ) -> Result<Vec<Inspection>, MakeError> {
        let gone = self.last.paths().any(|path| !files.contains(path));
        let look = |(_, fact)| match fact {
            Fact::Page(seen) if gone => match self.staging.text(&seen.path) {
                Ok(html) => Some(Ok(inspect(&seen.path, &html, folder, files))),
                Err(error) => Some(Err(MakeError::from(error))),
            },
            Fact::Page(seen) => Some(Ok(seen)),
            _ => None,
        };
        facts.into_par_iter().filter_map(look).collect()
    }
}

/// What sheets share, made when the first of them is set: reading the fonts takes longer than keeping a small site.
struct LazyPress<'p> {
    press: std::sync::OnceLock<Result<Press<'p>, String>>,
    edition: &'p Edition,
    facts: SiteFacts,
    photos: &'p print::Photos<'p>,
}

impl<'p> LazyPress<'p> {
    fn get(&self) -> Result<&Press<'p>, MakeError> {
        let make = || self.edition.press(&self.facts, self.photos).map_err(|e| e.to_string());
        self.press.get_or_init(make).as_ref().map_err(|line| MakeError::Theme(line.clone()))
    }
}

/// Sets a sheet or draws an image, or takes it from the store, where it lies under what it says.
fn set<'r>(
    edition: &Edition,
    press: &Press<'_>,
    staging: &Staging,
    store: &Store,
    output: &Output,
) -> Result<Done<'r>, MakeError> {
    let theme = |e: print::SheetError| MakeError::Theme(e.to_string());
    let (manuscript, reads) = watched(|| edition.manuscript(press, output));
    let Some(manuscript) = manuscript.map_err(theme)? else { return Ok(Done::Not(Vec::new())) };
    let path = output.paths(&BTreeMap::new()).concat();
    let key = press.key(&manuscript);
    let fact = |pages| Fact::Sheet { pages, key: key.to_hex().to_string() };
    if let Some(kept) = store.get(&key) {
        staging.put(&path, &kept.pdf)?;
        return Ok(Done::Made(vec![path], reads, fact(kept.pages)));
    }
    match Edition::set(press, output, &manuscript) {
        Ok(SetOutput { pages, bytes, accepted }) if !accepted.is_empty() => {
            staging.put(&path, &bytes)?;
            Ok(Done::Accepted(fact(pages), accepted))
        }
        Ok(SetOutput { pages, bytes, .. }) => {
            staging.put(&path, &bytes)?;
            // The sheet is made; that it cannot be kept for the next time costs only time.
            let _ = store.keep(&key, pages, &bytes);
            Ok(Done::Made(vec![path], reads, fact(pages)))
        }
        Err(Unmade::Findings(found)) => Ok(Done::Not(found)),
        Err(Unmade::Sheet(error)) => Err(theme(error)),
        Err(Unmade::Template(error)) => Err(MakeError::Theme(error.to_string())),
    }
}

/// Makes the file of one output and stages it; a page is inspected.
fn put<'r>(
    site: &Site<'_>,
    staging: &Staging,
    output: &Output,
    folder: &str,
    files: &HashSet<String>,
) -> Result<Done<'r>, MakeError> {
    let (made, reads) = watched(|| {
        match output {
            Output::Media(name) => note(|| Read::Bytes(name.clone())),
            Output::Asset(name) => note(|| Read::Theme(name.clone())),
            _ => {}
        }
        site.make(output)
    });
    let made = made.map_err(|e| match output {
        Output::Page(address) => MakeError::Theme(format!("{} cannot be made: {e}", address.path())),
        _ => MakeError::Theme(e.to_string()),
    })?;
    let Some(OutputFile { path, body }) = made else { return Ok(Done::Not(Vec::new())) };
    let fact = match body {
        Body::Page(html) => {
            let seen = inspect(&path, &html, folder, files);
            staging.put(&path, html.as_bytes())?;
            Fact::Page(seen)
        }
        Body::Bytes(bytes) => {
            staging.put(&path, &bytes)?;
            Fact::None
        }
        Body::Attachment(source) => {
            staging.put_file(&path, &source)?;
            Fact::None
        }
    };
    Ok(Done::Made(vec![path], reads, fact))
}

/// A number for all files of the site as they are staged.
fn version(staging: &Staging) -> String {
    let mut stamp = Stamp::default();
    for (path, hash) in staging.added() {
        stamp.add(path);
        stamp.0.update(hash.as_bytes());
    }
    stamp.hash().to_hex()[..16].to_string()
}
