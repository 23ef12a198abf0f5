//! The steps taken, so that every one can be taken back to the bit.

use std::sync::Arc;

use elbowroom_bending::{Part, Shop};

use crate::document::editing::Way;

/// One step: what it is called, and what lies on its other side.
struct Step {
    label: String,
    part: Arc<Part>,
    /// The shop, where the step changed it.
    shop: Option<Arc<Shop>>,
}

/// Steps that can be taken back, and steps that can be made again. Unlimited: a step holds its part and
/// shop by reference, so nothing is computed on the way back and nothing can come out different.
#[derive(Default)]
pub(crate) struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
}

impl History {
    /// Notes a step that led away from the part `before`. What had been taken back is forgotten.
    pub fn push(&mut self, label: String, before: Arc<Part>) {
        self.undone.clear();
        self.done.push(Step { label, part: before, shop: None });
    }

    /// Notes a step that led away from the shop `before` and left the part as it is.
    pub fn push_shop(&mut self, label: String, part: Arc<Part>, before: Arc<Shop>) {
        self.undone.clear();
        self.done.push(Step { label, part, shop: Some(before) });
    }

    /// What lies on the other side of the next step that way: the part, and the shop where it changes.
    pub fn next(&self, way: Way) -> Option<(Arc<Part>, Option<Arc<Shop>>)> {
        let step = match way {
            Way::Back => self.done.last(),
            Way::Forth => self.undone.last(),
        }?;
        Some((Arc::clone(&step.part), step.shop.clone()))
    }

    /// Goes over the next step that way, from the part and shop of `now`.
    pub fn cross(&mut self, way: Way, now: (&Arc<Part>, &Arc<Shop>)) {
        let (from, to) = match way {
            Way::Back => (&mut self.done, &mut self.undone),
            Way::Forth => (&mut self.undone, &mut self.done),
        };
        if let Some(Step { label, shop, .. }) = from.pop() {
            to.push(Step { label, part: Arc::clone(now.0), shop: shop.map(|_| Arc::clone(now.1)) });
        }
    }

    /// Forgets the steps that changed the shop: another one is used now. They left the part as it is, so the
    /// other steps still fit together.
    pub fn forget_shops(&mut self) {
        self.done.retain(|step| step.shop.is_none());
        self.undone.retain(|step| step.shop.is_none());
    }

    /// What undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.done.last().map(|step| step.label.as_str())
    }

    /// What redo would make again.
    pub fn redo_label(&self) -> Option<&str> {
        self.undone.last().map(|step| step.label.as_str())
    }
}
