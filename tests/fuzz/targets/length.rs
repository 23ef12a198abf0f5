//! A length typed into a field: see `elbowroom_fuzz::length`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::length(bytes));
