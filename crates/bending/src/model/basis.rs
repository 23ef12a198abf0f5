//! How much a figure of the shop can be trusted.

/// How much a figure can be trusted. It travels with the figure to screen, paper and JSON.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// What the trade commonly does; no source.
    #[default]
    CommonPractice,
    /// Proved or measured in this very shop.
    Shop,
}

impl Basis {
    /// Whether a figure on this basis must look unsure.
    pub const fn unsure(self) -> bool {
        matches!(self, Self::CommonPractice)
    }
}
