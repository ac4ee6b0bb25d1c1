//! The files that belong to a week's video, and the addresses of its moments.

use std::collections::BTreeSet;

use super::address::published_name;
use crate::model::Model;
use crate::model::captions::Captions;
use crate::model::series::Series;
use crate::model::site::Site;
use crate::model::week::{Video, VideoPlace, Week};

/// Captions that a week names, by their names below `content/`.
pub fn captions(model: &Model) -> BTreeSet<String> {
    let named = model.weeks().flat_map(|(series, week)| model.captions_of(series, week));
    named.map(|(_, captions)| captions.name.clone()).collect()
}

/// Where captions are published, always as WebVTT: `captions/week-07.en.srt` becomes
/// `captions/week-07.en.srt.vtt`, since `captions/week-07.en.vtt` may be there too.
pub fn captions_path(name: &str) -> String {
    let name = published_name(name);
    if name.ends_with(".vtt") { name } else { format!("{name}.vtt") }
}

/// Where the chapters of a week's video are published.
pub fn chapters_path(series: &str, week: &str) -> String {
    format!("series/{series}/{week}-chapters.vtt")
}

/// The captions that a week's transcript is made from: those in the site's language, or else the first.
pub fn spoken<'m>(model: &'m Model, series: &Series, week: &'m Week) -> Option<&'m Captions> {
    let language = &model.site.language.value;
    let all: Vec<&Captions> = model.captions_of(series, week).map(|(_, captions)| captions).collect();
    let own = all.iter().find(|captions| captions.language.as_ref().is_none_or(|l| l == language));
    own.or(all.first()).copied()
}

/// The address of a moment of a video that is elsewhere, where the site knows how its address says so.
pub fn moment(site: &Site, video: &Video, seconds: u32) -> Option<String> {
    let VideoPlace::Address(address) = &video.place else { return None };
    let parameter = &site.time_parameter.as_ref()?.value;
    let (address, fragment) = match address.value.split_once('#') {
        Some((address, fragment)) => (address, format!("#{fragment}")),
        None => (address.value.as_str(), String::new()),
    };
    let join = match address.split_once('?') {
        None => "?",
        Some((_, "")) => "",
        Some((_, query)) if query.ends_with('&') => "",
        Some(_) => "&",
    };
    Some(format!("{address}{join}{parameter}={seconds}{fragment}"))
}

/// The machine that a web address leads to, as a reader knows it: `video.example`.
pub fn host(address: &str) -> &str {
    let rest = address.split_once("://").map_or(address, |(_, rest)| rest);
    let host = rest.split(['/', '?', '#']).next().unwrap_or(rest);
    let host = host.rsplit_once('@').map_or(host, |(_, host)| host);
    host.strip_prefix("www.").unwrap_or(host)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::source::{FileId, Span, Spanned};
    use crate::review::testing::edition;

    #[test]
    fn the_address_of_a_moment_keeps_what_the_address_has() {
        let at = |text: &str| Spanned::new(text.to_string(), Span::start_of(FileId(0)));
        let mut site = edition([]).into_parts().0.site;
        let video = |address: &str| Video {
            span: Span::start_of(FileId(0)),
            place: VideoPlace::Address(at(address)),
            length: Spanned::new(100, Span::start_of(FileId(0))),
            captions: Vec::new(),
        };
        assert_eq!(moment(&site, &video("https://video.example/7"), 65), None);
        site.time_parameter = Some(at("t"));
        for (address, expected) in [
            ("https://video.example/7", "https://video.example/7?t=65"),
            ("https://video.example/?v=7", "https://video.example/?v=7&t=65"),
            ("https://video.example/7?", "https://video.example/7?t=65"),
            ("https://video.example/?v=7&#part", "https://video.example/?v=7&t=65#part"),
        ] {
            assert_eq!(moment(&site, &video(address), 65).as_deref(), Some(expected));
        }
    }

    #[test]
    fn a_reader_knows_a_video_by_its_machine() {
        assert_eq!(host("https://www.video.example/watch?v=7"), "video.example");
        assert_eq!(host("https://me@video.example#7"), "video.example");
    }

    #[test]
    fn captions_are_published_as_webvtt() {
        let path = |file: &str| captions_path(&format!("series/hill/captions/{file}"));
        assert_eq!(path("week-07.en.vtt"), "series/hill/captions/week-07.en.vtt");
        assert_eq!(path("week-07.en.srt"), "series/hill/captions/week-07.en.srt.vtt");
    }
}
