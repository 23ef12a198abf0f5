//! What of the scene can be seen where, for whoever tells of it or tests it.

use bevy::ecs::system::SystemParam;
use bevy::math::Vec2;
use bevy::prelude::Res;
use elbowroom_bending::Solved;
use elbowroom_geometry::Point3;
use elbowroom_workbench::Target;

use crate::camera::{Eye, View};
use crate::marks::{Mark, marks};
use crate::pick::Knobs;
use crate::{Desk, SceneArea};

/// The middle of a tube, along it.
pub fn middle_of(solved: &Solved) -> Point3<f64> {
    let (first_mm, last_mm) = solved.centreline.stations_mm();
    solved.centreline.point_at((first_mm + last_mm) / 2.0)
}

/// The scene as it is seen.
#[derive(SystemParam)]
pub struct Look<'w> {
    desk: Res<'w, Desk>,
    eye: Res<'w, Eye>,
    area: Res<'w, SceneArea>,
    knobs: Res<'w, Knobs>,
}

impl Look<'_> {
    /// Every handle that is shown and where in the window it is, logical pixels. What lies behind the eye is
    /// left out.
    pub fn handles(&self) -> Vec<(Target, Vec2)> {
        let Some(view) = View::new(&self.eye, &self.area) else { return Vec::new() };
        self.knobs.shown().iter().filter_map(|knob| Some((knob.target, view.project(&knob.at)?))).collect()
    }

    /// The tubes that are shown and not worked on, by their names, and where in the window the middle of each is, logical
    /// pixels. What lies behind the eye is left out.
    pub fn other_tubes(&self) -> Vec<(String, Vec2)> {
        let Some(view) = View::new(&self.eye, &self.area) else { return Vec::new() };
        let others = self.desk.0.other_tubes();
        others.filter_map(|(tube, solved)| Some((tube.name().to_owned(), view.project(&middle_of(solved))?))).collect()
    }

    /// The marks on the tube, and where in the window the middle of each is, logical pixels.
    pub fn marks(&self) -> Vec<(Mark, Option<Vec2>)> {
        let solved = self.desk.0.solved();
        let view = View::new(&self.eye, &self.area);
        let marks = marks(&solved.findings, solved.centreline.stations_mm(), self.desk.0.part().tube.od.mm());
        let place = |mark: &Mark| view?.project(&solved.centreline.point_at((mark.from_mm + mark.to_mm) / 2.0));
        marks.into_iter().map(|mark| (mark, place(&mark))).collect()
    }
}
