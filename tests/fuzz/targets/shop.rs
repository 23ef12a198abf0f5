//! A shop file: see `elbowroom_fuzz::shop`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::shop(bytes));
