//! The tube as it is drawn: outlines in parallel views, at standard scales, with sizes and bend numbers.

mod arrangement;
mod cover;
mod dimension;
mod drawn;
mod eye;
mod outline;
mod overview;
mod room;
mod scale;
mod subject;

pub use arrangement::{Drawn, Projection, draw};
pub use overview::overview;
pub use subject::Subject;
