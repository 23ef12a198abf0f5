//! The points by which a person drags a tube about.

/// A handle of the path. Bends are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HandleId {
    /// The lead end.
    LeadEnd,
    /// The vertex of a bend.
    Vertex(usize),
    /// Where a large bend starts.
    ArcStart(usize),
    /// Where a large bend ends.
    ArcEnd(usize),
    /// The tail end.
    TailEnd,
}
