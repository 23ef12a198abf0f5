//! A comparison that is worked out on a thread of its own, so that a long part does not stop the window.

use std::sync::Mutex;
use std::sync::mpsc::{Receiver, channel};

use elbowroom_workbench::Workbench;

use super::Model;

/// A comparison under way. Dropping it lets go of the result.
pub(super) struct Background {
    /// What is being compared.
    pub key: u64,
    /// Behind a lock, as the window's world may hand the panels' state from thread to thread.
    result: Mutex<Receiver<Model>>,
}

impl Background {
    /// Starts comparing what the workbench shows now, and wakes the window when it is done.
    pub fn start(workbench: &Workbench, context: &egui::Context) -> Self {
        let (part, shop) = (workbench.part().clone(), workbench.shop().clone());
        let solved = workbench.solved().clone();
        let context = context.clone();
        let (sender, result) = channel();
        std::thread::spawn(move || {
            // Where nobody waits any more there is nobody to tell.
            let _ = sender.send(Model::made(&part, &shop, &solved));
            context.request_repaint();
        });
        Self { key: workbench.revision(), result: Mutex::new(result) }
    }

    /// The result, once it is there.
    pub fn finished(&self) -> Option<Model> {
        self.result.lock().ok()?.try_recv().ok()
    }
}
