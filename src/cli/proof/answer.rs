//! What browsers ask for in a round: pages, other files of the site, the panel and its excerpts.

use std::collections::BTreeSet;

use super::round::{Round, Unmade};
use crate::edition::{Body, Edition, OutputFile, Unmade as Unset};
use crate::outputs::address::folder;
use crate::outputs::{Address, Output};
use crate::print;
use crate::proof::panel::{self, About};
use crate::proof::{Asker, Reply, Wanted, excerpt};
use crate::review;
use crate::review::report::text::{Look, render};
use crate::workspace;

impl Round<'_> {
    /// Answers, but for a panel before the first review is done: that is answered then.
    pub(super) fn answer(&mut self, wanted: Wanted, asker: Asker) {
        let reply = match wanted {
            Wanted::Panel { page } if self.reviewed.is_none() => return self.asking.push((page, asker)),
            Wanted::Panel { page } => Reply::Piece(self.panel(&page)),
            Wanted::Excerpt { review, finding } => self.excerpt(review, finding),
            Wanted::File { path } => self.file(path),
            // A round answers it where it can end with what was written.
            Wanted::Desk(_) => Reply::Missing(String::new()),
        };
        // Whoever asked may be gone again.
        let _ = asker.send(reply);
    }

    fn excerpt(&self, review: u64, finding: usize) -> Reply {
        let reviewed = self.reviewed.as_ref().filter(|reviewed| reviewed.number == review);
        let excerpt = reviewed.and_then(|reviewed| {
            let span = reviewed.review.findings.get(finding)?.span;
            Some(excerpt::html(reviewed.sources.get(span.file), span))
        });
        excerpt.map_or(Reply::Missing(String::new()), Reply::Piece)
    }

    /// The panel of a page, with what the last finished review found; empty before there is one.
    pub(super) fn panel(&self, page: &str) -> String {
        let Some(reviewed) = &*self.reviewed else { return String::new() };
        let shown = self.now.edition.shown_on(page);
        let sources = self.now.edition.sources();
        // By their names: the review may have looked at files that are gone, and these may have been found since.
        let entries: BTreeSet<&str> = shown.iter().map(|file| sources.get(*file).name.as_str()).collect();
        let held = self.held.get(page).cloned().or_else(|| self.why());
        let about = About {
            review: &reviewed.review,
            number: reviewed.number,
            sources: &reviewed.sources,
            entries: &entries,
            held: held.as_deref(),
        };
        panel::html(&about)
    }

    /// A file of the site. The not-found page names the site's folder on its server, so that may stand in front.
    fn file(&mut self, path: String) -> Reply {
        let folder = folder(&self.now.edition.model().site.address.value);
        let below = path.strip_prefix(folder.trim_start_matches('/')).filter(|p| !p.is_empty());
        let paths = std::iter::once(path.as_str()).chain(below);
        let mut why = None;
        for path in paths {
            match self.page(path) {
                Ok((path, html)) => {
                    self.door.shown.show(&[(path.clone(), html)]);
                    return Reply::Shown { path };
                }
                Err(Unmade::Template(why)) => return Reply::Unmade(why),
                Err(Unmade::NotThere(reason)) => why = why.or(reason),
            }
            if let Some(output) = self.now.files().get(path).cloned() {
                return self.other(path.to_string(), &output);
            }
        }
        match (why, &self.site) {
            (Some(why), _) => Reply::Unmade(why),
            (None, Ok(site)) => Reply::Missing(site.pages().render(&Address::NotFound).unwrap_or_default()),
            (None, Err(error)) => Reply::Unmade(error.to_string()),
        }
    }

    /// A file that is no page.
    fn other(&self, path: String, output: &Output) -> Reply {
        match output {
            Output::Sheet(_) | Output::Preview { .. } => self.set(path, output),
            Output::Photo(shot) => {
                let photo = self.now.photos.get(shot).and_then(|p| p.as_ref().ok());
                match photo.and_then(|p| p.files.iter().find(|(known, _)| *known == path)) {
                    Some((_, bytes)) => Reply::File { path, bytes: bytes.clone() },
                    None => Reply::Missing(String::new()),
                }
            }
            Output::Media(name) => match workspace::attachment_file(self.now.edition.root(), name) {
                Ok((file, whole)) => Reply::Media { path, file, whole },
                Err(_) => Reply::Missing(String::new()),
            },
            output => {
                let Ok(site) = &self.site else { return Reply::Unmade(self.why().unwrap_or_default()) };
                match site.make(output) {
                    Ok(Some(OutputFile { path, body: Body::Bytes(bytes) })) => {
                        Reply::File { path, bytes: bytes.into_owned() }
                    }
                    Ok(_) => Reply::Missing(String::new()),
                    Err(error) => Reply::Unmade(error.to_string()),
                }
            }
        }
    }

    /// Prints a sheet or draws the image of a week, now that somebody asks for it.
    fn set(&self, path: String, output: &Output) -> Reply {
        let edition = self.now.edition;
        let photos: print::Photos<'_> = self
            .now
            .photos
            .iter()
            .filter_map(|(name, p)| Some((name.clone(), p.as_ref().ok()?.printed.clone()?)))
            .collect();
        let set = || -> Result<Option<Vec<u8>>, Unset> {
            let press = edition.press(&self.facts, &photos)?;
            let Some(manuscript) = edition.manuscript(&press, output)? else { return Ok(None) };
            Ok(Some(Edition::set(&press, output, &manuscript)?.bytes))
        };
        let why = match set() {
            Ok(Some(bytes)) => return Reply::File { path, bytes },
            Ok(None) => return Reply::Missing(String::new()),
            Err(Unset::Sheet(error)) => error.to_string(),
            Err(Unset::Template(error)) => error.to_string(),
            Err(Unset::Findings(found)) => {
                let found = review::settle(&edition.case(self.now.today), found);
                render(&found, edition.sources(), Look { color: false, width: 100 })
            }
        };
        Reply::Unmade(why)
    }
}
