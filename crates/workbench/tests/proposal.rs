//! A change that is pointed at: shown, never made.
#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use elbowroom_bending::specimen::{part, row, shop};
use elbowroom_bending::{Edit, NodeId};
use elbowroom_geometry::Length;
use elbowroom_workbench::{Command, Workbench};

fn bench() -> Workbench {
    Workbench::new(part(vec![row(300.0, 0.0, 90.0), row(200.0, 0.0, 90.0)], 300.0).unwrap(), shop())
}

#[test]
fn what_is_pointed_at_changes_nothing() {
    let mut bench = bench();
    let (before, revision) = (Arc::clone(bench.part()), bench.revision());
    let straight = bench.solved().nodes.straight(1);
    bench.perform(Command::PointAtChange(Some(Edit::SetStraight(straight, Length::from_mm(230.0)))));
    let proposed = Arc::clone(bench.proposal().unwrap().solved().unwrap());
    assert!((proposed.straights_mm[1] - 230.0).abs() < 1e-9);
    assert!(Arc::ptr_eq(bench.part(), &before) && bench.revision() == revision && bench.undo_label().is_none());
    // The same one again is not solved again.
    bench.perform(Command::PointAtChange(Some(Edit::SetStraight(straight, Length::from_mm(230.0)))));
    assert!(Arc::ptr_eq(bench.proposal().unwrap().solved().unwrap(), &proposed));
    bench.perform(Command::PointAtChange(None));
    assert!(bench.proposal().is_none());
}

#[test]
fn what_is_refused_or_leaves_the_centreline_is_not_drawn() {
    let mut bench = bench();
    for edit in
        [Edit::SetStraight(NodeId::NOWHERE, Length::from_mm(5.0)), Edit::ChooseClamp(Some(Length::from_mm(80.0)))]
    {
        bench.perform(Command::PointAtChange(Some(edit.clone())));
        assert!(bench.proposal().unwrap().solved().is_none(), "{edit:?}");
        assert!(bench.screen().message.is_none(), "pointing is no asking");
    }
}

#[test]
fn it_goes_as_soon_as_the_part_is_another() {
    let mut bench = bench();
    let straight = bench.solved().nodes.straight(1);
    let longer = Edit::SetStraight(straight, Length::from_mm(230.0));
    for other in [Command::Edit(longer.clone()), Command::Undo, Command::New] {
        bench.perform(Command::PointAtChange(Some(longer.clone())));
        bench.perform(other);
        bench.perform(Command::AnswerDiscard);
        assert!(bench.proposal().is_none());
    }
}
