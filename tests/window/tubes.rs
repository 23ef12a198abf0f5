//! A system of several tubes: all are in the scene, pointing at one tells its name, and a click turns to it.

use elbowroom_bending::{Edit, SystemEdit};
use elbowroom_geometry::Vector3;
use elbowroom_workbench::file::{demo_parts, write_system};
use elbowroom_workbench::{Command, Workbench};

use crate::display;
use crate::program::Program;

/// Three demo parts side by side, the first of which is worked on.
fn three() -> Workbench {
    let part = |name: &str| demo_parts().find(|demo| demo.name == name).unwrap().read().unwrap();
    let mut workbench = Workbench::new(part("cross-link"), elbowroom_workbench::file::built_in_shop());
    for (name, aside_mm) in [("sump-sweep", 900.0), ("silencer-return", -700.0)] {
        let other = part(name);
        let start = workbench.system().tubes()[0].part.start() + Vector3::new(0.0, aside_mm, 0.0);
        let other = Edit::SetStart(start).applied_to(&other).unwrap();
        workbench.perform(Command::EditSystem(SystemEdit::AddTube(other.into())));
    }
    let first = workbench.system().tubes()[0].id;
    workbench.perform(Command::EditSystem(SystemEdit::Activate(first)));
    workbench.perform(Command::EditSystem(SystemEdit::Rename("Hill climb".into())));
    workbench
}

#[test]
fn a_click_in_the_scene_turns_to_another_tube() {
    let Some(display) = display::open(1440, 900) else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("hill.ron");
    let workbench = three();
    let names: Vec<String> = workbench.system().tubes().iter().map(|tube| tube.name().to_owned()).collect();
    std::fs::write(&file, write_system(workbench.system())).unwrap();
    let mut program = Program::start(&display, folder.path(), Some(&file));

    let opened = program.wait_for("the list of tubes", |entry| entry.panel("tubes").contains(&names[2]));
    assert_eq!(opened.line("title"), Some("Hill climb \u{2013} Elbowroom"));
    assert_eq!(opened.lines("tube").count(), 2, "the two that are not worked on:\n{}", opened.text);
    let place = opened.place("tube", &names[1]).unwrap_or_else(|| panic!("it is not in sight:\n{}", opened.text));

    display.point(place);
    program.wait_for("its name", |entry| entry.line("over") == Some(names[1].as_str()));
    display.click(place);
    let turned = program.wait_for("a turn", |entry| entry.panel("tubes").contains(&format!("> {}", names[1])));
    assert_ne!(turned.rows(), opened.rows(), "its rows are shown");
    assert_eq!(turned.line("title"), Some("Hill climb \u{2013} Elbowroom"), "to turn to another tube is no change");
    assert!(turned.place("tube", &names[0]).is_some() && turned.place("tube", &names[1]).is_none());

    // Renaming has the keyboard at once, from the scene.
    display.keys("F2");
    program.wait_for("the list", |entry| entry.place("widget", "Name of the tube").is_some());
    display.text("Tail pipe");
    display.keys("Return");
    program.wait_for("the new name", |entry| entry.panel("tubes").contains("> Tail pipe"));
    display.keys("Escape");
    display.keys("ctrl+z");
    program.wait_for("the old name", |entry| entry.panel("tubes").contains(&format!("> {}", names[1])));
}
