//! What is measured, as a plain value.

use std::fmt;

use elbowroom_geometry::Vector3;
use elbowroom_geometry::measure::Between;
use elbowroom_geometry::units::{LengthUnit, format_angle};
use elbowroom_workbench::{Landmark, Measured, Named, Workbench};

/// What is measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// Everything that can be measured from or to.
    pub landmarks: Vec<Named>,
    /// Between which two.
    pub measured: Measured,
    /// What lies between them; none where one of them is gone.
    pub between: Option<Between>,
    /// The unit in which lengths are shown.
    pub units: LengthUnit,
    /// Edges of the box round the outside of the tube that is worked on, along x, y and z, mm.
    pub outside: Vector3<f64>,
    /// How far its lowest place lies over the floor, mm; negative below it.
    pub over_floor_mm: f64,
    /// Whether anything is selected.
    pub has_selection: bool,
}

impl Model {
    /// Of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let outside = workbench.solved().centreline.tube_bounding_box(workbench.part().tube.od.mm());
        Self {
            landmarks: workbench.landmarks(),
            measured: workbench.measured(),
            between: workbench.between_measured(),
            units: workbench.system().units(),
            outside: outside.size(),
            over_floor_mm: outside.min.z - workbench.system().floor().mm(),
            has_selection: !workbench.selection().targets().is_empty(),
        }
    }

    /// What a landmark is called.
    pub fn name(&self, landmark: Landmark) -> &str {
        let found = self.landmarks.iter().find(|named| named.landmark == landmark);
        // A bend goes by its vertex in the list.
        let by_vertex = || match landmark {
            Landmark::Of(target) => self.landmarks.iter().find(|named| match named.landmark {
                Landmark::Of(point) => point.bend().is_some() && point.bend() == target.bend(),
                _ => false,
            }),
            _ => None,
        };
        found.or_else(by_vertex).map_or("gone", |named| named.name.as_str())
    }

    /// The least distance, and how far that is along each axis.
    pub fn lines(&self) -> Vec<(&'static str, String)> {
        let Some(between) = &self.between else {
            return vec![("Distance", "one of the two is gone: choose another".to_owned())];
        };
        let shown = |mm: f64| self.units.shown(mm).to_string();
        let along = between.along();
        let mut lines = vec![("Distance", shown(between.distance_mm()))];
        for (name, mm) in ["Along x", "Along y", "Along z"].into_iter().zip(along.iter()) {
            lines.push((name, shown(*mm)));
        }
        lines.extend(between.angle.map(|angle| ("Angle", format_angle(angle, 1))));
        lines
    }

    /// What the tube takes up.
    pub fn overall(&self) -> Vec<(&'static str, String)> {
        let bare = |mm: f64| self.units.bare(mm).to_string();
        let [x, y, z] = [self.outside.x, self.outside.y, self.outside.z].map(bare);
        let floor = match self.over_floor_mm {
            below if below < 0.0 => format!("{} below it", self.units.shown(-below)),
            over => format!("{} over it", self.units.shown(over)),
        };
        vec![
            ("Overall, outside", format!("{x} × {y} × {z} {}", self.units.symbol())),
            ("Lowest, from the floor", floor),
        ]
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "from {} to {}", self.name(self.measured.from), self.name(self.measured.to))?;
        for (name, value) in self.lines().into_iter().chain(self.overall()) {
            writeln!(out, "{name}: {value}")?;
        }
        Ok(())
    }
}
