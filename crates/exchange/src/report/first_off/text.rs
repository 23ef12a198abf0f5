//! The report of a first-off as a person reads it: the verdict, what is off where, the next program.

use elbowroom_bending::End;
use elbowroom_bending::forming::springback::SpringbackBasis;
use elbowroom_bending::measurement::FirstOff;
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::ROTATION_SENSE;
use elbowroom_bending::setup::UNSURE_MARK;

use super::JudgedPart;
use crate::report::table::{lined_up, tenth};

/// What every report ends with.
const CAUTION: &str = "\
A corrected program is an estimate until the next piece is bent and measured. A bender is a power press with a\n\
swinging arm: nobody stands inside the swing, and the machine's own rules and local law come first.\n";

/// The report of a first-off as text, lengths in mm to a tenth.
pub fn first_off_to_text(judged: JudgedPart<'_>) -> String {
    let first_off = match judged.first_off {
        Ok(first_off) => first_off,
        Err(doubt) => {
            return format!("This measurement is doubted: {doubt}.\nNo correction is made from it.\n\n{CAUTION}");
        }
    };
    let plan = judged.plan;
    let mut text = format!("{}\n\n", first_off.verdict());
    if plan.from == End::Tail {
        text += "Bends and vertices are counted from the finish, as they are bent.\n\n";
    }
    text += "Measured less drawn, mm and degrees\n";
    text += &off(first_off);
    text += "\nProgram for the next piece, mm and degrees\n";
    text += &next(plan, first_off);
    text +=
        &format!("Blank length {} mm, was {} mm\n", tenth(first_off.next.blank.mm()), tenth(plan.program.blank.mm()));
    text += &format!("Rotation is positive {ROTATION_SENSE}.\n\n");
    if plan.program.steps.iter().any(|step| step.forming.basis == SpringbackBasis::Theory) {
        text += &format!("Set angles with a {UNSURE_MARK} rest on theory for their springback: enter trial bends.\n");
    }
    text + CAUTION
}

fn off(first_off: &FirstOff) -> String {
    let found = &first_off.found;
    let last = found.vertex_off_mm.len().saturating_sub(1);
    let row = |vertex: usize| {
        let before = vertex.checked_sub(1);
        let bend = before.filter(|_| vertex < last);
        let name = match vertex {
            0 => "lead end".to_owned(),
            _ if vertex == last => "tail end".to_owned(),
            _ => format!("bend {vertex}"),
        };
        let text = |value: Option<f64>| value.map_or_else(|| "-".to_owned(), tenth);
        vec![
            name,
            tenth(found.vertex_off_mm[vertex]),
            text(before.and_then(|straight| found.straight_off_mm.get(straight)).copied()),
            text(bend.filter(|bend| *bend > 0).and_then(|bend| Some(found.rotation_off.get(bend)?.degrees()))),
            text(bend.and_then(|bend| Some(found.angle_off.get(bend)?.degrees()))),
        ]
    };
    let rows: Vec<_> = (0..=last).map(row).collect();
    lined_up(&["At", "Vertex off", "Straight", "Rotation", "Angle"], &rows)
}

fn next(plan: &Plan, first_off: &FirstOff) -> String {
    let steps = plan.program.steps.iter().zip(&first_off.next.steps).enumerate();
    let rows: Vec<_> = steps
        .map(|(index, (was, now))| {
            let unsure = if now.forming.basis == SpringbackBasis::Theory { UNSURE_MARK } else { "" };
            vec![
                (index + 1).to_string(),
                tenth(now.feed.mm()),
                tenth(was.feed.mm()),
                tenth(now.rotation.degrees()),
                tenth(was.rotation.degrees()),
                format!("{unsure}{}", tenth(now.set_angle.degrees())),
                tenth(was.set_angle.degrees()),
                tenth(now.mark.mm()),
            ]
        })
        .collect();
    lined_up(&["Step", "Feed", "was", "Rotation", "was", "Set angle", "was", "Mark"], &rows)
}
