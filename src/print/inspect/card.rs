//! The last look at cards: whether one is too long, and whether its steps are beside its picture.

use std::collections::BTreeSet;

use super::super::places::Place;
use crate::model::finding::Finding;
use crate::model::source::Span;

/// How many lines a card is too long, and how many lines its parts have.
pub(super) struct TooLong {
    lines: usize,
    sides: usize,
    set_up: usize,
    steps: usize,
    cautions: usize,
}

impl TooLong {
    pub(super) fn tell(&self, span: Span) -> Finding {
        let TooLong { lines, set_up, steps, cautions, .. } = self;
        let too_long = if *lines == 1 { "1 line".to_string() } else { format!("{lines} lines") };
        let room = match self.sides {
            1 => "one side".to_string(),
            sides => format!("{sides} sides"),
        };
        let parts = [("what to set up", set_up), ("the steps", steps), ("the cautions", cautions)];
        let longest =
            parts.into_iter().max_by_key(|(_, lines)| **lines).map_or("the steps", |(part, _)| part);
        Finding::new(
            "card-overflow",
            span,
            format!(
                "the card of this exercise is {too_long} too long for {room}: setting up has {set_up}, the steps {steps}, the cautions {cautions}"
            ),
            format!("shorten {longest}, or move what is not needed to do it to `Feel` or `Watch for`"),
        )
    }
}

/// A card whose steps and picture are apart.
pub(super) enum Parted {
    /// It goes over more sides than it has.
    Sides { from: usize, to: usize, sides: usize },
    /// A step on this page has no picture of the movement beside it.
    Step { page: usize },
}

impl Parted {
    pub(super) fn tell(&self, span: Span) -> Finding {
        let message = match self {
            Parted::Sides { from, to, sides } => format!(
                "this card begins on printed page {from} and ends on page {to}, and it has {sides} {} at most",
                if *sides == 1 { "side" } else { "sides" }
            ),
            Parted::Step { page } => {
                format!("a step on printed page {page} has no picture of the movement beside it")
            }
        };
        Finding::new("sheet-split", span, message, "fix the theme's sheet")
    }
}

/// The card that is open, as its pages are walked.
#[derive(Default)]
pub(super) struct Cards {
    /// How many each has at most.
    sides: usize,
    open: Option<Card>,
}

struct Card {
    place: Option<Place>,
    from: usize,
    steps: BTreeSet<usize>,
    movements: BTreeSet<usize>,
}

impl Cards {
    pub(super) fn of(sides: usize) -> Cards {
        Cards { sides, open: None }
    }

    /// A card that says by the numbers of its mark that it is too long.
    pub(super) fn too_long(&self, number: impl Fn(&str) -> Option<usize>) -> TooLong {
        let number = |key| number(key).unwrap_or(1);
        TooLong {
            lines: number("lines"),
            sides: self.sides,
            set_up: number("set_up"),
            steps: number("steps"),
            cautions: number("cautions"),
        }
    }

    pub(super) fn begin(&mut self, place: Option<Place>, page: usize) {
        self.open = Some(Card { place, from: page, steps: BTreeSet::new(), movements: BTreeSet::new() });
    }

    /// The open card is said to be too long: that it is on too many sides need not be told too.
    pub(super) fn told(&mut self) {
        self.open = None;
    }

    pub(super) fn step(&mut self, page: usize) {
        if let Some(card) = &mut self.open {
            card.steps.insert(page);
        }
    }

    pub(super) fn movement(&mut self, page: usize) {
        if let Some(card) = &mut self.open {
            card.movements.insert(page);
        }
    }

    /// What is wrong with the card that ends on a page. Where it has no picture at all, nothing is parted from it.
    pub(super) fn end(&mut self, page: usize) -> Option<(Option<Place>, Parted)> {
        let card = self.open.take()?;
        if page - card.from >= self.sides {
            let parted = Parted::Sides { from: card.from, to: page, sides: self.sides };
            return Some((card.place, parted));
        }
        // An even page faces the odd one after it.
        let spread = |page: usize| if self.sides > 1 { page / 2 } else { page };
        let seen: BTreeSet<usize> = card.movements.iter().map(|page| spread(*page)).collect();
        let alone = card.steps.iter().find(|page| !seen.contains(&spread(**page)))?;
        (!seen.is_empty()).then_some((card.place, Parted::Step { page: *alone }))
    }
}
