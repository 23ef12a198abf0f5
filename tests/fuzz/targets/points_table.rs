//! A points table: see `elbowroom_fuzz::points_table`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::points_table(bytes));
