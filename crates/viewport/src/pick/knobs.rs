//! The handles of the part: worked out once for every change, and of a crowd of them those that a hand means.

use std::borrow::Cow;
use std::collections::BTreeSet;

use bevy::prelude::Resource;
use elbowroom_bending::{Part, Path, Solved};
use elbowroom_geometry::{HandleId, Point3, Vector3, handles};
use elbowroom_workbench::{Selection, Target, Workbench};

use crate::camera::View;

/// More handles than this in the picture are a crowd: they would hide the tube, and none could be told from its
/// neighbours. A part of 500 bends has fewer.
pub const CROWD: usize = 512;
/// Of a crowd those of this many bends on each side of a chosen one are shown too.
const BESIDE: usize = 2;
/// Of what is selected in a crowd the last so many count.
const LAST_SELECTED: usize = 64;

/// Something that can be dragged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knob {
    /// What it is.
    pub target: Target,
    /// Where it is, mm.
    pub at: Point3<f64>,
    /// The unit direction along which alone it can be dragged; `None` where it moves freely.
    pub slides_along: Option<Vector3<f64>>,
}

/// Everything that can be dragged: the handles of the path, and the vertices that carry no bend.
pub fn knobs(part: &Part, solved: &Solved) -> Vec<Knob> {
    let handles = handles(&solved.form.path).into_iter();
    let mut knobs: Vec<_> = handles
        .map(|handle| Knob { target: Target::Handle(handle.id), at: handle.point, slides_along: handle.slides_along })
        .collect();
    if let Path::Vertices(path) = &part.path {
        let inner = 1..path.points().len().saturating_sub(1);
        let plain = inner.filter(|vertex| solved.form.vertex_of_bend.binary_search(vertex).is_err());
        knobs.extend(plain.map(|vertex| Knob {
            target: Target::Vertex(vertex),
            at: path.points()[vertex],
            slides_along: None,
        }));
    }
    knobs.retain(|knob| knob.at.iter().all(|coordinate| coordinate.is_finite()));
    knobs
}

/// The handles of the part that is shown.
#[derive(Resource, Debug, Default)]
pub struct Knobs {
    revision: Option<u64>,
    all: Vec<Knob>,
    shown: Vec<Knob>,
}

impl Knobs {
    /// Works them out anew if the part has changed.
    pub fn follow(&mut self, workbench: &Workbench) {
        let revision = Some(workbench.revision());
        if self.revision != revision {
            self.revision = revision;
            self.all = knobs(workbench.part(), workbench.solved());
        }
    }

    /// Chooses those that are shown in a view.
    pub fn choose(&mut self, view: &View, workbench: &Workbench) {
        match in_reach(&self.all, view, workbench.selection(), workbench.hover()) {
            Cow::Borrowed(all) => {
                self.shown.clear();
                self.shown.extend_from_slice(all);
            }
            Cow::Owned(few) => self.shown = few,
        }
    }

    /// All of them.
    pub fn all(&self) -> &[Knob] {
        &self.all
    }

    /// Those that are shown.
    pub fn shown(&self) -> &[Knob] {
        &self.shown
    }
}

/// The handles that are shown and can be taken hold of: all that there are; of a crowd those in the picture; where they
/// crowd there too the ends and what is selected or pointed at, with what stands beside it.
pub fn in_reach<'a>(all: &'a [Knob], view: &View, selection: &Selection, hover: Option<Target>) -> Cow<'a, [Knob]> {
    if all.len() <= CROWD {
        return Cow::Borrowed(all);
    }
    let in_sight = |knob: &&Knob| view.project(&knob.at).is_some_and(|at| view.has(at));
    let seen: Vec<Knob> = all.iter().filter(in_sight).take(CROWD + 1).copied().collect();
    if seen.len() <= CROWD {
        return Cow::Owned(seen);
    }
    let chosen: Vec<Target> = selection.targets().iter().rev().take(LAST_SELECTED).copied().chain(hover).collect();
    let bends: BTreeSet<usize> = chosen
        .iter()
        .filter_map(|target| target.bend())
        .flat_map(|bend| bend.saturating_sub(BESIDE)..=bend + BESIDE)
        .collect();
    let is_meant = |knob: &&Knob| {
        let is_end = matches!(knob.target, Target::Handle(HandleId::Start | HandleId::Finish));
        is_end || chosen.contains(&knob.target) || knob.target.bend().is_some_and(|bend| bends.contains(&bend))
    };
    Cow::Owned(all.iter().filter(is_meant).copied().collect())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use bevy::math::Vec2;
    use elbowroom_bending::{solve, specimen};

    use super::*;
    use crate::SceneArea;
    use crate::camera::{Eye, framed};

    fn zigzag(bends: usize) -> Vec<Knob> {
        let rows = (0..bends).map(|_| specimen::row(200.0, 180.0, 60.0)).collect();
        let part = specimen::part(rows, 200.0).unwrap();
        knobs(&part, &solve(&part, &specimen::shop()))
    }

    fn view(of: &[Knob]) -> View {
        let area = SceneArea { size: Vec2::new(1000.0, 600.0), ..Default::default() };
        let points: Vec<_> = of.iter().map(|knob| knob.at).collect();
        View::new(&framed(&Eye::default(), &points, 30.0, 1000.0 / 600.0), &area).unwrap()
    }

    fn targets(knobs: &[Knob]) -> Vec<Target> {
        knobs.iter().map(|knob| knob.target).collect()
    }

    #[test]
    fn of_an_everyday_part_all_are_shown_wherever_they_are() {
        let all = zigzag(500);
        let few = view(&all[3..6]);
        assert_eq!(targets(&in_reach(&all, &few, &Selection::default(), None)), targets(&all));
    }

    #[test]
    fn of_a_crowd_those_are_shown_that_are_in_the_picture() {
        let all = zigzag(2000);
        let near = view(&all[900..1000]);
        let shown = in_reach(&all, &near, &Selection::default(), None);
        assert!(all[900..1000].iter().all(|knob| shown.contains(knob)));
        assert!(shown.len() <= CROWD && !shown.contains(&all[0]), "{}", shown.len());
    }

    #[test]
    fn where_they_crowd_in_the_picture_too_what_is_chosen_has_handles_and_the_ends() {
        use HandleId::{Finish, Start, Vertex};
        let all = zigzag(2000);
        let whole = view(&all);
        let handles = |ids: Vec<HandleId>| ids.into_iter().map(Target::Handle).collect::<Vec<_>>();
        let shown = |selection: &Selection, hover| targets(&in_reach(&all, &whole, selection, hover));
        assert_eq!(shown(&Selection::default(), None), handles(vec![Start, Finish]));
        let selected = Selection::of(vec![Target::Bend(1)]);
        let wanted = handles(vec![Start, Vertex(0), Vertex(1), Vertex(2), Vertex(3), Finish]);
        assert_eq!(shown(&selected, None), wanted);
        let hovered = handles(vec![Start, Vertex(698), Vertex(699), Vertex(700), Vertex(701), Vertex(702), Finish]);
        assert_eq!(shown(&Selection::default(), Some(Target::Bend(700))), hovered);
        // However much is selected, it is no crowd again.
        let everything = Selection::of((0..2000).map(Target::Bend).collect());
        assert!(shown(&everything, None).len() <= LAST_SELECTED * (2 * BESIDE + 1) + 2);
    }
}
