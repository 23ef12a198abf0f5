//! A drag in progress: from press to release, with its typed number.

use bevy::math::Vec2;
use elbowroom_bending::{Edit, NodeId, Numbering};
use elbowroom_geometry::units::{LengthUnit, format_angle, parse_length};
use elbowroom_geometry::{Angle, Length, Point3, Vector3};
use elbowroom_workbench::Target;

use super::snap::{Hold, Neighbours, SnappedTo, grid_step_mm};
use super::{Constraint, Knob};
use crate::camera::View;
use crate::figure::{length_text, place_text};
use crate::pick::Ray;

/// What is typed before coordinates: where to, instead of how far.
const TO: char = '=';

/// Keys held during a drag.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Keys {
    /// Where the drag may go.
    pub constraint: Constraint,
    /// Whether it snaps.
    pub snap: bool,
}

/// A handle that is being dragged.
#[derive(Clone, Debug, PartialEq)]
pub struct Drag {
    /// What is dragged, and where it was.
    pub knob: Knob,
    /// Where it is now.
    pub at: Point3<f64>,
    /// How it is held.
    pub keys: Keys,
    /// What has been typed.
    pub typed: String,
    /// What is dragged by its id, so that it stays the same whatever the drag does to the numbers of bends.
    pub target: Target<NodeId>,
    neighbours: Neighbours,
    press: Ray,
    back: Vector3<f64>,
    /// The way the pointer has led: a typed number counts along it.
    towards: Vector3<f64>,
    snapped_to: Option<SnappedTo>,
    unit: LengthUnit,
}

impl Drag {
    /// Takes hold of a handle where the pointer was pressed.
    pub fn new(
        knob: Knob,
        nodes: &Numbering,
        neighbours: Neighbours,
        view: &View,
        pressed_at: Vec2,
        unit: LengthUnit,
    ) -> Self {
        Self {
            knob,
            at: knob.at,
            keys: Keys::default(),
            typed: String::new(),
            target: knob.target.named(nodes),
            neighbours,
            press: view.ray(pressed_at),
            back: view.eye.back(),
            towards: view.eye.right(),
            snapped_to: None,
            unit,
        }
    }

    /// Follows the pointer; the typed number, if there is one, wins over it.
    pub fn follow(&mut self, view: &View, pointer: Vec2, mut keys: Keys) {
        if let Some(along) = self.knob.slides_along {
            keys.constraint = Constraint::Sliding(along);
        }
        let same_way = keys.constraint == self.keys.constraint;
        self.keys = keys;
        if self.typed_place().is_none() || !same_way {
            let start = self.knob.at;
            self.snapped_to = None;
            if let Some(raw) = keys.constraint.moved(&start, &self.back, &self.press, &view.ray(pointer)) {
                self.at = raw;
                if keys.snap {
                    let step_mm = grid_step_mm(view.pixel_mm(&start).unwrap_or(1.0));
                    let hold = Hold { start, constraint: keys.constraint, back: self.back, step_mm };
                    let snapped = hold.snapped(&raw, &self.neighbours);
                    self.at = snapped.at;
                    self.snapped_to = Some(snapped.to);
                }
                if let Some(towards) = (self.at - start).try_normalize(1e-9) {
                    self.towards = towards;
                }
            }
        }
        self.place_typed();
    }

    /// Adds typed text.
    pub fn type_text(&mut self, text: &str) {
        self.typed.push_str(text);
        self.place_typed();
    }

    /// Takes the last typed character back.
    pub fn erase(&mut self) {
        self.typed.pop();
        self.place_typed();
    }

    /// A length, where it reads as one.
    fn length_mm(&self, text: &str) -> Option<f64> {
        let length = parse_length(text, self.unit).ok()?;
        length.is_finite().then_some(length.mm())
    }

    /// Where what is typed leads, where it reads as something: a number leads so far, and behind an equals sign stand the
    /// coordinates that the drag leaves free.
    fn typed_place(&self) -> Option<Point3<f64>> {
        let typed = self.typed.trim();
        let Some(to) = typed.strip_prefix(TO) else {
            // Along the held axis in its positive sense, else along the way the pointer has led.
            let along = self.keys.constraint.axis().unwrap_or(self.towards);
            return Some(self.knob.at + along * self.length_mm(typed)?);
        };
        let free = self.keys.constraint.free();
        let given: Vec<&str> = match to.contains(';') || free.len() == 1 {
            true => to.split(';').collect(),
            false => to.split_whitespace().collect(),
        };
        if free.is_empty() || given.len() != free.len() {
            return None;
        }
        let mut place = self.knob.at;
        for (axis, text) in free.iter().zip(given) {
            place[*axis] = self.length_mm(text)?;
        }
        Some(place)
    }

    fn place_typed(&mut self) {
        let Some(place) = self.typed_place() else { return };
        self.snapped_to = None;
        self.at = place;
    }

    /// The change that the drag stands for.
    pub fn edit(&self) -> Option<Edit> {
        match self.target {
            Target::Handle(handle) => Some(Edit::MoveHandle(handle, self.at)),
            Target::Vertex(vertex) => Some(Edit::MoveVertex(vertex, self.at)),
            Target::Straight(_) | Target::Bend(_) => None,
        }
    }

    /// Where it is now, in words.
    pub fn place(&self) -> String {
        format!("to {}", place_text(&self.at, self.unit))
    }

    /// What is to be typed behind the equals sign.
    fn wanted(&self) -> &'static str {
        match self.keys.constraint {
            Constraint::Facing => "x; y; z are wanted",
            Constraint::Along(_) => "one coordinate is wanted",
            Constraint::Across(0) => "y; z are wanted",
            Constraint::Across(1) => "x; z are wanted",
            Constraint::Across(_) => "x; y are wanted",
            Constraint::Sliding(_) => "it slides along its straight: type how far",
        }
    }

    /// What the label says: how far and along what, what it snapped to, what is being typed.
    pub fn label(&self) -> String {
        let by = self.at - self.knob.at;
        let by_mm = self.keys.constraint.axis().map_or(by.norm(), |axis| axis.dot(&by));
        let length = |mm: f64| length_text(Length::from_mm(mm), self.unit);
        let word = self.keys.constraint.word();
        if !self.typed.is_empty() {
            let typed = self.typed.trim();
            let reads = match (self.typed_place(), typed.starts_with(TO)) {
                (Some(_), _) => length(by_mm),
                (None, true) => self.wanted().to_owned(),
                (None, false) => "not a length yet".to_owned(),
            };
            return format!("{word}{typed} : {reads}");
        }
        let to = match self.snapped_to {
            None => String::new(),
            Some(SnappedTo::Grid(step)) => format!(", grid {}", length(step)),
            Some(SnappedTo::Leg(leg)) => format!(", leg {}", length(leg)),
            Some(SnappedTo::Turn(turn, leg)) => {
                format!(", {} and leg {}", format_angle(Angle::from_radians(turn), 1), length(leg))
            }
        };
        format!("{word}{}{to}", length(by_mm))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::specimen;
    use elbowroom_geometry::HandleId;
    use elbowroom_workbench::ViewFrom;

    use super::*;
    use crate::SceneArea;
    use crate::camera::Eye;

    fn view() -> View {
        let area = SceneArea { size: Vec2::new(800.0, 600.0), ..Default::default() };
        View::new(&Eye::default().looking_from(ViewFrom::Top), &area).unwrap()
    }

    fn nodes() -> Numbering {
        specimen::part(vec![specimen::row(100.0, 0.0, 45.0)], 100.0).unwrap().numbering()
    }

    fn drag() -> Drag {
        let target = Target::Handle(HandleId::Vertex(0));
        let knob = Knob { target, at: Point3::new(10.0, 0.0, 40.0), slides_along: None };
        let at = view().project(&knob.at).unwrap();
        Drag::new(knob, &nodes(), Neighbours::default(), &view(), at, LengthUnit::Millimetre)
    }

    fn pointer(x: f64, y: f64) -> Vec2 {
        view().project(&Point3::new(x, y, 40.0)).unwrap()
    }

    #[test]
    fn the_handle_follows_the_pointer_in_the_plane_of_the_view() {
        let mut drag = drag();
        drag.follow(&view(), pointer(60.0, 30.0), Keys::default());
        assert!((drag.at - Point3::new(60.0, 30.0, 40.0)).norm() < 0.01, "{:?}", drag.at);
        assert_eq!(drag.edit(), Some(Edit::MoveHandle(nodes().handle(HandleId::Vertex(0)), drag.at)));
        assert_eq!(drag.label(), "58.3 mm");
    }

    #[test]
    fn a_typed_number_sets_the_distance_exactly() {
        let mut drag = drag();
        drag.follow(&view(), pointer(60.0, 0.0), Keys { constraint: Constraint::Along(0), snap: false });
        drag.type_text("1");
        drag.type_text("2.5");
        assert_eq!(drag.at, Point3::new(22.5, 0.0, 40.0));
        drag.follow(&view(), pointer(300.0, 0.0), drag.keys);
        assert_eq!(drag.at, Point3::new(22.5, 0.0, 40.0), "the pointer no longer counts");
        drag.type_text("in");
        assert!((drag.at.x - (10.0 + 12.5 * 25.4)).abs() < 1e-9);
        assert!(drag.label().starts_with("x 12.5in : "), "{}", drag.label());
    }

    #[test]
    fn typed_coordinates_set_the_place_exactly_and_keep_what_is_held() {
        let mut drag = drag();
        drag.follow(&view(), pointer(60.0, 30.0), Keys::default());
        assert_eq!(drag.place(), "to x 60.0, y 30.0, z 40.0 mm");
        drag.type_text("=120;-35.5;1in");
        assert_eq!(drag.at, Point3::new(120.0, -35.5, 25.4));
        drag.follow(&view(), pointer(300.0, 0.0), drag.keys);
        assert_eq!(drag.at, Point3::new(120.0, -35.5, 25.4), "the pointer no longer counts");
        // In a plane the two that are free, along an axis the one; what is held stays.
        drag.typed.clear();
        drag.type_text("=7 8");
        assert!(drag.label().ends_with("x; y; z are wanted"), "{}", drag.label());
        drag.follow(&view(), pointer(60.0, 30.0), Keys { constraint: Constraint::Across(2), snap: false });
        assert_eq!(drag.at, Point3::new(7.0, 8.0, 40.0));
        drag.typed.clear();
        drag.follow(&view(), pointer(60.0, 30.0), Keys { constraint: Constraint::Along(2), snap: false });
        drag.type_text("= 90");
        assert_eq!(drag.at, Point3::new(10.0, 0.0, 90.0));
        assert_eq!(drag.label(), "z = 90 : 50.0 mm");
        // What slides along its straight can only be told how far.
        drag.knob.slides_along = Some(Vector3::y());
        drag.follow(&view(), pointer(10.0, 30.0), Keys::default());
        assert!(drag.label().contains("type how far"), "{}", drag.label());
    }

    #[test]
    fn a_handle_that_slides_stays_on_its_line_whatever_is_held() {
        let mut drag = drag();
        drag.knob.slides_along = Some(Vector3::y());
        drag.follow(&view(), pointer(11.0, 30.0), Keys { constraint: Constraint::Along(0), snap: false });
        assert!((drag.at - Point3::new(10.0, 30.0, 40.0)).norm() < 0.01, "{:?}", drag.at);
        assert_eq!(drag.label(), "along the straight 30.0 mm");
    }

    #[test]
    fn a_typed_number_counts_along_the_way_the_pointer_went() {
        let mut drag = drag();
        drag.follow(&view(), pointer(10.0, -80.0), Keys::default());
        drag.type_text("100");
        assert!((drag.at - Point3::new(10.0, -100.0, 40.0)).norm() < 0.2, "{:?}", drag.at);
        assert!(((drag.at - drag.knob.at).norm() - 100.0).abs() < 1e-9);
        drag.type_text("+");
        assert!(drag.label().contains("not a length yet"), "{}", drag.label());
        drag.erase();
        assert_eq!(drag.label(), "100 : 100.0 mm");
    }
}
