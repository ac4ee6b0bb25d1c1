//! `steadyleaf make`: review, then the site into `ready/`. An error stops it and leaves `ready/` as it was.

use std::collections::{BTreeMap, HashSet};

use clap::Args;
use rayon::prelude::*;

use super::Common;
use super::load::{Loaded, load};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::model::finding::Finding;
use crate::outputs::address::{folder, published_name};
use crate::outputs::{self, Output};
use crate::pages::inspect::{Inspection, inspect};
use crate::pages::{Pages, Photo, PhotoWidth, photo};
use crate::publish::{self, Staging};
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
    let staging = shelf.stage()?;
    let (inspections, files, photo_findings) = render(&loaded, &photos, command.draft, &staging, terminal)?;
    let mut found = crate::pages::findings(&loaded.case(terminal.today), &inspections, &files);
    found.extend(photo_findings);
    let mut review = review;
    if !found.is_empty() {
        review = review::join(&loaded.case(terminal.today), review, found);
        if review.has_errors() && !command.draft {
            return stopped(&review, &loaded, terminal);
        }
    }
    let published = staging.publish(&fingerprint)?;
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
    let program = workspace::program()
        .map_err(|e| Failure::Unreadable(format!("the program cannot read itself: {e}")))?;
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

/// Renders every output on all cores and stages it. Photos first: pages need their dimensions.
fn render(
    loaded: &Loaded,
    photos: &BTreeMap<String, Vec<u8>>,
    draft: bool,
    staging: &Staging,
    terminal: &Terminal,
) -> Result<Rendered, Failure> {
    let outputs = outputs::all(&loaded.model, &loaded.theme);
    let progress = terminal.progress("Making pages", outputs.len());
    let put = |path: &str, bytes: &[u8]| -> Result<(), Failure> {
        staging.put(path, bytes)?;
        progress.step();
        Ok(())
    };
    let put_file = |path: &str, source: &std::path::Path| -> Result<(), Failure> {
        staging.put_file(path, source)?;
        progress.step();
        Ok(())
    };
    let made: Vec<Result<(String, Photo), Finding>> = photos
        .par_iter()
        .map(|(name, bytes)| match photo::renditions(bytes) {
            Ok(renditions) => {
                let mut widths = Vec::new();
                for r in renditions {
                    let path = photo_path(name, r.width, r.extension);
                    put(&path, &r.bytes)?;
                    widths.push(PhotoWidth { path, width: r.width, height: r.height });
                }
                Ok(Ok((name.clone(), Photo { widths })))
            }
            Err(error) => Ok(Err(crate::pages::photo_finding(&loaded.model, name, &error.to_string()))),
        })
        .collect::<Result<_, Failure>>()?;
    let mut findings = Vec::new();
    let mut ready = BTreeMap::new();
    for photo in made {
        match photo {
            Ok((name, photo)) => drop(ready.insert(name, photo)),
            Err(finding) => findings.push(finding),
        }
    }
    let widths = |photo: &Photo| photo.widths.iter().map(|w| w.path.clone()).collect();
    let photo_paths = ready.iter().map(|(name, photo)| (name.clone(), widths(photo))).collect();
    let files: HashSet<String> = outputs.iter().flat_map(|o| o.paths(&photo_paths)).collect();
    let pages = Pages::new(
        &loaded.model,
        &loaded.sources,
        &loaded.words,
        &loaded.theme,
        ready,
        terminal.today,
        draft,
    )
    .map_err(|e| Failure::Unreadable(e.to_string()))?;
    let site = folder(&loaded.model.site.address.value);
    let inspections = outputs
        .par_iter()
        .filter_map(|output| match output {
            Output::Page(address) => Some((|| {
                let html = pages.render(address).map_err(|e| Failure::Unreadable(e.to_string()))?;
                let path = address.path();
                let inspection = inspect(&path, &html, &site, &files);
                put(&path, html.as_bytes())?;
                Ok(inspection)
            })()),
            Output::Asset(name) => {
                let bytes = loaded.theme.files.get(name)?;
                put(name, bytes).err().map(Err)
            }
            Output::Media(name) => {
                let source = workspace::attachment_path(&loaded.root, name);
                put_file(&published_name(name), &source).err().map(Err)
            }
            Output::Photo(_) => None,
        })
        .collect::<Result<Vec<_>, Failure>>()?;
    progress.finish();
    Ok((inspections, files, findings))
}

/// `media/heel-drop.jpg` at 480 pixels is `media/heel-drop-480.jpg`.
fn photo_path(name: &str, width: u32, extension: &str) -> String {
    let name = published_name(name);
    let stem = name.rsplit_once('.').map_or(name.as_str(), |(stem, _)| stem);
    format!("{stem}-{width}.{extension}")
}
