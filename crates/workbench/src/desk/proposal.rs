//! A change that is pointed at and not made: what the tube would be by it.

use std::sync::Arc;

use elbowroom_bending::{Edit, Part, Shop, Solved, solve};

/// A change to the tube that is worked on, with what would come of it.
#[derive(Clone, Debug)]
pub struct Proposal {
    edit: Edit,
    /// The part that it was worked out for.
    part: Arc<Part>,
    /// What would be drawn; `None` where the centreline would stay as it is, or the part refuses the change.
    solved: Option<Arc<Solved>>,
}

impl Proposal {
    /// What a change would make of a part.
    pub(crate) fn of(edit: Edit, part: &Arc<Part>, shop: &Shop) -> Self {
        let changed = edit.applied_to(part).ok().filter(|changed| changed.path != part.path);
        let solved = changed.map(|changed| Arc::new(solve(&changed, shop)));
        Self { edit, part: Arc::clone(part), solved }
    }

    /// Whether it is this change to this part.
    pub(crate) fn is(&self, edit: &Edit, part: &Arc<Part>) -> bool {
        Arc::ptr_eq(&self.part, part) && self.edit == *edit
    }

    /// What would be drawn, where that is other than what is there.
    pub fn solved(&self) -> Option<&Arc<Solved>> {
        self.solved.as_ref()
    }
}
