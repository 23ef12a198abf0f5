//! An angle typed into a field: see `elbowroom_fuzz::angle`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::angle(bytes));
