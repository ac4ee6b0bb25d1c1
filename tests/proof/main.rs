//! `steadyleaf proof` from outside, over a socket: whom it answers, what it serves, and how it follows changes.
#![cfg(unix)]
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

mod preview;

mod closed;

mod changes;

mod same;

mod large;
