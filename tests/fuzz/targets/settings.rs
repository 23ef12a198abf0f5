//! The settings: see `elbowroom_fuzz::settings`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::settings(bytes));
