//! Sets of regions of the body, and the five regions that published advice counts.

use crate::model::exercise::Exercise;
use crate::model::vocabulary::{Region, Vocabulary};

/// Some regions of the body.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Regions(u16);

/// A region of the body for which published advice asks for a strength exercise of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Advised {
    Legs,
    Arms,
    Chest,
    Shoulders,
    Back,
}

/// Where the five regions are from.
pub const ADVISED_SOURCE: &str = "Giangregorio 2015, Osteoporos Int 26:891-910, Table 4";

impl Regions {
    /// So many there are.
    pub const COUNT: usize = 10;
    pub const NONE: Regions = Regions(0);

    pub fn of(regions: impl IntoIterator<Item = Region>) -> Regions {
        regions.into_iter().fold(Regions::NONE, |all, region| Regions(all.0 | 1 << region as u16))
    }

    /// Those that an exercise trains.
    pub fn trained_by(exercise: &Exercise) -> Regions {
        Regions::of(exercise.trains.iter().map(|region| region.value))
    }

    pub fn contains(self, region: Region) -> bool {
        self.0 & 1 << region as u16 != 0
    }

    /// Those that are in both.
    pub fn shared(self, other: Regions) -> Regions {
        Regions(self.0 & other.0)
    }

    pub fn union(self, other: Regions) -> Regions {
        Regions(self.0 | other.0)
    }

    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// From the head down.
    pub fn iter(self) -> impl Iterator<Item = Region> {
        Region::ALL.iter().copied().filter(move |&region| self.contains(region))
    }
}

impl Advised {
    pub const ALL: [Advised; 5] =
        [Advised::Legs, Advised::Arms, Advised::Chest, Advised::Shoulders, Advised::Back];

    /// The one that a region belongs to; the advice counts neither the neck nor the belly.
    pub fn of(region: Region) -> Option<Advised> {
        match region {
            Region::Hips | Region::Thighs | Region::Calves => Some(Advised::Legs),
            Region::Arms => Some(Advised::Arms),
            Region::Chest => Some(Advised::Chest),
            Region::Shoulders => Some(Advised::Shoulders),
            Region::UpperBack | Region::LowerBack => Some(Advised::Back),
            Region::Neck | Region::Belly => None,
        }
    }

    pub fn word(self) -> &'static str {
        match self {
            Advised::Legs => "legs",
            Advised::Arms => "arms",
            Advised::Chest => "chest",
            Advised::Shoulders => "shoulders",
            Advised::Back => "back",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_holds_its_regions_and_no_others() {
        assert_eq!(Region::ALL.len(), Regions::COUNT);
        for &region in Region::ALL {
            let alone = Regions::of([region]);
            assert_eq!(alone.iter().collect::<Vec<_>>(), [region]);
            assert!(Region::ALL.iter().all(|&other| alone.contains(other) == (other == region)));
        }
        let legs = Regions::of([Region::Thighs, Region::Hips, Region::Thighs]);
        assert_eq!(legs.iter().collect::<Vec<_>>(), [Region::Hips, Region::Thighs]);
        assert_eq!(legs.shared(Regions::of([Region::Calves, Region::Hips])), Regions::of([Region::Hips]));
        assert!(legs.shared(Regions::of([Region::Calves, Region::Arms])).is_empty());
    }

    /// One exercise each for legs, arms, chest, shoulders and back: Giangregorio et al. 2015, Osteoporos Int
    /// 26(3):891-910, Table 4.
    #[test]
    fn every_advised_region_has_regions_and_neck_and_belly_count_for_none() {
        for advised in Advised::ALL {
            assert!(Region::ALL.iter().any(|&region| Advised::of(region) == Some(advised)), "{advised:?}");
        }
        let none: Vec<&Region> =
            Region::ALL.iter().filter(|&&region| Advised::of(region).is_none()).collect();
        assert_eq!(none, [&Region::Neck, &Region::Belly]);
    }
}
