//! A tree of boxes over the elements in their order along the tube, which is an order in space as well.

use crate::{BoundingBox, Element};

/// The elements that have a length, and the boxes over them.
pub(super) struct Tree {
    /// Numbers of the elements in the leaves.
    pub leaves: Vec<usize>,
    /// A full binary tree in heap order: children of `k` are `2k + 1` and `2k + 2`.
    boxes: Vec<BoundingBox>,
}

/// A node of the tree: its place in the heap and the leaves it covers.
#[derive(Clone, Copy)]
struct Node {
    place: usize,
    from: usize,
    to: usize,
}

impl Node {
    fn is_leaf(self) -> bool {
        self.to - self.from == 1
    }

    fn children(self) -> [Self; 2] {
        let middle = self.from.midpoint(self.to);
        [
            Self { place: 2 * self.place + 1, from: self.from, to: middle },
            Self { place: 2 * self.place + 2, from: middle, to: self.to },
        ]
    }
}

impl Tree {
    /// Builds the tree. `bound` gives the box of an element.
    pub fn of(elements: &[Element], bound: impl Fn(&Element) -> BoundingBox) -> Self {
        let leaves: Vec<usize> = (0..elements.len()).filter(|index| elements[*index].length_mm > 0.0).collect();
        let empty = BoundingBox::of_point(elements[0].start.origin);
        let mut tree = Self { boxes: vec![empty; 4 * leaves.len().next_power_of_two()], leaves };
        if let Some(root) = tree.root() {
            tree.fill(root, &|leaf| bound(&elements[leaf]));
        }
        tree
    }

    fn root(&self) -> Option<Node> {
        (!self.leaves.is_empty()).then_some(Node { place: 0, from: 0, to: self.leaves.len() })
    }

    fn fill(&mut self, node: Node, bound: &impl Fn(usize) -> BoundingBox) -> BoundingBox {
        let held = if node.is_leaf() {
            bound(self.leaves[node.from])
        } else {
            let [low, high] = node.children();
            self.fill(low, bound).union(&self.fill(high, bound))
        };
        self.boxes[node.place] = held;
        held
    }

    /// Visits every pair of elements (the first one before or the same as the second) whose boxes come
    /// within `reach_mm`, until `visit` returns `false`.
    pub fn pairs_within(&self, reach_mm: f64, visit: &mut impl FnMut(usize, usize) -> bool) {
        if let Some(root) = self.root() {
            self.within(root, reach_mm * reach_mm, visit);
        }
    }

    fn within(&self, node: Node, reach_squared: f64, visit: &mut impl FnMut(usize, usize) -> bool) -> bool {
        if node.is_leaf() {
            return visit(self.leaves[node.from], self.leaves[node.from]);
        }
        let [low, high] = node.children();
        self.within(low, reach_squared, visit)
            && self.within(high, reach_squared, visit)
            && self.between(low, high, reach_squared, visit)
    }

    fn between(&self, a: Node, b: Node, reach_squared: f64, visit: &mut impl FnMut(usize, usize) -> bool) -> bool {
        if self.boxes[a.place].distance_squared(&self.boxes[b.place]) > reach_squared {
            return true;
        }
        if a.is_leaf() && b.is_leaf() {
            return visit(self.leaves[a.from], self.leaves[b.from]);
        }
        if b.is_leaf() || (!a.is_leaf() && a.to - a.from >= b.to - b.from) {
            a.children().iter().all(|child| self.between(*child, b, reach_squared, visit))
        } else {
            b.children().iter().all(|child| self.between(a, *child, reach_squared, visit))
        }
    }
}
