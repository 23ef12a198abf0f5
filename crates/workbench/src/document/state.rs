//! A state of the document: its tubes, each with its solution beside all that stands around it.

use std::collections::HashMap;
use std::sync::Arc;

use elbowroom_bending::around::Neighbour;
use elbowroom_bending::surroundings::{Around, Laid, Surroundings};
use elbowroom_bending::{Obstacle, Part, Shop, Solved, System, SystemTube, TubeId, solve};

use super::meshes::Meshes;
use super::standing::Standing;

/// The tubes, each solved. Copies share everything.
#[derive(Clone)]
pub(crate) struct State {
    /// The tubes.
    pub system: Arc<System>,
    /// The shop that they are solved on.
    shop: Arc<Shop>,
    /// Each by itself, in the order of the tubes.
    alone: Arc<[Arc<Solved>]>,
    /// Each beside what stands around it, in the order of the tubes.
    solved: Arc<[Arc<Solved>]>,
    /// At which place of that order each tube stands: looking for each among all would grow with their square.
    places: Arc<HashMap<TubeId, usize>>,
    /// What stands around the tubes; `None` where nothing does, so that a single tube costs nothing more.
    beside: Option<Arc<Beside>>,
}

/// What stands around the tubes, and how near they come to it.
struct Beside {
    standing: Standing,
    around: Surroundings,
}

/// What a state is made on.
#[derive(Clone, Copy)]
pub(super) struct Bench<'a> {
    /// The shop that bends the tubes.
    pub shop: &'a Arc<Shop>,
    /// Where the meshes of obstacles are read from.
    pub meshes: &'a Arc<Meshes>,
}

/// How much was done, for tests that nothing is done twice.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Counts {
    /// Tubes that were solved.
    pub solves: u64,
    /// Tubes that were measured against one obstacle or another tube.
    pub measurements: u64,
    /// Meshes that were read, or found not to be readable.
    pub readings: u64,
}

impl State {
    /// A system solved on a bench. A tube that a state before holds as it is is neither solved nor measured again, as far
    /// as what stands around it is the same too; the last state comes first.
    pub(super) fn of(system: Arc<System>, bench: Bench<'_>, before: &[&Self], counts: &mut Counts) -> Self {
        let shop = bench.shop;
        let alone = system.tubes().iter().enumerate().map(|(at, tube)| {
            let mut on_this_shop = before.iter().filter(|before| Arc::ptr_eq(&before.shop, shop));
            let known = on_this_shop.find_map(|before| before.alone.get(before.place_of(at, tube)?));
            known.cloned().unwrap_or_else(|| {
                counts.solves += 1;
                Arc::new(solve(&tube.part, shop))
            })
        });
        let alone: Arc<[Arc<Solved>]> = alone.collect();
        let places = system.tubes().iter().enumerate().map(|(place, tube)| (tube.id, place)).collect();
        let (solved, shop) = (Arc::clone(&alone), Arc::clone(shop));
        let state = Self { system, shop, alone, solved, places: Arc::new(places), beside: None };
        let is_lone = state.system.tubes().len() == 1 && state.system.obstacles().is_empty();
        if is_lone { state } else { state.beside_all(bench.meshes, before, counts) }
    }

    /// The same beside all that stands around the tubes.
    fn beside_all(mut self, meshes: &Arc<Meshes>, before: &[&Self], counts: &mut Counts) -> Self {
        let stood = before.iter().filter_map(|before| before.beside.as_deref());
        let standing = Standing::of(&self.system, meshes, stood.clone().map(|was| &was.standing), &mut counts.readings);
        let laid: Vec<Arc<Laid>> = self
            .system
            .tubes()
            .iter()
            .enumerate()
            .map(|(at, tube)| {
                let known = before.iter().find_map(|before| before.around(before.place_of(at, tube)?));
                known.map_or_else(
                    || Arc::new(Laid::of(&tube.part, &self.alone[at].centreline)),
                    |known| Arc::clone(known.tube()),
                )
            })
            .collect();
        let measured: Vec<&Surroundings> = stood.map(|was| &was.around).collect();
        let neighbours = standing.neighbours().to_vec();
        let around = Surroundings::measured(&laid, &[], neighbours, &measured, &mut counts.measurements);
        let solved = self.system.tubes().iter().enumerate().map(|(at, tube)| {
            let Some(around) = around.of_tube(at) else { return Arc::clone(&self.alone[at]) };
            let known = before
                .iter()
                .find_map(|before| before.solved_beside(before.place_of(at, tube)?, &self.alone[at], around));
            known.cloned().unwrap_or_else(|| self.solve_beside(at, tube, around))
        });
        self.solved = solved.collect();
        self.beside = Some(Arc::new(Beside { standing, around }));
        self
    }

    fn solve_beside(&self, at: usize, tube: &SystemTube, around: &Around) -> Arc<Solved> {
        let (alone, clearances) = (&self.alone[at], around.clearances());
        if clearances.is_empty() {
            return Arc::clone(alone);
        }
        Arc::new(Solved::clone(alone).beside(&tube.part, &self.shop, clearances))
    }

    /// The tube at a place, if it is solved by itself like this and stands beside the very same.
    fn solved_beside(&self, place: usize, alone: &Arc<Solved>, around: &Arc<Around>) -> Option<&Arc<Solved>> {
        let same = Arc::ptr_eq(&self.alone[place], alone) && Arc::ptr_eq(self.around(place)?, around);
        self.solved.get(place).filter(|_| same)
    }

    fn around(&self, place: usize) -> Option<&Arc<Around>> {
        self.beside.as_ref()?.around.of_tube(place)
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

    /// Every obstacle, as it stands.
    pub fn neighbours(&self) -> impl Iterator<Item = (&Arc<Obstacle>, &Arc<Neighbour>)> {
        let neighbours = self.beside.as_ref().map(|beside| beside.standing.neighbours()).unwrap_or_default();
        self.system.obstacles().iter().zip(neighbours)
    }

    /// The place of a tube whose part is the very same, which is most often the one where it stands elsewhere.
    fn place_of(&self, at: usize, tube: &SystemTube) -> Option<usize> {
        let is = |there: &SystemTube| there.id == tube.id;
        let place = match self.system.tubes().get(at) {
            Some(there) if is(there) => at,
            _ => *self.places.get(&tube.id)?,
        };
        let same = self.system.tubes().get(place).is_some_and(|there| Arc::ptr_eq(&there.part, &tube.part));
        same.then_some(place)
    }
}
