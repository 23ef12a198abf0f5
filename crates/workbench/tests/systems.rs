//! Files of systems: several tubes by ids of their own, all that was chosen for each, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use elbowroom_bending::{End, Hand, Part, System, SystemTube, TubeId};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{read_part, read_system, write_system};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_system_reads_back_to_the_bit(system in common::system()) {
        let text = write_system(&system);
        let back = read_system(&text, "test").map_err(|problem| TestCaseError::fail(format!("{problem}\n{text}")))?;
        prop_assert_eq!(write_system(&back), text);
        // Numbers from which on no id was given are those of this file alone.
        prop_assert!(back.holds_the_same_as(&system) && back.active() == system.active());
        for (one, two) in back.tubes().iter().zip(system.tubes()) {
            let places = one.part.path.places();
            prop_assert_eq!(one.part.nodes.ids(places), two.part.nodes.ids(places));
            prop_assert_eq!(format!("{:?}", (&one.part.path, &one.part.tooling, &one.part.pieces)),
                format!("{:?}", (&two.part.path, &two.part.tooling, &two.part.pieces)));
        }
    }

    #[test]
    fn a_truncated_system_is_refused_with_a_line(cut in 0.0..1.0f64) {
        let text = pair();
        let whole = text.trim_end().len();
        let problem = read_system(&text[..(whole as f64 * cut) as usize], "half.ron").unwrap_err();
        prop_assert!(problem.line.is_some(), "{}", problem);
    }
}

fn two_tubes() -> System {
    let tube = |id, name: &str, hidden| {
        let part = Part { name: name.into(), ..common::zigzag() };
        SystemTube { id: TubeId::new(id), hidden, part: part.into() }
    };
    let tubes = vec![tube(4, "Downpipe", false), tube(2, "Tail", true)];
    System::new("Hill", LengthUnit::Millimetre, tubes, TubeId::new(4)).unwrap()
}

fn pair() -> String {
    write_system(&two_tubes())
}

#[test]
fn from_which_end_and_to_which_side_is_kept_for_each_tube() {
    let mut tubes = two_tubes().tubes().to_vec();
    for (tube, (from, hand)) in tubes.iter_mut().zip([(End::Finish, Some(Hand::Left)), (End::Start, None)]) {
        let part = std::sync::Arc::make_mut(&mut tube.part);
        (part.tooling.from, part.tooling.hand) = (from, hand);
    }
    let system = System::new("Hill", LengthUnit::Millimetre, tubes, TubeId::new(4)).unwrap();
    let text = write_system(&system);
    assert_eq!((text.matches("from: finish").count(), text.matches("hand: left").count()), (1, 1));
    assert_eq!(read_system(&text, "a").unwrap(), system);
}

/// Says what the spoilt file is told.
fn told(good: &str, bad: &str) -> String {
    let text = pair();
    assert!(text.contains(good), "{good} is not in\n{text}");
    read_system(&text.replacen(good, bad, 1), "a.ron").unwrap_err().to_string()
}

#[test]
fn what_no_system_can_be_is_refused_with_place_and_remedy() {
    let line = |mark: &str| pair().lines().position(|line| line.contains(mark)).unwrap() + 1;
    let end_of_second = pair().lines().count() - 1;
    assert_eq!(
        told("id: 2,", "id: 4,"),
        format!(
            "a.ron, line {end_of_second}: the id 4 of the tube \u{201c}Tail\u{201d} is that of a tube before it too; it must be a number of its own"
        )
    );
    assert_eq!(
        told("name: \"Tail\"", "name: \"Downpipe\""),
        format!(
            "a.ron, line {end_of_second}: the name \u{201c}Downpipe\u{201d} is that of a tube before it too; it must be one of its own"
        )
    );
    let active = line("active:");
    assert_eq!(
        told("active: 4", "active: 3"),
        format!(
            "a.ron, line {active}: the id of the active tube is 3; it must be the id of a tube of this system: 4, 2"
        )
    );
    assert_eq!(
        told("active: 4", "active: 2"),
        format!("a.ron, line {active}: the active tube, \u{201c}Tail\u{201d}, is hidden; it must be shown")
    );
    let none = "(format: \"elbowroom-system/1\",\n tubes: [])";
    assert_eq!(
        read_system(none, "a.ron").unwrap_err().to_string(),
        "a.ron, line 2: the number of tubes is 0; it must be 1 or more"
    );
    assert!(
        read_system("(format: \"elbowroom-system/1\")", "a.ron")
            .unwrap_err()
            .to_string()
            .contains("the field tubes is missing")
    );
    assert!(told("id: 2,", "id: -2,").contains("line "), "{}", told("id: 2,", "id: -2,"));
    assert!(told("id: 2,", "id: 4294967295,").contains("it must be a smaller number"));
    let places = |places: &str| told("            stock", &format!("            places: {places},\n            stock"));
    assert!(
        places("[0, 1]").contains("the number of places of the tube \u{201c}Downpipe\u{201d} is 2; it must be 6"),
        "{}",
        places("[0, 1]")
    );
    assert!(
        places("[0, 1, 2, 3, 4, 0]").contains("a place of the tube \u{201c}Downpipe\u{201d} is 0 twice"),
        "{}",
        places("[0, 1, 2, 3, 4, 0]")
    );
    assert!(places("[0, 1, 2, 3, 4, 4294967295]").contains("it must be a number of its own"));
}

#[test]
fn a_system_can_be_written_by_hand_in_few_words() {
    let text = r#"(
        format: "elbowroom-system/1",
        tubes: [
            (
                id: 1, name: "Downpipe",
                tube: (od_mm: 50.8, wall_mm: 1.5, material: "304 stainless", seam: welded),
                tooling: (from: finish, hand: right),
                path: vertices(points_mm: [(0, 0, 0), (600, 0, 0)], clr_mm: []),
            ),
            (
                id: 2, name: "Tail",
                tube: (od_mm: 50.8, wall_mm: 1.5, material: "304 stainless", seam: welded),
                path: vertices(points_mm: [(600, 0, 0), (900, 0, 0)], clr_mm: []),
            ),
        ],
    )"#;
    let system = read_system(text, "a").unwrap();
    assert_eq!((system.active().number(), system.tubes().len()), (1, 2), "the first one is worked on");
    assert_eq!(system.tubes()[0].part.tooling.from, End::Finish);
}

#[test]
fn where_one_part_is_wanted_several_are_refused() {
    let said = read_part(&pair(), "a.ron").unwrap_err().to_string();
    let wanted = "a.ron: it holds 2 tubes: \u{201c}Downpipe\u{201d} and \u{201c}Tail\u{201d}; a file of a single tube is wanted here";
    assert_eq!(said, wanted);
}

#[test]
fn names_that_are_shown_alike_are_refused() {
    let quoted = |sign: &str| pair().replacen("Downpipe", "Pipe\\u{7}", 1).replacen("Tail", &format!("Pipe{sign}"), 1);
    assert!(read_system(&quoted(""), "a").is_ok());
    let said = read_system(&quoted("\\u{8}"), "a").unwrap_err().to_string();
    assert!(said.contains("the name \u{201c}Pipe\u{fffd}\u{201d} is that of a tube before it too"), "{said}");
}
