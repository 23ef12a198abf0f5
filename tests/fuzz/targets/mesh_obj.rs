//! A mesh file: see `elbowroom_fuzz::mesh_obj`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::mesh_obj(bytes));
