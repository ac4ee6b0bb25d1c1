//! The `steadyleaf` program.

fn main() {}
