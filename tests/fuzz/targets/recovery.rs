//! A recovery file: see `elbowroom_fuzz::recovery`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::recovery(bytes));
