//! The weld seam, drawn as a thin line along the tube.

use std::f64::consts::FRAC_PI_6;

use bevy::gizmos::config::GizmoLineConfig;
use bevy::prelude::*;
use elbowroom_bending::{Part, Solved};
use elbowroom_geometry::{ElementKind, Point3, Vector3};
use elbowroom_workbench::{Theme, palette};

use super::Shadow;
use super::lines::solid;
use super::shadow::CHORD_TOLERANCE_MM;
use crate::Desk;
use crate::place::SceneOrigin;

/// Width of the line, pixels.
const WIDTH_PIXELS: f32 = 1.6;
/// The line floats above the skin by twice what the skin's triangles may stray, and by this share of the diameter.
const LIFT_DIAMETERS: f64 = 0.006;

/// The entity of the seam, with what it was drawn for.
#[derive(Component, Clone, Copy, PartialEq)]
pub struct SeamLine {
    revision: Option<u64>,
    theme: Theme,
    origin: SceneOrigin,
}

/// A place on the seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamPlace {
    /// The centreline there, mm.
    pub centre: Point3<f64>,
    /// The unit direction from the centreline to the seam.
    pub towards: Vector3<f64>,
}

/// The seam along each stretch of tube that can be drawn without a gap. Empty where there is no seam.
///
/// A tube does not twist, so the direction to the seam stays on a straight and is carried round by an arc. It begins
/// with the clock position at the first bend: 0° is the outside of that bend, positive is clockwise against the
/// direction of travel (from the chuck to the die), which is left-handed about it.
///
/// It keeps within `tolerance_mm` of its true course.
pub fn seam_places(part: &Part, solved: &Solved, tolerance_mm: f64) -> Vec<Vec<SeamPlace>> {
    let Some(lay) = &solved.seam else { return Vec::new() };
    let bent = solved.bends.iter().position(|bend| bend.is_bent() && bend.clr_mm > 0.0);
    let first = bent.and_then(|bend| Some((solved.centreline.arc(bend)?.start, lay.at_bends.get(bend)?)));
    let Some((frame, clock)) = first else { return Vec::new() };
    let (sin, cos) = clock.radians().sin_cos();
    let mut towards = frame.binormal() * sin - frame.normal * cos;
    let outer_mm = part.tube.od.mm() / 2.0;
    let mut runs: Vec<Vec<SeamPlace>> = vec![Vec::new()];
    for element in solved.centreline.elements() {
        if element.length_mm < 0.0 {
            runs.push(Vec::new());
            continue;
        }
        let (inward, across) = (towards.dot(&element.start.normal), towards.dot(&element.start.binormal()));
        let steps = match element.kind {
            ElementKind::Straight => 1,
            ElementKind::Arc { radius_mm, angle_rad } => arc_steps(radius_mm + outer_mm, angle_rad, tolerance_mm),
        };
        // What begins where the element before ended has its first place from that.
        let joins = runs.last().is_some_and(|run| !run.is_empty());
        for step in usize::from(joins)..=steps {
            let at = element.turned(step as f64 / steps as f64);
            if let ElementKind::Arc { .. } = element.kind {
                towards = at.normal * inward + at.binormal() * across;
            }
            if let Some(run) = runs.last_mut() {
                run.push(SeamPlace { centre: at.origin, towards });
            }
        }
    }
    runs.retain(|run| run.len() > 1);
    runs
}

/// So many chords keep within a tolerance on an arc. However coarse, a chord spans no more than one of the skin does.
fn arc_steps(radius_mm: f64, angle_rad: f64, tolerance_mm: f64) -> usize {
    let step_rad = 2.0 * (1.0 - tolerance_mm / radius_mm.max(tolerance_mm)).acos();
    (angle_rad / step_rad.clamp(1e-2, FRAC_PI_6)).ceil().clamp(1.0, 512.0) as usize
}

/// Makes the line follow part and theme; it is drawn anew when one of them changes and never else.
pub fn follow_seam(
    desk: Res<Desk>,
    shadow: Res<Shadow>,
    origin: Res<SceneOrigin>,
    mut drawings: ResMut<Assets<GizmoAsset>>,
    mut commands: Commands,
    mut lines: Query<(Entity, &mut SeamLine, &Gizmo)>,
) {
    let theme = desk.0.screen().theme;
    let wanted = SeamLine { revision: shadow.revision, theme, origin: *origin };
    let drawn = lines.iter_mut().next();
    if drawn.as_ref().is_some_and(|(_, line, _)| **line == wanted) {
        return;
    }
    let (part, solved) = (desk.0.part(), desk.0.solved());
    let lift_mm = 2.0 * CHORD_TOLERANCE_MM + LIFT_DIAMETERS * part.tube.od.mm();
    let away_mm = part.tube.od.mm() / 2.0 + lift_mm;
    let mut drawing = GizmoAsset::default();
    // That of a long part is as coarse as its skin, whose tolerance is spent half round the tube and half along it.
    let tolerance_mm = if shadow.is_long { shadow.chord_tolerance_mm / 2.0 } else { CHORD_TOLERANCE_MM };
    for run in seam_places(part, solved, tolerance_mm) {
        let points = run.into_iter().map(|place| origin.point(&(place.centre + place.towards * away_mm)));
        drawing.linestrip(points, solid(palette(theme).tube_seam));
    }
    match drawn {
        Some((_, mut line, gizmo)) => {
            *line = wanted;
            // The handle lives, so its place among the assets does.
            let _ = drawings.insert(gizmo.handle.id(), drawing);
        }
        None => {
            let line_config = GizmoLineConfig { width: WIDTH_PIXELS, ..default() };
            commands.spawn((wanted, Gizmo { handle: drawings.add(drawing), line_config, depth_bias: 0.0 }));
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{Seam, solve, specimen};

    use super::*;

    fn part(pinned_deg: Option<f64>) -> Part {
        let rows = vec![
            specimen::row(100.0, 25.0, 0.0),
            specimen::row(200.0, 15.0, 90.0),
            specimen::row(150.0, 60.0, 45.0),
            specimen::row(120.0, 10.0, 0.0),
            specimen::row(130.0, -135.0, 180.0),
            specimen::row(180.0, 180.0, 30.0),
        ];
        let mut part = specimen::part(rows, 220.0).unwrap();
        part.tooling.seam_start = pinned_deg.map(specimen::seam_at);
        part
    }

    /// The clock position of a direction at a frame of an arc, as one who stands at the chuck and looks to the die
    /// reads it: from the outside of the bend, clockwise.
    fn clock_deg(frame: &elbowroom_geometry::Frame, towards: &Vector3<f64>) -> f64 {
        let (forward, outside) = (-frame.tangent, -frame.normal);
        // Clockwise for one who looks forward: right-handed about that direction.
        let quarter_past = forward.cross(&outside);
        towards.dot(&quarter_past).atan2(towards.dot(&outside)).to_degrees()
    }

    #[test]
    fn at_the_middle_of_every_bend_the_line_lies_where_the_clock_says() {
        for pinned in [None, Some(0.0), Some(90.0), Some(-35.0)] {
            let part = part(pinned);
            let solved = solve(&part, &specimen::shop());
            let runs = seam_places(&part, &solved, CHORD_TOLERANCE_MM);
            assert_eq!(runs.len(), 1);
            let lay = solved.seam.as_ref().unwrap();
            for bend in [1, 2, 4, 5] {
                let middle = solved.centreline.arc(bend).unwrap().turned(0.5);
                let nearest = |place: &&SeamPlace| (place.centre - middle.origin).norm();
                let place = runs[0].iter().min_by(|a, b| nearest(a).total_cmp(&nearest(b))).unwrap();
                // The nearest place may lie half a chord off; its clock position is that of the middle all the same.
                let tangent_off = place.towards.dot(&middle.tangent);
                let square = place.towards - middle.tangent * tangent_off;
                let differ = clock_deg(&middle, &square) - lay.at_bends[bend].degrees();
                let differ = (differ + 540.0).rem_euclid(360.0) - 180.0;
                assert!(differ.abs() < 1.0, "bend {bend}, pinned {pinned:?}: {differ}° off");
            }
        }
    }

    #[test]
    fn a_seam_on_the_outside_of_the_first_bend_is_farthest_from_its_centre() {
        let part = part(Some(0.0));
        let solved = solve(&part, &specimen::shop());
        let arc = solved.centreline.arc(1).unwrap();
        let centre = arc.start.origin + arc.start.normal * specimen::CLR_MM;
        let runs = seam_places(&part, &solved, CHORD_TOLERANCE_MM);
        let on_arc = runs[0].iter().filter(|place| ((place.centre - centre).norm() - specimen::CLR_MM).abs() < 1e-6);
        let mut seen = 0;
        for place in on_arc {
            let away = (place.centre + place.towards * (specimen::OD_MM / 2.0) - centre).norm();
            assert!((away - specimen::CLR_MM - specimen::OD_MM / 2.0).abs() < 1e-6, "{away}");
            seen += 1;
        }
        assert!(seen > 5, "{seen}");
    }

    #[test]
    fn the_direction_is_square_to_the_tube_and_never_jumps() {
        let part = part(None);
        let solved = solve(&part, &specimen::shop());
        let runs = seam_places(&part, &solved, CHORD_TOLERANCE_MM);
        for pair in runs[0].windows(2) {
            assert!((pair[0].towards.norm() - 1.0).abs() < 1e-9);
            assert!((pair[0].towards - pair[1].towards).norm() < 0.2, "{pair:?}");
        }
    }

    #[test]
    fn seamless_tube_has_no_line() {
        let mut part = part(None);
        part.tube = part.tube.closed_by(Seam::Seamless);
        let solved = solve(&part, &specimen::shop());
        assert_eq!(seam_places(&part, &solved, CHORD_TOLERANCE_MM), Vec::<Vec<SeamPlace>>::new());
    }
}
