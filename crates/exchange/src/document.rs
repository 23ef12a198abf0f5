//! What a file holds once it is read.

use elbowroom_bending::System;
use elbowroom_geometry::VertexPath;

/// What a file holds: a system of tubes, or only a centreline.
#[derive(Clone, Debug, PartialEq)]
pub enum Document {
    /// A system of tubes with their tooling; of one where the file holds a part.
    System(Box<System>),
    /// A centreline without a tube, as vertices.
    Points(VertexPath),
}
