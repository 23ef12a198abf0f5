//! Which triangles of a mesh close a body, so that it has an inside.

use crate::Point3;

/// What the connected triangles around one of them make together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hull {
    /// A sheet with an edge: it has no inside.
    Open,
    /// A closed body whose triangles all turn the same way round.
    Turned,
    /// A closed body whose triangles turn either way.
    Mixed,
}

/// Points of which each is there once, and the triangles on them: where two points have the same coordinates to the
/// bit, only one stays.
pub(super) fn welded(points: Vec<Point3<f64>>, triangles: &mut [[u32; 3]]) -> Vec<Point3<f64>> {
    let number = |index: usize| u32::try_from(index).unwrap_or(u32::MAX);
    let mut order: Vec<u32> = (0..number(points.len())).collect();
    // Adding zero makes one zero of two.
    let key = |index: u32| points[index as usize].coords.map(|at| at + 0.0);
    let compare = |a: &u32, b: &u32| {
        let (a, b) = (key(*a), key(*b));
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)).then(a.z.total_cmp(&b.z))
    };
    order.sort_unstable_by(compare);
    let mut kept: Vec<Point3<f64>> = Vec::new();
    let mut place = vec![0_u32; points.len()];
    for index in order {
        let point = Point3::from(key(index));
        if kept.last() != Some(&point) {
            kept.push(point);
        }
        place[index as usize] = number(kept.len() - 1);
    }
    for triangle in triangles {
        *triangle = triangle.map(|corner| place[corner as usize]);
    }
    kept.shrink_to_fit();
    kept
}

/// The hull that each triangle is part of. A body is closed where every side is used an even number of times, and turned
/// one way where each is run through there and back equally often.
pub(super) fn hulls(points: usize, triangles: &[[u32; 3]]) -> Vec<Hull> {
    let mut groups = Groups((0..u32::try_from(points).unwrap_or(u32::MAX)).collect());
    let mut sides: Vec<u64> = Vec::with_capacity(3 * triangles.len());
    for [a, b, c] in triangles {
        groups.join(*a, *b);
        groups.join(*b, *c);
        for (from, to) in [(*a, *b), (*b, *c), (*c, *a)] {
            // A side of no length bounds nothing.
            if from != to {
                let (low, high) = (u64::from(from.min(to)), u64::from(from.max(to)));
                // No mesh has so many points that 31 bits would not hold them.
                sides.push((low << 33) | (high << 1) | u64::from(from > to));
            }
        }
    }
    sides.sort_unstable();
    let mut of_group = vec![Hull::Turned; points];
    for side in sides.chunk_by(|a, b| a >> 1 == b >> 1) {
        let back = side.iter().filter(|side| *side & 1 == 1).count();
        let hull = &mut of_group[groups.root((side[0] >> 33) as u32) as usize];
        if side.len() % 2 == 1 {
            *hull = Hull::Open;
        } else if 2 * back != side.len() && *hull == Hull::Turned {
            *hull = Hull::Mixed;
        }
    }
    triangles.iter().map(|triangle| of_group[groups.root(triangle[0]) as usize]).collect()
}

/// Points that hang together, each leading to another one of its group or to itself.
struct Groups(Vec<u32>);

impl Groups {
    fn root(&mut self, mut point: u32) -> u32 {
        while self.0[point as usize] != point {
            let next = self.0[self.0[point as usize] as usize];
            self.0[point as usize] = next;
            point = next;
        }
        point
    }

    fn join(&mut self, a: u32, b: u32) {
        let (a, b) = (self.root(a), self.root(b));
        self.0[a.max(b) as usize] = a.min(b);
    }
}
