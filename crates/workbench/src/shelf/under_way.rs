//! What is known of the part's file, and the saves that are under way.

use std::collections::VecDeque;
use std::sync::Arc;

use elbowroom_bending::System;

use crate::Command;
use crate::shelf::disk::Seen;
use crate::shelf::saver::Saver;

/// What is known of the part's file, and the saves that are under way.
#[derive(Default)]
pub(crate) struct Saving {
    /// What the part's file held when it was read or written here. Empty where that is not known.
    pub seen: Vec<Seen>,
    /// Grows whenever another part is laid on the bench: a save of an earlier one says nothing of it.
    pub bench: u64,
    /// The thread that saves; without one it is done at once.
    pub saver: Option<Saver>,
    pub under_way: VecDeque<UnderWay>,
    /// Whether the program closes when everything is saved.
    pub leaving: bool,
}

/// A save that is under way.
pub(crate) struct UnderWay {
    /// What is saved.
    pub system: Arc<System>,
    /// The count of parts laid on the bench when it was asked for.
    pub bench: u64,
    /// Whether its own file was one of an older format until now.
    pub was_older: bool,
    /// What goes on once it is done.
    pub then: Option<Command>,
}
