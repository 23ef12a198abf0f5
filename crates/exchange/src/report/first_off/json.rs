//! The report of a first-off as JSON: the contract that scripts rely on, described in README.md.

use elbowroom_bending::first_off::MeasurementDoubt;
use elbowroom_bending::forming::springback::SpringbackBasis;
use elbowroom_bending::measurement::FirstOff;
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::ROTATION_SENSE;
use elbowroom_bending::{End, Hand};
use serde::Serialize;

use super::JudgedPart;

/// The name and version of the report.
const REPORT: &str = "elbowroom-first-off/1";

#[derive(Serialize)]
struct Report<'a> {
    report: &'static str,
    verdict: &'static str,
    text: String,
    doubt: Option<Doubt>,
    from: &'static str,
    hand: &'static str,
    rotation_positive: &'static str,
    tolerance: Tolerance,
    found: Option<Found<'a>>,
    next: Option<Next>,
}

#[derive(Serialize)]
struct Doubt {
    kind: &'static str,
    text: String,
    /// The vertices it is about, counted from 1 in the order of the measurement.
    vertices: Vec<usize>,
}

#[derive(Serialize)]
struct Tolerance {
    angle_deg: f64,
    length_mm: f64,
}

#[derive(Serialize)]
struct Found<'a> {
    fit_rms_mm: f64,
    vertices: Vec<Vertex>,
    straights_off_mm: &'a [f64],
    bends: Vec<Bend>,
}

#[derive(Serialize)]
struct Vertex {
    number: usize,
    off_mm: f64,
    fitted_mm: [f64; 3],
}

#[derive(Serialize)]
struct Bend {
    number: usize,
    rotation_off_deg: f64,
    angle_off_deg: f64,
}

#[derive(Serialize)]
struct Next {
    blank_length_mm: f64,
    blank_was_mm: f64,
    steps: Vec<Step>,
}

#[derive(Serialize)]
struct Step {
    number: usize,
    feed_mm: f64,
    feed_was_mm: f64,
    rotation_deg: f64,
    rotation_was_deg: f64,
    set_angle_deg: f64,
    set_angle_was_deg: f64,
    take_up_mm: f64,
    mark_mm: f64,
    springback_from: &'static str,
    unsure: bool,
}

/// The report of a first-off as one line of JSON.
///
/// # Errors
/// Never for sound numbers; a number that is not finite has no form in JSON.
pub fn first_off_to_json(judged: JudgedPart<'_>) -> serde_json::Result<String> {
    let (verdict, text) = match judged.first_off {
        Ok(first_off) if first_off.within => ("within", first_off.verdict()),
        Ok(first_off) => ("out", first_off.verdict()),
        Err(doubt) => ("doubted", format!("This measurement is doubted: {doubt}.")),
    };
    let first_off = judged.first_off.as_ref().ok();
    serde_json::to_string(&Report {
        report: REPORT,
        verdict,
        text,
        doubt: judged.first_off.as_ref().err().map(doubt),
        from: match judged.plan.from {
            End::Lead => "start",
            End::Tail => "finish",
        },
        hand: match judged.plan.hand {
            Hand::Left => "left",
            Hand::Right => "right",
        },
        rotation_positive: ROTATION_SENSE,
        tolerance: Tolerance { angle_deg: judged.tolerance.angle.degrees(), length_mm: judged.tolerance.length.mm() },
        found: first_off.map(found),
        next: first_off.map(|first_off| next(judged.plan, first_off)),
    })
}

fn doubt(doubt: &MeasurementDoubt) -> Doubt {
    let (kind, vertices) = match doubt {
        MeasurementDoubt::Count { missing, .. } => ("count", missing.iter().map(|vertex| vertex + 1).collect()),
        MeasurementDoubt::Bends { .. } => ("bends", Vec::new()),
        MeasurementDoubt::NotANumber(vertex) => ("not-a-number", vec![vertex + 1]),
        MeasurementDoubt::Swapped(first, second) => ("swapped", vec![first + 1, second + 1]),
        MeasurementDoubt::FromTheOtherEnd => ("from-the-other-end", Vec::new()),
        MeasurementDoubt::Mirrored => ("mirrored", Vec::new()),
        MeasurementDoubt::NotThisPart { .. } => ("not-this-part", Vec::new()),
        MeasurementDoubt::NoVertex(_) => ("no-vertex", Vec::new()),
        MeasurementDoubt::Number(_) => ("number", Vec::new()),
        MeasurementDoubt::NoTube => ("no-tube", Vec::new()),
    };
    Doubt { kind, text: doubt.to_string(), vertices }
}

fn found(first_off: &FirstOff) -> Found<'_> {
    let found = &first_off.found;
    let vertices = found.fitted.iter().zip(&found.vertex_off_mm).enumerate();
    let bends = found.rotation_off.iter().zip(&found.angle_off).enumerate();
    Found {
        fit_rms_mm: found.fit.rms_mm,
        vertices: vertices
            .map(|(index, (at, off_mm))| Vertex { number: index + 1, off_mm: *off_mm, fitted_mm: [at.x, at.y, at.z] })
            .collect(),
        straights_off_mm: &found.straight_off_mm,
        bends: bends
            .map(|(index, (rotation, angle))| Bend {
                number: index + 1,
                rotation_off_deg: rotation.degrees(),
                angle_off_deg: angle.degrees(),
            })
            .collect(),
    }
}

fn next(plan: &Plan, first_off: &FirstOff) -> Next {
    let steps = plan.program.steps.iter().zip(&first_off.next.steps).enumerate();
    Next {
        blank_length_mm: first_off.next.blank.mm(),
        blank_was_mm: plan.program.blank.mm(),
        steps: steps
            .map(|(index, (was, now))| Step {
                number: index + 1,
                feed_mm: now.feed.mm(),
                feed_was_mm: was.feed.mm(),
                rotation_deg: now.rotation.degrees(),
                rotation_was_deg: was.rotation.degrees(),
                set_angle_deg: now.set_angle.degrees(),
                set_angle_was_deg: was.set_angle.degrees(),
                take_up_mm: now.take_up.mm(),
                mark_mm: now.mark.mm(),
                springback_from: match now.forming.basis {
                    SpringbackBasis::Theory => "theory",
                    SpringbackBasis::Trials => "trials",
                    SpringbackBasis::Shop => "shop",
                },
                unsure: now.forming.basis == SpringbackBasis::Theory,
            })
            .collect(),
    }
}
