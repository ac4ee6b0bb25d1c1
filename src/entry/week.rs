//! Reads a week.

use toml::de::DeTable;

use super::accept::read_accept;
use super::fields::{Fields, Notes, each};
use super::opening::open;
use super::{Known, Origin, dose, fields, prose};
use crate::model::finding::Finding;
use crate::model::nearest::shown;
use crate::model::source::{Span, Spanned};
use crate::model::week::{Thanks, Video, VideoPlace, Week, WeekExercise};

/// Reads a week; `None` when its block cannot be found.
pub(super) fn read(
    text: &str,
    origin: Origin<'_>,
    id: &str,
    known: &Known<'_>,
) -> (Option<Week>, Vec<Finding>) {
    let file = origin.file;
    let opened = match open(text, file) {
        Ok(opened) => opened,
        Err(finding) => return (None, vec![finding]),
    };
    let (table, mut notes) = fields::parse(&text[opened.fields.clone()], opened.fields.start, file);
    let mut f = Fields::new(table.get_ref(), opened.opening, "the week", &notes);
    let n = &mut notes;

    if f.key_span("week", n).is_none() {
        f.missing("week", "1", n);
    }
    let number = f.number("week", (1, 520), n).unwrap_or(Spanned::new(0, f.whole));
    let title = f.required_text("title", "\"Light on your feet\"", id, n);
    let date = f.required_date("date", n);
    let exercises_span = f.key_span("exercises", n).unwrap_or(f.whole);
    if f.key_span("exercises", n).is_none() {
        f.missing("exercises", "[{ id = \"heel-drop\", at = \"1:05\" }]", n);
    }
    let exercises = each(&mut f, "exercises", n, read_exercise);
    let question = f.text("question", n);
    let video = f.table("video", n).and_then(|(table, span)| {
        let (video, sound) = read_video(table, span, n);
        if video.is_none() {
            f.standing.mark_stand_in("video");
        }
        if !sound {
            f.standing.mark_unsound("video");
        }
        video
    });
    let thanks = each(&mut f, "thanks", n, read_thanks);
    let accept = read_accept(&mut f, n);
    let standing = f.finish(n);
    let prose = prose::read(text, opened.prose, origin, &known.sections, &mut n.findings);
    let week = Week {
        id: id.to_string(),
        file,
        standing,
        number,
        title,
        date,
        exercises,
        exercises_span,
        question,
        video,
        thanks,
        accept,
        prose,
    };
    (Some(week), notes.findings)
}

fn read_exercise(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Option<WeekExercise> {
    let mut f = Fields::new(table, span, "an exercise of the week", n);
    let id = f.required_text("id", "\"heel-drop\"", "", n);
    let at = f.clock("at", n);
    let dose = f.table("dose", n).map(|(table, span)| dose::read(table, span, n));
    let focus = f.text("focus", n);
    let standing = f.finish(n);
    standing.knows("id").then_some(WeekExercise { span, id, at, dose, focus })
}

fn read_thanks(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Option<Thanks> {
    let mut f = Fields::new(table, span, "a thanks", n);
    let name = f.required_text("name", "\"Ida\"", "", n);
    // What is not plainly said is no consent.
    let consent = f.truth("consent", n).unwrap_or(false);
    let standing = f.finish(n);
    // What could not be read has told so already, and names nobody.
    (standing.knows("name") && standing.knows("consent")).then_some(Thanks { name, consent })
}

/// The video, and whether all of it could be read.
fn read_video(table: &DeTable<'_>, span: Span, n: &mut Notes) -> (Option<Video>, bool) {
    let mut f = Fields::new(table, span, "the video", n);
    let address = f.text("address", n);
    let in_media = f.text("file", n);
    let tried = f.key_span("address", n).is_some() || f.key_span("file", n).is_some();
    if !tried {
        f.missing("address", "\"https://…\"` or `file = \"media/week-07.mp4\"", n);
    }
    if f.key_span("length", n).is_none() {
        f.missing("length", "\"11:20\"", n);
    }
    let length = f.clock("length", n);
    let captions = f.texts("captions", n);
    if let (Some(_), Some(second)) = (&address, &in_media) {
        n.wrong(
            second.span,
            "expected `address` or `file`, found both",
            "keep `file` for a video under content/media/, `address` for one elsewhere",
        );
    }
    let address = address.and_then(|a| web_address(a, n));
    let standing = f.finish(n);
    let sound = ["address", "file", "length", "captions"].iter().all(|field| standing.knows(field));
    let place = address.map(VideoPlace::Address).or(in_media.map(VideoPlace::File));
    let video = place.zip(length).map(|(place, length)| Video { span, place, length, captions });
    (video, sound)
}

/// An address of the web; other schemes do not open in a reader's browser.
pub(super) fn web_address(address: Spanned<String>, n: &mut Notes) -> Option<Spanned<String>> {
    let rest = address.value.strip_prefix("https://").or(address.value.strip_prefix("http://"));
    let host = rest.map(|r| r.split(['/', '?', '#']).next().unwrap_or(""));
    if host.is_some_and(|h| !h.is_empty()) && !address.value.contains(char::is_whitespace) {
        return Some(address);
    }
    n.wrong(
        address.span,
        format!("expected a web address, found {}", shown(&address.value)),
        "write the whole address, such as \"https://video.example/7\"",
    );
    None
}
