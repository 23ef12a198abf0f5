//! A state of the document: its tubes, each with its solution.

use std::collections::HashMap;
use std::sync::Arc;

use elbowroom_bending::{Part, Shop, Solved, System, SystemTube, TubeId, solve};

/// The tubes, each solved. Copies share everything.
#[derive(Clone)]
pub(crate) struct State {
    /// The tubes.
    pub system: Arc<System>,
    /// In the order of the tubes.
    solved: Arc<[Arc<Solved>]>,
    /// At which place of that order each tube stands: looking for each among all would grow with their square.
    places: Arc<HashMap<TubeId, usize>>,
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
        let places = system.tubes().iter().enumerate().map(|(place, tube)| (tube.id, place)).collect();
        Self { system, solved, places: Arc::new(places) }
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
        self.system.tubes().iter().zip(self.solved.iter())
    }

    /// The tube of an id, solved.
    pub fn solved_tube(&self, id: TubeId) -> Option<&Arc<Solved>> {
        self.solved.get(*self.places.get(&id)?)
    }

    /// The solution of a tube whose part is the very same.
    fn solution_of(&self, id: TubeId, part: &Arc<Part>) -> Option<&Arc<Solved>> {
        let place = *self.places.get(&id)?;
        let same = self.system.tubes().get(place).is_some_and(|tube| Arc::ptr_eq(&tube.part, part));
        self.solved.get(place).filter(|_| same)
    }
}
