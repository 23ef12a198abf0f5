//! The sheet of the first-off: pasted, judged, doubted, corrected.
#![allow(clippy::unwrap_used, clippy::panic)]

mod one_panel;

use egui::Key;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_bending::{End, Hand};
use elbowroom_geometry::Point3;
use elbowroom_panels::first_off::{Model, Stand};
use elbowroom_workbench::{Command, Theme, Workbench};
use one_panel::{Window, parts, shown};

const SIZE: [f32; 2] = [420.0, 900.0];

/// The vertices of the part as it should come off the machine.
fn vertices(workbench: &Workbench) -> Vec<Point3<f64>> {
    let plan = plan(workbench.part(), workbench.shop(), End::Lead, Hand::Right).unwrap();
    plan.program.as_bent.to_vertex_form().unwrap().points().to_vec()
}

fn table(points: &[Point3<f64>]) -> String {
    points.iter().map(|p| format!("{}\t{}\t{}\n", p.x, p.y, p.z)).collect()
}

/// The last vertex strays by 4 mm, the third by 2.
fn strayed(workbench: &Workbench) -> Vec<Point3<f64>> {
    let mut points = vertices(workbench);
    points[2].y += 2.0;
    let last = points.len() - 1;
    points[last].z += 4.0;
    points
}

fn paste(window: &mut Window, text: &str) {
    window.harness.get_by_label("Measured table").focus();
    window.harness.run_steps(2);
    window.harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    window.harness.event(egui::Event::Paste(text.to_owned()));
    window.harness.run_steps(2);
    window.click("Judge");
}

#[test]
fn a_pasted_table_is_judged_and_the_next_program_made() {
    let workbench = parts::sound();
    let points = strayed(&workbench);
    let mut window = shown("first-off", workbench, SIZE);
    assert!(window.harness.query_by_label_contains("Bend the first piece").is_some());
    paste(&mut window, &table(&points));
    assert_eq!(window.asked(), [Command::SetMeasurement(Measurement::Vertices(points))]);
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    assert!(!view.within);
    assert!(window.harness.query_by_label_contains("Out of tolerance").is_some());
    assert!(window.harness.query_by_label("stop").is_some(), "the verdict carries a mark");
    assert_eq!(view.off.rows.len(), 5);
    assert!(view.off.rows.iter().any(|row| row.marked) && view.next.rows.iter().any(|row| row.marked));
    // The theory's springback is still under it.
    assert!(view.unsure && window.harness.query_by_label_contains("rest on theory").is_some());
    assert!(window.harness.query_by_label_contains("clockwise seen from the chuck").is_some());
}

#[test]
fn a_perfect_piece_leaves_the_program_alone() {
    let mut workbench = parts::sound();
    let points = vertices(&workbench);
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(points)));
    let text = Model::of(&workbench).to_string();
    assert!(text.contains("Within tolerance: vertices up to 0.0 mm off"), "{text}");
    assert!(!text.contains("was"), "{text}");
}

#[test]
fn a_doubtful_measurement_is_told_and_not_followed() {
    let workbench = parts::sound();
    let mut points = vertices(&workbench);
    points.swap(1, 2);
    let mut window = shown("first-off", workbench, SIZE);
    paste(&mut window, &table(&points));
    assert!(window.harness.query_by_label_contains("vertices 2 and 3 seem to have changed places").is_some());
    assert!(window.harness.query_by_label_contains("Program for the next piece").is_none());
    points.pop();
    paste(&mut window, &table(&points));
    assert!(window.harness.query_by_label_contains("4 vertices were measured and the design has 5").is_some());
    window.click("Put away");
    assert!(window.workbench().measurement().is_none());
    assert!(window.harness.get_by_label("Measured table").value().unwrap().lines().count() == 4, "the text stays");
}

#[test]
fn what_cannot_be_read_says_on_which_line() {
    let mut window = shown("first-off", parts::sound(), SIZE);
    paste(&mut window, "0 0 0\n100 0 nought");
    assert_eq!(window.asked(), []);
    assert!(window.harness.query_by_label_contains("Not read. Line 2: z is").is_some());
}

#[test]
fn bend_rows_are_taken_too() {
    let mut window = shown("first-off", parts::sound(), SIZE);
    window.click("Bend rows");
    paste(&mut window, "199 0 91\n158 90 45\n139 -90 30\n220");
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    assert_eq!(view.off.rows[1].cells[4], "+1.0");
}

#[test]
fn the_tolerance_is_changed_and_given_back() {
    let mut workbench = parts::sound();
    let points = strayed(&workbench);
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(points)));
    let mut window = shown("first-off", workbench, [420.0, 1100.0]);
    for (label, text) in [("Length tolerance", "1 cm"), ("Angle tolerance", "5")] {
        window.harness.get_by_label(label).focus();
        window.harness.run_steps(2);
        window.harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
        window.harness.event(egui::Event::Text(text.to_owned()));
        window.harness.run_steps(2);
        window.harness.key_press(Key::Enter);
        window.harness.run_steps(3);
    }
    assert!(Model::of(window.workbench()).to_string().starts_with("tolerance: 5.0°, 10.0 mm, own"));
    assert!(window.harness.query_by_label_contains("Within tolerance").is_some());
    window.click("Back to the usual tolerance");
    assert!(Model::of(window.workbench()).to_string().starts_with("tolerance: 1.5°, 2.0 mm, usual"));
}

#[test]
fn pictures() {
    for (theme, scale, suffix) in [(Theme::Light, 1.0, "light"), (Theme::Dark, 2.0, "dark-2x")] {
        let mut workbench = parts::sound();
        let points = strayed(&workbench);
        workbench.perform(Command::SetMeasurement(Measurement::Vertices(points)));
        let window = Window::new("first-off", workbench, SIZE.into(), theme, scale);
        window.keep_picture(&format!("first-off-{suffix}"));
        assert!(window.colours() > 20);
    }
}
