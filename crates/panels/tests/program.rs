//! The bend program on screen: what it says, which end and hand, copying, and long parts.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui::OutputCommand;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_bending::{Edit, End, Hand};
use elbowroom_panels::program::Model;
use elbowroom_workbench::{Command, SelectMode, Target, Theme, Workbench};

const SIZE: [f32; 2] = [400.0, 1700.0];

/// What the last frame put on the clipboard.
fn copied(window: &Window) -> Option<String> {
    window.harness.output().platform_output.commands.iter().find_map(|command| match command {
        OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    })
}

/// Clicks a button and gives what came on the clipboard within the next frames.
fn copy(window: &mut Window, label: &str) -> String {
    window.harness.get_by_label(label).click();
    for _ in 0..4 {
        window.harness.step();
        if let Some(text) = copied(window) {
            return text;
        }
    }
    panic!("nothing was copied");
}

#[test]
fn the_program_says_what_to_set_and_where_it_comes_from() {
    let text = Model::of(&parts::sound()).to_string();
    for words in [
        "Bend program, from the start, machine bends right",
        "clockwise seen from the chuck looking to the die",
        "Blank length: ~",
        "1. feed ~",
        "rotation +90.0°",
        "rotation -90.0°",
        "bend 3 as drawn",
        "Mandrel nose: 47.49 mm",
        "Weld seam",
        "power presses",
        "~ rests on theory",
    ] {
        assert!(text.contains(words), "{words}:\n{text}");
    }
}

#[test]
fn everything_on_the_sheet_is_on_screen_and_in_what_is_copied() {
    for part in [parts::sound, parts::short_straights] {
        let mut window = shown("program", part(), [400.0, 3000.0]);
        window.click("Finish");
        let copied = copy(&mut window, "Copy the sheet");
        let said = Model::of(window.workbench()).sheet.unwrap().unwrap().said;
        let mut words = vec![said.verdict.text.clone(), said.explained.clone()];
        for line in said.head.iter().chain(&said.blank).chain(&said.springback) {
            words.extend([line.name.clone(), line.value.clone(), line.source.clone()]);
        }
        words.extend(said.findings.iter().map(|finding| finding.text.clone()));
        words
            .extend(said.setup.iter().flat_map(|item| [item.what.to_owned(), item.value.clone(), item.source.clone()]));
        words.extend(said.cautions.iter().flat_map(|caution| [caution.text.clone(), caution.source.to_owned()]));
        words.extend(said.advice.map(str::to_owned));
        assert!(words.len() > 60, "{words:?}");
        for words in words {
            assert!(copied.contains(&words), "{words} is not copied:\n{copied}");
            let on_screen = window.harness.query_all_by_label_contains(&words).count();
            assert!(on_screen > 0, "{words} is not shown");
        }
    }
}

#[test]
fn end_and_hand_are_chosen_by_a_click() {
    let mut window = shown("program", parts::sound(), SIZE);
    window.click("Finish");
    assert_eq!(window.asked(), [Command::Edit(Edit::BendFrom(End::Finish))]);
    let first = Model::of(window.workbench()).sheet.unwrap().unwrap().said.steps[0].clone();
    assert_eq!((first.number, first.bend), (1, Some(2)), "the last bend is made first");
    window.click("Left");
    assert_eq!(window.asked(), [Command::Edit(Edit::BendToHand(Some(Hand::Left)))]);
    window.click("Right");
    // That is what the shop's machine does, so nothing is chosen any more.
    assert_eq!(window.asked(), [Command::Edit(Edit::BendToHand(None))]);
}

#[test]
fn a_click_on_a_step_selects_its_bend() {
    let mut window = shown("program", parts::sound(), SIZE);
    let step = window.harness.query_all_by_label_contains("Step 2: feed").next().unwrap();
    step.click();
    window.harness.run_steps(3);
    assert_eq!(window.asked(), [Command::Select(window.workbench().named(Target::Bend(1)), SelectMode::Only)]);
}

#[test]
fn the_sheet_and_the_table_can_be_copied() {
    let mut window = shown("program", parts::sound(), SIZE);
    let sheet = copy(&mut window, "Copy the sheet");
    assert_eq!(sheet, Model::of(&parts::sound()).to_string());
    let table = copy(&mut window, "Copy the table");
    assert!(table.starts_with("step,bend,feed_mm,rotation_deg,set_angle_deg,"), "{table}");
    assert_eq!(table.lines().count(), 4);
}

#[test]
fn the_figures_follow_an_edit() {
    let mut window = shown("program", parts::sound(), SIZE);
    let straight = elbowroom_geometry::Length::from_mm(260.0);
    let before = copy(&mut window, "Copy the table");
    let edit = Edit::SetStraight(elbowroom_bending::NodeId::new(1), straight);
    window.harness.state_mut().workbench.perform(Command::Edit(edit));
    window.harness.run_steps(2);
    assert_ne!(copy(&mut window, "Copy the table"), before);
}

#[test]
fn what_cannot_be_tooled_is_told() {
    let mut part = parts::part(&[(200.0, 0.0, 90.0)], 200.0);
    part.tube = parts::tube(60.3, 2.0, elbowroom_bending::Seam::Seamless);
    let text = Model::of(&Workbench::new(part, parts::shop())).to_string();
    assert!(text.contains("There is no program: bend 1 has no die set"), "{text}");
    let text = Model::of(&parts::short_straights()).to_string();
    assert!(text.contains("Stop: "), "{text}");
}

#[test]
fn a_very_long_part_waits_to_be_asked() {
    let rows: Vec<_> = (0..1200).map(|_| (130.0, 60.0, 20.0)).collect();
    let mut window = shown("program", Workbench::new(parts::part(&rows, 200.0), parts::shop()), [400.0, 700.0]);
    assert!(window.harness.query_by_label("Copy the sheet").is_none());
    window.click("Work it out");
    assert!(copy(&mut window, "Copy the table").lines().count() == 1201);
}

#[test]
fn pictures() {
    for (name, make) in [("sound", parts::sound as fn() -> Workbench), ("stop", parts::short_straights)] {
        for (theme, suffix) in [(Theme::Light, "light"), (Theme::Dark, "dark")] {
            let window = Window::new("program", make(), SIZE.into(), theme, 1.0);
            window.keep_picture(&format!("program-{name}-{suffix}"));
            assert!(window.colours() > 20);
        }
    }
}

/// The sheet follows what was measured and says so; the choice puts it aside and takes it up again.
#[test]
fn measured_pieces_correct_the_sheet_until_they_are_put_aside() {
    let mut workbench = parts::sound();
    let planned = Model::of(&workbench).sheet.unwrap().unwrap();
    let path = plan(workbench.part(), workbench.shop()).unwrap().program.as_bent;
    let mut points = path.to_vertex_form().unwrap().points().to_vec();
    points[2].y += 4.0;
    let last = points.len() - 1;
    points[last].z += 6.0;
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    let corrected = Model::of(&workbench).sheet.unwrap().unwrap();
    let judged = workbench.judged().unwrap();
    let job = &judged.as_ref().as_ref().unwrap().job;
    for ((step, next), was) in corrected.said.steps.iter().zip(&job.next.steps).zip(&planned.said.steps) {
        assert_eq!(step.set.trim_start_matches('~'), format!("{:.1}", next.set_angle.degrees()));
        assert_ne!(step.set, was.set);
    }
    let after = |table: &str| table.lines().nth(1).unwrap().split(',').nth(15).unwrap().to_owned();
    assert!(after(&corrected.table) == "1" && after(&planned.table) == "0");
    let mut window = shown("program", workbench, [400.0, 3000.0]);
    assert!(window.harness.query_by_label_contains("corrected after piece 1").is_some());
    assert!(copy(&mut window, "Copy the sheet").contains("Corrected: corrected after piece 1"));
    let said = Command::TellCopied("The sheet is on the clipboard as text, lengths in millimetres.".into());
    assert_eq!(window.asked(), [said]);
    window.click("Corrected after piece 1");
    assert_eq!(window.asked(), [Command::Edit(Edit::CorrectBy(false))]);
    let aside = Model::of(window.workbench()).sheet.unwrap().unwrap();
    assert_eq!(aside.said.steps, planned.said.steps);
    assert!(window.harness.query_by_label_contains("put aside, and these are the figures as planned").is_some());
    window.click("Corrected after piece 1");
    assert_eq!(Model::of(window.workbench()).sheet.unwrap().unwrap().said, corrected.said);
}
