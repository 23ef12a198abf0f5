//! The steps taken, so that every one can be taken back to the bit.

use std::sync::Arc;

use elbowroom_bending::{Shop, System};

/// Which way through the history.
#[derive(Clone, Copy)]
pub(crate) enum Way {
    /// Take the last step back.
    Back,
    /// Make the step taken back last again.
    Forth,
}

/// One step: what it is called, and what lies on its other side.
struct Step {
    label: String,
    system: Arc<System>,
    /// The shop, where the step changed it.
    shop: Option<Arc<Shop>>,
}

/// Steps that can be taken back, and steps that can be made again. Unlimited: a step holds its tubes and
/// shop by reference, so nothing can come out different on the way back.
#[derive(Default)]
pub(super) struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
}

impl History {
    /// Notes a step that led away from `before`, and from a shop where it changed that. What had been taken back is
    /// forgotten.
    pub fn push(&mut self, label: String, before: Arc<System>, shop: Option<Arc<Shop>>) {
        self.undone.clear();
        self.done.push(Step { label, system: before, shop });
    }

    /// Whether there is a step that way, and the shop on its other side where it changes.
    pub fn next(&self, way: Way) -> Option<Option<&Arc<Shop>>> {
        let step = match way {
            Way::Back => self.done.last(),
            Way::Forth => self.undone.last(),
        };
        step.map(|step| step.shop.as_ref())
    }

    /// Goes over the next step that way, from the tubes and shop of `now`; gives what lies on its other side.
    pub fn cross(&mut self, way: Way, now: (Arc<System>, Arc<Shop>)) -> Option<(Arc<System>, Option<Arc<Shop>>)> {
        let (from, to) = match way {
            Way::Back => (&mut self.done, &mut self.undone),
            Way::Forth => (&mut self.undone, &mut self.done),
        };
        let Step { label, system, shop } = from.pop()?;
        let shop_now = shop.as_ref().map(|_| now.1);
        to.push(Step { label, system: now.0, shop: shop_now });
        Some((system, shop))
    }

    /// Forgets the steps that changed the shop: another one is used now. They left the tubes as they are but for
    /// the name of a die set, and every other step holds its own tubes whole, so that those still fit together.
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
