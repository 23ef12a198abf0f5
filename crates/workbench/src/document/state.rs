//! A state of the document: its tubes, each with its solution.

use std::sync::Arc;

use elbowroom_bending::{Part, Shop, Solved, System, SystemTube, TubeId, solve};

/// The tubes, each solved. Copies share everything.
#[derive(Clone)]
pub(crate) struct State {
    /// The tubes.
    pub system: Arc<System>,
    /// In the order of the tubes.
    solved: Vec<Arc<Solved>>,
}

impl State {
    /// A system solved on a shop. A tube that a state before holds as it is is not solved again; `solves` counts the
    /// others.
    pub fn of(system: Arc<System>, shop: &Shop, before: &[&Self], solves: &mut u64) -> Self {
        let solved = system.tubes().iter().map(|tube| {
            let known = before.iter().find_map(|before| before.solution_of(tube.id, &tube.part));
            known.cloned().unwrap_or_else(|| {
                *solves += 1;
                Arc::new(solve(&tube.part, shop))
            })
        });
        let solved = solved.collect();
        Self { system, solved }
    }

    /// The part that is worked on.
    pub fn part(&self) -> &Arc<Part> {
        &self.system.active_tube().part
    }

    /// The same, solved.
    pub fn solved(&self) -> &Arc<Solved> {
        self.solved_tube(self.system.active()).unwrap_or(&self.solved[0])
    }

    /// Every tube, solved.
    pub fn tubes(&self) -> impl Iterator<Item = (&SystemTube, &Arc<Solved>)> {
        self.system.tubes().iter().zip(&self.solved)
    }

    /// The tube of an id, solved.
    pub fn solved_tube(&self, id: TubeId) -> Option<&Arc<Solved>> {
        self.solved.get(self.system.tubes().iter().position(|tube| tube.id == id)?)
    }

    /// The solution of a tube whose part is the very same.
    fn solution_of(&self, id: TubeId, part: &Arc<Part>) -> Option<&Arc<Solved>> {
        let same = self.system.tube(id).is_some_and(|tube| Arc::ptr_eq(&tube.part, part));
        if same { self.solved_tube(id) } else { None }
    }
}
