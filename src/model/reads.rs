//! What of a model something is made from, by construction: whatever asks the model for an entry while it is watched is
//! noted, so that nobody keeps a list of inputs beside the code that uses them.
//!
//! The note is kept for the thread that works, and only between the start and the end of [`watched`]: the functions that
//! reckon with a model stay as they are, and a review, which nobody watches, pays one look at an empty place.

use std::cell::RefCell;
use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::figure::Crop;

/// One thing that was asked for. Entries are named by their ids, as the model keeps them.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Read {
    /// What an exercise says, or that it is not there.
    Exercise(String),
    /// Which exercises there are.
    Exercises,
    /// What the file of a series says.
    Series(String),
    /// Which series there are.
    EverySeries,
    /// What a week says.
    Week { series: String, id: String },
    /// Which weeks a series has, in their order.
    Weeks(String),
    /// On which day each week of a series begins.
    Dates(String),
    /// What a free page says.
    Page(String),
    /// Which free pages there are.
    Pages,
    /// The free pages as the menu lists them: their titles in order.
    Menu,
    /// What captions say, by their name below `content/`.
    Captions(String),
    /// Which captions there are.
    EveryCaptions,
    /// The text of a file, by its name in the workspace.
    Text(String),
    /// A file of the theme that pages load.
    Theme(String),
    /// Whether a media file is there.
    Attachment(String),
    /// Which media files there are.
    Attachments,
    /// A reference as it is cited and listed.
    Reference(String),
    /// Which references there are, in the order of the list.
    References,
    /// Which pages cite a reference.
    Citing(String),
    /// The ladder that an exercise stands on, and its links.
    Ladder(String),
    /// Every ladder and every link.
    Ladders,
    /// Which weeks use an exercise.
    Uses(String),
    /// The widths in which a photo is published.
    Photo { file: String, crop: Crop },
    /// The bytes of a media file.
    Bytes(String),
    /// The printed sheets of a page, by its path, each with its number of pages.
    Sheets(String),
    /// The day.
    Today,
    /// The whole workspace, as a review sees it.
    Everything,
}

/// What was asked for.
pub type Reads = BTreeSet<Read>;

thread_local! {
    /// What is noted on this thread; nothing while nobody watches.
    static NOTED: RefCell<Option<Reads>> = const { RefCell::new(None) };
}

/// Does the work, on this thread, and tells what it asked the model for. What is watched inside it counts for both.
pub fn watched<T>(work: impl FnOnce() -> T) -> (T, Reads) {
    let outer = NOTED.replace(Some(Reads::new()));
    // A panic passes on: the program ends with it, and the note with the thread.
    let done = work();
    let noted = NOTED.replace(outer).unwrap_or_default();
    NOTED.with_borrow_mut(|outer| {
        if let Some(outer) = outer {
            outer.extend(noted.iter().cloned());
        }
    });
    (done, noted)
}

/// Does the work without noting what it asks for: only where its answer is noted as one thing.
pub fn unwatched<T>(work: impl FnOnce() -> T) -> T {
    let outer = NOTED.replace(None);
    let done = work();
    NOTED.replace(outer);
    done
}

/// Notes what is asked for, if anybody watches.
pub fn note(read: impl FnOnce() -> Read) {
    NOTED.with_borrow_mut(|noted| {
        if let Some(noted) = noted {
            noted.insert(read());
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_asked_for_is_noted_while_it_is_watched_and_no_longer() {
        let today = || note(|| Read::Today);
        let (_, reads) = watched(|| {
            note(|| Read::Exercises);
            let (_, inner) = watched(today);
            assert_eq!(inner, Reads::from([Read::Today]));
            unwatched(|| note(|| Read::Everything));
        });
        assert_eq!(reads, Reads::from([Read::Exercises, Read::Today]));
        today();
        assert_eq!(watched(|| ()).1, Reads::new());
    }
}
