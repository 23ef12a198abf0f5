//! What speaks against a measurement. It is told, and not followed.

use elbowroom_geometry::{Point3, Refusal};
use thiserror::Error;

use super::points::BY_ARC_ENDS_FROM;
use crate::rigid_fit::{mirrored_fit, rigid_fit};

/// Why a measurement is doubted. It is told, and not followed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MeasurementDoubt {
    /// The number of points differs.
    #[error("{measured} points were measured and the design has {design}{}{}", two_each(*.by_arc_ends), hint(*missing))]
    Count {
        /// How many the design has.
        design: usize,
        /// How many were measured.
        measured: usize,
        /// How many of the bends give two points.
        by_arc_ends: usize,
        /// The point that seems to be missing, or measured twice, counted from 0.
        missing: Option<usize>,
    },
    /// A coordinate is not a number.
    #[error("point {} has a coordinate that is not a number", .0 + 1)]
    NotANumber(usize),
    /// Two points seem to have changed places.
    #[error("points {} and {} seem to have changed places", .0 + 1, .1 + 1)]
    Swapped(usize, usize),
    /// The list seems to run from the other end.
    #[error("the points seem to have been measured from the other end")]
    FromTheOtherEnd,
    /// The part is the mirror image of the design.
    #[error(
        "the points describe the mirror image of the design; check the signs of the axes and the rotation sense of the machine"
    )]
    Mirrored,
    /// The part is so far off that no correction should be made from it.
    #[error(
        "the best fit is still {worst_mm:.1} mm off; check that this is the part and that every point was measured"
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
    /// A measured number was turned away.
    #[error(transparent)]
    Number(#[from] Refusal),
    /// The measured points make no sense as a tube.
    #[error(
        "the measured points make no tube: two of them coincide, a bend turns nothing, or the path turns back on itself"
    )]
    NoTube,
}

fn hint(missing: Option<usize>) -> String {
    missing.map_or_else(String::new, |point| format!("; point {} seems to be the odd one", point + 1))
}

fn two_each(by_arc_ends: usize) -> String {
    let from = BY_ARC_ENDS_FROM.degrees();
    match by_arc_ends {
        0 => String::new(),
        1 => format!(", with two for the bend of {from:.0}° or more: where its arc begins and where it ends"),
        _ => format!(", with two for each bend of {from:.0}° or more: where its arc begins and where it ends"),
    }
}

/// A fit that is off by more than this share of the way along the points is no first-off of this part. (Along them and
/// not across: a part that folds back on itself lies close together, and its ends still stray with all of its length.)
const NOT_THIS_PART: f64 = 0.1;
/// An explanation (swapped, mirrored, from the other end) is believed where it leaves less than this share
/// of the deviation that is there without it.
const BELIEVED: f64 = 0.3;
/// Deviations below this share of the part's size need no explanation: machines stray that much.
const ORDINARY: f64 = 0.02;

/// How many vertices are tried for having changed places.
const SUSPECTS: usize = 24;

/// Says what speaks against taking the measurement at its word.
pub(super) fn doubt(design: &[Point3<f64>], measured: &[Point3<f64>]) -> Result<(), MeasurementDoubt> {
    let fit = rigid_fit(design, measured).ok_or(MeasurementDoubt::NoTube)?;
    let size = design.iter().map(|point| (point - design[0]).norm()).fold(0.0, f64::max);
    if fit.rms_mm <= ORDINARY * size {
        return Ok(());
    }
    let along: f64 = design.windows(2).map(|ends| (ends[1] - ends[0]).norm()).sum();
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
        None if fit.worst_mm > NOT_THIS_PART * along => Err(MeasurementDoubt::NotThisPart { worst_mm: fit.worst_mm }),
        None => Ok(()),
    }
}

/// The point without which the longer list fits the shorter one best, where it then fits well.
pub(super) fn odd_one_out(design: &[Point3<f64>], measured: &[Point3<f64>]) -> Option<usize> {
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
