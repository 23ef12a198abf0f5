//! The blank strip: what it says, and what dragging its edges does.
#![allow(clippy::unwrap_used, clippy::panic)]

mod one_panel;

use elbowroom_bending::Edit;
use elbowroom_panels::strip::Model;
use elbowroom_workbench::Command;
use one_panel::{parts, shown};

const SIZE: [f32; 2] = [1200.0, 190.0];

#[test]
fn a_sound_part_unrolls() {
    let text = Model::of(&parts::sound()).to_string();
    assert_eq!(text, "");
}

#[test]
fn dragging_an_arcs_start_changes_the_straight_before_it() {
    let mut window = shown("strip", parts::sound(), SIZE);
    let from = window.place("Start of bend 2").center();
    let to = from + egui::vec2(40.0, 0.0);
    window.drag(from, to);
    let tried = window.asked();
    let Some(Command::Preview(Edit::SetStraight(1, straight))) = tried.last() else { panic!("{tried:?}") };
    assert!(straight.mm() > 160.0 && straight.mm().fract() == 0.0, "{straight:?}");
    assert!(tried.iter().all(|command| matches!(command, Command::Preview(_))), "{tried:?}");
    window.release(to);
    assert_eq!(window.asked(), [Command::CommitPreview]);
}

#[test]
fn pictures() {
    window_pictures();
}

fn window_pictures() {
    for (name, workbench) in [
        ("sound", parts::sound()),
        ("short", parts::short_straights()),
        ("overlap", parts::overlapping()),
        ("200", parts::two_hundred()),
    ] {
        let window = shown("strip", workbench, SIZE);
        window.keep_picture(&format!("strip-{name}"));
    }
}
