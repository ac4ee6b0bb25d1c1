//! Pictures that are drawn once, for everything that shows them again.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::model::source::Span;

/// How many pictures are kept: about 20 MB of SVG. The next begins the album anew.
const MOST: usize = 2_000;

/// Figures as they are drawn for one use. Each is known by its place in the entries, so an album is for one reading of them.
pub struct Album<T>(Mutex<BTreeMap<Span, Leaf<T>>>);

/// Empty while its picture is drawn, outside of the lock.
type Leaf<T> = Arc<OnceLock<Arc<T>>>;

impl<T> Album<T> {
    /// The picture of the figure at a place, drawn now if it has not been yet.
    pub fn get(&self, figure: Span, draw: impl FnOnce() -> T) -> Arc<T> {
        let leaf = {
            let mut leaves = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            if leaves.len() >= MOST && !leaves.contains_key(&figure) {
                leaves.clear();
            }
            Arc::clone(leaves.entry(figure).or_default())
        };
        Arc::clone(leaf.get_or_init(|| Arc::new(draw())))
    }
}

impl<T> Default for Album<T> {
    fn default() -> Album<T> {
        Album(Mutex::default())
    }
}

impl<T> fmt::Debug for Album<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Album").finish_non_exhaustive()
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;
    use crate::model::source::FileId;

    #[test]
    fn a_figure_is_drawn_once_and_a_full_album_begins_anew() {
        let (album, drawn) = (Album::default(), Cell::new(0));
        let figure = |number: usize| Span::new(FileId(1), number..number + 1);
        let ask = |number: usize| {
            let draw = || {
                drawn.set(drawn.get() + 1);
                number
            };
            assert_eq!(*album.get(figure(number), draw), number);
        };
        (0..MOST).chain(0..MOST).for_each(ask);
        assert_eq!(drawn.get(), MOST);
        ask(MOST);
        ask(0);
        assert_eq!(drawn.get(), MOST + 2);
        assert_eq!(album.0.lock().unwrap().len(), 2);
    }
}
