//! The video of a week on its page: a poster that loads nothing from elsewhere, the chapters, the transcript.

use serde::Serialize;

use super::exercise::block_id;
use super::{LabeledId, Pages};
use crate::feeds::structured::{self, VideoAbout};
use crate::model::captions::Captions;
use crate::model::series::Series;
use crate::model::vocabulary::Component;
use crate::model::week::{Video, VideoPlace, Week, clock};
use crate::outputs::Address;
use crate::outputs::address::{Links, published_name};
use crate::outputs::blocks::chapters::{self, Chapter};
use crate::outputs::video::{captions_path, chapters_path, host, moment, spoken};
use crate::reckon::transcript;

#[derive(Serialize)]
pub(super) struct VideoView {
    /// The shapes of the week's components on the poster.
    components: Vec<LabeledId>,
    /// "Watch the video (11 minutes 20 seconds)".
    text: String,
    /// Where it is, and that it starts only when the reader asks.
    where_line: String,
    /// The video's address elsewhere.
    href: Option<String>,
    /// A video of the site's own.
    file: Option<VideoFile>,
    captions_line: Option<String>,
    chapters: Vec<ChapterLink>,
}

#[derive(Serialize)]
struct VideoFile {
    src: String,
    tracks: Vec<Track>,
}

/// A track of the player.
#[derive(Serialize)]
struct Track {
    kind: &'static str,
    src: String,
    language: String,
    label: String,
    default: bool,
}

#[derive(Serialize)]
struct ChapterLink {
    title: String,
    /// "3:40".
    time: String,
    seconds: u32,
    href: Option<String>,
}

#[derive(Serialize)]
pub(super) struct TranscriptView {
    language: Option<String>,
    parts: Vec<TranscriptPart>,
}

#[derive(Serialize)]
struct TranscriptPart {
    title: Option<String>,
    time: Option<String>,
    paragraphs: Vec<Said>,
}

#[derive(Serialize)]
struct Said {
    /// "Maren:".
    speaker: Option<String>,
    text: String,
}

pub(super) fn view(pages: &Pages<'_>, links: &Links, series: &Series, week: &Week) -> Option<VideoView> {
    let video = week.video.as_ref()?;
    let words = pages.words;
    let length: fluent_bundle::FluentValue<'_> = pages.say().length(video.length.value).into();
    let captioned = pages.model.captions_of(series, week).next().is_some();
    let (text, where_line, href, file) = match &video.place {
        VideoPlace::Address(address) => (
            words.say_with("video-watch", &[("length", length)]),
            words.say_with("video-elsewhere", &[("host", host(&address.value).into())]),
            Some(address.value.clone()),
            None,
        ),
        VideoPlace::File(name) => {
            let tracks = tracks(pages, links, series, week);
            let file = VideoFile { src: links.file(&published_name(&name.value)), tracks };
            (words.say_with("video-play", &[("length", length)]), words.say("video-here"), None, Some(file))
        }
    };
    let chapters = chapters::of_week(pages.model, words, week).into_iter().map(|chapter| ChapterLink {
        time: clock(chapter.start),
        seconds: chapter.start,
        href: chapter_href(pages, links, video, chapter.start),
        title: chapter.title,
    });
    let components = pages.model.exercises_of(week).map(|(_, e)| e.component.value);
    let mut components: Vec<Component> = components.collect();
    components.sort_unstable();
    components.dedup();
    Some(VideoView {
        components: components.into_iter().map(|c| super::series::named(pages, c)).collect(),
        text,
        where_line,
        href,
        file,
        captions_line: captioned.then(|| words.say("video-captions")),
        chapters: chapters.collect(),
    })
}

/// Where a moment of the video is seen; nowhere for one elsewhere whose address cannot say it.
pub(super) fn chapter_href(pages: &Pages<'_>, links: &Links, video: &Video, seconds: u32) -> Option<String> {
    match &video.place {
        // A media fragment (W3C Media Fragments URI 1.0, section 4.2.1), which works without scripts too.
        VideoPlace::File(name) => Some(format!("{}#t={seconds}", links.file(&published_name(&name.value)))),
        VideoPlace::Address(_) => moment(&pages.model.site, video, seconds),
    }
}

fn tracks(pages: &Pages<'_>, links: &Links, series: &Series, week: &Week) -> Vec<Track> {
    let site = &pages.model.site.language.value;
    let own = spoken(pages.model, series, week).map(|captions| &captions.name);
    let captions = pages.model.captions_of(series, week).map(|(_, captions)| {
        let language = captions.language.as_ref().unwrap_or(site);
        Track {
            kind: "captions",
            src: links.file(&captions_path(&captions.name)),
            language: language.clone(),
            label: pages
                .words
                .say_with("video-captions-label", &[("language", language_name(pages, language).into())]),
            default: own == Some(&captions.name),
        }
    });
    let chapters = (!chapters::of_week(pages.model, pages.words, week).is_empty()).then(|| Track {
        kind: "chapters",
        src: links.file(&chapters_path(&series.id, &week.id)),
        language: site.clone(),
        label: pages.words.say("video-chapters-title"),
        default: false,
    });
    captions.chain(chapters).collect()
}

/// The name of a language where the theme has a word for it, or else its code.
fn language_name(pages: &Pages<'_>, code: &str) -> String {
    let id = format!("language-{}", code.to_ascii_lowercase());
    if pages.words.has(&id) { pages.words.say(&id) } else { code.to_string() }
}

pub(super) fn transcript(pages: &Pages<'_>, series: &Series, week: &Week) -> Option<TranscriptView> {
    let captions = spoken(pages.model, series, week)?;
    let chapters = chapters::of_week(pages.model, pages.words, week);
    let parts = parts(captions, &chapters).into_iter().map(|part| {
        let chapter = part.chapter.and_then(|at| chapters.get(at));
        TranscriptPart {
            title: chapter.map(|c| c.title.clone()),
            time: chapter.map(|c| clock(c.start)),
            paragraphs: part
                .paragraphs
                .into_iter()
                .scan(None, |before, paragraph| {
                    // A name stands where the speaker changes, not at each of her paragraphs.
                    let changes = *before != paragraph.speaker;
                    *before = paragraph.speaker.clone();
                    let speaker = paragraph.speaker.filter(|_| changes).map(|name| format!("{name}:"));
                    Some(Said { speaker, text: paragraph.text })
                })
                .collect(),
        }
    });
    let other = captions.language.as_ref().filter(|l| **l != pages.model.site.language.value);
    Some(TranscriptView { language: other.cloned(), parts: parts.collect() })
}

fn parts(captions: &Captions, chapters: &[Chapter]) -> Vec<transcript::TranscriptSection> {
    let starts: Vec<u32> = chapters.iter().map(|c| c.start).collect();
    transcript::of(captions, &starts)
}

/// What the page says of its video to programs.
pub(super) fn structured(pages: &Pages<'_>, series: &Series, week: &Week) -> Option<serde_json::Value> {
    let video = week.video.as_ref()?;
    let site = &pages.model.site.address.value;
    let address = Address::week(series, week);
    let page = format!("{site}{}", address.path());
    let (content, url) = match &video.place {
        VideoPlace::File(name) => (Some(format!("{site}{}", published_name(&name.value))), None),
        VideoPlace::Address(address) => (None, Some(address.value.clone())),
    };
    let chapters = chapters::of_week(pages.model, pages.words, week);
    let spoken = spoken(pages.model, series, week);
    let said = spoken.map(|captions| {
        let parts = parts(captions, &chapters);
        let paragraphs = parts.into_iter().flat_map(|part| part.paragraphs).map(|p| p.text);
        paragraphs.collect::<Vec<_>>().join("\n")
    });
    let chapter_url = |chapter: &Chapter| {
        let exercise = pages
            .model
            .exercises_of(week)
            .find(|(used, _)| used.at.as_ref().is_some_and(|at| at.value == chapter.start));
        let on_page = || match exercise {
            Some((_, e)) => format!("{page}#{}", block_id(&e.id)),
            None => page.clone(),
        };
        match &content {
            Some(file) => format!("{file}#t={}", chapter.start),
            None => moment(&pages.model.site, video, chapter.start).unwrap_or_else(on_page),
        }
    };
    let about = VideoAbout {
        name: &week.title.value,
        description: &series.summary.value,
        page: &page,
        content: content.as_deref(),
        url: url.as_deref(),
        date: week.date.value,
        seconds: video.length.value,
        language: &pages.model.site.language.value,
        captioned: spoken.is_some(),
        transcript: said,
        chapters: chapters
            .into_iter()
            .map(|c| {
                let url = chapter_url(&c);
                (c, url)
            })
            .collect(),
    };
    Some(structured::video(&about))
}
