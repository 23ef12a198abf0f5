//! Solids, drawings and meshes: written and read again, spoilt, and against texts that are kept.

mod drawings;
mod kept;
mod meshes;
mod parts;
mod refused;
mod spoilt_bytes;
mod step_again;
