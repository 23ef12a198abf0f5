//! The tube as it is drawn: outlines in parallel views, at standard scales, with sizes and bend numbers.

mod arrangement;
mod cover;
mod dimension;
mod drawn;
mod eye;
mod outline;
mod room;
mod scale;
mod subject;

pub use arrangement::{Drawn, Projection, draw};
pub use drawn::{How, Sight, ringed};
pub use eye::Eye;
pub use outline::Outline;
pub use room::Room;
pub use scale::Scale;
pub use subject::Subject;
