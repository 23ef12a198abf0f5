//! Changes to the document, and what they do on the desk: the selection follows, messages come and go.

use std::sync::Arc;

use elbowroom_bending::text::sentence;
use elbowroom_bending::{Edit, Motion, NodeId, Part, Solved, System, SystemEdit, SystemEvent, TubeId};

use crate::deeds::documents::new_part;
use crate::desk::follow::Follow;
use crate::document::Way;
use crate::{MessageKind, Proposal, Selection, Target, Workbench, vertices_under};

/// What lay on the desk before a change.
struct Before {
    system: Arc<System>,
    tube: TubeId,
    solved: Arc<Solved>,
}

impl Workbench {
    /// Changes the tube that is worked on, as one step. An edit that changes nothing makes no step.
    pub(crate) fn edit(&mut self, edit: &Edit) {
        let part = Arc::clone(self.committed_part());
        self.edit_system(&self.on_active(edit));
        self.tell_what_gave_way(edit, &part);
    }

    /// Says what moved so that what is held could stay. A step after it takes the message away.
    fn tell_what_gave_way(&mut self, edit: &Edit, before: &Part) {
        if let Some(told) = edit.gave_way(before, self.committed_part()) {
            self.say(MessageKind::Done, told);
            self.message_is_of_edit = true;
        }
    }

    /// Makes a change to the system as one step.
    pub(crate) fn edit_system(&mut self, edit: &SystemEdit) {
        self.drop_preview();
        let before = self.before();
        match self.document.edit(edit) {
            Ok(events) => self.stepped(&before, &events),
            Err(refusal) => self.refuse_edit(sentence(&refusal.said(self.system().units()))),
        }
    }

    /// Takes in a further tube, a straight piece of the same kind beside the one that is worked on.
    pub(crate) fn add_tube(&mut self) {
        let there = Arc::clone(self.committed_part());
        let mut part = new_part(there.tube.clone(), there.units);
        part.name = "New tube".to_owned();
        match part.beside(&there) {
            Ok(part) => self.edit_system(&SystemEdit::AddTube(Arc::new(part))),
            Err(refusal) => self.refuse_edit(sentence(&refusal.said(there.units))),
        }
    }

    /// Shows a change to the tube that is worked on without making it.
    pub(crate) fn show_preview(&mut self, edit: &Edit) {
        let selection = self.before_preview.take().unwrap_or_else(|| self.chosen.held().clone());
        match self.document.preview(&self.on_active(edit)) {
            Ok(()) => {
                self.forget_refusal();
                let (committed, shown) = (self.document.committed().solved(), self.document.shown().solved());
                let follow = Follow::new(&committed.nodes, &shown.nodes);
                self.chosen.hold(&follow.selection(&selection), &shown.nodes);
                self.before_preview = Some(selection);
                self.previewed = Some(edit.clone());
                self.show_anew();
            }
            Err(refusal) => {
                self.back_from_preview(&selection);
                self.refuse_edit(sentence(&refusal.said(self.system().units())));
            }
        }
    }

    /// Makes the change that is shown.
    pub(crate) fn commit_preview(&mut self) {
        if self.before_preview.take().is_some() {
            let (edit, part) = (self.previewed.take(), Arc::clone(self.committed_part()));
            let committed = self.document.committed();
            let before = Before {
                system: Arc::clone(&self.document.shown().system),
                tube: committed.system.active(),
                solved: Arc::clone(committed.solved()),
            };
            let events = self.document.commit_preview();
            if events.is_empty() {
                // What was shown is what was there, though not the very same.
                return self.show_anew();
            }
            self.settle(&before, &events);
            if let Some(edit) = edit {
                self.tell_what_gave_way(&edit, &part);
            }
        }
    }

    /// Shows what is committed again.
    pub(crate) fn drop_preview(&mut self) {
        if let Some(selection) = self.before_preview.take() {
            self.document.drop_preview();
            self.back_from_preview(&selection);
        }
    }

    fn back_from_preview(&mut self, selection: &Selection<NodeId>) {
        // What was selected during the preview may have been there only in the preview.
        self.chosen.hold(selection, &self.document.shown().solved().nodes);
        self.show_anew();
    }

    /// Goes a step back or forth. A preview is only dropped: it is no step yet.
    pub(crate) fn travel(&mut self, way: Way) {
        if self.previewing() {
            self.drop_preview();
            return;
        }
        let Some(shop) = self.document.next(way) else { return };
        if let Some(shop) = shop.cloned()
            && let Err(problem) = self.keep_shop(&shop)
        {
            return self.refuse_edit(format!("The shop stays as it is. {}", sentence(&problem)));
        }
        let before = self.before();
        self.document.travel(way);
        self.follow(&before);
        self.show_anew();
        self.forget_refusal();
        self.note_change();
    }

    /// Removes the bends and vertices that are selected, as one step.
    pub(crate) fn delete_selection(&mut self) {
        self.drop_preview();
        let selected = self.chosen.held().targets();
        let vertices: Vec<NodeId> = selected.iter().filter_map(|target| vertex_of(*target)).collect();
        let mut bends: Vec<NodeId> = selected.iter().filter_map(|target| target.bend()).collect();
        bends.sort_unstable();
        bends.dedup();
        let edit = match (bends.is_empty(), vertices.is_empty()) {
            (true, true) if selected.is_empty() => return self.refuse_edit("Nothing is selected."),
            (true, true) => {
                return self.refuse_edit("Straights and ends cannot be removed; select a bend or a vertex.");
            }
            (false, true) => Edit::RemoveBends(bends),
            // A bend has the id of the vertex that carries it.
            (_, false) => Edit::RemoveVertices(vertices.into_iter().chain(bends).collect()),
        };
        self.edit(&edit);
    }

    /// Moves the vertices that are selected together, or the whole tube where none are.
    pub(crate) fn move_selection(&mut self, motion: &Motion) {
        self.drop_preview();
        let vertices = vertices_under(self.part(), self.solved(), self.selection().targets());
        if vertices.is_empty() && !self.selection().targets().is_empty() {
            return self.refuse_edit("What is selected has no vertices to move: a bend of half a turn has none.");
        }
        let all = vertices.is_empty() || vertices.len() == self.part().path.places();
        if all {
            return self.edit(&Edit::Move(*motion));
        }
        if matches!(motion, Motion::Mirrored { .. }) {
            return self.refuse_edit("Only the whole tube can be mirrored: select nothing, or everything.");
        }
        let (ids, points): (Vec<NodeId>, Vec<_>) = vertices.into_iter().unzip();
        match motion.moves(&points) {
            Ok(moved) => self.edit(&Edit::MoveVertices(ids.into_iter().zip(moved).collect())),
            Err(refusal) => self.refuse_edit(sentence(&refusal.said(self.system().units()))),
        }
    }

    /// A change to the tube that is worked on.
    fn on_active(&self, edit: &Edit) -> SystemEdit {
        SystemEdit::ChangeTube(self.document.committed().system.active(), edit.clone())
    }

    fn before(&self) -> Before {
        let shown = self.document.shown();
        Before { system: Arc::clone(&shown.system), tube: shown.system.active(), solved: Arc::clone(shown.solved()) }
    }

    /// The selection goes with the tube that is worked on; on another one nothing is selected.
    fn follow(&mut self, before: &Before) {
        let shown = self.document.shown();
        let nodes = &shown.solved().nodes;
        if shown.system.active() == before.tube {
            let selection = Follow::new(&before.solved.nodes, nodes).selection(self.chosen.held());
            self.chosen.hold(&selection, nodes);
        } else {
            self.chosen.hold(&Selection::default(), nodes);
            self.hover = None;
        }
    }

    /// Takes note of a step that was made, if it was one.
    fn stepped(&mut self, before: &Before, events: &[SystemEvent]) {
        if events.is_empty() {
            return;
        }
        self.follow(before);
        self.settle(before, events);
    }

    fn settle(&mut self, before: &Before, events: &[SystemEvent]) {
        if events.contains(&SystemEvent::Changed(before.tube)) && self.system().active() == before.tube {
            let newcomers = Follow::new(&before.solved.nodes, &self.solved().nodes).newcomers();
            if !newcomers.targets().is_empty() {
                self.hold(&newcomers);
            }
        }
        if events.iter().any(|event| matches!(event, SystemEvent::Added(_))) {
            self.screen.tubes_open = true;
        }
        if !Arc::ptr_eq(&before.system, &self.document.shown().system) {
            self.show_anew();
        }
        self.forget_refusal();
        self.note_change();
    }

    /// Shows what a change would make of the tube, without making it.
    pub(crate) fn propose(&mut self, edit: Option<Edit>) {
        let (part, shop) = (Arc::clone(self.part()), Arc::clone(self.shop()));
        self.proposal = match (edit, self.proposal.take()) {
            (None, _) => None,
            (Some(edit), Some(known)) if known.is(&edit, &part) => Some(known),
            (Some(edit), _) => Some(Proposal::of(edit, &part, &shop)),
        };
    }

    /// Lets every view follow what is shown.
    pub(crate) fn show_anew(&mut self) {
        self.judge_again();
        self.proposal = None;
        self.hold(&self.chosen.held().clone());
        self.hover = self.hover.filter(|target| self.has(*target));
        self.tube_hover = self.tube_hover.filter(|tube| self.can_turn_to(*tube));
    }

    /// Holds a selection, as far as the part that is shown has it.
    pub(crate) fn hold(&mut self, selection: &Selection<NodeId>) {
        self.chosen.hold(selection, &self.document.shown().solved().nodes);
    }

    /// Whether this is a tube that is not worked on.
    pub(crate) fn can_turn_to(&self, tube: TubeId) -> bool {
        self.system().active() != tube && self.system().tube(tube).is_some()
    }

    /// Whether the shown part has this target.
    pub(crate) fn has(&self, target: Target<NodeId>) -> bool {
        target.counted(&self.solved().nodes).is_some()
    }
}

/// The vertex without a bend that a target is.
fn vertex_of(target: Target<NodeId>) -> Option<NodeId> {
    match target {
        Target::Vertex(vertex) => Some(vertex),
        Target::Straight(_) | Target::Bend(_) | Target::Handle(_) => None,
    }
}
