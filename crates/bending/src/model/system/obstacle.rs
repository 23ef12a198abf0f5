//! An obstacle of a system: what stands around the tubes, by an id of its own.

use std::sync::Arc;

use elbowroom_geometry::{Body, Frame, LARGEST_MM, Length, Refusal};

use crate::model::surrounding::{ObstacleKind, guard_clearance};
use crate::model::text::harmless;

/// An obstacle by which it is known for as long as it is there. Another one of the same system never takes its id.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ObstacleId(u32);

impl ObstacleId {
    /// The id of a number, as a file holds it.
    pub const fn new(number: u32) -> Self {
        Self(number)
    }

    /// Its number, as a file holds it.
    pub const fn number(self) -> u32 {
        self.0
    }
}

/// The unit that a mesh is drawn in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeshUnit {
    /// Millimetres.
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
    /// Metres.
    Metre,
}

/// The axis of a mesh that points upwards, as z does in a drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UpAxis {
    /// x: y becomes the drawing's x, z its y.
    X,
    /// y: x stays, z becomes the drawing's −y.
    Y,
    /// z, as in a drawing.
    #[default]
    Z,
}

/// Where a mesh comes from, and how it is taken.
#[derive(Clone, Debug, PartialEq)]
pub struct MeshSource {
    /// The file, seen from the folder of the system's own file; its extension tells its format.
    pub file: String,
    /// By which its bytes are known again: their BLAKE3 hash in hexadecimal.
    pub fingerprint: String,
    /// The unit that it is taken in.
    pub unit: MeshUnit,
    /// The axis that is taken for the one upwards.
    pub up: UpAxis,
    /// Its bytes, where the system file holds them itself.
    pub packed: Option<Arc<[u8]>>,
}

/// What an obstacle is made of, in its own frame.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Triangles from a file.
    Mesh(MeshSource),
    /// A box about the origin, by its edges along x, y and z.
    Cuboid([Length; 3]),
    /// A cylinder along x about the origin.
    Cylinder {
        /// Its diameter.
        diameter: Length,
        /// Its length.
        length: Length,
    },
    /// Everything below the plane z = 0.
    Plane,
}

/// What a tube has to keep clear of.
#[derive(Clone, Debug, PartialEq)]
pub struct Obstacle {
    /// By which it is known.
    pub id: ObstacleId,
    /// What it is called. No other obstacle of the system is called so.
    pub name: String,
    /// What it is made of.
    pub shape: Shape,
    /// Where it stands: its x along the tangent, its y along the normal.
    pub placement: Frame,
    /// What it is, which tells how far a tube keeps clear of it.
    pub kind: ObstacleKind,
    /// How far a tube keeps clear of it, where somebody has laid that down.
    pub clearance: Option<Length>,
    /// Whether the scene leaves it out. It is measured against all the same.
    pub hidden: bool,
    /// Whether it stays where it stands and as it is.
    pub locked: bool,
}

impl MeshUnit {
    /// Its length, mm.
    pub const fn in_mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Inch => 25.4,
            Self::Metre => 1000.0,
        }
    }
}

impl UpAxis {
    /// Coordinates of a mesh in the axes of the drawing.
    pub const fn turned(self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        match self {
            Self::X => [y, z, x],
            Self::Y => [x, -z, y],
            Self::Z => [x, y, z],
        }
    }
}

impl Shape {
    /// The body, unless it is a mesh, which nobody here can read.
    ///
    /// # Errors
    /// Refuses an edge, diameter or length that cannot be.
    pub fn body(&self) -> Result<Option<Body>, Refusal> {
        match self {
            Self::Mesh(_) => Ok(None),
            Self::Cuboid(size) => Body::cuboid(*size).map(Some),
            Self::Cylinder { diameter, length } => Body::cylinder(*diameter, *length).map(Some),
            Self::Plane => Ok(Some(Body::below())),
        }
    }
}

impl Obstacle {
    /// An obstacle whose numbers can be, under a name that only shows.
    ///
    /// # Errors
    /// Refuses sizes, places, clearances and travels that cannot be, and a mesh without a file.
    pub fn checked(mut self) -> Result<Self, Refusal> {
        self.name = harmless(&self.name).trim().to_owned();
        let whose = |refusal: Refusal| refusal.of(format!("the obstacle \u{201c}{}\u{201d}", self.name));
        if self.name.is_empty() {
            return Err(Refusal::new("the name of an obstacle", "empty", "a word that tells what it is"));
        }
        self.shape.body().map_err(whose)?;
        if let Shape::Mesh(source) = &self.shape
            && source.file.trim().is_empty()
        {
            return Err(whose(Refusal::new("the mesh file", "not named", "a path seen from the system's own file")));
        }
        let most = Length::from_mm(LARGEST_MM);
        for (at, axis) in self.placement.origin.iter().zip(["x", "y", "z"]) {
            if !at.is_finite() || at.abs() > LARGEST_MM {
                return Err(whose(Refusal::out_of(format!("{axis} of the place"), Length::from_mm(*at), -most, most)));
            }
        }
        let Frame { origin, tangent, normal } = self.placement;
        let no_direction = || Refusal::new("the direction", "none", "three numbers of which one is not 0");
        self.placement = Frame::along(origin, tangent, normal).ok_or_else(|| whose(no_direction()))?;
        if let ObstacleKind::Moving { travel } = self.kind {
            guard_clearance("the travel", travel).map_err(whose)?;
        }
        if let Some(clearance) = self.clearance {
            guard_clearance("the clearance", clearance).map_err(whose)?;
        }
        Ok(self)
    }
}
