//! What the search finds an exercise by beside what is seen of it in the list: the words of its page, and those that people
//! say for them.

use std::collections::BTreeSet;

use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::prose::texts::{Beside, Text, plain, texts};
use crate::outputs::blocks::caution::who;
use crate::outputs::blocks::exercise::also_called;
use crate::outputs::blocks::form::holds;
use crate::pages::Pages;
use crate::text::words::words;

/// Shorter words are in almost every text.
const SHORTEST: usize = 3;

/// The words of an exercise's page that are not seen in the list, and what people say for them, in small letters with spaces
/// between them. The search looks for letters anywhere, so a word that is a part of another is left out.
pub(super) fn beside(pages: &Pages<'_>, exercise: &Exercise) -> String {
    let text = text(pages, exercise).to_lowercase();
    let names = also_called(exercise, pages.say()).map(|names| names.value).unwrap_or_default();
    let seen = format!("{} {} {names}", exercise.title.value, exercise.summary.value).to_lowercase();
    let said = words(&text).map(|at| &text[at]).chain(pages.words.everyday.of_text(&text));
    let all: BTreeSet<&str> =
        said.filter(|word| word.chars().count() >= SHORTEST && !seen.contains(word)).collect();
    let whole = |word: &&&str| !all.iter().any(|other| other != *word && other.contains(**word));
    all.iter().filter(whole).copied().collect::<Vec<_>>().join(" ")
}

/// What people say for what the page of an exercise says.
pub(super) fn everyday<'p>(pages: &Pages<'p>, exercise: &Exercise) -> BTreeSet<&'p str> {
    pages.words.everyday.of_text(&text(pages, exercise)).into_iter().collect()
}

/// What the page of an exercise says of it, a line for each text: its prose, its forms with their things, and whom its
/// cautions are for.
fn text(pages: &Pages<'_>, exercise: &Exercise) -> String {
    let say = pages.say();
    let prose = texts(exercise.prose.blocks()).into_iter().filter_map(|text| match text {
        Text::Paragraph(_, line) | Text::Heading(_, line) => Some(plain(line, Beside::Nothing)),
        Text::Code(..) | Text::Html(_) => None,
    });
    let cautions = exercise.cautions.iter().map(|caution| who(caution, pages.model, say));
    let forms = Form::all(exercise).flat_map(|form| {
        let things = form.equipment().iter().map(|thing| thing.value.clone());
        [form.title().value.clone()].into_iter().chain(holds(&form, say)).chain(things).collect::<Vec<_>>()
    });
    let all: Vec<String> = prose.chain(cautions).chain(forms).collect();
    all.join("\n")
}
