//! A mesh file: see `elbowroom_fuzz::mesh_gltf`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::mesh_gltf(bytes));
