//! A measured part against its design.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Length, Point3, Refusal};

use super::points::{BY_ARC_ENDS_FROM, Layout, Spot, path_of, points_of};
use super::rigid_fit::{RigidFit, rigid_fit};
use crate::forming::growth::Growth;
pub use crate::model::tolerance::{Tolerance, ToleranceChoice};

/// A measured part against its design, in the order of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The best rigid fit; its motion carries measured points onto the design.
    pub fit: RigidFit,
    /// What each point is.
    pub spots: Vec<Spot>,
    /// The points of the design.
    pub drawn: Vec<Point3<f64>>,
    /// The measured points, fitted onto the design.
    pub fitted: Vec<Point3<f64>>,
    /// Distance at each point, mm.
    pub off_mm: Vec<f64>,
    /// Measured less drawn, each straight and the tail, mm.
    pub straight_off_mm: Vec<f64>,
    /// Measured less drawn, each rotation (the first is 0).
    pub rotation_off: Vec<Angle>,
    /// Measured less drawn, each bend angle.
    pub angle_off: Vec<Angle>,
    /// Bends of half a turn or nearly whose legs came out further apart than planned, or nearer.
    pub legs: Vec<LegsOff>,
    /// Whether the radii were taken from the set angles, since bend rows carry none.
    pub radii_as_set: bool,
    layout: Layout,
    radii: Vec<Length>,
}

/// The legs of a bend by two points. How far they stand apart follows from its released radius, which no setting
/// of this die mends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LegsOff {
    /// The bend, counted from 0 in the order of the path.
    pub bend: usize,
    /// Further apart than planned, mm, beyond what the straights beside the bend make up for.
    pub apart_mm: f64,
    /// The radius that it came off with.
    pub clr: Length,
    /// The radius that the program counts on.
    pub planned_clr: Length,
}

/// A path on other radii, its straights given way as the program gives way to a radius that grows.
pub(crate) fn on_radii(path: &BendPath, radii: &[Length], angles: &[Angle]) -> Result<BendPath, Refusal> {
    let taken: Vec<Length> = path
        .rows()
        .iter()
        .zip(radii)
        .zip(angles)
        .map(|((row, free), angle)| Growth { drawn: row.clr, free: *free, angle: *angle }.straight_taken())
        .collect();
    let before = |index: usize| index.checked_sub(1).map_or(Length::ZERO, |before| taken[before]);
    let rows = path.rows().iter().enumerate().map(|(index, row)| BendRow {
        straight: row.straight - before(index) - taken[index],
        clr: radii[index],
        ..*row
    });
    BendPath::new(*path.start(), rows.collect(), path.tail() - before(taken.len()))
}

/// What is off at one point.
#[derive(Clone, Debug, PartialEq)]
pub struct PointOff {
    /// What the point is called, bends as drawn.
    pub name: String,
    /// Its distance from where it should be, mm.
    pub off_mm: f64,
    /// The straight before it, measured less drawn, mm; `None` where an arc or nothing lies before it.
    pub straight_off_mm: Option<f64>,
    /// The rotation of its bend; `None` for the first bend, whose plane is where the part lies.
    pub rotation_off: Option<Angle>,
    /// The angle of its bend.
    pub angle_off: Option<Angle>,
}

impl Comparison {
    /// Point by point. `drawn` gives for each bend its number in the drawing, counted from 0.
    pub fn point_by_point(&self, drawn: &[usize]) -> Vec<PointOff> {
        let number = |bend: usize| drawn.get(bend).map_or(bend, |drawn| *drawn) + 1;
        let row = |(spot, off_mm): (&Spot, &f64)| {
            let bend = spot.bend();
            let straight = if *spot == Spot::TailEnd { Some(self.angle_off.len()) } else { bend };
            PointOff {
                name: spot.name(number),
                off_mm: *off_mm,
                straight_off_mm: straight.and_then(|at| self.straight_off_mm.get(at)).copied(),
                rotation_off: bend.filter(|bend| *bend > 0).and_then(|bend| self.rotation_off.get(bend)).copied(),
                angle_off: bend.and_then(|bend| self.angle_off.get(bend)).copied(),
            }
        };
        self.spots.iter().zip(&self.off_mm).map(row).collect()
    }
}

/// Compares a measured tube with the part as it should come off the machine on the radii that were measured: vertices
/// stay, and where a bend is given by two points the straights beside it give way to its radius as in the program;
/// what that leaves of its legs is told apart. `None` where they have different numbers of bends.
pub fn compare(design: &BendPath, measured: &BendPath) -> Option<Comparison> {
    let pairs = || measured.rows().iter().zip(design.rows());
    if measured.rows().len() != design.rows().len() {
        return None;
    }
    let radii: Vec<Length> = measured.rows().iter().map(|row| row.clr).collect();
    let angles: Vec<Angle> = design.rows().iter().map(|row| row.angle).collect();
    let legs = pairs().enumerate().filter(|(_, (_, d))| d.angle >= BY_ARC_ENDS_FROM);
    let legs = legs.map(|(bend, (m, d))| {
        let growth = Growth { drawn: d.clr, free: m.clr, angle: d.angle };
        let beside = growth.straight_taken().mm() / (d.angle.radians() / 2.0).tan();
        LegsOff { bend, apart_mm: 2.0 * ((m.clr - d.clr).mm() - beside), clr: m.clr, planned_clr: d.clr }
    });
    let legs: Vec<LegsOff> = legs.collect();
    let design = &on_radii(design, &radii, &angles).ok()?;
    let pairs = || measured.rows().iter().zip(design.rows());
    // A bend that is near half a turn in either is laid out by two points in both.
    let layout = Layout::usual(pairs().map(|(m, d)| m.angle.max(d.angle)));
    let (drawn, points) = (points_of(design, &layout)?, points_of(measured, &layout)?);
    let fit = rigid_fit(&drawn, &points)?;
    let fitted: Vec<Point3<f64>> = points.iter().map(|point| fit.motion * point).collect();
    let off_mm = fitted.iter().zip(&drawn).map(|(measured, drawn)| (measured - drawn).norm()).collect();
    let mut straight_off_mm: Vec<f64> = pairs().map(|(m, d)| (m.straight - d.straight).mm()).collect();
    straight_off_mm.push((measured.tail() - design.tail()).mm());
    Some(Comparison {
        spots: layout.spots(),
        fitted,
        off_mm,
        straight_off_mm,
        rotation_off: pairs().map(|(m, d)| (m.rotation - d.rotation).within_half_turn()).collect(),
        angle_off: pairs().map(|(m, d)| m.angle - d.angle).collect(),
        fit,
        drawn,
        legs,
        radii_as_set: false,
        layout,
        radii: design.rows().iter().map(|row| row.clr).collect(),
    })
}

impl Comparison {
    /// Whether everything lies within the tolerance; of legs that stand apart, each takes half.
    pub fn within(&self, tolerance: &Tolerance) -> bool {
        self.settled(tolerance) && self.legs_out(tolerance).next().is_none()
    }

    fn legs_out(&self, tolerance: &Tolerance) -> impl Iterator<Item = &LegsOff> {
        let most = tolerance.length.mm();
        self.legs.iter().filter(move |legs| legs.apart_mm.abs() / 2.0 > most)
    }

    /// Whether all that can be set lies within the tolerance.
    pub fn settled(&self, tolerance: &Tolerance) -> bool {
        let angles = self.rotation_off.iter().chain(&self.angle_off);
        let lengths = self.off_mm.iter().chain(&self.straight_off_mm);
        angles.into_iter().all(|off| off.abs() <= tolerance.angle)
            && lengths.into_iter().all(|off| off.abs() <= tolerance.length.mm())
    }

    /// The worst of it: a point (mm), a straight (mm), an angle or rotation.
    pub fn worst(&self) -> (f64, f64, Angle) {
        let worst_mm = |offs: &[f64]| offs.iter().copied().map(f64::abs).fold(0.0, f64::max);
        let angles = self.rotation_off.iter().chain(&self.angle_off);
        let angle = angles.fold(Angle::ZERO, |worst, off| worst.max(off.abs()));
        (worst_mm(&self.off_mm), worst_mm(&self.straight_off_mm), angle)
    }

    /// The worst of it in one sentence, against what is allowed, lengths in a unit.
    pub fn verdict(&self, tolerance: &Tolerance, unit: LengthUnit) -> String {
        let (point, straight, angle) = self.worst();
        let mut text = format!(
            "{}: points up to {} off, straights up to {}, angles and rotations up to {:.1}°; allowed are {} and {:.1}°.",
            if self.within(tolerance) { "Within tolerance" } else { "Out of tolerance" },
            unit.shown(point),
            unit.shown(straight),
            angle.degrees(),
            unit.shown(tolerance.length.mm()),
            tolerance.angle.degrees()
        );
        for legs in self.legs_out(tolerance) {
            text += &format!(
                " Bend {} by two points came off with CLR {} where the program counts on {}: its legs stand {} {}, and no \
                 setting mends that.",
                legs.bend + 1,
                unit.shown(legs.clr.mm()),
                unit.shown(legs.planned_clr.mm()),
                unit.shown(legs.apart_mm.abs()),
                if legs.apart_mm > 0.0 { "further apart" } else { "nearer" }
            );
        }
        text
    }

    /// What is compared with what, and where the radii come from that nobody measured, in whole sentences.
    pub fn compared(&self) -> String {
        let (points, bends) = (self.spots.len(), self.angle_off.len());
        let by_two = points - bends - 2;
        let against = "with the part as the program should leave it, by the best rigid fit";
        let vertices = bends - by_two;
        let mut text = match (self.radii_as_set, bends) {
            (_, 0) => format!("Compared are the two ends {against}."),
            (true, _) => format!(
                "Compared are the bend rows with those of the part as the program should leave it, and the {points} points \
                 that they give {against}. Rows carry no radius: each is taken as die × set angle ÷ measured angle."
            ),
            (false, _) => format!(
                "Compared are the {points} points as measured {against}; straights, rotations and angles follow from them."
            ),
        };
        if !self.radii_as_set && vertices > 0 {
            text += " A point where straights would meet carries no radius: it is the one that springback leaves at the \
                     measured angle.";
        }
        if !self.radii_as_set && by_two > 0 {
            text += " A bend by two points has its radius measured by them.";
        }
        text
    }

    /// The measured tube laid over the design, its deviations drawn so many times as large. `None` where so
    /// much magnification leaves no tube.
    pub fn ghost(&self, magnified: f64) -> Option<BendPath> {
        let strayed = self.drawn.iter().zip(&self.fitted);
        let points: Vec<_> = strayed.map(|(drawn, measured)| drawn + (measured - drawn) * magnified).collect();
        path_of(&points, &self.layout, |bend, _| self.radii[bend])
    }
}
