//! Where the places of a path lie, by their ids.

use elbowroom_geometry::{BendForm, PathPlace, Pinned, Point3, Vector3};

use crate::model::keep::Hold;
use crate::model::nodes::NodeId;
use crate::model::part::Part;
use crate::model::path::Path;

/// A place lies where it lay, mm: a nanometre.
pub(super) const SAME_MM: f64 = 1e-6;
/// And runs where it ran: over a metre that is a nanometre.
pub(super) const SAME_RAD: f64 = 1e-9;

/// Where a place lies and which way the tube runs there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lie {
    pub point: Point3<f64>,
    pub into: Option<Vector3<f64>>,
    pub out_of: Option<Vector3<f64>>,
}

impl Lie {
    /// Whether what is held of it is the same there.
    pub fn is_kept(&self, now: &Self, hold: Hold) -> bool {
        let runs = |was: Option<Vector3<f64>>, is: Option<Vector3<f64>>| match (was, is) {
            (Some(was), Some(is)) => was.cross(&is).norm().atan2(was.dot(&is)) < SAME_RAD,
            _ => true,
        };
        (!hold.place || (self.point - now.point).norm() < SAME_MM)
            && (!hold.direction || (runs(self.into, now.into) && runs(self.out_of, now.out_of)))
    }

    /// The condition that it stays so.
    pub fn pinned(&self, at: PathPlace, hold: Hold) -> Pinned {
        Pinned {
            at,
            point: hold.place.then_some(self.point),
            into: self.into.filter(|_| hold.direction),
            out_of: self.out_of.filter(|_| hold.direction),
        }
    }
}

/// The places of a path.
pub(super) struct Places<'a> {
    path: &'a Path,
    form: BendForm,
    ids: Vec<NodeId>,
}

impl<'a> Places<'a> {
    pub fn of(part: &'a Part) -> Self {
        Self::along(&part.path, &part.nodes.ids(part.path.places()))
    }

    pub fn along(path: &'a Path, ids: &[NodeId]) -> Self {
        Self { path, form: path.bend_form(), ids: ids.to_vec() }
    }

    /// The bend form of the path.
    pub fn form(&self) -> &BendForm {
        &self.form
    }

    /// What an id is along the bend form; `None` for a vertex that carries no bend, and for what is not there.
    pub fn along_the_form(&self, id: NodeId) -> Option<PathPlace> {
        let at = self.ids.iter().position(|other| *other == id)?;
        if at == 0 {
            return Some(PathPlace::Start);
        }
        if at + 1 == self.ids.len() {
            return Some(PathPlace::Finish);
        }
        match self.path {
            Path::Bends(_) => Some(PathPlace::Bend(at - 1)),
            Path::Vertices(_) => self.form.vertex_of_bend.binary_search(&at).ok().map(PathPlace::Bend),
        }
    }

    /// Where a place lies.
    pub fn lie(&self, id: NodeId) -> Option<Lie> {
        if let Some(at) = self.along_the_form(id) {
            let Pinned { point, into, out_of, .. } = self.form.path.pinned_as_it_is(at)?;
            return Some(Lie { point: point?, into, out_of });
        }
        let at = self.ids.iter().position(|other| *other == id)?;
        let Path::Vertices(path) = self.path else { return None };
        let points = path.points();
        let leg = |from: usize| Some((points.get(from + 1)? - points.get(from)?).normalize());
        Some(Lie { point: *points.get(at)?, into: leg(at.checked_sub(1)?), out_of: leg(at) })
    }

    /// What a place is called, such as `the finish` or `bend 3`.
    pub fn name(&self, id: NodeId) -> String {
        match (self.along_the_form(id), self.path) {
            (Some(PathPlace::Start), _) => "the start".to_owned(),
            (Some(PathPlace::Finish), _) => "the finish".to_owned(),
            (Some(PathPlace::Bend(bend)), _) => format!("bend {}", bend + 1),
            (None, _) => {
                let at = self.ids.iter().position(|other| *other == id);
                at.map_or_else(|| "a vertex".to_owned(), |at| format!("vertex {}", at + 1))
            }
        }
    }
}
