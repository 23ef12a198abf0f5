//! The table of bends: what it says, and what typing, walking and pasting ask for.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, type_into, window, workbench};
use egui::Key;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Edit;
use elbowroom_geometry::{Angle, Length};
use elbowroom_panels::rows::Model;
use elbowroom_workbench::{Command, SelectMode, Target};

const ROWS: [(f64, f64, f64); 3] = [(200.0, 0.0, 90.0), (150.0, 45.0, 30.0), (125.0, -90.0, 180.0)];

/// A window in which commands are kept but not performed, so that each test sees its own.
fn table() -> egui_kittest::Harness<'static, Desk> {
    let mut desk = Desk::new(workbench(&ROWS, 250.0));
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.state_mut().asked.clear();
    harness
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

#[test]
fn the_table_says_the_bends_in_trade_order() {
    let mut bench = workbench(&ROWS, 250.0);
    bench.perform(Command::Select(bench.named(Target::Bend(1)), SelectMode::Only));
    bench.perform(Command::Select(bench.named(Target::Straight(3)), SelectMode::Toggle));
    bench.perform(Command::Hover(Some(bench.named(Target::Straight(2)))));
    let text = Model::of(&bench).to_string();
    let plain: Vec<&str> = text.lines().map(|line| line.split("  [").next().unwrap_or(line)).collect();
    let expected = [
        "   bend  straight  rotation  angle  CLR  (mm)",
        "   1  200.0  –  90.0  76.2",
        " * 2  150.0  45.0  30.0  76.2",
        ">  3  125.0  -90.0  180.0  76.2",
        "   finish  250.0*",
        "   legs of bend 2 apart: –",
    ];
    assert_eq!(plain, expected);
}

#[test]
fn typing_previews_and_enter_makes_one_step() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 straight", "60+12.5");
    let edit = Edit::SetStraight(elbowroom_bending::NodeId::new(2), mm(72.5));
    let select = Command::Select(harness.state().workbench.named(Target::Bend(1)), SelectMode::Only);
    assert_eq!(harness.state_mut().take_asked(), [select, Command::Preview(edit.clone())]);
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert_eq!(asked[..2], [Command::DropPreview, Command::Edit(edit)]);
    assert!(harness.get_by_label("bend 3 straight").is_focused(), "Enter goes down");
}

/// A whole frame's worth of typing: the text and then a key.
fn at_once(harness: &mut egui_kittest::Harness<'_, Desk>, text: &str, key: Key) {
    for sign in text.chars() {
        harness.input_mut().events.push(egui::Event::Text(sign.to_string()));
    }
    let (physical_key, modifiers) = (None, egui::Modifiers::NONE);
    harness.input_mut().events.push(egui::Event::Key { key, physical_key, pressed: true, repeat: false, modifiers });
    harness.step();
}

#[test]
fn what_is_typed_in_the_frame_of_enter_belongs_to_the_cell_and_to_no_other() {
    let mut harness = table();
    harness.get_by_label("bend 1 angle").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    at_once(&mut harness, "53.9", Key::Enter);
    // The next frame's digits are for the cell below, drawn later in the frame than the one that was left.
    at_once(&mut harness, "45", Key::ArrowUp);
    // And those after that for the cell above, drawn earlier.
    at_once(&mut harness, "60", Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    let edits: Vec<_> = asked.iter().filter(|command| matches!(command, Command::Edit(_))).collect();
    let angle = |bend, degrees| {
        Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(bend), Angle::from_degrees(degrees)))
    };
    assert_eq!(edits, [&angle(1, 53.9), &angle(2, 45.0), &angle(1, 60.0)]);
    assert!(harness.get_by_label("bend 2 angle").is_focused());
}

/// Two keys that a slow frame kept waiting go on by one cell each.
#[test]
fn tabs_in_frames_that_follow_one_another_go_on_by_one_cell_each() {
    let mut harness = table();
    harness.get_by_label("bend 1 angle").focus();
    harness.run_steps(2);
    at_once(&mut harness, "50", Key::Tab);
    at_once(&mut harness, "", Key::Tab);
    harness.run_steps(2);
    assert!(harness.get_by_label("bend 2 straight").is_focused());
}

/// In the first frame of a field the toolkit does not know yet that the field keeps these keys, and would go on by itself.
#[test]
fn a_key_of_the_very_frame_in_which_a_cell_gets_the_keyboard_goes_on_by_one_cell() {
    let id = elbowroom_bending::NodeId::new;
    let (angle, tail) = (Angle::from_degrees(77.0), Edit::SetStraight(id(4), mm(77.0)));
    let cases = [
        ("bend 1 angle", Key::Tab, Edit::SetClr(id(1), mm(77.0))),
        ("bend 2 CLR", Key::Tab, Edit::SetStraight(id(3), mm(77.0))),
        ("bend 2 angle", Key::ArrowDown, Edit::SetAngle(id(3), angle)),
        ("bend 3 angle", Key::ArrowDown, tail.clone()),
        ("bend 2 angle", Key::ArrowUp, Edit::SetAngle(id(1), angle)),
        ("bend 3 CLR", Key::Enter, tail),
    ];
    for (from, key, edit) in cases {
        let mut harness = table();
        harness.get_by_label(from).focus();
        harness.key_press(key);
        harness.step();
        at_once(&mut harness, "77", Key::Enter);
        harness.run_steps(2);
        let asked = harness.state_mut().take_asked();
        let edits: Vec<_> = asked.iter().filter(|command| matches!(command, Command::Edit(_))).collect();
        assert_eq!(edits, [&Command::Edit(edit)], "{key:?} in {from}");
    }
}

#[test]
fn a_view_key_never_lands_in_a_row() {
    let mut harness = table();
    type_into(&mut harness, "bend 1 angle", "60");
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Num1);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(matches!(asked.as_slice(), [Command::View(_)]), "{asked:?}");
    assert_eq!(harness.get_by_label("bend 2 angle").value().as_deref(), Some("30.0"));
}

/// A letter is no number: in a cell that was only reached it is the key of a view, in one that was typed into it is text.
#[test]
fn a_letter_is_a_view_until_a_cell_is_typed_into() {
    let mut harness = table();
    type_into(&mut harness, "bend 1 angle", "60");
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    at_once(&mut harness, "f", Key::F);
    harness.run_steps(2);
    assert_eq!(harness.get_by_label("bend 2 angle").value().as_deref(), Some("30.0"));
    at_once(&mut harness, "3", Key::Num3);
    at_once(&mut harness, "f", Key::F);
    harness.run_steps(2);
    assert_eq!(harness.get_by_label("bend 2 angle").value().as_deref(), Some("3f"));
}

#[test]
fn tab_goes_on_and_takes_the_text() {
    let mut harness = table();
    type_into(&mut harness, "bend 1 straight", "1 3/4 in");
    harness.key_press(Key::Tab);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(
        asked.contains(&Command::Edit(Edit::SetStraight(elbowroom_bending::NodeId::new(1), mm(1.75 * 25.4)))),
        "{asked:?}"
    );
    assert!(harness.get_by_label("bend 1 angle").is_focused(), "the first bend has no rotation to stop at");
}

#[test]
fn clicking_elsewhere_takes_the_text() {
    let mut harness = table();
    type_into(&mut harness, "bend 3 angle", "170");
    harness.get_by_label("bend 1 CLR").click();
    harness.run_steps(3);
    let asked = harness.state_mut().take_asked();
    assert!(
        asked.contains(&Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(3), Angle::from_degrees(170.0)))),
        "{asked:?}"
    );
}

#[test]
fn escape_drops_what_was_typed() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 rotation", "10");
    harness.state_mut().asked.clear();
    harness.key_press(Key::Escape);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::DropPreview]);
    assert_eq!(harness.get_by_label("bend 2 rotation").value().as_deref(), Some("45.0"));
}

#[test]
fn leaving_a_cell_untouched_asks_for_nothing() {
    let mut harness = table();
    harness.get_by_label("bend 2 angle").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(asked.iter().all(|command| matches!(command, Command::Select(..))), "{asked:?}");
}

#[test]
fn a_figure_typed_for_one_of_several_selected_bends_sets_them_all() {
    use elbowroom_panels::rows::{Cell, Column};
    let mut bench = workbench(&ROWS, 250.0);
    for index in [0, 1] {
        bench.perform(Command::Select(bench.named(Target::Bend(index)), SelectMode::Toggle));
    }
    let model = Model::of(&bench);
    bench.perform(Command::Edit(model.edit(Cell::new(1, Column::Angle), "45").unwrap()));
    assert_eq!(bench.undo_label(), Some("set angle of 2 bends to 45.0\u{b0}"));
    bench.perform(Command::Edit(model.edit(Cell::new(0, Column::Clr), "101.6").unwrap()));
    let rows = bench.solved().form.path.rows().to_vec();
    let angles: Vec<_> = rows.iter().map(|row| row.angle.degrees()).collect();
    assert_eq!((angles, rows[1].clr), (vec![45.0, 45.0, 180.0], mm(101.6)));
    assert_eq!((rows[0].clr, rows[2].clr), (mm(101.6), mm(76.2)), "what is not selected stays");
    // A row that is not among them is set alone, and so are straights and rotations.
    let third = bench.solved().nodes.bend(2);
    assert_eq!(model.edit(Cell::new(2, Column::Angle), "90"), Ok(Edit::SetAngle(third, Angle::from_degrees(90.0))));
    let second = bench.solved().nodes.straight(1);
    assert_eq!(model.edit(Cell::new(1, Column::Straight), "160"), Ok(Edit::SetStraight(second, mm(160.0))));
    // What gives way to one angle could undo another.
    let hold = elbowroom_workbench::catalogue::verb("hold-ends").unwrap().command(&bench);
    bench.perform(hold);
    let refused = Model::of(&bench).edit(Cell::new(1, Column::Angle), "50").unwrap_err();
    assert!(refused.what().contains("one by one"), "{}", refused.what());
}

#[test]
fn what_cannot_be_read_stays_with_its_error() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 straight", "60 furlong");
    assert!(harness.state_mut().take_asked().contains(&Command::DropPreview));
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [], "nothing is taken");
    let cell = harness.get_by_label("bend 2 straight");
    assert!(cell.is_focused(), "and the cell is not left");
    assert_eq!(cell.value().as_deref(), Some("60 furlong"), "nothing is lost");
    assert!(harness.query_by_label_contains("no unit of length").is_some(), "the error says what is wrong");
}

#[test]
fn what_the_part_refuses_says_why() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 angle", "400");
    assert!(harness.query_by_label_contains("359°").is_some(), "says what it may be");
    assert_eq!(harness.get_by_label("bend 2 angle").value().as_deref(), Some("400"));
}

/// Clicks on a row where its number stands.
fn click_number(harness: &mut egui_kittest::Harness<'_, Desk>, row: &str, modifiers: egui::Modifiers) {
    let pos = harness.get_by_label(row).rect().left_center() + egui::vec2(40.0, 0.0);
    harness.hover_at(pos);
    for pressed in [true, false] {
        harness.event(egui::Event::PointerButton { pos, button: egui::PointerButton::Primary, pressed, modifiers });
    }
    harness.run_steps(2);
}

#[test]
fn a_click_selects_a_row_and_shift_adds() {
    let mut harness = table();
    click_number(&mut harness, "bend 2", egui::Modifiers::NONE);
    let bend =
        |harness: &egui_kittest::Harness<'static, Desk>, bend| harness.state().workbench.named(Target::Bend(bend));
    assert_eq!(harness.state_mut().take_asked(), [Command::Select(bend(&harness, 1), SelectMode::Only)]);
    click_number(&mut harness, "bend 3", egui::Modifiers::SHIFT);
    assert_eq!(harness.state_mut().take_asked(), [Command::Select(bend(&harness, 2), SelectMode::Toggle)]);
}

/// Pastes a text while no field has the keyboard, with the first of `selected` selected before.
fn paste(text: &str, selected: Option<usize>) -> (Vec<Command>, egui_kittest::Harness<'static, Desk>) {
    let mut desk = Desk::new(workbench(&ROWS, 250.0));
    if let Some(bend) = selected {
        desk.workbench.perform(Command::Select(desk.workbench.named(Target::Bend(bend)), SelectMode::Only));
    }
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.state_mut().asked.clear();
    harness.event(egui::Event::Paste(text.to_owned()));
    harness.run_steps(2);
    (harness.state_mut().take_asked(), harness)
}

fn bend(straight_mm: f64, rotation: f64, angle: f64, clr_mm: f64) -> elbowroom_geometry::BendRow {
    elbowroom_bending::specimen::row_at(straight_mm, rotation, angle, clr_mm)
}

#[test]
fn rows_from_a_spreadsheet_replace_those_from_the_selected_one_on() {
    let expected = Edit::ReplaceRows(
        elbowroom_bending::NodeId::new(2),
        vec![bend(130.0, 10.0, 20.0, 76.2), bend(140.5, -15.0, 30.0, 101.6)],
    );
    for text in [
        "130\t10\t20\t76.2\n140.5\t-15\t30\t101.6\n",
        "130 10 20 76.2\r\n140.5 -15 30 101.6",
        "130;10;20;76,2\n140,5;-15;30;101,6",
        "straight,rotation,angle,CLR\n130, 10, 20, 76.2\n140.5, -15, 30, 101.6\n",
    ] {
        let (asked, _) = paste(text, Some(1));
        assert_eq!(asked, [Command::Edit(expected.clone())], "{text:?}");
    }
}

#[test]
fn rows_pasted_with_nothing_selected_go_to_the_tail() {
    let (asked, _) = paste("130\t10\t20\n", None);
    assert_eq!(
        asked,
        [Command::Edit(Edit::InsertRows(elbowroom_bending::NodeId::new(4), vec![bend(130.0, 10.0, 20.0, 76.2)]))]
    );
    let (asked, _) = paste("130\t10\t20\t76.2\n300\n", None);
    let both = vec![
        Edit::InsertRows(elbowroom_bending::NodeId::new(4), vec![bend(130.0, 10.0, 20.0, 76.2)]),
        Edit::SetStraight(elbowroom_bending::NodeId::new(4), mm(300.0)),
    ];
    assert_eq!(asked, [Command::Edit(Edit::Together("paste rows".into(), both))]);
}

#[test]
fn a_paste_that_cannot_be_read_names_row_and_column() {
    for (text, error) in [
        ("130\t10\t20\t76.2\n130\t10\tsharp\t76.2", "Not pasted. Row 2, angle: “sharp”"),
        ("1\t2\t3\t4\t5", "Not pasted. Row 1: it has 5 columns"),
        ("130\t10\t400\t76.2", "359°"),
    ] {
        let (asked, mut harness) = paste(text, Some(0));
        assert_eq!(asked, [], "{text:?}");
        assert!(harness.query_by_label_contains(error).is_some(), "{text:?}");
        harness.get_by_label("put the paste error away").click();
        harness.run_steps(3);
        assert!(harness.query_by_label_contains("Not pasted").is_none());
    }
}

#[test]
fn several_cells_pasted_into_a_cell_fill_the_table_from_there() {
    let mut harness = table();
    harness.get_by_label("bend 2 angle").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    harness.event(egui::Event::Paste("35\t101.6\n45\t101.6\n".into()));
    harness.run_steps(2);
    let rows = vec![bend(150.0, 45.0, 35.0, 101.6), bend(125.0, -90.0, 45.0, 101.6)];
    assert_eq!(
        harness.state_mut().take_asked(),
        [Command::Edit(Edit::ReplaceRows(elbowroom_bending::NodeId::new(2), rows))]
    );
}

#[test]
fn one_number_pasted_into_a_cell_is_typed_there() {
    let mut harness = table();
    harness.get_by_label("bend 2 angle").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    harness.event(egui::Event::Paste("35\n".into()));
    harness.run_steps(2);
    let edit = Edit::SetAngle(elbowroom_bending::NodeId::new(2), Angle::from_degrees(35.0));
    assert_eq!(harness.state_mut().take_asked(), [Command::Preview(edit)]);
}

#[test]
fn copied_rows_come_back_as_they_were() {
    let mut desk = Desk::new(workbench(&ROWS, 250.0));
    desk.workbench.perform(Command::SelectAll);
    let mut harness = window(desk, 1280.0, 800.0);
    harness.event(egui::Event::Copy);
    harness.step();
    let copied = harness.output().platform_output.commands.iter().find_map(|command| match command {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    let text = copied.unwrap();
    assert_eq!(text, "200\t0\t90\t76.2\n150\t45\t30\t76.2\n125\t-90\t180\t76.2\n");
    let (asked, _) = paste(&text, Some(0));
    let rows = vec![bend(200.0, 0.0, 90.0, 76.2), bend(150.0, 45.0, 30.0, 76.2), bend(125.0, -90.0, 180.0, 76.2)];
    assert_eq!(asked, [Command::Edit(Edit::ReplaceRows(elbowroom_bending::NodeId::new(1), rows))]);
}

#[test]
fn bends_are_added_and_removed_by_buttons() {
    let mut desk = Desk::new(workbench(&ROWS, 250.0));
    desk.workbench.perform(Command::Select(desk.workbench.named(Target::Bend(1)), SelectMode::Only));
    let mut harness = window(desk, 1280.0, 800.0);
    harness.get_by_label("Add bend").click();
    harness.run_steps(4);
    let rows = |harness: &egui_kittest::Harness<'_, Desk>| harness.state().workbench.solved().form.path.rows().len();
    assert_eq!(rows(&harness), 4);
    assert!(harness.get_by_label("bend 3 straight").is_focused(), "the new bend is typed over at once");
    let added = harness.state().workbench.solved().form.path.rows()[2];
    assert_eq!(added, bend(125.0, 0.0, 45.0, 76.2), "as long as the longest clamp, at its neighbour's radius");
    harness.get_by_label("Remove").click();
    harness.run_steps(4);
    assert_eq!(rows(&harness), 3);
}

#[test]
fn only_the_rows_that_show_are_drawn_and_the_keyboard_reaches_all() {
    let many: Vec<(f64, f64, f64)> = (0..250).map(|_| (150.0, 5.0, 10.0)).collect();
    let mut harness = window(Desk::new(workbench(&many, 250.0)), 1280.0, 800.0);
    assert!(harness.query_by_label("bend 200").is_none());
    let last = harness.state().workbench.named(Target::Bend(199));
    harness.state_mut().workbench.perform(Command::Select(last, SelectMode::Only));
    harness.run_steps(4);
    assert!(harness.query_by_label("bend 200").is_some(), "a row that is selected elsewhere comes into view");
    harness.get_by_label("bend 200 angle").focus();
    harness.run_steps(2);
    for _ in 0..20 {
        harness.key_press(Key::ArrowDown);
        harness.run_steps(3);
    }
    assert!(harness.get_by_label("bend 220 angle").is_focused());
}

#[test]
fn clicking_into_the_scene_takes_the_text() {
    let mut harness = table();
    let scene = harness.state().shown.as_ref().unwrap().scene;
    type_into(&mut harness, "bend 3 angle", "170");
    let pos = scene.center();
    let modifiers = egui::Modifiers::NONE;
    harness.hover_at(pos);
    for pressed in [true, false] {
        harness.event(egui::Event::PointerButton { pos, button: egui::PointerButton::Primary, pressed, modifiers });
    }
    harness.run_steps(3);
    let asked = harness.state_mut().take_asked();
    assert!(
        asked.contains(&Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(3), Angle::from_degrees(170.0)))),
        "{asked:?}"
    );
    assert!(!harness.state().shown.as_ref().unwrap().text_focused);
}

#[test]
fn a_text_that_would_take_the_bend_away_is_not_previewed_but_can_be_meant() {
    let mut desk = Desk::new(workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0));
    desk.workbench.perform(Command::ChangeForm);
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.state_mut().asked.clear();
    type_into(&mut harness, "bend 2 angle", "0");
    let asked = harness.state_mut().take_asked();
    assert!(!asked.iter().any(|command| matches!(command, Command::Preview(_))), "{asked:?}");
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(
        asked.contains(&Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(2), Angle::ZERO))),
        "{asked:?}"
    );
}

/// The spacing of a U's legs is typed beneath its row, in any unit; the radius follows. 2 × 76.2 mm on half a turn.
#[test]
fn the_spacing_of_a_us_legs_is_typed_where_its_row_is() {
    let mut harness = table();
    let label = "leg spacing of row 3";
    assert_eq!(harness.get_by_label(label).value().as_deref(), Some("152.4 mm"));
    let type_over = |harness: &mut egui_kittest::Harness<'_, Desk>, text: &str| {
        harness.get_by_label(label).focus();
        harness.run_steps(2);
        harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
        harness.run_steps(1);
        harness.event(egui::Event::Text(text.to_owned()));
        harness.run_steps(2);
    };
    type_over(&mut harness, "8 in");
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let id = elbowroom_bending::NodeId::new(3);
    assert!(harness.state_mut().take_asked().contains(&Command::Edit(Edit::SetClr(id, mm(101.6)))));
    // The middles of legs of 50.8 mm tube lie no nearer than that.
    type_over(&mut harness, "50");
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    assert!(harness.state_mut().take_asked().iter().all(|command| !matches!(command, Command::Edit(_))));
    assert!(harness.query_by_label_contains("lie at least the outside diameter apart").is_some());
}

#[test]
fn a_bend_that_is_no_u_has_no_spacing_to_type() {
    let mut bench = workbench(&ROWS, 250.0);
    bench.perform(Command::Select(Target::Bend(elbowroom_bending::NodeId::new(1)), SelectMode::Only));
    let legs = Model::of(&bench).legs.unwrap();
    let refused = format!("{:?}", legs.edit("180").unwrap_err());
    assert!(refused.contains("Bend 1 turns 90.0°") && refused.contains("only a bend from 150° to 210°"), "{refused}");
    // A part without a U is not asked at all.
    assert_eq!(Model::of(&workbench(&ROWS[..2], 250.0)).legs, None);
}
