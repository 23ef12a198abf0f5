//! The path of a part, in whichever form it was drawn.

use elbowroom_geometry::{BendForm, BendPath, Refusal, VertexPath};

/// The path in whichever form it was drawn. Both forms are views of one truth and either can be edited.
#[derive(Clone, Debug, PartialEq)]
pub enum Path {
    /// Vertices, as drawn in space.
    Vertices(VertexPath),
    /// Bend rows, as typed for the machine.
    Bends(BendPath),
}

impl Path {
    /// Whether every number is one that a path can be given: what was worked out from one that can may lie beyond.
    pub(super) fn check(&self) -> Result<(), Refusal> {
        match self {
            Self::Vertices(path) => path.check(),
            Self::Bends(path) => path.check(),
        }
    }

    /// The bend form, with the vertex each bend sits at (empty where the path is held in bend form) and
    /// the problems of the drawing.
    pub fn bend_form(&self) -> BendForm {
        match self {
            Self::Vertices(path) => path.to_bend_form(),
            Self::Bends(path) => BendForm { path: path.clone(), vertex_of_bend: Vec::new(), problems: Vec::new() },
        }
    }

    /// How many places it has that are known by an id: each vertex, or each row and the two ends.
    pub fn places(&self) -> usize {
        match self {
            Self::Vertices(path) => path.points().len(),
            Self::Bends(path) => path.rows().len() + 2,
        }
    }
}
