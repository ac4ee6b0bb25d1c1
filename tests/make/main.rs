//! `steadyleaf make` from outside: how it ends, and what it leaves in `ready/`, whatever happens to it.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

mod workspace;

mod endings;

mod bytes;

mod disk;

mod killed;

mod photos;

mod sheets;
