//! What programs read: captions and chapters. The room for Atom, iCalendar, sitemap and structured data. Never
//! the disk, never the clock.

pub mod webvtt;
