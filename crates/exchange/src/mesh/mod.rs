//! Meshes of tubes, for printing, rendering and viewing: STL and GLB. Hollow and closed: outside, bore, and a ring at either
//! end.

mod glb;
mod hollow;
mod stl;

pub use glb::write as write_glb;
pub use stl::write as write_stl;
