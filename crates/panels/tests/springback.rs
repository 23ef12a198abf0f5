//! The sheet of springback: theory looks unsure, trial bends are typed in, and doubts are told in words.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::forming::springback::{SpringbackBasis, SpringbackLine, TrialBend, TrialFigures};
use elbowroom_bending::measurement::{MeasuredRow, Measurement};
use elbowroom_bending::{Guard, Knowledge, KnowledgeEdit, ShopEdit};
use elbowroom_geometry::{Angle, Length};
use elbowroom_panels::springback::Model;
use elbowroom_workbench::{Command, SelectMode, Target, Theme, Workbench};

const SIZE: [f32; 2] = [420.0, 900.0];

fn trial(set: f64, measured: f64) -> TrialBend {
    let (set, measured) = (Angle::from_degrees(set), Angle::from_degrees(measured));
    let wall = Some(Length::from_mm(1.5));
    TrialFigures { set, measured, measured_radius: None, drawn_length: None, wall }.sound().unwrap()
}

fn edit(what: Knowledge) -> Command {
    Command::EditShop(KnowledgeEdit { die: "51 on 76".into(), material: "304 stainless".into(), what }.into())
}

/// A workbench whose shop has bent these trials.
fn tried(trials: &[TrialBend]) -> Workbench {
    let mut workbench = parts::sound();
    workbench.perform(edit(Knowledge::Trials(trials.to_vec())));
    workbench
}

fn type_into(window: &mut Window, label: &str, text: &str) {
    window.harness.get_by_label(label).focus();
    window.harness.run_steps(2);
    window.harness.event(egui::Event::Text(text.to_owned()));
    window.harness.run_steps(2);
}

#[test]
fn the_sheet_says_what_is_known_and_where_it_comes_from() {
    // Springback 1, 2, 4 at 30, 60, 90: slope 0.05, intercept -2/3, residuals 1/6, -1/3, 1/6, by hand.
    let trials = [trial(30.0, 29.0), trial(60.0, 58.0), trial(90.0, 86.0)];
    let text = Model::of(&tried(&trials)).to_string();
    let expected = "\
51 on 76 in 304 stainless
springback: -0.67° + 0.0500 × set angle, fitted to 3 trial bends
trial 1: set 30.0°, measured 29.0°, wall 1.50 mm, off the line 0.17°
trial 2: set 60.0°, measured 58.0°, wall 1.50 mm, off the line -0.33°
trial 3: set 90.0°, measured 86.0°, wall 1.50 mm, off the line 0.17°
stretch: 0.00 %, nothing measured; the blank comes out long enough
bend 1: drawn 90.0°, set 94.04°, free CLR 79.6 mm
bend 2: drawn 45.0°, set 46.67°, free CLR 79.0 mm
bend 3: drawn 30.0°, set 30.88°, free CLR 78.4 mm
The built-in shop is in use: the first change makes a shop file of your own.
";
    assert_eq!(text, expected);
}

#[test]
fn theory_looks_unsure_until_the_shop_has_bent_trials() {
    let window = shown("springback", parts::sound(), SIZE);
    assert!(Model::of(window.workbench()).to_string().contains("theory, only a start"));
    assert!(window.harness.query_by_label("caution").is_some(), "theory carries a mark");
    let window = shown("springback", tried(&[trial(40.0, 39.0), trial(120.0, 117.0)]), SIZE);
    assert!(!Model::of(window.workbench()).to_string().contains("unsure"));
    assert!(window.harness.query_by_label("caution").is_none(), "the mark goes with the theory");
}

#[test]
fn a_trial_bend_is_typed_in_and_changed_and_removed() {
    let mut window = shown("springback", parts::sound(), SIZE);
    type_into(&mut window, "New set angle", "40");
    type_into(&mut window, "New measured angle", "90 - 51.5");
    type_into(&mut window, "New measured radius", "7.9 cm");
    window.click("Add");
    let first = trial(40.0, 38.5).with(|trial| trial.measured_radius = Some(Length::from_mm(79.0))).unwrap();
    let asked = window.asked();
    let Some(Command::EditShop(ShopEdit::Know(KnowledgeEdit { what: Knowledge::Trials(trials), .. }))) = asked.first()
    else {
        panic!("{asked:?}")
    };
    assert_eq!(trials.len(), 1);
    assert!((trials[0].measured - first.measured).degrees().abs() < 1e-12);
    assert_eq!(trials[0].measured_radius, first.measured_radius);
    assert!(window.harness.query_by_label_contains("One trial bend gives no slope").is_some());

    type_into(&mut window, "New set angle", "120");
    type_into(&mut window, "New measured angle", "116.5");
    window.click("Add");
    assert!(window.harness.query_by_label_contains("One trial bend gives no slope").is_none());
    let record = |window: &Window| window.workbench().shop().springback[0].clone();
    assert_eq!(record(&window).trials.len(), 2);
    window.enter("Measured angle of trial 2", "117");
    assert_eq!(record(&window).trials[1].measured, Angle::from_degrees(117.0));
    window.click("Remove trial 1");
    assert_eq!(record(&window).trials, [trial(120.0, 117.0)]);
}

#[test]
fn nonsense_is_refused_where_it_stands_and_loses_nothing() {
    let mut window = shown("springback", tried(&[trial(90.0, 88.0)]), SIZE);
    window.asked();
    type_into(&mut window, "New set angle", "90");
    window.click("Add");
    assert!(window.harness.query_by_label("Measured angle is missing.").is_some());
    type_into(&mut window, "New measured angle", "9");
    window.click("Add");
    assert!(window.harness.query_by_label_contains("The measured angle of trial 2 is 9°").is_some());
    assert_eq!(window.harness.get_by_label("New set angle").value().as_deref(), Some("90"));
    window.enter("Measured angle of trial 1", "ninety");
    assert_eq!(window.harness.get_by_label("Measured angle of trial 1").value().as_deref(), Some("ninety"));
    assert_eq!(window.asked(), []);
    assert_eq!(window.workbench().shop().springback[0].trials, [trial(90.0, 88.0)]);
}

#[test]
fn doubts_are_told_in_words() {
    let said = |trials: &[TrialBend], words: &str| {
        let text = Model::of(&tried(trials)).to_string();
        assert!(text.contains(words), "\"{words}\" is missing in\n{text}");
    };
    said(&[trial(90.0, 88.0), trial(95.0, 92.9)], "only 5.0° apart");
    said(&[trial(30.0, 29.0), trial(60.0, 62.0)], "Trial 2 says that the tube closed further");
    said(&[trial(30.0, 29.0), trial(60.0, 62.0), trial(90.0, 88.0)], "Trial 2 does not fit: it lies 3.5° off");
    let scattered = [trial(30.0, 28.8), trial(60.0, 57.0), trial(90.0, 87.6)];
    said(&scattered, "off the line, more than 0.75°");
    said(&scattered, "no single one is the reason for sure");
    said(&[trial(40.0, 38.5), trial(120.0, 106.5)], "not one that a bender is known to have");
    said(
        &[trial(90.0, 88.0).with(|trial| trial.measured_radius = Some(Length::from_mm(95.0))).unwrap()],
        "radius measured on trial 1",
    );
    said(&[trial(100.0, 51.0), trial(20.0, 29.0)], "The trial bends cannot be used: the springback fitted is");
    said(&[trial(100.0, 51.0), trial(20.0, 29.0)], "theory, only a start");
}

#[test]
fn what_is_wrong_with_a_trial_is_told_over_the_whole_width() {
    let mut window = shown("springback", tried(&[trial(40.0, 39.0), trial(120.0, 117.0)]), SIZE);
    window.enter("Measured angle of trial 2", "12");
    let told = window.harness.query_all_by_label_contains("near the set angle of 120.0°").next().unwrap().rect();
    let field = window.harness.get_by_label("Measured angle of trial 2").rect();
    let next = window.harness.get_by_label("New set angle").rect();
    assert!(told.left() < field.left() && told.width() > 250.0, "{told:?} {field:?}");
    assert!(told.top() > field.bottom() && told.bottom() < next.top(), "between this row and the next");
}

#[test]
fn a_line_and_a_stretch_of_the_shops_own_are_typed_and_given_up() {
    let mut window = shown("springback", tried(&[trial(40.0, 39.0), trial(120.0, 117.0)]), SIZE);
    window.asked();
    window.enter("Own springback per degree", "0.03");
    window.enter("Own stretch", "2.5 %");
    let record = window.workbench().shop().springback[0].clone();
    assert_eq!((record.line.map(SpringbackLine::b), record.stretch), (Some(0.03), Some(0.025)));
    assert!(Model::of(window.workbench()).to_string().contains("typed in by the shop"));
    window.click("Give up the typed line");
    window.click("Give up the typed stretch");
    let record = window.workbench().shop().springback[0].clone();
    assert_eq!((record.line, record.stretch), (None, None));
    window.enter("Own springback per degree", "0.9");
    assert!(window.harness.query_by_label_contains("half of the bend").is_some());
}

#[test]
fn the_selected_bend_tells_the_die_set() {
    let mut workbench = parts::sound();
    workbench.perform(Command::Edit(elbowroom_bending::Edit::SetClr(
        elbowroom_bending::NodeId::new(2),
        Length::from_mm(101.6),
    )));
    assert!(Model::of(&workbench).to_string().starts_with("51 on 76"));
    workbench.perform(Command::Select(workbench.named(Target::Bend(1)), SelectMode::Only));
    assert!(Model::of(&workbench).to_string().starts_with("51 on 102"));
    workbench.perform(Command::Edit(elbowroom_bending::Edit::ChooseDie(Some("38 on 57".into()))));
    for bend in 0..3 {
        workbench.perform(Command::Edit(elbowroom_bending::Edit::SetClr(
            elbowroom_bending::NodeId::new(bend as u32 + 1),
            Length::from_mm(333.0),
        )));
    }
    workbench.perform(Command::Edit(elbowroom_bending::Edit::ChooseDie(None)));
    assert_eq!(Model::of(&workbench).known, None);
}

#[test]
fn pictures() {
    let trials = [trial(30.0, 29.2), trial(60.0, 57.8), trial(110.0, 106.4)];
    for (theme, scale, suffix) in [(Theme::Light, 1.0, "light"), (Theme::Dark, 2.0, "dark-2x")] {
        let mut window = Window::new("springback", tried(&trials), SIZE.into(), theme, scale);
        window.enter("Set angle of trial 2", "6o");
        window.keep_picture(&format!("springback-{suffix}"));
        assert!(window.colours() > 20);
    }
    let window = Window::new("springback", parts::sound(), SIZE.into(), Theme::Light, 1.0);
    window.keep_picture("springback-theory");
}

#[test]
fn a_trial_says_the_wall_it_was_bent_of() {
    let mut window = shown("springback", parts::sound(), SIZE);
    for (set, measured) in [("40", "38.5"), ("120", "116.5")] {
        type_into(&mut window, "New set angle", set);
        type_into(&mut window, "New measured angle", measured);
        window.click("Add");
    }
    let walls = |window: &Window| {
        let trials = &window.workbench().shop().springback[0].trials;
        trials.iter().map(|trial| trial.wall.map(Length::mm)).collect::<Vec<_>>()
    };
    // Left empty it is the wall of the tube in hand.
    assert_eq!(walls(&window), [Some(1.5), Some(1.5)]);
    assert!(!Model::of(window.workbench()).known.unwrap().unsure());
    window.enter("Wall of trial 2", "2 mm");
    window.enter("Wall of trial 1", "0.08 in");
    assert!((walls(&window)[0].unwrap() - 2.032).abs() < 1e-9);
    let known = Model::of(window.workbench()).known.unwrap();
    assert_eq!((known.basis, known.unsure()), (SpringbackBasis::OtherWall, true));
    assert!(window.harness.query_by_label_contains("2 trial bends are of another wall than this tube").is_some());
    window.enter("Wall of trial 1", "0");
    assert!(window.harness.query_by_label_contains("he wall of trial 1 is 0 mm").is_some());
}

#[test]
fn theory_states_its_range() {
    let text = Model::of(&parts::sound()).to_string();
    let line = text.lines().find(|line| line.starts_with("A bend of 90° opens by ~")).unwrap();
    assert!(line.contains("in theory, and usually by ~") && line.ends_with("(from memory)."), "{line}");
    assert!(!Model::of(&tried(&[trial(40.0, 39.0), trial(120.0, 117.0)])).to_string().contains("in theory"));
}

/// No heading of the trials touches the next, and each begins where its field does.
#[test]
fn headings_of_trials_stand_apart_over_their_fields() {
    for width in [375.0, 420.0] {
        let window = shown("springback", tried(&[trial(30.0, 29.0), trial(90.0, 86.0)]), [width, 900.0]);
        let line = window.harness.get_by_label("Off line").rect();
        let head = |label: &str| {
            let all = window.harness.query_all_by_label(label);
            let mut there = all.map(|node| node.rect()).filter(|rect| (rect.top() - line.top()).abs() < 4.0);
            there.next().unwrap()
        };
        let heads = ["Set", "Measured", "Radius", "Drawn", "Wall", "Off line"].map(head);
        for (index, pair) in heads.windows(2).enumerate() {
            assert!(pair[0].right() + 3.0 <= pair[1].left(), "{width}: heading {index} touches the next: {pair:?}");
        }
        let field = |label: &str| window.harness.get_by_label(label).rect();
        let fields = ["Set angle of trial 1", "Measured angle of trial 1", "Measured radius of trial 1"].map(field);
        for (head, field) in heads.iter().zip(fields) {
            assert!((head.left() - field.left()).abs() < 8.0, "{width}: {head:?} {field:?}");
        }
    }
}

#[test]
fn the_bends_of_a_measured_piece_are_taken_as_trials_once() {
    let mut workbench = parts::sound();
    let rows = [(200.0, 0.0, 89.4), (160.0, 90.0, 44.6), (140.0, -90.0, 29.7)].map(|(straight, rotation, angle)| {
        MeasuredRow {
            straight: Length::from_mm(straight),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
        }
    });
    workbench.perform(Command::SetMeasurement(Measurement::Rows(rows.to_vec(), Length::from_mm(220.0))));
    let set: Vec<Angle> = workbench.pieces()[0].steps.iter().map(|step| step.set_angle).collect();
    let mut window = shown("springback", workbench, SIZE);
    window.click("Take 3 bends of measured piece 1 as trials");
    let shop = window.workbench().shop();
    let trials = &shop.springback_record("51 on 76", "304 stainless").unwrap().trials;
    assert_eq!(trials.iter().map(|trial| trial.set).collect::<Vec<_>>(), set);
    let measured: Vec<f64> = trials.iter().map(|trial| (trial.measured.degrees() * 10.0).round() / 10.0).collect();
    assert_eq!(measured, [89.4, 44.6, 29.7]);
    assert!(trials.iter().all(|trial| trial.wall == Some(Length::from_mm(1.5))));
    assert!(window.harness.query_by_label_contains("of measured piece").is_none(), "they are taken once");
    window.harness.state_mut().workbench.perform(Command::Undo);
    window.harness.run_steps(2);
    assert!(window.harness.query_by_label_contains("of measured piece").is_some());
}

#[test]
fn a_trial_that_does_not_fit_is_marked_where_it_stands_and_changes_nothing_that_is_set() {
    let sound = [trial(30.0, 28.9), trial(60.0, 58.3), trial(120.0, 117.1)];
    let with_slip = [sound[0], sound[1], trial(90.0, 77.7), sound[2]];
    let [known, odd] = [&sound[..], &with_slip[..]].map(|trials| Model::of(&tried(trials)).known.unwrap());
    assert_eq!((known.line, &known.bends, known.unsure()), (odd.line, &odd.bends, false));
    assert!(odd.from.ends_with("fitted to 3 trial bends; trial 3 does not fit"), "{}", odd.from);
    let window = shown("springback", tried(&with_slip), SIZE);
    assert!(window.harness.query_by_label_contains("Trial 3 does not fit and is left out").is_some());
    assert!(window.harness.query_by_label_contains("It would fit with 87.7° measured").is_some());
}
