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
            arrows_free: true,
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
    // What is clicked is the skin, half a diameter nearer to the eye: the vertex lies below the pointer all the same.
    assert!((point - middle).norm() < 0.01, "{point}");
    assert!(bench.at(point).distance(at) < 0.1);
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

/// An empty corner of the scene, and the one across.
const CORNERS: (Vec2, Vec2) = (Vec2::new(24.0, 34.0), Vec2::new(916.0, 726.0));

fn named_all(bench: &Bench, targets: &[Target]) -> Vec<Target<NodeId>> {
    targets.iter().map(|target| bench.named(*target)).collect()
}

#[test]
fn a_box_drawn_beside_the_tube_selects_what_lies_in_it() {
    use HandleId::{Finish, Start};
    let mut bench = Bench::new();
    bench.frame(press(CORNERS.0));
    bench.frame(vec![Act::Moved(CORNERS.1)]);
    assert!(bench.hand.boxed().is_some_and(|boxed| boxed.has(Vec2::new(400.0, 400.0))));
    let wishes = bench.frame(vec![Act::Up(Button::Left)]).wishes;
    let all = [Target::Handle(Start), Target::Bend(0), Target::Bend(1), Target::Handle(Finish)];
    assert!(wishes.contains(&Command::SelectThese(named_all(&bench, &all), SelectMode::Only)), "{wishes:?}");
    // About one vertex alone, beside what is selected.
    bench.shift = true;
    let at = bench.at(&bench.vertex(1));
    bench.frame(press(at + Vec2::new(-40.0, -40.0)));
    let wishes = bench.frame(vec![Act::Moved(at + 40.0), Act::Up(Button::Left)]).wishes;
    let one = named_all(&bench, &[Target::Bend(1)]);
    assert!(wishes.contains(&Command::SelectThese(one, SelectMode::Add)), "{wishes:?}");
}

#[test]
fn a_box_around_nothing_leaves_what_is_selected_and_escape_drops_it() {
    let mut bench = Bench::new();
    bench.selection = Selection::of(vec![Target::Bend(0)]);
    bench.frame(press(CORNERS.0));
    let wishes = bench.frame(vec![Act::Moved(CORNERS.0 + 15.0), Act::Up(Button::Left)]).wishes;
    assert_eq!(wishes, []);
    bench.frame(press(CORNERS.0));
    bench.frame(vec![Act::Moved(CORNERS.1), Act::Escape]);
    assert_eq!(bench.hand.boxed(), None);
    let wishes = bench.frame(vec![Act::Up(Button::Left)]).wishes;
    assert!(!wishes.iter().any(|wish| matches!(wish, Command::SelectThese(..))), "{wishes:?}");
}

/// The vertices that the last preview moves, and by how much.
fn moved_together(bench: &Bench, outcome: &Outcome) -> Vec<(NodeId, Vector3<f64>)> {
    let under = elbowroom_workbench::vertices_under(
        &bench.part,
        &bench.solved,
        &[Target::Handle(HandleId::Start), Target::Bend(0), Target::Bend(1), Target::Handle(HandleId::Finish)],
    );
    let was = |id: NodeId| under.iter().find(|(known, _)| *known == id).unwrap().1;
    let last = outcome.wishes.iter().rev().find_map(|wish| match wish {
        Command::Preview(Edit::MoveVertices(moved)) => Some(moved),
        _ => None,
    });
    last.unwrap_or_else(|| panic!("{:?}", outcome.wishes)).iter().map(|(id, to)| (*id, to - was(*id))).collect()
}

#[test]
fn a_drag_of_one_that_is_selected_moves_all_that_are() {
    let mut bench = Bench::new();
    bench.selection = Selection::of(vec![Target::Bend(0), Target::Handle(HandleId::Finish)]);
    let at = bench.at(&bench.vertex(0));
    bench.frame(press(at));
    let outcome = bench.frame(vec![Act::Moved(at + Vec2::new(60.0, 20.0))]);
    let moved = moved_together(&bench, &outcome);
    assert_eq!(moved.len(), 2, "{moved:?}");
    assert!(moved[0].1.norm() > 10.0 && (moved[0].1 - moved[1].1).norm() < 1e-9, "{moved:?}");
    // Who is not selected goes alone.
    let mut bench = Bench::new();
    bench.selection = Selection::of(vec![Target::Bend(1), Target::Handle(HandleId::Finish)]);
    let at = bench.at(&bench.vertex(0));
    bench.frame(press(at));
    assert_eq!(previews(&bench.frame(vec![Act::Moved(at + 50.0)])).len(), 1);
}

#[test]
fn a_straight_is_dragged_with_the_vertices_at_both_its_ends() {
    let mut bench = Bench::new();
    let at = bench.on_element(2);
    bench.frame(press(at));
    let outcome = bench.frame(vec![Act::Moved(at + Vec2::new(0.0, 70.0))]);
    let moved = moved_together(&bench, &outcome);
    let ids: Vec<NodeId> = moved.iter().map(|(id, _)| *id).collect();
    assert_eq!(ids, [bench.solved.nodes.bend(0), bench.solved.nodes.bend(1)]);
    assert!((moved[0].1 - moved[1].1).norm() < 1e-9 && moved[0].1.norm() > 10.0, "{moved:?}");
    let released = bench.frame(vec![Act::Up(Button::Left)]).wishes;
    assert!(released.contains(&Command::CommitPreview), "{released:?}");
}

#[test]
fn arrows_move_what_is_selected_along_the_axes_that_are_seen() {
    use elbowroom_bending::Motion;

    let mut bench = Bench::new();
    assert_eq!(bench.frame(vec![Act::Arrow(1, 0)]).wishes, [], "nothing is selected");
    bench.selection = Selection::of(vec![Target::Bend(0)]);
    let step = |wishes: &[Command]| match wishes {
        [Command::MoveSelection(Motion::By(by))] => *by,
        other => panic!("{other:?}"),
    };
    let coarse = step(&bench.frame(vec![Act::Arrow(1, 0)]).wishes);
    assert!(coarse.x > 0.0 && coarse.y == 0.0 && coarse.z == 0.0, "seen from above x leads to the right: {coarse:?}");
    bench.shift = true;
    assert_eq!(step(&bench.frame(vec![Act::Arrow(0, 1)]).wishes), Vector3::new(0.0, coarse.x / 10.0, 0.0));
    bench.view.area.arrows_free = false;
    assert_eq!(bench.frame(vec![Act::Arrow(1, 0)]).wishes, [], "a panel has the keys");
}

#[test]
fn control_adds_as_shift_does() {
    let mut bench = Bench::new();
    bench.snap = true;
    let at = bench.on_element(1);
    let add = Command::Select(bench.named(Target::Bend(0)), SelectMode::Toggle);
    assert!(bench.frame(click(at)).wishes.contains(&add));
    let wishes = bench.frame(click(CORNERS.0)).wishes;
    assert!(!wishes.contains(&Command::SelectNothing), "{wishes:?}");
}

#[test]
fn the_turning_button_asks_for_a_menu_where_it_turns_nothing() {
    let mut bench = Bench::new();
    let at = bench.on_element(1);
    let outcome = bench.frame(vec![Act::Moved(at), Act::Down(Button::Turn), Act::Up(Button::Turn)]);
    assert_eq!(outcome.menu, Some(at));
    assert!(outcome.eye.is_none());
    let select = Command::Select(bench.named(Target::Bend(0)), SelectMode::Only);
    assert!(outcome.wishes.contains(&select), "{:?}", outcome.wishes);
    bench.frame(vec![Act::Moved(at), Act::Down(Button::Turn)]);
    let turned = bench.frame(vec![Act::Moved(at + 60.0), Act::Up(Button::Turn)]);
    assert!(turned.menu.is_none() && turned.eye.is_some());
}
