//! The program as JSON: the contract that scripts rely on, described in README.md.
//!
//! Fields are never taken away or changed in meaning under one report name. Numbers carry full double
//! precision; what has no value is `null`.

use elbowroom_bending::at_machine::{CLOCK_SENSE, clamped, dials};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::{ROTATION_SENSE, Step};
use elbowroom_bending::program_sheet::{ProgramSheet, SheetLine};
use elbowroom_bending::seam::SeamLay;
use elbowroom_bending::{End, Hand, Severity};
use elbowroom_geometry::Angle;
use serde::Serialize;

use super::super::json::basis_word;

/// The name and version of the report.
const REPORT: &str = "elbowroom-program/1";

#[derive(Serialize)]
struct Report<'a> {
    report: &'static str,
    from: &'static str,
    hand: &'static str,
    rotation_positive: &'static str,
    correction: Option<CorrectionOut>,
    blank_length_mm: f64,
    blank_length_basis: Option<&'static str>,
    lead_trim_mm: f64,
    lead_trim_basis: Option<&'static str>,
    tail_trim_mm: f64,
    tail_trim_basis: Option<&'static str>,
    tail_mm: f64,
    load: Option<LoadOut<'a>>,
    steps: Vec<StepOut<'a>>,
    seam: Option<SeamOut>,
    setup: Vec<Item<'a>>,
    cautions: Vec<CautionOut<'a>>,
}

#[derive(Serialize)]
struct CorrectionOut {
    after_piece: usize,
    rests_on: Vec<usize>,
    as_measured: Vec<usize>,
    put_aside: bool,
}

#[derive(Serialize)]
struct LoadOut<'a> {
    seam_from_top_deg: Option<f64>,
    seam_seen: &'static str,
    lines: Vec<LineOut<'a>>,
}

#[derive(Serialize)]
struct LineOut<'a> {
    what: &'a str,
    value: &'a str,
    unsure: bool,
}

#[derive(Serialize)]
struct StepOut<'a> {
    number: usize,
    bend: Option<usize>,
    feed_mm: f64,
    rotation_deg: f64,
    dial_deg: f64,
    set_angle_deg: f64,
    free_angle_deg: f64,
    die_clr_mm: f64,
    free_clr_mm: f64,
    take_up_mm: f64,
    mark_mm: f64,
    clamp_mm: f64,
    clamp_from_mm: f64,
    clamp_to_mm: f64,
    die: &'a str,
    springback: SpringbackOut,
    watch: Vec<WatchOut<'a>>,
}

#[derive(Serialize)]
struct WatchOut<'a> {
    severity: Option<&'static str>,
    text: &'a str,
}

#[derive(Serialize)]
struct SpringbackOut {
    a_deg: f64,
    b: f64,
    from: &'static str,
    basis: &'static str,
}

#[derive(Serialize)]
struct SeamOut {
    start_clock_deg: f64,
    at_bends_deg: Vec<f64>,
    worst_stretch_at_seam: f64,
}

#[derive(Serialize)]
struct Item<'a> {
    what: &'static str,
    value: &'a str,
    source: &'a str,
    unsure: bool,
}

#[derive(Serialize)]
struct CautionOut<'a> {
    text: &'a str,
    source: &'static str,
}

/// The word for the end that is bent first.
pub(in crate::report) const fn from_word(end: End) -> &'static str {
    match end {
        End::Start => "start",
        End::Finish => "finish",
    }
}

/// The word for the side to which the machine bends.
const fn hand_word(hand: Hand) -> &'static str {
    match hand {
        Hand::Right => "right",
        Hand::Left => "left",
    }
}

fn step<'a>(plan: &'a Plan, sheet: &'a ProgramSheet, (index, step): (usize, &Step), dial: Angle) -> StepOut<'a> {
    let line = &step.forming.line;
    let [clamp_from, clamp_to] = clamped(step);
    let watched = sheet.steps.get(index).map_or(&[][..], |step| &step.watch);
    StepOut {
        number: index + 1,
        bend: plan.drawn_bend(index).map(|bend| bend + 1),
        feed_mm: step.feed.mm(),
        rotation_deg: step.rotation.degrees(),
        dial_deg: dial.degrees(),
        set_angle_deg: step.set_angle.degrees(),
        free_angle_deg: step.free_angle.degrees(),
        die_clr_mm: step.forming.die_clr.mm(),
        free_clr_mm: step.free_clr.mm(),
        take_up_mm: step.take_up.mm(),
        mark_mm: step.mark.mm(),
        clamp_mm: step.forming.clamp.mm(),
        clamp_from_mm: clamp_from.mm(),
        clamp_to_mm: clamp_to.mm(),
        die: plan.die_of_step.get(index).map_or("", String::as_str),
        springback: SpringbackOut {
            a_deg: line.a().degrees(),
            b: line.b(),
            from: step.forming.basis.word(),
            basis: Ground::from(step.forming.basis).word(),
        },
        watch: watched
            .iter()
            .map(|watch| WatchOut { severity: watch.severity.map(Severity::word), text: &watch.text })
            .collect(),
    }
}

fn line(line: &SheetLine) -> LineOut<'_> {
    LineOut { what: &line.name, value: &line.value, unsure: line.unsure }
}

fn seam(lay: &SeamLay) -> SeamOut {
    SeamOut {
        start_clock_deg: lay.start.degrees(),
        at_bends_deg: lay.at_bends.iter().copied().map(Angle::degrees).collect(),
        worst_stretch_at_seam: lay.worst,
    }
}

/// The program as one line of JSON, without a line ending, with its sheet. Lengths are mm, angles degrees; steps are counted
/// from 1 in the order of bending, bends from 1 as drawn.
///
/// # Errors
/// None that is known: every value has a JSON form. The type is that of the writer.
pub fn program_to_json(plan: &Plan, sheet: &ProgramSheet) -> Result<String, serde_json::Error> {
    let program = &plan.program;
    serde_json::to_string(&Report {
        report: REPORT,
        from: from_word(plan.from),
        hand: hand_word(plan.hand),
        rotation_positive: ROTATION_SENSE,
        correction: program.correction.as_ref().map(|correction| CorrectionOut {
            after_piece: correction.after(),
            rests_on: correction.rests_on.iter().map(|piece| piece + 1).collect(),
            as_measured: correction.as_measured.iter().map(|piece| piece + 1).collect(),
            put_aside: correction.put_aside,
        }),
        blank_length_mm: program.blank.mm(),
        blank_length_basis: basis_word(plan.blank_basis()),
        lead_trim_mm: program.lead_trim.mm(),
        lead_trim_basis: basis_word(plan.trim_bases[0]),
        tail_trim_mm: program.tail_trim.mm(),
        tail_trim_basis: basis_word(plan.trim_bases[1]),
        tail_mm: program.tail.mm(),
        load: (!program.steps.is_empty()).then(|| LoadOut {
            seam_from_top_deg: sheet.seam_from_top.map(Angle::degrees),
            seam_seen: CLOCK_SENSE,
            lines: sheet.load.iter().map(line).collect(),
        }),
        steps: program
            .steps
            .iter()
            .zip(dials(&program.steps))
            .enumerate()
            .map(|(index, (one, dial))| step(plan, sheet, (index, one), dial))
            .collect(),
        seam: plan.seam.as_ref().map(seam),
        setup: sheet
            .setup
            .iter()
            .map(|item| Item { what: item.what, value: &item.value, source: &item.source, unsure: item.unsure })
            .collect(),
        cautions: sheet
            .cautions
            .iter()
            .map(|caution| CautionOut { text: &caution.text, source: caution.source })
            .collect(),
    })
}
