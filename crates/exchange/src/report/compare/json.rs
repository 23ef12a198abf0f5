//! The comparison as JSON: the contract that scripts rely on, described in README.md.

use elbowroom_bending::Severity;
use elbowroom_bending::compare::{COMPOUND_CUT_ADVICE, Comparison, Tooling};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::requirements::{AngleBefore, Requirement, Requirements};
use serde::Serialize;

use super::super::json::basis_word;
use super::super::program::from_word;

/// The name and version of the report.
const REPORT: &str = "elbowroom-compare/1";

#[derive(Serialize)]
struct Report<'a> {
    report: &'static str,
    rows: Vec<Row>,
    other_diameters: &'a [String],
    only_compound_cut: bool,
    advice: Option<&'static str>,
    requirements_from: &'static str,
    requirements: Vec<Required<'a>>,
    bends_without_die: Vec<usize>,
    radii: Vec<RadiusOut<'a>>,
}

#[derive(Serialize)]
struct Row {
    die: String,
    clamp_mm: Option<f64>,
    from: &'static str,
    severity: &'static str,
    worst: Option<Worst>,
    stops: usize,
    cautions: usize,
    notes: usize,
    lead_trim_mm: f64,
    lead_trim_basis: Option<&'static str>,
    tail_trim_mm: f64,
    tail_trim_basis: Option<&'static str>,
    changed_clr_mm: Option<f64>,
}

#[derive(Serialize)]
struct Worst {
    fault: &'static str,
    bend: Option<usize>,
    measured: f64,
    measured_basis: Option<&'static str>,
    limit: f64,
    limit_basis: Option<&'static str>,
    unit: &'static str,
}

#[derive(Serialize)]
struct Required<'a> {
    bend: usize,
    die: &'a str,
    clamp_mm: f64,
    straight_mm: f64,
    closes_from_mm: f64,
    mark_free_from_mm: f64,
    bend_before: Option<usize>,
    before_closes_to_deg: Option<f64>,
    before_mark_free_to_deg: Option<f64>,
    bite_basis: &'static str,
    angle_deg: f64,
    grip_proved_to_deg: f64,
    grip_basis: &'static str,
    largest_angle_deg: f64,
    largest_angle_basis: &'static str,
}

#[derive(Serialize)]
struct RadiusOut<'a> {
    clr_mm: f64,
    die: &'a str,
}

fn row(tooling: &Tooling) -> Row {
    let [stops, cautions, notes] = tooling.counts;
    Row {
        die: tooling.die(),
        clamp_mm: tooling.clamp.map(elbowroom_geometry::Length::mm),
        from: from_word(tooling.from),
        severity: tooling.verdict.severity.map_or("none", Severity::word),
        worst: tooling.worst.as_ref().map(|finding| Worst {
            fault: finding.fault,
            bend: tooling.worst_bend.map(|bend| bend + 1),
            measured: finding.measured,
            measured_basis: basis_word(finding.measured_basis),
            limit: finding.limit,
            limit_basis: basis_word(finding.limit_basis),
            unit: finding.unit.sign(),
        }),
        stops,
        cautions,
        notes,
        lead_trim_mm: tooling.lead_trim_mm,
        lead_trim_basis: basis_word(tooling.trim_bases[0]),
        tail_trim_mm: tooling.tail_trim_mm,
        tail_trim_basis: basis_word(tooling.trim_bases[1]),
        changed_clr_mm: tooling.changed_clr.map(elbowroom_geometry::Length::mm),
    }
}

/// `null` is any angle, 0 is none.
fn turn(before: AngleBefore) -> Option<f64> {
    match before {
        AngleBefore::Any => None,
        AngleBefore::UpTo(angle) => Some(angle.degrees()),
        AngleBefore::Never => Some(0.0),
    }
}

fn required(requirement: &Requirement) -> Required<'_> {
    Required {
        bend: requirement.bend + 1,
        die: &requirement.die,
        clamp_mm: requirement.clamp_mm,
        straight_mm: requirement.straight_mm,
        closes_from_mm: requirement.closes_from_mm,
        mark_free_from_mm: requirement.mark_free_from_mm,
        bend_before: requirement.before.map(|bend| bend + 1),
        before_closes_to_deg: turn(requirement.before_closes),
        before_mark_free_to_deg: turn(requirement.before_mark_free),
        angle_deg: requirement.angle.degrees(),
        bite_basis: Ground::from(requirement.bite_basis).word(),
        grip_proved_to_deg: requirement.held.degrees(),
        grip_basis: Ground::from(requirement.held_basis).word(),
        largest_angle_deg: requirement.largest.degrees(),
        largest_angle_basis: Ground::from(requirement.largest_basis).word(),
    }
}

/// The comparison and the requirements as one line of JSON, without a line ending. Lengths are mm, angles
/// degrees, bends counted from 1 as drawn.
///
/// # Errors
/// None that is known: every value has a JSON form. The type is that of the writer.
pub fn compare_to_json(comparison: &Comparison, requirements: &Requirements) -> Result<String, serde_json::Error> {
    serde_json::to_string(&Report {
        report: REPORT,
        rows: comparison.rows.iter().map(row).collect(),
        other_diameters: &comparison.other_diameters,
        only_compound_cut: comparison.only_compound_cut,
        advice: comparison.only_compound_cut.then_some(COMPOUND_CUT_ADVICE),
        requirements_from: from_word(requirements.from),
        requirements: requirements.bends.iter().map(required).collect(),
        bends_without_die: requirements.without_die.iter().map(|bend| bend + 1).collect(),
        radii: requirements
            .radii
            .iter()
            .map(|radius| RadiusOut { clr_mm: radius.clr.mm(), die: &radius.die })
            .collect(),
    })
}
