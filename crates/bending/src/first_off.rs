//! The first-off: what was measured against what was drawn, and the program for the next piece.

use elbowroom_geometry::{Angle, BendPath, Length, Point3, Refusal, VertexPath};
use thiserror::Error;

use crate::program::Program;
use crate::rigid_fit::{RigidFit, mirrored_fit, rigid_fit};

/// How far a finished part may stray.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// Of a bend angle or a rotation.
    pub angle: Angle,
    /// Of a straight and of a vertex.
    pub length: Length,
}

impl Tolerance {
    /// The published default for a part of `bends` bends in tube of outside diameter `od`: ±1° on a part
    /// of one bend, ±1.5° on more up to 2.5 in, ±2° above (C09, a fabricator's design procedure). The
    /// length, ±2 mm, is common practice, no source.
    pub fn usual(bends: usize, od: Length) -> Self {
        let degrees = match bends {
            0 | 1 => 1.0,
            _ if od.mm() <= 63.5 => 1.5,
            _ => 2.0,
        };
        Self { angle: Angle::from_degrees(degrees), length: Length::from_mm(2.0) }
    }
}

/// Why a measurement is doubted. It is told, and not followed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MeasurementDoubt {
    /// The number of vertices differs.
    #[error("{measured} vertices were measured and the design has {design}{}", hint(missing))]
    Count {
        /// How many the design has.
        design: usize,
        /// How many were measured.
        measured: usize,
        /// The vertex that seems to be missing, or measured twice, counted from 0.
        missing: Option<usize>,
    },
    /// A coordinate is not a number.
    #[error("vertex {} has a coordinate that is not a number", .0 + 1)]
    NotANumber(usize),
    /// Two vertices seem to have changed places.
    #[error("vertices {} and {} seem to have changed places", .0 + 1, .1 + 1)]
    Swapped(usize, usize),
    /// The list seems to run from the other end.
    #[error("the vertices seem to have been measured from the other end")]
    FromTheOtherEnd,
    /// The part is the mirror image of the design.
    #[error(
        "the vertices describe the mirror image of the design; check the signs of the axes and the rotation sense of the machine"
    )]
    Mirrored,
    /// The part is so far off that no correction should be made from it.
    #[error(
        "the best fit is still {worst_mm:.1} mm off; check that this is the part and that every vertex was measured"
    )]
    NotThisPart {
        /// The largest distance that is left, mm.
        worst_mm: f64,
    },
    /// The number of measured bends differs.
    #[error("{measured} bends were measured and the program bends {design}")]
    Bends {
        /// How many the design has.
        design: usize,
        /// How many were measured.
        measured: usize,
    },
    /// A bend of about half a turn and more has no vertex to compare.
    #[error("bend {} has no vertex: its straights do not meet ahead of it, so this comparison cannot judge the part; measure its legs by hand", .0 + 1)]
    NoVertex(usize),
    /// A measured number was turned away.
    #[error(transparent)]
    Number(#[from] Refusal),
    /// The measured vertices make no sense as a tube.
    #[error("the measured vertices make no tube: two of them coincide, or the path turns back on itself")]
    NoTube,
}

fn hint(missing: &Option<usize>) -> String {
    missing.map_or_else(String::new, |vertex| format!("; vertex {} seems to be the odd one", vertex + 1))
}

/// A measured part against its design.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The best rigid fit; its motion carries measured points onto the design.
    pub fit: RigidFit,
    /// The measured vertices, fitted onto the design.
    pub fitted: Vec<Point3<f64>>,
    /// Distance at each vertex, mm.
    pub vertex_off_mm: Vec<f64>,
    /// Measured less drawn, each straight, mm.
    pub straight_off_mm: Vec<f64>,
    /// Measured less drawn, each rotation (the first is 0).
    pub rotation_off: Vec<Angle>,
    /// Measured less drawn, each bend angle.
    pub angle_off: Vec<Angle>,
}

impl Comparison {
    /// Whether everything lies within the tolerance.
    pub fn within(&self, tolerance: &Tolerance) -> bool {
        let angles = self.rotation_off.iter().chain(&self.angle_off);
        let lengths = self.vertex_off_mm.iter().chain(&self.straight_off_mm);
        angles.into_iter().all(|off| off.abs() <= tolerance.angle)
            && lengths.into_iter().all(|off| off.abs() <= tolerance.length.mm())
    }
}

/// A fit that is off by more than this share of the part's size is no first-off of this part.
const NOT_THIS_PART: f64 = 0.1;
/// An explanation (swapped, mirrored, from the other end) is believed where it leaves less than this share
/// of the deviation that is there without it.
const BELIEVED: f64 = 0.3;
/// Deviations below this share of the part's size need no explanation: machines stray that much.
const ORDINARY: f64 = 0.02;

/// How many vertices are tried for having changed places.
const SUSPECTS: usize = 24;

/// Compares measured vertices with the part as it should come off the machine.
///
/// `design` is the program's [`Program::as_bent`]; the measured bends are taken to have the free radii of
/// their measured angles.
///
/// # Errors
/// Doubts a measurement that cannot be this part: see [`MeasurementDoubt`].
pub fn compare(design: &BendPath, measured: &[Point3<f64>]) -> Result<Comparison, MeasurementDoubt> {
    if let Some(index) = measured.iter().position(|point| point.iter().any(|value| !value.is_finite())) {
        return Err(MeasurementDoubt::NotANumber(index));
    }
    let drawn = design.to_vertex_form().map_err(|none| MeasurementDoubt::NoVertex(none.bend))?;
    let points = drawn.points();
    if points.len() != measured.len() {
        let (design, measured_count) = (points.len(), measured.len());
        return Err(MeasurementDoubt::Count {
            design,
            measured: measured_count,
            missing: odd_one_out(points, measured),
        });
    }
    let fit = rigid_fit(points, measured).ok_or(MeasurementDoubt::NoTube)?;
    doubt(points, measured, &fit)?;
    let path = VertexPath::new(measured.to_vec(), drawn.clr().to_vec()).map_err(|_| MeasurementDoubt::NoTube)?;
    let form = path.to_bend_form();
    if form.path.rows().len() != design.rows().len() {
        return Err(MeasurementDoubt::NoTube);
    }
    let fitted: Vec<Point3<f64>> = measured.iter().map(|point| fit.motion * point).collect();
    let vertex_off_mm = fitted.iter().zip(points).map(|(measured, drawn)| (measured - drawn).norm()).collect();
    let pairs = || form.path.rows().iter().zip(design.rows());
    let mut straight_off_mm: Vec<f64> = pairs().map(|(m, d)| (m.straight - d.straight).mm()).collect();
    straight_off_mm.push((form.path.tail() - design.tail()).mm());
    Ok(Comparison {
        fitted,
        vertex_off_mm,
        straight_off_mm,
        rotation_off: pairs().map(|(m, d)| turned(m.rotation - d.rotation)).collect(),
        angle_off: pairs().map(|(m, d)| m.angle - d.angle).collect(),
        fit,
    })
}

/// The program for the next piece: each setting moved by what the first-off was off.
///
/// A straight follows its feed one to one, a rotation likewise, and an angle its set angle through the
/// slope of the springback line. What the tail is off beyond what those errors explain (blank that bends
/// took up otherwise than planned) is taken off the blank.
pub fn corrected(program: &Program, found: &Comparison) -> Program {
    let mut next = program.clone();
    let mut mark = Length::ZERO;
    let mut explained = Length::ZERO;
    for (index, step) in next.steps.iter_mut().enumerate() {
        let feed_error = Length::from_mm(found.straight_off_mm[index]);
        let set_error = found.angle_off[index] / (1.0 - step.forming.line.b);
        let drawn_per_radian = step.forming.die_clr * (1.0 - step.forming.stretch);
        step.set_angle -= set_error;
        step.rotation = turned(step.rotation - found.rotation_off[index]);
        step.feed -= feed_error;
        step.take_up = drawn_per_radian * step.set_angle.radians();
        step.mark = mark + step.feed;
        mark = step.mark + step.take_up;
        explained -= feed_error + drawn_per_radian * set_error.radians();
    }
    if let Some(tail_off) = found.straight_off_mm.last() {
        next.blank -= Length::from_mm(*tail_off) - explained;
    }
    next
}

/// Says what speaks against taking the measurement at its word.
fn doubt(design: &[Point3<f64>], measured: &[Point3<f64>], fit: &RigidFit) -> Result<(), MeasurementDoubt> {
    let size = design.iter().map(|point| (point - design[0]).norm()).fold(0.0, f64::max);
    if fit.rms_mm <= ORDINARY * size {
        return Ok(());
    }
    let believed = fit.rms_mm * BELIEVED;
    let mut best = (believed, None);
    let mut consider = |rms_mm: Option<f64>, doubt: MeasurementDoubt| {
        if let Some(rms_mm) = rms_mm.filter(|rms_mm| *rms_mm < best.0) {
            best = (rms_mm, Some(doubt));
        }
    };
    consider(mirrored_fit(design, measured).map(|fit| fit.rms_mm), MeasurementDoubt::Mirrored);
    let mut tried = measured.to_vec();
    tried.reverse();
    consider(rigid_fit(design, &tried).map(|fit| fit.rms_mm), MeasurementDoubt::FromTheOtherEnd);
    tried.reverse();
    // Two that have changed places are among those furthest off; to try every pair of a long part would take
    // longer than anybody waits.
    let mut suspects: Vec<(usize, f64)> =
        design.iter().zip(measured).map(|(d, m)| (d - fit.motion * m).norm()).enumerate().collect();
    suspects.sort_by(|a, b| b.1.total_cmp(&a.1));
    suspects.truncate(SUSPECTS);
    let mut suspects: Vec<usize> = suspects.into_iter().map(|(vertex, _)| vertex).collect();
    suspects.sort_unstable();
    for (place, &first) in suspects.iter().enumerate() {
        for &second in &suspects[place + 1..] {
            tried.swap(first, second);
            consider(rigid_fit(design, &tried).map(|fit| fit.rms_mm), MeasurementDoubt::Swapped(first, second));
            tried.swap(first, second);
        }
    }
    match best.1 {
        Some(doubt) => Err(doubt),
        None if fit.worst_mm > NOT_THIS_PART * size => Err(MeasurementDoubt::NotThisPart { worst_mm: fit.worst_mm }),
        None => Ok(()),
    }
}

/// The vertex without which the longer list fits the shorter one best, where it then fits well.
fn odd_one_out(design: &[Point3<f64>], measured: &[Point3<f64>]) -> Option<usize> {
    let (longer, shorter) = if design.len() == measured.len() + 1 {
        (design, measured)
    } else if measured.len() == design.len() + 1 {
        (measured, design)
    } else {
        return None;
    };
    let size = design.iter().map(|point| (point - design[0]).norm()).fold(0.0, f64::max);
    (0..longer.len())
        .filter_map(|without| {
            let mut rest = longer.to_vec();
            rest.remove(without);
            Some((without, rigid_fit(&rest, shorter)?.rms_mm))
        })
        .filter(|(_, rms_mm)| *rms_mm <= ORDINARY * size)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(without, _)| without)
}

/// The same rotation in (-180°, 180°].
fn turned(angle: Angle) -> Angle {
    let turn = std::f64::consts::TAU;
    let radians = angle.radians().rem_euclid(turn);
    Angle::from_radians(if radians > std::f64::consts::PI { radians - turn } else { radians })
}
