//! What Elbowroom writes, opened by other programs' readers; and what other programs write, opened by Elbowroom.
//!
//! The others are OpenCASCADE (a solid kernel), ezdxf and trimesh, from the Python package index as `requirements.txt` pins
//! them, in a virtual environment that `.ci/run` makes. Where there is none (`ELBOWROOM_READERS` names another) these tests
//! say so and are passed over, but not where `CI` is set.
#![allow(clippy::unwrap_used, clippy::panic)]

mod found;
mod inputs;
mod outputs;
