//! What the hand makes of presses, moves and keys.
#![allow(clippy::unwrap_used, clippy::panic)]

use bevy::math::Vec2;
use elbowroom_bending::{Edit, NodeId, Part, Path, Shop, Solved, SystemEdit, TubeId, solve, specimen};
use elbowroom_geometry::{HandleId, Point3, Vector3};
use elbowroom_workbench::{Command, SelectMode, Selection, Target, ViewFrom};

use super::hand::Outcome;
use super::{Act, Around, Button, Hand};
use crate::SceneArea;
use crate::camera::{Eye, View, framed};
use crate::pick::{Bystander, knobs};

/// A hand over a planar part, seen from above.
struct Bench {
    part: Part,
    shop: Shop,
    solved: Solved,
    others: Vec<(TubeId, Part, Solved)>,
    view: View,
    selection: Selection,
    hand: Hand,
    shift: bool,
    snap: bool,
    now_s: f64,
}

impl Bench {
    fn new() -> Self {
        let rows = vec![specimen::row(200.0, 0.0, 90.0), specimen::row(150.0, 180.0, 45.0)];
        let (part, shop) = (specimen::part(rows, 220.0).unwrap(), specimen::shop());
        let solved = solve(&part, &shop);
        let area = SceneArea {
            min: Vec2::new(20.0, 30.0),
            size: Vec2::new(900.0, 700.0),
            pointer_inside: true,
            keyboard_free: true,
        };
        let points: Vec<_> = knobs(&part, &solved).iter().map(|knob| knob.at).collect();
        let eye = framed(&Eye::default().looking_from(ViewFrom::Top), &points, 30.0, 900.0 / 700.0);
        let view = View::new(&eye, &area).unwrap();
        let (selection, others) = (Selection::default(), Vec::new());
        let hand = Hand::default();
        Self { part, shop, solved, others, view, selection, hand, shift: false, snap: false, now_s: 10.0 }
    }

    fn frame(&mut self, acts: Vec<Act>) -> Outcome {
        let others: Vec<_> = self.others.iter().map(|(id, part, solved)| Bystander { id: *id, part, solved }).collect();
        let knobs = knobs(&self.part, &self.solved);
        let around = Around {
            view: self.view,
            part: &self.part,
            solved: &self.solved,
            knobs: &knobs,
            others: &others,
            shop: &self.shop,
            selection: &self.selection,
            hover: None,
            shift: self.shift,
            snap: self.snap,
            now_s: self.now_s,
        };
        self.hand.frame(acts, around)
    }

    fn named(&self, target: Target) -> Target<NodeId> {
        target.named(&self.solved.nodes)
    }

    fn at(&self, point: &Point3<f64>) -> Vec2 {
        self.view.project(point).unwrap()
    }

    fn on_element(&self, element: usize) -> Vec2 {
        self.at(&self.solved.centreline.elements()[element].turned(0.5).origin)
    }

    fn vertex(&self, bend: usize) -> Point3<f64> {
        let target = Target::Handle(HandleId::Vertex(bend));
        knobs(&self.part, &self.solved).iter().find(|knob| knob.target == target).unwrap().at
    }
}

fn click(at: Vec2) -> Vec<Act> {
    vec![Act::Moved(at), Act::Down(Button::Left), Act::Up(Button::Left)]
}

fn press(at: Vec2) -> Vec<Act> {
    vec![Act::Moved(at), Act::Down(Button::Left)]
}

fn previews(outcome: &Outcome) -> Vec<Point3<f64>> {
    let moved = outcome.wishes.iter().filter_map(|wish| match wish {
        Command::Preview(Edit::MoveHandle(_, to)) => Some(*to),
        _ => None,
    });
    moved.collect()
}

#[test]
fn hovering_says_once_what_lies_there() {
    let mut bench = Bench::new();
    let at = bench.on_element(1);
    assert_eq!(bench.frame(vec![Act::Moved(at)]).wishes, [Command::Hover(Some(bench.named(Target::Bend(0))))]);
    assert_eq!(bench.frame(vec![Act::Moved(at + 1.0)]).wishes, []);
    assert_eq!(bench.frame(vec![Act::Moved(Vec2::new(25.0, 35.0))]).wishes, [Command::Hover(None)]);
}

#[test]
fn outside_the_scene_nothing_is_pointed_at_or_clicked() {
    let mut bench = Bench::new();
    bench.view.area.pointer_inside = false;
    let at = bench.on_element(1);
    assert_eq!(bench.frame(click(at)).wishes, []);
}

#[test]
fn a_click_selects_and_shift_adds_even_within_one_frame() {
    let mut bench = Bench::new();
    let at = bench.on_element(0);
    let select = Command::Select(bench.named(Target::Straight(0)), SelectMode::Only);
    assert!(bench.frame(click(at)).wishes.contains(&select));
    bench.shift = true;
    let at = bench.on_element(1);
    let add = Command::Select(bench.named(Target::Bend(0)), SelectMode::Toggle);
    assert!(bench.frame(click(at)).wishes.contains(&add));
}

#[test]
fn a_double_click_on_a_straight_adds_a_vertex_there() {
    let mut bench = Bench::new();
    let at = bench.on_element(2);
    bench.frame(click(at));
    bench.now_s += 0.2;
    let wishes = bench.frame(click(at)).wishes;
    let [Command::Edit(Edit::InsertVertex(straight, point, clr))] = wishes.as_slice() else { panic!("{wishes:?}") };
    let middle = bench.solved.centreline.elements()[2].turned(0.5).origin;
    assert_eq!(*straight, bench.solved.nodes.straight(1));
    // What is clicked is the skin, half a diameter nearer to the eye.
    assert!((point - middle).norm() < 3.0, "{point}");
    assert_eq!(clr.mm(), specimen::CLR_MM);
}

#[test]
fn two_slow_clicks_are_no_double_click() {
    let mut bench = Bench::new();
    let at = bench.on_element(2);
    bench.frame(click(at));
    bench.now_s += 0.6;
    let wishes = bench.frame(click(at)).wishes;
    assert_eq!(wishes, [Command::Select(bench.named(Target::Straight(1)), SelectMode::Only)]);
}

#[test]
fn a_drag_previews_once_a_frame_and_commits_once() {
    let mut bench = Bench::new();
    let start = bench.vertex(0);
    let from = bench.at(&start);
    let taken = bench.frame(press(from));
    assert!(!taken.keys_taken && previews(&taken).is_empty());
    let outcome = bench.frame(vec![Act::Moved(from + 8.0), Act::Moved(from + 20.0), Act::Moved(from + 30.0)]);
    assert_eq!(previews(&outcome).len(), 1);
    assert!(
        outcome.wishes.contains(&Command::Select(bench.named(Target::Handle(HandleId::Vertex(0))), SelectMode::Only))
    );
    assert!(outcome.keys_taken);
    let mm = bench.view.pixel_mm(&start).unwrap();
    let by = previews(&outcome)[0] - start;
    assert!((by.x - 30.0 * mm).abs() < 0.01 && (by.y + 30.0 * mm).abs() < 0.01 && by.z.abs() < 1e-9, "{by:?}");
    assert_eq!(bench.frame(Vec::new()).wishes, [], "a pointer at rest asks for nothing");
    let end = bench.frame(vec![Act::Up(Button::Left)]);
    assert_eq!(end.wishes.first(), Some(&Command::CommitPreview));
    assert!(end.keys_taken, "the keys of the last frame still belong to the drag");
    assert!(!bench.frame(Vec::new()).keys_taken);
}

#[test]
fn a_whole_drag_within_one_slow_frame_still_happens() {
    let mut bench = Bench::new();
    let from = bench.at(&bench.vertex(0));
    let mut acts = press(from);
    acts.extend([Act::Moved(from + 40.0), Act::Up(Button::Left)]);
    let outcome = bench.frame(acts);
    assert_eq!(previews(&outcome).len(), 1);
    assert!(outcome.wishes.contains(&Command::CommitPreview));
}

#[test]
fn a_trembling_hand_clicks_a_handle() {
    let mut bench = Bench::new();
    let from = bench.at(&bench.vertex(0));
    let mut acts = press(from);
    acts.extend([Act::Moved(from + 1.0), Act::Up(Button::Left)]);
    let outcome = bench.frame(acts);
    assert!(
        outcome.wishes.contains(&Command::Select(bench.named(Target::Handle(HandleId::Vertex(0))), SelectMode::Only))
    );
    assert!(previews(&outcome).is_empty());
}

#[test]
fn escape_drops_the_drag_and_release_then_does_nothing() {
    let mut bench = Bench::new();
    let from = bench.at(&bench.vertex(0));
    bench.frame(press(from));
    bench.frame(vec![Act::Moved(from + 40.0)]);
    let dropped = bench.frame(vec![Act::Escape]);
    assert!(dropped.wishes.contains(&Command::DropPreview) && dropped.keys_taken);
    let after = bench.frame(vec![Act::Up(Button::Left)]);
    assert!(!after.wishes.iter().any(|wish| matches!(wish, Command::CommitPreview | Command::Select(..))));
}

#[test]
fn held_axes_typed_numbers_and_enter() {
    let mut bench = Bench::new();
    let start = bench.vertex(1);
    let from = bench.at(&start);
    bench.frame(press(from));
    bench.frame(vec![Act::Axis(0, true), Act::Moved(from + 40.0)]);
    let typed = bench.frame(vec![Act::Text("-".into()), Act::Text("25".into())]);
    assert_eq!(previews(&typed), [start - nalgebra_x(25.0)]);
    let done = bench.frame(vec![Act::Enter]);
    assert!(done.wishes.contains(&Command::CommitPreview));
}

fn nalgebra_x(x: f64) -> Vector3<f64> {
    Vector3::new(x, 0.0, 0.0)
}

#[test]
fn ctrl_snaps_to_the_grid() {
    let mut bench = Bench::new();
    bench.snap = true;
    let from = bench.at(&bench.vertex(0));
    bench.frame(press(from));
    bench.shift = true;
    let outcome = bench.frame(vec![Act::Axis(2, true), Act::Moved(from + 47.0)]);
    assert_eq!(previews(&outcome).len(), 1);
    let label = bench.hand.drag().unwrap().label();
    assert!(label.starts_with("xy ") && (label.contains("grid") || label.contains("leg")), "{label}");
}

#[test]
fn the_turn_button_orbits_and_pans_with_shift() {
    let mut bench = Bench::new();
    let (at, eye) = (Vec2::new(400.0, 300.0), bench.view.eye);
    bench.frame(vec![Act::Moved(at), Act::Down(Button::Turn)]);
    let turned = bench.frame(vec![Act::Moved(at - Vec2::new(50.0, 20.0))]).eye.unwrap();
    assert_eq!(turned.focus, eye.focus);
    assert!(turned.pitch_rad < eye.pitch_rad && turned.yaw_rad != eye.yaw_rad);
    bench.shift = true;
    let panned = bench.frame(vec![Act::Moved(at)]).eye.unwrap();
    assert!((panned.focus - eye.focus).norm() > 1.0 && panned.yaw_rad == eye.yaw_rad);
    bench.frame(vec![Act::Up(Button::Turn)]);
    assert!(bench.frame(vec![Act::Moved(at + 90.0)]).eye.is_none());
}

#[test]
fn the_wheel_zooms_to_the_pointer() {
    let mut bench = Bench::new();
    let middle = bench.solved.centreline.elements()[0].turned(0.5).origin;
    let at = bench.at(&middle);
    let eye = bench.frame(vec![Act::Moved(at), Act::Wheel(3.0)]).eye.unwrap();
    assert!(eye.distance_mm < bench.view.eye.distance_mm);
    let seen = View { eye, ..bench.view }.project(&middle).unwrap();
    // What stays below the pointer is the skin, half a diameter above the centreline.
    assert!(seen.distance(at) < 6.0, "{seen} {at}");
}

#[test]
fn losing_the_window_s_focus_drops_the_drag() {
    let mut bench = Bench::new();
    let from = bench.at(&bench.vertex(0));
    bench.frame(press(from));
    bench.frame(vec![Act::Moved(from + 40.0)]);
    assert!(bench.frame(vec![Act::FocusLost]).wishes.contains(&Command::DropPreview));
}

#[test]
fn a_double_click_can_go_on_to_drag_the_new_vertex() {
    let mut bench = Bench::new();
    bench.part.path = Path::Vertices(bench.solved.form.path.to_vertex_form().unwrap());
    bench.solved = solve(&bench.part, &bench.shop);
    let at = bench.on_element(2);
    bench.frame(click(at));
    bench.now_s += 0.2;
    let wishes = bench.frame(press(at)).wishes;
    let [Command::Edit(insert)] = wishes.as_slice() else { panic!("{wishes:?}") };
    bench.part = insert.applied_to(&bench.part).unwrap();
    bench.solved = solve(&bench.part, &bench.shop);
    let moved = bench.frame(vec![Act::Moved(at + 30.0)]).wishes;
    assert!(moved.contains(&Command::Select(bench.named(Target::Vertex(2)), SelectMode::Only)), "{moved:?}");
    let id = bench.solved.nodes.vertex(2);
    let to = moved.iter().find_map(|wish| match wish {
        Command::Preview(Edit::MoveVertex(vertex, to)) if *vertex == id => Some(*to),
        _ => None,
    });
    let seen = bench.at(&to.unwrap_or_else(|| panic!("{moved:?}")));
    let by =
        seen - bench.at(&knobs(&bench.part, &bench.solved).iter().find(|k| k.target == Target::Vertex(2)).unwrap().at);
    assert!(by.distance(Vec2::splat(30.0)) < 1.0, "{by}");
    assert!(bench.frame(vec![Act::Up(Button::Left)]).wishes.contains(&Command::CommitPreview));
}

#[test]
fn a_double_click_that_is_let_go_only_selects_the_new_vertex() {
    let mut bench = Bench::new();
    let at = bench.on_element(2);
    bench.frame(click(at));
    bench.now_s += 0.2;
    let wishes = bench.frame(press(at)).wishes;
    let [Command::Edit(insert)] = wishes.as_slice() else { panic!("{wishes:?}") };
    bench.part = insert.applied_to(&bench.part).unwrap();
    bench.solved = solve(&bench.part, &bench.shop);
    let target = Target::Handle(HandleId::Vertex(1));
    let select = Command::Select(bench.named(target), SelectMode::Only);
    assert!(bench.frame(vec![Act::Up(Button::Left)]).wishes.contains(&select), "in bend form it is a row of 0°");
}

#[test]
fn a_click_on_nothing_lets_go_but_not_with_shift_nor_after_a_drag() {
    let mut bench = Bench::new();
    let empty = Vec2::new(25.0, 35.0);
    assert_eq!(bench.frame(click(empty)).wishes, [], "nothing is selected");
    bench.selection.select(Target::Bend(0), SelectMode::Only);
    assert_eq!(bench.frame(click(empty)).wishes, [Command::SelectNothing]);
    bench.shift = true;
    assert_eq!(bench.frame(click(empty)).wishes, []);
    bench.shift = false;
    bench.frame(press(empty));
    assert_eq!(bench.frame(vec![Act::Moved(empty + 20.0), Act::Up(Button::Left)]).wishes, []);
}

/// A copy of the part, laid beside or above it.
fn beside(bench: &Bench, by: Vector3<f64>) -> (TubeId, Part, Solved) {
    let part = Edit::SetStart(bench.part.start() + by).applied_to(&bench.part).unwrap();
    let solved = solve(&part, &bench.shop);
    (TubeId::new(7), part, solved)
}

#[test]
fn a_click_on_another_tube_turns_to_it_and_pointing_says_once_which_it_is() {
    let mut bench = Bench::new();
    bench.others.push(beside(&bench, Vector3::new(-90.0, 90.0, 0.0)));
    let tube = bench.others[0].0;
    let at = bench.at(&bench.others[0].2.centreline.elements()[0].turned(0.5).origin);
    assert_eq!(bench.frame(vec![Act::Moved(at)]).wishes, [Command::PointAtTube(Some(tube))]);
    let over = bench.hand.over().unwrap();
    assert!(over.0 == tube && (bench.at(&over.1) - at).length() < 20.0, "{over:?}");
    assert_eq!(bench.frame(vec![Act::Moved(at + 1.0)]).wishes, []);
    let turned = [Command::EditSystem(SystemEdit::Activate(tube))];
    assert_eq!(bench.frame(click(at)).wishes, turned);
    assert_eq!(bench.frame(click(at)).wishes, turned, "no second click adds a vertex");
    bench.shift = true;
    assert_eq!(bench.frame(click(at)).wishes, [], "nothing of another tube is added to what is selected");
    bench.shift = false;
    assert_eq!(bench.frame(vec![Act::Moved(Vec2::new(25.0, 35.0))]).wishes, [Command::PointAtTube(None)]);
    assert_eq!(bench.hand.over(), None);
}

#[test]
fn of_two_tubes_the_nearer_one_is_meant_and_a_handle_before_both() {
    let mut bench = Bench::new();
    let on_straight = bench.on_element(0);
    bench.others.push(beside(&bench, Vector3::new(0.0, 0.0, -80.0)));
    let own = Command::Select(bench.named(Target::Straight(0)), SelectMode::Only);
    assert!(bench.frame(click(on_straight)).wishes.contains(&own), "the other one lies below");
    bench.others = vec![beside(&bench, Vector3::new(0.0, 0.0, 80.0))];
    assert!(!bench.frame(click(on_straight)).wishes.contains(&own), "the other one lies above");
    let vertex = bench.at(&bench.vertex(0));
    let handle = Command::Select(bench.named(Target::Handle(HandleId::Vertex(0))), SelectMode::Only);
    assert!(bench.frame(click(vertex)).wishes.contains(&handle));
    bench.others = vec![beside(&bench, Vector3::zeros())];
    assert!(bench.frame(click(on_straight)).wishes.contains(&own), "a copy in the very same place");
}
