//! The report of measured pieces as a person reads it: the verdict, what is off where, the next program.

use elbowroom_bending::End;
use elbowroom_bending::first_off::job::{JudgedPiece, drawn_bends, end_word, hand_word};
use elbowroom_bending::first_off::{Comparison, PointOff};
use elbowroom_bending::program::{Program, ROTATION_SENSE};
use elbowroom_bending::setup::{UNSURE_LEGEND, UNSURE_MARK};

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, Length};

use super::JudgedJob;
use crate::report::table::{lined_up, tenth};

/// What every report ends with.
const CAUTION: &str = "\
A corrected program is an estimate until the next piece is bent and measured. A bender is a power press with a\n\
swinging arm: nobody stands inside the swing, and the machine's own rules and local law come first.\n";

/// What can be done about a doubt.
const AGAIN: &str = " Measure it again; if it stands, --as-measured with its number takes it as it is.";

/// The report of measured pieces as text, lengths in the unit of the part. It is about the piece bent last.
pub fn first_off_to_text(judged: JudgedJob<'_>) -> String {
    let (plan, job, unit) = (judged.plan, judged.job, judged.plan.part.units);
    let Some(last) = job.last() else { return format!("No piece was measured.\n\n{CAUTION}") };
    let mut text = format!("{}\n\n", last.verdict(&judged.tolerance, unit));
    if job.pieces.len() > 1 || last.aside.is_some() {
        text += &pieces(judged);
        text += "\n";
    }
    if let Some(found) = &last.found {
        let name = unit.name();
        text += &format!("Measured less drawn, from the start of the drawing to its finish, {name} and degrees\n");
        text += &off(found, &drawn_bends(plan), unit);
        text += &format!("{}\n\n", found.compared());
    }
    if job.rests_on.is_empty() {
        return text + job.no_correction() + "\n\n" + CAUTION;
    }
    text += &format!(
        "Program for the next piece, bent from the {} on a machine that bends {}, {} and degrees\n",
        end_word(plan.from),
        hand_word(plan.hand),
        unit.name()
    );
    if plan.from == End::Finish {
        text += "Steps are in the order of bending; bends are numbered as drawn, and the last one is bent first.\n";
    }
    for stop in job.stops(judged.machine, unit) {
        text += &format!("Stop: {stop}\n");
    }
    text += &next(judged, unit);
    let blank = |program: &Program| unit.shown(program.blank.mm());
    text += &format!("Blank length {}, was {}\n", blank(&job.next), blank(&job.was));
    text += &format!("Rotation is positive {ROTATION_SENSE}.\n{}\n", job.ground(unit));
    if job.unsure.contains(&true) {
        text += &format!("{UNSURE_LEGEND}\n");
    }
    text + "\n" + CAUTION
}

/// Every piece in a line: by what it was bent, how it came out, whether it counts.
fn pieces(judged: JudgedJob<'_>) -> String {
    let line = |(index, piece): (usize, &JudgedPiece)| {
        let came_out = match piece.within(&judged.tolerance) {
            Some(true) => "within tolerance",
            Some(false) => "out of tolerance",
            None => "not compared",
        };
        let counts = piece.aside.as_ref().map_or_else(String::new, |why| format!("; it does not count: {why}"));
        let again = if piece.can_be_stood_by() { AGAIN } else { "" };
        let stood_by = piece.stood_by().map_or_else(String::new, |words| format!(" {words}"));
        format!("Piece {}, {}: {came_out}{counts}.{again}{stood_by}\n", index + 1, piece.bent_by())
    };
    judged.job.pieces.iter().enumerate().map(line).collect()
}

fn off(found: &Comparison, drawn: &[usize], unit: LengthUnit) -> String {
    let length = |mm: f64| unit.bare(mm).to_string();
    let degrees = |off: Angle| tenth(off.degrees());
    let none = || "-".to_owned();
    let row = |point: PointOff| {
        vec![
            point.name,
            length(point.off_mm),
            point.straight_off_mm.map_or_else(none, length),
            point.rotation_off.map_or_else(none, degrees),
            point.angle_off.map_or_else(none, degrees),
        ]
    };
    let rows: Vec<_> = found.point_by_point(drawn).into_iter().map(row).collect();
    lined_up(&["At", "Point off", "Straight", "Rotation", "Angle"], &rows)
}

fn next(judged: JudgedJob<'_>, unit: LengthUnit) -> String {
    let length = |length: Length| unit.bare(length.mm()).to_string();
    let job = judged.job;
    let steps = job.was.steps.iter().zip(&job.next.steps).enumerate();
    let mark = |unsure: bool| if unsure { UNSURE_MARK } else { "" };
    let rows: Vec<_> = steps
        .map(|(index, (was, now))| {
            vec![
                (index + 1).to_string(),
                judged.plan.drawn_bend(index).map_or_else(|| "-".to_owned(), |bend| (bend + 1).to_string()),
                length(now.feed),
                length(was.feed),
                tenth(now.rotation.degrees()),
                tenth(was.rotation.degrees()),
                format!("{}{}", mark(job.unsure[index]), tenth(now.set_angle.degrees())),
                tenth(was.set_angle.degrees()),
                format!("{}{}", mark(job.mark_unsure(index)), length(now.mark)),
            ]
        })
        .collect();
    lined_up(&["Step", "Bend", "Feed", "was", "Rotation", "was", "Set angle", "was", "Mark"], &rows)
}
