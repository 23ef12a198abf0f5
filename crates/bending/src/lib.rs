//! What a rotary-draw mandrel bender can make: tube, tooling, machine, the solver and its checks.
//!
//! [`solve`] is total and deterministic: a [`Part`] and a [`Shop`] go in, a [`Solved`] part with all its
//! findings comes out, however impossible the drawing. The crate knows nothing of files and windows.

mod as_drawn;
pub mod checks;
pub mod compare;
mod edit;
mod finding;
pub mod first_off;
pub mod forming;
pub mod forward;
pub mod material;
pub mod measurement;
mod part;
pub mod plan;
pub mod program;
pub mod program_sheet;
pub mod program_table;
pub mod requirements;
pub mod rigid_fit;
pub mod seam;
pub mod setup;
mod shop;
mod shop_edit;
pub mod sizes;
mod solve;
#[doc(hidden)]
pub mod specimen;
mod tube;

pub use edit::{Edit, EditRefusal, StraightIndex};
pub use finding::{Cure, Fault, Finding, Place, Severity, Unit, Verdict};
pub use part::{End, ExtraStock, Part, Path, ToolingChoice};
pub use shop::{Basis, Clamp, DieSet, Hand, Machine, Shop};
pub use shop_edit::{Knowledge, ShopEdit};
pub use solve::{ClampOnTube, Cut, Formed, Mass, Released, Solved, SolvedBend, solve};
pub use tube::{Seam, Tube};
