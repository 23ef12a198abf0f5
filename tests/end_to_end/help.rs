//! `--help`, `--version`, `explain`, and a build without a window.

use super::support::Bench;

#[test]
fn help_and_version_are_on_standard_output_with_examples() {
    let bench = Bench::new();
    for task in [
        &["--help"][..],
        &["check", "--help"],
        &["program", "--help"],
        &["explain", "--help"],
        &["convert", "--help"],
        &["help"],
    ] {
        let ran = bench.run(task);
        assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{task:?}");
        assert!(ran.out.contains("Examples:"), "{task:?}: {}", ran.out);
    }
    let ran = bench.run(&["--version"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), concat!("elbowroom ", env!("CARGO_PKG_VERSION"), "\n")));
}

#[test]
fn every_option_of_the_contract_is_in_the_help() {
    let help = Bench::new().run(&["check", "--help"]).out;
    for option in
        ["--format", "--shop", "--tube", "--die", "--clamp", "--around", "--clearance", "text", "json", "Exit codes"]
    {
        assert!(help.contains(option), "{option} is missing:\n{help}");
    }
}

#[test]
fn a_wrong_command_line_is_told_and_is_2() {
    let bench = Bench::new();
    bench.refused(&["check"], &["FILE", "Usage"]);
    bench.refused(&["check", "a.csv", "--colour"], &["--colour"]);
    bench.refused(&["check", "a.csv", "--format", "xml"], &["xml", "json"]);
    bench.refused(&["convert", "a.csv"], &["OUT"]);
    bench.refused(
        &["chekc", "a.csv"],
        &["\"chekc\" is no task", "check, program, compare, first-off, sheet, explain and convert"],
    );
}

#[test]
fn explain_lists_every_check_and_shows_each_page() {
    let bench = Bench::new();
    let list = bench.run(&["explain"]);
    assert_eq!((list.code, list.err.as_str()), (Some(0), ""));
    let faults: Vec<_> =
        list.out.lines().filter_map(|line| line.strip_prefix("  ")).filter_map(|line| line.split(' ').next()).collect();
    let named = [
        "straight-too-short",
        "clamp-across-arc",
        "grip-too-short",
        "lead-too-short-to-clamp",
        "tail-too-short-to-hold",
        "end-not-square",
        "arcs-overlap",
        "angle-beyond-machine",
        "no-die-for-radius",
        "blank-too-long",
        "tube-meets-itself",
    ];
    for fault in named {
        assert!(faults.contains(&fault), "{fault} is missing:\n{}", list.out);
    }
    for fault in faults {
        let page = bench.run(&["explain", fault]);
        assert_eq!(page.code, Some(0), "{fault}");
        assert!(page.out.lines().next().unwrap().ends_with(&format!(" ({fault})")), "{}", page.out);
        for heading in ["What it looks for", "Limit and its source", "Cure and its risk"] {
            assert!(page.out.contains(heading), "{fault}: {heading} is missing");
        }
    }
    bench.refused(&["explain", "gremlins"], &["no check named \"gremlins\"", "clamp-across-arc"]);
}

#[test]
fn a_build_without_a_window_says_so() {
    let bench = Bench::new();
    bench.refused::<&str>(&[], &["has no window", "elbowroom --help"]);
    bench.refused(&["part.ron"], &["has no window"]);
}
