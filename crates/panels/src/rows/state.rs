//! What is being typed into the table: texts that are not yet, or cannot be, edits.

use std::collections::BTreeMap;

use elbowroom_bending::Edit;
use elbowroom_workbench::{Command, Table};

use super::{Cell, CellError, Model, PasteError};

/// A text typed into a cell, and what it would do.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Entry {
    pub text: String,
    pub outcome: Result<Edit, CellError>,
}

/// What is being typed into the table.
#[derive(Clone, Debug, Default)]
pub struct State {
    /// Texts that differ from what the part holds. All but the active one are in error.
    entries: BTreeMap<Cell, Entry>,
    /// The cell that has the keyboard.
    pub(super) active: Option<Cell>,
    /// The cell that is to get the keyboard.
    pub(super) go_to: Option<Cell>,
    /// What was wrong with the last paste.
    pub(super) paste_error: Option<PasteError>,
    /// Whether the pointer was over a row, so that leaving is told once.
    pub(super) was_hovered: bool,
    /// The row that was selected last frame, to scroll only when it changes.
    pub(super) last_primary: Option<usize>,
    /// How far the table is scrolled and how much of it shows, points.
    pub(super) scrolled: (f32, f32),
    /// The rows that the texts belong to.
    of: (Table, usize),
}

impl State {
    /// The text typed into a cell and not yet taken.
    pub(super) fn entry(&self, cell: Cell) -> Option<&Entry> {
        self.entries.get(&cell)
    }

    /// What is wrong with the text in a cell.
    pub fn error(&self, cell: Cell) -> Option<&CellError> {
        self.entries.get(&cell).and_then(|entry| entry.outcome.as_ref().err())
    }

    /// Drops texts that belonged to rows which are there no longer or are other rows now.
    pub(super) fn follow(&mut self, model: &Model) {
        self.go_to = self.go_to.filter(|cell| model.exists(*cell));
        if self.of != (model.table, model.lines()) {
            self.of = (model.table, model.lines());
            self.entries.clear();
            self.active = self.active.filter(|cell| model.exists(*cell));
        }
    }

    /// Takes a text as it is typed: previews what it would do, or drops the preview and keeps the error.
    pub(super) fn typed(&mut self, cell: Cell, text: String, model: &Model) -> Vec<Command> {
        let tried = model.edit(cell, &text).and_then(|edit| {
            let part = edit.applied_to(&model.part).map_err(|refusal| CellError::Refused(refusal.said(model.unit)))?;
            Ok((edit, part.path.bend_form().path.rows().len()))
        });
        // A text that would take bends away, as an angle of 0 does, is not previewed: the very row that is
        // typed into would go while the typing goes on.
        let command = match &tried {
            Ok((edit, bends)) if *bends == model.bends() => Command::Preview(edit.clone()),
            _ => Command::DropPreview,
        };
        let outcome = tried.map(|(edit, _)| edit);
        self.active = Some(cell);
        self.entries.insert(cell, Entry { text, outcome });
        vec![command]
    }

    /// Makes what was typed into a cell one step of history. Text in error stays where it is.
    ///
    /// # Errors
    /// Nothing but the fact that the cell is in error and must not be left by the keyboard.
    pub(super) fn commit(&mut self, cell: Cell) -> Result<Vec<Command>, ()> {
        match self.entries.get(&cell).map(|entry| entry.outcome.clone()) {
            None => Ok(Vec::new()),
            Some(Err(_)) => Err(()),
            Some(Ok(edit)) => {
                self.entries.remove(&cell);
                // The preview is dropped first, so that the step counts from the part itself.
                Ok(vec![Command::DropPreview, Command::Edit(edit)])
            }
        }
    }

    /// Escape: forgets what was typed into a cell.
    pub(super) fn drop(&mut self, cell: Cell) -> Vec<Command> {
        if self.entries.remove(&cell).is_some() { vec![Command::DropPreview] } else { Vec::new() }
    }
}
