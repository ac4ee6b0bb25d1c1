//! Figures as pictures: bodies and things in space as flat shapes, and these as SVG. One renderer for pages and sheets.
//!
//! The style is ours: rounded limbs under one even line, clothes and hair as quiet tones, the far side darker, so that
//! a figure reads the same when it is printed in black.

mod album;
mod arrows;
mod canvas;
mod digits;
mod outline;
mod person;
mod picture;
mod svg;
mod things;

pub use album::Album;
pub use picture::{Motion, Picture};
pub use svg::{Colors, Counted, Panels, Size, Words, small, svg};

#[cfg(test)]
mod tests;
