//! `position-in-video`: a video that says where it was filmed.

use crate::model::finding::{Level, Subject};
use crate::model::link::Target;
use crate::model::source::Span;
use crate::model::week::VideoPlace;
use crate::review::captions::{A_CUE, NO_VIDEO, WITH_PLACES};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

const WEEK: &str = "content/series/first-steps/week-01.md";

const CAPTIONS: &str = "content/series/first-steps/captions/week-01.en.vtt";

pub(super) static RULE: Rule = Rule {
    name: "position-in-video",
    level: Level::Warning,
    safety: false,
    finds: "A week or a link names a video or a sound recording under content/media/ whose hidden data\n\
            say where it was recorded.",
    why: "A phone writes down where it is to within a few steps. `make` takes that out of photos, but\n\
          publishes videos as they are: anybody can read in one where you live, or somebody who let you\n\
          film in her home.",
    bad: Example::lines(
        WEEK,
        &[
            WITH_PLACES,
            (
                NO_VIDEO,
                r#"
[video]
file = "media/as-filmed.mp4"
       ^^^^^^^^^^^^^^^^^^^^^ `media/as-filmed.mp4` says in its hidden data where it was recorded
length = "11:20"
captions = ["captions/week-01.en.vtt"]
"#,
            ),
        ],
    )
    .with(CAPTIONS, A_CUE),
    good: Example::lines(
        WEEK,
        &[
            WITH_PLACES,
            (
                NO_VIDEO,
                r#"
[video]
file = "media/week-01.mp4"
length = "11:20"
captions = ["captions/week-01.en.vtt"]
"#,
            ),
        ],
    )
    .with(CAPTIONS, A_CUE),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    if case.model.positions.is_empty() {
        return;
    }
    for (_, week) in case.model.weeks() {
        if let Some(VideoPlace::File(file)) = week.video.as_ref().map(|video| &video.place) {
            check_file(case, file.span, &file.value, sink);
        }
    }
    for link in case.model.proses().flat_map(|(_, prose)| &prose.links) {
        if let Ok(Target::Media(name)) = link.leads.as_ref().map(|found| &found.target) {
            check_file(case, link.address.span, name, sink);
        }
    }
}

/// `name` is what the words at `span` mean, below `content/`.
fn check_file(case: &Case<'_>, span: Span, name: &str, sink: &mut Sink<'_>) {
    if !case.model.positions.contains(name) {
        return;
    }
    let file = name.rsplit('/').next().unwrap_or(name);
    sink.about([Subject::Place(name.into())]).add(
        span,
        format!("`{name}` says in its hidden data where it was recorded"),
        format!(
            "share it from your phone once more with its location left out, and put that copy in its place; or have \
             the program ffmpeg write one: `ffmpeg -i \"{file}\" -map_metadata -1 -c copy \"clean-{file}\"`; before the \
             next one, switch off the location in the settings of your camera"
        ),
    );
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{FILMED, found, review_files};

    const ABOUT: &str = "content/pages/about.md";

    #[test]
    fn a_link_to_such_a_video_is_found_each_time_and_one_to_another_is_not() {
        let links = "[A](../media/as-filmed.mp4), [b](../media/as-filmed.mp4), [c](../media/door.mp4)";
        let text = format!("```toml\ntitle = \"About us\"\n```\n{links}\n");
        let message = "`media/as-filmed.mp4` says in its hidden data where it was recorded";
        assert_eq!(
            found(&[(ABOUT, &text), FILMED, ("content/media/door.mp4", "")]),
            [format!("position-in-video 4:1 {message}"), format!("position-in-video 4:30 {message}")]
        );
    }

    #[test]
    fn what_nothing_names_is_not_published_and_not_found() {
        assert_eq!(found(&[FILMED]), [""; 0]);
    }

    #[test]
    fn a_reason_in_the_entry_accepts_it() {
        let accept =
            "accept = [{ finding = \"position-in-video\", because = \"It was filmed at the clinic.\" }]";
        let text =
            format!("```toml\ntitle = \"About us\"\n{accept}\n```\n[Our room](../media/as-filmed.mp4)\n");
        let (review, _) = review_files(&[(ABOUT, &text), FILMED]);
        assert_eq!((review.findings.len(), review.exceptions.len()), (0, 1), "{:?}", review.findings);
    }
}
