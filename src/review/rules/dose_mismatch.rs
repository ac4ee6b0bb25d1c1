//! `dose-mismatch`: a number in a text that contradicts the dose beside it.

use crate::model::amount::{Amount, Time};
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Exercise};
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::source::{Span, Spanned};
use crate::model::week::Week;
use crate::review::mentions::{Mention, MentionKind, Reader};
use crate::review::named::meant;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "dose-mismatch",
    level: Level::Warning,
    safety: false,
    finds: "A number of repetitions, sets, days a week, or seconds of a hold or a rest in a summary, in the prose, in\n\
            a caution, in a focus or in a week's text is not what the dose says; or a week changes the dose so\n\
            that the exercise's own text no longer fits. In a week's text a number belongs to the exercise that its\n\
            sentence names, and else fits when any dose of the week has it. Numbers may be digits or words; the words\n\
            looked for are in the theme, words/doses.LANGUAGE.txt.\n\
            Paragraphs with a citation, variations, what makes it easier or harder, and hedged numbers (`at\n\
            least 2`, `one more set`) are not looked at; a caution for some may ask for less.",
    why: "A client who reads two numbers does not know which holds. On the page and on the handout the dose\n\
          stands right beside the text.",
    bad: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[(
            "3. Hold, and keep breathing.",
            "
3. Hold for 20 seconds, and keep breathing.
            ^^^^^^^^^^ `20 seconds` is not what the dose says: a hold of `10 s`",
        )],
    ),
    good: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[(
            "Stand with your feet apart until you feel steady.",
            "Do all three repetitions. Stand with your feet apart until you feel steady.",
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let Some(reader) = Reader::of(case.words) else { return };
    let readable = |e: &&Exercise| e.standing.is_sound("dose");
    for exercise in case.model.exercises.values().filter(readable) {
        for form in forms(exercise) {
            for (span, mention) in of_form(case, &reader, &form) {
                if let Some(says) = contradiction(&mention, &[&form.dose(None)]) {
                    let what = case.sources.slice(span).split_whitespace().collect::<Vec<_>>().join(" ");
                    let message = format!("`{what}` is not what the dose says: {}", says.words);
                    sink.about(about(&what, &says)).add(span, message, HELP);
                }
            }
        }
        let known = exercise.standing.is_sound("caution");
        for caution in exercise.cautions.iter().filter(|c| known && c.applies != Applies::Everyone) {
            // How long something lasts in a caution is most often not the hold: sitting on the edge of the bed.
            let in_caution = in_text(case, &reader, caution.text.span).into_iter();
            for (span, mention) in in_caution.filter(|(_, mention)| mention.kind != MentionKind::Lasting) {
                let says = contradiction(&mention, &[&exercise.dose]);
                if let Some(says) = says.filter(|_| goes_beyond(&mention, &exercise.dose)) {
                    let what = case.sources.slice(span);
                    let message = format!("`{what}` is more than the dose says: {}", says.words);
                    sink.about(about(what, &says)).add(span, message, HELP);
                }
            }
        }
    }
    for (_, week) in case.model.weeks().filter(|(_, week)| week.standing.is_sound("exercises")) {
        check_week(case, &reader, week, sink);
    }
}

const HELP: &str =
    "let the text and the dose say the same, or leave the number to the dose: pages and handouts show it";

fn check_week(case: &Case<'_>, reader: &Reader<'_>, week: &Week, sink: &mut Sink<'_>) {
    let uses = || case.model.exercises_of(week).filter(|(_, e)| e.standing.is_sound("dose"));
    let doses: Vec<Dose> = uses().map(|(used, e)| used.dose_of(e)).collect();
    for ((used, exercise), dose) in uses().zip(&doses) {
        for (span, mention) in used.focus.iter().flat_map(|focus| in_text(case, reader, focus.span)) {
            if let Some(says) = contradiction(&mention, &[dose]) {
                let what = case.sources.slice(span);
                let message = format!("`{what}` is not what the dose of this week says: {}", says.words);
                sink.about(about(what, &says)).add(span, message, HELP);
            }
        }
        let Some(changed) = &used.dose else { continue };
        for form in forms(exercise) {
            for (span, mention) in of_form(case, reader, &form) {
                let Some(place) = field(&mention, changed) else { continue };
                let fits = contradiction(&mention, &[&form.dose(None)]).is_none();
                if let Some(says) = contradiction(&mention, &[&form.dose(Some(changed))]).filter(|_| fits) {
                    let what = case.sources.slice(span);
                    let exercise_itself = Subject::Exercise(exercise.id.clone());
                    sink.about([exercise_itself].into_iter().chain(about(what, &says))).add(
                        place,
                        format!("{} in this week, but `{}` itself says `{what}`", says.words, exercise.id),
                        format!(
                            "leave the number out of {}, or keep to it",
                            case.sources.get(exercise.file).name
                        ),
                    );
                }
            }
        }
    }
    if doses.len() < week.exercises.len() {
        return;
    }
    let titles: Vec<&str> = uses().map(|(_, exercise)| exercise.title.value.as_str()).collect();
    let all: Vec<&Dose> = doses.iter().collect();
    for paragraph in week.prose.paragraphs.iter().filter(|p| !p.cites) {
        for (span, mention) in in_text(case, reader, paragraph.span) {
            let what = case.sources.slice(span);
            match meant(case.sources.slice(paragraph.span), mention.place.clone(), &titles, case.words) {
                Some(at) => {
                    if let Some(says) = contradiction(&mention, &[&doses[at]]) {
                        let message = format!(
                            "`{what}` is not what the dose of `{}` in this week says: {}",
                            titles[at], says.words
                        );
                        let title = Subject::Title(titles[at].into());
                        sink.about(about(what, &says).into_iter().chain([title])).add(span, message, HELP);
                    }
                }
                None if contradiction(&mention, &all).is_some() => {
                    let message = format!("`{what}` is in no dose of this week");
                    sink.about([Subject::Words(what.into())]).add(span, message, HELP);
                }
                None => {}
            }
        }
    }
}

/// The forms of which all could be read that a dose hangs on.
fn forms(exercise: &Exercise) -> impl Iterator<Item = Form<'_>> {
    let known = exercise.standing.is_sound("variation");
    Form::all(exercise).filter(move |form| known || form.variation.is_none())
}

/// The numbers in what a form says to everyone about itself. What the exercise says of itself, its base form says.
fn of_form(case: &Case<'_>, reader: &Reader<'_>, form: &Form<'_>) -> Vec<(Span, Mention)> {
    if let Some(variation) = form.variation {
        let texts = std::iter::once(&variation.text).chain(variation.steps());
        return texts.flat_map(|text| in_text(case, reader, text.span)).collect();
    }
    let exercise = form.exercise;
    let prose = exercise.prose.paragraphs.iter().filter(|p| !p.cites).map(|p| p.span);
    let cautions = exercise.cautions.iter().filter(|c| c.applies == Applies::Everyone).map(|c| c.text.span);
    let texts = [exercise.summary.span].into_iter().chain(prose).chain(cautions);
    texts.flat_map(|span| in_text(case, reader, span)).collect()
}

fn in_text(case: &Case<'_>, reader: &Reader<'_>, text: Span) -> Vec<(Span, Mention)> {
    let start = text.start as usize;
    let place = |m: &Mention| Span::new(text.file, start + m.place.start..start + m.place.end);
    let found = reader.mentions(case.sources.slice(text)).into_iter();
    found.map(|m| (place(&m), m)).collect()
}

/// What the doses say where all of them contradict the number; none when one agrees or says nothing of the kind.
fn contradiction(mention: &Mention, doses: &[&Dose]) -> Option<Says> {
    let mut says = None;
    for dose in doses {
        let said = range(mention.kind, dose)?;
        if said.low <= mention.low && mention.high <= said.high
            || mention.kind == MentionKind::Lasting && is_a_time_of(mention, dose)
        {
            return None;
        }
        says.get_or_insert(said);
    }
    says
}

/// True where a dose has that time for something else than its hold.
fn is_a_time_of(mention: &Mention, dose: &Dose) -> bool {
    let times = [&dose.time, &dose.rest, &dose.pace].into_iter().flatten();
    times.into_iter().any(|time| time.value.low <= mention.low && mention.high <= time.value.high)
}

/// True for a number that lies above everything the dose asks for.
fn goes_beyond(mention: &Mention, dose: &Dose) -> bool {
    range(mention.kind, dose).is_some_and(|says| mention.low > says.high)
}

/// What a dose says of one kind.
struct Says {
    /// In the unit of mentions.
    low: u32,
    high: u32,
    /// As it is written, where it is.
    number: Option<Subject>,
    words: String,
}

/// What a finding is about: the words of the text, and what the dose says.
fn about(what: &str, says: &Says) -> Vec<Subject> {
    [Subject::Words(what.into())].into_iter().chain(says.number.clone()).collect()
}

/// What a dose says of that kind. A dose without sets asks for one.
fn range(kind: MentionKind, dose: &Dose) -> Option<Says> {
    let count = |field: &Option<Spanned<Amount>>, what: &str| {
        let Amount { low, high, .. } = field.as_ref()?.value;
        let number = field.as_ref()?.value.to_string();
        let words = format!("`{number}` {what}");
        Some(Says { low, high, number: Some(Subject::Number(number)), words })
    };
    let time = |field: &Option<Spanned<Time>>, what: &str| {
        let Time { low, high, .. } = field.as_ref()?.value;
        let number = field.as_ref()?.value.to_string();
        let words = format!("{what} of `{number}`");
        Some(Says { low, high, number: Some(Subject::Number(number)), words })
    };
    let one_set = || Says { low: 1, high: 1, number: None, words: "one set".to_string() };
    match kind {
        MentionKind::Reps => count(&dose.reps, "repetitions"),
        MentionKind::Sets => count(&dose.sets, "sets").or_else(|| Some(one_set())),
        MentionKind::Days => count(&dose.days, "days a week"),
        MentionKind::Hold => time(&dose.hold, "a hold").or_else(|| time(&dose.time, "a time")),
        MentionKind::Rest => time(&dose.rest, "a rest"),
        // Without a hold nobody knows what lasts so long.
        MentionKind::Lasting => time(&dose.hold, "a hold"),
    }
}

/// Where a changed dose says something of the kind of this number.
fn field(mention: &Mention, changed: &Dose) -> Option<Span> {
    match mention.kind {
        MentionKind::Reps => changed.reps.as_ref().map(|f| f.span),
        MentionKind::Sets => changed.sets.as_ref().map(|f| f.span),
        MentionKind::Days => changed.days.as_ref().map(|f| f.span),
        MentionKind::Hold => changed.hold.as_ref().or(changed.time.as_ref()).map(|f| f.span),
        MentionKind::Rest => changed.rest.as_ref().map(|f| f.span),
        MentionKind::Lasting => changed.hold.as_ref().map(|f| f.span),
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const DROP: &str = "content/exercises/heel-drop.md";
    const STAND: &str = "content/exercises/feet-together-stand.md";
    const WEEK: &str = "content/series/first-steps/week-02.md";

    fn messages(files: &[(&str, &str)]) -> Vec<String> {
        let found = found(files);
        assert!(found.iter().all(|f| f.starts_with("dose-mismatch")), "{found:?}");
        found.into_iter().map(|f| f.splitn(3, ' ').nth(2).unwrap_or("").to_string()).collect()
    }

    #[test]
    fn each_kind_of_number_is_compared_with_its_field() {
        for (text, expected) in [
            ("Do it 12 times.", Some("`12 times` is not what the dose says: `10` repetitions")),
            ("Do ten repetitions.", None),
            ("Do three sets.", Some("`three sets` is not what the dose says: `2` sets")),
            ("Do two sets of 10 repetitions.", None),
            ("Rest for 30 seconds.", Some("`30 seconds` is not what the dose says: a rest of `60 s`")),
            ("Rest for a while: one minute.", None),
            ("Do it 5 days a week.", Some("`5 days` is not what the dose says: `3-4` days a week")),
            ("Do it 3 or 4 days a week.", None),
            ("Do it 2 to 4 days a week.", Some("`2 to 4 days` is not what the dose says: `3-4` days a week")),
            ("A trial had 50 times more. [@brooke-wavell-2022]", None),
        ] {
            let file = edited(DROP, &[("Stand with both feet flat until you feel steady.", text)]);
            assert_eq!(messages(&[(DROP, &file)]), expected.into_iter().collect::<Vec<_>>(), "{text}");
        }
    }

    #[test]
    fn what_lasts_longer_than_the_hold_is_found_without_a_word_for_holding() {
        for (text, expected) in [
            (
                "Stand like this for 45 seconds.",
                Some("`45 seconds` is not what the dose says: a hold of `10 s`"),
            ),
            ("Stand like this for 10 seconds.", None),
            ("Breathe out for about 45 seconds.", None),
            ("45 seconds are too long.", None),
        ] {
            let file = edited(STAND, &[("Stand with your feet apart until you feel steady.", text)]);
            assert_eq!(messages(&[(STAND, &file)]), expected.into_iter().collect::<Vec<_>>(), "{text}");
        }
        let drop =
            edited(DROP, &[("Stand with both feet flat until you feel steady.", "Walk for 45 seconds.")]);
        assert_eq!(messages(&[(DROP, &drop)]), [""; 0], "it has no hold");
    }

    #[test]
    fn a_dose_that_is_changed_in_one_place_only_is_found() {
        let file =
            edited(DROP, &[("4. Stand still before the next one.", "4. Stand still. Do this 10 times.")]);
        assert_eq!(messages(&[(DROP, &file)]), [""; 0]);
        let file = file.replace("reps = 10", "reps = 8");
        assert_eq!(messages(&[(DROP, &file)]), ["`10 times` is not what the dose says: `8` repetitions"]);
    }

    #[test]
    fn a_caution_for_some_may_ask_for_less_and_not_for_more() {
        let caution = "Keep both hands on the counter, so that you can catch yourself.";
        for (text, expected) in [
            ("Do 5 repetitions.", None),
            ("Do 15 repetitions.", Some("`15 repetitions` is more than the dose says: `10` repetitions")),
        ] {
            let file = edited(DROP, &[(caution, text)]);
            assert_eq!(messages(&[(DROP, &file)]), expected.into_iter().collect::<Vec<_>>(), "{text}");
        }
        let everyone =
            edited(DROP, &[("Stop if anything hurts, and tell your clinician.", "Do 5 repetitions.")]);
        assert_eq!(
            messages(&[(DROP, &everyone)]),
            ["`5 repetitions` is not what the dose says: `10` repetitions"],
            "everyone is told the other number"
        );
    }

    #[test]
    fn a_week_that_changes_the_dose_must_fit_the_text_of_the_exercise() {
        let stand = edited(STAND, &[("3. Hold, and", "3. Hold for 10 seconds, and")]);
        assert_eq!(
            found(&[(STAND, &stand)]),
            [
                "dose-mismatch 9:49 a hold of `15 s` in this week, but `feet-together-stand` itself says `10 seconds`"
            ]
        );
    }

    #[test]
    fn the_text_of_a_week_fits_one_of_its_doses_and_a_focus_that_of_its_exercise() {
        let with = |old: &str, new: &str| messages(&[(WEEK, &edited(WEEK, &[(old, new)]))]);
        let text = "Welcome back. You do the same movements a little longer, and you learn a new one.";
        assert_eq!(with(text, "You do two sets of the heel drop, 10 times each."), [""; 0]);
        assert_eq!(with(text, "You do three sets of each."), ["`three sets` is in no dose of this week"]);
        assert_eq!(with(text, "You do one set of each."), [""; 0], "some have one set");
        let one =
            ["`one set` is not what the dose of `Heel drop at the counter` in this week says: `2` sets"];
        assert_eq!(with(text, "You do one set of the heel drop."), one);
        assert_eq!(with(text, "You meet the heel drop. This week has one set of it."), one);
        assert_eq!(
            with("Both feet land together.", "Do three sets."),
            ["`three sets` is not what the dose of this week says: `2` sets"]
        );
    }
}
