//! All pieces of a job, judged against the drawing, and the program for the next one.

use elbowroom_geometry::units::{LengthUnit, format_angle};
use elbowroom_geometry::{Angle, BendPath, BendRow, Length, Refusal};
use thiserror::Error;

use super::comparison::{Comparison, Tolerance, ToleranceChoice, compare, on_radii};
use super::correction::{AGREEING, Strayed, corrected};
use super::doubt::MeasurementDoubt;
use super::piece::{Piece, PieceFigures};
use super::plausible::AsSet;
use super::points::BY_ARC_ENDS_FROM;
use super::read::{radius_by_set_angle, read};
use crate::forming::ground::Ground;
use crate::measurement::Measurement;
use crate::plan::Plan;
use crate::program::{Correction, Forming, Program};
use crate::setup::UNSURE_MARK;
use crate::{End, Hand, Machine};

/// Every piece of a job against the plan that is followed now.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// The pieces in the order in which they were bent.
    pub pieces: Vec<JudgedPiece>,
    /// The pieces whose errors are taken out, counted from 0.
    pub rests_on: Vec<usize>,
    /// The program that the last piece which counts was bent by: the plan where none does.
    pub was: Program,
    /// The program for the next piece as it is corrected: the plan where no piece asks for it.
    pub next: Program,
    /// Whether that correction is put aside: the next piece is bent by the plan all the same.
    pub put_aside: bool,
    /// For each step whether its set angle is unsure.
    pub unsure: Vec<bool>,
}

/// One piece judged.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedPiece {
    /// What it is off the drawing; `None` where it was not compared, and `aside` says why.
    pub found: Option<Comparison>,
    /// Why it does not count in the program for the next piece; `None` where it does.
    pub aside: Option<Aside>,
    /// What spoke against its measurement, where the person has measured again and stands by it.
    pub overruled: Option<MeasurementDoubt>,
    /// The number of the piece after which its program was corrected, counted from 1; 0 for the plan.
    pub corrected_after: usize,
    strayed: Option<Strayed>,
    /// The measured path in the order of bending, on its own radii.
    measured: Option<BendPath>,
    /// What its settings should have given, in the order of bending.
    expected: Option<BendPath>,
}

impl JudgedPiece {
    /// The angles that were measured, in the order of bending; `None` where the measurement is not taken.
    pub fn measured_angles(&self) -> Option<Vec<Angle>> {
        self.measured.as_ref().map(|path| path.rows().iter().map(|row| row.angle).collect())
    }
}

/// Why a piece does not count in the program for the next one. It is kept all the same.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Aside {
    /// It has another number of bends.
    #[error("it has {} and the drawing {drawn} now, so it no longer belongs to this drawing", counted(*.bent))]
    Bends {
        /// How many it has.
        bent: usize,
        /// How many the program bends now.
        drawn: usize,
    },
    /// It was bent from the other end.
    #[error("it was bent from the {}, and the next one is not", end_word(*.0))]
    From(End),
    /// It was bent to the other side.
    #[error("it was bent to the {}, and the next one is not", hand_word(*.0))]
    Hand(Hand),
    /// It is of another tube.
    #[error("it was bent of another tube, {od_mm} × {wall_mm} mm {material}")]
    Tube {
        /// Outside diameter, mm.
        od_mm: f64,
        /// Wall, mm.
        wall_mm: f64,
        /// Material.
        material: String,
    },
    /// A bend was bent on another die. The step is counted from 0.
    #[error("step {} was bent on another radius, {:.1} mm", .step + 1, .clr_mm)]
    Die {
        /// The step, counted from 0.
        step: usize,
        /// Its radius then, mm.
        clr_mm: f64,
    },
    /// The measurement is doubted.
    #[error("its measurement is doubted: {0}")]
    Doubted(MeasurementDoubt),
}

fn counted(bends: usize) -> String {
    format!("{bends} {}", if bends == 1 { "bend" } else { "bends" })
}

/// What an end is called.
pub const fn end_word(end: End) -> &'static str {
    match end {
        End::Start => "start",
        End::Finish => "finish",
    }
}

/// What a side is called.
pub const fn hand_word(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left",
        Hand::Right => "right",
    }
}

/// A set angle that goes further than this from one that was measured is carried there by the slope of
/// springback. By theory that slope may be off by 0.05 a degree (measured springback of stainless at 90° runs
/// up to 4.5° where theory says 0.5°: trade experience, from memory), which over 2° is a tenth of a degree.
const SLOPE_CARRIES: Angle = Angle::from_degrees(2.0);

/// What is said of a piece that asks for no correction.
pub const LEFT_ALONE: &str =
    "It leaves nothing to set right: leave the machine alone and bend the next piece by the same program.";

impl Job {
    /// Judges the pieces of a job by a tolerance. `plan` is the one that the next piece follows.
    ///
    /// A piece that shows the next one within tolerance as it would be bent anyhow changes nothing: machines are not
    /// adjusted by noise.
    pub fn of(plan: &Plan, pieces: &[Piece], tolerance: &Tolerance) -> Self {
        let judged: Vec<JudgedPiece> = pieces.iter().map(|piece| judge(plan, piece)).collect();
        let mut rests_on = Vec::new();
        let mut counting: Vec<(usize, &Strayed)> = Vec::new();
        let mut next = plan.program.clone();
        let mut was = None;
        for (index, piece) in judged.iter().enumerate() {
            let Some(strayed) = &piece.strayed else { continue };
            counting.push((index, strayed));
            was = Some(index);
            if foreseen(plan, &next, piece).is_some_and(|found| found.settled(tolerance)) {
                continue;
            }
            let so_far: Vec<&Strayed> = counting.iter().map(|(_, strayed)| *strayed).collect();
            if let Some(strayed) = Strayed::settled(&so_far) {
                next = corrected(&plan.program, &strayed);
                rests_on = counting.iter().map(|(index, _)| *index).collect();
            }
        }
        let last = was.map(|index| &pieces[index]);
        let unsure = next.steps.iter().enumerate().map(|(index, step)| {
            let measured = last.map(|piece| piece.steps[index].set_angle);
            let carried = measured.is_none_or(|measured| (step.set_angle - measured).abs() > SLOPE_CARRIES);
            carried && Ground::from(step.forming.basis).unsure()
        });
        let unsure: Vec<bool> = unsure.collect();
        if !rests_on.is_empty() {
            let (rests_on, unsure) = (rests_on.clone(), unsure.clone());
            let stood_by = |index: &usize| judged[*index].overruled.is_some();
            let as_measured = rests_on.iter().copied().filter(stood_by).collect();
            next.correction = Some(Correction { rests_on, as_measured, unsure, put_aside: false });
        }
        let put_aside = plan.part.tooling.as_planned && next.correction.is_some();
        let was = last.map_or_else(|| plan.program.clone(), |piece| piece.as_set(&plan.program));
        Self { pieces: judged, rests_on, was, next, put_aside, unsure }
    }

    /// The program that the next piece is bent by: the corrected one, or the plan where that is put aside.
    pub fn followed(&self, plan: &Plan) -> Program {
        if !self.put_aside {
            return self.next.clone();
        }
        let aside = |correction: &Correction| Correction { put_aside: true, ..correction.clone() };
        Program { correction: self.next.correction.as_ref().map(aside), ..plan.program.clone() }
    }

    /// The plan with that program in place of its own.
    pub fn planned(&self, plan: &Plan) -> Plan {
        Plan { program: self.followed(plan), ..plan.clone() }
    }

    /// Whether the mark of a step along the blank is unsure: it lies behind an unsure bend.
    pub fn mark_unsure(&self, step: usize) -> bool {
        self.unsure.iter().take(step).any(|unsure| *unsure)
    }

    /// What stops the corrected program from being run on a machine, in whole sentences: the correction may have
    /// carried it beyond what the plan was checked for.
    pub fn stops(&self, machine: &Machine, unit: LengthUnit) -> Vec<String> {
        let fed = self.next.steps.iter().enumerate().filter(|(_, step)| step.feed < Length::ZERO);
        let no_room = |(index, step): (usize, &crate::program::Step)| {
            let (number, feed) = (index + 1, unit.shown(step.feed.mm()));
            format!("Step {number} is to be fed {feed}: there is no room for it.")
        };
        self.next.beyond_machine(machine, unit).into_iter().chain(fed.map(no_room)).collect()
    }

    /// What the program for the next piece rests on, in whole sentences.
    pub fn ground(&self, unit: LengthUnit) -> String {
        let numbers: Vec<String> = self.rests_on.iter().map(|index| (index + 1).to_string()).collect();
        let mut text = match numbers.as_slice() {
            [] => return "It is the plan: no piece asks for a correction.".to_owned(),
            [one] => format!("It rests on piece {one} as measured: the plan with what the machine strayed taken out."),
            [before @ .., last] => format!(
                "It rests on pieces {} and {last} as measured: the plan with what the machine strayed taken out. The last \
                 piece decides; earlier ones that were set and strayed like it, to {} and {}, are averaged in.",
                before.join(", "),
                format_angle(AGREEING.0, 1),
                unit.shown(AGREEING.1.mm())
            ),
        };
        if self.left_alone() {
            text += &format!(" {LEFT_ALONE}");
        }
        if let Some(correction) = &self.next.correction {
            text += &correction.stood_by();
        }
        if self.put_aside {
            text += " It is put aside: the next piece is bent as planned.";
        }
        if self.unsure.contains(&true) {
            let far = SLOPE_CARRIES.degrees();
            text += &format!(
                " A set angle with {UNSURE_MARK} lies more than {far:.0}° from the one that was measured: the slope of springback \
                 that carries it there is theory."
            );
        }
        text
    }

    /// Whether the piece that counts last is one that is left alone: the next one is bent by the same program.
    pub fn left_alone(&self) -> bool {
        let last = self.pieces.iter().rposition(|piece| piece.strayed.is_some());
        last.is_some() && last != self.rests_on.last().copied()
    }

    /// What is said where there is no correction to show.
    pub fn no_correction(&self) -> &'static str {
        if self.left_alone() { LEFT_ALONE } else { "No correction is made from it." }
    }

    /// The piece bent last, if any was.
    pub fn last(&self) -> Option<&JudgedPiece> {
        self.pieces.last()
    }

    /// A further piece, bent by the program that is followed.
    ///
    /// # Errors
    /// Those of [`Piece::bent_by`], said of the piece by its number.
    pub fn next_piece(&self, plan: &Plan, measurement: Measurement) -> Result<Piece, Refusal> {
        let program = self.followed(plan);
        let piece = Piece::bent_by(plan, &program, program.corrected_after(), measurement);
        piece.map_err(|refusal| refusal.of(format_args!("piece {}", self.pieces.len() + 1)))
    }
}

impl JudgedPiece {
    /// By what it was bent, such as `bent by the plan`.
    pub fn bent_by(&self) -> String {
        match self.corrected_after {
            0 => "bent by the plan".to_owned(),
            piece => format!("bent by the correction after piece {piece}"),
        }
    }

    /// What came of it, in one sentence.
    pub fn verdict(&self, tolerance: &Tolerance, unit: LengthUnit) -> String {
        match (&self.found, &self.aside) {
            (Some(found), _) => match self.stood_by() {
                Some(words) => format!("{} {words}", found.verdict(tolerance, unit)),
                None => found.verdict(tolerance, unit),
            },
            (None, Some(Aside::Doubted(doubt))) => format!("This measurement is doubted: {doubt}."),
            (None, Some(aside)) => format!("This piece is not compared: {aside}."),
            (None, None) => "This piece is not compared.".to_owned(),
        }
    }

    /// The same in one short sentence that names the piece, counted from 1.
    pub fn headline(&self, number: usize, tolerance: &Tolerance, unit: LengthUnit) -> String {
        let Some(found) = &self.found else {
            return match &self.aside {
                Some(Aside::Doubted(doubt)) => format!("Piece {number} is doubted: {doubt}."),
                Some(aside) => format!("Piece {number} is not compared: {aside}."),
                None => format!("Piece {number} is not compared."),
            };
        };
        let (point_mm, straight_mm, angle) = found.worst();
        let off = format!("up to {} and {:.1}° off", unit.shown(point_mm.max(straight_mm)), angle.degrees());
        let (length, most) = (unit.shown(tolerance.length.mm()), tolerance.angle.degrees());
        if found.within(tolerance) {
            format!("Piece {number} is within tolerance: {off}.")
        } else {
            format!("Piece {number} is out: {off}; allowed are {length} and {most:.1}°.")
        }
    }

    /// Whether it lies within a tolerance; `None` where it was not compared.
    pub fn within(&self, tolerance: &Tolerance) -> Option<bool> {
        self.found.as_ref().map(|found| found.within(tolerance))
    }

    /// What is said of a measurement that was doubted and is taken all the same.
    pub fn stood_by(&self) -> Option<String> {
        let doubt = self.overruled.as_ref()?;
        Some(format!("It was measured again and is taken as it is, though {doubt}."))
    }

    /// Whether its measurement is doubted, and a person who has measured again can stand by it.
    pub fn can_be_stood_by(&self) -> bool {
        self.doubt().is_some_and(MeasurementDoubt::can_be_overruled)
    }

    /// Why its measurement is doubted, if it is.
    pub fn doubt(&self) -> Option<&MeasurementDoubt> {
        match &self.aside {
            Some(Aside::Doubted(doubt)) => Some(doubt),
            _ => None,
        }
    }
}

/// The tolerance of a plan's part by a choice; what that leaves open is usual.
pub fn tolerance(plan: &Plan, choice: ToleranceChoice) -> Tolerance {
    choice.over(Tolerance::usual(plan.program.steps.len(), plan.part.tube.od))
}

/// The bends that a plan makes, as the drawing counts them from 0, in the order of the drawing.
pub fn drawn_bends(plan: &Plan) -> Vec<usize> {
    let mut bends: Vec<usize> = (0..plan.program.steps.len()).filter_map(|step| plan.drawn_bend(step)).collect();
    bends.sort_unstable();
    bends
}

/// What should come off the machine by a plan, in the order of the drawing.
pub fn design(plan: &Plan) -> BendPath {
    in_order(&plan.program.as_bent, plan.from)
}

/// A path in the order of bending from an end, in that of the drawing; and the other way round.
fn in_order(path: &BendPath, from: End) -> BendPath {
    match from {
        End::Start => path.clone(),
        End::Finish => path.reversed(),
    }
}

fn judge(plan: &Plan, piece: &Piece) -> JudgedPiece {
    let of = |found, aside, strayed| JudgedPiece {
        found,
        aside,
        corrected_after: piece.corrected_after,
        overruled: None,
        strayed,
        measured: None,
        expected: None,
    };
    let bends = plan.program.steps.len();
    if piece.steps.len() != bends {
        return of(None, Some(Aside::Bends { bent: piece.steps.len(), drawn: bends }), None);
    }
    // How the bends are formed, in the order in which the piece was bent.
    let mut forming: Vec<Forming> = plan.program.steps.iter().map(|step| step.forming).collect();
    if piece.from != plan.from {
        forming.reverse();
    }
    for (forming, step) in forming.iter_mut().zip(&piece.steps) {
        forming.die_clr = step.die_clr;
    }
    let taken = || -> Result<(BendPath, BendPath, Option<MeasurementDoubt>), MeasurementDoubt> {
        let expected = in_order(&piece.expected(&forming)?, piece.from);
        let free_radius = |bend: usize, angle: Angle| {
            let forming = &forming[if piece.from == End::Start { bend } else { bends - 1 - bend }];
            forming.line.free_radius(forming.die_clr, angle)
        };
        let radius_as_set = |bend: usize, angle: Angle| {
            let step = &piece.steps[if piece.from == End::Start { bend } else { bends - 1 - bend }];
            radius_by_set_angle(step.die_clr, step.set_angle, angle)
        };
        let theory = forming.iter().any(|forming| Ground::from(forming.basis).unsure());
        let as_set = AsSet { path: &expected, from: piece.from, theory };
        let (measured, overruled) = read(&piece.measurement, piece.as_measured, as_set, free_radius, radius_as_set)?;
        Ok((expected, measured, overruled))
    };
    let (expected, measured, overruled) = match taken() {
        Ok(taken) => taken,
        Err(doubt) => return of(None, Some(Aside::Doubted(doubt)), None),
    };
    let mut found = compare(&design(plan), &measured);
    if let (Some(found), Measurement::Rows(..)) = (&mut found, &piece.measurement) {
        found.radii_as_set = true;
    }
    match aside(plan, piece) {
        Some(aside) => JudgedPiece { overruled, ..of(found, Some(aside), None) },
        None => {
            let (expected, measured) = (in_order(&expected, piece.from), in_order(&measured, piece.from));
            let set = piece.steps.iter().map(|step| step.set_angle).collect();
            // On the radii that the program counts on, so that what a radius takes of the straights is no error of theirs.
            let pairs = || measured.rows().iter().zip(expected.rows());
            let radii: Vec<Length> = pairs()
                .zip(&forming)
                .map(|((row, _), forming)| forming.line.free_radius(forming.die_clr, row.angle))
                .collect();
            let angles: Vec<Angle> =
                pairs().map(|(m, e)| if m.angle.max(e.angle) < BY_ARC_ENDS_FROM { m.angle } else { e.angle }).collect();
            let counted = match on_radii(&measured, &radii, &angles) {
                Ok(counted) => counted,
                Err(refusal) => return of(found, Some(Aside::Doubted(refusal.into())), None),
            };
            let strayed = Strayed::of(set, &expected, &counted, &forming);
            let (measured, expected) = (Some(measured), Some(expected));
            JudgedPiece { measured, expected, overruled, ..of(found, None, Some(strayed)) }
        }
    }
}

/// What a next piece would be off, bent by a program on a machine that strays as it did on a piece.
fn foreseen(plan: &Plan, program: &Program, piece: &JudgedPiece) -> Option<Comparison> {
    let (measured, expected) = (piece.measured.as_ref()?, piece.expected.as_ref()?);
    let as_set = PieceFigures::set_by(plan, program, Measurement::Points(Vec::new()));
    let forming: Vec<Forming> = program.steps.iter().map(|step| step.forming).collect();
    let next = as_set.expected(&forming).ok()?;
    let rows = next.rows().iter().zip(measured.rows().iter().zip(expected.rows())).map(|(next, (m, e))| BendRow {
        straight: next.straight + m.straight - e.straight,
        rotation: next.rotation + m.rotation - e.rotation,
        angle: next.angle + m.angle - e.angle,
        clr: next.clr * (m.clr / e.clr),
    });
    let foreseen =
        BendPath::new(*next.start(), rows.collect(), next.tail() + measured.tail() - expected.tail()).ok()?;
    compare(&plan.program.as_bent, &foreseen)
}

/// Why a piece that was measured soundly says nothing of how the next one will stray.
fn aside(plan: &Plan, piece: &Piece) -> Option<Aside> {
    /// Radii that differ by less are those of one die, mm.
    const SAME_DIE_MM: f64 = 1e-6;
    if piece.from != plan.from {
        return Some(Aside::From(piece.from));
    }
    if piece.hand != plan.hand {
        return Some(Aside::Hand(piece.hand));
    }
    let (then, now) = (&piece.tube, &plan.part.tube);
    if then.od != now.od || then.wall != now.wall || then.material != now.material {
        let material = then.material.clone();
        return Some(Aside::Tube { od_mm: then.od.mm(), wall_mm: then.wall.mm(), material });
    }
    let pairs = piece.steps.iter().zip(&plan.program.steps);
    let other = |(then, now): (&super::piece::Setting, &crate::program::Step)| {
        (then.die_clr - now.forming.die_clr).abs().mm() > SAME_DIE_MM
    };
    let step = pairs.map(other).position(|other| other)?;
    Some(Aside::Die { step, clr_mm: piece.steps[step].die_clr.mm() })
}
