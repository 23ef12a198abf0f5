//! A STEP file: see `elbowroom_fuzz::step`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::step(bytes));
