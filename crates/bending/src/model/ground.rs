//! What a figure rests on, in one word for screen, paper and JSON.

use super::basis::Basis;
use super::material::Certainty;

/// What stands before a figure that rests on theory, common practice or memory.
pub const UNSURE_MARK: &str = "~";

/// What a figure rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ground {
    /// A formula that leaves out what counts on the shop floor; only a start.
    Theory,
    /// Trial bends of this shop that leave a doubt: only one, too close together, or one that cannot be right.
    DoubtfulTrials,
    /// Trial bends of this shop of another wall, or of a wall that nobody noted.
    OtherWall,
    /// What the trade commonly does; no source.
    CommonPractice,
    /// Well known, but from memory.
    Memory,
    /// Read in a published source.
    Published,
    /// Measured or laid down in this very shop.
    Shop,
}

impl Ground {
    /// The word for scripts.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Theory => "theory",
            Self::DoubtfulTrials => "doubtful_trials",
            Self::OtherWall => "other_wall",
            Self::CommonPractice => "common_practice",
            Self::Memory => "memory",
            Self::Published => "published",
            Self::Shop => "shop",
        }
    }

    /// What a person is told.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Theory => "theory, only a start",
            Self::DoubtfulTrials => "trial bends in doubt: only one, too close together, or one that closed further",
            Self::OtherWall => "trial bends of another wall, or of one that nobody noted",
            Self::CommonPractice => "common practice, no source",
            Self::Memory => "from memory",
            Self::Published => "published",
            Self::Shop => "the shop's own",
        }
    }

    /// Whether a figure on this ground must look unsure.
    pub const fn unsure(self) -> bool {
        matches!(self, Self::Theory | Self::DoubtfulTrials | Self::OtherWall | Self::CommonPractice | Self::Memory)
    }
}

impl From<Basis> for Ground {
    fn from(basis: Basis) -> Self {
        match basis {
            Basis::CommonPractice => Self::CommonPractice,
            Basis::Shop => Self::Shop,
        }
    }
}

impl From<Certainty> for Ground {
    fn from(certainty: Certainty) -> Self {
        match certainty {
            Certainty::Published => Self::Published,
            Certainty::Memory => Self::Memory,
            Certainty::Shop => Self::Shop,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::forming::springback::SpringbackBasis;
    use crate::forming::wall::WallRule;

    #[test]
    fn a_mark_of_doubt_agrees_with_what_is_marked() {
        for rule in WallRule::ALL {
            assert_eq!(Ground::from(rule).unsure(), rule.unsure(), "{}", rule.name());
        }
        for basis in [Basis::CommonPractice, Basis::Shop] {
            assert_eq!(Ground::from(basis).unsure(), basis.unsure());
        }
        for certainty in [Certainty::Published, Certainty::Memory, Certainty::Shop] {
            assert_eq!(Ground::from(certainty).unsure(), certainty.unsure());
        }
        assert!(Ground::from(SpringbackBasis::Theory).unsure());
        assert!(!Ground::from(SpringbackBasis::Trials).unsure());
    }
}
