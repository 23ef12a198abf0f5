//! The document: the tubes that are drawn, the shop that bends them, and the steps taken. Its state changes by its own
//! edits alone, and each of them tells what is other than it was. It knows neither desk nor shelf.

mod history;
mod meshes;
mod standing;
mod state;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use elbowroom_bending::{MeshSource, Shop, System, SystemEdit, SystemEvent, SystemRefusal, TubeId};

use history::History;
pub(crate) use history::Way;
use meshes::Meshes;
pub use meshes::SurveyMesh;
pub(crate) use state::State;
use state::{Bench, Counts};

/// What is drawn, on which shop, and how it came to be so.
pub(crate) struct Document {
    shop: Arc<Shop>,
    committed: State,
    /// What is before every view: the preview while there is one, else what is committed.
    shown: State,
    /// What the previewed step will be called.
    preview: Option<String>,
    history: History,
    given: Given,
    meshes: Arc<Meshes>,
    counts: Counts,
}

/// Ids that were given once, also to what was taken back since: they name nothing else any more.
#[derive(Default)]
struct Given {
    /// Tubes have ids below this number.
    tubes: u32,
    /// Obstacles have ids below this number.
    obstacles: u32,
    /// Places of each tube have ids below these numbers.
    places: BTreeMap<TubeId, u32>,
}

impl Document {
    /// Opens a system on a shop, without a history.
    pub fn new(system: Arc<System>, shop: Arc<Shop>) -> Self {
        let (mut counts, meshes) = (Counts::default(), Arc::default());
        let state = State::of(system, Bench { shop: &shop, meshes: &meshes }, &[], &mut counts);
        let (preview, history, given) = (None, History::default(), Given::default());
        Self { shop, committed: state.clone(), shown: state, preview, history, given, meshes, counts }
    }

    /// The shop.
    pub fn shop(&self) -> &Arc<Shop> {
        &self.shop
    }

    /// The tubes without any preview, solved.
    pub fn committed(&self) -> &State {
        &self.committed
    }

    /// The tubes as they are shown, solved.
    pub fn shown(&self) -> &State {
        &self.shown
    }

    /// Whether a preview is shown.
    pub fn previewing(&self) -> bool {
        self.preview.is_some()
    }

    /// How often a tube was solved.
    pub fn solves(&self) -> u64 {
        self.counts.solves
    }

    /// How often a tube was measured against one obstacle or another tube.
    pub fn measurements(&self) -> u64 {
        self.counts.measurements
    }

    /// How often a mesh was read, or found not to be readable.
    pub fn readings(&self) -> u64 {
        self.counts.readings
    }

    /// Reads meshes by this.
    pub fn read_meshes_by(&mut self, survey: SurveyMesh) {
        self.survey_by(self.meshes.read_by(survey));
    }

    /// Seeks meshes from this folder, that of the system's own file. Gives whether that is another one than before.
    pub fn lie_in(&mut self, folder: Option<&Path>) -> bool {
        let is_elsewhere = self.meshes.folder() != folder;
        if is_elsewhere {
            self.survey_by(self.meshes.in_folder(folder.map(Path::to_owned)));
        }
        is_elsewhere
    }

    /// Notes by which the bytes of a mesh are known again. It is not read once more where it comes in next.
    ///
    /// # Errors
    /// Says why it cannot be read.
    pub fn fingerprint(&mut self, source: &mut MeshSource) -> Result<(), Arc<str>> {
        let read = self.meshes.fingerprint(source);
        // One that can be read counts where it comes in.
        self.counts.readings += u64::from(read.is_err());
        read
    }

    fn survey_by(&mut self, meshes: Meshes) {
        self.meshes = Arc::new(meshes);
        self.committed = self.state(Arc::clone(&self.committed.system));
        self.shown = self.state(Arc::clone(&self.shown.system));
    }

    /// What undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.history.undo_label()
    }

    /// What redo would make again.
    pub fn redo_label(&self) -> Option<&str> {
        self.history.redo_label()
    }

    /// Lays another system there in place of this one, without a history. Its own file lies in `folder`.
    pub fn take_up(&mut self, system: Arc<System>, folder: Option<PathBuf>) {
        self.meshes = Arc::new(self.meshes.in_folder(folder));
        let bench = Bench { shop: &self.shop, meshes: &self.meshes };
        let state = State::of(system, bench, &[], &mut self.counts);
        (self.committed, self.shown) = (state.clone(), state);
        (self.preview, self.history, self.given) = (None, History::default(), Given::default());
    }

    /// Makes a change as one step; a preview is dropped. One that changes nothing makes no step.
    ///
    /// # Errors
    /// Says why it cannot be made; everything stays as it was.
    pub fn edit(&mut self, edit: &SystemEdit) -> Result<Vec<SystemEvent>, SystemRefusal> {
        self.drop_preview();
        let system = self.made(edit)?;
        let label = edit.label(&self.committed.system);
        self.show(system);
        Ok(self.step(label))
    }

    /// Shows a change without making it, in place of the change previewed before.
    ///
    /// # Errors
    /// Says why it cannot be made. What is committed is shown then: a release must not make the change before it.
    pub fn preview(&mut self, edit: &SystemEdit) -> Result<(), SystemRefusal> {
        match self.made(edit) {
            Ok(system) => {
                self.show(system);
                self.preview = Some(edit.label(&self.committed.system));
                Ok(())
            }
            Err(refusal) => {
                self.drop_preview();
                Err(refusal)
            }
        }
    }

    /// Makes the change that is previewed.
    pub fn commit_preview(&mut self) -> Vec<SystemEvent> {
        self.preview.take().map(|label| self.step(label)).unwrap_or_default()
    }

    /// Shows again what is committed.
    pub fn drop_preview(&mut self) {
        self.preview = None;
        self.shown = self.committed.clone();
    }

    /// Whether there is a step that way, and the shop on its other side where it changes.
    pub fn next(&self, way: Way) -> Option<Option<&Arc<Shop>>> {
        self.history.next(way)
    }

    /// Goes over the next step that way.
    pub fn travel(&mut self, way: Way) -> Vec<SystemEvent> {
        self.drop_preview();
        let now = (Arc::clone(&self.committed.system), Arc::clone(&self.shop));
        let Some((system, shop)) = self.history.cross(way, now) else { return Vec::new() };
        if let Some(shop) = shop {
            self.put_shop(shop, None);
        }
        let events = SystemEvent::between(&self.committed.system, &system);
        self.show(system);
        self.committed = self.shown.clone();
        events
    }

    /// Uses another shop; the steps that changed the one before are forgotten.
    pub fn use_shop(&mut self, shop: Arc<Shop>) {
        self.history.forget_shops();
        self.put_shop(shop, None);
    }

    /// Changes the shop as one step, and with it the tubes where they go along.
    pub fn edit_shop(&mut self, label: String, shop: Arc<Shop>, system: Option<Arc<System>>) {
        self.history.push(label, Arc::clone(&self.committed.system), Some(Arc::clone(&self.shop)));
        self.put_shop(shop, system);
    }

    /// Every tube is solved anew on a shop, and where they change with it these tubes are. They stand where they stood.
    fn put_shop(&mut self, shop: Arc<Shop>, system: Option<Arc<System>>) {
        self.preview = None;
        self.shop = shop;
        self.committed = self.state(system.unwrap_or_else(|| Arc::clone(&self.committed.system)));
        self.shown = self.committed.clone();
    }

    /// The system with a change made. What is new in it takes no id that anything in it has ever had, not even
    /// something that was taken back.
    fn made(&self, edit: &SystemEdit) -> Result<Arc<System>, SystemRefusal> {
        let mut system = System::clone(&self.committed.system);
        system.keep_clear_of(self.given.tubes);
        system.keep_obstacles_clear_of(self.given.obstacles);
        if let SystemEdit::ChangeTube(id, _) = edit
            && let Some(next) = self.given.places.get(id)
        {
            system.keep_places_clear_of(*id, *next);
        }
        edit.applied_to(&system).map(Arc::new)
    }

    /// Shows a system; only tubes that are other than before are solved.
    fn show(&mut self, system: Arc<System>) {
        self.shown = self.state(system);
    }

    /// A system solved and measured, as far as what is shown or committed does not tell it.
    fn state(&mut self, system: Arc<System>) -> State {
        let bench = Bench { shop: &self.shop, meshes: &self.meshes };
        State::of(system, bench, &[&self.shown, &self.committed], &mut self.counts)
    }

    /// Makes what is shown a step, if it changes anything.
    fn step(&mut self, label: String) -> Vec<SystemEvent> {
        let (before, after) = (&self.committed.system, &self.shown.system);
        if before.active() == after.active() && after.holds_the_same_as(before) {
            self.shown = self.committed.clone();
            return Vec::new();
        }
        let events = SystemEvent::between(before, after);
        self.given.tubes = self.given.tubes.max(after.next());
        self.given.obstacles = self.given.obstacles.max(after.next_obstacle());
        for tube in after.tubes() {
            let next = self.given.places.entry(tube.id).or_default();
            *next = tube.part.nodes.next(0).max(*next);
        }
        self.history.push(label, Arc::clone(before), None);
        self.committed = self.shown.clone();
        events
    }
}
