//! What is no plain file, programs that are killed while they write, and two that write at once.
#![cfg(target_os = "linux")]

use std::fs::{self, File};
use std::io::{Read, Write};
use std::os::unix::fs::{FileTypeExt, symlink};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use super::support::{Bench, table};

/// A bench with two tables of the same tube, `a.csv` and `b.csv`, of as many bends as named.
fn bench(bends: usize) -> Bench {
    let bench = Bench::new();
    for (name, clr) in [("a.csv", 90.5), ("b.csv", 120.6)] {
        let points: Vec<_> =
            (0..bends + 2).map(|n| [(n as f64 / 2.0).floor() * 400.0, (n as f64 / 2.0).ceil() * 400.0, 0.0]).collect();
        bench.write(name, table(&points, clr));
    }
    bench
}

/// The arguments that make a part of a table.
fn convert<'a>(from: &'a str, to: &'a str) -> [&'a str; 5] {
    ["convert", from, to, "--tube", "60.3x2"]
}

fn pipe(path: &Path) {
    assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
}

/// The files in the folder that nobody asked for.
fn litter(bench: &Bench, asked_for: &[&str]) -> Vec<String> {
    let names = fs::read_dir(bench.path(".")).unwrap().map(|entry| entry.unwrap().file_name());
    let names = names.map(|name| name.to_string_lossy().into_owned());
    names.filter(|name| name != "home" && !asked_for.contains(&name.as_str())).collect()
}

#[test]
fn a_pipe_that_nobody_writes_to_is_refused() {
    let bench = Bench::new();
    pipe(&bench.path("pipe.csv"));
    bench.refused(&["check", "pipe.csv", "--tube", "60.3x2"], &["pipe.csv", "nobody writes to it"]);
}

#[test]
fn a_pipe_that_somebody_writes_to_is_read() {
    let bench = bench(2);
    pipe(&bench.path("pipe.csv"));
    let plain = bench.run(&["check", "a.csv", "--tube", "60.3x2"]);
    let child = bench.command(&["check", "pipe.csv", "--tube", "60.3x2"]).stdout(Stdio::piped()).spawn().unwrap();
    let text = bench.read("a.csv");
    let mut writer = File::options().write(true).open(bench.path("pipe.csv")).unwrap();
    let (first, rest) = text.split_at(text.len() / 2);
    writer.write_all(first.as_bytes()).unwrap();
    std::thread::sleep(Duration::from_millis(50));
    writer.write_all(rest.as_bytes()).unwrap();
    drop(writer);
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    // The part is named after its file; all else is the same.
    assert_eq!(said.replace("pipe", "a"), plain.out.replace("pipe", "a"));
}

#[test]
fn a_pipe_is_written_through_and_stays_a_pipe() {
    let bench = bench(2);
    pipe(&bench.path("pipe.ron"));
    bench.refused(&convert("a.csv", "pipe.ron"), &["pipe.ron", "nobody reads from it"]);
    let path = bench.path("pipe.ron");
    // Opened for both, so that it is there before the program looks.
    let mut reader = File::options().read(true).write(true).open(&path).unwrap();
    assert_eq!(bench.run(&convert("a.csv", "pipe.ron")).code, Some(0));
    assert!(fs::metadata(&path).unwrap().file_type().is_fifo());
    bench.run(&convert("a.csv", "plain.ron"));
    let plain = bench.read("plain.ron").replace("\"plain\"", "\"pipe\"");
    let mut out = vec![0; plain.len()];
    reader.read_exact(&mut out).unwrap();
    assert_eq!(String::from_utf8(out).unwrap(), plain);
}

#[test]
fn a_device_is_written_through_and_a_folder_refused() {
    let bench = bench(2);
    symlink("/dev/null", bench.path("null.ron")).unwrap();
    assert_eq!(bench.run(&convert("a.csv", "null.ron")).code, Some(0));
    assert_eq!(fs::read_link(bench.path("null.ron")).unwrap(), Path::new("/dev/null"));
    assert!(fs::metadata("/dev/null").unwrap().file_type().is_char_device());
    symlink("/dev/full", bench.path("full.ron")).unwrap();
    bench.refused(&convert("a.csv", "full.ron"), &["full.ron", "there is no space left on the disk"]);
    symlink("/dev/stdout", bench.path("out.ron")).unwrap();
    let ran = bench.run(&convert("a.csv", "out.ron"));
    assert!(ran.code == Some(0) && ran.out.starts_with("// An Elbowroom system"), "{ran:?}");
    assert_eq!(fs::read_link(bench.path("out.ron")).unwrap(), Path::new("/dev/stdout"));
    fs::create_dir(bench.path("folder.ron")).unwrap();
    bench.refused(&convert("a.csv", "folder.ron"), &["folder.ron", "there is a folder of that name"]);
}

#[test]
fn a_link_stays_a_link_even_where_it_leads_to_nothing_yet() {
    let bench = bench(2);
    fs::create_dir(bench.path("parts")).unwrap();
    symlink("parts/new.ron", bench.path("link.ron")).unwrap();
    symlink("link.ron", bench.path("again.ron")).unwrap();
    for _ in 0..2 {
        assert_eq!(bench.run(&convert("a.csv", "again.ron")).code, Some(0));
        assert_eq!(fs::read_link(bench.path("again.ron")).unwrap(), Path::new("link.ron"));
        assert_eq!(fs::read_link(bench.path("link.ron")).unwrap(), Path::new("parts/new.ron"));
        assert!(bench.read("parts/new.ron").starts_with("// An Elbowroom system"));
    }
    symlink("b.ron", bench.path("circle.ron")).unwrap();
    symlink("circle.ron", bench.path("b.ron")).unwrap();
    let ran = bench.run(&convert("a.csv", "circle.ron"));
    assert!(ran.code == Some(2) && ran.err.contains("circle.ron"), "{ran:?}");
}

#[test]
fn what_a_killed_program_leaves_is_swept_by_the_next() {
    let bench = bench(3000);
    bench.run(&convert("a.csv", "out.ron"));
    let whole = bench.read("out.ron");
    for delay in 0..24 {
        let mut child = bench.command(&convert("a.csv", "out.ron")).stdout(Stdio::null()).spawn().unwrap();
        std::thread::sleep(Duration::from_millis(delay * 2));
        child.kill().unwrap();
        child.wait().unwrap();
        assert!(bench.read("out.ron") == whole, "half a file after {delay}");
    }
    assert_eq!(bench.run(&convert("a.csv", "out.ron")).code, Some(0));
    assert_eq!(litter(&bench, &["a.csv", "b.csv", "out.ron"]), [""; 0]);
}

#[test]
fn two_that_write_at_once_both_end_whole() {
    let bench = bench(300);
    let whole = ["a.csv", "b.csv"].map(|from| {
        bench.run(&convert(from, "out.ron"));
        bench.read("out.ron")
    });
    for _ in 0..12 {
        let both = ["a.csv", "b.csv"].map(|from| {
            let mut command = bench.command(&convert(from, "out.ron"));
            command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
        });
        for child in both {
            let output = child.wait_with_output().unwrap();
            assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        }
        assert!(whole.contains(&bench.read("out.ron")));
    }
    assert_eq!(litter(&bench, &["a.csv", "b.csv", "out.ron"]), [""; 0]);
}
