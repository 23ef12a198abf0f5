//! The ends of a tube, and the order in which it is bent from one of them.

/// An end of the tube.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum End {
    /// Where the drawing starts.
    #[default]
    Start,
    /// Where the drawing finishes.
    Finish,
}

impl End {
    /// What stands at the start and at the finish of the drawing, that at this end, which is bent first, before the other.
    pub fn first_before<T>(self, [start, finish]: [T; 2]) -> [T; 2] {
        match self {
            Self::Start => [start, finish],
            Self::Finish => [finish, start],
        }
    }

    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Start => Self::Finish,
            Self::Finish => Self::Start,
        }
    }

    /// So many bends as they are drawn, counted from 0, in the order in which they are made where this end is bent
    /// first.
    pub fn in_order(self, bends: usize) -> impl DoubleEndedIterator<Item = usize> + ExactSizeIterator {
        (0..bends).map(move |place| match self {
            Self::Start => place,
            Self::Finish => bends - 1 - place,
        })
    }

    /// Which way along the tube the clamp lies from the bend that it holds: -1 towards the start of the drawing, 1
    /// towards its finish.
    pub(crate) const fn ahead(self) -> f64 {
        match self {
            Self::Start => -1.0,
            Self::Finish => 1.0,
        }
    }
}
