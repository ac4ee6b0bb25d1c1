//! For whom an exercise is: each form and each precaution, by the function that chooses for a person.

use serde::Serialize;

use crate::edition::Edition;
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::outputs::blocks::phrases::Phrases;
use crate::reckon::answer::unanswered;
use crate::reckon::safety::{self, Offer, Why};

/// The forms of an exercise and the people with each precaution.
#[derive(Serialize)]
pub(super) struct Grid {
    forms: Vec<String>,
    /// People for whom some form is not.
    rows: Vec<GridRow>,
    /// Those for whom every form is safe.
    safe: Vec<String>,
}

#[derive(Serialize)]
struct GridRow {
    id: String,
    who: String,
    cells: Vec<Cell>,
    /// Nobody with it has a safe form, of this exercise or an easier one: the demand to answer.
    gap: Option<Gap>,
    /// Some series has to have an answer for them.
    served: bool,
}

#[derive(Serialize)]
struct Cell {
    state: &'static str,
    word: &'static str,
    why: String,
}

#[derive(Serialize)]
struct Gap {
    demand: String,
}

pub(super) fn grid(edition: &Edition, exercise: &Exercise) -> Grid {
    let model = edition.model();
    let say = Phrases { words: edition.words() };
    let forms: Vec<Form<'_>> = Form::all(exercise).collect();
    let ids: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let refused: Vec<_> = forms
        .iter()
        .map(|&form| safety::refusals(&Offer { form, link: None, changed: None }, &ids, model))
        .collect();
    let never: Vec<bool> =
        forms.iter().map(|form| !safety::against_all(form, &model.site).is_empty()).collect();
    let mut rows = Vec::new();
    let mut safe = Vec::new();
    for id in ids {
        let who = say.capital(&say.precaution(&model.site, id));
        let cell = |at: usize| {
            let whys = refused[at].get(id).filter(|whys| !whys.is_empty());
            match (never[at], whys) {
                (true, _) => {
                    Cell { state: "not", word: "Not yet", why: "it cannot be read whole".to_string() }
                }
                (false, None) => Cell { state: "safe", word: "Safe", why: String::new() },
                (false, Some(whys)) => {
                    let asks = whys.iter().all(|why| matches!(why, Why::Ask { .. } | Why::AskFirst { .. }));
                    let (state, word) = if asks { ("asks", "Ask first") } else { ("not", "Not this way") };
                    Cell { state, word, why: told(&whys[0], edition, say) }
                }
            }
        };
        let cells: Vec<Cell> = (0..forms.len()).map(cell).collect();
        if cells.iter().all(|cell| cell.state == "safe") {
            safe.push(who);
            continue;
        }
        let lacking = unanswered(exercise, None, &[id], model);
        let gap = lacking
            .first()
            .map(|lack| Gap { demand: lack.demand().map(|d| d.id.to_string()).unwrap_or_default() });
        let served =
            model.series.values().any(|series| series.serves.iter().any(|served| served.value == id));
        rows.push(GridRow { id: id.to_string(), who, cells, gap, served });
    }
    // Those whom nobody answers first, and of these whom a series serves.
    rows.sort_by_key(|row| (row.gap.is_none(), !row.served));
    safe.sort();
    Grid { forms: forms.iter().map(|form| form.title().value.clone()).collect(), rows, safe }
}

/// A reason in words for the educator.
fn told(why: &Why<'_>, edition: &Edition, say: Phrases<'_>) -> String {
    let demand = |id: &str| say.demand(&edition.model().site, id);
    match why {
        Why::Avoid { demand: asked, .. } => format!("{}: to avoid", demand(asked.id)),
        Why::Ask { demand: asked, .. } => format!("{}: to ask about", demand(asked.id)),
        Why::NoCaution { demand: asked, .. } => format!("{}: no caution says how", demand(asked.id)),
        Why::Stop { .. } => "a caution says not this way".to_string(),
        Why::AskFirst { .. } => "a caution says to ask first".to_string(),
        Why::Instead { caution, .. } => {
            let form = caution.instead.as_ref().map_or("another way", |form| form.value.as_str());
            format!("a caution says to do {form}")
        }
        other => other.to_string(),
    }
}
