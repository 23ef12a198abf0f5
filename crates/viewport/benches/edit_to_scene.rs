//! Placeholder until the scene builds.
fn main() {}
