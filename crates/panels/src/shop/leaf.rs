//! The leaves of the page.

/// The leaves of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Leaf {
    /// The bender.
    Machine,
    /// Die sets and their clamps.
    #[default]
    Dies,
    /// Tubes in stock.
    Tubes,
    /// The limits that the shop sets itself.
    Limits,
    /// What is the shop's own, and what is still common practice.
    Rests,
}

impl Leaf {
    /// Every leaf, in the order in which they are offered.
    pub(super) const ALL: [Self; 5] = [Self::Machine, Self::Dies, Self::Tubes, Self::Limits, Self::Rests];

    /// What it is called.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Machine => "Machine",
            Self::Dies => "Die sets and clamps",
            Self::Tubes => "Tubes",
            Self::Limits => "Limits",
            Self::Rests => "Still common practice",
        }
    }
}
