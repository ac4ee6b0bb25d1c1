//! What a person's sheet says of an exercise that it leaves out: one reason, in the person's words.

use super::phrases::Phrases;
use crate::model::site::Site;
use crate::reckon::choice::Choice;
use crate::reckon::safety::Why;

/// The sentence for an exercise of which no form is for a person; `None` when one is. It tells the weightiest reason
/// about the exercise as it stands: a reader of eighty needs one.
pub fn left_out(choice: &Choice<'_>, site: &Site, say: Phrases<'_>) -> Option<String> {
    if choice.chosen.is_some() {
        return None;
    }
    let mut arguments = vec![("title", choice.asked.title.value.as_str().into())];
    if let Some((_, things)) = choice.lacking.first() {
        let things: Vec<String> = things.iter().map(|thing| thing.value.clone()).collect();
        arguments.push(("things", say.and(&things).into()));
        return Some(say.words.say_with("left-out-things", &arguments));
    }
    let mut name = |precaution| arguments.push(("precaution", say.precaution(site, precaution).into()));
    let id = match choice.against_base.first()? {
        Why::Unknown { .. } => "left-out-unknown",
        Why::Unread { .. } | Why::Lost { .. } | Why::Bare => "left-out-unread",
        Why::Stop { precaution, .. } => {
            name(precaution);
            "left-out-stop"
        }
        Why::Instead { precaution, .. } => {
            name(precaution);
            "left-out-other-way"
        }
        Why::AskFirst { precaution, .. } => {
            name(precaution);
            "left-out-ask-first"
        }
        Why::Avoid { precaution, demand, .. } => {
            name(precaution);
            arguments.push(("demand", say.demand(site, demand.id).into()));
            "left-out-avoid"
        }
        Why::Ask { precaution, demand, .. } => {
            name(precaution);
            arguments.push(("demand", say.demand(site, demand.id).into()));
            "left-out-ask"
        }
        Why::NoCaution { precaution, demand, .. } => {
            name(precaution);
            arguments.push(("demand", say.demand(site, demand.id).into()));
            "left-out-modify"
        }
    };
    Some(say.words.say_with(id, &arguments))
}

/// The sentence for an exercise that is safe for a person, and that her days and minutes have no room for.
pub fn no_room(choice: &Choice<'_>, say: Phrases<'_>) -> String {
    let title = choice.asked.title.value.as_str().into();
    say.words.say_with("left-out-no-room", &[("title", title)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::words::Words;
    use crate::reckon::choice::drawn::model;
    use crate::reckon::choice::{Need, choose};
    use crate::workspace::theme::Theme;

    fn words(language: &str) -> Words {
        let theme = Theme::built_in();
        Words::read(language, theme.text(&format!("words/{language}.ftl")).unwrap(), theme.lists(language))
            .unwrap()
    }

    #[test]
    fn each_reason_is_said_in_one_short_line() {
        let (english, spanish) = (words("en"), words("es"));
        for (drawn, precaution, in_english, in_spanish) in [
            (
                "Jump: impact-high",
                "spine-fracture",
                "Jump: it includes a hard landing, as in a jump. That is not for you if you have a break in the spine.",
                "Jump: incluye un golpe fuerte, como al saltar. No es para usted si tiene una fractura en un hueso de la columna.",
            ),
            (
                "Row: heavy-load",
                "high-blood-pressure",
                "Row: it includes lifting a heavy weight. If you have high blood pressure, ask your clinician for a safer way.",
                "Row: incluye levantar mucho peso. Si tiene presión alta, pida a su profesional de salud una forma más segura.",
            ),
            (
                "Drop: impact-low",
                "spine-fracture",
                "Drop: it includes a light landing, as in a heel drop. If you have a break in the spine, ask your clinician before you do it.",
                "Drop: incluye un golpe suave, como al dejar caer los talones. Si tiene una fractura en un hueso de la columna, pregunte a su profesional de salud antes de hacerlo.",
            ),
            (
                "Walk:\n  caution unsteady: stop",
                "unsteady",
                "Walk: its safety advice says not to do this one if you have unsteady balance.",
                "Walk: su aviso de seguridad dice que no lo haga si tiene poco equilibrio.",
            ),
            (
                "Walk:\n  slip caution:",
                "unsteady",
                "Walk: part of it could not be read, so we could not make sure that it is safe for you.",
                "Walk: una parte no se pudo leer, y no pudimos comprobar que sea seguro para usted.",
            ),
        ] {
            let model = model(drawn);
            let asked = model.exercises.values().next().unwrap();
            let choice = choose(asked, None, &Need::only(&[precaution]), &model);
            let say = |words| left_out(&choice, &model.site, Phrases { words });
            assert_eq!(say(&english).as_deref(), Some(in_english));
            assert_eq!(say(&spanish).as_deref(), Some(in_spanish));
        }
        let safe = model("Walk:");
        let choice = choose(&safe.exercises["Walk"], None, &Need::only(&["unsteady"]), &safe);
        assert_eq!(left_out(&choice, &safe.site, Phrases { words: &english }), None);
    }

    #[test]
    fn the_words_of_the_workspace_come_first() {
        let mut model = model("Climb: impact-high");
        let catalogue = &mut model.site.catalogue;
        catalogue.demands.insert("impact-high".to_string(), Some("a leap".to_string()));
        catalogue.precautions.get_mut("unsteady").unwrap().label = Some("shaky legs".to_string());
        let choice = choose(&model.exercises["Climb"], None, &Need::only(&["unsteady"]), &model);
        assert_eq!(
            left_out(&choice, &model.site, Phrases { words: &words("en") }).as_deref(),
            Some("Climb: it includes a leap. That is not for you if you have shaky legs.")
        );
    }
}
