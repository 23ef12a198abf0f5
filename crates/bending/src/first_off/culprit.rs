//! Which one thing would explain a measurement that no machine strays to: two points exchanged, one of them wrong, one
//! figure of a row, the whole list mirrored or from the other end. Each is tried in turn; what is left is compared.

use elbowroom_geometry::{Angle, BendPath, BendRow, Length, Point3, Vector3};
use nalgebra::{DMatrix, DVector};

use super::doubt::{MeasurementDoubt, WrongFigure, WrongPoint};
use super::plausible::{AsSet, BentFigure, Beyond, Plausible};
use crate::rigid_fit::rigid_fit;

/// An explanation must take so much off the sum of squares: 8 times the usual stray of one figure.
const TAKEN_OFF: f64 = 64.0;
/// What each number that it is free to choose has to take off beyond that.
const FOR_EACH_NUMBER: f64 = 4.0;
/// No figure may stray further than this, in times its usual stray, once an explanation is taken.
const STILL_USUAL: f64 = 4.5;
/// An explanation of the whole list is believed as well where it leaves less than this share.
const BELIEVED_OF_ALL: f64 = 0.1;
/// Explanations that lie no further from the best one than this, in squares of the usual stray, are as good as it.
const AS_GOOD: f64 = 16.0;
/// So many of them are told at most.
const MOST_TOLD: usize = 4;
/// Where no figure strays further than this, in times its usual stray, nothing asks for an explanation.
const UNSUSPICIOUS: f64 = 3.0;
/// How many points or rows are suspected of a long part; of a part of so many at most each is.
const SUSPECTS: usize = 24;
const ALL_SUSPECTED: usize = 60;
/// Up to so many points, one may fit in several places.
const FEW_POINTS: usize = 6;
/// How many points on either side tell where one should lie.
const NEIGHBOURS: usize = 3;

/// A fit that is off by more than this share of the way along the points is no first-off of this part. (Along them and
/// not across: a part that folds back on itself lies close together, and its ends still stray with all of its length.)
const NOT_THIS_PART: f64 = 0.1;
/// How far a measured point usually lies from the tube; and what rows, which are worked out of many points, keep of it.
const NOISE_OF_POINTS_MM: f64 = 0.5;
const NOISE_OF_ROWS_MM: f64 = 0.2;

/// Says what speaks against taking measured points at their word. `tube` makes a path of points.
pub(super) fn doubt_points(
    as_set: AsSet,
    design: &[Point3<f64>],
    measured: &[Point3<f64>],
    tube: &dyn Fn(&[Point3<f64>]) -> Option<BendPath>,
) -> Result<(), MeasurementDoubt> {
    let plausible = Plausible::of(as_set, NOISE_OF_POINTS_MM);
    of_points(&plausible, design, measured, tube).map_err(|doubt| told(doubt, design, measured))
}

/// Says what speaks against taking measured rows at their word. `points` are those that they give, beside those that
/// should have come out.
pub(super) fn doubt_rows(
    as_set: AsSet,
    (measured, first_rotation): (&BendPath, Angle),
    (design, points): (&[Point3<f64>], &[Point3<f64>]),
) -> Result<(), MeasurementDoubt> {
    let plausible = Plausible::of(as_set, NOISE_OF_ROWS_MM);
    of_rows(&plausible, measured, first_rotation).map_err(|doubt| told(doubt, design, points))
}

fn told(doubt: Unexplained, design: &[Point3<f64>], measured: &[Point3<f64>]) -> MeasurementDoubt {
    let beyond = match doubt {
        Unexplained::No(doubt) => return doubt,
        Unexplained::Beyond(beyond) => beyond,
    };
    let along: f64 = design.windows(2).map(|ends| (ends[1] - ends[0]).norm()).sum();
    match rigid_fit(design, measured) {
        Some(fit) if fit.worst_mm > NOT_THIS_PART * along => MeasurementDoubt::NotThisPart { worst_mm: fit.worst_mm },
        _ => MeasurementDoubt::Beyond(beyond),
    }
}

/// Explanations tried so far, the best of them and those as good as it kept.
struct Trial<'a> {
    plausible: &'a Plausible<'a>,
    kept: Vec<(f64, MeasurementDoubt)>,
    before: f64,
}

impl Trial<'_> {
    /// Tries an explanation that leaves a path and is free to choose so many numbers.
    fn consider(
        &mut self,
        left: Option<&BendPath>,
        numbers: usize,
        of_all: bool,
        doubt: impl FnOnce() -> MeasurementDoubt,
    ) {
        let Some(left) = left else { return };
        let residuals = self.plausible.residuals(left);
        let cost: f64 = residuals.iter().map(|residual| residual * residual).sum();
        let score = cost + FOR_EACH_NUMBER * numbers as f64;
        // Written so that what is no number is no explanation.
        let good = score.is_finite() && score < self.best() + AS_GOOD;
        // To exchange what is alike, or to mirror what is flat, explains nothing.
        let says_something = numbers > 0 || score + FOR_EACH_NUMBER < self.before;
        let usual = residuals.iter().all(|residual| residual.abs() <= STILL_USUAL);
        if good && says_something && (usual || (of_all && cost < BELIEVED_OF_ALL * self.before)) {
            self.kept.push((score, doubt()));
        }
    }

    fn best(&self) -> f64 {
        self.kept.iter().map(|(score, _)| *score).fold(f64::INFINITY, f64::min)
    }

    /// The best of them, where it explains something that asks for it, and those that explain it as well.
    fn outcome(mut self, measured: Option<&BendPath>) -> Result<(), Unexplained> {
        let beyond = measured.and_then(|path| self.plausible.beyond(path));
        let best = self.best();
        if !self.kept.is_empty() && (beyond.is_some() || self.before - best > TAKEN_OFF) {
            self.kept.sort_by(|a, b| a.0.total_cmp(&b.0));
            let mut told: Vec<MeasurementDoubt> = Vec::new();
            for (score, doubt) in self.kept {
                if score < best + AS_GOOD && !told.iter().any(|other| other.is_of_the_same(&doubt)) {
                    told.push(doubt);
                }
            }
            told.truncate(MOST_TOLD);
            return Err(Unexplained::No(MeasurementDoubt::any_of(told)));
        }
        match beyond {
            Some(beyond) => Err(Unexplained::Beyond(beyond)),
            None if measured.is_none() => Err(Unexplained::No(MeasurementDoubt::NoTube)),
            None => Ok(()),
        }
    }
}

/// What speaks against a measurement.
enum Unexplained {
    /// Something that explains it.
    No(MeasurementDoubt),
    /// A figure that no machine strays to, and nothing that explains it.
    Beyond(Beyond),
}

fn unsuspicious(plausible: &Plausible, measured: Option<&BendPath>) -> bool {
    measured.is_some_and(|path| {
        let usual = plausible.residuals(path).iter().all(|residual| residual.abs() <= UNSUSPICIOUS);
        usual && plausible.beyond(path).is_none()
    })
}

/// Those with the largest of `scores`, in their order.
fn suspects(scores: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..scores.len()).collect();
    if order.len() > ALL_SUSPECTED {
        order.sort_by(|a, b| scores[*b].total_cmp(&scores[*a]));
        order.truncate(SUSPECTS);
        order.sort_unstable();
    }
    order
}

/// What speaks against points. `design` are those that should have come out, `tube` makes a path of points.
fn of_points(
    plausible: &Plausible,
    design: &[Point3<f64>],
    measured: &[Point3<f64>],
    tube: &dyn Fn(&[Point3<f64>]) -> Option<BendPath>,
) -> Result<(), Unexplained> {
    let path = tube(measured);
    if unsuspicious(plausible, path.as_ref()) {
        return Ok(());
    }
    let before = path.as_ref().map_or(f64::INFINITY, |path| plausible.cost(path));
    let mut trial = Trial { plausible, kept: Vec::new(), before };
    let mirrored: Vec<_> = measured.iter().map(|point| Point3::new(point.x, point.y, -point.z)).collect();
    trial.consider(tube(&mirrored).as_ref(), 0, true, || MeasurementDoubt::Mirrored);
    let mut tried = measured.to_vec();
    tried.reverse();
    trial.consider(tube(&tried).as_ref(), 0, true, || MeasurementDoubt::FromTheOtherEnd);
    tried.reverse();
    let suspects = suspects(&point_scores(plausible, design, measured, path.as_ref()));
    for (place, &first) in suspects.iter().enumerate() {
        for &second in &suspects[place + 1..] {
            tried.swap(first, second);
            trial.consider(tube(&tried).as_ref(), 0, false, || MeasurementDoubt::Swapped(first, second));
            tried.swap(first, second);
        }
    }
    for &point in &suspects {
        consider_point(&mut trial, design, measured, tube, point);
    }
    trial.outcome(path.as_ref())
}

/// How much there is to suspect each point of: what strays at the bends beside it, or how far it lies off where the
/// points make no tube.
fn point_scores(
    plausible: &Plausible,
    design: &[Point3<f64>],
    measured: &[Point3<f64>],
    path: Option<&BendPath>,
) -> Vec<f64> {
    let Some(path) = path else {
        let Some(fit) = rigid_fit(design, measured) else { return vec![0.0; design.len()] };
        return design.iter().zip(measured).map(|(design, measured)| (design - fit.motion * measured).norm()).collect();
    };
    let by_bend = plausible.by_bend(path);
    let share = by_bend.len() as f64 / design.len() as f64;
    let near = |point: usize| {
        let bend = (point as f64 * share) as usize;
        let (from, to) = (bend.saturating_sub(2), (bend + 2).min(by_bend.len()));
        by_bend[from..to].iter().copied().fold(0.0, f64::max)
    };
    (0..design.len()).map(near).collect()
}

/// Where the others put a point, and the path that it then makes: the place at which least strays.
fn moved(
    plausible: &Plausible,
    design: &[Point3<f64>],
    measured: &[Point3<f64>],
    tube: &dyn Fn(&[Point3<f64>]) -> Option<BendPath>,
    point: usize,
) -> Option<(Point3<f64>, BendPath)> {
    let around = point.saturating_sub(NEIGHBOURS)..(point + NEIGHBOURS + 1).min(design.len());
    let others: Vec<usize> = around.filter(|other| *other != point).collect();
    let of = |points: &[Point3<f64>]| -> Vec<_> { others.iter().map(|&other| points[other]).collect() };
    let start = rigid_fit(&of(measured), &of(design))?.motion * design[point];
    let axes = [Vector3::x(), Vector3::y(), Vector3::z()];
    let left = settle(plausible, measured, tube, point, start, &axes)?;
    Some((left.0, left.1))
}

/// Tries whether a point is wrong, and one coordinate of it: slips are made in one. More than one that would explain it
/// ([`AS_GOOD`]) leave open which, as on a part in one plane.
fn consider_point(
    trial: &mut Trial,
    design: &[Point3<f64>],
    measured: &[Point3<f64>],
    tube: &dyn Fn(&[Point3<f64>]) -> Option<BendPath>,
    point: usize,
) {
    let plausible = trial.plausible;
    let Some((at, left)) = moved(plausible, design, measured, tube, point) else { return };
    let (was, cost) = (measured[point], plausible.cost(&left));
    let off_mm = (was - at).norm();
    let wrong = |axis| move || MeasurementDoubt::Point(WrongPoint { point, off_mm, axis });
    trial.consider(Some(&left), 6, false, wrong(None));
    // Few points leave several places along a line, and a sign is lost most easily.
    let few = measured.len() <= FEW_POINTS;
    let along = |axis: usize| {
        let others = [was[axis] + off_mm, was[axis] - off_mm, -was[axis]].into_iter().filter(|_| few);
        let found = std::iter::once(at[axis]).chain(others).filter_map(|from| {
            let mut start = was;
            start[axis] = from;
            let (at, left) = settle(plausible, measured, tube, point, start, &[Vector3::ith(axis, 1.0)])?;
            Some((plausible.cost(&left), left, (axis, was[axis], at[axis])))
        });
        found.min_by(|a, b| a.0.total_cmp(&b.0)).filter(|(one, ..)| *one <= cost + AS_GOOD)
    };
    let mut axes: Vec<_> = (0..3).filter_map(along).collect();
    axes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let only = axes.get(1).is_none_or(|second| axes[0].0 + AS_GOOD < second.0);
    if let Some((_, left, axis)) = axes.first() {
        trial.consider(Some(left), 1, false, wrong(only.then_some(*axis)));
    }
}

/// Moves a point along directions to where least strays (Levenberg and Marquardt, from memory).
fn settle(
    plausible: &Plausible,
    measured: &[Point3<f64>],
    tube: &dyn Fn(&[Point3<f64>]) -> Option<BendPath>,
    point: usize,
    start: Point3<f64>,
    directions: &[Vector3<f64>],
) -> Option<(Point3<f64>, BendPath)> {
    const STEPS: usize = 15;
    const NUDGE_MM: f64 = 0.05;
    const NEAR_ENOUGH_MM: f64 = 0.05;
    let mut tried = measured.to_vec();
    let mut path_at = |at: Point3<f64>| {
        tried[point] = at;
        tube(&tried)
    };
    let mut at = start;
    let mut path = path_at(at)?;
    let mut residuals = DVector::from_vec(plausible.residuals(&path));
    let mut damping = 1e-3;
    for _ in 0..STEPS {
        let mut columns = Vec::with_capacity(directions.len());
        for direction in directions {
            let nudged = DVector::from_vec(plausible.residuals(&path_at(at + direction * NUDGE_MM)?));
            columns.push((nudged - &residuals) / NUDGE_MM);
        }
        let jacobian = DMatrix::from_columns(&columns);
        let mut normal = jacobian.tr_mul(&jacobian);
        let gradient = jacobian.tr_mul(&residuals);
        for index in 0..directions.len() {
            normal[(index, index)] += damping * normal[(index, index)] + 1e-9;
        }
        let step = normal.cholesky()?.solve(&-gradient);
        let to = directions.iter().zip(step.iter()).fold(at, |at, (direction, step)| at + direction * *step);
        let better = path_at(to).map(|path| (DVector::from_vec(plausible.residuals(&path)), path));
        match better.filter(|(left, _)| left.norm_squared() < residuals.norm_squared()) {
            Some((left, there)) => {
                (at, residuals, path) = (to, left, there);
                damping /= 4.0;
                if step.norm() < NEAR_ENOUGH_MM {
                    break;
                }
            }
            None => damping *= 8.0,
        }
    }
    Some((at, path))
}

/// What speaks against bend rows.
/// (A path keeps no rotation before its first bend, which another row may have given it: that one comes along.)
fn of_rows(plausible: &Plausible, measured: &BendPath, first_rotation: Angle) -> Result<(), Unexplained> {
    if unsuspicious(plausible, Some(measured)) {
        return Ok(());
    }
    let mut trial = Trial { plausible, kept: Vec::new(), before: plausible.cost(measured) };
    let with = |change: &dyn Fn(&mut Vec<BendRow>)| {
        let mut rows = measured.rows().to_vec();
        if let Some(first) = rows.first_mut() {
            first.rotation = first_rotation;
        }
        change(&mut rows);
        BendPath::new(*measured.start(), rows, measured.tail()).ok()
    };
    let mirrored = with(&|rows| rows.iter_mut().for_each(|row| row.rotation = -row.rotation));
    trial.consider(mirrored.as_ref(), 0, true, || MeasurementDoubt::Mirrored);
    trial.consider(Some(&measured.reversed()), 0, true, || MeasurementDoubt::FromTheOtherEnd);
    let mut scores = plausible.by_bend(measured);
    let of_tail = scores.pop();
    let suspects = suspects(&scores);
    for (place, &first) in suspects.iter().enumerate() {
        for &second in &suspects[place + 1..] {
            trial.consider(with(&|rows| rows.swap(first, second)).as_ref(), 0, false, || {
                MeasurementDoubt::SwappedRows(first, second)
            });
        }
    }
    let expected = plausible.expected;
    for &row in &suspects {
        let (was, right) = (measured.rows()[row], expected.rows()[row]);
        let likely = plausible.likely_angle(measured, row);
        let wrong = |figure, was, fits| move || MeasurementDoubt::Row(WrongFigure { figure, was, fits });
        let straight = with(&|rows| rows[row].straight = right.straight);
        let doubt = wrong(BentFigure::Straight(row), was.straight.mm(), right.straight.mm());
        trial.consider(straight.as_ref(), 1, false, doubt);
        let angle = with(&|rows| rows[row].angle = likely);
        trial.consider(angle.as_ref(), 1, false, wrong(BentFigure::Angle(row), was.angle.degrees(), likely.degrees()));
        let doubt = |fits: Angle| wrong(BentFigure::Rotation(row), was.rotation.degrees(), fits.degrees());
        let turned_over = with(&|rows| rows[row].rotation = -was.rotation);
        trial.consider(turned_over.as_ref(), 0, false, doubt(-was.rotation));
        let rotation = with(&|rows| rows[row].rotation = right.rotation);
        trial.consider(rotation.as_ref(), 1, false, doubt(right.rotation));
    }
    if of_tail.is_some_and(|square| square > UNSUSPICIOUS) {
        let tail: Length = expected.tail();
        let path = BendPath::new(*measured.start(), measured.rows().to_vec(), tail).ok();
        let figure = BentFigure::Straight(measured.rows().len());
        trial.consider(path.as_ref(), 1, false, || {
            MeasurementDoubt::Row(WrongFigure { figure, was: measured.tail().mm(), fits: tail.mm() })
        });
    }
    trial.outcome(Some(measured))
}
