//! The eye, its framing, and the view of window and scene.

mod compass;
mod eye;
mod follow;
mod framing;
mod requests;
mod view;

pub use compass::follow_compass;
pub use eye::{Eye, FIELD_OF_VIEW_RAD, Lens};
pub use follow::{place_camera, spawn_camera};
pub use framing::{framed, middle, outline, reach_mm};
pub use requests::{Framing, follow_requests};
pub use view::View;
