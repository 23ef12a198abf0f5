//! Every task with every kind of file, and `convert` with every pair of them: whatever comes of it, the exit code and a word
//! say so, and nothing is written but what was asked for.

use std::collections::BTreeSet;

use elbowroom_workbench::file::{BUILT_IN_SHOP_TEXT, demo_parts};

use super::support::{Bench, Ran, table};

const POINTS: [[f64; 3]; 3] = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 500.0, 0.0]];

/// Every kind of file that a person might name, by its name, and whether it holds tubes.
fn bench() -> (Bench, Vec<(&'static str, bool)>) {
    let bench = Bench::new();
    let museum = |name: &str| {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("museum");
        std::fs::read_to_string(folder.join(name)).unwrap()
    };
    let today = elbowroom_workbench::file::write_part(&demo_parts().next().unwrap().read().unwrap());
    let files: [(&str, String, bool); 12] = [
        ("part.ron", museum("part-v1-vertices.ron"), true),
        ("several.ron", museum("system-v1.ron"), true),
        ("today.ron", today.clone(), true),
        ("points.csv", table(&POINTS, 90.5), true),
        ("measured.csv", "x_mm,y_mm,z_mm\n0,0,0\n400,0,0\n400,500,0\n".into(), false),
        ("rows.csv", "straight_mm,rotation_deg,angle_deg\n309.5,0,90\n409.5,,\n".into(), false),
        ("shop.ron", BUILT_IN_SHOP_TEXT.into(), false),
        ("settings.ron", "(dark: true)".into(), false),
        ("empty.ron", String::new(), false),
        ("empty.csv", String::new(), false),
        ("part.txt", today.clone(), false),
        ("part", today, false),
    ];
    for (name, text, _) in &files {
        bench.write(name, text);
    }
    std::fs::create_dir(bench.path("folder.ron")).unwrap();
    let mut names: Vec<_> = files.iter().map(|(name, _, holds)| (*name, *holds)).collect();
    names.extend([("folder.ron", false), ("gone.ron", false), ("gone.csv", false)]);
    (bench, names)
}

/// What holds of every run: it ends by itself with a code of the contract, and whoever reads is told.
#[track_caller]
fn tells(ran: &Ran, arguments: &[&str], file: &str) {
    assert!(!ran.err.contains("panicked"), "{arguments:?}: {ran:?}");
    match ran.code {
        Some(0 | 1) => assert!(!ran.out.is_empty(), "{arguments:?} says nothing: {ran:?}"),
        Some(2) => {
            assert!(ran.out.is_empty(), "{arguments:?}: {ran:?}");
            assert!(ran.err.starts_with("elbowroom: ") && ran.err.contains(file), "{arguments:?}: {ran:?}");
            assert!(ran.err.lines().count() == 1 && ran.err.len() > 30, "{arguments:?}: {ran:?}");
        }
        _ => panic!("{arguments:?}: {ran:?}"),
    }
}

fn listed(bench: &Bench) -> BTreeSet<(String, Vec<u8>)> {
    let entries = std::fs::read_dir(bench.path("")).unwrap().map(Result::unwrap);
    let plain = entries.filter(|entry| entry.path().is_file());
    plain.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read(entry.path()).unwrap())).collect()
}

#[test]
fn every_task_says_what_came_of_every_kind_of_file() {
    let (bench, files) = bench();
    let before = listed(&bench);
    for (file, holds_tubes) in &files {
        for task in ["check", "program", "compare", "first-off"] {
            let mut arguments = vec![task, *file, "--shop", "built-in"];
            if file.ends_with(".csv") {
                arguments.extend(["--tube", "60.3x2"]);
            }
            if *file == "several.ron" {
                arguments.extend(["--only", "Tail"]);
            }
            if task == "first-off" {
                arguments.push("measured.csv");
            }
            let ran = bench.run(&arguments);
            tells(&ran, &arguments, file);
            assert_eq!(ran.code != Some(2), *holds_tubes, "{arguments:?}: {ran:?}");
        }
        let arguments = ["check", "today.ron", "--shop", file];
        let ran = bench.run(&arguments);
        tells(&ran, &arguments, file);
        assert_eq!(ran.code != Some(2), *file == "shop.ron", "{arguments:?}: {ran:?}");
        let arguments = ["first-off", "points.csv", file, "--tube", "60.3x2", "--shop", "built-in"];
        let ran = bench.run(&arguments);
        tells(&ran, &arguments, file);
        let measured = ["measured.csv", "rows.csv", "points.csv"].contains(file);
        assert_eq!(ran.code != Some(2), measured, "{arguments:?}: {ran:?}");
    }
    assert_eq!(listed(&bench), before, "a task that only reads has written");
}

#[test]
fn every_pair_is_converted_or_refused_with_a_word_and_nothing_is_written_then() {
    let (bench, files) = bench();
    let before = listed(&bench);
    let (mut done, mut refused) = (Vec::new(), 0);
    for (from, holds_tubes) in &files {
        for to in ["out.ron", "out.csv", "OUT.RON", "out.txt", "out"] {
            for tube in [&[][..], &["--tube", "60.3x2"]] {
                let arguments = [&["convert", from, to][..], tube].concat();
                let ran = bench.run(&arguments);
                tells(&ran, &arguments, "");
                if ran.code == Some(0) {
                    assert!(*holds_tubes && ran.out.contains(to) && bench.path(to).exists(), "{arguments:?}: {ran:?}");
                    done.push(format!("{from} {to}{}", if tube.is_empty() { "" } else { " --tube" }));
                    let mut check = vec!["check", to, "--shop", "built-in"];
                    check.extend(if to.ends_with("csv") { &["--tube", "60.3x2"][..] } else { &[] });
                    assert_ne!(bench.run(&check).code, Some(2), "what {arguments:?} wrote cannot be read");
                    std::fs::remove_file(bench.path(to)).unwrap();
                } else {
                    refused += 1;
                    assert!(ran.err.contains(from) || ran.err.contains(to), "{arguments:?}: {ran:?}");
                }
                assert_eq!(listed(&bench), before, "{arguments:?}");
            }
        }
    }
    let wanted = [
        "part.ron out.ron",
        "part.ron out.csv",
        "part.ron OUT.RON",
        "several.ron out.ron",
        "several.ron OUT.RON",
        "today.ron out.csv",
        "points.csv out.ron --tube",
        "points.csv OUT.RON --tube",
    ];
    assert_eq!(done, wanted, "{refused} were refused");
}
