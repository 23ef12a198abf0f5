//! The tube as it lies in the machine: bends that are made have sprung back, to larger radii on shorter straights.

use elbowroom_geometry::{Angle, BendRow, Length};

use super::bend::SolvedBend;
use super::clamp::{ClampOnTube, Seat};
use super::laid_out::LaidOut;
use super::order::InOrder;
use crate::{DieSet, End};

/// The released tube. Rows that turn nothing are part of the straights.
pub(crate) struct ReleasedTube {
    rows: Vec<BendRow>,
    /// For each bend of the drawing its row; meaningless where it turns nothing.
    row_of_bend: Vec<usize>,
    tail: Length,
    from: End,
    ahead_trim_mm: f64,
}

impl ReleasedTube {
    /// The tube of a solved part. A bend of which nothing is known keeps its radius.
    pub fn of(solved: &LaidOut) -> Self {
        let bends = &solved.bends;
        let mut tube = Self {
            rows: Vec::with_capacity(bends.len()),
            row_of_bend: Vec::with_capacity(bends.len()),
            tail: Length::ZERO,
            from: solved.from,
            ahead_trim_mm: solved.trims_in_order_mm()[0],
        };
        let (mut rotation_rad, mut taken_before_mm, mut straight_mm) = (0.0, 0.0, 0.0);
        for (bend, drawn_mm) in bends.iter().zip(&solved.straights_mm) {
            tube.row_of_bend.push(tube.rows.len());
            rotation_rad += bend.rotation_rad;
            straight_mm += drawn_mm;
            if !bend.is_bent() {
                straight_mm += bend.arc_mm;
                continue;
            }
            let released = bend.formed.and_then(|formed| formed.released);
            let takes_mm = released.map_or(0.0, |released| released.takes_mm);
            tube.rows.push(BendRow {
                straight: Length::from_mm(straight_mm - taken_before_mm - takes_mm),
                rotation: Angle::from_radians(rotation_rad),
                angle: Angle::from_radians(bend.angle_rad),
                clr: Length::from_mm(released.map_or(bend.clr_mm, |released| released.free_clr_mm)),
            });
            (rotation_rad, straight_mm) = (0.0, 0.0);
            taken_before_mm = takes_mm;
        }
        let tail_mm = straight_mm + solved.straights_mm.last().copied().unwrap_or(0.0) - taken_before_mm;
        tube.tail = Length::from_mm(tail_mm);
        tube
    }

    /// Lays the clamp of a bend that is not the first, as long as it was laid on the drawing. Places along the
    /// tube are those of the drawing.
    pub fn lay(&self, index: usize, made: &SolvedBend, clamp: &ClampOnTube, die: &DieSet) -> ClampOnTube {
        let row = self.row_of_bend[index];
        let order = InOrder { rows: &self.rows, tail: self.tail, from: self.from };
        let seat = Seat {
            order,
            bend: row,
            leads: order.before(row).is_none(),
            straight_mm: order.straight_ahead_mm(row),
            at_mm: made.made_from_mm(self.from),
            // How much is gripped as drawn is for another check.
            tube_ahead_mm: f64::INFINITY,
            lead_trim_mm: self.ahead_trim_mm,
        };
        seat.lay(Length::from_mm(clamp.length_mm), die)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen::{self, row};
    use crate::{plan, solve};

    #[test]
    fn the_released_tube_is_the_one_the_program_makes() {
        let rows = vec![row(300.0, 25.0, 90.0), row(50.0, 35.0, 0.0), row(60.0, 30.0, 45.0), row(40.0, -80.0, 60.0)];
        let (part, shop) = (specimen::part(rows, 400.0).unwrap(), specimen::shop());
        let solved = solve(&part, &shop);
        let tube = ReleasedTube::of(&solved);
        let plan = plan::plan(&part, &shop).unwrap();
        assert_eq!(tube.row_of_bend, [0, 1, 1, 2]);
        for (mine, its) in tube.rows.iter().zip(plan.program.as_bent.rows()) {
            assert!((mine.straight - its.straight).mm().abs() < 1e-9);
            assert!((mine.clr - its.clr).mm().abs() < 1e-9);
            assert!((mine.rotation - its.rotation).radians().abs() < 1e-12);
            assert_eq!(mine.angle, its.angle);
        }
        assert_eq!(tube.rows.len(), plan.program.as_bent.rows().len());
    }
}
