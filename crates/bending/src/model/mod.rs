//! What a part is made of and what the shop owns: plain values, their guards, and the edits that change them.

mod edit;
pub(crate) mod end;
pub(crate) mod grip;
pub mod ground;
pub(crate) mod guarded;
pub(crate) mod keep;
pub(crate) mod limits;
pub mod material;
pub mod measurement;
pub(crate) mod nearly;
pub(crate) mod nodes;
pub(crate) mod numbering;
pub(crate) mod part;
pub(crate) mod path;
pub(crate) mod piece;
pub(crate) mod shop;
mod shop_edit;
pub mod sizes;
pub(crate) mod springback;
pub mod surrounding;
mod system;
pub mod text;
pub(crate) mod tolerance;
pub(crate) mod tube;
pub(crate) mod wall_rule;

pub use edit::{Edit, EditRefusal, Motion, StraightIndex};
pub use end::End;
pub use ground::Basis;
pub use guarded::{Guard, Guarded};
pub use keep::{Hold, Keep};
pub use nodes::{NodeId, Nodes};
pub use numbering::Numbering;
pub use part::{ClampLength, ExtraStock, Part, SeamStart, StockFigures, ToolingChoice};
pub use path::Path;
pub use shop::{
    Clamp, ClampFigures, DieSet, DieSetFigures, DieSets, Hand, Machine, MachineFigures, ProvedOn, RotationSetting, Shop,
};
pub use shop_edit::{Knowledge, KnowledgeEdit, ShopEdit};
pub use system::{
    MeshSource, MeshUnit, Obstacle, ObstacleEdit, ObstacleId, Shape, System, SystemEdit, SystemEvent, SystemRefusal,
    SystemTube, TubeId, UpAxis,
};
pub use tube::{Seam, Tube, TubeFigures};
