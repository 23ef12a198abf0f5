//! A chain of pieces as bend rows.

use elbowroom_geometry::{Angle, BendPath, BendRow, Centreline, Frame, Length, Point3, Refusal, Vector3, dihedral};

use super::piece::Piece;

/// Two directions that differ by less are one, radians: straights and arcs that are drawn to meet without a corner do so to
/// a thousandth of a millimetre on a metre (common practice, no source).
const NO_CORNER_RAD: f64 = 1e-4;
/// What a person draws is a whole number of these, mm and degrees.
const DRAWN_IN: f64 = 1e-6;
/// A figure so near to one that a person draws, mm and degrees, is that one: what lies between them is the noise of
/// reckoning.
const NOISE: f64 = 1e-9;

/// A centreline that was put together from pieces.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Built {
    /// The centreline.
    pub path: BendPath,
    /// How far it lies at most from the pieces' own ends, mm.
    pub off_mm: f64,
    /// How many corners it has without an arc; each is a bend of radius 0.
    pub corners: usize,
}

/// A turn of the chain.
struct Turn {
    straight_mm: f64,
    /// The direction in which the tube comes to it.
    comes: Vector3<f64>,
    axis: Vector3<f64>,
    angle_rad: f64,
    clr_mm: f64,
}

/// The bend rows of a chain.
///
/// # Errors
/// Refuses a chain that no path can be, such as one of a length beyond what is taken.
pub(crate) fn built(chain: &[Piece]) -> Result<Built, Refusal> {
    let nothing = || Refusal::new("the length of the centreline", "nothing", "more than 0 mm");
    let mut direction = chain.iter().find_map(Piece::sets_out).ok_or_else(nothing)?;
    let origin = chain.first().map(Piece::from).ok_or_else(nothing)?;
    let start_along = direction;
    let (mut turns, mut straight_mm, mut corners): (Vec<Turn>, f64, usize) = (Vec::new(), 0.0, 0);
    for piece in chain {
        let (Some(sets_out), Some(arrives)) = (piece.sets_out(), piece.arrives()) else { continue };
        let corner = direction.cross(&sets_out);
        let turn_rad = corner.norm().atan2(direction.dot(&sets_out));
        // The direction of a short straight is mostly noise: it is the arcs beside it that say where the tube goes.
        let is_straight = matches!(piece, Piece::Straight { .. });
        let allowed_rad = if is_straight { NO_CORNER_RAD.max(1e-4 / piece.length_mm()) } else { NO_CORNER_RAD };
        if turn_rad > allowed_rad {
            corners += 1;
            let axis = corner.try_normalize(0.0).ok_or_else(nothing)?;
            turns.push(Turn { straight_mm, comes: direction, axis, angle_rad: turn_rad, clr_mm: 0.0 });
            straight_mm = 0.0;
            direction = sets_out;
        }
        match piece {
            Piece::Straight { .. } => straight_mm += piece.length_mm(),
            Piece::Arc { from, centre, axis, angle_rad } => {
                let clr_mm = (from - centre).norm();
                match turns.last_mut() {
                    // An arc in two parts.
                    Some(last) if straight_mm == 0.0 && goes_on(last, clr_mm, axis, *angle_rad) => {
                        last.angle_rad += angle_rad;
                    }
                    _ => {
                        turns.push(Turn { straight_mm, comes: sets_out, axis: *axis, angle_rad: *angle_rad, clr_mm });
                        straight_mm = 0.0;
                    }
                }
                direction = arrives;
            }
        }
    }
    let path = rows_of(&turns, straight_mm, origin, start_along)?;
    let off_mm = off(&path, chain);
    Ok(Built { path, off_mm, corners })
}

fn goes_on(last: &Turn, clr_mm: f64, axis: &Vector3<f64>, angle_rad: f64) -> bool {
    let is_one_bend = last.angle_rad + angle_rad <= BendPath::LARGEST_ANGLE.radians();
    is_one_bend && last.clr_mm > 0.0 && (last.clr_mm - clr_mm).abs() < 1e-6 && last.axis.dot(axis) > 1.0 - 1e-12
}

fn rows_of(turns: &[Turn], tail_mm: f64, origin: Point3<f64>, along: Vector3<f64>) -> Result<BendPath, Refusal> {
    let first = turns.first();
    let normal = first.map_or_else(Vector3::z, |turn| turn.axis.cross(&turn.comes));
    let tangent = first.map_or(along, |turn| turn.comes);
    // The start may be noisy where it is short, and is the direction in which the first bend is come to all the same.
    let start = Frame { origin: origin.map(clean), tangent: tangent.map(unsigned), normal: normal.map(unsigned) };
    let mut before: Option<&Turn> = None;
    let mut rows = Vec::with_capacity(turns.len());
    for turn in turns {
        let rotation = before.and_then(|before| {
            let along = turn.comes;
            dihedral(&along.cross(&before.axis), &along, &turn.axis.cross(&along))
        });
        rows.push(BendRow {
            straight: Length::from_mm(clean(turn.straight_mm)),
            rotation: Angle::from_degrees(clean(rotation.unwrap_or(Angle::ZERO).degrees())),
            angle: Angle::from_degrees(clean(turn.angle_rad.to_degrees())),
            clr: Length::from_mm(clean(turn.clr_mm)),
        });
        before = Some(turn);
    }
    BendPath::new(start, rows, Length::from_mm(clean(tail_mm)))
}

/// A number without the sign of a zero.
fn unsigned(value: f64) -> f64 {
    value + 0.0
}

/// A figure without the noise of reckoning, where it is one that a person would draw; else as it is.
pub(crate) fn clean(value: f64) -> f64 {
    // Divided by a whole number, so that the nearest double comes out; and no zero that is negative.
    let drawn = (value / DRAWN_IN).round() / (1.0 / DRAWN_IN).round() + 0.0;
    if (drawn - value).abs() < NOISE { drawn } else { value }
}

/// How far the ends of the pieces lie from the path at most, mm, measured at its tangent points and ends.
fn off(path: &BendPath, chain: &[Piece]) -> f64 {
    let centreline = Centreline::of(path);
    let mut along_mm = 0.0;
    let mut off_mm: f64 = 0.0;
    for piece in chain {
        along_mm += piece.length_mm();
        off_mm = off_mm.max((centreline.point_at(along_mm) - piece.to()).norm());
    }
    off_mm.max((centreline.end().origin - chain.last().map_or(centreline.end().origin, Piece::to)).norm())
}
