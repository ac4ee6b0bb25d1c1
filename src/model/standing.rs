//! What of an entry is really the author's, and what is a stand-in for something that could not be read.

/// Remembers which fields of an entry hold a stand-in. Rules ask it before they conclude anything
/// from a value, or from the absence of one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Standing {
    broken: bool,
    stand_ins: Vec<&'static str>,
    unsound: Vec<&'static str>,
}

impl Standing {
    /// The block that holds the fields has mistakes in its grammar: any field may have been lost.
    pub fn mark_broken(&mut self) {
        self.broken = true;
    }

    /// True when any field may have been lost.
    pub fn is_broken(&self) -> bool {
        self.broken
    }

    /// `field` could not be read.
    pub fn mark_stand_in(&mut self, field: &'static str) {
        self.stand_ins.push(field);
    }

    /// Something inside `field`, such as one value of a variation, could not be read.
    pub fn mark_unsound(&mut self, field: &'static str) {
        self.unsound.push(field);
    }

    /// True when what the model says of `field`, its absence too, is what the author wrote.
    pub fn knows(&self, field: &str) -> bool {
        !self.broken && !self.stand_ins.contains(&field)
    }

    /// True when all of the entry is what the author wrote.
    pub fn is_whole(&self) -> bool {
        !self.broken && self.stand_ins.is_empty() && self.unsound.is_empty()
    }

    /// True when `field` is known, and everything inside it too.
    pub fn is_sound(&self, field: &str) -> bool {
        self.knows(field) && !self.unsound.contains(&field)
    }
}
