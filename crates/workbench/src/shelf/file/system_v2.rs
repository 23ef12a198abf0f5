//! System files of version 2. They are read and no longer written.

use elbowroom_bending::System;
use elbowroom_geometry::Refusal;
use serde::Deserialize;

use super::format::parse;
use super::numbers::Millimetres;
use super::problem::FileProblem;
use super::stock_v1::UnitsV1;
use super::system_tube_v2::TubesV2;
use super::system_v4::{SystemV4, on_its_line};

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-system/2";

/// Reads a system of version 2.
pub(crate) fn read(text: &str, file: &str) -> Result<System, FileProblem> {
    let stored: SystemV2 = parse(text, file)?;
    stored.live().map_err(|refusal| on_its_line(&refusal, text, file))
}

/// A system as it stands in a file of version 2.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SystemV2 {
    format: String,
    #[serde(default)]
    name: String,
    #[serde(default)]
    units: UnitsV1,
    active: Option<u32>,
    tubes: TubesV2,
}

impl SystemV2 {
    /// The system itself.
    ///
    /// # Errors
    /// Where the active tube is none of those there, or hidden.
    pub fn live(self) -> Result<System, Refusal> {
        let Self { format, name, units, active, tubes } = self;
        let (floor_mm, tubes, obstacles) = (Millimetres::default(), tubes.0, Vec::new());
        SystemV4 { format, name, units, active, floor_mm, tubes, obstacles }.live()
    }
}
