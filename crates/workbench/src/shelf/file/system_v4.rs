//! System files of version 4, apart from the live [`System`].

use elbowroom_bending::{Obstacle, System, TubeId};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::format::parse;
use super::numbers::Millimetres;
use super::obstacle_v1::ObstacleV1;
use super::problem::FileProblem;
use super::stock_v1::UnitsV1;
use super::system_tube_v3::{TubeOfSystemV3, TubesV3};

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-system/4";

/// Reads a system of version 4.
pub(crate) fn read(text: &str, file: &str) -> Result<System, FileProblem> {
    let stored: SystemV4 = parse(text, file)?;
    stored.live().map_err(|refusal| on_its_line(&refusal, text, file))
}

/// What is wrong with a system whose tubes are sound: which of them is worked on, where the floor lies, or what stands
/// around them.
pub(crate) fn on_its_line(refusal: &Refusal, text: &str, file: &str) -> FileProblem {
    let field = match &refusal.field {
        field if field.contains("floor") => "floor_mm:",
        field if field.contains("obstacle") => "obstacles:",
        _ => "active:",
    };
    let line = text.lines().position(|line| line.trim_start().starts_with(field)).map_or(1, |index| index + 1);
    let what = format!("{} is {}", refusal.field, refusal.was);
    FileProblem::on_line(file, line, what, format!("it must be {}", refusal.may_be))
}

/// A system as it stands in a file of version 4.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SystemV4 {
    pub(super) format: String,
    /// Empty where nobody has named the whole.
    #[serde(default)]
    pub(super) name: String,
    #[serde(default)]
    pub(super) units: UnitsV1,
    /// The tube that is worked on. Left out, the first one that is shown.
    pub(super) active: Option<u32>,
    /// Left out while the floor lies at zero.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub(super) floor_mm: Millimetres,
    pub(super) tubes: TubesV3,
    /// Left out while nothing stands around them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) obstacles: Vec<ObstacleV1>,
}

fn is_zero(length: &Millimetres) -> bool {
    length.0 == 0.0
}

impl SystemV4 {
    /// The system itself.
    ///
    /// # Errors
    /// Where the active tube is none of those there, or hidden, where the floor is out of reach, and where two obstacles
    /// share an id or a name.
    pub fn live(self) -> Result<System, Refusal> {
        let units = self.units.into();
        let tubes: Vec<_> = self.tubes.0.into_iter().map(|tube| tube.live(units)).collect();
        let shown = tubes.iter().find(|tube| !tube.hidden).or(tubes.first()).map(|tube| tube.id);
        let active = self.active.map(TubeId::new).or(shown).unwrap_or(TubeId::new(0));
        let obstacles = self.obstacles.into_iter().map(|obstacle| obstacle.0).collect();
        System::new(self.name, units, tubes, active)?.on_floor(self.floor_mm.into())?.among(obstacles)
    }
}

impl From<&System> for SystemV4 {
    fn from(system: &System) -> Self {
        Self {
            format: STAMP.to_owned(),
            name: system.name().to_owned(),
            units: system.units().into(),
            active: Some(system.active().number()),
            floor_mm: system.floor().into(),
            tubes: TubesV3(system.tubes().iter().map(TubeOfSystemV3::from).collect()),
            obstacles: system.obstacles().iter().map(|obstacle| ObstacleV1(Obstacle::clone(obstacle))).collect(),
        }
    }
}
