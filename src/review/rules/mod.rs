//! The list of rules. To add one: a file here, and its line in the list below.

use super::rule::Rule;

mod above_target;
mod absent_form;
mod bare_variation;
mod below_target;
mod beyond_limit;
mod beyond_older_range;
mod broken_link;
mod broken_style;
mod caption_length;
mod caption_outside;
mod caption_overlap;
mod caption_speed;
mod card_overflow;
mod caution_without_form;
mod changed_since_review;
mod chapter_missing;
mod chapter_order;
mod chapter_outside;
mod chapter_short;
mod claim_without_source;
mod crossing_component;
mod demand_in_words;
mod demand_not_declared;
mod dose_jump;
mod dose_mismatch;
mod dropped_html;
mod figure_position_mismatch;
mod floating_figure;
mod floor_only;
mod glyph_missing;
mod hard_to_read;
mod idle_setting;
mod impact_cap;
mod impact_unprepared;
mod impossible_joint;
mod indented_line;
mod ladder_loop;
mod long_hold_no_breath;
mod long_sentence;
mod missing_captions;
mod missing_caution;
mod missing_component;
mod missing_field;
mod missing_section;
mod needless_exception;
mod no_easier_way;
mod no_rest_day;
mod one_way_link;
mod passive_step;
mod position_in_video;
mod repeated_exercise;
mod review_overdue;
mod rung_order;
mod sheet_overflow;
mod sheet_split;
mod skipped_heading;
mod skipped_rung;
mod stranded_lines;
mod stray_file;
mod thanks_without_consent;
mod through_the_prop;
mod twin_anchor;
mod twin_id;
mod two_actions;
mod unanswered_demand;
mod unbalanced_figure;
mod unclear_caution;
mod undescribed_figure;
mod unexplained_term;
mod unknown_citation;
mod unknown_field;
mod unreadable_entry;
mod unsteady_without_support;
mod week_gap;
mod wrong_value;

/// Every rule, in the order of the manual.
pub static ALL: &[&Rule] = &[
    &unreadable_entry::RULE,
    &stray_file::RULE,
    &unknown_field::RULE,
    &wrong_value::RULE,
    &beyond_limit::RULE,
    &missing_field::RULE,
    &missing_section::RULE,
    &broken_link::RULE,
    &twin_id::RULE,
    &missing_component::RULE,
    &missing_caution::RULE,
    &unanswered_demand::RULE,
    &unclear_caution::RULE,
    &caution_without_form::RULE,
    &bare_variation::RULE,
    &no_easier_way::RULE,
    &floor_only::RULE,
    &unsteady_without_support::RULE,
    &undescribed_figure::RULE,
    &demand_not_declared::RULE,
    &demand_in_words::RULE,
    &figure_position_mismatch::RULE,
    &impossible_joint::RULE,
    &beyond_older_range::RULE,
    &floating_figure::RULE,
    &through_the_prop::RULE,
    &unbalanced_figure::RULE,
    &idle_setting::RULE,
    &unknown_citation::RULE,
    &ladder_loop::RULE,
    &crossing_component::RULE,
    &one_way_link::RULE,
    &skipped_rung::RULE,
    &rung_order::RULE,
    &impact_unprepared::RULE,
    &twin_anchor::RULE,
    &skipped_heading::RULE,
    &dropped_html::RULE,
    &indented_line::RULE,
    &broken_style::RULE,
    &sheet_overflow::RULE,
    &sheet_split::RULE,
    &stranded_lines::RULE,
    &card_overflow::RULE,
    &glyph_missing::RULE,
    &absent_form::RULE,
    &no_rest_day::RULE,
    &impact_cap::RULE,
    &long_hold_no_breath::RULE,
    &dose_mismatch::RULE,
    &below_target::RULE,
    &above_target::RULE,
    &dose_jump::RULE,
    &chapter_order::RULE,
    &chapter_outside::RULE,
    &chapter_missing::RULE,
    &chapter_short::RULE,
    &thanks_without_consent::RULE,
    &position_in_video::RULE,
    &missing_captions::RULE,
    &caption_overlap::RULE,
    &caption_speed::RULE,
    &caption_length::RULE,
    &caption_outside::RULE,
    &week_gap::RULE,
    &repeated_exercise::RULE,
    &review_overdue::RULE,
    &changed_since_review::RULE,
    &claim_without_source::RULE,
    &hard_to_read::RULE,
    &long_sentence::RULE,
    &unexplained_term::RULE,
    &passive_step::RULE,
    &two_actions::RULE,
    &needless_exception::RULE,
];

/// The rules whose levels a site may set, each with what it finds on one line.
pub fn changeable() -> Vec<(&'static str, String)> {
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    ALL.iter().filter(|rule| !rule.safety).map(|rule| (rule.name, one_line(rule.finds))).collect()
}

/// The rule of that name.
pub fn find(name: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|r| r.name == name)
}
