//! What a file holds once it is read.

use elbowroom_bending::Part;
use elbowroom_geometry::VertexPath;

/// What a file holds: a whole part, or only a centreline.
#[derive(Clone, Debug, PartialEq)]
pub enum Document {
    /// A part with its tube and tooling.
    Part(Box<Part>),
    /// A centreline without a tube, as vertices.
    Points(VertexPath),
}
