//! The workbench: one open part, one shop, and everything that happens to them.

use std::path::PathBuf;
use std::sync::Arc;

use elbowroom_bending::{Part, Shop, Solved, solve};

use crate::{Command, Screen, Selection, Target, ViewCommand};

/// Something only a window can do.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// Ask for a part or points table to open.
    AskOpen,
    /// Ask for a name to save under.
    AskSaveAs,
    /// Ask for a shop file.
    AskShop,
    /// Move the camera.
    View(ViewCommand),
    /// Close the program.
    Quit,
}

/// The open part with its shop, history, selection and screen.
pub struct Workbench {
    committed: Arc<Part>,
    part: Arc<Part>,
    shop: Arc<Shop>,
    solved: Arc<Solved>,
    revision: u64,
    selection: Selection,
    hover: Option<Target>,
    screen: Screen,
    file: Option<PathBuf>,
    requests: Vec<Request>,
}

impl Workbench {
    /// Opens a part on a shop, without a file and without a history.
    pub fn new(part: Part, shop: Shop) -> Self {
        let part = Arc::new(part);
        let solved = Arc::new(solve(&part, &shop));
        Self {
            committed: Arc::clone(&part),
            part,
            shop: Arc::new(shop),
            solved,
            revision: 0,
            selection: Selection::default(),
            hover: None,
            screen: Screen::default(),
            file: None,
            requests: Vec::new(),
        }
    }

    /// The part that is shown: the previewed one while dragging, else the part itself.
    pub fn part(&self) -> &Arc<Part> {
        &self.part
    }

    /// The part without any preview.
    pub fn committed_part(&self) -> &Arc<Part> {
        &self.committed
    }

    /// The shop.
    pub fn shop(&self) -> &Arc<Shop> {
        &self.shop
    }

    /// The shown part, solved.
    pub fn solved(&self) -> &Arc<Solved> {
        &self.solved
    }

    /// Grows whenever part, shop or preview change, so that views know when to follow.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether a preview is shown.
    pub fn previewing(&self) -> bool {
        !Arc::ptr_eq(&self.committed, &self.part)
    }

    /// What is selected.
    pub fn selection(&self) -> &Selection {
        &self.selection
    }

    /// What lies under the pointer.
    pub fn hover(&self) -> Option<Target> {
        self.hover
    }

    /// The state of the screen.
    pub fn screen(&self) -> &Screen {
        &self.screen
    }

    /// The part's own file.
    pub fn file(&self) -> Option<&PathBuf> {
        self.file.as_ref()
    }

    /// Whether there are changes that are in no file.
    pub fn unsaved(&self) -> bool {
        false
    }

    /// What undo would take back, such as `move vertex 3`.
    pub fn undo_label(&self) -> Option<&str> {
        None
    }

    /// What redo would make again.
    pub fn redo_label(&self) -> Option<&str> {
        None
    }

    /// Does what was asked. Refusals become messages on the screen; nothing is lost.
    pub fn perform(&mut self, command: Command) {
        match command {
            Command::Select(target, mode) => self.selection.select(target, mode),
            Command::Hover(target) => self.hover = target,
            Command::View(view) => self.requests.push(Request::View(view)),
            _ => {}
        }
    }

    /// Takes the requests that wait for the window.
    pub fn take_requests(&mut self) -> Vec<Request> {
        std::mem::take(&mut self.requests)
    }
}
