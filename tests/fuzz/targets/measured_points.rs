//! Measured points: see `elbowroom_fuzz::measured_points`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::measured_points(bytes));
