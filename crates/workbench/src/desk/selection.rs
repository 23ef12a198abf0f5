//! What is selected and what lies under the pointer, the same in scene, strip and table.

use elbowroom_geometry::HandleId;

/// Something a person can point at. Bends and straights are counted from 0; straight k lies before bend
/// k and the last one is the tail.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Target {
    /// A straight.
    Straight(usize),
    /// A bend: its arc, its row, its vertex.
    Bend(usize),
    /// A handle in the scene.
    Handle(HandleId),
    /// A vertex of a path in vertex form that carries no bend.
    Vertex(usize),
}

/// How a click changes the selection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SelectMode {
    /// Select this alone.
    Only,
    /// Add it, or take it out if it is in.
    Toggle,
}

/// The selection, in the order in which it was made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Selection {
    targets: Vec<Target>,
}

impl Selection {
    /// All that is selected.
    pub fn targets(&self) -> &[Target] {
        &self.targets
    }

    /// Whether `target` is selected.
    pub fn contains(&self, target: Target) -> bool {
        self.targets.contains(&target)
    }

    /// The target that was selected last.
    pub fn primary(&self) -> Option<Target> {
        self.targets.last().copied()
    }

    /// The bend that was selected last, by itself or by its handle.
    pub fn bend(&self) -> Option<usize> {
        self.targets.iter().rev().find_map(|target| match target {
            Target::Bend(bend) => Some(*bend),
            Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend) | HandleId::ArcEnd(bend)) => Some(*bend),
            _ => None,
        })
    }

    /// A selection of these, the last one made last.
    pub fn of(targets: Vec<Target>) -> Self {
        Self { targets }
    }

    /// The selection with each target led elsewhere, or dropped.
    pub fn mapped(&self, lead: impl FnMut(Target) -> Option<Target>) -> Self {
        let mut mapped = Self::default();
        for target in self.targets.iter().copied().filter_map(lead) {
            if !mapped.contains(target) {
                mapped.targets.push(target);
            }
        }
        mapped
    }

    /// Selects by a click.
    pub fn select(&mut self, target: Target, mode: SelectMode) {
        let was_in = self.contains(target);
        match mode {
            SelectMode::Only => self.targets.clear(),
            SelectMode::Toggle => self.targets.retain(|other| *other != target),
        }
        if mode == SelectMode::Only || !was_in {
            self.targets.push(target);
        }
    }

    /// Selects nothing.
    pub fn clear(&mut self) {
        self.targets.clear();
    }

    /// Keeps only what `exists`.
    pub fn retain(&mut self, exists: impl FnMut(&Target) -> bool) {
        self.targets.retain(exists);
    }
}
