//! The first-off on the desk: what was measured, by what it is judged, and what came of it.

use std::path::Path;
use std::sync::{Arc, OnceLock};

use elbowroom_bending::End;
use elbowroom_bending::first_off::{MeasurementDoubt, Tolerance};
use elbowroom_bending::measurement::{FirstOff, Measurement, judge};
use elbowroom_bending::plan::{Plan, PlanRefusal, plan};
use elbowroom_geometry::BendPath;

use crate::Workbench;
use crate::editing::sentence;
use crate::file::read_text;
use crate::measured_table::{Kind, read_measured};

/// The most that the ghost's deviations can be magnified.
pub const LARGEST_MAGNIFICATION: f64 = 100.0;

/// A measured first-off with everything that can be said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The plan it was judged against.
    pub plan: Plan,
    /// What was found, or why the measurement is doubted.
    pub first_off: Result<FirstOff, MeasurementDoubt>,
}

/// What lies on the desk of a first-off.
pub(crate) struct FirstOffDesk {
    measurement: Option<Arc<Measurement>>,
    tolerance: Option<Tolerance>,
    magnification: f64,
    /// What came of it; worked out when it is first asked for.
    judged: OnceLock<Option<Arc<Result<Judged, PlanRefusal>>>>,
}

impl Default for FirstOffDesk {
    fn default() -> Self {
        Self { measurement: None, tolerance: None, magnification: 1.0, judged: OnceLock::new() }
    }
}

impl FirstOffDesk {
    /// Puts the measurement away: another part lies on the bench.
    pub fn put_away(&mut self) {
        self.measurement = None;
        self.judged = OnceLock::new();
    }
}

impl Workbench {
    /// What was measured on the first-off.
    pub fn measurement(&self) -> Option<&Arc<Measurement>> {
        self.first_off.measurement.as_ref()
    }

    /// The tolerance by which a first-off is judged: the person's own, else the usual one of the part.
    pub fn tolerance(&self) -> Tolerance {
        let bends = self.solved.bends.iter().filter(|bend| bend.is_bent()).count();
        self.first_off.tolerance.unwrap_or_else(|| Tolerance::usual(bends, self.part.tube.od))
    }

    /// Whether that tolerance is the person's own.
    pub fn tolerance_is_own(&self) -> bool {
        self.first_off.tolerance.is_some()
    }

    /// How many times as large the ghost draws what the first-off strays.
    pub fn ghost_magnification(&self) -> f64 {
        self.first_off.magnification
    }

    /// The first-off judged against the shown part, bent from its lead end on the shop's machine. `None`
    /// where nothing was measured; an error where the part has no program to judge by.
    pub fn judged(&self) -> Option<Arc<Result<Judged, PlanRefusal>>> {
        let judged = || {
            let measurement = self.first_off.measurement.as_ref()?;
            let plan = plan(&self.part, &self.shop, End::Lead, self.shop.machine.hand);
            Some(Arc::new(plan.map(|plan| {
                let first_off = judge(&plan, measurement, self.tolerance());
                Judged { plan, first_off }
            })))
        };
        self.first_off.judged.get_or_init(judged).clone()
    }

    /// The measured tube laid over the design, its deviations magnified; `None` where nothing was measured
    /// or the measurement is doubted.
    pub fn ghost(&self) -> Option<BendPath> {
        match self.judged()?.as_ref() {
            Ok(Judged { plan, first_off: Ok(first_off) }) => {
                first_off.ghost(&plan.program.as_bent, self.first_off.magnification)
            }
            _ => None,
        }
    }

    pub(crate) fn set_measurement(&mut self, measurement: Option<Measurement>) {
        self.first_off.measurement = measurement.map(Arc::new);
        self.judge_again();
    }

    pub(crate) fn open_measurement(&mut self, path: &Path) {
        let name = path.display().to_string();
        let unit = self.committed.units;
        let read = read_text(path).map_err(|problem| problem.to_string()).and_then(|text| {
            read_measured(&text, Kind::Vertices, unit).map_err(|problem| format!("{name}, {problem}"))
        });
        match read {
            Ok(measurement) => {
                self.set_measurement(Some(measurement));
                self.done(format!("Measured on the first-off, from {name}."));
            }
            Err(problem) => self.refuse(sentence(&problem)),
        }
    }

    pub(crate) fn set_tolerance(&mut self, tolerance: Option<Tolerance>) {
        let sound = |tolerance: &Tolerance| {
            let (angle, length) = (tolerance.angle.degrees(), tolerance.length.mm());
            angle.is_finite() && angle > 0.0 && length.is_finite() && length > 0.0
        };
        if tolerance.as_ref().is_some_and(|tolerance| !sound(tolerance)) {
            return self.refuse("A tolerance is a length and an angle of more than 0.");
        }
        self.first_off.tolerance = tolerance;
        self.judge_again();
    }

    pub(crate) fn magnify_ghost(&mut self, times: f64) {
        if !times.is_finite() {
            return self.refuse("The magnification must be a number from 1 to 100.");
        }
        self.first_off.magnification = times.clamp(1.0, LARGEST_MAGNIFICATION);
        self.revision += 1;
    }

    /// Forgets what came of the first-off, and lets every view follow.
    pub(crate) fn judge_again(&mut self) {
        self.first_off.judged = OnceLock::new();
        self.revision += 1;
    }
}
