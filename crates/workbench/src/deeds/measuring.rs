//! Measures in space between two landmarks.

use elbowroom_bending::End;
use elbowroom_geometry::measure::{Between, Datum, between};
use elbowroom_geometry::{Point3, Vector3};

use crate::desk::measuring::{AXES, called, is, points};
use crate::{Landmark, Measured, Named, Target, Workbench};

impl Workbench {
    /// Every landmark there is, in the order of the drawing: points, middle lines, ends of other tubes that are shown, axes
    /// and floor.
    pub fn landmarks(&self) -> Vec<Named> {
        let (part, solved) = (self.part(), self.solved());
        let named = |landmark, name: String| Named { landmark, name };
        let mut list: Vec<Named> = Vec::new();
        for (target, _) in points(part, solved) {
            list.push(named(Landmark::Of(target.named(&solved.nodes)), called(target)));
        }
        for straight in 0..=solved.centreline.bends() {
            let target = Target::Straight(straight);
            list.push(named(Landmark::Of(target.named(&solved.nodes)), called(target)));
        }
        for (tube, _) in self.other_tubes() {
            for (end, word) in [(End::Start, "start"), (End::Finish, "finish")] {
                list.push(named(Landmark::End(tube.id, end), format!("{}: {word}", tube.name())));
            }
        }
        list.extend((0..3).map(|axis| named(Landmark::Axis(axis), format!("{} axis", AXES[axis]))));
        list.push(named(Landmark::Origin, "x, y, z = 0".to_owned()));
        list.push(named(Landmark::Floor, "floor".to_owned()));
        list
    }

    /// Between which two is measured.
    pub fn measured(&self) -> Measured {
        self.measured
    }

    /// What lies between the two; `None` where one of them is gone.
    pub fn between_measured(&self) -> Option<Between> {
        Some(between(&self.datum(self.measured.from)?, &self.datum(self.measured.to)?))
    }

    /// Where a landmark lies; `None` where it is gone.
    fn datum(&self, landmark: Landmark) -> Option<Datum> {
        let solved = self.solved();
        Some(match landmark {
            Landmark::Of(target) => {
                let target = target.counted(&solved.nodes)?;
                match target {
                    Target::Straight(straight) => {
                        let element = solved.centreline.straight(straight)?;
                        Datum::Line(element.start.origin, element.start.tangent)
                    }
                    _ => Datum::Point(points(self.part(), solved).into_iter().find(|(point, _)| is(*point, target))?.1),
                }
            }
            Landmark::End(tube, end) => {
                let line = &self.solved_tube(tube)?.centreline;
                let (first_mm, last_mm) = line.stations_mm();
                Datum::Point(line.point_at(if end == End::Start { first_mm } else { last_mm }))
            }
            Landmark::Axis(axis) => {
                Datum::Line(Point3::origin(), [Vector3::x(), Vector3::y(), Vector3::z()][axis.min(2)])
            }
            Landmark::Origin => Datum::Point(Point3::origin()),
            Landmark::Floor => Datum::Plane(Point3::new(0.0, 0.0, self.system().floor().mm()), Vector3::z()),
        })
    }

    /// Takes the two things that are selected for what is measured, or one of them and the floor.
    pub(crate) fn measure_selected(&mut self) {
        let chosen: Vec<Landmark> = self.selection_by_id().targets().iter().copied().map(Landmark::Of).collect();
        self.measured = match chosen[..] {
            [.., from, to] => Measured { from, to },
            [one] => Measured { from: one, to: Landmark::Floor },
            [] => self.measured,
        };
    }
}
