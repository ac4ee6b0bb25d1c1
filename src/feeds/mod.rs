//! The room for what programs read: Atom, iCalendar, sitemap, structured data, captions. Never the disk, never
//! the clock. Nothing is fed yet.
