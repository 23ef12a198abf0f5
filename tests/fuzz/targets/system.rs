//! A file of a system or a part: see `elbowroom_fuzz::system`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::system(bytes));
