//! A measure against its limits, as a bar with zones.

use std::fmt;

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Basis, DieSet, Severity, Shop, Solved};
use elbowroom_geometry::units::{LengthUnit, Shown, format_length};
use elbowroom_geometry::{Angle, Length};

use crate::widgets::UNSURE;

/// A part of a gauge's bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// Where it ends, mm; the last zone is open.
    pub to_mm: f64,
    /// What it means to be in it; sound where none.
    pub severity: Option<Severity>,
    /// What it means in words.
    pub meaning: &'static str,
}

/// A measure against its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// What is measured.
    pub name: &'static str,
    /// The measure, mm.
    pub measured_mm: f64,
    /// The measure with its unit.
    pub text: String,
    /// The zones from 0 up.
    pub zones: Vec<Zone>,
    /// The unit of the limits.
    pub unit: LengthUnit,
    /// What the limits rest on.
    pub ground: Ground,
}

impl Gauge {
    /// The zone that the measure lies in.
    pub fn zone(&self) -> Option<&Zone> {
        self.zones.iter().find(|zone| self.measured_mm <= zone.to_mm).or(self.zones.last())
    }

    /// A limit without its unit, with the mark where it must look unsure.
    pub fn limit(&self, mm: f64) -> Shown {
        // Upwards, as wherever a smallest length is told: what is shown is enough.
        let limit = self.unit.bare(self.unit.at_least_mm(mm));
        if self.ground.unsure() { limit.behind(UNSURE) } else { limit }
    }

    /// Where the bar ends, mm.
    pub fn end_mm(&self) -> f64 {
        let limit = self.zones.iter().map(|zone| zone.to_mm).filter(|mm| mm.is_finite()).fold(0.0, f64::max);
        (limit * 1.35).max(self.measured_mm * 1.08).max(1e-3)
    }
}

/// The gauges of a bend's clamp: the straight ahead, the bite, and the grip.
pub fn gauges(solved: &Solved, shop: &Shop, bend: usize, unit: LengthUnit) -> Vec<Gauge> {
    let Some(made) = solved.bends.get(bend) else { return Vec::new() };
    let (Some(clamp), Some(die)) = (made.clamp, made.die.and_then(|die| shop.die_sets.get(die))) else {
        return Vec::new();
    };
    let zone = |to_mm: f64, severity, meaning| Zone { to_mm, severity, meaning };
    let gauge = |name, measured_mm: f64, zones, basis: Basis| Gauge {
        name,
        measured_mm,
        text: text(measured_mm, unit),
        zones,
        unit,
        ground: basis.into(),
    };
    let mut gauges = Vec::new();
    if solved.bend_before(bend).is_some() {
        let mut zones = Vec::new();
        if clamp.needs_straight_mm > 0.0 {
            zones.push(zone(clamp.needs_straight_mm.next_down(), Some(Severity::Stop), "too short"));
        }
        if clamp.mark_free_straight_mm > clamp.needs_straight_mm {
            zones.push(zone(
                clamp.mark_free_straight_mm.next_down(),
                Some(Severity::Caution),
                "the clamp marks the bend made before",
            ));
        }
        zones.push(zone(f64::INFINITY, None, "long enough"));
        gauges.push(gauge("Straight ahead", made.straight_ahead_mm, zones, die.basis));
        gauges.push(gauge("Bite", clamp.bite_mm, bite_zones(die), die.basis));
    }
    if let Some(needed) = die.grip_needed(Angle::from_radians(made.angle_rad)) {
        let short = zone(needed.mm().next_down(), Some(Severity::Caution), "not proved to hold this angle");
        let zones = vec![short, zone(f64::INFINITY, None, "proved to hold")];
        gauges.push(gauge("Gripped", clamp.gripped_mm, zones, die.grip_basis()));
    }
    gauges
}

fn bite_zones(die: &DieSet) -> Vec<Zone> {
    vec![
        Zone { to_mm: die.mark_free_bite.mm(), severity: None, meaning: "no mark" },
        Zone { to_mm: die.largest_bite.mm(), severity: Some(Severity::Caution), meaning: "leaves a mark" },
        Zone { to_mm: f64::INFINITY, severity: Some(Severity::Stop), meaning: "the clamp does not close" },
    ]
}

fn text(mm: f64, unit: LengthUnit) -> String {
    format_length(Length::from_mm(mm), unit, unit.decimals())
}

impl fmt::Display for Gauge {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {}", self.name, self.text)?;
        if let Some(zone) = self.zone() {
            write!(out, ", {}", zone.meaning)?;
        }
        let limits: Vec<String> = self
            .zones
            .iter()
            .filter(|zone| zone.to_mm.is_finite())
            .map(|zone| format!("to {} {}", self.limit(zone.to_mm), zone.meaning))
            .collect();
        write!(out, " ({})", limits.join(", "))
    }
}
