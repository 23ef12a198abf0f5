//! Whether trial bends lie on a line, and which one does not: told by leaving each out in turn. Angles in degrees, so that
//! digits can be looked at as somebody has typed them.

use elbowroom_geometry::Angle;

/// What trial bends say of each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Agreement {
    /// They lie on a line that a machine can have.
    OnALine,
    /// They do but for this one.
    AllBut(usize),
    /// Two, through which goes a line that no machine is known to have.
    Unlikely,
    /// They do not, and no single one is the reason for sure.
    Scattered,
}

/// A trial: the angle set, and how far it sprang back, degrees.
pub(super) type Sprung = (f64, f64);

/// How far a trial may stray from the line by bending and measuring, degrees. Common practice, no source.
const STRAY: f64 = 0.5;
/// How far from the line of the others one lies that is no such straying, degrees. Common practice, no source.
const ODD: f64 = 0.75;
/// What is left of the others must tell a line: set angles this far apart, degrees. Common practice, no source.
const SPAN: f64 = 20.0;
/// Springback at no angle, degrees, and per degree that benders are known to have. Common practice, no source.
const LIKELY: ([f64; 2], [f64; 2]) = ([-1.0, 3.0], [0.0, 0.15]);

/// Whether trials agree.
pub(super) fn agreement(trials: &[Sprung]) -> Agreement {
    let whole = Line::through(trials);
    if whole.is_sound(trials) {
        return Agreement::OnALine;
    }
    if trials.len() < 3 {
        return Agreement::Unlikely;
    }
    let mut left_out: Vec<(usize, f64)> = Vec::new();
    for index in 0..trials.len() {
        let mut others = trials.to_vec();
        let (set, back) = others.remove(index);
        let line = Line::through(&others);
        if line.is_sound(&others) && span(&others) >= SPAN && (back - line.back(set)).abs() > ODD {
            left_out.push((index, line.worst(&others)));
        }
    }
    left_out.sort_by(|one, other| one.1.total_cmp(&other.1));
    match left_out.as_slice() {
        [(only, _)] => Agreement::AllBut(*only),
        // Of three, two always lie on a line: nothing tells one from the other then.
        [(first, best), (_, second), ..] if trials.len() > 3 && *second > 2.0 * best + 0.15 => {
            Agreement::AllBut(*first)
        }
        _ => Agreement::Scattered,
    }
}

fn span(trials: &[Sprung]) -> f64 {
    let sets = || trials.iter().map(|trial| trial.0);
    sets().fold(f64::NEG_INFINITY, f64::max) - sets().fold(f64::INFINITY, f64::min)
}

/// A line of springback over set angle.
struct Line {
    a: f64,
    b: f64,
}

impl Line {
    /// The least squares line; through the origin where all were set alike.
    fn through(trials: &[Sprung]) -> Self {
        let count = trials.len() as f64;
        let mean = |of: fn(&Sprung) -> f64| trials.iter().map(of).sum::<f64>() / count;
        let (set, back) = (mean(|trial| trial.0), mean(|trial| trial.1));
        let spread: f64 = trials.iter().map(|trial| (trial.0 - set).powi(2)).sum();
        if spread < 1e-9 {
            return Self { a: 0.0, b: back / set };
        }
        let together: f64 = trials.iter().map(|trial| (trial.0 - set) * (trial.1 - back)).sum();
        let b = together / spread;
        Self { a: back - set * b, b }
    }

    fn back(&self, set: f64) -> f64 {
        self.a + self.b * set
    }

    fn worst(&self, trials: &[Sprung]) -> f64 {
        trials.iter().map(|(set, back)| (back - self.back(*set)).abs()).fold(0.0, f64::max)
    }

    /// Whether it is one that a bender can have, and these trials lie on it.
    fn is_sound(&self, trials: &[Sprung]) -> bool {
        // Two that lie close together say little of the line: each is asked for itself.
        let (a, b) = LIKELY;
        let likely = span(trials) < SPAN || (a[0]..=a[1]).contains(&self.a) && (b[0]..=b[1]).contains(&self.b);
        likely && trials.iter().all(|trial| trial.1 >= 0.0) && self.worst(trials) <= STRAY
    }
}

/// A slip of the pen that would explain a trial.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Slip {
    /// Set and measured stand in each other's place.
    Exchanged,
    /// One of the two was another figure; either, where that explains it as well.
    Figure {
        /// The measured angle that would fit.
        measured: Option<Angle>,
        /// The set angle that would fit.
        set: Option<Angle>,
    },
}

impl Slip {
    /// What would have to be otherwise, as the end of a sentence.
    pub fn words(self) -> String {
        let angle = |angle: Angle| format!("{}°", (angle.degrees() * 100.0).round() / 100.0);
        match self {
            Self::Exchanged => "with set and measured exchanged".to_owned(),
            Self::Figure { measured, set } => {
                let measured = measured.map(|to| format!("{} measured", angle(to)));
                let set = set.map(|to| format!("{} set", angle(to)));
                let both: Vec<String> = [measured, set].into_iter().flatten().collect();
                format!("with {}", both.join(" or "))
            }
        }
    }
}

/// The likeliest slip that brings a trial onto the line `a + b × set`: exchanged, ten degrees mistaken, two digits exchanged.
pub(super) fn slip((set, measured): (f64, f64), (a, b): (f64, f64)) -> Option<Slip> {
    let fits = |set: f64, measured: f64| (set - measured - a - b * set).abs() <= STRAY;
    if fits(measured, set) {
        return Some(Slip::Exchanged);
    }
    let tens = |figure: f64| [figure - 10.0, figure + 10.0].to_vec();
    [tens, exchanged_digits].into_iter().find_map(|others| {
        let by_measured = others(measured).into_iter().find(|to| fits(set, *to)).map(Angle::from_degrees);
        let by_set = others(set).into_iter().find(|to| fits(*to, measured)).map(Angle::from_degrees);
        (by_measured.is_some() || by_set.is_some()).then_some(Slip::Figure { measured: by_measured, set: by_set })
    })
}

/// What a figure is with two digits that stand side by side exchanged, read to a tenth.
fn exchanged_digits(figure: f64) -> Vec<f64> {
    let text: Vec<char> = format!("{figure:.1}").chars().collect();
    let digits: Vec<usize> = (0..text.len()).filter(|at| text[*at].is_ascii_digit()).collect();
    let pairs = digits.windows(2).filter(|pair| text[pair[0]] != text[pair[1]]);
    let swapped = pairs.filter_map(|pair| {
        let mut text = text.clone();
        text.swap(pair[0], pair[1]);
        text.into_iter().collect::<String>().parse().ok()
    });
    swapped.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_that_explains_a_trial_is_named() {
        // Springback 0.5° and 0.02 a degree: 90° leaves 87.7°. By hand.
        let line = (0.5, 0.02);
        assert_eq!(slip((87.7, 90.0), line), Some(Slip::Exchanged));
        let is = |found: Option<Slip>, wanted: &str| assert_eq!(found.map(Slip::words).as_deref(), Some(wanted));
        // Of ten degrees nothing tells in which of the two they were mistaken.
        is(slip((90.0, 77.7), line), "with 87.7° measured or 80° set");
        is(slip((80.0, 87.7), line), "with 77.7° measured or 90° set");
        is(slip((90.0, 78.7), line), "with 87.7° measured");
        assert_eq!(slip((90.0, 84.0), line), None);
    }

    #[test]
    fn what_nothing_tells_apart_is_left_open() {
        // Through two goes a line always; the third may be as wrong as either.
        assert_eq!(agreement(&[(30.0, 1.2), (60.0, 3.0), (90.0, 2.4)]), Agreement::Scattered);
        assert_eq!(agreement(&[(40.0, 1.5), (120.0, 13.5)]), Agreement::Unlikely);
        assert_eq!(agreement(&[(30.0, 1.0), (60.0, 2.0), (90.0, 4.0)]), Agreement::OnALine);
        assert_eq!(agreement(&[(30.0, 1.0), (60.0, -2.0), (90.0, 2.0)]), Agreement::AllBut(1));
    }
}
