//! A measured first-off: vertices or bend rows, judged against the plan it was bent by.

use elbowroom_geometry::{Angle, BendPath, BendRow, Length, Point3, VertexPath};

use crate::End;
use crate::first_off::{Comparison, MeasurementDoubt, Tolerance, compare, corrected};
use crate::plan::Plan;
use crate::program::Program;

/// What was measured on the first-off, from the lead end of the drawing to its tail.
#[derive(Clone, Debug, PartialEq)]
pub enum Measurement {
    /// Both ends and, for each bend, the point where the middles of its straights would meet, mm, in any
    /// axes.
    Vertices(Vec<Point3<f64>>),
    /// The bends as a machine would bend them, and the straight behind the last one.
    Rows(Vec<MeasuredRow>, Length),
}

/// One measured bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredRow {
    /// The straight before the bend.
    pub straight: Length,
    /// Rotation since the bend before; that of the first bend says nothing.
    pub rotation: Angle,
    /// Bend angle.
    pub angle: Angle,
}

/// A first-off judged.
#[derive(Clone, Debug, PartialEq)]
pub struct FirstOff {
    /// The measured part against the plan, in the order of bending.
    pub found: Comparison,
    /// What it was judged by.
    pub tolerance: Tolerance,
    /// Whether everything lies within the tolerance.
    pub within: bool,
    /// The program for the next piece.
    pub next: Program,
}

impl Measurement {
    /// The measured vertices, from the lead end of `design` to its tail. Rows become vertices through the
    /// bend form with the free radii of the design.
    ///
    /// # Errors
    /// Doubts rows that are more or fewer than the design's, and those that have no vertices.
    pub fn vertices(&self, design: &BendPath) -> Result<Vec<Point3<f64>>, MeasurementDoubt> {
        let (rows, tail) = match self {
            Self::Vertices(points) => return Ok(points.clone()),
            Self::Rows(rows, tail) => (rows, *tail),
        };
        if rows.len() != design.rows().len() {
            return Err(MeasurementDoubt::Bends { design: design.rows().len(), measured: rows.len() });
        }
        let rows = rows.iter().zip(design.rows()).map(|(row, drawn)| BendRow {
            straight: row.straight,
            rotation: row.rotation,
            angle: row.angle,
            clr: drawn.clr,
        });
        let path = BendPath::new(*design.start(), rows.collect(), tail)?;
        let vertices = path.to_vertex_form().map_err(|none| MeasurementDoubt::NoVertex(none.bend))?;
        Ok(vertices.points().to_vec())
    }
}

/// Judges a measured first-off against the plan it was bent by. A doubtful measurement is told, and not
/// followed.
///
/// # Errors
/// See [`MeasurementDoubt`]. Vertices in it are counted in the order of the measurement.
pub fn judge(plan: &Plan, measurement: &Measurement, tolerance: Tolerance) -> Result<FirstOff, MeasurementDoubt> {
    let design = &plan.program.as_bent;
    let mut vertices = match plan.from {
        End::Lead => measurement.vertices(design)?,
        End::Tail => measurement.vertices(&design.reversed())?,
    };
    if plan.from == End::Tail {
        vertices.reverse();
    }
    let found = compare(design, &vertices).map_err(|doubt| match plan.from {
        End::Lead => doubt,
        End::Tail => turned_round(doubt, vertices.len()),
    })?;
    let within = found.within(&tolerance);
    let next = corrected(&plan.program, &found);
    Ok(FirstOff { found, tolerance, within, next })
}

/// A doubt about a list that was turned round, in the numbers of the list as it was given.
fn turned_round(doubt: MeasurementDoubt, count: usize) -> MeasurementDoubt {
    let turned = |vertex: usize| (count - 1).saturating_sub(vertex);
    match doubt {
        MeasurementDoubt::Swapped(first, second) => MeasurementDoubt::Swapped(turned(second), turned(first)),
        MeasurementDoubt::NotANumber(vertex) => MeasurementDoubt::NotANumber(turned(vertex)),
        MeasurementDoubt::Count { design, measured, missing } => {
            let longer = design.max(measured);
            let missing = missing.map(|vertex| (longer - 1).saturating_sub(vertex));
            MeasurementDoubt::Count { design, measured, missing }
        }
        other => other,
    }
}

impl FirstOff {
    /// The worst of what was found, in one sentence.
    pub fn verdict(&self) -> String {
        let (found, tolerance) = (&self.found, &self.tolerance);
        let worst = |offs: &mut dyn Iterator<Item = f64>| offs.map(f64::abs).fold(0.0, f64::max);
        let angle = worst(&mut found.angle_off.iter().chain(&found.rotation_off).map(|off| off.degrees()));
        let straight = worst(&mut found.straight_off_mm.iter().copied());
        let vertex = worst(&mut found.vertex_off_mm.iter().copied());
        format!(
            "{}: vertices up to {vertex:.1} mm off, straights up to {straight:.1} mm, angles and rotations up to {angle:.1}°; allowed are {:.1} mm and {:.1}°.",
            if self.within { "Within tolerance" } else { "Out of tolerance" },
            tolerance.length.mm(),
            tolerance.angle.degrees()
        )
    }

    /// The measured tube laid over the design, its deviations drawn so many times as large. `design` is the
    /// path it was judged against. `None` where so much magnification leaves no tube.
    pub fn ghost(&self, design: &BendPath, magnified: f64) -> Option<BendPath> {
        let drawn = design.to_vertex_form().ok()?;
        let strayed = drawn.points().iter().zip(&self.found.fitted);
        let points = strayed.map(|(drawn, measured)| drawn + (measured - drawn) * magnified).collect();
        let form = VertexPath::new(points, drawn.clr().to_vec()).ok()?.to_bend_form();
        form.problems.is_empty().then_some(form.path)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;
    use crate::plan::plan;
    use crate::{Hand, specimen};

    fn planned(from: End) -> Plan {
        let rows =
            vec![specimen::row(300.0, 0.0, 90.0), specimen::row(250.0, 40.0, 60.0), specimen::row(200.0, -70.0, 45.0)];
        plan(&specimen::part(rows, 400.0).unwrap(), &specimen::shop(), from, Hand::Right).unwrap()
    }

    fn rows_of(path: &BendPath) -> Vec<MeasuredRow> {
        let row = |row: &BendRow| MeasuredRow { straight: row.straight, rotation: row.rotation, angle: row.angle };
        path.rows().iter().map(row).collect()
    }

    fn usual() -> Tolerance {
        Tolerance::usual(3, Length::from_mm(50.8))
    }

    #[test]
    fn rows_and_vertices_tell_the_same() {
        let plan = planned(End::Lead);
        let design = &plan.program.as_bent;
        let mut rows = rows_of(design);
        rows[1].angle += Angle::from_degrees(2.0);
        rows[2].straight += Length::from_mm(3.0);
        let by_rows = judge(&plan, &Measurement::Rows(rows.clone(), design.tail()), usual()).unwrap();
        assert!(!by_rows.within);
        assert!((by_rows.found.angle_off[1].degrees() - 2.0).abs() < 1e-9);
        assert!((by_rows.found.straight_off_mm[2] - 3.0).abs() < 1e-9);
        assert!(by_rows.found.rotation_off.iter().all(|off| off.degrees().abs() < 1e-9));
        let vertices = Measurement::Rows(rows, design.tail()).vertices(design).unwrap();
        let by_vertices = judge(&plan, &Measurement::Vertices(vertices), usual()).unwrap();
        assert_eq!(by_rows, by_vertices);
        // The error is taken out of the second bend's set angle, through the slope of springback.
        let step = &plan.program.steps[1];
        let moved = (by_rows.next.steps[1].set_angle - step.set_angle).degrees();
        assert!((moved + 2.0 / (1.0 - step.forming.line.b)).abs() < 1e-9, "{moved}");
    }

    #[test]
    fn a_part_bent_from_its_tail_is_still_measured_from_its_lead_end() {
        let (forth, back) = (planned(End::Lead), planned(End::Tail));
        let drawn = &forth.program.as_bent;
        let mut rows = rows_of(drawn);
        rows[0].angle += Angle::from_degrees(1.2);
        let measured = Measurement::Rows(rows, drawn.tail());
        let found = judge(&back, &measured, usual()).unwrap().found;
        // The drawing's first bend is the last one made.
        assert!((found.angle_off[2].degrees() - 1.2).abs() < 1e-9, "{found:?}");
        let mut swapped = measured.vertices(drawn).unwrap();
        swapped.swap(1, 2);
        let doubt = judge(&back, &Measurement::Vertices(swapped), usual()).unwrap_err();
        assert_eq!(doubt, MeasurementDoubt::Swapped(1, 2));
        let mut missing = measured.vertices(drawn).unwrap();
        missing.remove(1);
        let doubt = judge(&back, &Measurement::Vertices(missing), usual()).unwrap_err();
        assert_eq!(doubt, MeasurementDoubt::Count { design: 5, measured: 4, missing: Some(1) });
    }

    #[test]
    fn rows_that_do_not_match_the_program_are_doubted() {
        let plan = planned(End::Lead);
        let mut rows = rows_of(&plan.program.as_bent);
        rows.pop();
        let doubt = judge(&plan, &Measurement::Rows(rows, Length::from_mm(400.0)), usual()).unwrap_err();
        assert_eq!(doubt, MeasurementDoubt::Bends { design: 3, measured: 2 });
    }

    #[test]
    fn a_half_turn_is_said_to_have_no_vertex() {
        let part = specimen::part(vec![specimen::row(300.0, 0.0, 180.0)], 400.0).unwrap();
        let plan = plan(&part, &specimen::shop(), End::Lead, Hand::Right).unwrap();
        let row =
            MeasuredRow { straight: Length::from_mm(300.0), rotation: Angle::ZERO, angle: Angle::from_degrees(180.0) };
        let doubt = judge(&plan, &Measurement::Rows(vec![row], Length::from_mm(400.0)), usual()).unwrap_err();
        assert_eq!(doubt, MeasurementDoubt::NoVertex(0));
    }

    #[test]
    fn the_ghost_strays_as_far_as_it_is_told_to() {
        let plan = planned(End::Lead);
        let design = &plan.program.as_bent;
        let mut rows = rows_of(design);
        rows[1].angle += Angle::from_degrees(1.0);
        let judged = judge(&plan, &Measurement::Rows(rows, design.tail()), usual()).unwrap();
        let points = |path: &BendPath| path.to_vertex_form().unwrap().points().to_vec();
        let (drawn, once, ten) =
            (points(design), points(&judged.ghost(design, 1.0).unwrap()), points(&judged.ghost(design, 10.0).unwrap()));
        for ((drawn, once), ten) in drawn.iter().zip(&once).zip(&ten) {
            assert!(((once - drawn) * 10.0 - (ten - drawn)).norm() < 1e-6);
        }
        let worst = drawn.iter().zip(&once).map(|(a, b)| (a - b).norm()).fold(0.0, f64::max);
        assert!((worst - judged.found.vertex_off_mm.iter().copied().fold(0.0, f64::max)).abs() < 1e-6);
    }
}
