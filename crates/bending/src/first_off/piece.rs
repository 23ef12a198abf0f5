//! A piece that was bent and measured: what it was bent by, and what that should have given.

use elbowroom_geometry::{BendPath, BendRow, Frame, Length, Refusal};

use crate::measurement::Measurement;
use crate::model::guarded::Guard;
pub use crate::model::piece::{Piece, PieceFigures, Setting};
use crate::plan::Plan;
use crate::program::{Forming, Program};

impl Piece {
    /// A piece bent by a program of a plan.
    ///
    /// # Errors
    /// Refuses a measurement that no piece can have, and a program by which none can be bent.
    pub fn bent_by(
        plan: &Plan,
        program: &Program,
        corrected_after: usize,
        measurement: Measurement,
    ) -> Result<Self, Refusal> {
        PieceFigures { corrected_after, ..PieceFigures::set_by(plan, program, measurement) }.sound()
    }
}

impl PieceFigures {
    /// What a piece would be set to that is bent by a program of a plan.
    pub(super) fn set_by(plan: &Plan, program: &Program, measurement: Measurement) -> Self {
        let setting = |step: &crate::program::Step| Setting {
            feed: step.feed,
            rotation: step.rotation,
            set_angle: step.set_angle,
            die_clr: step.forming.die_clr,
        };
        Self {
            from: plan.from,
            hand: plan.hand,
            tube: plan.part.tube.clone(),
            blank: program.blank,
            lead_trim: program.lead_trim,
            tail_trim: program.tail_trim,
            steps: program.steps.iter().map(setting).collect(),
            corrected_after: 0,
            measurement,
            as_measured: false,
        }
    }

    /// A program with these settings in place of its own. Both have as many steps.
    pub fn as_set(&self, program: &Program) -> Program {
        let mut set = program.clone();
        let mut fed = Length::ZERO;
        for (step, setting) in set.steps.iter_mut().zip(&self.steps) {
            (step.feed, step.rotation, step.set_angle) = (setting.feed, setting.rotation, setting.set_angle);
            step.take_up = setting.die_clr * (setting.set_angle.radians() * (1.0 - step.forming.stretch));
            step.mark = fed + step.feed;
            fed = step.mark + step.take_up;
        }
        (set.blank, set.lead_trim, set.tail_trim) = (self.blank, self.lead_trim, self.tail_trim);
        set
    }

    /// What these settings should have given, in the order of bending, on the present springback lines of
    /// `forming`, a step each.
    ///
    /// # Errors
    /// Refuses settings that give no tube.
    pub fn expected(&self, forming: &[Forming]) -> Result<BendPath, Refusal> {
        let mut left = self.blank - self.tail_trim;
        let mut rows = Vec::with_capacity(self.steps.len());
        for (index, (step, forming)) in self.steps.iter().zip(forming).enumerate() {
            let free = forming.line.free(step.set_angle);
            left -= step.feed + step.die_clr * (step.set_angle.radians() * (1.0 - forming.stretch));
            rows.push(BendRow {
                straight: if index == 0 { step.feed - self.lead_trim } else { step.feed },
                rotation: step.rotation,
                angle: free,
                clr: forming.line.free_radius(step.die_clr, free),
            });
        }
        if rows.is_empty() {
            left -= self.lead_trim;
        }
        BendPath::new(Frame::world(), rows, left)
    }
}
