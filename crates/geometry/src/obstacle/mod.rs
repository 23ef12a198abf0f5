//! How near a tube comes to what stands around it: triangles of a mesh, boxes, cylinders, planes, and other tubes.
//!
//! What is measured is the distance of the centreline, of which straights are straights and arcs are arcs; the tube's
//! surface lies OD/2 nearer. A tube made of facets would lie inside the true one and tell more room than there
//! is. At its ends the tube counts as if it ended in half a ball, which never tells too much room either.

mod body;
mod boxes;
mod closed;
mod convex;
mod measure;
mod mesh;
mod search;
mod triangle;
mod tubes;

pub use body::Body;
pub use measure::{Apart, NearStretch, Nearness};
pub use mesh::{MOST_TRIANGLES, TriangleMesh};
pub use search::SETTLED_MM;
pub use tubes::{TubesApart, tubes_apart};
