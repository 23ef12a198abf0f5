//! What is selected and what lies under the pointer, the same in scene, strip and table: held by ids, which stay with
//! what they name through every edit, and counted anew for whoever shows it.

use std::collections::HashSet;
use std::hash::Hash;

use elbowroom_bending::{NodeId, Numbering};
use elbowroom_geometry::HandleId;

/// Something a person can point at. Whoever draws a part counts its bends, straights and vertices from 0; straight k
/// lies before bend k and the last one is the tail. Whoever asks for something or keeps it beyond a frame names them by
/// [`NodeId`]; a straight is named by the place it leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Target<Node = usize> {
    /// A straight.
    Straight(Node),
    /// A bend: its arc, its row, its vertex.
    Bend(Node),
    /// A handle in the scene.
    Handle(HandleId<Node>),
    /// A vertex of a path in vertex form that carries no bend.
    Vertex(Node),
}

impl<Node> Target<Node> {
    /// The bend that it is, or of which it is a handle.
    pub fn bend(self) -> Option<Node> {
        match self {
            Self::Bend(bend) => Some(bend),
            Self::Handle(handle) => handle.bend(),
            Self::Straight(_) | Self::Vertex(_) => None,
        }
    }
}

impl Target {
    /// The same by its id. What the part does not have gets an id that names nothing.
    pub fn named(self, nodes: &Numbering) -> Target<NodeId> {
        match self {
            Self::Straight(straight) => Target::Straight(nodes.straight(straight)),
            Self::Bend(bend) => Target::Bend(nodes.bend(bend)),
            Self::Handle(handle) => Target::Handle(nodes.handle(handle)),
            Self::Vertex(vertex) => Target::Vertex(nodes.vertex(vertex)),
        }
    }
}

impl Target<NodeId> {
    /// The same as a part counts it; `None` where it is gone. A bend that was turned to nothing is the vertex that it left,
    /// and the other way round.
    pub fn counted(self, nodes: &Numbering) -> Option<Target> {
        match self {
            Self::Straight(id) => nodes.straight_at(id).map(Target::Straight),
            Self::Bend(id) | Self::Vertex(id) => place(id, nodes),
            Self::Handle(handle) => match nodes.handle_at(handle) {
                Some(handle) => Some(Target::Handle(handle)),
                None => place(handle.bend()?, nodes),
            },
        }
    }
}

fn place(id: NodeId, nodes: &Numbering) -> Option<Target> {
    if let Some(bend) = nodes.bend_at(id) {
        return Some(Target::Bend(bend));
    }
    let vertex = nodes.vertex_at(id)?;
    Some(match vertex {
        0 => Target::Handle(HandleId::Start),
        last if last + 1 == nodes.vertices() => Target::Handle(HandleId::Finish),
        _ => Target::Vertex(vertex),
    })
}

/// How a click changes the selection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SelectMode {
    /// Select this alone.
    Only,
    /// Add it, or take it out if it is in.
    Toggle,
    /// Add it; where it is in, it stays in.
    Add,
}

/// The selection, in the order in which it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Selection<Node = usize> {
    targets: Vec<Target<Node>>,
}

impl<Node> Default for Selection<Node> {
    fn default() -> Self {
        Self { targets: Vec::new() }
    }
}

impl<Node: Copy + Eq> Selection<Node> {
    /// All that is selected.
    pub fn targets(&self) -> &[Target<Node>] {
        &self.targets
    }

    /// Whether `target` is selected.
    pub fn contains(&self, target: Target<Node>) -> bool {
        self.targets.contains(&target)
    }

    /// The target that was selected last.
    pub fn primary(&self) -> Option<Target<Node>> {
        self.targets.last().copied()
    }

    /// The bend that was selected last, by itself or by its handle.
    pub fn bend(&self) -> Option<Node> {
        self.targets.iter().rev().find_map(|target| target.bend())
    }

    /// A selection of these, the last one made last.
    pub fn of(targets: Vec<Target<Node>>) -> Self {
        Self { targets }
    }

    /// The selection with each target named otherwise, or dropped.
    pub fn mapped<Other: Copy + Eq + Hash>(
        &self,
        name: impl FnMut(Target<Node>) -> Option<Target<Other>>,
    ) -> Selection<Other> {
        let mut seen = HashSet::with_capacity(self.targets.len());
        let mut targets: Vec<_> = self.targets.iter().copied().filter_map(name).collect();
        targets.retain(|target| seen.insert(*target));
        Selection { targets }
    }

    /// Selects by a click.
    pub fn select(&mut self, target: Target<Node>, mode: SelectMode) {
        let was_in = self.contains(target);
        match mode {
            SelectMode::Only => self.targets.clear(),
            SelectMode::Toggle => self.targets.retain(|other| *other != target),
            SelectMode::Add => {}
        }
        if mode == SelectMode::Only || !was_in {
            self.targets.push(target);
        }
    }
}

/// The selection as it is held, and as the part that is shown counts it.
#[derive(Debug, Default)]
pub(crate) struct Chosen {
    held: Selection<NodeId>,
    counted: Selection,
}

impl Chosen {
    /// By ids.
    pub fn held(&self) -> &Selection<NodeId> {
        &self.held
    }

    /// As the part that is shown counts it.
    pub fn counted(&self) -> &Selection {
        &self.counted
    }

    /// Holds another selection on a part; what that part does not have is let go.
    pub fn hold(&mut self, selection: &Selection<NodeId>, nodes: &Numbering) {
        self.counted = selection.mapped(|target| target.counted(nodes));
        self.held = self.counted.mapped(|target| Some(target.named(nodes)));
    }
}
