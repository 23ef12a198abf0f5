//! Changes to the shop, and what a dial reads of a program.
#![allow(clippy::unwrap_used)]

use elbowroom_bending::plan::Plan;
use elbowroom_bending::{DieSetFigures, Guard, Knowledge, KnowledgeEdit, ShopEdit, solve, specimen};
use elbowroom_geometry::{Angle, Length};

#[test]
fn a_die_set_to_begin_from_is_what_the_trade_commonly_has() {
    // Common practice, no source: 1, 1.6 and 2.5 times 50.8 mm, in steps of 5 mm.
    let die = DieSetFigures::usual(Length::from_mm(50.8), Length::from_mm(76.2));
    let clamps: Vec<(f64, f64)> =
        die.clamps.iter().map(|clamp| (clamp.length.mm(), clamp.proved_angle.degrees().round())).collect();
    assert_eq!((die.name.as_str(), clamps), ("50.8 on 76.2", vec![(50.0, 45.0), (80.0, 90.0), (125.0, 180.0)]));
    // Of thin tube two clamps come out alike: one is left, with the larger angle that it is commonly taken for.
    for od_mm in [1.0, 3.0, 6.0, 12.7, 101.6, 600.0] {
        let die = DieSetFigures::usual(Length::from_mm(od_mm), Length::from_mm(od_mm * 2.0)).sound().unwrap();
        assert!(die.basis.unsure() && !die.clamps.is_empty());
    }
}

#[test]
fn names_stay_apart_and_what_is_known_goes_along() {
    let shop = specimen::shop();
    let (first, second) = (shop.die_sets[0].clone(), shop.die_sets[1].clone());
    let copy = shop.copy_of(&first);
    assert_eq!(copy.name, "50.8 at 1.5D (2)");
    let shop = ShopEdit::AddDie(copy).applied_to(&shop).unwrap();
    assert_eq!(shop.copy_of(&first).name, "50.8 at 1.5D (3)");
    let to = DieSetFigures { name: first.name.clone(), ..second.clone().into_figures() };
    let edit = ShopEdit::ChangeDie { name: second.name.clone(), to };
    assert!(edit.applied_to(&shop).unwrap_err().to_string().contains("twice"));
    let known = KnowledgeEdit { die: second.name.clone(), material: "304".into(), what: Knowledge::Uncracked(true) };
    let shop = ShopEdit::from(known).applied_to(&shop).unwrap();
    let to = DieSetFigures { name: "long".into(), ..second.clone().into_figures() };
    let renamed = ShopEdit::ChangeDie { name: second.name.clone(), to };
    assert_eq!(renamed.renames_die(), Some((second.name.as_str(), "long")));
    let shop = renamed.applied_to(&shop).unwrap();
    assert!(shop.springback_record("long", "304").is_some() && shop.springback_record(&second.name, "304").is_none());
    let shop = ShopEdit::RemoveDies(vec!["long".into()]).applied_to(&shop).unwrap();
    assert!(shop.springback.is_empty() && shop.die_named("long").is_none());
}

#[test]
fn a_dial_that_is_never_put_back_reads_the_turns_added_up() {
    let shop = specimen::shop();
    let rows = vec![
        specimen::row(200.0, 0.0, 30.0),
        specimen::row(200.0, 90.0, 30.0),
        specimen::row(200.0, -120.0, 30.0),
        specimen::row(200.0, 175.5, 30.0),
    ];
    let part = specimen::part(rows, 300.0).unwrap();
    let plan = Plan::of(&part, &shop, &solve(&part, &shop)).unwrap();
    let read: Vec<f64> =
        plan.program.dial_readings().iter().map(|angle| (angle.degrees() * 1e6).round() / 1e6).collect();
    // By hand, whichever sense the machine counts in: the turns of the program itself, and no reading below nought.
    let turns: Vec<Angle> = plan.program.steps.iter().map(|step| step.rotation).collect();
    let mut sum = 0.0;
    for (turn, read) in turns.iter().zip(&read) {
        sum += turn.degrees();
        assert!((sum - read).rem_euclid(360.0) < 1e-5 || (sum - read).rem_euclid(360.0) > 360.0 - 1e-5);
        assert!((0.0..360.0).contains(read), "{read}");
    }
    let first_turn = turns[1].degrees().rem_euclid(360.0);
    assert!((read[1] - first_turn).abs() < 1e-5 && read.len() == 4);
}
