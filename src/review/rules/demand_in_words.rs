//! `demand-in-words`: steps that ask for something the form is not said to ask of the body.

use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::nearest::quoted;
use crate::model::vocabulary::{SectionName, Vocabulary};
use crate::reckon::demands::{self, Demand};
use crate::reckon::readability::parsed::{Parsed, ParsedSentence};
use crate::reckon::readability::passages::{Passage, of_prose};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};
use crate::text::tellings::{NOTHING, TellingMatch};

pub(super) static RULE: Rule = Rule {
    name: "demand-in-words",
    level: Level::Warning,
    safety: false,
    finds: "Words in the steps of a form tell of a demand that the form does not have, such as `close your eyes` or\n\
            `stand on one leg`: in Set up and Move for the exercise itself, in `text` and `steps` for a variation. What\n\
            is told not to be done is none (`Do not twist`, `without a jump`). The words looked for are in the theme,\n\
            words/demands.LANGUAGE.txt.",
    why: "Who is safe is worked out from the demands alone. A demand that is in a step and nowhere else reaches\n\
          the people whom it can hurt.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "## Set up",
            "
## Set up
Sit still. Close your eyes for a moment.
           ^^^^^^^^^^^^^^^ `close your eyes` tells of `eyes-closed`, which `demands` does not name",
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "## Set up",
            "
## Set up
Sit still. Do not close your eyes.",
        )],
    ),
    check: Check::Model(check),
};

/// What a line of the list says that tells of no demand, but of how the words around one are to be understood.
mod marks {
    /// What it stands before is not to be done, however far behind.
    pub(super) const NOT: &str = "not";
    /// What it stands right before is not to be done.
    pub(super) const NO: &str = "no";
    /// What stands behind it is to be done again.
    pub(super) const BUT: &str = "but";
    /// Behind a comma, so is what stands behind this.
    pub(super) const AND: &str = "and";
    /// It opens a sentence whose first part is a condition.
    pub(super) const IF: &str = "if";

    pub(super) const ALL: [&str; 5] = [NOT, NO, BUT, AND, IF];
}

/// How many words behind `no` are not to be done.
const NEAR: usize = 3;

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let sound = |field: &&str| exercise.standing.is_sound(field);
        if ["demands", "variation", "position", "surface", "figure", "dose", "component"].iter().all(sound) {
            Form::all(exercise).for_each(|form| check_form(&form, case, sink));
        }
    }
}

fn check_form(form: &Form<'_>, case: &Case<'_>, sink: &mut Sink<'_>) {
    let mut passages = texts(form, case);
    let tellings = &case.words.demands;
    let is_demand = |tells: &str| tells != NOTHING && !marks::ALL.contains(&tells);
    passages.retain(|passage| tellings.may_tell(&passage.text, is_demand));
    if passages.is_empty() {
        return;
    }
    let asked = demands::of(form, &form.dose(None), &case.model.site);
    let mut told: Vec<Vec<&str>> = Vec::new();
    for sentence in Parsed::of(passages, &case.words.splitter).sentences() {
        let found = tellings.told(&sentence.passage.text, sentence.words);
        for (i, phrase) in found.iter().enumerate() {
            for &tells in &phrase.tells {
                // Each demand once a form: naming it answers all its steps.
                if let Some(any_of) = missing(tells, form, &asked, case)
                    && !told.contains(&any_of)
                    && !is_negated(&sentence, &found[..i], phrase.from)
                {
                    report(&any_of, phrase, &sentence, form, sink);
                    told.push(any_of);
                }
            }
        }
    }
}

/// What a client reads to do a form: Set up and Move of the exercise, `text` and `steps` of a variation.
fn texts<'m>(form: &Form<'m>, case: &Case<'m>) -> Vec<Passage<'m>> {
    let Some(variation) = form.variation else {
        let exercise: &'m Exercise = form.exercise;
        let sections = [SectionName::SetUp, SectionName::Move].map(|name| exercise.prose.section(name));
        let inside =
            |start: u32| sections.iter().flatten().any(|s| (s.body.start..s.body.end).contains(&start));
        let all = exercise.prose.paragraphs.iter().zip(of_prose(&exercise.prose, case.sources));
        return all
            .filter(|(paragraph, _)| inside(paragraph.span.start))
            .map(|(_, passage)| passage)
            .collect();
    };
    std::iter::once(&variation.text)
        .chain(variation.steps())
        .map(|text| Passage::field(text, case.sources))
        .collect()
}

/// The demands of which a line of the list tells, if the form has none of them; `None` too where the line does not count: it
/// is about another position, or names what this workspace does not know.
fn missing<'w>(
    tells: &'w str,
    form: &Form<'_>,
    asked: &[Demand<'_>],
    case: &Case<'_>,
) -> Option<Vec<&'w str>> {
    if tells == NOTHING || marks::ALL.contains(&tells) {
        return None;
    }
    let (ids, position) =
        tells.split_once(" when ").map_or((tells, None), |(ids, position)| (ids, Some(position)));
    if position.is_some_and(|position| position != form.position().value.word()) {
        return None;
    }
    let any_of: Vec<&str> =
        ids.split('/').filter(|id| case.model.site.catalogue.demands.contains_key(*id)).collect();
    (!any_of.is_empty() && !any_of.iter().any(|id| demands::has(asked, id))).then_some(any_of)
}

/// True when something before the word `at` says not to do what begins there.
fn is_negated(sentence: &ParsedSentence<'_>, before: &[TellingMatch<'_>], at: usize) -> bool {
    let is = |told: &&TellingMatch<'_>, mark: &str| told.tells.contains(&mark);
    let begins = |word: usize, mark: &str| before.iter().any(|told| told.from == word && is(&told, mark));
    let is_condition = begins(0, marks::IF);
    let comma = |word: usize| sentence.before(word).contains(',');
    // The words from the negation on, each with what stands before it.
    let goes_on = |from: usize| {
        (from + 1..=at).all(|word| {
            let stops = sentence.before(word).contains([';', ':', '\u{2013}', '\u{2014}']);
            let condition_ends = is_condition && comma(word) && !(1..word).any(comma);
            let turns = begins(word, marks::BUT) || comma(word) && begins(word, marks::AND);
            !(stops || condition_ends || turns)
        })
    };
    before.iter().any(|told| {
        let reaches = is(&told, marks::NOT) || is(&told, marks::NO) && at - told.to <= NEAR;
        reaches && goes_on(told.to)
    })
}

fn report(
    any_of: &[&str],
    phrase: &TellingMatch<'_>,
    sentence: &ParsedSentence<'_>,
    form: &Form<'_>,
    sink: &mut Sink<'_>,
) {
    let written = sentence.written(phrase.from, phrase.to).split_whitespace().collect::<Vec<_>>().join(" ");
    let demand = quoted(any_of).replace(", ", " or ");
    let removed =
        form.variation.is_some_and(|v| v.removes.iter().any(|r| any_of.contains(&r.value.as_str())));
    let (lacks, list) = match form.variation {
        None => ("which `demands` does not name".to_string(), "add it to `demands`"),
        Some(_) if removed => ("which this variation removes".to_string(), "take it out of `removes`"),
        Some(v) => (format!("which `{}` does not have", v.title.value), "add it to `adds`"),
    };
    let written = written.to_lowercase();
    let subjects = any_of.iter().map(|demand| Subject::Demand(demand.to_string())).chain([
        Subject::Words(written.clone()),
        Subject::Title(form.title().value.clone()),
        Subject::Field(if form.variation.is_some() { "adds".into() } else { "demands".into() }),
    ]);
    sink.about(subjects).add(
        sentence.span_of(phrase.from, phrase.to),
        format!("`{written}` tells of {demand}, {lacks}"),
        format!("{list} and answer it, or say in plainer words what she does"),
    );
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::marks;
    use crate::model::catalogue::DEMANDS;
    use crate::model::vocabulary::{Position, Vocabulary};
    use crate::model::words::Words;
    use crate::review::testing::{lines, review_files, review_in, words, words_of};
    use crate::text::tellings::NOTHING;
    use crate::workspace::theme::Theme;

    const STAND: &str = "content/exercises/wide-stand.md";

    /// An exercise with these fields and these steps.
    fn exercise(fields: &str, steps: &[&str]) -> String {
        let steps: String = steps.iter().map(|step| format!("1. {step}\n")).collect();
        format!(
            "```toml\ntitle = \"Wide stand\"\ncomponent = \"balance\"\nsummary = \"Stand.\"\n\
             dose = {{ reps = 3 }}\n{fields}```\nJump for joy.\n\n## Set up\nStand.\n\n## Move\n{steps}\n## Feel\nTwist.\n"
        )
    }

    fn standing(demands: &str) -> String {
        format!("position = \"standing\"\ndemands = [{demands}]\n")
    }

    fn found_in(words: &Arc<Words>, text: &str) -> Vec<String> {
        let found = review_in(words, &[(STAND, text)]).findings.into_iter();
        found.filter(|f| f.rule == "demand-in-words").map(|f| f.message).collect()
    }

    /// What a step tells of in an exercise without any demand, as `words: demands`.
    fn told_in(words: &Arc<Words>, position: &str, step: &str) -> Vec<String> {
        let text = exercise(&format!("position = \"{position}\"\ndemands = []\n"), &[step]);
        let short = |message: String| {
            let told =
                message.strip_suffix(", which `demands` does not name").unwrap_or(&message).to_string();
            told.replace(" tells of ", ": ").replace('`', "")
        };
        found_in(words, &text).into_iter().map(short).collect()
    }

    #[test]
    fn words_that_tell_of_a_demand_are_found() {
        for (step, told) in [
            ("Stand on one leg and breathe.", "stand on one leg: single-leg-stance"),
            ("Now balance for a moment on one foot.", "balance for a moment on one foot: single-leg-stance"),
            ("Lift your right foot off the floor.", "lift your right foot off the floor: single-leg-stance"),
            ("Bring your feet together.", "feet together: narrow-stance"),
            ("Place your feet heel to toe.", "heel to toe: narrow-stance"),
            (
                "Put one foot right in front of the other.",
                "one foot right in front of the other: narrow-stance",
            ),
            ("Close your eyes and sway.", "close your eyes: eyes-closed"),
            ("Hold with your eyes closed.", "with your eyes closed: eyes-closed"),
            ("Stand up quickly.", "stand up quickly: quick-rise"),
            ("Get up as fast as you can.", "get up as fast: quick-rise"),
            ("Jump from foot to foot.", "jump: impact-moderate or impact-high"),
            ("Take small hops.", "hops: impact-moderate or impact-high"),
            ("Jump as high as you can.", "jump as high as you can: impact-high"),
            ("Stamp your right foot.", "stamp: impact-low or impact-moderate or impact-high"),
            ("Let your heels drop.", "let your heels drop: impact-low or impact-moderate or impact-high"),
            ("Twist to the right.", "twist: end-range-twist"),
            ("Turn your upper body as far as you can.", "turn your upper body: end-range-twist"),
            ("Bend forward with straight knees.", "bend forward: end-range-flexion or loaded-flexion"),
            ("Round your back like a cat.", "round your back: end-range-flexion or loaded-flexion"),
            ("Arch your back.", "arch your back: end-range-extension"),
            ("Kneel beside the chair.", "kneel: kneeling"),
            ("Look up to the lamp.", "look up: look-up"),
            ("Tip your head back.", "tip your head back: look-up"),
            ("Let go of the counter.", "let go of the counter: hands-full"),
            ("Stay there without holding on.", "without holding on: hands-full"),
            ("Step back with your left foot.", "step back: step-back"),
            ("Rise slowly on your toes.", "rise slowly on your toes: tiptoe"),
            ("Turn your head to the left.", "turn your head: head-turn or quick-head-move"),
            ("Lift your arms over your head.", "over your head: overhead-reach or overhead-load"),
            ("Lie down on your back.", "lie down on your back: lying-flat"),
            ("Draw one knee toward your chest.", "draw one knee toward your chest: deep-hip-bend"),
            ("Cross your legs.", "cross your legs: crossing-midline"),
            (
                "Push up, so that your feet just leave the floor.",
                "feet just leave the floor: impact-moderate or impact-high",
            ),
            ("Land on both feet.", "land on both feet: impact-low or impact-moderate or impact-high"),
            ("Slide your arms up the wall.", "slide your arms up the wall: overhead-reach or overhead-load"),
            ("Lift one knee. Stand on one leg.", "lift one knee: single-leg-stance"),
            ("Hold your breath and push.", "hold your breath: breath-strain"),
            ("Count backward from one hundred.", "count backward: dual-task"),
            // What is to be done all the same.
            ("Do not hurry, and then stand on one leg.", "stand on one leg: single-leg-stance"),
            ("Do not lean but twist.", "twist: end-range-twist"),
            ("Without a pause, look up.", "look up: look-up"),
            ("If you do not sway, close your eyes.", "close your eyes: eyes-closed"),
            (
                "Lift your hand no higher than your chin and turn your head.",
                "turn your head: head-turn or quick-head-move",
            ),
            ("Do not rush. Step back.", "step back: step-back"),
            ("Do not lean; kneel.", "kneel: kneeling"),
        ] {
            assert_eq!(told_in(words(), "standing", step), [told], "{step}");
        }
    }

    #[test]
    fn other_words_and_what_is_not_to_be_done_are_not() {
        for step in [
            "Do not twist.",
            "Never jump.",
            "Turn on your feet, without twisting.",
            "There is no twist in it.",
            "Don't close your eyes.",
            "Do not bend forward, arch your back or twist.",
            "Your feet never come close: no jump and no hop.",
            "Keep your back long rather than bend forward.",
            "Lift your heels instead of a jump.",
            "If you feel dizzy, do not turn your head.",
            "Step forward, but do not step back.",
            "Stand with your weight on both feet.",
            "Shift your weight onto one leg.",
            "Look straight ahead.",
            "Look right ahead.",
            "Bend forward from your hips.",
            "Reach the top of your head to the ceiling.",
            "Walk back along the counter.",
            "Step back to the counter.",
            "Put your hands on your knees.",
            "Turn your back to the wall.",
            "Turn around with small steps.",
            "Hold on tall and steady.",
            "Let go with one hand.",
            "Let go of the band.",
            "Both heels land together.",
            "Let your heels come down softly.",
            "Slide one foot back in.",
            "Stand up with a long back.",
            "Push as if you pushed a heavy door.",
            "Put your back up against the wall.",
            "Slide your hand along as you go on.",
            "Pull your shoulders down.",
            "Breathe in through the arch of your nose.",
        ] {
            assert_eq!(told_in(words(), "standing", step), [""; 0], "{step}");
        }
    }

    #[test]
    fn some_words_tell_of_a_demand_in_one_position_alone() {
        for step in ["Let go and rest.", "Lift one knee.", "Put your feet together.", "Cross your arms."] {
            assert_eq!(told_in(words(), "standing", step).len(), 1, "{step}");
            assert_eq!(told_in(words(), "seated", step), [""; 0], "{step}");
        }
        assert_eq!(told_in(words(), "seated", "Turn your head.").len(), 1);
    }

    #[test]
    fn a_demand_that_is_declared_or_derived_is_no_surprise() {
        let of = |fields: &str, step: &str| found_in(words(), &exercise(fields, &[step]));
        assert_eq!(of(&standing("\"eyes-closed\""), "Close your eyes."), [""; 0]);
        assert_eq!(of(&standing("\"impact-high\""), "Jump."), [""; 0], "one of two");
        assert_eq!(of(&standing("\"impact-low\""), "Jump.").len(), 1, "another");
        assert_eq!(
            of("position = \"kneeling\"\ndemands = []\n", "Kneel on the bed."),
            [""; 0],
            "the position says so"
        );
        assert_eq!(
            of(&standing("\"eyes-closd\""), "Close your eyes."),
            [""; 0],
            "a slip in the list is one finding"
        );
    }

    #[test]
    fn a_demand_is_told_once_a_form_and_other_sections_are_not_read() {
        let text = exercise(&standing(""), &["Twist.", "Twist again, and look up."]);
        let found: Vec<String> = lines(&review_files(&[(STAND, &text)]));
        let found: Vec<&String> = found.iter().filter(|f| f.starts_with("demand-in-words")).collect();
        assert_eq!(
            found,
            [
                "demand-in-words 15:4 `twist` tells of `end-range-twist`, which `demands` does not name",
                "demand-in-words 16:21 `look up` tells of `look-up`, which `demands` does not name"
            ]
        );
    }

    #[test]
    fn a_variation_is_read_with_its_own_demands() {
        let variation = |fields: &str| {
            let variation = format!("[[variation]]\ntitle = \"Other\"\n{fields}\n");
            found_in(words(), &exercise(&format!("{}{variation}", standing("\"look-up\"")), &["Look up."]))
        };
        for (fields, expected) in [
            (
                "text = \"Twist.\"\nkeeps_steps = true",
                Some("`twist` tells of `end-range-twist`, which `Other` does not have"),
            ),
            ("text = \"Twist.\"\nkeeps_steps = true\nadds = [\"end-range-twist\"]", None),
            ("text = \"Sit.\"\nsteps = [\"Sit.\", \"Look up.\"]", None),
            (
                "text = \"Sit.\"\nsteps = [\"Sit.\", \"Look up.\"]\nremoves = [\"look-up\"]",
                Some("`look up` tells of `look-up`, which this variation removes"),
            ),
            ("text = \"The same, without looking up.\"\nsteps = [\"Sit.\"]\nremoves = [\"look-up\"]", None),
            ("position = \"seated\"\ntext = \"Sit.\"\nsteps = [\"Let go and rest.\"]", None),
        ] {
            assert_eq!(variation(fields), Vec::from_iter(expected.map(str::to_string)), "{fields}");
        }
    }

    #[test]
    fn a_finding_is_accepted_by_its_words_or_its_demand() {
        for finding in ["demand-in-words twist", "demand-in-words end-range-twist"] {
            let accept = format!("accept = [{{ finding = \"{finding}\", because = \"A small one.\" }}]\n");
            let text = exercise(&format!("{}{accept}", standing("")), &["Twist.", "Look up."]);
            let found = found_in(words(), &text);
            assert_eq!(found, ["`look up` tells of `look-up`, which `demands` does not name"], "{finding}");
        }
    }

    #[test]
    fn spanish_steps_are_read_too() {
        let words = Arc::new(words_of("es"));
        let told = |step: &str| {
            // The sections are named in the language.
            let text = exercise(&standing(""), &[step])
                .replace("## Move", &format!("## {}", words.say("section-move")));
            let found = found_in(&words, &text);
            found.into_iter().map(|m| m.split('`').nth(3).unwrap().to_string()).collect::<Vec<_>>()
        };
        for (step, demand) in [
            ("Cierre los ojos.", "eyes-closed"),
            ("Párese en un pie.", "single-leg-stance"),
            ("Gire la cabeza a la derecha.", "head-turn"),
            ("Dé un paso hacia atrás.", "step-back"),
            ("Levántese rápido.", "quick-rise"),
            ("Salte de un pie al otro.", "impact-moderate"),
            ("Póngase en puntillas.", "tiptoe"),
            ("Inclínese hacia adelante.", "end-range-flexion"),
            ("Mire hacia arriba.", "look-up"),
            ("No se apure, pero mire hacia arriba.", "look-up"),
        ] {
            assert_eq!(told(step), [demand], "{step}");
        }
        for step in [
            "No cierre los ojos.",
            "Nunca salte.",
            "Gire con pasos cortos, sin saltar.",
            "Inclínese hacia adelante desde las caderas.",
            "Mire hacia el frente.",
            "Baje los talones despacio.",
            "Levántese despacio.",
            "Si siente mareo, no gire la cabeza.",
        ] {
            assert_eq!(told(step), [""; 0], "{step}");
        }
    }

    #[test]
    fn every_line_of_a_list_tells_of_what_there_is() {
        let theme = Theme::built_in();
        for language in theme.languages() {
            let words = words_of(language);
            for telling in words.demands.list() {
                let tells = telling.tells.as_str();
                let (ids, position) = tells.split_once(" when ").unwrap_or((tells, "standing"));
                assert!(Position::ALL.iter().any(|p| p.word() == position), "{language}: {tells}");
                let known = |id: &str| DEMANDS.contains(&id) || id == NOTHING || marks::ALL.contains(&id);
                assert!(ids.split('/').all(known), "{language}: {tells}");
            }
            for mark in marks::ALL {
                assert!(words.demands.list().iter().any(|t| t.tells == mark), "{language}: no `{mark}`");
            }
        }
    }
}
