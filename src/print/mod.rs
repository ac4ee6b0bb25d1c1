//! The room for printed sheets: blocks to tagged PDF. Never the disk, never the clock. Nothing is printed yet.
