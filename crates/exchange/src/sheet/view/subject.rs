//! What is drawn: a tube laid out, with its unit.

use elbowroom_bending::first_off::points::BY_ARC_ENDS_FROM;
use elbowroom_bending::{Part, Solved};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Centreline, Point3};

/// A tube to be drawn.
pub struct Subject<'a> {
    /// Its centreline.
    pub centreline: &'a Centreline,
    /// Outside diameter, mm.
    pub od_mm: f64,
    /// Wall, mm.
    pub wall_mm: f64,
    /// Which bends turn the tube.
    bent: Vec<usize>,
    units: LengthUnit,
}

impl<'a> Subject<'a> {
    /// The tube of a part that is solved.
    pub fn of(part: &Part, solved: &'a Solved) -> Self {
        let bent = solved.bends.iter().enumerate().filter(|(_, bend)| bend.is_bent()).map(|(index, _)| index);
        Self {
            centreline: &solved.centreline,
            od_mm: part.tube.od.mm(),
            wall_mm: part.tube.wall.mm(),
            bent: bent.collect(),
            units: part.units,
        }
    }

    /// A length as it stands at a dimension, whose unit the title says.
    pub fn length(&self, length_mm: f64) -> String {
        self.units.bare(length_mm).to_string()
    }

    /// The bends that turn the tube, counted from 0, with the middles of their arcs.
    pub fn bend_middles(&self) -> impl Iterator<Item = (usize, Point3<f64>)> {
        self.bent.iter().filter_map(|&bend| Some((bend, self.centreline.arc(bend)?.turned(0.5).origin)))
    }

    /// The legs of the drawing: the middle of each straight and the length from vertex to vertex, or to an end. Legs beside a
    /// bend of near half a turn or more, which has no vertex, are left out, and so are those without a straight.
    pub fn legs(&self) -> Vec<(Point3<f64>, f64)> {
        let tangent = |bend: Option<usize>| match bend.and_then(|bend| self.centreline.arc(bend)).map(|arc| arc.kind) {
            Some(elbowroom_geometry::ElementKind::Arc { radius_mm, angle_rad }) => {
                (angle_rad < BY_ARC_ENDS_FROM.radians()).then(|| radius_mm * (angle_rad / 2.0).tan())
            }
            _ => Some(0.0),
        };
        let leg = |index: usize| {
            let straight = self.centreline.straight(index)?;
            let length = straight.length_mm + tangent(index.checked_sub(1))? + tangent(Some(index))?;
            (straight.length_mm > 0.0).then(|| (straight.turned(0.5).origin, length))
        };
        (0..=self.centreline.bends()).filter_map(leg).collect()
    }
}
