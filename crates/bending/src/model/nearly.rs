//! How near two figures count as the same.

use elbowroom_geometry::BendRow;

/// Lengths this near to their limit meet it, mm: a nanometre, far above the rounding of a part of ten
/// metres and far below anything a shop can measure.
pub(crate) const SAME_MM: f64 = 1e-6;

/// Angles this near to their limit meet it, radians: a billionth, far below a machine's step.
pub(crate) const SAME_RAD: f64 = 1e-9;

/// Shares this near to their limit meet it: a billionth, far below what any metal shows.
pub(crate) const SAME_SHARE: f64 = 1e-9;

/// A turn below this is no bend, radians. It is the figure at which vertices count as collinear.
pub(crate) const NO_BEND_RAD: f64 = 1e-6;

/// Whether a row turns the tube at all.
pub(crate) fn is_bend(row: &BendRow) -> bool {
    row.angle.radians() >= NO_BEND_RAD
}
