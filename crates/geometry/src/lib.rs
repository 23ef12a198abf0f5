//! Pure mathematics of a bent tube: units, centrelines of straights and circular arcs, and the skin
//! swept along them.
//!
//! Everything is `f64`, millimetres and radians; degrees exist only in text. The crate knows nothing of
//! files, clocks, windows or the trade. Every function is total: numbers are guarded by the constructors
//! ([`VertexPath::new`], [`BendPath::new`]), and whatever passes them is solved as far as it goes, with
//! a list of [`PathProblem`]s where the drawing makes no sense.
//!
//! ```
//! use elbowroom_geometry::{Centreline, Length, Point3, VertexPath, self_clearances};
//!
//! let points = vec![Point3::origin(), Point3::new(300.0, 0.0, 0.0), Point3::new(300.0, 250.0, 0.0)];
//! let form = VertexPath::new(points, vec![Length::from_mm(90.5)])?.to_bend_form();
//! assert_eq!(form.path.rows()[0].straight.mm(), 209.5);
//!
//! let centreline = Centreline::of(&form.path);
//! assert!((centreline.point_at(100.0) - Point3::new(100.0, 0.0, 0.0)).norm() < 1e-9);
//! assert!(self_clearances(&centreline, 60.3).is_empty());
//! # Ok::<(), elbowroom_geometry::Refusal>(())
//! ```

mod bend_path;
mod bounds;
mod centreline;
mod clearance;
mod closest;
mod convert;
mod frame;
mod handles;
mod holding;
pub mod measure;
mod obstacle;
mod quantity;
mod refusal;
mod reversal;
mod skin;
mod stations;
pub mod units;
mod vertex_path;

pub use bend_path::{BendPath, BendRow};
pub use bounds::BoundingBox;
pub use centreline::{Centreline, Element, ElementKind};
pub use clearance::{Meeting, self_clearances};
pub use closest::Closest;
pub use convert::{BendForm, NoVertexForm, PathProblem, dihedral};
pub use frame::Frame;
pub use handles::{HANDLE_LIMIT, Handle, HandleId, drag_handle, handles};
pub use holding::{Figure, Freedom, PathPlace, Pinned};
pub use nalgebra::{Point3, Vector3};
pub use obstacle::{
    Apart, Body, MOST_TRIANGLES, NearStretch, Nearness, SETTLED_MM, TriangleMesh, TubesApart, tubes_apart,
};
pub use quantity::{Angle, Length};
pub use refusal::{Refusal, Told};
pub use skin::{
    Ends, SkinMesh, SkinOptions, Stretch, skin, skin_into, skin_of_elements_into, skin_references, tolerance_within,
};
pub use vertex_path::VertexPath;

/// The largest coordinate or length that is accepted, in millimetres: ten kilometres, far more than any tube or the
/// car, ship or hall that it is drawn in (common practice, no source), and room for a table of 10,000 bends.
pub const LARGEST_MM: f64 = 1e7;

/// The most bends that one tube may have: a hundred times those of a coil that fills a room (common practice, no
/// source). Beyond it a file is a mistake, and would only cost time and memory.
pub const MOST_BENDS: usize = 200_000;

/// The largest rotation that is accepted, either way: ten turns, far more than anyone types (common practice, no
/// source).
pub const LARGEST_ROTATION: Angle = Angle::from_degrees(3600.0);
