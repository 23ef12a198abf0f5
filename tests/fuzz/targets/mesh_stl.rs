//! A mesh file: see `elbowroom_fuzz::mesh_stl`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::mesh_stl(bytes));
