//! A part and a shop, solved and reported: see `elbowroom_fuzz::part_in_shop`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| elbowroom_fuzz::part_in_shop(bytes));
