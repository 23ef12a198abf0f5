//! A path as a chain: where its places lie, and how they move with its figures.

use nalgebra::{DMatrix, DVector, Point3, Unit, UnitQuaternion, Vector3};

use super::terms::{Figure, PathPlace, Pinned};
use crate::{Angle, BendPath, BendRow, Centreline, Element, Frame, HANDLE_LIMIT, Length};

/// Conditions on a direction fill three lines like those on a point, of which two are independent.
const LINES: usize = 3;

/// What can be changed of a chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Freely {
    /// A figure.
    Figure(Figure),
    /// The start, along an axis.
    Move(Vector3<f64>),
    /// The whole about an axis through its start.
    Turn(Vector3<f64>),
}

/// A path that is being changed, laid out.
#[derive(Clone)]
pub(super) struct Chain {
    pub start: Frame,
    pub rows: Vec<BendRow>,
    pub tail: Length,
    centreline: Centreline,
}

/// A point or a direction, with what moves it: everything ahead of a straight or bend.
#[derive(Clone, Copy)]
struct Carried {
    at: Vector3<f64>,
    /// Figures of bends before this one carry it, whole.
    bends: usize,
    /// Straights before this one carry it.
    straights: usize,
}

impl Chain {
    pub fn of(path: &BendPath) -> Self {
        let centreline = Centreline::of(path);
        Self { start: *path.start(), rows: path.rows().to_vec(), tail: path.tail(), centreline }
    }

    fn arc(&self, bend: usize) -> &Element {
        &self.centreline.elements()[2 * bend + 1]
    }

    fn straight(&self, index: usize) -> &Element {
        &self.centreline.elements()[2 * index]
    }

    /// Whether a bend is known by the middle of its arc.
    fn is_large(&self, bend: usize) -> bool {
        self.rows[bend].angle >= HANDLE_LIMIT
    }

    /// Where a place lies now.
    pub fn pinned(&self, at: PathPlace) -> Option<Pinned> {
        let (point, into, out_of) = match at {
            PathPlace::Start => (self.start.origin, None, Some(self.start.tangent)),
            PathPlace::Finish => {
                let end = self.centreline.end();
                (end.origin, Some(end.tangent), None)
            }
            PathPlace::Bend(bend) => {
                let row = self.rows.get(bend)?;
                let arc = self.arc(bend);
                let point = if self.is_large(bend) {
                    arc.turned(0.5).origin
                } else {
                    arc.start.advanced(row.tangent_mm()).origin
                };
                (point, Some(arc.start.tangent), Some(arc.end().tangent))
            }
        };
        Some(Pinned { at, point: Some(point), into, out_of })
    }

    /// How far every condition is from being met, point by point in mm and direction by direction, those times
    /// `arm_mm`; and how that changes with each of `free`, measured as `weights` has it.
    pub fn conditions(
        &self,
        pinned: &[Pinned],
        free: &[(Freely, f64)],
        arm_mm: f64,
    ) -> Option<(DVector<f64>, DMatrix<f64>)> {
        let mut off = Vec::new();
        let mut slopes: Vec<Vec<Vector3<f64>>> = Vec::new();
        for wanted in pinned {
            let now = self.pinned(wanted.at)?;
            let (bends, straights) = match wanted.at {
                PathPlace::Start => (0, 0),
                PathPlace::Bend(bend) => (bend, bend + 1),
                PathPlace::Finish => (self.rows.len(), self.rows.len() + 1),
            };
            if let (Some(wanted_at), Some(point)) = (wanted.point, now.point) {
                off.push(point - wanted_at);
                let carried = Carried { at: point.coords, bends, straights };
                slopes.push(free.iter().map(|(one, weight)| self.moves(wanted.at, carried, *one) / *weight).collect());
            }
            let into = wanted.into.zip(now.into).map(|(wanted, now)| (wanted, now, bends));
            let behind = if matches!(wanted.at, PathPlace::Bend(_)) { bends + 1 } else { bends };
            let out_of = wanted.out_of.zip(now.out_of).map(|(wanted, now)| (wanted, now, behind));
            for (wanted, now, bends) in into.into_iter().chain(out_of) {
                off.push((now - wanted) * arm_mm);
                let turned = |one: Freely| self.turns(now, bends, one) * arm_mm;
                slopes.push(free.iter().map(|(one, weight)| turned(*one) / *weight).collect());
            }
        }
        let residual = DVector::from_iterator(off.len() * LINES, off.iter().flat_map(|one| one.iter().copied()));
        let slope = |line: usize, column: usize| slopes[line / LINES][column][line % LINES];
        Some((residual, DMatrix::from_fn(off.len() * LINES, free.len(), slope)))
    }

    /// How a point moves with something.
    fn moves(&self, place: PathPlace, point: Carried, with: Freely) -> Vector3<f64> {
        let about = |axis: Vector3<f64>, through: Point3<f64>| axis.cross(&(point.at - through.coords));
        match with {
            Freely::Move(axis) => axis,
            Freely::Turn(axis) => about(axis, self.start.origin),
            Freely::Figure(Figure::Straight(index)) if index < point.straights => self.straight(index).start.tangent,
            Freely::Figure(Figure::Rotation(bend)) if bend < point.bends || place == PathPlace::Bend(bend) => {
                let arc = self.arc(bend).start;
                // The vertex lies on the axis, and the middle of an arc does not.
                about(arc.tangent, arc.origin)
            }
            Freely::Figure(Figure::Angle(bend)) if bend < point.bends => {
                let (axis, centre) = self.axis_of(bend);
                about(axis, centre)
            }
            Freely::Figure(Figure::Angle(bend)) if place == PathPlace::Bend(bend) => {
                if self.is_large(bend) {
                    let (axis, centre) = self.axis_of(bend);
                    return about(axis, centre) / 2.0;
                }
                // T = R tan(θ/2) (G06).
                let cos = (self.rows[bend].angle.radians() / 2.0).cos();
                self.arc(bend).start.tangent * (self.rows[bend].clr.mm() / (2.0 * cos * cos))
            }
            Freely::Figure(_) => Vector3::zeros(),
        }
    }

    /// How a direction that lies behind so many bends turns with something.
    fn turns(&self, direction: Vector3<f64>, bends: usize, with: Freely) -> Vector3<f64> {
        match with {
            Freely::Turn(axis) => axis.cross(&direction),
            Freely::Figure(Figure::Rotation(bend)) if bend < bends => self.arc(bend).start.tangent.cross(&direction),
            Freely::Figure(Figure::Angle(bend)) if bend < bends => self.axis_of(bend).0.cross(&direction),
            Freely::Move(_) | Freely::Figure(_) => Vector3::zeros(),
        }
    }

    /// The axis of a bend and a point on it: what lies beyond turns about it as the angle grows.
    fn axis_of(&self, bend: usize) -> (Vector3<f64>, Point3<f64>) {
        let arc = self.arc(bend).start;
        (arc.binormal(), arc.origin + arc.normal * self.rows[bend].clr.mm())
    }

    /// Changes everything that is free by so much, in mm and radians.
    pub fn change(&mut self, free: &[(Freely, f64)], by: &[f64]) {
        let mut turn = Vector3::zeros();
        for ((one, _), by) in free.iter().zip(by) {
            match *one {
                Freely::Figure(Figure::Straight(index)) => match self.rows.get_mut(index) {
                    Some(row) => row.straight += Length::from_mm(*by),
                    None => self.tail += Length::from_mm(*by),
                },
                Freely::Figure(Figure::Rotation(bend)) => self.rows[bend].rotation += Angle::from_radians(*by),
                Freely::Figure(Figure::Angle(bend)) => self.rows[bend].angle += Angle::from_radians(*by),
                Freely::Move(axis) => self.start.origin += axis * *by,
                Freely::Turn(axis) => turn += axis * *by,
            }
        }
        if let Some(axis) = Unit::try_new(turn, 0.0) {
            let turn = UnitQuaternion::from_axis_angle(&axis, turn.norm());
            let (tangent, normal) = (turn * self.start.tangent, turn * self.start.normal);
            self.start = Frame::along(self.start.origin, tangent, normal).unwrap_or(self.start);
        }
        // A first bend that rotates turns the whole, as `BendPath::new` has it as well.
        if let Some(first) = self.rows.first_mut() {
            self.start = self.start.rolled(first.rotation.radians());
            first.rotation = Angle::ZERO;
        }
        self.centreline = Centreline::of(&BendPath::trusted(self.start, self.rows.clone(), self.tail));
    }

    /// The path that it has become.
    pub fn path(self) -> Option<BendPath> {
        BendPath::new(self.start, self.rows, self.tail).ok()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn row(straight_mm: f64, rotation_deg: f64, angle_deg: f64) -> BendRow {
        let (rotation, angle) = (Angle::from_degrees(rotation_deg), Angle::from_degrees(angle_deg));
        BendRow { straight: Length::from_mm(straight_mm), rotation, angle, clr: Length::from_mm(80.0) }
    }

    /// Every slope is what a small change makes of the conditions, by central differences.
    #[test]
    fn slopes_are_those_of_small_changes() {
        let rows = vec![row(120.0, 0.0, 40.0), row(200.0, 50.0, 165.0), row(150.0, -70.0, 90.0), row(90.0, 20.0, 30.0)];
        let path = BendPath::new(Frame::world(), rows, Length::from_mm(130.0)).unwrap();
        let chain = Chain::of(&path);
        let places = (0..4).map(PathPlace::Bend).chain([PathPlace::Start, PathPlace::Finish]);
        let pinned: Vec<Pinned> = places.map(|at| chain.pinned(at).unwrap()).collect();
        let figures = (0..4).flat_map(|bend| [Figure::Straight(bend), Figure::Rotation(bend), Figure::Angle(bend)]);
        let axes = [Vector3::x(), Vector3::y(), Vector3::z()];
        let free: Vec<(Freely, f64)> = figures
            .chain([Figure::Straight(4)])
            .map(Freely::Figure)
            .chain(axes.map(Freely::Move))
            .chain(axes.map(Freely::Turn))
            .map(|one| (one, 1.0))
            .collect();
        let (off, slopes) = chain.conditions(&pinned, &free, 100.0).unwrap();
        assert!(off.amax() < 1e-12);
        const STEP: f64 = 1e-5;
        for column in 0..free.len() {
            let off_by = |step: f64| {
                let mut by = vec![0.0; free.len()];
                by[column] = step;
                let mut changed = chain.clone();
                changed.change(&free, &by);
                changed.conditions(&pinned, &free, 100.0).unwrap().0
            };
            let slope = (off_by(STEP) - off_by(-STEP)) / (2.0 * STEP);
            let wrong = (slope - slopes.column(column)).amax();
            assert!(wrong < 1e-4, "{:?}: {wrong}", free[column].0);
        }
    }
}
