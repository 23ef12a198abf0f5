//! Native files: what is written reads back to the bit, and what is wrong is refused with its line.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use elbowroom_bending::Part;
use elbowroom_geometry::Length;
use elbowroom_workbench::file::{built_in_shop, read_part, read_shop, write_part, write_shop};
use proptest::prelude::*;

/// `Debug` prints every number in its shortest exact form with its sign, so equal text is equal bits.
fn bits(part: &Part) -> String {
    format!("{part:?}")
}

proptest! {
    #[test]
    fn a_part_reads_back_to_the_bit(part in common::part()) {
        let text = write_part(&part);
        let back = read_part(&text, "test").map_err(|problem| TestCaseError::fail(format!("{problem}\n{text}")))?;
        prop_assert_eq!(bits(&back), bits(&part));
    }

    #[test]
    fn a_truncated_part_is_refused_with_a_line(cut in 0.0..1.0f64) {
        let text = write_part(&common::zigzag());
        let whole = text.trim_end().len();
        let cut = (whole as f64 * cut) as usize;
        let problem = read_part(&text[..cut], "half.ron").unwrap_err();
        prop_assert!(problem.line.is_some() && problem.to_string().starts_with("half.ron, line "), "{problem}");
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in ".{0,200}") {
        prop_assert!(read_part(&text, "test").is_err());
    }
}

/// The zigzag's file with one piece of text replaced.
fn spoilt(good: &str, bad: &str) -> String {
    let text = write_part(&common::zigzag());
    assert!(text.contains(good), "{good} is not in\n{text}");
    let problem = read_part(&text.replacen(good, bad, 1), "spoilt.ron").unwrap_err();
    problem.to_string()
}

#[test]
fn mistakes_are_told_with_line_and_remedy() {
    let cases = [
        (
            "elbowroom-system/4",
            "elbowroom-system/7",
            "spoilt.ron, line 3: it is written in version 7 of the part or system format; this program reads up to version 4: open it with a newer one",
        ),
        (
            "elbowroom-system/4",
            "elbowroom-shop/1",
            "spoilt.ron, line 3: the format \"elbowroom-shop/1\" is not that of a part or system; write format: \"elbowroom-system/4\" as the first field",
        ),
        (
            "    format: \"elbowroom-system/4\",\n",
            "",
            "spoilt.ron, line 1: this is no Elbowroom part or system: the field format is missing; write format: \"elbowroom-system/4\" as the first field",
        ),
        (
            "    note",
            "    colour",
            "spoilt.ron, line 11: there is no field colour; the fields here are id, name, hidden, note, tube, tooling, stock, path, places, keep, pieces",
        ),
        (
            "od_mm: 50.8",
            "od: 50.8",
            "spoilt.ron, line 13: there is no field od; the fields here are od_mm, wall_mm, material, seam",
        ),
        (
            "wall_mm: 1.5",
            "wall_mm: 30.0",
            "spoilt.ron, line 17: the wall is 30 mm; it must be from 0.05 mm to less than half the outside diameter (25.4 mm)",
        ),
        (
            "wall_mm: 1.5",
            "wall_mm: thin",
            "spoilt.ron, line 14: “thin” stands where it cannot; a number must stand there, such as 50.8",
        ),
        ("welded", "glued", "spoilt.ron, line 16: glued is not known; it must be one of welded, seamless"),
        (
            "400.0, 0.0",
            "NaN, 0.0",
            "spoilt.ron, line 30: NaN is no length; it must be a number from -10000000 to 10000000 mm",
        ),
        (
            "76.2,",
            "",
            "spoilt.ron, line 42: the number of centreline radii is 3; it must be 4, one for each vertex between the ends",
        ),
    ];
    for (good, bad, message) in cases {
        assert_eq!(spoilt(good, bad), message);
    }
}

#[test]
fn a_part_can_be_written_by_hand_in_few_words() {
    let text = r#"(
        format: "elbowroom-part/1", name: "by hand",
        tube: (od_mm: 50.8, wall_mm: 1.5, material: "304 stainless", seam: welded),
        tooling: (die: "50.8 on 76.2"),
        path: bends(bends: [(straight_mm: 200, rotation_deg: 0, angle_deg: 90, clr_mm: 76.2)], tail_mm: 200),
    )"#;
    let part = read_part(text, "test").unwrap();
    assert_eq!(part.tooling.die.as_deref(), Some("50.8 on 76.2"));
    assert_eq!(part.path.bend_form().path.tail(), Length::from_mm(200.0));
}

#[test]
fn a_written_part_looks_like_this() {
    let text = write_part(&common::zigzag());
    let head: Vec<&str> = text.lines().take(10).collect();
    assert!(head[0].starts_with("// An Elbowroom system"), "{text}");
    assert_eq!(
        &head[1..],
        [
            "(",
            "    format: \"elbowroom-system/4\",",
            "    name: \"\",",
            "    units: millimetre,",
            "    active: 1,",
            "    tubes: [",
            "        (",
            "            id: 1,",
            "            name: \"test part\",",
        ]
    );
    assert!(text.contains("\n                    (400.0, 150.0, 0.0),\n"), "{text}");
}

#[test]
fn the_built_in_shop_has_what_it_must() {
    let shop = built_in_shop();
    assert_eq!(format!("{:?}", read_shop(&write_shop(&shop), "test").unwrap()), format!("{shop:?}"));
    assert!(shop.die_sets.len() >= 8);
    for (od, clr) in [(50.8, 76.2), (50.8, 101.6), (60.3, 90.5), (60.3, 120.6)] {
        let die = shop.die_for(Length::from_mm(od), Length::from_mm(clr)).unwrap();
        assert!(die.clamps.len() >= 3 && die.mark_free_bite.mm() == 0.3 && die.largest_bite.mm() == 2.0);
    }
    let clamps = &shop.die_named("50.8 on 76.2").unwrap().clamps;
    let proved: Vec<_> = clamps.iter().map(|clamp| (clamp.length.mm(), clamp.proved_angle.degrees().round())).collect();
    assert_eq!(proved, [(50.0, 45.0), (80.0, 90.0), (125.0, 180.0)]);
    for die in &shop.die_sets {
        // Rows C01 (2 x OD: a machine maker's tooling article, 2021) and C13 (3 x OD at 1.5D to 2D: from
        // memory) bound the longest clamp; the radii are 1.5 or 2 outside diameters, to the dies' rounding.
        let times = die.longest_clamp().unwrap().length / die.od;
        assert!((2.0..=3.5).contains(&times), "{}: {times} x OD", die.name);
        let diameters = die.clr / die.od;
        assert!((diameters - 1.5).abs() < 0.01 || (diameters - 2.0).abs() < 0.01, "{}: {diameters} D", die.name);
        assert!(shop.tubes.iter().any(|tube| die.takes(tube.od)), "{} has no tube", die.name);
    }
}

#[test]
fn a_shop_that_makes_no_sense_is_refused() {
    let text = write_shop(&built_in_shop());
    let refused = |good: &str, bad: &str| {
        assert!(text.contains(good), "{good}");
        read_shop(&text.replacen(good, bad, 1), "shop.ron").unwrap_err().to_string()
    };
    let twice = refused("\"38.1 on 76.2\"", "\"38.1 on 57.15\"");
    assert_eq!(twice, "shop.ron: a die set's name is \"38.1 on 57.15\" twice; it must be given once in a shop");
    let bite = refused("largest_bite_mm: 2.0", "largest_bite_mm: 0.1");
    assert!(
        bite.contains(
            "the largest bite of die set \"38.1 on 57.15\" is 0.1 mm; it must be the mark-free bite (0.3 mm) or more"
        ),
        "{bite}"
    );
    let unknown = refused("hand: right", "hand: right, colour: \"red\"");
    assert!(unknown.starts_with("shop.ron, line ") && unknown.contains("there is no field colour"), "{unknown}");
}
