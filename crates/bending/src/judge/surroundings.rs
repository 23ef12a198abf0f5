//! How near every tube of a system comes to all that stands around it: to its obstacles, and to the other tubes. Only what
//! has moved is measured again.

use std::collections::HashMap;
use std::sync::Arc;

use elbowroom_geometry::{BoundingBox, Centreline, Nearness};

use crate::Part;
use crate::layout::around::{Clearance, Neighbour, NeighbourKind, Stands, TUBES_WITHIN_MM};
use crate::model::surrounding::Wanted;

/// A tube as it lies, ready to be measured. It is known again by being the very same.
#[derive(Debug)]
pub struct Laid {
    centreline: Arc<Centreline>,
    od_mm: f64,
    /// The box of the centreline.
    bounds: BoundingBox,
    /// What it is to the other tubes.
    neighbour: Neighbour,
}

/// What stands around one tube, measured.
#[derive(Debug)]
pub struct Around {
    tube: Arc<Laid>,
    obstacles: Vec<Arc<ToObstacle>>,
    /// The tubes that are not far away, in the order of the tubes.
    tubes: Vec<Arc<ToTube>>,
}

#[derive(Debug)]
struct ToObstacle {
    to: Arc<Neighbour>,
    /// What is known of its elements, so that those that stay are not measured again.
    nearness: Nearness,
    clearance: Option<Clearance>,
}

#[derive(Debug)]
struct ToTube {
    to: Arc<Laid>,
    clearance: Option<Clearance>,
}

/// What stands around each tube of a system, measured.
#[derive(Debug, Default)]
pub struct Surroundings {
    around: Vec<Arc<Around>>,
    obstacles: Vec<Arc<Neighbour>>,
}

impl Laid {
    /// A tube that lies along this centreline of its part.
    pub fn of(part: &Part, centreline: &Centreline) -> Self {
        let (centreline, od_mm) = (Arc::new(centreline.clone()), part.tube.od.mm());
        let neighbour = Neighbour {
            name: part.name.as_str().into(),
            kind: NeighbourKind::Tube,
            wanted: Wanted::apart(),
            stands: Ok(Stands::Tube(Arc::clone(&centreline), od_mm)),
            doubt: None,
        };
        Self { bounds: centreline.bounding_box(), centreline, od_mm, neighbour }
    }

    /// Whether two tubes are so far from each other that nothing is to be said of them. Numbers that are none tell nothing.
    fn is_far_from(&self, other: &Self) -> bool {
        let within_mm = f64::midpoint(self.od_mm, other.od_mm) + TUBES_WITHIN_MM;
        self.bounds.distance_squared(&other.bounds) > within_mm * within_mm
    }
}

impl Around {
    /// The tube.
    pub fn tube(&self) -> &Arc<Laid> {
        &self.tube
    }

    /// How near it comes: to every obstacle, then to the tubes that are not far away, each in their order.
    pub fn clearances(&self) -> Vec<Clearance> {
        let obstacles = self.obstacles.iter().filter_map(|to| to.clearance.clone());
        obstacles.chain(self.tubes.iter().filter_map(|to| to.clearance.clone())).collect()
    }

    /// Whether both are of the same measurements.
    fn is_all_of(&self, other: &Self) -> bool {
        fn same<T>(one: &[Arc<T>], two: &[Arc<T>]) -> bool {
            one.len() == two.len() && one.iter().zip(two).all(|(one, two)| Arc::ptr_eq(one, two))
        }
        same(&self.obstacles, &other.obstacles) && same(&self.tubes, &other.tubes)
    }

    /// The obstacle at a place of the list, as this tube was measured against it.
    fn to_obstacle(&self, place: usize, is: impl Fn(&ToObstacle) -> bool) -> Option<&Arc<ToObstacle>> {
        let there = self.obstacles.get(place).filter(|known| is(known));
        there.or_else(|| self.obstacles.iter().find(|known| is(known)))
    }
}

impl Surroundings {
    /// Measures each of these tubes against every obstacle, every other one of them, and the tubes of `others`. What is
    /// the very same in a state `before`, the last one first, is not measured again; `measurements` counts the rest.
    pub fn measured(
        tubes: &[Arc<Laid>],
        others: &[Arc<Laid>],
        obstacles: Vec<Arc<Neighbour>>,
        before: &[&Self],
        measurements: &mut u64,
    ) -> Self {
        let mut survey = Survey { tubes, others, obstacles: &obstacles, before, places: Vec::new(), measurements };
        let moved = survey.moved();
        if moved.is_none() {
            survey.places = before.iter().map(|before| before.places()).collect();
        }
        let around = (0..tubes.len()).map(|tube| survey.around(tube, moved.as_deref())).collect();
        Self { around, obstacles }
    }

    /// What stands around the tube at a place of the list.
    pub fn of_tube(&self, place: usize) -> Option<&Arc<Around>> {
        self.around.get(place)
    }

    /// The obstacles, as the tubes were measured against them.
    pub fn obstacles(&self) -> &[Arc<Neighbour>] {
        &self.obstacles
    }

    fn places(&self) -> HashMap<*const Laid, usize> {
        self.around.iter().enumerate().map(|(place, around)| (Arc::as_ptr(&around.tube), place)).collect()
    }
}

/// What is to be measured, beside what is known.
struct Survey<'a> {
    tubes: &'a [Arc<Laid>],
    others: &'a [Arc<Laid>],
    obstacles: &'a [Arc<Neighbour>],
    before: &'a [&'a Surroundings],
    /// The places of the tubes before, where they may not be the same.
    places: Vec<HashMap<*const Laid, usize>>,
    measurements: &'a mut u64,
}

impl Survey<'_> {
    /// The places of the tubes that have moved since the last state, where everything else stands as it stood.
    fn moved(&self) -> Option<Vec<usize>> {
        let last = self.before.first()?;
        let same = |(one, two): (&Arc<Neighbour>, &Arc<Neighbour>)| Arc::ptr_eq(one, two);
        let as_it_was = last.around.len() == self.tubes.len()
            && self.others.is_empty()
            && last.obstacles.len() == self.obstacles.len()
            && last.obstacles.iter().zip(self.obstacles).all(same);
        let moved = |(place, (around, tube)): (usize, (&Arc<Around>, &Arc<Laid>))| {
            (!Arc::ptr_eq(&around.tube, tube)).then_some(place)
        };
        as_it_was.then(|| last.around.iter().zip(self.tubes).enumerate().filter_map(moved).collect())
    }

    fn around(&mut self, place: usize, moved: Option<&[usize]>) -> Arc<Around> {
        let tube = &self.tubes[place];
        if let (Some(moved), Some(last)) = (moved, self.before.first()) {
            let was = &last.around[place];
            let is_touched =
                |other: &usize| !tube.is_far_from(&self.tubes[*other]) || !tube.is_far_from(&last.around[*other].tube);
            if Arc::ptr_eq(&was.tube, tube) && !moved.iter().any(is_touched) {
                return Arc::clone(was);
            }
        }
        let known = self.known(place);
        let obstacles = self.measure_obstacles(place, &known);
        let tubes = self.measure_tubes(place, &known);
        let around = Around { tube: Arc::clone(tube), obstacles, tubes };
        // What is the very same stays so, also where others came or went.
        known.into_iter().find(|known| known.is_all_of(&around)).unwrap_or_else(|| Arc::new(around))
    }

    /// What was measured of the very same tube before.
    fn known(&self, place: usize) -> Vec<Arc<Around>> {
        let tube = &self.tubes[place];
        let in_state = |(state, before): (usize, &&Surroundings)| {
            let at = self.places.get(state).map_or(Some(&place), |places| places.get(&Arc::as_ptr(tube)))?;
            before.around.get(*at).filter(|around| Arc::ptr_eq(&around.tube, tube)).cloned()
        };
        self.before.iter().enumerate().filter_map(in_state).collect()
    }

    fn measure_obstacles(&mut self, place: usize, known: &[Arc<Around>]) -> Vec<Arc<ToObstacle>> {
        let tube = &self.tubes[place];
        // What stood at its place tells of the elements that have stayed, also where others have moved.
        let like = self.before.first().and_then(|last| last.around.get(place));
        let mut measured = Vec::with_capacity(self.obstacles.len());
        for (at, to) in self.obstacles.iter().enumerate() {
            let same = |other: &ToObstacle| Arc::ptr_eq(&other.to, to);
            if let Some(same) = known.iter().find_map(|around| around.to_obstacle(at, same)) {
                measured.push(Arc::clone(same));
                continue;
            }
            let same_body = |other: &ToObstacle| match (other.to.body(), to.body()) {
                (Some(one), Some(two)) => Arc::ptr_eq(one, two),
                _ => false,
            };
            let mut told = known.iter().chain(like);
            let told = told.find_map(|around| around.to_obstacle(at, same_body));
            let mut nearness = told.map_or_else(Nearness::default, |told| told.nearness.clone());
            *self.measurements += 1;
            let clearance = to.measured(&tube.centreline, tube.od_mm, &mut nearness);
            measured.push(Arc::new(ToObstacle { to: Arc::clone(to), nearness, clearance }));
        }
        measured
    }

    fn measure_tubes(&mut self, place: usize, known: &[Arc<Around>]) -> Vec<Arc<ToTube>> {
        let tube = &self.tubes[place];
        let others = self.tubes.iter().enumerate().filter(|(other, _)| *other != place).map(|(_, other)| other);
        let mut measured = Vec::new();
        for to in others.chain(self.others).filter(|other| !tube.is_far_from(other)) {
            let same = |other: &&Arc<ToTube>| Arc::ptr_eq(&other.to, to);
            if let Some(same) = known.iter().find_map(|around| around.tubes.iter().find(same)) {
                measured.push(Arc::clone(same));
                continue;
            }
            *self.measurements += 1;
            let clearance = to.neighbour.measured(&tube.centreline, tube.od_mm, &mut Nearness::default());
            measured.push(Arc::new(ToTube { to: Arc::clone(to), clearance }));
        }
        measured
    }
}
