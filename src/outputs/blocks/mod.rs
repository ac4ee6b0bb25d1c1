//! What a page and a sheet say, in the reader's words: one tree for both, so that they cannot say
//! different things. Prose stays a span of its source; how it looks is for `pages` and `print`.

pub mod chapters;
pub mod digest;
pub mod dose;
pub mod evidence;
pub mod exercise;
pub mod figure;
pub mod guide;
pub mod left_out;
pub mod minutes;
pub mod needs;
pub mod part;
pub mod phrases;
pub mod practice;
pub mod week;
