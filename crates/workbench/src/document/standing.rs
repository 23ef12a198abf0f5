//! The obstacles of a state as they stand. One that stays is read once.

use std::sync::Arc;

use elbowroom_bending::around::Neighbour;
use elbowroom_bending::{Obstacle, Shape, System};

use super::meshes::Meshes;

/// The obstacles of a system as they stand, in their order.
#[derive(Clone)]
pub(super) struct Standing {
    obstacles: Vec<Arc<Obstacle>>,
    neighbours: Vec<Arc<Neighbour>>,
    meshes: Arc<Meshes>,
}

impl Standing {
    /// What stands in a system. What stood there `before` as it is, and meshes that are the same, are not read again;
    /// `readings` counts the others.
    pub fn of<'a>(
        system: &System,
        meshes: &Arc<Meshes>,
        before: impl Iterator<Item = &'a Self> + Clone,
        readings: &mut u64,
    ) -> Self {
        let stands = |(place, obstacle): (usize, &Arc<Obstacle>)| {
            let mut known = before.clone().filter_map(|before| before.known(place, obstacle, meshes));
            known.next().unwrap_or_else(|| {
                if matches!(obstacle.shape, Shape::Mesh(_)) {
                    *readings += 1;
                }
                Arc::new(meshes.neighbour(obstacle))
            })
        };
        let neighbours = system.obstacles().iter().enumerate().map(stands).collect();
        Self { obstacles: system.obstacles().to_vec(), neighbours, meshes: Arc::clone(meshes) }
    }

    /// Each as it stands, in their order.
    pub fn neighbours(&self) -> &[Arc<Neighbour>] {
        &self.neighbours
    }

    /// What is known of an obstacle: all of it, or its body alone where something else of it has changed.
    fn known(&self, place: usize, obstacle: &Arc<Obstacle>, meshes: &Arc<Meshes>) -> Option<Arc<Neighbour>> {
        let is = |other: &Arc<Obstacle>| other.id == obstacle.id;
        let at = match self.obstacles.get(place) {
            Some(there) if is(there) => place,
            _ => self.obstacles.iter().position(is)?,
        };
        let (was, neighbour) = (&self.obstacles[at], self.neighbours.get(at)?);
        let is_read_anew = matches!(obstacle.shape, Shape::Mesh(_)) && !Arc::ptr_eq(&self.meshes, meshes);
        if is_read_anew || was.shape != obstacle.shape {
            return None;
        }
        // Whether it is shown or locked says nothing of how it stands.
        let same = was.name == obstacle.name
            && was.placement == obstacle.placement
            && was.kind == obstacle.kind
            && was.clearance == obstacle.clearance;
        Some(if same { Arc::clone(neighbour) } else { Arc::new(neighbour.said_anew(obstacle)) })
    }
}
