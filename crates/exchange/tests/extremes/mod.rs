//! Extreme numbers through every door by which a number can come in. Each is refused, with the field, what it was and what
//! it may be, or it is worked out to the end: solved, checked, planned, reported and drawn, in bounded work. What counts
//! as bounded is counted, never timed.

mod doors;
mod edits;
mod files;
mod numbers;
mod worked;

/// What is typed by slip, by habit and by chance: nothing, next to nothing, angles about half a turn and a whole one,
/// what no shop has, and what is no number.
const EXTREMES: [f64; 22] = [
    0.0,
    -0.0,
    5e-324,
    1e-300,
    1e-9,
    1.0,
    -1.0,
    90.0,
    179.999,
    180.0,
    180.0001,
    359.0,
    359.99,
    3600.0,
    1e5,
    1e7,
    1e9,
    -1e9,
    1e300,
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
];
