//! A line of the setup list, and what it rests on.

use elbowroom_geometry::Length;
use elbowroom_geometry::units::Shown;

use crate::Basis;
use crate::plan::Plan;

/// What is said where nothing published stands behind a figure.
pub const COMMON_PRACTICE: &str = "common practice, no source";

/// One line of the setup list.
#[derive(Clone, Debug, PartialEq)]
pub struct SetupItem {
    /// What it is about, such as `Mandrel nose`.
    pub what: &'static str,
    /// What to set or take, a short sentence or a figure with its unit.
    pub value: String,
    /// Where it comes from.
    pub source: String,
    /// Whether it rests on common practice, theory or memory.
    pub unsure: bool,
    /// Whether it is put on the machine: what has to stand there before the first step.
    pub on_machine: bool,
}

/// A line that nothing published stands behind.
pub(super) fn common(what: &'static str, value: impl Into<String>) -> SetupItem {
    SetupItem { what, value: value.into(), source: COMMON_PRACTICE.into(), unsure: true, on_machine: false }
}

/// A line that follows from the drawing and the shop.
pub(super) fn computed(what: &'static str, value: String, source: impl Into<String>) -> SetupItem {
    SetupItem { what, value, source: source.into(), unsure: false, on_machine: false }
}

/// A line that rests on a figure of the shop.
pub(super) fn of_shop(what: &'static str, value: String, basis: Basis) -> SetupItem {
    let source = match basis {
        Basis::CommonPractice => "shop file: common practice, no source",
        Basis::Shop => "proved in this shop",
    };
    SetupItem { what, value, source: source.into(), unsure: basis.unsure(), on_machine: false }
}

/// A length in the unit that the part shows.
pub(super) fn length(plan: &Plan, length: Length) -> Shown {
    plan.part.units.shown(length.mm())
}
