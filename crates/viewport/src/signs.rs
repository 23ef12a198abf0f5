//! Words on the tube: start and finish, which of them is bent first, and on request the number of every bend.

use bevy::math::Vec2;
use bevy::prelude::*;
use elbowroom_bending::{End, Solved};
use elbowroom_geometry::{Frame, Point3, Vector3};
use elbowroom_workbench::palette;

use crate::camera::{Eye, View};
use crate::mirror::{LinesOnTop, solid};
use crate::place::SceneOrigin;
use crate::{Desk, SceneArea, SceneSign, SceneSigns};

/// The arrow at the end that is bent first begins and ends so far outside of it, logical pixels.
const ARROW_PIXELS: (f64, f64) = (34.0, 12.0);
/// So far beyond its end stands the word for it, logical pixels, and beyond the arrow where there is one.
const WORD_PIXELS: (f64, f64) = (14.0, 38.0);
/// More numbers than this in the picture would only lie over one another.
const MOST_NUMBERS: usize = 200;

/// An end of the tube: where it is, and the unit direction that leads out of the tube there.
fn end_of(solved: &Solved, end: End) -> (Point3<f64>, Vector3<f64>) {
    let (first_mm, last_mm) = solved.centreline.stations_mm();
    let frame = |station_mm| -> Frame { solved.centreline.frame_at(station_mm) };
    match end {
        End::Start => (frame(first_mm).origin, -frame(first_mm).tangent),
        End::Finish => (frame(last_mm).origin, frame(last_mm).tangent),
    }
}

/// What an end is called on the tube.
fn word(end: End, is_first: bool) -> String {
    let word = match end {
        End::Start => "Start",
        End::Finish => "Finish",
    };
    if is_first { format!("{word}\nbent first") } else { word.to_owned() }
}

/// The arrow along which the tube goes into the bends: from outside to the end that is bent first.
fn arrow(solved: &Solved, view: &View) -> Option<(Point3<f64>, Point3<f64>)> {
    if solved.centreline.bends() == 0 {
        return None;
    }
    let (end, outward) = end_of(solved, solved.from);
    let pixel_mm = view.pixel_mm(&end)?;
    Some((end + outward * (ARROW_PIXELS.0 * pixel_mm), end + outward * (ARROW_PIXELS.1 * pixel_mm)))
}

/// Writes the signs of this frame.
pub fn write_signs(desk: Res<Desk>, area: Res<SceneArea>, eye: Res<Eye>, mut signs: ResMut<SceneSigns>) {
    let Some(view) = View::new(&eye, &area) else { return };
    let solved = desk.0.solved();
    let mut wanted = Vec::new();
    for end in [End::Start, End::Finish] {
        let (at, outward) = end_of(solved, end);
        let is_first = end == solved.from && solved.centreline.bends() > 0;
        let away = if is_first { WORD_PIXELS.1 } else { WORD_PIXELS.0 };
        wanted.extend(sign(&view, &at, &outward, away, word(end, is_first)));
    }
    if desk.0.screen().numbers_shown {
        let od_mm = desk.0.part().tube.od.mm();
        let numbers = (0..solved.centreline.bends()).filter_map(|bend| {
            let arc = solved.centreline.arc(bend)?;
            let middle = arc.turned(0.5);
            let seen = view.project(&middle.origin).is_some_and(|at| view.has(at));
            let away = od_mm / 2.0 / view.pixel_mm(&middle.origin)? + 4.0;
            // On the outside of the bend, where no leg runs.
            sign(&view, &middle.origin, &-middle.normal, away, (bend + 1).to_string()).filter(|_| seen)
        });
        wanted.extend(numbers.take(MOST_NUMBERS));
    }
    if wanted != signs.0 {
        signs.0 = wanted;
    }
}

/// A sign so many pixels from a point, in the direction in the picture in which `outward` leads.
fn sign(view: &View, at: &Point3<f64>, outward: &Vector3<f64>, away: f64, text: String) -> Option<SceneSign> {
    let here = view.project(at)?;
    let there = view.project(&(at + outward * view.pixel_mm(at)?))?;
    // A direction that leads away from the eye or towards it has none in the picture.
    let lean = (there - here).length().min(1.0);
    let towards = (there - here).try_normalize().filter(|_| lean > 0.2).unwrap_or(Vec2::Y);
    Some(SceneSign { at: here + towards * (away as f32) * lean.max(0.35), towards, text })
}

/// Draws the arrow.
pub fn draw_direction(
    mut lines: Gizmos<LinesOnTop>,
    desk: Res<Desk>,
    area: Res<SceneArea>,
    eye: Res<Eye>,
    origin: Res<SceneOrigin>,
) {
    let Some(view) = View::new(&eye, &area) else { return };
    let Some((from, to)) = arrow(desk.0.solved(), &view) else { return };
    let colour = solid(palette(desk.0.screen().theme).axis);
    let (from, to) = (origin.point(&from), origin.point(&to));
    lines.arrow(from, to, colour).with_tip_length(0.35 * from.distance(to));
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{Edit, solve, specimen};
    use elbowroom_workbench::Command;

    use super::*;
    use crate::mirror::{app_of_bends, perform};

    fn signs(app: &App) -> Vec<String> {
        app.world().resource::<SceneSigns>().0.iter().map(|sign| sign.text.clone()).collect()
    }

    #[test]
    fn the_ends_are_named_and_the_one_that_is_bent_first_says_so() {
        let mut app = app_of_bends();
        assert_eq!(signs(&app), ["Start\nbent first", "Finish"]);
        perform(&mut app, Command::Edit(Edit::BendFrom(End::Finish)));
        assert_eq!(signs(&app), ["Start", "Finish\nbent first"]);
    }

    #[test]
    fn the_bends_are_numbered_as_drawn_once_that_is_asked_for() {
        let mut app = app_of_bends();
        perform(&mut app, Command::ToggleNumbers);
        perform(&mut app, Command::Edit(Edit::BendFrom(End::Finish)));
        assert_eq!(signs(&app)[2..], ["1", "2"]);
        perform(&mut app, Command::ToggleNumbers);
        assert_eq!(signs(&app).len(), 2);
    }

    #[test]
    fn a_word_stands_beyond_its_end_and_the_arrow_leads_to_it() {
        let part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0)], 300.0).unwrap();
        let solved = solve(&part, &specimen::shop());
        let area = SceneArea { size: Vec2::new(1000.0, 700.0), ..SceneArea::default() };
        let view = View::new(&Eye::default(), &area).unwrap();
        let (end, outward) = end_of(&solved, End::Start);
        let sign = sign(&view, &end, &outward, 20.0, String::new()).unwrap();
        let along = view.project(&(end - outward * 50.0)).unwrap();
        let at = view.project(&end).unwrap();
        assert!((along - at).dot(sign.at - at) < 0.0, "it stands away from the tube");
        let (from, to) = arrow(&solved, &view).unwrap();
        assert!((to - from).dot(&outward) < 0.0 && (to - end).norm() < (from - end).norm());
    }
}
