//! The sheet of the first-off: pasted, judged, doubted, corrected.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui::Key;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::first_off::ToleranceChoice;
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_bending::{Edit, End, Hand};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, Length, Point3};
use elbowroom_panels::first_off::{Model, Stand};
use elbowroom_workbench::{Command, Theme, Workbench};

const SIZE: [f32; 2] = [420.0, 900.0];

/// The vertices of the part as it should come off the machine.
fn vertices(workbench: &Workbench) -> Vec<Point3<f64>> {
    let plan = plan(workbench.part(), workbench.shop()).unwrap();
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
    paste_and(window, text, "Judge");
}

fn paste_and(window: &mut Window, text: &str, button: &str) {
    window.harness.get_by_label("Measured table").focus();
    window.harness.run_steps(2);
    window.harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    window.harness.event(egui::Event::Paste(text.to_owned()));
    window.harness.run_steps(2);
    window.click(button);
}

#[test]
fn a_pasted_table_is_judged_and_the_next_program_made() {
    let workbench = parts::sound();
    let points = strayed(&workbench);
    let mut window = shown("first-off", workbench, SIZE);
    assert!(window.harness.query_by_label_contains("Bend the first piece").is_some());
    paste(&mut window, &table(&points));
    assert_eq!(window.asked(), [Command::SetMeasurement(Measurement::Points(points))]);
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    assert_eq!(view.within, Some(false));
    assert!(window.harness.query_by_label_contains("Out of tolerance").is_some());
    assert!(window.harness.query_by_label("stop").is_some(), "the verdict carries a mark");
    let (off, next) = (view.off.as_ref().unwrap(), view.next.as_ref().unwrap());
    assert_eq!(off.rows.len(), 5);
    assert!(window.harness.query_by_label_contains("Compared are the 5 points as measured").is_some());
    assert!(
        off.rows.iter().any(|row| row.out.contains(&true)) && next.steps.iter().any(|step| step.rest.contains("was "))
    );
    // Small corrections rest on the measurement, whatever theory says of springback.
    assert!(!next.unsure && next.ground.contains("rests on piece 1 as measured"), "{}", next.ground);
    assert!(window.harness.query_by_label_contains("clockwise seen from the chuck").is_some());
}

#[test]
fn the_unit_of_a_typed_table_is_said_without_riddles() {
    let mut workbench = parts::sound();
    let mut window = shown("first-off", parts::sound(), SIZE);
    assert!(window.harness.query_by_label_contains("Lengths in mm.").is_some());
    assert!(window.harness.query_by_label_contains("x_mm").is_none(), "heads would say mm too");
    workbench.perform(Command::Edit(Edit::ShowUnits(LengthUnit::Inch)));
    window = shown("first-off", workbench, SIZE);
    assert!(window.harness.query_by_label_contains("Lengths in inches; in mm where the first line is x_mm").is_some());
    window.click("Bend rows");
    assert!(window.harness.query_by_label_contains("straight_mm").is_some());
}

#[test]
fn a_perfect_piece_leaves_the_program_alone() {
    let mut workbench = parts::sound();
    let points = vertices(&workbench);
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    let text = Model::of(&workbench).to_string();
    assert!(text.contains("Within tolerance: points up to 0.0 mm off"), "{text}");
    assert!(text.contains("leave the machine alone") && !text.contains("Program for the next piece"), "{text}");
}

#[test]
fn a_doubtful_measurement_is_told_and_not_followed() {
    let workbench = parts::sound();
    let mut points = vertices(&workbench);
    points.swap(1, 2);
    let mut window = shown("first-off", workbench, SIZE);
    paste(&mut window, &table(&points));
    assert!(window.harness.query_by_label_contains("points 2 and 3 seem to have changed places").is_some());
    assert!(window.harness.query_by_label_contains("Program for the next piece").is_none());
    points.pop();
    paste_and(&mut window, &table(&points), "Piece 1 again");
    assert!(window.harness.query_by_label_contains("4 points were measured and the design has 5").is_some());
    window.click("Put piece 1 away");
    assert!(window.workbench().measurement().is_none());
    assert!(window.harness.get_by_label("Measured table").value().unwrap().lines().count() == 4, "the text stays");
}

/// A doubt can be overruled by who has measured again, and taken up again.
#[test]
fn who_has_measured_again_takes_the_piece_as_it_is() {
    let workbench = parts::sound();
    let mut points = vertices(&workbench);
    points[1].y += 60.0;
    let mut window = shown("first-off", workbench, [330.0, 1500.0]);
    paste(&mut window, &table(&points));
    assert!(window.harness.query_by_label_contains("point 2 seems wrong").is_some());
    assert!(window.harness.query_by_label_contains("Program for the next piece").is_none());
    window.click("I measured piece 1 again: take it as it is");
    assert_eq!(window.asked().last(), Some(&Command::TakeAsMeasured(0, true)));
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    assert!(view.pieces[0].stood_by.as_ref().unwrap().contains("measured again and is taken as it is, though point 2"));
    assert!(view.next.as_ref().unwrap().ground.contains("Piece 1 was doubted, measured again, and is taken as it is."));
    window.click("Doubt piece 1 again");
    assert!(window.harness.query_by_label_contains("Program for the next piece").is_none());
    assert!(!window.workbench().pieces()[0].as_measured);
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
    assert_eq!(view.off.as_ref().unwrap().rows[1].cells[4], "+1.0");
    assert!(window.harness.query_by_label_contains("Rows carry no radius").is_some());
}

#[test]
fn the_tolerance_is_changed_and_given_back() {
    let mut workbench = parts::sound();
    let points = strayed(&workbench);
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    let mut window = shown("first-off", workbench, [420.0, 1600.0]);
    for (label, text) in [("Length tolerance", "1 cm"), ("Angle tolerance", "5")] {
        window.enter(label, text);
    }
    assert!(Model::of(window.workbench()).to_string().starts_with("tolerance: 5.0°, 10.0 mm, own"));
    assert!(window.harness.query_by_label_contains("Within tolerance").is_some());
    let own = ToleranceChoice::new(Some(Angle::from_degrees(5.0)), Some(Length::from_mm(10.0))).unwrap();
    assert_eq!(window.asked().last(), Some(&Command::Edit(Edit::SetTolerance(own))));
    window.enter("Angle tolerance", "-1");
    assert!(
        window.harness.query_by_label_contains("The tolerance of angles is -1°; it must be more than 0°").is_some()
    );
    window.click("Back to the usual tolerance");
    assert!(Model::of(window.workbench()).to_string().starts_with("tolerance: 1.5°, 2.0 mm, usual"));
}

#[test]
fn end_and_side_are_chosen_here_too_and_steps_name_the_bends_as_drawn() {
    let workbench = parts::sound();
    let points = strayed(&workbench);
    let mut window = shown("first-off", workbench, [420.0, 1700.0]);
    window.click("Finish");
    window.click("Left");
    assert_eq!(
        window.asked(),
        [Command::Edit(Edit::BendFrom(End::Finish)), Command::Edit(Edit::BendToHand(Some(Hand::Left)))]
    );
    paste(&mut window, &table(&points));
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    let next = view.next.as_ref().unwrap();
    assert_eq!(
        next.steps.iter().map(|step| (step.number, step.bend)).collect::<Vec<_>>(),
        [(1, Some(2)), (2, Some(1)), (3, Some(0))]
    );
    assert!(next.reading.starts_with("Bent from the finish on a machine that bends left."), "{}", next.reading);
    // What is off is in the order of the drawing all the same.
    let off: Vec<_> = view.off.as_ref().unwrap().rows.iter().map(|row| row.cells[0].clone()).collect();
    assert_eq!(off, ["start", "bend 1", "bend 2", "bend 3", "finish"]);
    window.click("Start");
    assert!(window.harness.query_by_label_contains("it was bent from the finish, and the next one is not").is_some());
    assert!(window.harness.query_by_label_contains("Program for the next piece").is_none());
}

#[test]
fn a_second_piece_is_added_and_the_program_taken_along() {
    let workbench = parts::sound();
    let (right, points) = (vertices(&workbench), strayed(&workbench));
    let mut window = shown("first-off", workbench, [330.0, 1500.0]);
    paste(&mut window, &table(&points));
    paste_and(&mut window, &table(&right), "Add piece 2");
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    let names: Vec<_> = view.pieces.iter().map(|piece| piece.name.as_str()).collect();
    assert_eq!(names, ["Piece 1, bent by the plan", "Piece 2, bent by the correction after piece 1"]);
    assert_eq!(view.within, Some(true));
    let next = view.next.as_ref().unwrap();
    assert!(
        next.ground.contains("rests on piece 1 as measured")
            && next.steps.iter().all(|step| step.rest.contains("as before"))
    );
    let copied = |window: &Window| {
        window.harness.output().platform_output.commands.iter().find_map(|command| match command {
            egui::OutputCommand::CopyText(text) => Some(text.clone()),
            _ => None,
        })
    };
    window.harness.get_by_label("Copy the table").click();
    let mut taken = None;
    for _ in 0..4 {
        window.harness.step();
        taken = taken.or_else(|| copied(&window));
    }
    let taken = taken.unwrap();
    assert!(taken.starts_with("step,bend,feed_mm") && taken.lines().count() == 4, "{taken}");
    assert_eq!(taken, next.table);
    let Some(Command::TellCopied(said)) = window.asked().pop() else { panic!("nothing is said") };
    assert!(said.contains("mm and degrees"), "{said}");
    window.harness.get_by_label("Copy the program").click();
    let mut taken = None;
    for _ in 0..4 {
        window.harness.step();
        taken = taken.or_else(|| copied(&window));
    }
    let taken = taken.unwrap();
    for words in [
        "Program for the next piece of Test part",
        "clockwise seen from the chuck",
        "1. feed ",
        "Cut the blank",
        "swing",
    ] {
        assert!(taken.contains(words), "{words} is missing in {taken}");
    }
    // A click on a step selects its bend.
    window.asked();
    window.harness.get_by_label_contains("Step 2: ").click();
    window.harness.run_steps(3);
    assert_eq!(
        window.asked(),
        [Command::Select(
            window.workbench().named(elbowroom_workbench::Target::Bend(1)),
            elbowroom_workbench::SelectMode::Only
        )]
    );
}

/// Put aside, a correction is still shown, the next piece is bent as planned, and one that is measured then counts as such.
#[test]
fn a_correction_that_is_put_aside_is_not_what_the_next_piece_is_bent_by() {
    let workbench = parts::sound();
    let (right, points) = (vertices(&workbench), strayed(&workbench));
    let mut window = shown("first-off", workbench, [330.0, 1500.0]);
    paste(&mut window, &table(&points));
    assert!(window.harness.query_by_label_contains("bent by the program for the next piece").is_some());
    window.click("Corrected after piece 1");
    assert_eq!(window.asked().last(), Some(&Command::Edit(Edit::CorrectBy(false))));
    assert!(window.harness.query_by_label_contains("It is put aside: the next piece is bent as planned.").is_some());
    assert!(window.harness.query_by_label_contains("Piece 2 is taken as bent by the sheet Program").is_some());
    paste_and(&mut window, &table(&right), "Add piece 2");
    let pieces = window.workbench().pieces().to_vec();
    assert_eq!((pieces[1].corrected_after, &pieces[1].steps), (0, &pieces[0].steps));
}

#[test]
fn a_large_correction_by_theory_looks_unsure() {
    let mut window = shown("first-off", parts::sound(), [330.0, 1500.0]);
    window.click("Bend rows");
    paste(&mut window, "199 0 94\n158 90 45\n139 -90 30\n220");
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    let next = view.next.as_ref().unwrap();
    assert_eq!(next.steps.iter().map(|step| step.set.starts_with('~')).collect::<Vec<_>>(), [true, false, false]);
    // What lies behind it along the blank is as unsure.
    assert!(next.steps[1].rest.contains("mark ~") && !next.steps[0].rest.contains('~'), "{next}");
    assert!(next.ground.contains("the slope of springback"), "{}", next.ground);
    assert!(window.harness.query_by_label_contains("~ rests on theory").is_some());
}

#[test]
fn a_half_turn_is_measured_by_two_points() {
    let workbench = Workbench::new(parts::part(&[(200.0, 0.0, 60.0), (160.0, 90.0, 180.0)], 220.0), parts::shop());
    let mut window = shown("first-off", workbench, [330.0, 1500.0]);
    assert!(window.harness.query_by_label_contains("x y z of 5 points").is_some());
    assert!(window.harness.query_by_label_contains("bend 2 turns so far that it gives two").is_some());
    window.click("Bend rows");
    paste(&mut window, "199 0 60\n160 90 181.8\n220");
    let model = Model::of(window.workbench());
    let Stand::Judged(view) = &model.stand else { panic!("{model}") };
    let off = view.off.as_ref().unwrap();
    let names: Vec<_> = off.rows.iter().map(|row| row.cells[0].as_str()).collect();
    assert_eq!(names, ["start", "bend 1", "bend 2 begins", "bend 2 ends", "finish"]);
    assert_eq!(off.rows[2].cells[4], "+1.8");
}

#[test]
fn pictures() {
    for (theme, scale, suffix) in [(Theme::Light, 1.0, "light"), (Theme::Dark, 2.0, "dark-2x")] {
        let mut workbench = parts::sound();
        let points = strayed(&workbench);
        workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
        let window = Window::new("first-off", workbench, SIZE.into(), theme, scale);
        window.keep_picture(&format!("first-off-{suffix}"));
        assert!(window.colours() > 20);
    }
}

#[test]
fn the_measurement_is_asked_for_first_then_judged_then_corrected() {
    let workbench = parts::sound();
    let points = strayed(&workbench);
    let mut window = shown("first-off", workbench, [420.0, 1700.0]);
    paste(&mut window, &table(&points));
    let places =
        ["Measured table", "Measured less drawn", "Program for the next piece"].map(|what| window.place(what).top());
    assert!(places.is_sorted(), "{places:?}");
}
