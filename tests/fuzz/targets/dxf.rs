//! A drawing: see `elbowroom_fuzz::dxf`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::dxf(bytes));
