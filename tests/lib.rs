//! Helpers shared by the tests of the whole workspace: where things lie, the program itself, and the demo parts with
//! what is expected of them.

use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use serde::Deserialize;

/// The root of the checkout.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The folder of the demo parts.
pub fn demo_parts() -> PathBuf {
    root().join("demo-parts")
}

/// The program with its window, as `cargo run --release` builds it: after that command it is there already. Building
/// it afresh takes as long as that command.
///
/// # Panics
/// When it does not build.
pub fn program() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| built(escargot::CargoBuild::new().release()))
}

/// The program without its window, which is small and quick to build; the command line is the same.
///
/// # Panics
/// When it does not build.
pub fn windowless_program() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| built(escargot::CargoBuild::new().no_default_features()))
}

#[allow(clippy::panic, reason = "nothing can be tested of a program that does not build")]
fn built(build: escargot::CargoBuild) -> PathBuf {
    let build = build.manifest_path(root().join("Cargo.toml")).package("elbowroom").bin("elbowroom");
    let run = build.run().unwrap_or_else(|error| panic!("the program does not build: {error}"));
    run.path().to_path_buf()
}

/// What is expected of a demo part.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expected {
    /// The part's file in `demo-parts/`.
    pub part: String,
    /// What it is there to show.
    pub purpose: String,
    /// The verdict's severity: `none`, `note`, `caution` or `stop`.
    pub severity: String,
    /// How the verdict starts.
    pub verdict: String,
    /// The faults found, each once, in alphabetical order.
    pub faults: Vec<String>,
    /// How far the tube's skin stays away from every hard point, mm.
    #[serde(default)]
    pub clear_by_mm: f64,
    /// What the tube has to go round.
    #[serde(default)]
    pub hard_points: Vec<HardPoint>,
}

/// A place of the chassis that a tube must keep away from, as a ball.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HardPoint {
    /// What is there.
    pub name: String,
    /// Its middle, mm.
    pub at_mm: [f64; 3],
    /// Its radius, mm.
    pub radius_mm: f64,
}

/// Reads `demo-parts/expected.ron`.
///
/// # Errors
/// Says why the file cannot be read.
pub fn expected() -> Result<Vec<Expected>, Box<dyn std::error::Error>> {
    Ok(ron::from_str(&std::fs::read_to_string(demo_parts().join("expected.ron"))?)?)
}
