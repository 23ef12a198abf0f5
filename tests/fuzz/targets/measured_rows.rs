//! Measured bend rows: see `elbowroom_fuzz::measured_rows`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::measured_rows(bytes));
