//! How a selection follows the part through an edit: ids stay with what they name, so that only what is named from one
//! end of the tube is named anew where the tube is turned round.

use elbowroom_bending::{NodeId, Numbering};
use elbowroom_geometry::HandleId;

use crate::{Selection, Target};

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

    /// The same selection after the edit. What is gone is still in it, for whoever holds it to let go.
    pub fn selection(&self, selection: &Selection<NodeId>) -> Selection<NodeId> {
        if self.turned_round { selection.mapped(|target| Some(self.turned(target))) } else { selection.clone() }
    }

    /// What a target is called from the other end of the tube.
    fn turned(&self, target: Target<NodeId>) -> Target<NodeId> {
        match target {
            Target::Bend(_) | Target::Vertex(_) => target,
            // The place that a straight leads to lies at its other end now.
            Target::Straight(id) => Target::Straight(match self.before.straight_at(id) {
                Some(0) => self.before.start(),
                Some(straight) => self.before.bend(straight - 1),
                None => NodeId::NOWHERE,
            }),
            Target::Handle(handle) => Target::Handle(match handle {
                HandleId::Start => HandleId::Finish,
                HandleId::Finish => HandleId::Start,
                HandleId::Vertex(bend) => HandleId::Vertex(bend),
                HandleId::ArcStart(bend) => HandleId::ArcEnd(bend),
                HandleId::ArcEnd(bend) => HandleId::ArcStart(bend),
            }),
        }
    }

    /// The bends and vertices that were put in between those of before; none where others are gone, or
    /// where the path has taken another form.
    pub fn newcomers(&self) -> Selection<NodeId> {
        let same_form = (self.before.vertices() == 0) == (self.after.vertices() == 0);
        if !same_form || self.before.ids().iter().any(|id| self.after.place(*id).is_none()) {
            return Selection::default();
        }
        let fresh = self.after.ids().iter().filter(|id| self.before.place(**id).is_none());
        Selection::of(fresh.map(|id| Target::Bend(*id)).collect())
    }
}
