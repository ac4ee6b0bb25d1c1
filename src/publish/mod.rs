//! Door 2: the only writer. Publishes the site into `ready/` in one piece, keeps made sheets, writes
//! new files for authors and sheets for people, and changes an entry that is there; what it was is kept (`earlier.rs`).
//!
//! ```text
//! open ──▶ Shelf ──stage──▶ Staging ──put, put, …──▶ publish ──▶ Published
//!  │ lock, recovery,          │ `.ready-new/`                    │ manifest, sync, swap
//!  │ ownership of `ready/`    ╰─ dropped: `ready/` as it was     ╰─ the old site is removed last
//! ```
//!
//! | name beside `ready/` | what it is | at the next start |
//! | --- | --- | --- |
//! | `.ready-lock` | locked while a run publishes; never removed | taken |
//! | `.ready-new` | the site being staged, or the old one after an exchange | removed |
//! | `.ready-old` | the old site, between two renames | put back when `ready/` is missing, else removed |
//! | `.ready-sheets` | the made sheets, by what they are made from, and the record of the published site; may be deleted at any time | used where whole |
//!
//! Nothing is removed that this program did not make: a foreign file in `ready/`, `.ready-new` or `.ready-old` is
//! named, and the run ends there. Only files that desktop systems drop anywhere go, and that is said. What killed runs
//! have left elsewhere bears the name `.begun-…` (`begun.rs`).
#![expect(clippy::disallowed_methods, reason = "this is the door through which everything is written")]

mod allowed;
mod begun;
mod earlier;
mod error;
mod fresh;
mod keeper;
mod manifest;
mod names;
mod owner;
mod places;
mod private;
mod record;
mod replace;
mod shelf;
mod staging;
mod store;
mod swap;
mod thing;

#[cfg(test)]
mod tests;

pub use allowed::allowed_folder;
pub use earlier::Earlier;
pub use error::{Problem, PublishError};
pub use fresh::{create_new_folder_tree, write_new};
pub use keeper::Keeper;
pub use manifest::MANIFEST;
pub use private::{write_open, write_private};
pub use replace::Replacement;
pub use shelf::{Shelf, open};
pub use staging::{Left, Published, Staging};
pub use store::{Store, StoredSheet};
