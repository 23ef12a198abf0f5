//! The points by which a person drags a tube about.

mod drag;
mod nodes;

pub use drag::drag_handle;

use crate::{Angle, BendPath, Point3, Vector3};

/// Bends of this angle and more are held by their two tangent points, smaller ones by their vertex:
/// there the vertex lies some 11 radii away, and soon at infinity.
pub const HANDLE_LIMIT: Angle = Angle::from_degrees(170.0);

/// A handle of the path. Bends are counted from 0, or named in whatever way `Bend` names them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HandleId<Bend = usize> {
    /// The lead end.
    Start,
    /// The vertex of a bend.
    Vertex(Bend),
    /// Where a large bend starts.
    ArcStart(Bend),
    /// Where a large bend ends.
    ArcEnd(Bend),
    /// The tail end.
    Finish,
}

impl<Bend> HandleId<Bend> {
    /// The bend it belongs to; `None` for the ends.
    pub fn bend(self) -> Option<Bend> {
        match self {
            Self::Start | Self::Finish => None,
            Self::Vertex(bend) | Self::ArcStart(bend) | Self::ArcEnd(bend) => Some(bend),
        }
    }

    /// The same handle with its bend named in another way.
    pub fn map<Other>(self, name: impl FnOnce(Bend) -> Other) -> HandleId<Other> {
        match self {
            Self::Start => HandleId::Start,
            Self::Vertex(bend) => HandleId::Vertex(name(bend)),
            Self::ArcStart(bend) => HandleId::ArcStart(name(bend)),
            Self::ArcEnd(bend) => HandleId::ArcEnd(name(bend)),
            Self::Finish => HandleId::Finish,
        }
    }

    /// The same handle with its bend named in another way, if that names it.
    pub fn try_map<Other>(self, name: impl FnOnce(Bend) -> Option<Other>) -> Option<HandleId<Other>> {
        Some(match self {
            Self::Start => HandleId::Start,
            Self::Vertex(bend) => HandleId::Vertex(name(bend)?),
            Self::ArcStart(bend) => HandleId::ArcStart(name(bend)?),
            Self::ArcEnd(bend) => HandleId::ArcEnd(name(bend)?),
            Self::Finish => HandleId::Finish,
        })
    }
}

/// A handle in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handle {
    /// Which one it is.
    pub id: HandleId,
    /// Where it is, mm.
    pub point: Point3<f64>,
    /// The unit direction along which alone it can be dragged; `None` where it moves freely.
    pub slides_along: Option<Vector3<f64>>,
}

/// Whether a bend is held by its tangent points.
fn is_large(angle: Angle) -> bool {
    angle >= HANDLE_LIMIT
}

/// The handles of a path, from the lead end to the tail.
pub fn handles(path: &BendPath) -> Vec<Handle> {
    let mut handles = Vec::with_capacity(path.rows().len() + 4);
    let mut frame = *path.start();
    let mut after_large = None;
    handles.push(Handle { id: HandleId::Start, point: frame.origin, slides_along: None });
    for (bend, row) in path.rows().iter().enumerate() {
        let arc_start = frame.advanced(row.straight.mm()).rolled(row.rotation.radians());
        frame = arc_start.bent(row.clr.mm(), row.angle.radians());
        if is_large(row.angle) {
            let slides_along = Some(arc_start.tangent);
            handles.push(Handle { id: HandleId::ArcStart(bend), point: arc_start.origin, slides_along });
            handles.push(Handle { id: HandleId::ArcEnd(bend), point: frame.origin, slides_along: None });
            after_large = Some(frame.tangent);
        } else {
            let point = arc_start.advanced(row.tangent_mm()).origin;
            handles.push(Handle { id: HandleId::Vertex(bend), point, slides_along: after_large });
            after_large = None;
        }
    }
    let point = frame.advanced(path.tail().mm()).origin;
    handles.push(Handle { id: HandleId::Finish, point, slides_along: after_large });
    handles
}
