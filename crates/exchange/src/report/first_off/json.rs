//! The report of measured pieces as JSON: the contract that scripts rely on, described in README.md.

use elbowroom_bending::first_off::job::{Aside, JudgedPiece, drawn_bends, end_word, hand_word};
use elbowroom_bending::first_off::points::Spot;
use elbowroom_bending::first_off::{AXES, BentFigure, Comparison, MeasurementDoubt};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::ROTATION_SENSE;
use serde::Serialize;

use super::super::json::basis_word;
use super::JudgedJob;

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
    pieces: Vec<Piece>,
    found: Option<Found<'a>>,
    next: Option<Next>,
}

#[derive(Serialize)]
struct Doubt {
    kind: &'static str,
    text: String,
    /// The points it is about, counted from 1 in the order of the measurement.
    points: Vec<usize>,
    /// The rows it is about, likewise; one more than there are bends is the tail.
    rows: Vec<usize>,
    /// The one coordinate of the point that explains it.
    axis: Option<&'static str>,
    /// The one figure of the row that it is about.
    figure: Option<&'static str>,
    /// What would explain it as well, each by itself.
    or: Vec<Self>,
}

#[derive(Serialize)]
struct Tolerance {
    angle_deg: f64,
    angle_basis: &'static str,
    length_mm: f64,
    length_basis: &'static str,
}

#[derive(Serialize)]
struct Piece {
    number: usize,
    corrected_after: usize,
    verdict: &'static str,
    counts: bool,
    why_not: Option<String>,
    as_measured: bool,
    /// What spoke against it, where the person stands by it.
    overruled: Option<Doubt>,
}

/// In the order of the drawing.
#[derive(Serialize)]
struct Found<'a> {
    measured: &'static str,
    compared: String,
    fit_rms_mm: f64,
    points: Vec<Point>,
    straights_off_mm: &'a [f64],
    straights_off_basis: Option<&'static str>,
    bends: Vec<Bend>,
}

#[derive(Serialize)]
struct Point {
    number: usize,
    at: &'static str,
    bend: Option<usize>,
    off_mm: f64,
    fitted_mm: [f64; 3],
}

#[derive(Serialize)]
struct Bend {
    bend: usize,
    rotation_off_deg: f64,
    angle_off_deg: f64,
}

/// In the order of bending.
#[derive(Serialize)]
struct Next {
    rests_on: Vec<usize>,
    put_aside: bool,
    as_measured: Vec<usize>,
    blank_length_mm: f64,
    blank_length_basis: Option<&'static str>,
    blank_was_mm: f64,
    stops: Vec<String>,
    steps: Vec<Step>,
}

#[derive(Serialize)]
struct Step {
    number: usize,
    bend: Option<usize>,
    feed_mm: f64,
    feed_was_mm: f64,
    rotation_deg: f64,
    rotation_was_deg: f64,
    set_angle_deg: f64,
    set_angle_basis: Option<&'static str>,
    set_angle_was_deg: f64,
    take_up_mm: f64,
    take_up_basis: Option<&'static str>,
    mark_mm: f64,
    mark_basis: Option<&'static str>,
    springback_from: &'static str,
    unsure: bool,
}

/// The report of measured pieces as one line of JSON. It is about the piece bent last.
///
/// # Errors
/// Never for sound numbers; a number that is not finite has no form in JSON.
pub fn first_off_to_json(judged: JudgedJob<'_>) -> serde_json::Result<String> {
    let (plan, job, tolerance) = (judged.plan, judged.job, &judged.tolerance);
    let word = |piece: &JudgedPiece| match piece.within(tolerance) {
        Some(true) => "within",
        Some(false) => "out",
        None => "doubted",
    };
    let last = job.last();
    let piece = |(index, piece): (usize, &JudgedPiece)| Piece {
        number: index + 1,
        corrected_after: piece.corrected_after,
        verdict: word(piece),
        counts: piece.aside.is_none(),
        why_not: piece.aside.as_ref().map(ToString::to_string),
        as_measured: piece.overruled.is_some(),
        overruled: piece.overruled.as_ref().map(doubt_of),
    };
    let basis = |own: bool, usual: Ground| if own { Ground::Shop } else { usual }.word();
    serde_json::to_string(&Report {
        report: REPORT,
        verdict: last.map_or("nothing-measured", word),
        text: last.map_or_else(|| "No piece was measured.".to_owned(), |last| last.verdict(tolerance, plan.part.units)),
        doubt: last.filter(|last| last.found.is_none()).and_then(|last| last.aside.as_ref()).map(doubt),
        from: end_word(plan.from),
        hand: hand_word(plan.hand),
        rotation_positive: ROTATION_SENSE,
        tolerance: Tolerance {
            angle_deg: tolerance.angle.degrees(),
            angle_basis: basis(judged.chosen.angle().is_some(), Ground::Published),
            length_mm: tolerance.length.mm(),
            length_basis: basis(judged.chosen.length().is_some(), Ground::CommonPractice),
        },
        pieces: job.pieces.iter().enumerate().map(piece).collect(),
        found: last.and_then(|last| last.found.as_ref()).map(|found| self::found(found, plan)),
        next: (!job.rests_on.is_empty()).then(|| next(judged)),
    })
}

fn doubt(aside: &Aside) -> Doubt {
    match aside {
        Aside::Doubted(doubt) => doubt_of(doubt),
        other => Doubt::of("other-drawing", other.to_string()),
    }
}

fn doubt_of(doubt: &MeasurementDoubt) -> Doubt {
    let mut candidates = doubt.candidates().iter().map(candidate);
    match candidates.next() {
        Some(first) => Doubt { text: doubt.to_string(), or: candidates.collect(), ..first },
        None => Doubt::of("no-tube", doubt.to_string()),
    }
}

impl Doubt {
    fn of(kind: &'static str, text: String) -> Self {
        Self { kind, text, points: Vec::new(), rows: Vec::new(), axis: None, figure: None, or: Vec::new() }
    }
}

/// One thing that would explain a measurement.
fn candidate(doubt: &MeasurementDoubt) -> Doubt {
    let of = |kind| Doubt::of(kind, doubt.to_string());
    let points =
        |kind, points: Vec<usize>| Doubt { points: points.iter().map(|point| point + 1).collect(), ..of(kind) };
    let figure = |kind, figure| {
        let (row, word) = match figure {
            BentFigure::Straight(row) => (row, "straight"),
            BentFigure::Rotation(row) => (row, "rotation"),
            BentFigure::Angle(row) => (row, "angle"),
        };
        Doubt { rows: vec![row + 1], figure: Some(word), ..of(kind) }
    };
    match doubt {
        MeasurementDoubt::Count { missing, .. } => points("count", missing.iter().copied().collect()),
        MeasurementDoubt::Bends { .. } => of("bends"),
        MeasurementDoubt::NotANumber(point) => points("not-a-number", vec![*point]),
        MeasurementDoubt::Swapped(first, second) => points("swapped", vec![*first, *second]),
        MeasurementDoubt::SwappedRows(first, second) => {
            Doubt { rows: vec![first + 1, second + 1], ..of("swapped-rows") }
        }
        MeasurementDoubt::Point(wrong) => {
            let axis = wrong.axis.and_then(|(axis, ..)| AXES.get(axis)).copied();
            Doubt { axis, ..points("point", vec![wrong.point]) }
        }
        MeasurementDoubt::Row(wrong) => figure("row", wrong.figure),
        MeasurementDoubt::Beyond(beyond) => figure("beyond", beyond.figure),
        MeasurementDoubt::FromTheOtherEnd => of("from-the-other-end"),
        MeasurementDoubt::Mirrored => of("mirrored"),
        MeasurementDoubt::NotThisPart { .. } => of("not-this-part"),
        MeasurementDoubt::Number(_) => of("number"),
        // Candidates hold no further ones.
        MeasurementDoubt::NoTube | MeasurementDoubt::AnyOf(_) => of("no-tube"),
    }
}

fn found<'a>(found: &'a Comparison, plan: &Plan) -> Found<'a> {
    let drawn = drawn_bends(plan);
    // A vertex carries no radius: what its tangents leave of a straight is by springback.
    let by_springback = !found.radii_as_set && found.spots.iter().any(|spot| matches!(spot, Spot::Vertex(_)));
    let number = |bend: usize| drawn.get(bend).map_or(bend, |drawn| *drawn) + 1;
    let points = found.spots.iter().zip(&found.fitted).zip(&found.off_mm).enumerate();
    let bends = found.rotation_off.iter().zip(&found.angle_off).enumerate();
    Found {
        measured: if found.radii_as_set { "rows" } else { "points" },
        compared: found.compared(),
        fit_rms_mm: found.fit.rms_mm,
        points: points
            .map(|(index, ((spot, at), off_mm))| {
                let (name, bend) = match *spot {
                    Spot::LeadEnd => ("lead-end", None),
                    Spot::Vertex(bend) => ("vertex", Some(bend)),
                    Spot::ArcStart(bend) => ("arc-start", Some(bend)),
                    Spot::ArcEnd(bend) => ("arc-end", Some(bend)),
                    Spot::TailEnd => ("tail-end", None),
                };
                let fitted_mm = [at.x, at.y, at.z];
                Point { number: index + 1, at: name, bend: bend.map(number), off_mm: *off_mm, fitted_mm }
            })
            .collect(),
        straights_off_mm: &found.straight_off_mm,
        straights_off_basis: basis_word(plan.unsure_springback().filter(|_| by_springback)),
        bends: bends
            .map(|(index, (rotation, angle))| Bend {
                bend: number(index),
                rotation_off_deg: rotation.degrees(),
                angle_off_deg: angle.degrees(),
            })
            .collect(),
    }
}

fn next(judged: JudgedJob<'_>) -> Next {
    let (plan, job) = (judged.plan, judged.job);
    let steps = job.was.steps.iter().zip(&job.next.steps).enumerate();
    // A figure rests on springback where that is unsure and carries it far from what was measured.
    let ground = |step: usize| job.next.steps.get(step).map(|step| Ground::from(step.forming.basis));
    let of_step = |step: usize| basis_word(ground(step).filter(|_| job.unsure[step]));
    let before = |step: usize| (0..step).find(|step| job.unsure[*step]).and_then(of_step);
    let mut trims = plan.trim_bases.iter().flatten();
    let of_trims = plan.trim_bases.iter().flatten().find(|ground| ground.unsure()).or(trims.next()).copied();
    Next {
        rests_on: job.rests_on.iter().map(|piece| piece + 1).collect(),
        put_aside: job.put_aside,
        as_measured: job.next.correction.iter().flat_map(|made| &made.as_measured).map(|piece| piece + 1).collect(),
        blank_length_mm: job.next.blank.mm(),
        blank_length_basis: before(job.next.steps.len()).or(basis_word(of_trims)),
        blank_was_mm: job.was.blank.mm(),
        stops: job.stops(judged.machine, plan.part.units),
        steps: steps
            .map(|(index, (was, now))| Step {
                number: index + 1,
                bend: plan.drawn_bend(index).map(|bend| bend + 1),
                feed_mm: now.feed.mm(),
                feed_was_mm: was.feed.mm(),
                rotation_deg: now.rotation.degrees(),
                rotation_was_deg: was.rotation.degrees(),
                set_angle_deg: now.set_angle.degrees(),
                set_angle_basis: of_step(index),
                set_angle_was_deg: was.set_angle.degrees(),
                take_up_mm: now.take_up.mm(),
                take_up_basis: of_step(index),
                mark_mm: now.mark.mm(),
                mark_basis: before(index),
                springback_from: now.forming.basis.word(),
                unsure: job.unsure[index],
            })
            .collect(),
    }
}
