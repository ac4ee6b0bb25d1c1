//! What programs read: captions, chapters, structured data. The room for Atom, iCalendar and sitemap. Never
//! the disk, never the clock.

pub mod structured;
pub mod webvtt;
