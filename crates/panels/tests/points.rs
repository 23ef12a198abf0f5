//! The table of points: what it says, and what typing and pasting coordinates ask for.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, type_into, window, workbench};
use egui::Key;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::{Edit, NodeId, Path};
use elbowroom_geometry::{HandleId, Length, Point3, VertexPath};
use elbowroom_panels::rows::Model;
use elbowroom_workbench::{Command, SelectMode, Table, Target, Workbench};

/// A bend of 90° between straights of 200 and 250 mm, CLR 76.2: worked out by hand, its vertex lies 276.2 mm from the start
/// and the finish 326.2 mm beyond it.
const ELBOW: [(f64, f64, f64); 1] = [(200.0, 0.0, 90.0)];

fn as_points(mut bench: Workbench) -> Workbench {
    bench.perform(Command::ShowTable(Table::Points));
    bench
}

fn table(bench: Workbench) -> egui_kittest::Harness<'static, Desk> {
    let mut desk = Desk::new(as_points(bench));
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.state_mut().asked.clear();
    harness
}

/// A part held as vertices at the given places, every radius 76.2 mm.
fn drawn(points: &[[f64; 3]]) -> Workbench {
    let clr = vec![Length::from_mm(76.2); points.len() - 2];
    let path = VertexPath::new(points.iter().map(|point| Point3::from(*point)).collect(), clr).unwrap();
    let mut bench = workbench(&ELBOW, 250.0);
    bench.perform(Command::Edit(Edit::SetPath(Path::Vertices(path))));
    bench
}

fn text(bench: Workbench) -> Vec<String> {
    let text = Model::of(&as_points(bench)).to_string();
    text.lines().map(|line| line.split("  [").next().unwrap_or(line).to_owned()).collect()
}

#[test]
fn both_ends_and_the_vertex_of_each_bend_are_said() {
    let expected = [
        "   point  x  y  z  CLR  (mm)",
        "   start  0.0  0.0  0.0  –",
        "   bend 1  276.2  0.0  0.0  76.2",
        "   finish  276.2  326.2  0.0  –",
    ];
    assert_eq!(text(workbench(&ELBOW, 250.0)), expected);
}

#[test]
fn a_half_turn_is_said_by_the_ends_of_its_arc() {
    // The legs lie two radii apart: 152.4 mm; the finish is as far on as the second straight is longer than the first.
    let expected = [
        "   point  x  y  z  CLR  (mm)",
        "   start  0.0  0.0  0.0  –",
        "   bend 1 begins  200.0  0.0  0.0  76.2",
        "   bend 1 ends  200.0  152.4  0.0  –",
        "   finish  -50.0  152.4  0.0  –",
    ];
    let said = text(workbench(&[(200.0, 0.0, 180.0)], 250.0));
    assert_eq!(said[..5], expected);
}

#[test]
fn from_150_degrees_on_a_bend_is_said_by_the_ends_of_its_arc() {
    for (angle, rows) in [(149.9, 3), (150.0, 4), (180.0, 4)] {
        assert_eq!(Model::of(&as_points(workbench(&[(200.0, 0.0, angle)], 250.0))).lines(), rows, "{angle}");
    }
}

#[test]
fn a_vertex_on_a_line_has_its_row() {
    let said = text(drawn(&[[0.0, 0.0, 0.0], [200.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 300.0, 0.0]]));
    let names: Vec<&str> = said[1..].iter().map(|line| line[3..].split("  ").next().unwrap()).collect();
    assert_eq!(names, ["start", "vertex 2", "bend 1", "finish"]);
}

/// Types a text into a cell and enters it; gives the edits asked for.
fn entered(harness: &mut egui_kittest::Harness<'static, Desk>, cell: &str, text: &str) -> Vec<Edit> {
    type_into(harness, cell, text);
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    asked.into_iter().filter_map(|command| if let Command::Edit(edit) = command { Some(edit) } else { None }).collect()
}

#[test]
fn a_typed_coordinate_moves_its_point_and_leaves_the_others_to_the_bit() {
    let bench = || drawn(&[[0.0, 0.0, 0.0], [301.0 / 3.0, 0.1, 0.0], [400.0, 300.0, 7.0]]);
    let y = Edit::MoveHandle(HandleId::Vertex(bench().solved().nodes.bend(0)), Point3::new(301.0 / 3.0, 62.5, 0.0));
    assert_eq!(entered(&mut table(bench()), "bend 1 y", "50+12.5"), [y]);
    let x = Edit::MoveHandle(HandleId::Finish, Point3::new(-25.4, 300.0, 7.0));
    assert_eq!(entered(&mut table(bench()), "finish x", "-1 in"), [x]);
    let z = Edit::MoveHandle(HandleId::Start, Point3::new(0.0, 0.0, 3.5));
    assert_eq!(entered(&mut table(bench()), "start z", "3,5"), [z]);
}

#[test]
fn three_typed_numbers_place_a_point_of_a_part_in_rows_exactly() {
    let mut bench = as_points(workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0));
    for (column, to) in [("x", "310"), ("y", "-40.5"), ("z", "12")] {
        let model = Model::of(&bench);
        let row = (0..model.lines()).find(|row| model.name(*row) == "bend 1").unwrap();
        let columns = elbowroom_panels::rows::Column::of(Table::Points);
        let column = columns.into_iter().find(|other| other.name() == column).unwrap();
        let edit = model.edit(elbowroom_panels::rows::Cell::new(row, column), to).unwrap();
        bench.perform(Command::Edit(edit));
    }
    let at = Model::of(&bench).points[1].0.at;
    assert!((at - Point3::new(310.0, -40.5, 12.0)).norm() < 1e-9, "{at}");
    let finish = Model::of(&bench).points[3].0.at;
    let before = Model::of(&as_points(workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0))).points[3].0.at;
    assert!((finish - before).norm() < 1e-9, "{finish} {before}");
}

#[test]
fn where_a_half_turn_begins_slides_along_its_straight_to_what_is_typed() {
    let bench = || workbench(&[(200.0, 0.0, 180.0)], 250.0);
    let bend = bench().solved().nodes.bend(0);
    let begins = Edit::MoveHandle(HandleId::ArcStart(bend), Point3::new(260.0, 0.0, 0.0));
    assert_eq!(entered(&mut table(bench()), "bend 1 begins x", "260"), [begins]);
    for (cell, said) in [("bend 1 begins y", "type x"), ("bend 1 ends x", "type those")] {
        let mut harness = table(bench());
        assert_eq!(entered(&mut harness, cell, "260"), []);
        assert!(harness.query_by_label_contains(said).is_some(), "{cell}");
        assert_eq!(harness.get_by_label(cell).value().as_deref(), Some("260"), "nothing is lost");
    }
}

/// Along a straight at 45° to the axes the typed coordinate is reached, not the nearest place to it.
#[test]
fn a_point_that_slides_aslant_reaches_the_typed_coordinate() {
    let mut bench = as_points(workbench(&[(200.0, 0.0, 45.0), (180.0, 0.0, 180.0)], 250.0));
    let place = |bench: &Workbench| {
        let model = Model::of(bench);
        model.points.iter().map(|(point, _)| *point).find(|point| point.spot.name() == "bend 2 begins").unwrap()
    };
    let before = place(&bench);
    let edit = before.put(0, Length::from_mm(620.0), &bench.solved().nodes, bench.part().units).unwrap();
    bench.perform(Command::Edit(edit));
    let moved = place(&bench).at - before.at;
    assert!((place(&bench).at.x - 620.0).abs() < 1e-9, "{}", place(&bench).at);
    assert!((moved.y - moved.x).abs() < 1e-9 && moved.z.abs() < 1e-9, "it stays on its straight: {moved}");
}

#[test]
fn what_is_typed_and_wrong_goes_when_the_other_table_is_shown() {
    let mut harness = table(workbench(&ELBOW, 250.0));
    type_into(&mut harness, "start x", "sharp");
    for (shown, cell) in [(Table::Rows, "bend 1 straight"), (Table::Points, "start x")] {
        harness.state_mut().workbench.perform(Command::ShowTable(shown));
        harness.run_steps(3);
        assert!(harness.get_by_label(cell).value().is_some_and(|text| text.parse::<f64>().is_ok()), "{cell}");
    }
}

#[test]
fn the_radius_beside_a_point_is_that_of_its_bend() {
    let bench = workbench(&ELBOW, 250.0);
    let edit = Edit::SetClr(bench.solved().nodes.bend(0), Length::from_mm(101.6));
    assert_eq!(entered(&mut table(bench), "bend 1 CLR", "101.6"), [edit]);
}

#[test]
fn enter_goes_down_a_column_and_tab_along_a_row() {
    let mut harness = table(workbench(&ELBOW, 250.0));
    for (from, key, to) in [
        ("start z", Key::Enter, "bend 1 z"),
        ("bend 1 z", Key::Tab, "bend 1 CLR"),
        ("bend 1 CLR", Key::Tab, "finish x"),
        ("start z", Key::Tab, "bend 1 x"),
        ("bend 1 CLR", Key::Enter, "finish x"),
    ] {
        harness.get_by_label(from).focus();
        harness.run_steps(2);
        harness.key_press(key);
        harness.run_steps(2);
        assert!(harness.get_by_label(to).is_focused(), "{key:?} from {from}");
    }
}

#[test]
fn a_selected_point_is_marked_and_an_end_can_be_selected() {
    let mut bench = workbench(&ELBOW, 250.0);
    bench.perform(Command::Select(bench.named(Target::Bend(0)), SelectMode::Only));
    bench.perform(Command::Select(bench.named(Target::Handle(HandleId::Finish)), SelectMode::Toggle));
    let said = text(bench);
    let marked: Vec<bool> = said.iter().map(|line| line.starts_with(" * ")).collect();
    assert_eq!(marked, [false, false, true, true]);
}

#[test]
fn the_choice_stands_over_the_table() {
    let mut harness = table(workbench(&ELBOW, 250.0));
    harness.get_by_label("Rows").click();
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::ShowTable(Table::Rows)]);
    harness.get_by_label("Points").click();
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [], "it is shown already");
}

/// Pastes a text while no field has the keyboard, with a point selected before.
fn pasted(
    mut bench: Workbench,
    text: &str,
    selected: Option<Target>,
) -> (Vec<Command>, egui_kittest::Harness<'static, Desk>) {
    if let Some(target) = selected {
        bench.perform(Command::Select(bench.named(target), SelectMode::Only));
    }
    let mut harness = table(bench);
    harness.event(egui::Event::Paste(text.to_owned()));
    harness.run_steps(2);
    (harness.state_mut().take_asked(), harness)
}

fn clr_of(edit: &Edit) -> Vec<f64> {
    let Edit::SetPath(Path::Vertices(path)) = edit else { panic!("no path: {edit:?}") };
    path.clr().iter().map(|clr| clr.mm()).collect()
}

#[test]
fn a_list_of_points_becomes_the_tube() {
    let points = [[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 200.0, 50.0], [600.5, 200.0, 50.0]];
    let expected: Vec<Point3<f64>> = points.iter().map(|point| Point3::from(*point)).collect();
    for (text, radii) in [
        ("0\t0\t0\n300\t0\t0\n300\t200\t50\n600.5\t200\t50\n", [76.2, 76.2]),
        ("x;y;z;CLR\n0;0;0;\n300;0;0;101,6\n300;200;50;\n600,5;200;50;0\n", [101.6, 76.2]),
        ("0 0 0\r\n300 0 0 90\r\n300 200 50 90\r\n600.5 200 50", [90.0, 90.0]),
    ] {
        let (asked, _) = pasted(workbench(&ELBOW, 250.0), text, None);
        let [Command::Edit(edit @ Edit::SetPath(Path::Vertices(path)))] = asked.as_slice() else {
            panic!("{text:?}: {asked:?}")
        };
        assert_eq!(path.points(), expected, "{text:?}");
        assert_eq!(clr_of(edit), radii, "{text:?}");
    }
}

#[test]
fn as_many_points_as_there_are_move_and_keep_what_they_are() {
    let bench = workbench(&ELBOW, 250.0);
    let ids: Vec<NodeId> = bench.solved().nodes.ids().to_vec();
    let text = "0\t0\t0\t0\n276.2\t0\t5\t101.6\n276.2\t400\t0\t0\n";
    let (asked, _) = pasted(bench, text, None);
    let [Command::Edit(Edit::Together(label, edits))] = asked.as_slice() else { panic!("{asked:?}") };
    assert_eq!(label, "paste points");
    let [Edit::SetClr(bend, clr), Edit::MoveVertices(moved)] = edits.as_slice() else { panic!("{edits:?}") };
    assert_eq!((*bend, clr.mm()), (ids[1], 101.6));
    let to: Vec<(NodeId, [f64; 3])> = moved.iter().map(|(id, at)| (*id, [at.x, at.y, at.z])).collect();
    assert!(to.iter().all(|(id, _)| *id != ids[0]), "the start is where it was: {to:?}");
    assert_eq!(to.iter().find(|(id, _)| *id == ids[1]).unwrap().1[2], 5.0);
    assert_eq!(to.last().unwrap(), &(ids[2], [276.2, 400.0, 0.0]));
}

#[test]
fn points_pasted_at_one_replace_those_from_it_on() {
    let (asked, _) = pasted(workbench(&ELBOW, 250.0), "280\t10\t20\n", Some(Target::Bend(0)));
    let [Command::Edit(Edit::Together(_, edits))] = asked.as_slice() else { panic!("{asked:?}") };
    let [Edit::MoveVertices(moved)] = edits.as_slice() else { panic!("{edits:?}") };
    assert_eq!(moved[0].1, Point3::new(280.0, 10.0, 20.0));
    assert_eq!(moved.len(), 1);
}

#[test]
fn a_column_pasted_into_a_cell_leaves_the_other_coordinates() {
    let mut harness = table(drawn(&[[1.0, 2.0, 0.0], [300.0, 3.0, 0.0], [400.0, 300.0, 7.0]]));
    harness.get_by_label("start z").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    harness.event(egui::Event::Paste("5\n6\n".to_owned()));
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    let [Command::Edit(Edit::Together(_, edits))] = asked.as_slice() else { panic!("{asked:?}") };
    let [Edit::MoveVertices(moved)] = edits.as_slice() else { panic!("{edits:?}") };
    let to: Vec<Point3<f64>> = moved.iter().map(|(_, at)| *at).collect();
    assert_eq!(to, [Point3::new(1.0, 2.0, 5.0), Point3::new(300.0, 3.0, 6.0)]);
}

/// The specimen's die has 76.2 mm: what is given is not its radius but that of the bends there are.
#[test]
fn points_without_a_radius_take_that_of_the_bends_there_are() {
    let mut bench = workbench(&ELBOW, 250.0);
    bench.perform(Command::Edit(Edit::SetEveryClr(Length::from_mm(101.6))));
    let (asked, _) = pasted(bench, "0 0 0\n300 0 0\n300 300 0\n600 300 0\n600 600 0\n", None);
    let [Command::Edit(edit)] = asked.as_slice() else { panic!("{asked:?}") };
    assert_eq!(clr_of(edit), [101.6; 3]);
}

/// The ends of an arc move with the rest only where the list is taken as a whole.
#[test]
fn as_many_points_as_a_part_with_a_half_turn_has_are_taken_as_the_tube() {
    let (asked, _) = pasted(workbench(&[(200.0, 0.0, 180.0)], 250.0), "0 0 0\n300 0 0\n300 200 0\n0 250 0\n", None);
    let [Command::Edit(edit)] = asked.as_slice() else { panic!("{asked:?}") };
    assert_eq!(clr_of(edit), [76.2, 76.2]);
}

#[test]
fn a_paste_that_cannot_be_taken_says_why_and_changes_nothing() {
    let half_turn = || workbench(&[(200.0, 0.0, 180.0)], 250.0);
    let elbow = || workbench(&ELBOW, 250.0);
    for (bench, text, selected, said) in [
        (elbow(), "0\t0\t0\n1\tsharp\t2\n3\t4\t5", None, "Row 2, y: “sharp”"),
        (elbow(), "1\t2\t3\t4\t5", None, "it has 5 columns; there is room for x, y, z, CLR"),
        (elbow(), "1\t2\t3\n4\t5\t6\n7\t8\t9", Some(Target::Bend(0)), "paste from the start"),
        (elbow(), "276.2\t400\t0\t50\n", Some(Target::Handle(HandleId::Finish)), "finish has no bend"),
        (half_turn(), "210\t5\t0\n", Some(Target::Bend(0)), "bend 1 begins does not move freely"),
    ] {
        let (asked, harness) = pasted(bench, text, selected);
        assert_eq!(asked, [], "{text:?}");
        assert!(harness.query_by_label_contains(said).is_some(), "{text:?}: {said}");
    }
}

#[test]
fn selected_points_are_copied_as_a_spreadsheet_takes_them() {
    let mut bench = drawn(&[[0.0, 0.0, 0.0], [300.25, 0.5, 0.0], [400.0, 300.0, 7.0]]);
    bench.perform(Command::Select(bench.named(Target::Bend(0)), SelectMode::Only));
    let mut harness = table(bench);
    harness.event(egui::Event::Copy);
    harness.step();
    let copied = harness.output().platform_output.commands.iter().find_map(|command| match command {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    assert_eq!(copied.as_deref(), Some("300.25\t0.5\t0\t76.2\n"));
}
