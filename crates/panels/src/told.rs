//! The findings in words, kept from frame to frame: their cures are worked out when they are read, which takes about as long
//! as solving what is read of the part.

use std::sync::Arc;

use elbowroom_bending::{Solved, Told, Trials};
use elbowroom_workbench::Workbench;

/// Bends that are solved in trials in one frame, about a hundredth of a second.
const MOST_BENDS: usize = 12_000;

/// The findings in words, as many of them as somebody has asked for since the part was solved.
#[derive(Default)]
pub struct State {
    /// The solution that they are from.
    solved: Option<Arc<Solved>>,
    told: Vec<Told>,
    /// The cures tried so far.
    trials: Trials,
}

impl State {
    /// So many of the findings on the part that is shown, the first of them; all where there are fewer.
    pub fn first(&mut self, workbench: &Workbench, most: usize) -> &[Told] {
        let solved = workbench.solved();
        if !self.solved.as_ref().is_some_and(|known| Arc::ptr_eq(known, solved)) {
            // Nobody presses a button during a drag, and then every frame has another part.
            let trials = if workbench.previewing() { Trials::none() } else { Trials::within(MOST_BENDS) };
            *self = Self { solved: Some(Arc::clone(solved)), told: Vec::new(), trials };
        }
        let words = workbench.words();
        for index in self.told.len()..most.min(solved.findings.len()) {
            self.told.push(self.trials.told(index, solved, &words));
        }
        &self.told[..most.min(self.told.len())]
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use elbowroom_bending::Edit;
    use elbowroom_bending::specimen::{part, row, shop};
    use elbowroom_geometry::Length;
    use elbowroom_geometry::units::LengthUnit;
    use elbowroom_workbench::Command;

    #[test]
    fn what_is_kept_is_that_of_the_part_that_is_shown() {
        let rows = vec![row(300.0, 0.0, 90.0), row(20.0, 0.0, 90.0), row(90.0, 0.0, 90.0)];
        let mut bench = Workbench::new(part(rows, 300.0).unwrap(), shop());
        let mut state = State::default();
        let afresh = |bench: &Workbench| bench.solved().told(&bench.words());
        let all = afresh(&bench);
        assert!(all.len() > 3);
        assert_eq!(state.first(&bench, 2), &all[..2]);
        assert_eq!(state.first(&bench, usize::MAX), all);
        assert_eq!(state.first(&bench, 1), &all[..1]);
        let straight = bench.solved().nodes.straight(1);
        bench.perform(Command::Edit(Edit::SetStraight(straight, Length::from_mm(70.0))));
        let changed = afresh(&bench);
        assert_ne!(changed, all);
        assert_eq!(state.first(&bench, usize::MAX), changed);
        bench.perform(Command::Undo);
        assert_eq!(state.first(&bench, usize::MAX), all);
        // Words of lengths in another unit are other words.
        bench.perform(Command::Edit(Edit::ShowUnits(LengthUnit::Inch)));
        let in_inches = afresh(&bench);
        assert_ne!(in_inches, all);
        assert_eq!(state.first(&bench, usize::MAX), in_inches);
    }
}
