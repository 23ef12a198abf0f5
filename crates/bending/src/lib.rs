//! What a rotary-draw mandrel bender can make: tube, tooling, machine, the solver and its checks.
//!
//! [`solve`] is total and deterministic: a [`Part`] and a [`Shop`] go in, a [`Solved`] part with all its
//! findings comes out, however impossible the drawing. The crate knows nothing of files and windows.

pub mod checks;
pub mod first_off;
pub mod forming;
mod judge;
mod layout;
mod model;
#[doc(hidden)]
pub mod specimen;

pub use checks::{Cure, Cures, Facts, Fault, Finding, Place, Severity, Told, ToldCure, Unit, Words};
pub use first_off::rigid_fit;
pub use forming::seam;
pub use judge::verdict::Verdict;
pub use judge::{
    Solved, Trials, at_machine, compare, plan, program_sheet, program_table, requirements, setup, solve, surroundings,
};
pub use layout::{ClampOnTube, Cut, Formed, LaidOut, Mass, Released, SolvedBend, around, forward, program};
pub use model::{
    Basis, Clamp, ClampFigures, ClampLength, DieSet, DieSetFigures, DieSets, Edit, EditRefusal, End, ExtraStock, Guard,
    Guarded, Hand, Hold, Keep, Knowledge, KnowledgeEdit, Machine, MachineFigures, MeshSource, MeshUnit, Motion, NodeId,
    Nodes, Numbering, Obstacle, ObstacleEdit, ObstacleId, Part, Path, ProvedOn, RotationSetting, Seam, SeamStart,
    Shape, Shop, ShopEdit, StockFigures, StraightIndex, System, SystemEdit, SystemEvent, SystemRefusal, SystemTube,
    ToolingChoice, Tube, TubeFigures, TubeId, UpAxis, material, measurement, sizes, surrounding, text,
};
