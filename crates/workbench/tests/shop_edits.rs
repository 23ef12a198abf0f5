//! Changes to the shop: one history with the part's, undone to the bit, written to the shop's own file.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::fs;
use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::forming::springback::SpringbackBasis;
use elbowroom_bending::specimen::{self, trial};
use elbowroom_bending::{
    DieSetFigures, Edit, Hand, Knowledge, KnowledgeEdit, MachineFigures, RotationSetting, Shop, ShopEdit,
};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::file::{BUILT_IN_SHOP_TEXT, built_in_shop, read_shop};
use elbowroom_workbench::{Command, Home, MessageKind, Workbench};
use proptest::prelude::*;

/// The die set that takes the test part's tube.
fn die() -> String {
    let (shop, part) = (built_in_shop(), common::zigzag());
    shop.die_for(part.tube.od, Length::from_mm(76.2)).unwrap().name.clone()
}

fn edit(what: Knowledge) -> Command {
    Command::EditShop(KnowledgeEdit { die: die(), material: "304 stainless".into(), what }.into())
}

fn trials() -> Command {
    edit(Knowledge::Trials(vec![trial(40.1, 38.7), trial(120.0, 116.3)]))
}

fn on_disk(file: &Path) -> Shop {
    read_shop(&fs::read_to_string(file).unwrap(), "shop").unwrap()
}

fn basis(workbench: &Workbench) -> SpringbackBasis {
    let shop = workbench.shop();
    shop.springback_of(shop.die_named(&die()).unwrap(), &workbench.part().tube).basis
}

fn message(workbench: &Workbench) -> (MessageKind, String) {
    let message = workbench.screen().message.clone().unwrap();
    (message.kind, message.text)
}

#[test]
fn the_first_change_makes_a_shop_file_of_the_user_s_own_and_keeps_its_comments() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::OpenDemo("sump-sweep".into()));
    let revision = workbench.revision();
    workbench.perform(trials());
    assert_eq!(workbench.shop_file(), Some(&home.own_shop()));
    let (kind, said) = message(&workbench);
    assert!(kind == MessageKind::Done && said.contains("Your own shop file is now"), "{said}");
    assert!(workbench.revision() > revision);
    // The demo part is of another wall than the trials.
    assert_eq!(basis(&workbench), SpringbackBasis::OtherWall);
    assert_eq!(on_disk(&home.own_shop()), **workbench.shop());
    let text = fs::read_to_string(home.own_shop()).unwrap();
    let comments = |text: &str| text.lines().filter(|line| line.trim().starts_with("//")).count();
    assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
    // The next start uses it.
    workbench.flush();
    drop(workbench);
    assert_eq!(basis(&Workbench::at_home(home)), SpringbackBasis::OtherWall);
}

#[test]
fn part_and_shop_share_one_history() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("workshop.ron");
    fs::write(&file, BUILT_IN_SHOP_TEXT).unwrap();
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(Command::UseShop(file.clone()));
    let before = format!("{:?}", (workbench.committed_part(), workbench.shop()));

    workbench.perform(Command::Edit(Edit::Rename("one".into())));
    workbench.perform(trials());
    assert_eq!(workbench.undo_label(), Some(format!("change the trial bends of {} in 304 stainless", die()).as_str()));
    workbench.perform(edit(Knowledge::Line(Some(specimen::line(0.7, 0.021)))));
    workbench.perform(Command::Edit(Edit::Rename("two".into())));
    let after = format!("{:?}", (workbench.committed_part(), workbench.shop()));
    assert_eq!(basis(&workbench), SpringbackBasis::Shop);

    workbench.perform(Command::Undo);
    assert_eq!((workbench.part().name.as_str(), basis(&workbench)), ("one", SpringbackBasis::Shop));
    workbench.perform(Command::Undo);
    assert_eq!(basis(&workbench), SpringbackBasis::Trials);
    assert_eq!(on_disk(&file), **workbench.shop());
    workbench.perform(Command::Undo);
    assert_eq!((workbench.part().name.as_str(), basis(&workbench)), ("one", SpringbackBasis::Theory));
    workbench.perform(Command::Undo);
    assert_eq!(format!("{:?}", (workbench.committed_part(), workbench.shop())), before);
    assert_eq!(on_disk(&file), built_in_shop());
    for _ in 0..4 {
        workbench.perform(Command::Redo);
    }
    assert_eq!(format!("{:?}", (workbench.committed_part(), workbench.shop())), after);
    assert_eq!(on_disk(&file), **workbench.shop());
}

#[test]
fn a_change_that_changes_nothing_makes_no_step() {
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(trials());
    let (label, revision) = (workbench.undo_label().map(str::to_owned), workbench.revision());
    workbench.perform(trials());
    assert_eq!(workbench.revision(), revision);
    workbench.perform(Command::Undo);
    assert_eq!((workbench.undo_label(), workbench.redo_label()), (None, label.as_deref()));
}

#[test]
fn what_is_refused_changes_neither_shop_nor_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("workshop.ron");
    fs::write(&file, BUILT_IN_SHOP_TEXT).unwrap();
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(Command::UseShop(file.clone()));
    workbench.perform(edit(Knowledge::Stretch(Some(2.0))));
    let (kind, said) = message(&workbench);
    assert!(kind == MessageKind::Refused && said.contains("stretch is 200 %"), "{said}");
    assert_eq!(fs::read_to_string(&file).unwrap(), BUILT_IN_SHOP_TEXT);

    // Changed elsewhere: not written over.
    let other = BUILT_IN_SHOP_TEXT.replacen("largest_angle_deg: 190.0", "largest_angle_deg: 185.0", 1);
    fs::write(&file, &other).unwrap();
    workbench.perform(trials());
    let (kind, said) = message(&workbench);
    assert!(kind == MessageKind::Refused && said.contains("has been changed since it was read"), "{said}");
    assert_eq!(fs::read_to_string(&file).unwrap(), other);
    assert_eq!((basis(&workbench), workbench.undo_label()), (SpringbackBasis::Theory, None));

    // Once it is read again the change is made.
    workbench.perform(Command::UseShop(file.clone()));
    workbench.perform(trials());
    assert_eq!(basis(&workbench), SpringbackBasis::Trials);
    assert_eq!(on_disk(&file).machine.largest_angle.degrees(), 185.0);

    // A file that can no longer be written to keeps the step where it is.
    fs::write(&file, "spoilt").unwrap();
    workbench.perform(Command::Undo);
    assert_eq!(message(&workbench).0, MessageKind::Refused);
    assert_eq!((basis(&workbench), workbench.redo_label()), (SpringbackBasis::Trials, None));
    assert_eq!(fs::read_to_string(&file).unwrap(), "spoilt");
}

#[test]
fn another_shop_takes_the_steps_of_the_last_one_along_and_leaves_those_of_the_part() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("workshop.ron");
    fs::write(&file, BUILT_IN_SHOP_TEXT).unwrap();
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(Command::Edit(Edit::Rename("one".into())));
    workbench.perform(trials());
    workbench.perform(Command::Edit(Edit::Rename("two".into())));
    workbench.perform(Command::UseShop(file.clone()));
    workbench.perform(Command::Undo);
    assert_eq!(workbench.part().name, "one");
    workbench.perform(Command::Undo);
    assert_eq!((workbench.part().name.as_str(), workbench.undo_label()), ("test part", None));
    assert_eq!(fs::read_to_string(&file).unwrap(), BUILT_IN_SHOP_TEXT);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn undo_comes_back_to_the_bit(
        steps in prop::collection::vec((0..4usize, 1.0..170.0f64, 0.9..1.0f64, 0.0..0.4f64), 1..12)
    ) {
        let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
        let bits = |workbench: &Workbench| format!("{:?}", (workbench.committed_part(), workbench.shop()));
        let mut states = vec![bits(&workbench)];
        for (which, angle, share, small) in steps {
            workbench.perform(match which {
                0 => edit(Knowledge::Trials(vec![trial(angle, angle * share), trial(angle / 2.0, angle * share / 2.0)])),
                1 => edit(Knowledge::Line(Some(specimen::line(angle / 10.0, small)))),
                2 => edit(Knowledge::Stretch(Some(small))),
                _ => Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(1), Angle::from_degrees(angle))),
            });
            let now = bits(&workbench);
            if states.last() != Some(&now) {
                states.push(now);
            }
        }
        for state in states.iter().rev().skip(1) {
            workbench.perform(Command::Undo);
            prop_assert_eq!(&bits(&workbench), state);
        }
        for state in states.iter().skip(1) {
            workbench.perform(Command::Redo);
            prop_assert_eq!(&bits(&workbench), state);
        }
    }
}

#[test]
fn what_bent_without_a_crack_is_kept_and_an_older_file_says_that_it_is_raised() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let older =
        BUILT_IN_SHOP_TEXT.replacen("elbowroom-shop/3", "elbowroom-shop/1", 1).replace("        rotation: turn,\n", "");
    fs::create_dir_all(home.own_shop().parent().unwrap()).unwrap();
    fs::write(home.own_shop(), &older).unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    let proved = |shop: &Shop| shop.proved_stretch("304 stainless", shop.die_named(&die()).unwrap());
    assert_eq!(proved(workbench.shop()), None);
    workbench.perform(edit(Knowledge::Uncracked(true)));
    let (kind, said) = message(&workbench);
    assert!(
        kind == MessageKind::Done && said.contains("It was elbowroom-shop/1 and is elbowroom-shop/3 now"),
        "{said}"
    );
    assert!(proved(&on_disk(&home.own_shop())).is_some());
    let text = fs::read_to_string(home.own_shop()).unwrap();
    assert!(text.contains("uncracked: true") && text.contains("// Every figure here is common practice"));
    workbench.perform(edit(Knowledge::Trials(vec![
        trial(40.0, 39.0).with(|trial| trial.wall = Some(Length::from_mm(1.6))).unwrap(),
    ])));
    let kept = on_disk(&home.own_shop());
    assert_eq!(kept.springback[0].trials[0].wall, Some(Length::from_mm(1.6)));
    workbench.perform(Command::Undo);
    workbench.perform(Command::Undo);
    assert_eq!(proved(&on_disk(&home.own_shop())), None);
}

#[test]
fn a_change_taken_back_on_one_shop_is_not_made_again_on_another() {
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(trials());
    workbench.perform(Command::Undo);
    assert!(workbench.redo_label().is_some());
    workbench.perform(Command::UseOwnShop);
    assert_eq!((workbench.undo_label(), workbench.redo_label()), (None, None));
    workbench.perform(Command::Redo);
    assert_eq!(**workbench.shop(), built_in_shop());
}

/// Two die sets and a machine of one's own, from the built-in shop.
#[test]
fn a_shop_of_one_s_own_is_set_up_from_the_built_in_one() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::OpenDemo("over-the-wheel".into()));
    let stops =
        |workbench: &Workbench| workbench.solved().findings.iter().map(|finding| finding.fault).collect::<Vec<_>>();
    assert!(stops(&workbench).contains(&"blank-too-long"));
    let built_in = built_in_shop();
    let machine = MachineFigures {
        name: "Long bed".into(),
        longest_blank: Length::from_mm(9000.0),
        rotation: RotationSetting::Reading,
        hand: Hand::Left,
        ..built_in.machine.clone().into_figures()
    };
    workbench.perform(Command::EditShop(ShopEdit::SetMachine(machine)));
    assert!(!stops(&workbench).contains(&"blank-too-long"), "the open tube is judged anew at once");
    assert_eq!((workbench.shop().name.as_str(), workbench.shop_file()), ("Own shop", Some(&home.own_shop())));
    let names: Vec<String> = built_in.die_sets.iter().map(|die| die.name.clone()).collect();
    workbench.perform(Command::EditShop(ShopEdit::RemoveDies(names)));
    for clr in [76.2, 101.6] {
        let die = DieSetFigures::usual(Length::from_mm(50.8), Length::from_mm(clr));
        workbench.perform(Command::EditShop(ShopEdit::AddDie(die)));
    }
    workbench.perform(Command::EditShop(ShopEdit::Rename("Bench at home".into())));
    let shop = workbench.shop();
    assert_eq!((shop.name.as_str(), shop.die_sets.len()), ("Bench at home", 2));
    assert_eq!(shop.die_sets[1].name, "50.8 on 101.6");
    assert_eq!(on_disk(&home.own_shop()), **shop);
    let text = fs::read_to_string(home.own_shop()).unwrap();
    let comments = |text: &str| text.lines().filter(|line| line.trim().starts_with("//")).count();
    assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
    // Every step can be taken back, in the file too, and made again.
    let after = Arc::clone(shop);
    for _ in 0..5 {
        workbench.perform(Command::Undo);
    }
    assert_eq!(**workbench.shop(), built_in);
    assert_eq!(on_disk(&home.own_shop()), built_in);
    assert_eq!(comments(&fs::read_to_string(home.own_shop()).unwrap()), comments(BUILT_IN_SHOP_TEXT));
    for _ in 0..5 {
        workbench.perform(Command::Redo);
    }
    assert_eq!(on_disk(&home.own_shop()), *after);
    workbench.flush();
    drop(workbench);
    assert_eq!(**Workbench::at_home(home).shop(), *after);
}

#[test]
fn a_refusal_names_the_field_and_says_lengths_as_the_part_does() {
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(Command::Edit(Edit::ShowUnits(LengthUnit::Inch)));
    let die = |change: fn(&mut DieSetFigures)| {
        let mut to = built_in_shop().die_sets[0].clone().into_figures();
        change(&mut to);
        Command::EditShop(ShopEdit::ChangeDie { name: built_in_shop().die_sets[0].name.clone(), to })
    };
    let machine = |change: fn(&mut MachineFigures)| {
        let mut to = built_in_shop().machine.clone().into_figures();
        change(&mut to);
        Command::EditShop(ShopEdit::SetMachine(to))
    };
    let tube = built_in_shop().tubes[0].clone();
    let cases = [
        (machine(|machine| machine.longest_blank = Length::ZERO), "The longest blank is 0.000 in"),
        (machine(|machine| machine.name = " ".into()), "The name of the machine is empty"),
        (machine(|machine| machine.square_end_diameters = -1.0), "square end"),
        (die(|die| die.clr = Length::from_mm(10.0)), "The centreline radius of die set"),
        (die(|die| die.clamps.clear()), "The number of clamps of die set"),
        (die(|die| die.name = "50.8 on 76.2".into()), "A die set's name is \"50.8 on 76.2\" twice"),
        (die(|die| die.name = String::new()), "The name of the die set is empty"),
        (die(|die| die.largest_bite = Length::from_mm(0.1)), "The largest bite of die set"),
        (Command::EditShop(ShopEdit::AddTube(tube.clone().into_figures())), "The tube is in stock already"),
        (Command::EditShop(ShopEdit::RemoveDies(vec!["none".into()])), "The die set is \"none\""),
        (Command::EditShop(ShopEdit::Rename("  ".into())), "The name of the shop is empty"),
    ];
    for (command, wanted) in cases {
        workbench.perform(command);
        let (kind, said) = message(&workbench);
        assert!(kind == MessageKind::Refused && said.contains(wanted), "{said}");
        assert_eq!(**workbench.shop(), built_in_shop());
    }
}

#[test]
fn what_is_known_of_a_die_set_and_the_tubes_on_it_go_along_when_it_is_called_otherwise() {
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(Command::Edit(Edit::ChooseDie(Some(die()))));
    workbench.perform(trials());
    let findings = workbench.solved().findings.clone();
    let to = DieSetFigures {
        name: "the blue one".into(),
        ..workbench.shop().die_named(&die()).unwrap().clone().into_figures()
    };
    workbench.perform(Command::EditShop(ShopEdit::ChangeDie { name: die(), to }));
    assert_eq!(workbench.part().tooling.die.as_deref(), Some("the blue one"));
    assert!(workbench.shop().springback_record("the blue one", "304 stainless").is_some());
    assert_eq!(workbench.solved().findings, findings);
    workbench.perform(Command::Undo);
    assert_eq!(workbench.part().tooling.die, Some(die()));
    assert!(workbench.shop().springback_record(&die(), "304 stainless").is_some());
    workbench.perform(Command::Redo);
    workbench.perform(Command::EditShop(ShopEdit::RemoveDies(vec!["the blue one".into()])));
    assert!(workbench.shop().springback.is_empty());
}
