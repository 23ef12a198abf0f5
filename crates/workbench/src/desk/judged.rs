//! What lies on the desk of a first-off: how large its deviations are drawn, and what came of the pieces.

use std::sync::{Arc, OnceLock};

use elbowroom_bending::first_off::job::Job;
use elbowroom_bending::plan::{Plan, PlanRefusal};
use elbowroom_geometry::BendPath;

/// The most that the ghost's deviations can be magnified.
pub const LARGEST_MAGNIFICATION: f64 = 100.0;

/// The pieces of a job with everything that can be said of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The plan that the next piece follows.
    pub plan: Plan,
    /// The pieces, and the program for the next one.
    pub job: Job,
}

/// What lies on the desk of a first-off.
pub(crate) struct FirstOffDesk {
    /// How many times as large the ghost draws what strays.
    pub magnification: f64,
    /// What came of the pieces; worked out when it is first asked for.
    pub judged: OnceLock<Option<Arc<Result<Judged, PlanRefusal>>>>,
    /// The ghost, likewise: the scene asks for it at every redraw while there is none.
    pub ghost: OnceLock<Option<BendPath>>,
}

impl Default for FirstOffDesk {
    fn default() -> Self {
        Self { magnification: 1.0, judged: OnceLock::new(), ghost: OnceLock::new() }
    }
}
