//! `caution-without-form`: a caution sends to another form in words, and the program does not know of it.

use std::ops::Range;

use crate::model::exercise::{Applies, Caution, Exercise};
use crate::model::finding::{Level, Subject};
use crate::model::limits::RUNGS;
use crate::reckon::ladder::Ladders;
use crate::reckon::readability::passages::Passage;
use crate::reckon::safety;
use crate::review::named::Titles;
use crate::review::rule::{Check, Example, Rule};
use crate::review::subjects::of_caution;
use crate::review::{Case, Sink};
use crate::text::tellings::{NOTHING, Tellings};
use crate::text::words::{Word, words_in};

pub(super) static RULE: Rule = Rule {
    name: "caution-without-form",
    level: Level::Error,
    safety: true,
    finds: "The text of a caution names another form of the exercise and the caution has no `use` for it: the title of\n\
            a variation, the title or another name of an exercise on its ladder, or words such as `the seated\n\
            version` or `do … instead`. With `use` a text may name that form and no other; with `form`, that\n\
            variation too. The words looked for are in the theme, words/forms.LANGUAGE.txt.",
    why: "The program obeys `use`, not the text. Without it a person gets the form that the caution warns of, and a\n\
          handout that sends her to steps which are not on it.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[dose]",
            r#"
[[caution]]
for = ["dizziness"]
level = "adapt"
text = "Grow tall slowly. Use the easier version at first."
                              ^^^^^^^^^^^^^^^^^^ `the easier version` sends to another form, and this caution has no `use`

[dose]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[dose]",
            r#"
[[caution]]
for = ["dizziness"]
level = "adapt"
text = "Grow tall slowly, so that your head stays clear. Rest for longer after each one."

[dose]"#,
        )],
    ),
    check: Check::Ladders(check),
};

/// What can be named in a caution of an exercise.
struct Other<'m> {
    title: &'m str,
    /// The title, or another name of the exercise.
    name: &'m str,
    what: What,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum What {
    /// The exercise as it stands.
    Base,
    Variation,
    /// Another exercise on the ladder.
    Exercise,
}

fn check(case: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values().filter(|exercise| !exercise.cautions.is_empty()) {
        let others = others(exercise, ladders, case);
        let names: Vec<&str> = others.iter().map(|other| other.name).collect();
        let titles = Titles::of(&names, &case.words.titles);
        for caution in &exercise.cautions {
            let used =
                safety::instead(caution, exercise, case.model).map(|offer| offer.form.title().value.as_str());
            // What names nothing that is there is told of by another rule.
            let lost = |name: &str| exercise.variation(name).is_none();
            if caution.instead.is_some() && used.is_none()
                || caution.form.as_ref().is_some_and(|f| lost(&f.value))
            {
                continue;
            }
            let text = Passage::field(&caution.text, case.sources);
            let own = caution.form.as_ref().map_or(exercise.title.value.as_str(), |form| form.value.as_str());
            let other = titles.named(&text.text).into_iter().find(|named| {
                let other = &others[named.title];
                // What stands before where or how may be plain words: "stand up" of "Stand up from a high seat".
                let clear = named.whole || named.with_article;
                clear && !is_same(other.title, own) && !used.is_some_and(|used| is_same(other.title, used))
            });
            if let Some(named) = other {
                let other = &others[named.title];
                let (does, help) = told_of(other, caution, used);
                let titles = Some(other.name)
                    .into_iter()
                    .chain(Some(other.title).filter(|title| *title != other.name))
                    .chain(used)
                    .map(|title| Subject::Title(title.into()));
                sink.about(titles.chain(of_caution(caution))).add(
                    text.span(named.at),
                    format!("this caution names `{}`, {does}", other.name),
                    help,
                );
            } else if let Some(at) = used.is_none().then(|| telling(&case.words.forms, &text.text)).flatten()
            {
                let words =
                    text.text[at.clone()].split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
                let message = format!("`{words}` sends to another form, and this caution has no `use`");
                let about = [Subject::Words(words)].into_iter().chain(of_caution(caution));
                sink.about(about).add(text.span(at), message, help_with_use(caution));
            }
        }
    }
}

/// The exercise itself, its variations, and the other exercises on its ladder, as far as a ladder may reach.
fn others<'m>(exercise: &'m Exercise, ladders: &Ladders<'m>, case: &Case<'m>) -> Vec<Other<'m>> {
    let base = named(exercise, What::Base);
    let variations = exercise.variations.iter().map(|v| v.title.value.as_str());
    let variations = variations.map(|title| Other { title, name: title, what: What::Variation });
    let rungs = ladders.ladder_of(&exercise.id).map_or(&[][..], |ladder| &ladder.rungs);
    let own = ladders.rung_of(&exercise.id).unwrap_or_default();
    let near = rungs.get(own.saturating_sub(RUNGS)..rungs.len().min(own + RUNGS)).unwrap_or_default();
    let exercises = near
        .concat()
        .into_iter()
        .filter(|id| *id != exercise.id)
        .filter_map(|id| case.model.exercises.get(id));
    base.chain(variations).chain(exercises.flat_map(|e| named(e, What::Exercise))).collect()
}

/// An exercise by each of its names.
fn named(exercise: &Exercise, what: What) -> impl Iterator<Item = Other<'_>> {
    exercise.names().map(move |name| Other { title: &exercise.title.value, name, what })
}

fn is_same(title: &str, other: &str) -> bool {
    title.to_lowercase() == other.to_lowercase()
}

/// Where the first words stand that send to another form.
fn telling(tellings: &Tellings, text: &str) -> Option<Range<usize>> {
    let words: Vec<Word> = words_in(text, 0..text.len()).collect();
    let told = tellings.told(text, &words).into_iter().find(|told| told.tells != [NOTHING])?;
    Some(told.place(&words))
}

/// The end of the message about a form that a caution names, and what to do.
fn told_of(other: &Other<'_>, caution: &Caution, used: Option<&str>) -> (String, String) {
    if let Some(used) = used {
        return (
            format!("and its `use` leads to `{used}`"),
            "name only the form of its `use`, or write a caution of its own for the other".to_string(),
        );
    }
    let does = "and has no `use` for it".to_string();
    match other.what {
        What::Base => {
            let help = "leave the exercise's title out: she does the variation, and the exercise is not on her handout";
            ("and it belongs to a variation alone".to_string(), help.to_string())
        }
        What::Variation | What::Exercise => (does, help_with_use(caution)),
    }
}

fn help_with_use(caution: &Caution) -> String {
    match caution.applies {
        Applies::Everyone => {
            "say how everybody does this form; for those who need another one, write a caution of their \
                              own with `for` and `use`"
                .to_string()
        }
        Applies::Precautions(_) => {
            "add `use = \"…\"` with the title of the variation, or the id of an exercise that a \
                                    regression leads to, or say how she changes this form"
                .to_string()
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::model::words::Words;
    use crate::review::testing::{lines, review_in, words, words_of};

    const STAND: &str = "content/exercises/wide-stand.md";

    /// What is found of a caution with these fields, on an exercise with some variations between two rungs.
    fn found_in(words: &Arc<Words>, caution: &str) -> Vec<String> {
        let exercise = |title: &str, links: &str| {
            format!(
                "```toml\ntitle = \"{title}\"\ncomponent = \"balance\"\nposition = \"standing\"\ndemands = []\n\
                 summary = \"Stand.\"\ndose = {{ reps = 3 }}\n{links}```\n"
            )
        };
        let variation = |title: &str| {
            format!("[[variation]]\ntitle = \"{title}\"\ntext = \"Sit.\"\nsteps = [\"Sit.\"]\n")
        };
        let middle = [
            variation("Seated weight shift"),
            variation("At a table"),
            variation("Open arms to the side"),
            variation("Wall stand with a short hold"),
            "[[regression]]\nexercise = \"low-shift\"\n[[progression]]\nexercise = \"tandem\"\n".to_string(),
            format!("[[caution]]\n{caution}\n"),
        ];
        let files = [
            (
                "content/exercises/low-shift.md",
                exercise("Low shift at the counter", "also_called = [\"Small sway\"]\n"),
            ),
            (STAND, exercise("Wide stand", &middle.concat())),
            ("content/exercises/tandem.md", exercise("Tall sit", "[[progression]]\nexercise = \"high\"\n")),
            ("content/exercises/high.md", exercise("Clock reach", "")),
        ];
        let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let reviewed = review_in(words, &files);
        let found = reviewed.findings.into_iter().filter(|f| f.rule == "caution-without-form");
        found.map(|f| f.message).collect()
    }

    fn found_of(fields: &str, text: &str) -> Vec<String> {
        found_in(words(), &format!("{fields}\ntext = \"{text}\""))
    }

    const HERS: &str = "for = [\"unsteady\"]\nlevel = \"adapt\"";

    #[test]
    fn another_form_is_named_by_its_title() {
        for (text, title) in [
            ("Do the seated weight shift.", "Seated weight shift"),
            ("A seated weight shift is enough.", "Seated weight shift"),
            ("Stay with seated weight shifts.", "Seated weight shift"),
            ("Sit at a table.", "At a table"),
            ("Open your arms to the side.", "Open arms to the side"),
            ("Do the wall stand, and sit down when you are tired.", "Wall stand with a short hold"),
            ("Begin with the low shift.", "Low shift at the counter"),
            ("Do the low shifts for a week.", "Low shift at the counter"),
            ("Begin with the small sway.", "Small sway"),
            ("Leave the tall sit for later.", "Tall sit"),
            ("The clock reach is too hard for you.", "Clock reach"),
        ] {
            let expected = format!("this caution names `{title}`, and has no `use` for it");
            assert_eq!(found_of(HERS, text), [expected], "{text}");
        }
    }

    #[test]
    fn another_form_is_told_of_by_telling_words() {
        for (text, told) in [
            ("Use the seated version until you feel safe.", "the seated version"),
            ("Use the other version.", "the other version"),
            ("Do the version in which you sit.", "the version"),
            ("Do the calf stretch instead.", "do the calf stretch instead"),
            ("Use the back of a chair instead.", "use the back of a chair instead"),
            ("Do this on a chair in place of it.", "in place of it"),
            ("Ask first. Until then do the press.", "until then do the"),
            ("An easier exercise is better for you.", "an easier exercise"),
            ("Do the way in which your hands stay down.", "the way in which"),
            ("Try another exercise.", "another exercise"),
        ] {
            let expected = format!("`{told}` sends to another form, and this caution has no `use`");
            assert_eq!(found_of(HERS, text), [expected], "{text}");
        }
    }

    #[test]
    fn what_changes_this_form_names_no_other() {
        for text in [
            "Sit tall, and hold the table.",
            "Hold the wide stand for a short time.",
            "Stand with both hands on the counter instead of one.",
            "Do the last part with one hand instead of two.",
            "Keep both hands on the counter in place of one.",
            "Make the movement smaller.",
            "Shift your weight while you are seated.",
            "Keep your weight low. Shift it slowly.",
            "A table at your side helps.",
            "Stand at the wall with a short hold.",
            "Make a low shift of your weight.",
            "Let your low shift be slow.",
            "Turn the other way when you are tired.",
            "Rest on the other leg.",
            "Ask your clinician first. Until then do not let go.",
            "Reach for the counter.",
            "Rest for a while. Instead of ten seconds, hold for five.",
        ] {
            assert_eq!(found_of(HERS, text), [""; 0], "{text}");
        }
    }

    #[test]
    fn a_caution_may_name_the_form_of_its_use_and_no_other() {
        let used = |form: &str| format!("{HERS}\nuse = \"{form}\"");
        for (form, text) in [
            ("Seated weight shift", "Do the seated weight shift instead."),
            ("Seated weight shift", "Use the seated version until you feel safe."),
            ("low-shift", "Do the low shift at the counter."),
            ("low-shift", "Do low shifts."),
            ("low-shift", "Do the small sway."),
        ] {
            assert_eq!(found_of(&used(form), text), [""; 0], "{form}: {text}");
        }
        assert_eq!(
            found_of(&used("low-shift"), "Do the seated weight shift."),
            ["this caution names `Seated weight shift`, and its `use` leads to `Low shift at the counter`"]
        );
        assert_eq!(
            found_of(&used("Seated shift"), "Do the seated weight shift."),
            [""; 0],
            "`use` is told of alone"
        );
    }

    #[test]
    fn a_caution_of_one_variation_may_name_it_and_not_the_exercise() {
        let of = format!("{HERS}\nform = \"Seated weight shift\"");
        assert_eq!(found_of(&of, "Make the seated weight shift small."), [""; 0]);
        assert_eq!(
            found_of(&of, "Come back to the wide stand later."),
            ["this caution names `Wide stand`, and it belongs to a variation alone"]
        );
        assert_eq!(
            found_of(&of, "Sit at a table."),
            ["this caution names `At a table`, and has no `use` for it"]
        );
    }

    #[test]
    fn the_place_is_the_name_in_the_text() {
        let text = sample_with("Stop when you are tired. Use the *seated* version then.");
        let found = lines(&crate::review::testing::review_files(&[(SIT, &text)]));
        let found: Vec<&String> = found.iter().filter(|f| f.starts_with("caution-without-form")).collect();
        assert_eq!(found.len(), 1, "{found:?}");
        let line = text.lines().position(|line| line.contains("*seated*")).unwrap() + 1;
        assert!(found[0].starts_with(&format!("caution-without-form {line}:38 ")), "{found:?}");
    }

    const SIT: &str = "content/exercises/tall-sit.md";

    fn sample_with(text: &str) -> String {
        let sample = crate::workspace::sample::text(SIT).unwrap();
        sample.replace(
            "[[caution]]",
            &format!(
                "[[caution]]\nfor = [\"unsteady\"]\nlevel = \"adapt\"\ntext = \"{text}\"\n\n[[caution]]"
            ),
        )
    }

    #[test]
    fn spanish_cautions_are_read_too() {
        let words = Arc::new(words_of("es"));
        let found = |text: &str| found_in(&words, &format!("{HERS}\ntext = \"{text}\""));
        for (text, told) in [
            ("Use la versión sentada.", "la versión"),
            ("Haga la otra forma.", "la otra forma"),
            ("Haga una variante más corta.", "una variante"),
            ("Haga el movimiento sentado en su lugar.", "haga el movimiento sentado en su lugar"),
            ("Hasta entonces haga el empuje.", "hasta entonces haga el"),
        ] {
            let expected = format!("`{told}` sends to another form, and this caution has no `use`");
            assert_eq!(found(text), [expected], "{text}");
        }
        for text in ["Haga menos repeticiones.", "Ponga el pie en su lugar.", "Siéntese en la silla."] {
            assert_eq!(found(text), [""; 0], "{text}");
        }
    }
}
