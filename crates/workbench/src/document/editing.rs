//! Edits: made, previewed, taken back; and the selection that follows them.

use std::sync::Arc;

use elbowroom_bending::{Edit, EditRefusal, Part, Path, Solved, solve};
use elbowroom_geometry::HandleId;

use crate::document::follow::Follow;
use crate::{Selection, Target, Workbench};

/// A change that is shown and not made.
pub(crate) struct Preview {
    /// What the step will be called.
    label: String,
    /// The selection to go back to when it is dropped.
    selection: Selection,
}

impl Preview {
    /// Goes back to another selection when dropped.
    pub fn select_instead(&mut self, selection: Selection) {
        self.selection = selection;
    }
}

/// Which way through the history.
#[derive(Clone, Copy)]
pub(crate) enum Way {
    /// Take the last step back.
    Back,
    /// Make the step taken back last again.
    Forth,
}

impl Workbench {
    /// Makes a change as one step. An edit that changes nothing makes no step.
    pub(crate) fn edit(&mut self, edit: &Edit) {
        self.drop_preview();
        match self.made(edit) {
            Ok(part) => {
                self.show(Arc::new(part));
                self.step(edit.label(&self.committed));
            }
            Err(refusal) => self.refuse_edit(sentence(&refusal.said(self.committed.units))),
        }
    }

    /// The part with a change made. Its new places take no id that any place of the part has ever had, not even
    /// one that was taken back.
    fn made(&self, edit: &Edit) -> Result<Part, EditRefusal> {
        if self.free_id <= self.committed.nodes.next(0) {
            return edit.applied_to(&self.committed);
        }
        let mut part = Part::clone(&self.committed);
        part.nodes.keep_clear_of(self.free_id);
        edit.applied_to(&part)
    }

    /// Shows a change without making it.
    pub(crate) fn show_preview(&mut self, edit: &Edit) {
        let selection = self.preview.take().map_or_else(|| self.selection.clone(), |preview| preview.selection);
        match self.made(edit) {
            Ok(part) => {
                self.forget_refusal();
                let part = Arc::new(part);
                let solved = Arc::new(solve(&part, &self.shop));
                let follow = Follow::new(&self.committed_solved.nodes, &solved.nodes);
                self.selection = selection.mapped(|target| follow.target(target));
                self.put(part, solved);
                self.preview = Some(Preview { label: edit.label(&self.committed), selection });
            }
            Err(refusal) => {
                // What cannot be made is not shown either: a release must not make the change before it.
                self.preview = Some(Preview { label: String::new(), selection });
                self.drop_preview();
                self.refuse_edit(sentence(&refusal.said(self.committed.units)));
            }
        }
    }

    /// Makes the change that is shown.
    pub(crate) fn commit_preview(&mut self) {
        if let Some(preview) = self.preview.take() {
            self.step(preview.label);
        }
    }

    /// Shows the part itself again.
    pub(crate) fn drop_preview(&mut self) {
        if let Some(preview) = self.preview.take() {
            self.selection = preview.selection;
            let (part, solved) = (Arc::clone(&self.committed), Arc::clone(&self.committed_solved));
            self.put(part, solved);
            // What was selected during the preview may have been there only in the preview.
            let selection = std::mem::take(&mut self.selection);
            self.selection = selection.mapped(|target| self.has(target).then_some(target));
        }
    }

    /// Goes a step back or forth. A preview is only dropped: it is no step yet.
    pub(crate) fn travel(&mut self, way: Way) {
        if self.preview.is_some() {
            self.drop_preview();
            return;
        }
        let Some((part, shop)) = self.history.next(way) else { return };
        let now = (Arc::clone(&self.committed), Arc::clone(&self.shop));
        if let Some(shop) = shop {
            if let Err(problem) = self.keep_shop(&shop) {
                return self.refuse_edit(format!("The shop stays as it is. {}", sentence(&problem)));
            }
            self.put_shop(shop);
        }
        self.history.cross(way, (&now.0, &now.1));
        if !Arc::ptr_eq(&part, &self.committed) {
            self.show(Arc::clone(&part));
        }
        self.settle(part);
    }

    /// Removes the bends and vertices that are selected, as one step.
    pub(crate) fn delete_selection(&mut self) {
        self.drop_preview();
        let mut bends = Vec::new();
        let mut vertices = Vec::new();
        for target in self.selection.targets() {
            match *target {
                Target::Bend(bend)
                | Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend) | HandleId::ArcEnd(bend)) => {
                    bends.push(bend);
                }
                Target::Vertex(vertex) => vertices.push(vertex),
                Target::Straight(_) | Target::Handle(HandleId::Start | HandleId::Finish) => {}
            }
        }
        bends.sort_unstable();
        bends.dedup();
        let nodes = &self.committed_solved.nodes;
        let remove_vertices =
            |which: Vec<usize>| Edit::RemoveVertices(which.into_iter().map(|vertex| nodes.vertex(vertex)).collect());
        let edit = match (bends.is_empty(), vertices.is_empty()) {
            (true, true) if self.selection.targets().is_empty() => return self.refuse_edit("Nothing is selected."),
            (true, true) => {
                return self.refuse_edit("Straights and ends cannot be removed; select a bend or a vertex.");
            }
            (false, true) => Edit::RemoveBends(bends.into_iter().map(|bend| nodes.bend(bend)).collect()),
            (true, false) => remove_vertices(vertices),
            (false, false) => {
                let of_bend = &self.committed_solved.form.vertex_of_bend;
                vertices.extend(bends.iter().filter_map(|&bend| of_bend.get(bend)));
                remove_vertices(vertices)
            }
        };
        self.edit(&edit);
    }

    /// Shows a part; the selection follows it.
    fn show(&mut self, part: Arc<Part>) {
        let solved = Arc::new(solve(&part, &self.shop));
        let follow = Follow::new(&self.solved.nodes, &solved.nodes);
        self.selection = self.selection.mapped(|target| follow.target(target));
        self.put(part, solved);
    }

    /// Makes what is shown a step of history, if it changes anything.
    fn step(&mut self, label: String) {
        if *self.part == *self.committed {
            let (part, solved) = (Arc::clone(&self.committed), Arc::clone(&self.committed_solved));
            self.put(part, solved);
            return;
        }
        let follow = Follow::new(&self.committed_solved.nodes, &self.solved.nodes);
        let newcomers = follow.newcomers();
        if !newcomers.is_empty() {
            self.selection = Selection::of(newcomers);
        }
        self.history.push(label, Arc::clone(&self.committed));
        self.free_id = self.free_id.max(self.part.nodes.next(0));
        self.settle(Arc::clone(&self.part));
    }

    /// Takes the part that is shown as the part itself.
    fn settle(&mut self, part: Arc<Part>) {
        self.committed = part;
        self.committed_solved = Arc::clone(&self.solved);
        self.forget_refusal();
        self.note_change();
    }

    /// Puts part and solution before every view.
    pub(crate) fn put(&mut self, part: Arc<Part>, solved: Arc<Solved>) {
        if Arc::ptr_eq(&self.part, &part) && Arc::ptr_eq(&self.solved, &solved) {
            return;
        }
        (self.part, self.solved) = (part, solved);
        self.judge_again();
        self.hover = self.hover.filter(|target| self.has(*target));
    }

    /// Whether the shown part has this target.
    pub(crate) fn has(&self, target: Target) -> bool {
        let bends = self.solved.centreline.bends();
        match target {
            Target::Straight(straight) => straight <= bends,
            Target::Bend(bend)
            | Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend) | HandleId::ArcEnd(bend)) => {
                bend < bends
            }
            Target::Handle(HandleId::Start | HandleId::Finish) => true,
            Target::Vertex(vertex) => match &self.part.path {
                Path::Vertices(path) => vertex < path.points().len(),
                Path::Bends(_) => false,
            },
        }
    }
}

/// The same words as a sentence: a capital at the head, a full stop at the end.
pub(crate) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let head: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    let stop = if words.ends_with(['.', '?']) { "" } else { "." };
    format!("{head}{}{stop}", letters.as_str())
}
