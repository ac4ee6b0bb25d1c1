//! `missing-section`: an exercise that does not say how to begin, or what to do step by step.

use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::nearest::nearest;
use crate::model::prose::Section;
use crate::model::vocabulary::SectionName;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "missing-section",
    level: Level::Error,
    safety: false,
    finds: "An exercise has no section `Set up` or no section `Move`, one of them holds no words, or `Move`\n\
            has no numbered list. (The names are those of the site's language.)",
    why: "Pages, handouts and cue sheets show these sections in their own places. A client who cannot see how\n\
          to begin, or which step comes next, stops or makes it up.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[
            (
                "## Set up",
                "
## Setup
^^^^^^^^ `Tall sit` has no section `Set up`",
            ),
            (
                "
## Move
1. Reach the top of your head to the ceiling.
2. Draw your shoulders back and down.
3. Hold, and keep breathing.
4. Let go and rest.",
                "
## Move
^^^^^^^ the section `Move` has no numbered list
Reach the top of your head to the ceiling. Draw your shoulders back and down. Let go and rest.",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "
## Move
1. Reach the top of your head to the ceiling.
2. Draw your shoulders back and down.
3. Hold, and keep breathing.
4. Let go and rest.",
            "
## Move
1. Reach the top of your head to the ceiling.
2. Draw your shoulders back and down.
3. Let go and rest.",
        )],
    ),
    check: Check::Model(check),
};

const REQUIRED: [SectionName; 2] = [SectionName::SetUp, SectionName::Move];

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        for name in REQUIRED {
            match exercise.prose.section(name) {
                Some(section) => check_content(case, name, section, sink),
                None => report_absent(case, exercise, name, sink),
            }
        }
    }
}

fn report_absent(case: &Case<'_>, exercise: &Exercise, name: SectionName, sink: &mut Sink<'_>) {
    let wanted = case.words.section(name);
    let message = format!("`{}` has no section `{wanted}`", exercise.title.value);
    let about = [Subject::Title(wanted.to_string()), Subject::Title(exercise.title.value.clone())];
    let unknown = exercise.prose.sections.iter().filter(|s| s.name.is_none());
    match unknown.clone().find(|s| nearest(&s.title.value, [wanted.as_str()]).is_some()) {
        Some(near) => {
            sink.about(about).add(near.title.span, message, format!("did you mean `## {wanted}`?"));
        }
        None => {
            // A heading of the right words at another level is no section.
            let other = exercise.prose.headings.iter().find(|h| h.level != 2 && h.title.value == wanted);
            let place = other.map_or(exercise.place(), |h| h.title.span);
            sink.about(about).add(
                place,
                message,
                format!("add a line `## {wanted}` and below it what the client has to know"),
            );
        }
    }
}

fn check_content(case: &Case<'_>, name: SectionName, section: &Section, sink: &mut Sink<'_>) {
    let called = &section.title.value;
    if case.sources.slice(section.body).trim().is_empty() {
        sink.about([Subject::Title(called.clone())]).add(
            section.title.span,
            format!("the section `{called}` is empty"),
            "write what the client has to know, in short sentences",
        );
    } else if name == SectionName::Move && section.steps == 0 {
        sink.about([Subject::Title(called.clone())]).add(
            section.title.span,
            format!("the section `{called}` has no numbered list"),
            "write the steps as a list that begins with `1. `, one action a step",
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found, review_files};

    const SIT: &str = "content/exercises/tall-sit.md";

    #[test]
    fn each_way_to_lack_a_section_is_told_at_its_place() {
        let set_up = "## Set up\nSit near the front of a sturdy chair. Put both feet flat on the floor.\n";
        for (old, new, expected) in [
            (set_up, "", "2:9 `Tall sit` has no section `Set up`"),
            (set_up, "## Set up\n", "45:1 the section `Set up` is empty"),
            ("## Set up", "### Set up", "45:1 `Tall sit` has no section `Set up`"),
            ("## Set up", "## SET UP", ""),
            ("## Set up", "## Setup", "45:1 `Tall sit` has no section `Set up`"),
            ("## Move\n1. Reach", "## Move\n- Reach", ""),
            ("## Finish\n", "", ""),
        ] {
            let found = found(&[(SIT, &edited(SIT, &[(old, new)]))]);
            let expected: Vec<String> = Some(expected)
                .filter(|e| !e.is_empty())
                .map(|e| format!("missing-section {e}"))
                .into_iter()
                .collect();
            assert_eq!(found, expected, "{new}");
        }
    }

    #[test]
    fn a_list_inside_a_list_or_without_numbers_is_no_list_of_steps() {
        let steps = "1. Reach the top of your head to the ceiling.\n2. Draw your shoulders back and down.\n\
                     3. Hold, and keep breathing.\n4. Let go and rest.\n";
        for new in ["- Reach.\n- Rest.\n", "- Reach:\n  1. up\n  2. down\n", "Reach.\n"] {
            let found = found(&[(SIT, &edited(SIT, &[(steps, new)]))]);
            assert_eq!(found, ["missing-section 48:1 the section `Move` has no numbered list"], "{new}");
        }
    }

    #[test]
    fn a_near_miss_is_named_in_the_help() {
        let (review, _) = review_files(&[(SIT, &edited(SIT, &[("## Set up", "## Sett up")]))]);
        assert_eq!(review.findings[0].help, "did you mean `## Set up`?");
    }
}
