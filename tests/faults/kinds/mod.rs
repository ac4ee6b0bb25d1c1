//! Every kind of fault.

mod answers;
mod approvals;
mod cautions;
mod doses;
mod fields;
mod figures;
mod impacts;
mod ladders;
mod prose;
mod sources;
mod steps;
mod styles;
mod targets;
mod videos;
mod weeks;

use crate::fault::Kind;

macro_rules! kinds {
    ($($name:literal, $rule:literal, $($places:ident)::+;)+) => {
        pub(crate) static ALL: &[Kind] = &[$(Kind { name: $name, rule: $rule, places: $($places)::+ }),+];
    };
}

kinds! {
    "a component dropped from a week", "missing-component", weeks::component_dropped;
    "the dates of two weeks exchanged", "week-gap", weeks::dates_exchanged;
    "the numbers of two weeks exchanged", "week-gap", weeks::numbers_exchanged;
    "a week lost", "week-gap", weeks::lost;
    "a week's number mistyped", "week-gap", weeks::renumbered;
    "an exercise twice in one week", "repeated-exercise", weeks::twice_in_one;
    "an exercise again in the next week, in the same dose", "repeated-exercise", weeks::again_the_same;
    "a rung used before any below it", "skipped-rung", weeks::rung_too_early;
    "the exercises of two weeks exchanged", "skipped-rung", weeks::exercises_exchanged;

    "a caution removed that is the only answer", "unanswered-demand", answers::only_caution;
    "a variation removed that is the only answer", "unanswered-demand", answers::only_variation;
    "a demand or a precaution added that nothing answers", "unanswered-demand", answers::demand_added;
    "every caution removed", "missing-caution", answers::no_caution;
    "what a caution is about removed", "unclear-caution", cautions::about_removed;
    "the form of a caution mistyped", "unclear-caution", cautions::use_mistyped;
    "the form of a caution left to its text", "caution-without-form", cautions::use_removed;
    "a caution that sends to another form in words", "caution-without-form", cautions::sent_in_words;
    "the steps of a variation removed that a caution names", "bare-variation", cautions::steps_removed;
    "every easier way removed", "no-easier-way", answers::no_easier_way;
    "every support removed from an unsteady exercise", "unsteady-without-support", answers::no_support;
    "an exercise on the floor, with no other version", "floor-only", answers::floor_only;

    "a progression turned round", "rung-order", ladders::turned_to_less;
    "a harder way that asks less", "rung-order", ladders::lighter_harder_way;
    "an easier way that asks more", "rung-order", ladders::heavier_easier_way;
    "a progression turned round, its rungs used in order", "skipped-rung", ladders::turned_in_use;
    "a link turned into a loop", "ladder-loop", ladders::looped;
    "a link to another component", "crossing-component", ladders::crossed;
    "a link that one of its ends lost", "one-way-link", ladders::one_sided;
    "the id of an exercise mistyped", "broken-link", ladders::id_mistyped;

    "a dose changed in the prose only", "dose-mismatch", doses::prose_only;
    "a dose changed in the fields only", "dose-mismatch", doses::fields_only;
    "a dose changed in a week's row only", "dose-mismatch", doses::row_only;
    "a dose changed in a week's row, not in its text", "dose-mismatch", doses::week_text_only;
    "a dose changed in a focus only", "dose-mismatch", doses::focus_only;
    "a rest day removed", "no-rest-day", doses::no_rest_day;
    "a rest day removed for a week", "no-rest-day", doses::no_rest_day_in_a_week;
    "the words on breathing removed from a long hold", "long-hold-no-breath", doses::breath_removed;
    "a hold made long without a word on breathing", "long-hold-no-breath", doses::hold_lengthened;
    "much more work than in any week before", "dose-jump", doses::jump;
    "less in a week than its targets", "below-target", targets::below;
    "more in a week than its targets", "above-target", targets::above;
    "landings raised over the cap", "impact-cap", impacts::over_the_cap;
    "an impact before its preparation", "impact-unprepared", impacts::unprepared;

    "the key of a citation mistyped", "unknown-citation", sources::key_mistyped;
    "the source of a claim removed", "claim-without-source", sources::source_removed;
    "the source of what experts or trials say removed", "claim-without-source", sources::evidence_uncited;
    "a promise where nothing can be cited", "claim-without-source", sources::promise_added;
    "a review too old, or yet to come", "review-overdue", sources::review_too_old;
    "an exercise changed after it was approved", "changed-since-review", approvals::changed;
    "an exception to a safety rule that nobody signed", "missing-field", approvals::unsigned;

    "a link in the prose mistyped", "broken-link", prose::link_mistyped;
    "a description removed from a figure", "undescribed-figure", prose::undescribed;
    "a joint turned beyond what a body can", "impossible-joint", figures::impossible;
    "a joint turned beyond what older adults can", "beyond-older-range", figures::beyond_older;
    "a figure that nothing carries, or that holds nothing", "floating-figure", figures::floating;
    "a thing in the middle of a body", "through-the-prop", figures::through;
    "a figure that falls over", "unbalanced-figure", figures::unbalanced;
    "a field that a figure does not show", "idle-setting", figures::idle;
    "a figure in another position than its exercise", "figure-position-mismatch", figures::mismatched;
    "a figure that asks what its entry does not name", "demand-not-declared", figures::undeclared;
    "a tag that pages do not keep", "dropped-html", prose::tag_dropped;
    "a copy of an entry saved by another program", "stray-file", prose::saved_otherwise;
    "a sign left out of a style sheet", "broken-style", styles::sign_left_out;
    "a paragraph typed a tab too far", "indented-line", prose::indented;
    "quotes or lists without end", "beyond-limit", prose::nested;
    "a section renamed", "missing-section", prose::section_renamed;
    "a hard text", "hard-to-read", prose::hard_text;
    "a long sentence", "long-sentence", prose::long_sentence;
    "a clinical term left unexplained", "unexplained-term", prose::term_unexplained;
    "a step in the passive", "passive-step", steps::passive;
    "two actions in a step", "two-actions", steps::two_actions;
    "a step that asks for what the entry does not name", "demand-in-words", steps::demanding;

    "an exercise before the one above it in the video", "chapter-order", videos::out_of_order;
    "an exercise after the end of the video", "chapter-outside", videos::after_the_end;
    "the place of an exercise in the video removed", "chapter-missing", videos::without_a_place;
    "a chapter in which the exercise cannot be done", "chapter-short", videos::short_chapter;
    "the captions of a video not named", "missing-captions", videos::captions_unnamed;
    "a video of the site's own that says where it was filmed", "position-in-video", videos::filmed_somewhere;
    "captions that last into the next", "caption-overlap", videos::captions_overlap;
    "captions that are over too soon", "caption-speed", videos::captions_too_fast;
    "two lines of captions as one", "caption-length", videos::captions_too_long;
    "a video shorter than its captions", "caption-outside", videos::captions_outside;
    "a person thanked who was not asked", "thanks-without-consent", videos::thanks_unasked;

    "a field's name mistyped", "unknown-field", fields::name_mistyped;
    "a word that is not in the list", "wrong-value", fields::word_mistyped;
    "a unit, a range or a date miswritten", "wrong-value", fields::value_miswritten;
    "a required field removed", "missing-field", fields::required_removed;
    "a title removed", "missing-field", fields::title_removed;
    "an entry that cannot be read", "unreadable-entry", fields::unreadable;
    "an entry copied under the same id", "twin-id", fields::copied;
    "an exception for nothing", "needless-exception", fields::needless_exception;
}
