//! A tree of boxes over triangles: 32 bytes a node, single precision rounded outwards, so that no box is too small.

use super::triangle::{Near, nearest_to_triangle};
use crate::{Point3, Vector3};

/// The most triangles of a leaf.
const LEAF: usize = 4;

/// A box and what lies in it.
#[derive(Clone, Copy, Debug)]
struct Node {
    low: [f32; 3],
    /// Of a leaf the first triangle; else the second child. The first child stands behind its parent.
    first: u32,
    high: [f32; 3],
    /// The triangles of a leaf; 0 where there are children.
    count: u32,
}

/// The tree over the triangles of a mesh, which it puts in an order of its own.
#[derive(Clone, Debug)]
pub(super) struct Boxes {
    nodes: Vec<Node>,
}

/// The triangles of a mesh with the points they stand on.
#[derive(Clone, Copy)]
pub(super) struct Triangles<'a> {
    pub points: &'a [Point3<f64>],
    pub triangles: &'a [[u32; 3]],
}

impl Triangles<'_> {
    /// The corners of a triangle.
    pub fn corners(&self, index: usize) -> [Point3<f64>; 3] {
        self.triangles[index].map(|point| self.points[point as usize])
    }
}

/// What a tree is built with.
struct Builder<'a> {
    mesh: Triangles<'a>,
    centres: Vec<[f32; 3]>,
    order: Vec<u32>,
    nodes: Vec<Node>,
}

impl Boxes {
    /// Builds the tree, and gives the order in which the triangles have to stand for it.
    pub fn over(mesh: Triangles) -> (Self, Vec<u32>) {
        let count = mesh.triangles.len();
        let centre = |index: usize| {
            let [a, b, c] = mesh.corners(index);
            // Only for sorting: what rounding does here makes no box wrong.
            [0, 1, 2].map(|axis| ((a[axis] + b[axis] + c[axis]) / 3.0) as f32)
        };
        let order = (0..u32::try_from(count).unwrap_or(u32::MAX)).collect();
        let nodes = Vec::with_capacity(2 * count.div_ceil(LEAF) + 2);
        let mut builder = Builder { mesh, centres: (0..count).map(centre).collect(), order, nodes };
        if count > 0 {
            builder.build(0, count);
        }
        builder.nodes.shrink_to_fit();
        (Self { nodes: builder.nodes }, builder.order)
    }

    /// How many bytes the tree takes.
    pub fn bytes(&self) -> usize {
        self.nodes.capacity() * size_of::<Node>()
    }

    /// The nearest places of a segment and the triangles, where they are nearer than `limit_mm`.
    pub fn nearest(&self, mesh: Triangles, (p, q): (&Point3<f64>, &Point3<f64>), limit_mm: f64) -> Option<Near> {
        let probe = Probe::of(p, q);
        let mut best = None;
        let mut limit_squared = limit_mm * limit_mm;
        let mut open: Vec<(f64, u32)> = Vec::with_capacity(64);
        if let Some(root) = self.nodes.first() {
            open.push((probe.at_least_squared(root), 0));
        }
        while let Some((at_least, index)) = open.pop() {
            if at_least >= limit_squared {
                continue;
            }
            let node = &self.nodes[index as usize];
            if node.count > 0 {
                for triangle in node.first..node.first + node.count {
                    let near = nearest_to_triangle((p, q), &mesh.corners(triangle as usize));
                    if near.squared < limit_squared {
                        limit_squared = near.squared;
                        best = Some(near);
                    }
                }
                continue;
            }
            let children = [index + 1, node.first].map(|child| {
                let bound = probe.at_least_squared(&self.nodes[child as usize]);
                (bound, child)
            });
            let [near, far] = if children[0].0 <= children[1].0 { children } else { [children[1], children[0]] };
            open.extend([far, near].into_iter().filter(|child| child.0 < limit_squared));
        }
        best
    }

    /// Visits the triangles whose boxes a ray may meet, each by its number.
    pub fn along_ray(&self, from: &Point3<f64>, direction: &Vector3<f64>, visit: &mut impl FnMut(usize)) {
        let mut open = vec![0_u32];
        while let Some(index) = open.pop() {
            let Some(node) = self.nodes.get(index as usize) else { continue };
            if !node.may_meet(from, direction) {
                continue;
            }
            if node.count > 0 {
                (node.first..node.first + node.count).for_each(|triangle| visit(triangle as usize));
            } else {
                open.extend([index + 1, node.first]);
            }
        }
    }
}

impl Builder<'_> {
    /// Builds the node over a range of the order; gives its number.
    fn build(&mut self, from: usize, to: usize) -> u32 {
        let place = self.nodes.len();
        let number = |index: usize| u32::try_from(index).unwrap_or(u32::MAX);
        let mut node = Node { low: [f32::INFINITY; 3], first: number(from), high: [f32::NEG_INFINITY; 3], count: 0 };
        self.nodes.push(node);
        if to - from <= LEAF {
            node.count = number(to - from);
            for index in from..to {
                for corner in self.mesh.corners(self.order[index] as usize) {
                    node.take(&corner);
                }
            }
        } else {
            let middle = from.midpoint(to);
            let axis = self.longest_axis(from, to);
            let centres = &self.centres;
            let along = |index: &u32| centres[*index as usize][axis];
            self.order[from..to].select_nth_unstable_by(middle - from, |a, b| along(a).total_cmp(&along(b)));
            let first = self.build(from, middle);
            node.first = self.build(middle, to);
            for child in [first, node.first] {
                node.join(&self.nodes[child as usize]);
            }
        }
        self.nodes[place] = node;
        number(place)
    }

    /// The axis along which the centres are spread the most.
    fn longest_axis(&self, from: usize, to: usize) -> usize {
        let (mut low, mut high) = ([f32::INFINITY; 3], [f32::NEG_INFINITY; 3]);
        for index in &self.order[from..to] {
            for (axis, at) in self.centres[*index as usize].iter().enumerate() {
                low[axis] = low[axis].min(*at);
                high[axis] = high[axis].max(*at);
            }
        }
        let spread = |axis: &usize| high[*axis] - low[*axis];
        (0..3).max_by(|a, b| spread(a).total_cmp(&spread(b))).unwrap_or(0)
    }
}

impl Node {
    /// Grows to hold a point, outwards to the next number of single precision.
    fn take(&mut self, point: &Point3<f64>) {
        for axis in 0..3 {
            let at = point[axis] as f32;
            self.low[axis] = self.low[axis].min(if f64::from(at) > point[axis] { at.next_down() } else { at });
            self.high[axis] = self.high[axis].max(if f64::from(at) < point[axis] { at.next_up() } else { at });
        }
    }

    fn join(&mut self, other: &Self) {
        for axis in 0..3 {
            self.low[axis] = self.low[axis].min(other.low[axis]);
            self.high[axis] = self.high[axis].max(other.high[axis]);
        }
    }

    fn may_meet(&self, from: &Point3<f64>, direction: &Vector3<f64>) -> bool {
        let (mut enters, mut leaves) = (0.0_f64, f64::INFINITY);
        for axis in 0..3 {
            let (low, high) = (f64::from(self.low[axis]), f64::from(self.high[axis]));
            if direction[axis] == 0.0 {
                if from[axis] < low || from[axis] > high {
                    return false;
                }
                continue;
            }
            let one = (low - from[axis]) / direction[axis];
            let two = (high - from[axis]) / direction[axis];
            enters = enters.max(one.min(two));
            leaves = leaves.min(one.max(two));
        }
        // A share more for what division rounds off.
        enters <= leaves * (1.0 + 1e-12) + 1e-9
    }
}

/// A segment, made ready to be held against many boxes.
struct Probe {
    from: Point3<f64>,
    along: Vector3<f64>,
    length_squared: f64,
    low: Point3<f64>,
    high: Point3<f64>,
}

impl Probe {
    fn of(p: &Point3<f64>, q: &Point3<f64>) -> Self {
        let along = q - p;
        let (low, high) = (p.coords.inf(&q.coords), p.coords.sup(&q.coords));
        Self { from: *p, along, length_squared: along.norm_squared(), low: low.into(), high: high.into() }
    }

    /// A squared distance that nothing in the box comes below: that of the two boxes, or of the segment and the ball
    /// round the box, which of a long slanting segment tells more.
    fn at_least_squared(&self, node: &Node) -> f64 {
        let (mut boxes, mut half_squared) = (0.0, 0.0);
        let mut centre = Point3::origin();
        for axis in 0..3 {
            let (low, high) = (f64::from(node.low[axis]), f64::from(node.high[axis]));
            let apart = (low - self.high[axis]).max(self.low[axis] - high).max(0.0);
            boxes += apart * apart;
            let half = (high - low) / 2.0;
            half_squared += half * half;
            centre[axis] = (low + high) / 2.0;
        }
        if self.length_squared == 0.0 {
            return boxes;
        }
        let to = centre - self.from;
        let share = (to.dot(&self.along) / self.length_squared).clamp(0.0, 1.0);
        let apart_squared = (to - self.along * share).norm_squared();
        if apart_squared <= half_squared {
            return boxes;
        }
        let ball = apart_squared.sqrt() - half_squared.sqrt();
        // A share less for what the roots round off.
        boxes.max(ball * ball * (1.0 - 1e-12))
    }
}
