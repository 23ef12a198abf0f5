//! What a machine plausibly strays from its settings, figure by figure, and how far a measurement lies from that.
//!
//! Every figure here is common practice without a source, but for springback by theory, which trade experience (from
//! memory) puts at a half to a fifth of what is measured: at 90° up to 9° where theory says 1°. It errs to one side: a
//! released bend opens further than theory says, and hardly less.

use elbowroom_geometry::{Angle, BendPath, BendRow};

use super::points::BY_ARC_ENDS_FROM;
use crate::End;

/// How a machine usually strays in an angle, a rotation and a straight.
const ANGLE: Angle = Angle::from_degrees(0.8);
const ROTATION: Angle = Angle::from_degrees(1.0);
const STRAIGHT_MM: f64 = 1.5;
/// Share of the blank that bends may take up otherwise than planned; all of it comes out at the tail.
const STRETCH: f64 = 0.03;
/// The most that a machine strays: in an angle beside its springback, in a rotation, in a straight.
const MOST_ANGLE: Angle = Angle::from_degrees(6.5);
const MOST_ROTATION: Angle = Angle::from_degrees(5.0);
const MOST_STRAIGHT_MM: f64 = 12.0;
/// The most that a bend opens beyond theory where no other bend tells of it: an angle, and a share of its own.
const MOST_OPENED: (Angle, f64) = (Angle::from_degrees(3.0), 0.06);
/// What the others tell makes up for no more than such a share beyond that.
const MADE_UP_FOR: f64 = 1.25;
/// How far a springback line may be off in its offset (radians) and its slope: opening further than theory says, and
/// opening less or where it was measured.
const LINE_OPENS: [f64; 2] = [0.017, 0.05];
const LINE_CLOSES: [f64; 2] = [0.009, 0.02];
/// No leg counts as shorter than this where noise is turned into an angle, mm.
const SHORTEST_LEG_MM: f64 = 20.0;
/// How far what the others tell of an angle may be off, in standard deviations.
const UNSURE: f64 = 1.5;
/// Noise of measuring that is still ordinary, in standard deviations.
const ORDINARY_NOISE: f64 = 3.0;

/// A figure of a bent piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BentFigure {
    /// The straight before a bend, counted from 0; one more is the tail.
    Straight(usize),
    /// The rotation before a bend.
    Rotation(usize),
    /// The angle of a bend.
    Angle(usize),
}

/// A figure that strays further than a machine does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beyond {
    /// Which figure.
    pub figure: BentFigure,
    /// Measured less what the settings give, what all bends stray together taken out: mm or radians.
    pub off: f64,
    /// The most that a machine strays there: mm or radians.
    pub most: f64,
}

/// What the settings of a piece should have given.
#[derive(Clone, Copy, Debug)]
pub struct AsSet<'a> {
    /// The path, in the order of the drawing.
    pub path: &'a BendPath,
    /// The end that was bent first: at the other one comes out what bends took up otherwise.
    pub from: End,
    /// Whether springback rests on theory.
    pub theory: bool,
}

/// Usual and largest strays of a piece, in the order of the drawing.
pub(super) struct Plausible<'a> {
    /// What its settings should have given.
    pub expected: &'a BendPath,
    theory: bool,
    /// Usual and largest strays of straights, the tail last.
    straights_mm: Vec<f64>,
    most_straights_mm: Vec<f64>,
    rotations: Vec<f64>,
    angles: Vec<f64>,
    noise: Vec<Noise>,
}

/// What noise of measuring makes of the figures of a bend: mm and radians.
#[derive(Clone, Copy, Debug)]
struct Noise {
    straight_mm: f64,
    rotation: f64,
    angle: f64,
}

/// An offset and a slope by which all angles stray together, with how sure they are.
struct LineOff {
    at: [f64; 2],
    /// Their covariance: of the offset, of both, of the slope.
    covariance: [f64; 3],
}

/// Sums of least squares for [`LineOff`].
#[derive(Clone, Copy)]
struct Sums {
    aa: f64,
    ab: f64,
    bb: f64,
    ya: f64,
    yb: f64,
}

impl Sums {
    fn add(&mut self, weight: f64, angle: f64, off: f64) {
        self.aa += weight;
        self.ab += weight * angle;
        self.bb += weight * angle * angle;
        self.ya += weight * off;
        self.yb += weight * angle * off;
    }

    fn line(mut self, prior: [f64; 2]) -> LineOff {
        self.aa += prior[0].powi(-2);
        self.bb += prior[1].powi(-2);
        let determinant = self.aa * self.bb - self.ab * self.ab;
        LineOff {
            at: [
                (self.ya * self.bb - self.yb * self.ab) / determinant,
                (self.yb * self.aa - self.ya * self.ab) / determinant,
            ],
            covariance: [self.bb / determinant, -self.ab / determinant, self.aa / determinant],
        }
    }
}

fn hypot(parts: &[f64]) -> f64 {
    parts.iter().map(|part| part * part).sum::<f64>().sqrt()
}

impl<'a> Plausible<'a> {
    /// Of a piece with such settings, measured with so much noise.
    pub fn of(AsSet { path: expected, from, theory }: AsSet<'a>, noise_mm: f64) -> Self {
        let rows = expected.rows();
        let has_vertex = |row: &BendRow| row.angle < BY_ARC_ENDS_FROM;
        let tangent_mm = |bend: usize| rows.get(bend).filter(|row| has_vertex(row)).map_or(0.0, |row| row.tangent_mm());
        let before = |bend: usize| bend.checked_sub(1).map_or(0.0, tangent_mm);
        let straight_mm = |at: usize| rows.get(at).map_or(expected.tail(), |row| row.straight).mm();
        let leg_mm = |at: usize| (straight_mm(at) + before(at) + tangent_mm(at)).max(SHORTEST_LEG_MM);
        let shorter_mm = |bend: usize| leg_mm(bend).min(leg_mm(bend + 1));
        let angle_noise = |bend: usize| noise_mm * std::f64::consts::SQRT_2 / shorter_mm(bend);
        // A vertex moves along its leg as its angle does.
        let tangent_noise_mm = |bend: usize| match rows.get(bend) {
            Some(row) if has_vertex(row) => {
                row.clr.mm() / 2.0 / (row.angle.radians() / 2.0).cos().powi(2) * angle_noise(bend)
            }
            _ => 0.0,
        };
        let lever_mm = |bend: usize| {
            let row = &rows[bend];
            let across = if has_vertex(row) {
                shorter_mm(bend) * row.angle.radians().sin()
            } else {
                2.0 * row.clr.mm() * (row.angle.radians() / 2.0).sin()
            };
            across.abs().max(1.0)
        };
        let noise_of = |bend: usize| Noise {
            straight_mm: hypot(&[
                noise_mm * std::f64::consts::SQRT_2,
                tangent_noise_mm(bend),
                bend.checked_sub(1).map_or(0.0, tangent_noise_mm),
            ]),
            rotation: hypot(&[
                noise_mm / lever_mm(bend),
                bend.checked_sub(1).map_or(0.0, |before| noise_mm / lever_mm(before)),
            ]),
            angle: angle_noise(bend),
        };
        let noise: Vec<Noise> = (0..rows.len()).map(noise_of).collect();
        let drawn_mm: f64 = rows.iter().map(|row| row.arc_mm()).sum();
        let tail_noise = rows.len().checked_sub(1).map_or(0.0, |last| noise[last].straight_mm);
        let straight_noise: Vec<f64> = noise.iter().map(|noise| noise.straight_mm).chain([tail_noise]).collect();
        let mut straights_mm: Vec<f64> = straight_noise.iter().map(|noise| STRAIGHT_MM.hypot(*noise)).collect();
        let mut most_straights_mm: Vec<f64> =
            straight_noise.iter().map(|noise| MOST_STRAIGHT_MM + ORDINARY_NOISE * noise).collect();
        let bent_last = if from == End::Start { rows.len() } else { 0 };
        straights_mm[bent_last] += STRAIGHT_MM + STRETCH * drawn_mm;
        most_straights_mm[bent_last] += 2.0 * STRETCH * drawn_mm;
        Self {
            straights_mm,
            most_straights_mm,
            rotations: noise.iter().map(|noise| ROTATION.radians().hypot(noise.rotation)).collect(),
            angles: noise.iter().map(|noise| ANGLE.radians().hypot(noise.angle)).collect(),
            noise,
            expected,
            theory,
        }
    }

    /// Where a measured path strays most: for each bend, and the tail, the squares of what it strays.
    pub fn by_bend(&self, measured: &BendPath) -> Vec<f64> {
        let bends = self.expected.rows().len();
        let mut sums = vec![0.0; bends + 1];
        for (index, residual) in self.residuals(measured).iter().enumerate() {
            sums[(index / 3).min(bends)] += residual * residual;
        }
        sums
    }

    /// What a measured path strays, each figure as so many times its usual stray: straight, rotation and angle of each
    /// bend, and the tail. What all angles stray together is taken out of them, at its price, which comes last.
    pub fn residuals(&self, measured: &BendPath) -> Vec<f64> {
        let pairs = || measured.rows().iter().zip(self.expected.rows());
        let (_, prior, line) = self.line_off(measured);
        let [a, b] = line.at;
        let mut residuals = Vec::with_capacity(3 * self.angles.len() + 3);
        for (bend, (measured, expected)) in pairs().enumerate() {
            residuals.push((measured.straight - expected.straight).mm() / self.straights_mm[bend]);
            let rotation =
                if bend == 0 { 0.0 } else { (measured.rotation - expected.rotation).within_half_turn().radians() };
            residuals.push(rotation / self.rotations[bend]);
            let off = (measured.angle - expected.angle).radians();
            residuals.push((off - a - b * expected.angle.radians()) / self.angles[bend]);
        }
        residuals.push((measured.tail() - self.expected.tail()).mm() / self.straights_mm[self.angles.len()]);
        residuals.extend([a / prior[0], b / prior[1]]);
        residuals
    }

    /// The sum of the squares of what a path strays.
    pub fn cost(&self, measured: &BendPath) -> f64 {
        self.residuals(measured).iter().map(|residual| residual * residual).sum()
    }

    /// The offset and slope that explain best what all angles stray together (least squares, each drawn to 0 by how
    /// far it may be off).
    fn line_off(&self, measured: &BendPath) -> (Sums, [f64; 2], LineOff) {
        let mut sums = Sums { aa: 0.0, ab: 0.0, bb: 0.0, ya: 0.0, yb: 0.0 };
        for ((usual, measured), expected) in self.angles.iter().zip(measured.rows()).zip(self.expected.rows()) {
            sums.add(usual.powi(-2), expected.angle.radians(), (measured.angle - expected.angle).radians());
        }
        if self.theory {
            let line = sums.line(LINE_OPENS);
            // Bends that are wider count for more, as they show more of a slope.
            if line.at[0] * sums.ab + line.at[1] * sums.bb <= 0.0 {
                return (sums, LINE_OPENS, line);
            }
        }
        (sums, LINE_CLOSES, sums.line(LINE_CLOSES))
    }

    /// What an angle should have come out as, by what the others strayed together, and how unsure that is: radians.
    fn by_the_others(&self, (sums, prior): (&Sums, [f64; 2]), measured: &BendPath, bend: usize) -> (f64, f64) {
        let (angle, mut others) = (self.expected.rows()[bend].angle.radians(), *sums);
        let off = measured.rows()[bend].angle.radians() - angle;
        others.add(-self.angles[bend].powi(-2), angle, off);
        let LineOff { at, covariance: [aa, ab, bb] } = others.line(prior);
        (at[0] + at[1] * angle, (aa + angle * (2.0 * ab + angle * bb)).max(0.0).sqrt())
    }

    /// The angle that a bend would have come out with, by what the others strayed together.
    pub fn likely_angle(&self, measured: &BendPath, bend: usize) -> Angle {
        let (sums, prior, _) = self.line_off(measured);
        self.expected.rows()[bend].angle + Angle::from_radians(self.by_the_others((&sums, prior), measured, bend).0)
    }

    /// The figure that strays furthest beyond the most that a machine does, if one does.
    pub fn beyond(&self, measured: &BendPath) -> Option<Beyond> {
        let mut worst: Option<(f64, Beyond)> = None;
        let mut consider = |figure, off: f64, most: f64| {
            let times = off.abs() / most;
            if times > 1.0 && worst.is_none_or(|(worst, _)| times > worst) {
                worst = Some((times, Beyond { figure, off, most }));
            }
        };
        let (sums, prior, _) = self.line_off(measured);
        for (bend, (row, expected)) in measured.rows().iter().zip(self.expected.rows()).enumerate() {
            let noise = self.noise[bend];
            let straight = (row.straight - expected.straight).mm();
            consider(BentFigure::Straight(bend), straight, self.most_straights_mm[bend]);
            if bend > 0 {
                let rotation = (row.rotation - expected.rotation).within_half_turn().radians();
                let most = MOST_ROTATION.radians() + ORDINARY_NOISE * noise.rotation;
                consider(BentFigure::Rotation(bend), rotation, most);
            }
            let (likely, unsure) = self.by_the_others((&sums, prior), measured, bend);
            let noise = ORDINARY_NOISE * noise.angle;
            let (alone, beside) =
                ((row.angle - expected.angle).radians(), (row.angle - expected.angle).radians() - likely);
            consider(BentFigure::Angle(bend), beside, MOST_ANGLE.radians() + UNSURE * unsure + noise);
            // By itself as well, whatever the others strayed.
            let opened = (MOST_OPENED.0 + expected.angle * MOST_OPENED.1).max(MOST_ANGLE);
            let most = if alone < 0.0 && self.theory { opened } else { MOST_ANGLE }.radians() + noise;
            consider(BentFigure::Angle(bend), alone, MADE_UP_FOR * most);
            if alone * beside > 0.0 {
                let least = if alone.abs() < beside.abs() { alone } else { beside };
                consider(BentFigure::Angle(bend), least, most);
            }
        }
        let tail = (measured.tail() - self.expected.tail()).mm();
        let last = self.angles.len();
        consider(BentFigure::Straight(last), tail, self.most_straights_mm[last]);
        worst.map(|(_, beyond)| beyond)
    }
}
