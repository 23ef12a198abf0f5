//! The tube as it lies in the machine: bends that are made have sprung back, to larger radii on shorter straights.

use elbowroom_geometry::{Angle, BendRow, Length};

use super::clamp::Seat;
use super::{ClampOnTube, SolvedBend};
use crate::{DieSet, Solved};

/// The released tube. Rows that turn nothing are part of the straights.
pub(crate) struct ReleasedTube {
    rows: Vec<BendRow>,
    /// For each bend of the drawing its row; meaningless where it turns nothing.
    row_of_bend: Vec<usize>,
    lead_trim_mm: f64,
}

impl ReleasedTube {
    /// The tube of a solved part. A bend of which nothing is known keeps its radius.
    pub fn of(solved: &Solved) -> Self {
        let bends = &solved.bends;
        let mut tube = Self {
            rows: Vec::with_capacity(bends.len()),
            row_of_bend: Vec::with_capacity(bends.len()),
            lead_trim_mm: solved.lead_trim_mm,
        };
        let (mut rotation_rad, mut taken_before_mm) = (0.0, 0.0);
        for bend in bends {
            tube.row_of_bend.push(tube.rows.len());
            rotation_rad += bend.rotation_rad;
            if !bend.is_bent() {
                continue;
            }
            let released = bend.formed.and_then(|formed| formed.released);
            let as_drawn_mm = bend.straight_ahead_mm - taken_before_mm;
            tube.rows.push(BendRow {
                straight: Length::from_mm(released.map_or(as_drawn_mm, |released| released.straight_ahead_mm)),
                rotation: Angle::from_radians(rotation_rad),
                angle: Angle::from_radians(bend.angle_rad),
                clr: Length::from_mm(released.map_or(bend.clr_mm, |released| released.free_clr_mm)),
            });
            rotation_rad = 0.0;
            taken_before_mm = released.map_or(0.0, |released| released.takes_mm);
        }
        tube
    }

    /// Lays the clamp of a bend that is not the first, as long as it was laid on the drawing. Places along the
    /// tube are those of the drawing.
    pub fn lay(&self, index: usize, made: &SolvedBend, clamp: &ClampOnTube, die: &DieSet) -> ClampOnTube {
        let row = self.row_of_bend[index];
        let seat = Seat {
            rows: &self.rows,
            bend: row,
            leads: row == 0,
            straight_mm: self.rows[row].straight.mm(),
            starts_at_mm: made.starts_at_mm,
            lead_trim_mm: self.lead_trim_mm,
        };
        seat.lay(Length::from_mm(clamp.length_mm), die)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen::{self, row};
    use crate::{End, Hand, plan, solve};

    #[test]
    fn the_released_tube_is_the_one_the_program_makes() {
        let rows = vec![row(300.0, 25.0, 90.0), row(50.0, 35.0, 0.0), row(60.0, 30.0, 45.0), row(40.0, -80.0, 60.0)];
        let (part, shop) = (specimen::part(rows, 400.0).unwrap(), specimen::shop());
        let solved = solve(&part, &shop);
        let tube = ReleasedTube::of(&solved);
        let plan = plan::plan(&part, &shop, End::Start, Hand::Right).unwrap();
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
