//! The list of rules. To add one: a file here, and its line in the list below.

use super::rule::Rule;

macro_rules! rules {
    ($($module:ident),+ $(,)?) => {
        $(mod $module;)+
        /// Every rule, in the order of the manual.
        pub static ALL: &[&Rule] = &[$(&$module::RULE),+];
    };
}

rules![
    unreadable_entry,
    unknown_field,
    wrong_value,
    beyond_limit,
    missing_field,
    missing_section,
    broken_link,
    twin_id,
    missing_component,
    missing_caution,
    unanswered_demand,
    unclear_caution,
    caution_without_form,
    bare_variation,
    no_easier_way,
    floor_only,
    unsteady_without_support,
    undescribed_figure,
    demand_not_declared,
    demand_in_words,
    figure_position_mismatch,
    impossible_joint,
    beyond_older_range,
    floating_figure,
    through_the_prop,
    unbalanced_figure,
    unknown_citation,
    ladder_loop,
    crossing_component,
    one_way_link,
    skipped_rung,
    rung_order,
    impact_unprepared,
    twin_anchor,
    skipped_heading,
    dropped_html,
    sheet_overflow,
    sheet_split,
    glyph_missing,
    absent_form,
    no_rest_day,
    impact_cap,
    long_hold_no_breath,
    dose_mismatch,
    below_target,
    above_target,
    dose_jump,
    chapter_order,
    chapter_outside,
    chapter_missing,
    chapter_short,
    thanks_without_consent,
    position_in_video,
    missing_captions,
    caption_overlap,
    caption_speed,
    caption_length,
    caption_outside,
    week_gap,
    repeated_exercise,
    review_overdue,
    changed_since_review,
    claim_without_source,
    hard_to_read,
    long_sentence,
    unexplained_term,
    passive_step,
    two_actions,
    needless_exception,
];

/// The rule of that name.
pub fn find(name: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|r| r.name == name)
}
