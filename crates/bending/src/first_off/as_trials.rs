//! A measured piece taken for what it is to the shop: each of its bends is a trial bend.

use elbowroom_geometry::Length;

use super::job::JudgedPiece;
use super::piece::Piece;
use crate::forming::springback::{TrialBend, TrialFigures};
use crate::{DieSet, Guard};

/// The trial bends that a piece makes on a die set, in the order of bending: what each bend was set to, what was measured, on
/// the wall that was bent. None where its measurement is doubted, and none of another radius or diameter.
pub fn trials(judged: &JudgedPiece, piece: &Piece, die: &DieSet) -> Vec<TrialBend> {
    let Some(angles) = judged.measured_angles().filter(|_| die.takes(piece.tube.od)) else { return Vec::new() };
    let on_die = piece.steps.iter().zip(angles).filter(|(step, _)| die.fits(die.od, step.die_clr));
    let trial = |set, measured, wall: Length| {
        TrialFigures { set, measured, measured_radius: None, drawn_length: None, wall: Some(wall) }.sound().ok()
    };
    on_die.filter_map(|(step, measured)| trial(step.set_angle, measured, piece.tube.wall)).collect()
}
