//! How much memory reading takes: at most 16 times the file and 64 MiB. The program runs under a limit set by
//! the system, beyond which it gets no more and falls.
#![cfg(target_os = "linux")]

use std::process::Command;

use super::support::{Bench, Ran, table};

/// Runs the program with so much memory to write to (`ulimit -d`, KiB).
fn within(bench: &Bench, kibibytes: u64, arguments: &[&str]) -> Ran {
    let plain = bench.command(arguments);
    let mut command = Command::new("sh");
    command.arg("-c").arg(format!("ulimit -d {kibibytes} && exec \"$0\" \"$@\""));
    command.arg(plain.get_program()).args(plain.get_args()).stdin(std::process::Stdio::null());
    command.current_dir(bench.path("."));
    for (name, value) in plain.get_envs() {
        match value {
            Some(value) => command.env(name, value),
            None => command.env_remove(name),
        };
    }
    // A trace of the fall would ask for memory again, and wait for itself for ever.
    command.env("RUST_BACKTRACE", "0");
    let output = command.output().unwrap();
    Ran {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// What reading a file may take, KiB.
fn allowed(bench: &Bench, file: &str) -> u64 {
    ((16 * std::fs::metadata(bench.path(file)).unwrap().len()) >> 10) + (64 << 10)
}

/// A table of so many bends: a zigzag that never meets itself.
fn zigzag(bends: usize) -> String {
    let points: Vec<_> =
        (0..bends + 2).map(|n| [(n as f64 / 2.0).floor() * 90.0, (n as f64 / 2.0).ceil() * 90.0, 0.0]).collect();
    table(&points, 20.0)
}

#[test]
fn the_limit_is_felt() {
    let bench = Bench::new();
    bench.write("table.csv", zigzag(20_000));
    let ran = within(&bench, 2 << 10, &["check", "table.csv", "--tube", "10x1"]);
    assert!(!matches!(ran.code, Some(0 | 1)), "{:?}", ran.code);
}

#[test]
fn a_table_of_a_hundred_thousand_bends_is_checked_within_200_mib() {
    let bench = Bench::new();
    // A square stair that climbs clear of itself and stays within ten kilometres.
    let corners = [[0.0, 0.0], [400.0, 0.0], [400.0, 400.0], [0.0, 400.0]];
    let points: Vec<_> = (0..100_002).map(|n| [corners[n % 4][0], corners[n % 4][1], n as f64 * 99.0]).collect();
    bench.write("table.csv", table(&points, 90.5));
    for format in ["text", "json"] {
        // The program itself, which is no memory to write to, takes the rest.
        let ran = within(&bench, 180 << 10, &["check", "table.csv", "--tube", "60.3x2", "--format", format]);
        assert_eq!(ran.code, Some(1), "{format}: {}", ran.err);
    }
}

/// Every bend has three things in its way: what is found is as much again as what is drawn, and what is said of it
/// several times that.
#[test]
fn a_bad_table_of_a_hundred_thousand_bends_is_checked_within_200_mib() {
    let bench = Bench::new();
    // Straights of 9 mm, on which no clamp closes.
    let points: Vec<_> =
        (0..100_002).map(|n| [(n as f64 / 2.0).floor() * 190.0, (n as f64 / 2.0).ceil() * 190.0, 0.0]).collect();
    bench.write("table.csv", table(&points, 90.5));
    for (format, least) in [("text", 100 << 20), ("json", 250 << 20)] {
        // The program itself, which is no memory to write to, takes the rest.
        let ran = within(&bench, 180 << 10, &["check", "table.csv", "--tube", "60.3x2", "--format", format]);
        assert_eq!(ran.code, Some(1), "{format}: {}", ran.err);
        assert!(ran.out.len() > least, "{format}: it says only {} bytes", ran.out.len());
    }
}

#[test]
fn no_reader_takes_more_than_sixteen_times_its_file() {
    let bench = Bench::new();
    // What is wrong stands at the end, so that all is read and nothing comes after.
    let points = zigzag(190_000) + "0,0,nowhere,\n";
    bench.write("points.csv", points);
    bench.write("measured.csv", "0 0 0\n".repeat(1_500_000) + "0 0 nowhere\n");
    bench.write("short.csv", "0\n".repeat(4_000_000));
    bench.write("wide.csv", "0,".repeat(4_000_000));
    bench.write("good.csv", zigzag(2));
    bench.write("table.csv", zigzag(100_000));
    assert_eq!(bench.run(&["convert", "table.csv", "system.ron", "--tube", "10x1"]).code, Some(0));
    let system = bench.read("system.ron");
    bench.write("broken.ron", &system[..system.len() - 4]);
    bench.write("list.ron", format!("(format: \"elbowroom-shop/1\", name: \"\", tubes: [{}", "(),".repeat(2_000_000)));
    for (file, arguments) in [
        ("points.csv", vec!["check", "points.csv", "--tube", "10x1"]),
        ("measured.csv", vec!["first-off", "good.csv", "measured.csv", "--tube", "10x1"]),
        ("short.csv", vec!["first-off", "good.csv", "short.csv", "--tube", "10x1"]),
        ("wide.csv", vec!["first-off", "good.csv", "wide.csv", "--tube", "10x1"]),
        ("broken.ron", vec!["check", "broken.ron"]),
        ("list.ron", vec!["check", "good.csv", "--tube", "10x1", "--shop", "list.ron"]),
    ] {
        let ran = within(&bench, allowed(&bench, file), &arguments);
        assert_eq!(ran.code, Some(2), "{file}: {}", ran.err.chars().take(500).collect::<String>());
        assert!(ran.err.contains(file), "{file}: {}", ran.err.chars().take(500).collect::<String>());
    }
    let ran = within(&bench, allowed(&bench, "system.ron"), &["convert", "system.ron", "back.csv"]);
    assert_eq!(ran.code, Some(0), "{}", ran.err.chars().take(500).collect::<String>());
}
