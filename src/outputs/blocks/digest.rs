//! A week in short, for words to paste elsewhere: below a video, into a letter.

use serde::Serialize;

use super::caution::{CautionBlock, cautions};
use super::chapters::{self, Chapter};
use super::needs::needs;
use super::phrases::{Phrases, one_line};
use super::used::UsedExercise;
use super::week::{thanks, title_line};
use crate::model::Model;
use crate::model::prose::Prose;
use crate::model::prose::texts::{Beside, Text, plain, texts};
use crate::model::series::Series;
use crate::model::week::{VideoPlace, Week};
use crate::outputs::Address;

/// What is said of a week elsewhere.
#[derive(Clone, Debug, Serialize)]
pub struct Digest {
    /// "Week 7: Light on your feet".
    pub title: String,
    pub series: String,
    /// The first paragraph of the week, or else the summary of its series.
    pub summary: String,
    /// The paragraphs of the week, without marks.
    pub welcome: Vec<String>,
    pub exercises: Vec<DigestExercise>,
    /// Of its video; a letter has none.
    #[serde(skip)]
    pub chapters: Vec<Chapter>,
    /// What to have at hand: "a sturdy chair", without doubles.
    pub needs: Vec<String>,
    /// The whole address of the week's page.
    pub page: String,
    /// The whole address of the video.
    pub video: Option<String>,
    pub question: Option<String>,
    /// "Thank you, Ida and Joan."
    pub thanks: Option<String>,
    /// "Call 911.", with the number of the educator: many read this and nothing else.
    pub emergency_call: String,
}

/// An exercise of it.
#[derive(Clone, Debug, Serialize)]
pub struct DigestExercise {
    pub title: String,
    pub dose: String,
    /// "If you have a break in the spine: Stop. …": those to stop, to ask, and for everyone. Those of all exercises stand
    /// together, each with its title.
    #[serde(skip)]
    pub cautions: Vec<String>,
    /// It has others, which its page says.
    #[serde(skip)]
    pub has_more: bool,
}

impl Digest {
    /// Some of its exercises have cautions for one condition or another, which stand on the page of the week alone.
    pub fn has_more_cautions(&self) -> bool {
        self.exercises.iter().any(|exercise| exercise.has_more)
    }
}

/// The digest of a week.
pub fn of_week(model: &Model, series: &Series, week: &Week, say: Phrases<'_>) -> Digest {
    let site = &model.site.address.value;
    let welcome = paragraphs(&week.prose);
    let used = UsedExercise::of_week(model, week);
    let exercises = used.iter().map(|one| {
        let (first, others): (Vec<CautionBlock<'_>>, Vec<_>) =
            cautions(one.exercise, model, say).into_iter().partition(CautionBlock::comes_first);
        DigestExercise {
            title: one.title().value.clone(),
            dose: one.glance(say).dose,
            cautions: first.into_iter().map(|caution| in_line(caution, say)).collect(),
            has_more: !others.is_empty(),
        }
    });
    let video = week.video.as_ref().map(|video| match &video.place {
        VideoPlace::Address(address) => address.value.clone(),
        VideoPlace::File(name) => format!("{site}{}", crate::outputs::address::published_name(&name.value)),
    });
    Digest {
        title: title_line(week, say),
        series: series.title.value.clone(),
        summary: welcome.first().cloned().unwrap_or_else(|| one_line(&series.summary.value)),
        welcome,
        exercises: exercises.collect(),
        chapters: chapters::of_week(model, say.words, week),
        needs: needs(used.iter().map(UsedExercise::form), say).into_iter().map(|need| need.value).collect(),
        page: format!("{site}{}", Address::week(series, week).path()),
        video,
        question: week.question.as_ref().map(|question| one_line(&question.value)),
        thanks: thanks(week, say),
        emergency_call: say.emergency_call(&model.site),
    }
}

fn in_line(caution: CautionBlock<'_>, say: Phrases<'_>) -> String {
    let caution = [
        ("who", caution.who.into()),
        ("level", caution.level_word.into()),
        ("text", caution.text.value.as_str().into()),
    ];
    one_line(&say.words.say_with("digest-caution", &caution))
}

/// The paragraphs of a prose, each in one line. A picture has no words here, and what stands in raw HTML is none.
fn paragraphs(prose: &Prose) -> Vec<String> {
    let words = |text| match text {
        Text::Paragraph(_, line) => Some(plain(line, Beside::Nothing)),
        Text::Code(_, code) => Some(code.plain()),
        Text::Heading(..) | Text::Html(_) => None,
    };
    let lines = texts(prose.blocks()).into_iter().filter_map(words).map(|words| one_line(&words));
    lines.filter(|line| !line.is_empty()).collect()
}
