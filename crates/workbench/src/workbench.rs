//! The workbench: one open part, one shop, and everything that happens to them.

use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::Arc;

use elbowroom_bending::around::Neighbour;
use elbowroom_bending::{Edit, Fault, NodeId, Obstacle, Part, Shop, Solved, System, SystemTube, TubeId, Words};

use crate::desk::judged::FirstOffDesk;
use crate::desk::selection::Chosen;
use crate::document::Document;
use crate::shelf::disk::RealDisk;
use crate::shelf::keeper::Keeper;
use crate::shelf::recovery::{Hold, Offer};
use crate::shelf::saver::Saver;
use crate::shelf::settings::Settings;
use crate::shelf::under_way::Saving;
use crate::{
    Command, Exporter, Home, Importer, Measured, Proposal, Request, Screen, Selection, SurveyMesh, Target, Waker,
};

/// The open system with its shop, history, selection and screen.
pub struct Workbench {
    pub(crate) document: Document,
    pub(crate) revision: u64,
    /// The selection to go back to when the preview is dropped; `None` where there is no preview.
    pub(crate) before_preview: Option<Selection<NodeId>>,
    /// What is previewed.
    pub(crate) previewed: Option<Edit>,
    pub(crate) chosen: Chosen,
    pub(crate) hover: Option<Target<NodeId>>,
    pub(crate) tube_hover: Option<TubeId>,
    pub(crate) proposal: Option<Proposal>,
    /// The finding that was gone to last, until something else is selected: its check, its place, and which of those that
    /// have both in common.
    pub(crate) gone_to: Option<(Fault, Option<Target<NodeId>>, usize)>,
    pub(crate) measured: Measured,
    pub(crate) screen: Screen,
    /// Whether the message that is shown is about an edit, and goes with the next one that succeeds.
    pub(crate) message_is_of_edit: bool,
    pub(crate) file: Option<PathBuf>,
    /// The system as its file holds it, or as it was begun; `None` for work that is in no file.
    pub(crate) safe: Option<Arc<System>>,
    /// Whether that file is in a format from before systems, and says less than is saved.
    pub(crate) file_is_older: bool,
    pub(crate) unsaved: bool,
    pub(crate) saving: Saving,
    /// What waits for a name to save under.
    pub(crate) waiting: Option<Command>,
    pub(crate) requests: Vec<Request>,
    pub(crate) shop_file: Option<PathBuf>,
    pub(crate) importers: Vec<Importer>,
    pub(crate) exporters: Vec<Exporter>,
    pub(crate) first_off: FirstOffDesk,
    pub(crate) settings: Settings,
    pub(crate) home: Option<Home>,
    pub(crate) offers: VecDeque<Offer>,
    pub(crate) waker: Option<Waker>,
    // The keeper goes before the hold: it still writes what waits, and the hold then looks what there is.
    pub(crate) keeper: Option<Keeper>,
    pub(crate) hold: Option<Hold>,
}

impl Workbench {
    /// Opens a part on a shop, without a file and without a history. Touches no disk: nothing is
    /// remembered, and no recovery file written.
    pub fn new(part: Part, shop: Shop) -> Self {
        Self::with_system(Arc::new(System::of(part)), shop)
    }

    /// The same with a system of tubes.
    pub fn with_system(system: Arc<System>, shop: Shop) -> Self {
        Self {
            document: Document::new(Arc::clone(&system), Arc::new(shop)),
            revision: 0,
            before_preview: None,
            previewed: None,
            chosen: Chosen::default(),
            hover: None,
            tube_hover: None,
            proposal: None,
            gone_to: None,
            measured: Measured::default(),
            screen: Screen::default(),
            message_is_of_edit: false,
            file: None,
            safe: Some(system),
            file_is_older: false,
            unsaved: false,
            saving: Saving::default(),
            waiting: None,
            requests: Vec::new(),
            shop_file: None,
            importers: Vec::new(),
            exporters: Vec::new(),
            first_off: FirstOffDesk::default(),
            settings: Settings::default(),
            home: None,
            offers: VecDeque::new(),
            waker: None,
            keeper: None,
            hold: None,
        }
    }

    /// Wakes whoever draws by this, whenever there is something to [hear](Self::hear). From then on saving is
    /// done by a thread of its own; without it, and where the system gives no thread, it is done at once.
    #[must_use]
    pub fn waking(mut self, waker: Waker) -> Self {
        if let Some(keeper) = &self.keeper {
            keeper.wake_with(&waker);
        }
        self.saving.saver = Saver::start(Arc::new(RealDisk), Arc::clone(&waker)).ok();
        self.waker = Some(waker);
        self
    }

    /// The tubes as they are shown: with the preview while dragging.
    pub fn system(&self) -> &Arc<System> {
        &self.document.shown().system
    }

    /// A tube as it is shown, solved.
    pub fn solved_tube(&self, id: TubeId) -> Option<&Arc<Solved>> {
        self.document.shown().solved_tube(id)
    }

    /// Every tube in the order of the list, as it is shown, solved.
    pub fn tubes(&self) -> impl Iterator<Item = (&SystemTube, &Arc<Solved>)> {
        self.document.shown().tubes()
    }

    /// The tubes that are shown beside the one that is worked on, likewise.
    pub fn other_tubes(&self) -> impl Iterator<Item = (&SystemTube, &Arc<Solved>)> {
        let active = self.system().active();
        self.tubes().filter(move |(tube, _)| !tube.hidden && tube.id != active)
    }

    /// How often a tube was solved since the program began: tubes that stay as they are are not solved again.
    pub fn solves(&self) -> u64 {
        self.document.solves()
    }

    /// How often a tube was measured against one obstacle or another tube: what stays as it is is not measured again.
    pub fn measurements(&self) -> u64 {
        self.document.measurements()
    }

    /// How often a mesh was read, or found not to be readable: one that stays as it is is not read again.
    pub fn readings(&self) -> u64 {
        self.document.readings()
    }

    /// Every obstacle as it is shown, with how it stands there. Hidden ones are among them.
    pub fn neighbours(&self) -> impl Iterator<Item = (&Arc<Obstacle>, &Arc<Neighbour>)> {
        self.document.shown().neighbours()
    }

    /// Reads the meshes of obstacles by this. Without it they stand nobody knows how, and are not measured.
    #[must_use]
    pub fn surveying_by(mut self, survey: SurveyMesh) -> Self {
        self.document.read_meshes_by(survey);
        self
    }

    /// The part that is worked on and shown: the previewed one while dragging, else the part itself.
    pub fn part(&self) -> &Arc<Part> {
        self.document.shown().part()
    }

    /// The part without any preview.
    pub fn committed_part(&self) -> &Arc<Part> {
        self.document.committed().part()
    }

    /// The shop.
    pub fn shop(&self) -> &Arc<Shop> {
        self.document.shop()
    }

    /// What it takes to write down what was found in the part that is shown.
    pub fn words(&self) -> Words<'_> {
        Words::new(self.part(), self.shop(), self.solved())
    }

    /// The shop's file; `None` for the shop that is built in.
    pub fn shop_file(&self) -> Option<&PathBuf> {
        self.shop_file.as_ref()
    }

    /// The shown part, solved.
    pub fn solved(&self) -> &Arc<Solved> {
        self.document.shown().solved()
    }

    /// Grows whenever part, shop or preview change, so that views know when to follow.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether a preview is shown.
    pub fn previewing(&self) -> bool {
        self.document.previewing()
    }

    /// What is selected, as the part that is shown counts it.
    pub fn selection(&self) -> &Selection {
        self.chosen.counted()
    }

    /// What is selected, by the ids by which it is held.
    pub fn selection_by_id(&self) -> &Selection<NodeId> {
        self.chosen.held()
    }

    /// A target by its id, given as the part that is shown counts it.
    pub fn named(&self, target: Target) -> Target<NodeId> {
        target.named(&self.solved().nodes)
    }

    /// What lies under the pointer, as the part that is shown counts it.
    pub fn hover(&self) -> Option<Target> {
        self.hover?.counted(&self.solved().nodes)
    }

    /// What lies under the pointer, by its id.
    pub fn hover_by_id(&self) -> Option<Target<NodeId>> {
        self.hover
    }

    /// Which tube lies under the pointer, of those that are not worked on.
    pub fn tube_hover(&self) -> Option<TubeId> {
        self.tube_hover
    }

    /// The change that is pointed at and not made.
    pub fn proposal(&self) -> Option<&Proposal> {
        self.proposal.as_ref()
    }

    /// The state of the screen.
    pub fn screen(&self) -> &Screen {
        &self.screen
    }

    /// The part's own file.
    pub fn file(&self) -> Option<&PathBuf> {
        self.file.as_ref()
    }

    /// Files that were opened or saved, the last one first.
    pub fn recent_files(&self) -> &[PathBuf] {
        &self.settings.recent
    }

    /// Whether there are changes that are in no file.
    pub fn unsaved(&self) -> bool {
        self.unsaved
    }

    /// Whether a crash left work behind that can be taken back.
    pub fn recovery_waits(&self) -> bool {
        !self.offers.is_empty()
    }

    /// What undo would take back, such as `move vertex 3`.
    pub fn undo_label(&self) -> Option<&str> {
        self.document.undo_label()
    }

    /// What redo would make again.
    pub fn redo_label(&self) -> Option<&str> {
        self.document.redo_label()
    }

    /// Takes the requests that wait for the window.
    pub fn take_requests(&mut self) -> Vec<Request> {
        std::mem::take(&mut self.requests)
    }

    /// Waits until settings and recovery file are written. Only a test or the very end needs to.
    pub fn flush(&self) {
        if let Some(keeper) = &self.keeper {
            keeper.flush();
        }
    }
}
