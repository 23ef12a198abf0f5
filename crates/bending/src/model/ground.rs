//! What a figure rests on, in one word for screen, paper and JSON.
//!
//! [`Ground`] is the one vocabulary: it alone has the words, and says what must look unsure. The types beside it are the
//! parts of it that a figure of some kind can rest on, so that no shop file can say that a clamp rests on theory.

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

/// What a figure can rest on that a shop holds of its tooling, its machine and its limits. It travels with the figure to
/// screen, paper and JSON.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// What the trade commonly does; no source.
    #[default]
    CommonPractice,
    /// Proved or measured in this very shop.
    Shop,
}

/// What a figure of a material can rest on, where it stands with its source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Certainty {
    /// Read in a published source.
    Published,
    /// From memory; well known, but not looked up.
    Memory,
    /// The shop's own test.
    Shop,
}

impl Basis {
    /// Whether a figure on this basis must look unsure.
    pub fn unsure(self) -> bool {
        Ground::from(self).unsure()
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

    #[test]
    fn what_nobody_has_looked_up_or_tried_must_look_unsure() {
        let unsure = |ground: Ground| ground.unsure();
        assert!([Basis::CommonPractice, Basis::default()].map(Ground::from).into_iter().all(unsure));
        assert!(unsure(Certainty::Memory.into()));
        let sure = [Basis::Shop.into(), Certainty::Published.into(), Certainty::Shop.into()];
        assert!(!sure.into_iter().any(unsure));
        assert!([Ground::Theory, Ground::DoubtfulTrials, Ground::OtherWall].into_iter().all(unsure));
    }
}
