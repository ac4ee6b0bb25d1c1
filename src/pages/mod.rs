//! HTML: model to bytes. Never the disk, never the clock.

pub mod markdown;
