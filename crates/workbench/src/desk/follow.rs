//! How a selection follows the part through an edit: targets keep to what they were put on, by its id, and those
//! that are gone drop out.

use elbowroom_bending::{NodeId, Numbering};
use elbowroom_geometry::HandleId;

use crate::Target;

/// Leads from the targets of one part to those of another state of it.
pub(crate) struct Follow<'a> {
    before: &'a Numbering,
    after: &'a Numbering,
    /// Whether the start of one is the finish of the other.
    turned_round: bool,
}

impl<'a> Follow<'a> {
    /// From a part to the part that an edit, or taking one back, made of it.
    pub fn new(before: &'a Numbering, after: &'a Numbering) -> Self {
        let turned_round =
            before.start() != before.finish() && before.start() == after.finish() && before.finish() == after.start();
        Self { before, after, turned_round }
    }

    /// The same target after the edit; `None` where it is gone.
    pub fn target(&self, target: Target) -> Option<Target> {
        match target {
            Target::Bend(bend) => self.place(self.before.bend(bend)),
            Target::Vertex(vertex) => self.place(self.before.vertex(vertex)),
            Target::Straight(straight) => self.straight(straight).map(Target::Straight),
            Target::Handle(handle) => self.handle(handle).map(Target::Handle),
        }
    }

    /// The bends and vertices that were put in between those of before; none where others are gone, or
    /// where the path has taken another form.
    pub fn newcomers(&self) -> Vec<Target> {
        let same_form = (self.before.vertices() == 0) == (self.after.vertices() == 0);
        if !same_form || self.before.ids().iter().any(|id| self.after.place(*id).is_none()) {
            return Vec::new();
        }
        let fresh = self.after.ids().iter().filter(|id| self.before.place(**id).is_none());
        fresh.filter_map(|id| self.place(*id)).collect()
    }

    fn place(&self, id: NodeId) -> Option<Target> {
        if let Some(bend) = self.after.bend_at(id) {
            return Some(Target::Bend(bend));
        }
        let vertex = self.after.vertex_at(id)?;
        Some(match vertex {
            0 => Target::Handle(HandleId::Start),
            last if last + 1 == self.after.vertices() => Target::Handle(HandleId::Finish),
            _ => Target::Vertex(vertex),
        })
    }

    /// A straight is known by the bend before it, the first one by the lead end. On a part turned round that
    /// bend lies behind it.
    fn straight(&self, straight: usize) -> Option<usize> {
        if straight > self.before.bends() {
            return None;
        }
        let before = straight.checked_sub(1).map(|bend| self.before.bend(bend));
        match (before, self.turned_round) {
            (None, false) => Some(0),
            (None, true) => Some(self.after.bends()),
            (Some(bend), false) => self.after.bend_at(bend).map(|bend| bend + 1),
            (Some(bend), true) => self.after.bend_at(bend),
        }
    }

    fn handle(&self, handle: HandleId) -> Option<HandleId> {
        let led = handle.try_map(|bend| self.after.bend_at(self.before.bend(bend)))?;
        Some(match led {
            _ if !self.turned_round => led,
            HandleId::Start => HandleId::Finish,
            HandleId::Finish => HandleId::Start,
            HandleId::Vertex(bend) => HandleId::Vertex(bend),
            HandleId::ArcStart(bend) => HandleId::ArcEnd(bend),
            HandleId::ArcEnd(bend) => HandleId::ArcStart(bend),
        })
    }
}
