//! A library of materials: see `elbowroom_fuzz::materials`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::materials(bytes));
