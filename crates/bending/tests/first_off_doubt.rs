//! Measurements that are wrong are doubted and what is wrong with them is named; a machine that strays as machines do,
//! measured with the noise that there is, is never doubted.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use std::collections::BTreeMap;

use elbowroom_bending::first_off::job::{Job, design};
use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::first_off::points::{Layout, path_of};
use elbowroom_bending::first_off::{BentFigure, MeasurementDoubt, Tolerance};
use elbowroom_bending::forward::{MachineError, replay};
use elbowroom_bending::measurement::{MeasuredRow, Measurement};
use elbowroom_bending::plan::{Plan, plan};
use elbowroom_bending::{End, Hand, specimen};
use elbowroom_geometry::{Angle, BendPath, Length, Point3, Vector3};

/// The same numbers at each run (xorshift; from memory).
struct Drawn(u64);

impl Drawn {
    /// Evenly between 0 and 1.
    fn share(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.share()
    }

    fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count - 1)
    }

    fn of<T: Copy>(&mut self, these: &[T]) -> T {
        these[self.below(these.len())]
    }

    fn yes(&mut self, share: f64) -> bool {
        self.share() < share
    }

    /// A part of what people draw: short and long, a bend by two points now and then.
    fn part(&mut self) -> Plan {
        loop {
            let bends = self.of(&[1, 1, 2, 2, 3, 4, 5, 6, 8, 12, 20, 30, 40]);
            let us = self.of(&[0.0, 0.0, 0.2]);
            let mut rows = Vec::new();
            for _ in 0..bends {
                let rotation = if self.yes(0.7) {
                    self.of(&[0.0, 30.0, 45.0, 90.0, 180.0, -90.0, -45.0])
                } else {
                    self.between(-179.0, 180.0)
                };
                let (straight, angle) = if self.yes(us) {
                    (self.of(&[150.0, 200.0, 300.0]), self.of(&[170.0, 180.0, 180.0, 185.0]))
                } else if self.yes(0.7) {
                    (
                        self.of(&[60.0, 80.0, 100.0, 150.0, 200.0, 300.0, 500.0]),
                        self.of(&[15.0, 30.0, 45.0, 60.0, 90.0, 90.0, 120.0, 135.0]),
                    )
                } else {
                    (self.between(50.0, 400.0), self.between(10.0, 145.0))
                };
                rows.push(specimen::row(straight, rotation, angle));
            }
            let part = specimen::part(rows, self.of(&[80.0, 150.0, 250.0, 400.0])).unwrap();
            let Ok(plan) =
                plan(&specimen::bent(&part, self.of(&[End::Start, End::Finish]), Hand::Right), &specimen::shop())
            else {
                continue;
            };
            let path = &plan.program.as_bent;
            if path.rows().iter().map(|row| row.straight).chain([path.tail()]).all(|straight| straight.mm() > 10.0) {
                return plan;
            }
        }
    }

    /// A piece off a machine that strays as machines do: each step by itself, springback beyond theory, bends that take
    /// less blank.
    fn bent(&mut self, plan: &Plan) -> Bent {
        let mut bent = plan.program.clone();
        let steepest = if self.yes(0.2) { 0.06 } else { 0.03 };
        let (offset, slope) = (self.between(-0.3, 1.5), self.between(-0.005, steepest));
        let stretch = self.between(0.0, 0.03);
        for step in &mut bent.steps {
            step.forming.line = specimen::steeper(step.forming.line, specimen::line(offset, slope));
            step.forming.stretch = stretch;
        }
        let errors: Vec<MachineError> = (0..bent.steps.len())
            .map(|_| MachineError {
                set_angle: Angle::from_degrees(self.between(-1.5, 1.5)),
                rotation: Angle::from_degrees(self.between(-1.5, 1.5)),
                feed: Length::from_mm(self.between(-2.0, 2.0)),
            })
            .collect();
        let by_arc_ends: Vec<bool> = plan.program.steps.iter().map(|step| step.free_angle.degrees() >= 150.0).collect();
        let replayed = replay(&bent, plan.hand, &errors);
        let mut points = replayed.points(|bend| by_arc_ends[bend]).unwrap();
        let mut path =
            path_of(&points, &Layout::usual(plan.program.steps.iter().map(|step| step.free_angle)), |bend, angle| {
                bent.steps[bend].forming.die_clr * ((bent.steps[bend].set_angle + errors[bend].set_angle) / angle)
            })
            .unwrap();
        if plan.from == End::Finish {
            points.reverse();
            path = path.reversed();
        }
        Bent { points, path }
    }
}

/// What came off a machine, in the order of the drawing.
struct Bent {
    points: Vec<Point3<f64>>,
    path: BendPath,
}

impl Bent {
    /// Measured in any axes, each coordinate half a millimetre out.
    fn measured_points(&self, drawn: &mut Drawn) -> Vec<Point3<f64>> {
        let turn = if drawn.yes(0.5) { [0.0; 3] } else { std::array::from_fn(|_| drawn.between(-3.0, 3.0)) };
        let turn = nalgebra::Rotation3::new(Vector3::from(turn));
        let mut noise = || drawn.between(-0.5, 0.5);
        self.points.iter().map(|point| turn * point + Vector3::new(noise(), noise(), noise())).collect()
    }

    fn measured_rows(&self, drawn: &mut Drawn) -> (Vec<MeasuredRow>, Length) {
        let rows = self.path.rows().iter().map(|row| MeasuredRow {
            straight: row.straight + Length::from_mm(drawn.between(-0.3, 0.3)),
            rotation: row.rotation + Angle::from_degrees(drawn.between(-0.2, 0.2)),
            angle: row.angle + Angle::from_degrees(drawn.between(-0.2, 0.2)),
        });
        (rows.collect(), self.path.tail())
    }
}

fn doubt(plan: &Plan, measurement: Measurement) -> Option<MeasurementDoubt> {
    let tolerance = Tolerance::usual(plan.program.steps.len(), Length::from_mm(specimen::OD_MM));
    let job = Job::of(plan, &[Piece::bent_by(plan, &plan.program, 0, measurement).unwrap()], &tolerance);
    let doubt = job.pieces[0].doubt().cloned();
    assert!(doubt.is_none() || (job.next == plan.program && job.rests_on.is_empty()), "a doubted piece is followed");
    doubt
}

/// Other parts, machines and slips for each of these. It held on forty others as well; try some after a change to what is
/// plausible.
const SEEDS: [u64; 4] = [0x9E37_79B9_7F4A_7C15, 0x2545_F491_4F6C_DD1D, 7, 1_000_003];

fn machines_are_not_doubted(seed: u64) {
    let mut drawn = Drawn(seed);
    for case in 0..500 {
        let plan = drawn.part();
        let bent = drawn.bent(&plan);
        let bends = plan.program.steps.len();
        let points = doubt(&plan, Measurement::Points(bent.measured_points(&mut drawn)));
        assert_eq!(points, None, "seed {seed}, case {case}, {bends} bends, by points");
        let (rows, tail) = bent.measured_rows(&mut drawn);
        let rows = doubt(&plan, Measurement::Rows(rows, tail));
        assert_eq!(rows, None, "seed {seed}, case {case}, {bends} bends, by rows");
    }
}

/// How many slips were drawn, doubted, and named.
#[derive(Default, Debug, Clone, Copy)]
struct Tally {
    drawn: usize,
    doubted: usize,
    named: usize,
    /// Named, and nothing else beside it.
    alone: usize,
    false_claims: usize,
}

#[derive(Default)]
struct Tallies(BTreeMap<String, Tally>);

impl Tallies {
    fn count(&mut self, kind: &str, told: Option<&MeasurementDoubt>, named: bool) {
        let tally = self.0.entry(kind.to_owned()).or_default();
        tally.drawn += 1;
        tally.doubted += usize::from(told.is_some());
        tally.named += usize::from(named);
        tally.alone += usize::from(named && told.is_some_and(|told| told.candidates().len() == 1));
        let claims = told.is_some_and(|told| {
            !matches!(
                told,
                MeasurementDoubt::Beyond(_) | MeasurementDoubt::NotThisPart { .. } | MeasurementDoubt::NoTube
            )
        });
        tally.false_claims += usize::from(claims && !named);
    }

    fn sum(&self) -> Tally {
        self.0.values().fold(Tally::default(), |sum, tally| Tally {
            drawn: sum.drawn + tally.drawn,
            doubted: sum.doubted + tally.doubted,
            named: sum.named + tally.named,
            alone: sum.alone + tally.alone,
            false_claims: sum.false_claims + tally.false_claims,
        })
    }

    fn lines(&self) -> String {
        self.0.iter().map(|(kind, tally)| format!("  {kind}: {tally:?}\n")).collect()
    }

    /// Slips that a machine may stray as well are doubted or not; what is claimed of them must hold.
    fn check_small(&self, seed: u64) {
        let small = self.sum();
        let holds = small.drawn > 20 && small.false_claims * 20 <= small.drawn;
        assert!(holds, "seed {seed}, of slips too small to tell: {small:?}\n{}", self.lines());
    }

    /// All are doubted, and what is named holds the slip. Where more than one thing explains it, as on a part of one
    /// bend, whose two lengths and one angle any of its three points can explain, each is named.
    fn check(&self, seed: u64) {
        let sum = self.sum();
        let share = |count: usize| count as f64 / sum.drawn as f64;
        let holds = sum.drawn > 400 && sum.doubted == sum.drawn && share(sum.named) >= 0.98 && share(sum.alone) >= 0.8;
        assert!(holds, "seed {seed}: {sum:?}\n{}", self.lines());
    }
}

/// The lengths and angles by which figures lie further from others.
struct Further {
    straight_mm: f64,
    rotation: Angle,
    /// By how much wider a bend of an angle is, and by how much less wide.
    angle: fn(Angle) -> [Angle; 2],
}

/// What is no small slip. (The end of a long leg that lies 30 mm aside is a degree or two of its bend, which any machine
/// may stray.)
const A_SLIP: Further =
    Further { straight_mm: 29.0, rotation: Angle::from_degrees(9.9), angle: |_| [Angle::from_degrees(9.9); 2] };
/// What no machine strays from its settings: where a slip lands nearer to them than this, nothing tells it from the piece
/// of a machine that strayed so. Bends open by up to 3° and 6 % more than theory says.
const NO_MACHINE: Further = Further {
    straight_mm: 25.0,
    rotation: Angle::from_degrees(9.0),
    angle: |set| {
        [Angle::from_degrees(9.0), (Angle::from_degrees(3.0) + set * 0.06).max(Angle::from_degrees(6.5)) * 1.4]
    },
};

/// Whether some figure lies so much further. At the end that was bent last comes out what bends took up otherwise.
fn any_further(is: &BendPath, than: &BendPath, from: End, by: &Further) -> bool {
    let turned = |angle: Angle| {
        let degrees = angle.degrees().rem_euclid(360.0);
        Angle::from_degrees(degrees.min(360.0 - degrees))
    };
    let arcs: f64 = than.rows().iter().map(|row| row.arc_mm()).sum();
    let last = |end: End| if from == end { 0.0 } else { 0.06 * arcs };
    let mut pairs = is.rows().iter().zip(than.rows()).enumerate();
    pairs.any(|(index, (is, than))| {
        let straight_mm = by.straight_mm + if index == 0 { last(End::Start) } else { 0.0 };
        let [wider, less] = (by.angle)(than.angle);
        (is.straight - than.straight).abs().mm() >= straight_mm
            || is.angle - than.angle >= wider
            || than.angle - is.angle >= less
            || (index > 0 && turned(is.rotation - than.rotation) >= by.rotation)
    }) || (is.tail() - than.tail()).abs().mm() >= by.straight_mm + last(End::Finish)
}

/// Whether a slip makes something of the figures that no machine does. What makes no tube does.
fn is_told(plan: &Plan, right: &BendPath, slipped: Option<&BendPath>) -> bool {
    slipped.is_none_or(|slipped| {
        any_further(slipped, right, plan.from, &A_SLIP) && any_further(slipped, &design(plan), plan.from, &NO_MACHINE)
    })
}

fn wrong_points(seed: u64) {
    let mut drawn = Drawn(seed);
    let mut tallies = Tallies::default();
    let mut others = Tallies::default();
    for _ in 0..700 {
        let plan = drawn.part();
        let bent = drawn.bent(&plan);
        let right = bent.measured_points(&mut drawn);
        let mut slipped = right.clone();
        let count = slipped.len();
        let point = drawn.below(count);
        let axis = drawn.below(3);
        let kind = drawn.of(&["coordinate", "coordinate", "sign", "exchanged"]);
        let mut other = point;
        match kind {
            "coordinate" => {
                slipped[point][axis] += drawn.of(&[30.0, -30.0, 50.0, -50.0, 100.0, -100.0, 200.0, 500.0, -1000.0])
            }
            "sign" => slipped[point][axis] = -slipped[point][axis],
            _ => {
                other = drawn.below(count);
                slipped.swap(point, other);
            }
        }
        if (slipped[point] - right[point]).norm() < 30.0 {
            continue;
        }
        let layout = Layout::usual(bent_angles(&plan));
        let radius = |bend: usize, _: Angle| bent.path.rows()[bend].clr;
        let changed =
            is_told(&plan, &path_of(&right, &layout, radius).unwrap(), path_of(&slipped, &layout, radius).as_ref());
        let told = doubt(&plan, Measurement::Points(slipped));
        let names = |told: &MeasurementDoubt| match told {
            MeasurementDoubt::Point(wrong) => {
                kind != "exchanged" && wrong.point == point && wrong.axis.is_none_or(|(at, ..)| at == axis)
            }
            MeasurementDoubt::Swapped(first, second) => {
                kind == "exchanged" && (*first, *second) == (point.min(other), point.max(other))
            }
            // Two points, or three and two of them exchanged, are the same list from the other end.
            MeasurementDoubt::FromTheOtherEnd => kind == "exchanged" && count == 3,
            _ => false,
        };
        let named = told.as_ref().is_some_and(|told| told.candidates().iter().any(names));
        let place = if point == 0 || point + 1 == count { "an end" } else { "a bend" };
        if changed { &mut tallies } else { &mut others }.count(
            &format!("{kind} of {place}, {} bends", plan.program.steps.len()),
            told.as_ref(),
            named,
        );
    }
    others.check_small(seed);
    tallies.check(seed);
}

fn bent_angles(plan: &Plan) -> Vec<Angle> {
    let mut angles: Vec<Angle> = plan.program.steps.iter().map(|step| step.free_angle).collect();
    if plan.from == End::Finish {
        angles.reverse();
    }
    angles
}

fn wrong_rows(seed: u64) {
    let mut drawn = Drawn(seed);
    let mut tallies = Tallies::default();
    let mut others = Tallies::default();
    for _ in 0..900 {
        let plan = drawn.part();
        let bent = drawn.bent(&plan);
        let (mut rows, tail) = bent.measured_rows(&mut drawn);
        let all_right = rows.clone();
        let row = drawn.below(rows.len());
        let right = rows[row];
        let kind = drawn.of(&["straight", "angle", "rotation", "sign of rotation", "exchanged"]);
        let mut other = row;
        match kind {
            "straight" if drawn.yes(0.3) => rows[row].straight = rows[row].straight * 10.0,
            "straight" => rows[row].straight += Length::from_mm(drawn.of(&[30.0, 50.0, -50.0, 100.0, 300.0])),
            "angle" if drawn.yes(0.3) => {
                // Two digits exchanged.
                let whole = right.angle.degrees().round();
                rows[row].angle = Angle::from_degrees(
                    (whole % 10.0) * 10.0 + (whole / 10.0).floor() % 10.0 + (whole / 100.0).floor() * 100.0,
                );
            }
            "angle" => rows[row].angle += Angle::from_degrees(drawn.of(&[10.0, -10.0, 15.0, 20.0, -20.0, 45.0])),
            "rotation" => rows[row].rotation += Angle::from_degrees(drawn.of(&[10.0, -10.0, 20.0, 45.0, 90.0, 180.0])),
            "sign of rotation" => rows[row].rotation = -rows[row].rotation,
            _ => {
                other = drawn.below(rows.len());
                rows.swap(row, other);
            }
        }
        let now = rows[row];
        if now.angle.degrees() < 2.0 || now.angle.degrees() > 200.0 {
            continue;
        }
        let path_of = |rows: &[MeasuredRow]| {
            let row = |row: &MeasuredRow| specimen::row(row.straight.mm(), row.rotation.degrees(), row.angle.degrees());
            BendPath::new(*bent.path.start(), rows.iter().map(row).collect(), tail).unwrap()
        };
        let changed = is_told(&plan, &path_of(&all_right), Some(&path_of(&rows)));
        let told = doubt(&plan, Measurement::Rows(rows, tail));
        let figure = match kind {
            "straight" => BentFigure::Straight(row),
            "angle" => BentFigure::Angle(row),
            _ => BentFigure::Rotation(row),
        };
        let count = plan.program.steps.len();
        let names = |told: &MeasurementDoubt| match told {
            MeasurementDoubt::Row(wrong) => kind != "exchanged" && wrong.figure == figure,
            MeasurementDoubt::SwappedRows(first, second) => {
                kind == "exchanged" && (*first, *second) == (row.min(other), row.max(other))
            }
            _ => false,
        };
        let named = told.as_ref().is_some_and(|told| told.candidates().iter().any(names));
        if changed { &mut tallies } else { &mut others }.count(
            &format!("{kind}, {} bends", if count > 3 { "more" } else { ["", "1", "2", "3"][count] }),
            told.as_ref(),
            named,
        );
    }
    others.check_small(seed);
    tallies.check(seed);
}

/// Runs a test on every one of [`SEEDS`].
fn on_each(test: fn(u64)) {
    SEEDS.into_iter().for_each(test);
}

#[test]
fn what_a_machine_plausibly_strays_is_never_doubted() {
    on_each(machines_are_not_doubted);
}

#[test]
fn one_wrong_point_is_doubted_and_named() {
    on_each(wrong_points);
}

#[test]
fn one_wrong_figure_of_a_row_is_doubted_and_named() {
    on_each(wrong_rows);
}
