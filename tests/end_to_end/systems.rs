//! Files of several tubes: every task reads them as it reads parts, `--only` picks one, the worst makes the exit code.

use serde_json::Value;

use super::support::{Bench, table};

/// One bend with long legs, which passes; and two with 60 mm between them, which do not.
const PLAIN: &str = "points_mm: [(0, 0, 0), (400, 0, 0), (400, 500, 0)], clr_mm: [76.2]";
const CLOSE: &str = "points_mm: [(0, 0, 0), (400, 0, 0), (400, 212.4, 0), (0, 212.4, 0)], clr_mm: [76.2, 76.2]";
/// The same as the first, a metre above it.
const ABOVE: &str = "points_mm: [(0, 0, 1000), (400, 0, 1000), (400, 500, 1000)], clr_mm: [76.2]";

fn tube(id: u32, name: &str, more: &str, path: &str) -> String {
    format!(
        "(id: {id}, name: \"{name}\", tube: (od_mm: 50.8, wall_mm: 1.5, material: \"304 stainless\", seam: welded), \
         tooling: ({more}), path: vertices({path})),\n"
    )
}

fn system(name: &str, tubes: &[String]) -> String {
    format!("(format: \"elbowroom-system/1\", name: \"{name}\", tubes: [\n{}])", tubes.concat())
}

/// Downpipe, which can be bent, and a tail that cannot.
fn pair() -> String {
    system("Hill", &[tube(7, "Downpipe", "from: finish, hand: left", ABOVE), tube(3, "Tail", "", CLOSE)])
}

#[test]
fn one_tube_reports_the_same_from_either_format() {
    let bench = Bench::new();
    bench.write("system.ron", system("", &[tube(7, "Downpipe", "", CLOSE)]));
    let tube = "tube: (od_mm: 50.8, wall_mm: 1.5, material: \"304 stainless\", seam: welded)";
    bench.write(
        "part.ron",
        format!("(format: \"elbowroom-part/1\", name: \"Downpipe\", {tube}, path: vertices({CLOSE}))"),
    );
    for format in [["--format", "json"], ["--format", "text"]] {
        let ran = |file: &str| bench.run(&["check", file, format[0], format[1]]);
        let (of_part, of_system) = (ran("part.ron"), ran("system.ron"));
        assert_eq!((of_part.code, of_part.out), (of_system.code, of_system.out));
        let only = bench.run(&["check", "system.ron", "--only", "Downpipe", format[0], format[1]]);
        assert_eq!(only.out, ran("part.ron").out);
    }
    let (_, report) = bench.report("system.ron", &[]);
    assert_eq!(report["report"], "elbowroom/1");
    for task in ["program", "compare"] {
        assert_eq!(bench.run(&[task, "part.ron"]).out, bench.run(&[task, "system.ron"]).out, "{task}");
    }
}

#[test]
fn of_several_each_is_reported_and_the_worst_makes_the_exit_code() {
    let bench = Bench::new();
    bench.write("hill.ron", pair());
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!(code, 1);
    assert_eq!(
        (&report["report"], &report["system"], &report["verdict"]["severity"]),
        (&"elbowroom-system/1".into(), &"Hill".into(), &"stop".into())
    );
    let tubes = report["tubes"].as_array().unwrap();
    let names: Vec<_> = tubes.iter().map(|tube| tube["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["Downpipe", "Tail"]);
    let said = report["verdict"]["text"].as_str().unwrap();
    assert_eq!(said, format!("Tail: {}", tubes[1]["check"]["verdict"]["text"].as_str().unwrap()));
    assert_eq!((&tubes[0]["check"]["from"], &tubes[0]["check"]["hand"]), (&"finish".into(), &"left".into()));
    for (tube, only) in tubes.iter().zip(["Downpipe", "Tail"]) {
        let (code, alone) = bench.report("hill.ron", &["--only", only]);
        assert_eq!(code, i32::from(only == "Tail"));
        assert_eq!(tube["check"], alone, "each is the report of that tube");
    }
    let text = bench.run(&["check", "hill.ron"]);
    assert_eq!((text.code, text.err.as_str()), (Some(1), ""));
    let lines: Vec<_> = text.out.lines().collect();
    assert_eq!(lines[0], "Hill: 2 tubes");
    for (line, tube) in lines[1..3].iter().zip(tubes) {
        assert_eq!(
            *line,
            format!("{}: {}", tube["name"].as_str().unwrap(), tube["check"]["verdict"]["text"].as_str().unwrap())
        );
    }
    for name in ["Downpipe", "Tail"] {
        let alone = bench.run(&["check", "hill.ron", "--only", name]).out;
        let headed = format!("\n{name}\n{}\n{alone}", "=".repeat(name.len()));
        assert!(text.out.contains(&headed), "{}", text.out);
    }
    bench.write("sound.ron", system("", &[tube(1, "A", "", PLAIN), tube(2, "B", "", ABOVE)]));
    let (code, report) = bench.report("sound.ron", &["--hand", "left"]);
    assert_eq!((code, &report["system"], &report["verdict"]["severity"]), (0, &Value::Null, &"none".into()));
    assert_eq!(report["tubes"][1]["check"]["hand"], "left", "what is named holds for every tube");
}

#[test]
fn the_other_tasks_want_one_tube_and_list_the_names() {
    let bench = Bench::new();
    bench.write("hill.ron", pair());
    bench.write("measured.csv", "x_mm,y_mm,z_mm\n0,0,0\n400,0,0\n400,500,0\n");
    let names = "\u{201c}Downpipe\u{201d} and \u{201c}Tail\u{201d}";
    let wanted = ["hill.ron: it holds 2 tubes: ", names, "--only \"Downpipe\""];
    let tasks: [&[&str]; 4] = [
        &["program", "hill.ron"],
        &["compare", "hill.ron"],
        &["first-off", "hill.ron", "measured.csv"],
        &["convert", "hill.ron", "out.csv"],
    ];
    for task in tasks {
        bench.refused(task, &wanted);
        let ran = bench.run(&[task, &["--only", "Downpipe"]].concat());
        assert!(ran.err.is_empty() && ran.code != Some(2), "{task:?}: {ran:?}");
        bench.refused(
            &[task, &["--only", "downpipe"]].concat(),
            &["--only: hill.ron holds no tube called \"downpipe\"", names],
        );
    }
    bench.refused(&["check", "hill.ron", "--only", "Head"], &["holds no tube called \"Head\"; it holds ", names]);
    assert_eq!(bench.read("out.csv"), table(&[[0.0, 0.0, 1000.0], [400.0, 0.0, 1000.0], [400.0, 500.0, 1000.0]], 76.2));
    let program = bench.run(&["program", "hill.ron", "--only", "Tail", "--format", "json"]);
    assert_eq!(program.code, Some(1), "{program:?}");
}

#[test]
fn a_table_is_a_tube_of_its_files_name() {
    let bench = Bench::new();
    bench.write("link.csv", table(&[[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 500.0, 0.0]], 76.2));
    let arguments = ["check", "link.csv", "--tube", "50.8x1.5", "--only"];
    assert_eq!(bench.run(&[&arguments[..], &["link"]].concat()).code, Some(0));
    bench.refused(
        &[&arguments[..], &["other"]].concat(),
        &["link.csv holds no tube called \"other\"", "\u{201c}link\u{201d}"],
    );
}

#[test]
fn what_no_system_can_be_is_refused() {
    let bench = Bench::new();
    bench.write("twice.ron", system("", &[tube(1, "A", "", PLAIN), tube(1, "B", "", PLAIN)]));
    bench.refused(
        &["check", "twice.ron"],
        &["twice.ron, line 4: the id 1 of the tube \u{201c}B\u{201d}", "a number of its own"],
    );
    bench.write("names.ron", system("", &[tube(1, "A", "", PLAIN), tube(2, "A", "", PLAIN)]));
    bench.refused(&["check", "names.ron"], &["names.ron, line 4: the name \u{201c}A\u{201d}"]);
    bench.write("none.ron", system("", &[]));
    bench.refused(&["check", "none.ron"], &["none.ron, line 2: the number of tubes is 0"]);
}
