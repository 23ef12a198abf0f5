//! What the document tells of each step, there and back, and what it solves for that.
#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use elbowroom_bending::specimen::{part, row, shop};
use elbowroom_bending::{Edit, System, SystemEdit, SystemEvent as Event};
use elbowroom_geometry::Angle;

use super::{Document, Way};

fn document() -> Document {
    Document::new(Arc::new(System::of(part(vec![row(200.0, 0.0, 90.0)], 300.0).unwrap())), Arc::new(shop()))
}

#[test]
fn each_step_tells_what_is_other_and_taking_it_back_tells_the_opposite() {
    let mut document = document();
    let first = document.committed().system.active();
    let copied = document.edit(&SystemEdit::DuplicateTube(first)).unwrap();
    let second = document.committed().system.active();
    assert_eq!(copied, [Event::Added(second), Event::Activated(second)]);
    let bend = document.committed().solved().nodes.bend(0);
    let turn = SystemEdit::ChangeTube(second, Edit::SetAngle(bend, Angle::from_degrees(60.0)));
    let steps = [
        (SystemEdit::HideTube(first), vec![Event::Shown(first)]),
        (SystemEdit::Activate(first), vec![Event::Shown(first), Event::Activated(first)]),
        (SystemEdit::Rename("Hill climb".into()), vec![Event::Renamed]),
        (turn, vec![Event::Changed(second)]),
    ];
    for (edit, told) in &steps {
        assert_eq!(document.edit(edit).unwrap(), *told, "{edit:?}");
    }
    let back: Vec<_> = steps.iter().map(|_| document.travel(Way::Back)).collect();
    let wanted = [
        vec![Event::Changed(second)],
        vec![Event::Renamed],
        vec![Event::Shown(first), Event::Activated(second)],
        vec![Event::Shown(first)],
    ];
    assert_eq!(back, wanted);
    assert_eq!(document.travel(Way::Back), [Event::Removed(second), Event::Activated(first)]);
    assert_eq!(document.travel(Way::Forth), copied);
    assert!(document.travel(Way::Back).len() == 2 && document.travel(Way::Back).is_empty(), "there is no step before");
}

#[test]
fn a_preview_of_what_is_there_solves_nothing() {
    let mut document = document();
    let tube = document.committed().system.active();
    let bend = document.committed().solved().nodes.bend(0);
    let turned = |degrees: f64| SystemEdit::ChangeTube(tube, Edit::SetAngle(bend, Angle::from_degrees(degrees)));
    document.preview(&turned(60.0)).unwrap();
    let solves = document.solves();
    document.preview(&turned(90.0)).unwrap();
    assert_eq!(document.solves(), solves, "it has been solved already");
}
