//! The list of rules. To add one: a file here, and its line in the list below.

use super::rule::Rule;

macro_rules! rules {
    ($($module:ident),+ $(,)?) => {
        $(mod $module;)+
        /// Every rule, in the order of the manual.
        pub static ALL: &[&Rule] = &[$(&$module::RULE),+];
    };
}

rules![unreadable_entry, missing_caution, needless_exception,];

/// The rule of that name.
pub fn find(name: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|r| r.name == name)
}
