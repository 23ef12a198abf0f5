//! What a part is made of and what the shop owns: plain values, their guards, and the edits that change them.

mod edit;
pub mod material;
pub mod measurement;
pub(crate) mod nodes;
mod part;
mod shop;
mod shop_edit;
pub mod sizes;
mod system;
pub mod text;
mod tube;

pub use edit::{Edit, EditRefusal, StraightIndex};
pub use nodes::{NodeId, Nodes, Numbering};
pub use part::{End, ExtraStock, Part, Path, ToolingChoice};
pub use shop::{Basis, Clamp, DieSet, Hand, Machine, Shop};
pub use shop_edit::{Knowledge, ShopEdit};
pub use system::{System, SystemEdit, SystemEvent, SystemRefusal, SystemTube, TubeId};
pub use tube::{Seam, Tube};
