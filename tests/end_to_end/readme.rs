//! The README tells the truth: its commands run, its contract names every field, its demo parts are there.

use serde_json::Value;

use super::support::{Bench, table};

fn readme() -> String {
    std::fs::read_to_string(root().join("README.md")).unwrap()
}

fn root() -> std::path::PathBuf {
    elbowroom_tests::root()
}

/// Every key of a report, at every depth.
fn keys(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => fields.iter().for_each(|(key, value)| {
            found.push(key.clone());
            keys(value, found);
        }),
        Value::Array(values) => values.iter().for_each(|value| keys(value, found)),
        _ => {}
    }
}

#[test]
fn every_field_of_the_report_is_in_the_readme() {
    let bench = Bench::new();
    let points = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 212.4, 0.0], [0.0, 212.4, 0.0]];
    bench.write("u.csv", table(&points, 76.2));
    let (_, report) = bench.report("u.csv", &["--tube", "50.8x1.5"]);
    let (mut found, readme) = (Vec::new(), readme());
    keys(&report, &mut found);
    for task in ["program", "compare"] {
        let ran = bench.run(&[task, "u.csv", "--tube", "50.8x1.5", "--format", "json"]);
        keys(&serde_json::from_str(&ran.out).unwrap(), &mut found);
    }
    bench.write("measured.csv", "x_mm,y_mm,z_mm\n0,0,0\n400,0,0\n400,212.4,0\n0,212.4,0\n");
    let ran = bench.run(&["first-off", "u.csv", "measured.csv", "--tube", "50.8x1.5", "--format", "json"]);
    keys(&serde_json::from_str(&ran.out).unwrap(), &mut found);
    let tube = "tube: (od_mm: 50.8, wall_mm: 1.5, material: \"304 stainless\", seam: welded), path: vertices(points_mm: [(0, 0, 0), (9, 0, 0)], clr_mm: [])";
    let tubes = [1, 2].map(|id| format!("(id: {id}, name: \"{id}\", {tube})")).join(", ");
    let obstacles =
        "(id: 1, name: \"Floor\", stands: (at_mm: (0, 0, -90), along: (1, 0, 0), beside: (0, 1, 0)), shape: plane)";
    bench.write("two.ron", format!("(format: \"elbowroom-system/4\", tubes: [{tubes}], obstacles: [{obstacles}])"));
    keys(&bench.report("two.ron", &[]).1, &mut found);
    assert!(found.len() > 30, "{found:?}");
    let missing: Vec<_> = found.iter().filter(|key| !readme.contains(&format!("`{key}`"))).collect();
    assert!(missing.is_empty(), "the README does not name {missing:?}");
}

#[test]
fn every_option_of_the_tasks_is_in_the_readme() {
    let help: String = ["check", "program", "compare", "first-off", "sheet"]
        .map(|task| Bench::new().run(&[task, "--help"]).out)
        .concat();
    let options = help.split_whitespace().filter(|word| word.starts_with("--") && *word != "--help");
    let readme = readme();
    let missing: Vec<_> = options.filter(|option| !readme.contains(&format!("`{option}"))).collect();
    assert!(missing.is_empty(), "the README does not name {missing:?}");
}

#[test]
fn every_demo_part_is_in_the_readme() {
    let readme = readme();
    for entry in std::fs::read_dir(root().join("demo-parts")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let stem = name.strip_suffix(".ron").unwrap();
        assert!(readme.contains(&format!("`{stem}`")) || stem == "expected", "{stem} is missing in the README");
    }
}

/// The commands under "Without a window", run in their order in a copy of the place where they are meant.
#[test]
fn the_commands_of_the_readme_run() {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("demo-parts")).unwrap();
    for entry in std::fs::read_dir(root().join("demo-parts")).unwrap() {
        let path = entry.unwrap().path();
        std::fs::copy(&path, bench.path("demo-parts").join(path.file_name().unwrap())).unwrap();
    }
    let readme = readme();
    let section = readme.split("## Without a window").nth(1).unwrap().split("```").nth(1).unwrap();
    let commands: Vec<Vec<&str>> = section
        .lines()
        .filter_map(|line| line.strip_prefix("elbowroom "))
        .map(|line| line.split('#').next().unwrap().split_whitespace().collect())
        .collect();
    assert!(commands.len() >= 6, "{section}");
    let table = "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n300,0,0,90.5\n300,400,0,\n";
    bench.write("points.csv", table);
    bench.write("measured.csv", "x_mm,y_mm,z_mm\n0.4,0,0\n300,0.3,0\n300,400,0.2\n");
    bench.write("second.csv", "x_mm,y_mm,z_mm\n0.1,0,0\n300,0.1,0\n300,400,0.1\n");
    let tube = |id: u32, name: &str| {
        let z = 500 * id;
        format!(
            "(id: {id}, name: \"{name}\", tube: (od_mm: 60.3, wall_mm: 2.0, material: \"304 stainless\", seam: welded), \
             path: vertices(points_mm: [(0, 0, {z}), (300, 0, {z}), (300, 400, {z})], clr_mm: [90.5]))"
        )
    };
    let tubes = [tube(1, "Downpipe"), tube(2, "Tail")].join(", ");
    bench.write("hill.ron", format!("(format: \"elbowroom-system/1\", tubes: [{tubes}])"));
    bench.write("chassis.obj", "v 0 0 0\nv 900 0 0\nv 0 900 0\nf 1 2 3\n");
    for command in commands {
        let ran = bench.run(&command);
        // What a reader takes for granted is told; nothing else is.
        let told = ran.err.lines().filter(|line| !line.ends_with("304 stainless is assumed, welded."));
        assert_eq!((ran.code, told.collect::<String>().as_str()), (Some(0), ""), "{command:?}");
    }
    // The example of a points table is one.
    let example = readme.split("```text").nth(1).unwrap().split("```").next().unwrap();
    bench.write("example.csv", example.trim_start());
    assert_eq!(bench.run(&["check", "example.csv", "--tube", "60.3x2"]).code, Some(0), "{example}");
}
