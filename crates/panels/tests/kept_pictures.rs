//! One small picture a panel, held against the one that is kept.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use crate::support::{golden, raster, workbench};
use egui_kittest::Harness;
use elbowroom_bending::{Edit, End, Facts, Place, Severity, Told, ToldCure, Unit, specimen};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_panels::{
    colour, findings, first_off, forming, install, message, program, question, rows, springback, tooling, verdict,
};
use elbowroom_workbench::measured_table::{Kind, read_measured};
use elbowroom_workbench::{Command, MessageKind, SelectMode, Table, Target, Theme, Workbench, palette};

/// Draws a panel alone in both themes and holds the pictures against those that are kept.
fn check(name: &str, width: f32, height: f32, draw: impl Fn(&mut egui::Ui)) {
    check_in(&[Theme::Light, Theme::Dark], name, width, height, draw);
}

/// Draws a panel alone in some themes and holds the pictures against those that are kept.
fn check_in(themes: &[Theme], name: &str, width: f32, height: f32, draw: impl Fn(&mut egui::Ui)) {
    for &theme in themes {
        let suffix = if theme == Theme::Light { "light" } else { "dark" };
        let frame = |ui: &mut egui::Ui| {
            install(ui.ctx(), theme, 1.0);
            if support::ready(ui) {
                draw(ui);
            }
        };
        let mut harness = Harness::builder().with_size([width, height]).build_ui(frame);
        harness.run_steps(4);
        let background = colour(palette(theme).panel);
        let picture = raster::draw(&harness.ctx, harness.output(), egui::vec2(width, height), background);
        golden::check(&format!("{name}-{suffix}"), &picture);
    }
}

#[test]
fn verdicts() {
    check("verdict", 380.0, 330.0, |ui| {
        for (severity, text) in [
            (None, "Bends as drawn."),
            (Some(Severity::Note), "Bends, with 40.0 mm to cut off the start."),
            (Some(Severity::Caution), "Bends, but the clamp of bend 4 will mark bend 3."),
            (Some(Severity::Stop), "Cannot be bent as drawn: 38.0 mm more straight is needed before bend 4."),
        ] {
            verdict::ui(ui, &verdict::Model { severity, text: text.into(), leads_somewhere: false });
        }
    });
}

#[test]
fn table() {
    check("rows", 380.0, 230.0, |ui| {
        let mut bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0), (125.0, -90.0, 180.0)], 250.0);
        bench.perform(Command::Select(bench.named(Target::Bend(1)), SelectMode::Only));
        rows::ui(ui, &rows::Model::of(&bench), &mut rows::State::default());
    });
}

#[test]
fn points() {
    check("points", 380.0, 230.0, |ui| {
        let mut bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0), (125.0, -90.0, 180.0)], 250.0);
        bench.perform(Command::ShowTable(Table::Points));
        bench.perform(Command::Select(bench.named(Target::Bend(1)), SelectMode::Only));
        rows::ui(ui, &rows::Model::of(&bench), &mut rows::State::default());
    });
}

#[test]
fn finding() {
    let finding = Told {
        title: "Clamp over an arc",
        facts: Facts {
            fault: "clamp-across-arc",
            severity: Severity::Caution,
            place: Place { from_mm: 100.0, to_mm: 138.0, bend: Some(2), straight: None },
            also: Vec::new(),
            measured: 1.5,
            limit: 0.3,
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: None,
        },
        text: "Bend 3: clamp reaches 15.0 mm over bend 2; bite 1.5 mm, and more than 0.3 mm leaves a mark.".into(),
        verdict: String::new(),
        cures: vec![ToldCure {
            label: "Lengthen the straight to 118.3 mm".into(),
            edit: Edit::SetStraight(elbowroom_bending::NodeId::new(3), Length::from_mm(118.3)),
            risk: "".into(),
            outcome: "Cures this; nothing else is found.".into(),
        }],
        cured_with: None,
    };
    let rows = vec![specimen::row(200.0, 30.0, 45.0); 4];
    let nodes = specimen::part(rows, 200.0).unwrap().numbering();
    let model = findings::Model::of_items(vec![findings::Item::new(0, finding, &nodes, LengthUnit::Millimetre)]);
    check("findings", 380.0, 220.0, |ui| {
        findings::ui(ui, &model, &mut findings::State::default());
    });
}

#[test]
fn forming_sheet() {
    check("forming", 400.0, 760.0, |ui| {
        let bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0);
        forming::ui(ui, &forming::Model::of(&bench));
    });
}

/// The sheet of the first-off at the width that it has in the window. Its states differ in words, not in
/// colours, so only one is kept in the dark theme too.
fn first_off_sheet(name: &str, height: f32, measured: &str, prepare: impl Fn(&mut Workbench)) {
    let themes: &[Theme] = if name == "first-off-out" { &[Theme::Light, Theme::Dark] } else { &[Theme::Light] };
    check_in(themes, name, 330.0, height, |ui| {
        let mut bench = workbench(&[(200.0, 0.0, 90.0), (160.0, 90.0, 45.0), (150.0, -90.0, 180.0)], 220.0);
        if !measured.is_empty() {
            let rows = read_measured(measured, Kind::Rows, LengthUnit::Millimetre).unwrap();
            bench.perform(Command::SetMeasurement(rows));
        }
        prepare(&mut bench);
        first_off::show(ui, &bench, &mut first_off::State::default());
    });
}

#[test]
fn first_off_with_nothing_measured() {
    first_off_sheet("first-off-nothing", 560.0, "", |_| ());
}

#[test]
fn first_off_within() {
    first_off_sheet("first-off-within", 1160.0, "199.6 0 90.4\n159.2 90.6 44.8\n149.5 -89.7 180.5\n220.5", |_| ());
}

/// Out by more than theory's slope carries, bent from the finish, and a second piece bent by the correction.
#[test]
fn first_off_out_with_a_correction() {
    let measured = "199 0 93.4\n161 91.8 44.6\n149 -90 181.2\n222";
    first_off_sheet("first-off-out", 1340.0, measured, |_| ());
    first_off_sheet("first-off-second", 1300.0, "", |bench| {
        bench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
        for measured in [measured, "199.4 0 90.3\n159.7 90.2 45.1\n149.9 -90.1 180.2\n220.3"] {
            bench.perform(Command::AddPiece(read_measured(measured, Kind::Rows, LengthUnit::Millimetre).unwrap()));
        }
    });
}

#[test]
fn first_off_doubted() {
    first_off_sheet("first-off-doubted", 720.0, "199 0 90\n160 90 45\n220", |_| ());
}

#[test]
fn program_sheet() {
    check("program", 375.0, 760.0, |ui| {
        let mut bench = workbench(&[(200.0, 0.0, 90.0), (115.0, 45.0, 30.0)], 250.0);
        bench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
        bench.perform(Command::Select(bench.named(Target::Bend(1)), SelectMode::Only));
        program::show(ui, &bench, &mut program::State::default());
    });
}

#[test]
fn tooling_sheet() {
    check("tooling", 375.0, 860.0, |ui| {
        let mut shop = specimen::shop();
        specimen::change(&mut shop.die_sets, |dies| drop(dies.remove(1)));
        specimen::change_die(&mut shop, 0, |die| {
            die.clamps.remove(0);
        });
        let rows = vec![specimen::row(200.0, 0.0, 90.0), specimen::row(60.0, 45.0, 30.0)];
        let bench = Workbench::new(specimen::part(rows, 100.0).unwrap(), shop);
        tooling::show(ui, &bench, &mut tooling::State::default());
    });
}

#[test]
fn springback_sheet() {
    check("springback", 375.0, 640.0, |ui| {
        let mut shop = specimen::shop();
        // So close together that the slope is a guess.
        let trials = vec![specimen::trial(80.0, 78.2), specimen::trial(95.0, 92.7)];
        let record = specimen::known(&shop.die_sets[0], "304 stainless", |known| known.trials = trials);
        shop.springback.push(record);
        let rows = vec![specimen::row(200.0, 0.0, 90.0), specimen::row(200.0, 45.0, 30.0)];
        let bench = Workbench::new(specimen::part(rows, 250.0).unwrap(), shop);
        springback::ui(ui, &springback::Model::of(&bench), &mut springback::State::default());
    });
}

#[test]
fn messages() {
    let model = message::Model { kind: MessageKind::Refused, text: "There is no bend 8; the part has 2 bends.".into() };
    check("message", 480.0, 120.0, |ui| {
        message::ui(ui, &model);
    });
}

#[test]
fn questions() {
    let answer = |text, command| question::Answer { text, command };
    let model = question::Model {
        title: "Save the changes to “Test pipe”?".into(),
        text: "They are in no file yet, and closing the program would lose them.".into(),
        answers: vec![answer("Save", Command::AnswerSave), answer("Go back", Command::AnswerCancel)],
        on_escape: Some(Command::AnswerCancel),
    };
    check("question", 480.0, 220.0, |ui| {
        question::ui(ui, &model);
    });
}
