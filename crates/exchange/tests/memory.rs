//! Every reader takes at most 16 times its file and 64 MiB. Each reads in a process of its own, under a limit set by the
//! system, beyond which it gets no more and falls.
#![cfg(target_os = "linux")]

use std::path::Path;
use std::process::{Command, Output};

use elbowroom_bending::System;
use elbowroom_exchange::{dxf, points_table, step};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{
    BUILT_IN_SHOP_TEXT, FileProblem, read_materials, read_part, read_recovery, read_settings, read_shop, read_system,
    write_system,
};
use elbowroom_workbench::measured_table::{Kind, read_measured};

/// Names what the test that reads is to read, and with which reader.
const ASKED: &str = "ELBOWROOM_TEST_READS";

type Reader = fn(&str) -> Result<(), String>;

fn told<T>(read: Result<T, FileProblem>) -> Result<(), String> {
    read.map(drop).map_err(|problem| problem.to_string())
}

/// Every reader of a file there is.
const READERS: &[(&str, Reader)] = &[
    ("part", |text| told(read_part(text, "a"))),
    ("system", |text| told(read_system(text, "a"))),
    ("recovery", |text| told(read_recovery(text, "a"))),
    ("shop", |text| told(read_shop(text, "a"))),
    ("materials", |text| told(read_materials(text, "a"))),
    ("settings", |text| told(read_settings(text, "a"))),
    ("points table", |text| told(points_table::read(text, "a"))),
    ("step", |text| told(step::read(text.as_bytes(), "a"))),
    ("dxf", |text| told(dxf::read(text.as_bytes(), "a"))),
    ("measured table", |text| {
        read_measured(text, Kind::Points, LengthUnit::Millimetre).map(drop).map_err(|problem| problem.to_string())
    }),
];

/// Reads in the process that [`within`] starts; of itself it reads nothing.
#[test]
fn reads_what_it_is_asked_to() {
    let Ok(asked) = std::env::var(ASKED) else { return };
    let (reader, file) = asked.split_once(':').unwrap();
    let (_, read) = READERS.iter().find(|(name, _)| *name == reader).unwrap();
    let text = std::fs::read_to_string(file).unwrap();
    match read(&text) {
        Ok(()) => println!("READ IT"),
        Err(problem) => println!("REFUSED {}", problem.chars().take(300).collect::<String>()),
    }
}

/// Lets a reader read a file with so much memory to write to (`ulimit -d`, KiB).
fn within(kibibytes: u64, reader: &str, file: &Path) -> Output {
    let mut command = Command::new("sh");
    command
        .arg("-c")
        .arg(format!("ulimit -d {kibibytes} && exec \"$0\" --exact memory::reads_what_it_is_asked_to --nocapture"));
    command.arg(std::env::current_exe().unwrap()).env(ASKED, format!("{reader}:{}", file.display()));
    // A trace of the fall would ask for memory again, and wait for itself for ever.
    command.env("RUST_BACKTRACE", "0");
    command.output().unwrap()
}

/// A table of so many points in a stair.
fn stair(points: usize) -> String {
    let mut text = String::from("x_mm,y_mm,z_mm,clr_mm\n");
    for n in 0..points {
        let clr = if n == 0 || n + 1 == points { "" } else { "20" };
        text += &format!("{},{},0,{clr}\n", n / 2 * 90, n.div_ceil(2) * 90);
    }
    text
}

/// A STEP file of a tube of so many bends.
fn solids(bends: usize) -> String {
    let mut part = elbowroom_workbench::file::demo_parts().next().unwrap().read().unwrap();
    let mut text = String::from("x_mm,y_mm,z_mm,clr_mm\n");
    for n in 0..bends {
        let clr = if n == 0 || n + 1 == bends { "" } else { "90" };
        text += &format!("{},{},0,{clr}\n", n / 2 * 400, n.div_ceil(2) * 400);
    }
    part.path = elbowroom_bending::Path::Vertices(points_table::read(&text, "a").unwrap());
    step::write(&System::of(part), "a").unwrap()
}

/// A drawing of so many lines, each by itself.
fn drawing(lines: usize) -> String {
    let line = |n: usize| format!("0\nLINE\n8\n{}\n10\n{n}.5\n20\n0\n11\n{n}\n21\n9\n", n % 3);
    format!("0\nSECTION\n2\nENTITIES\n{}0\nENDSEC\n0\nEOF\n", (0..lines).map(line).collect::<String>())
}

#[test]
fn no_reader_takes_more_than_sixteen_times_its_file() {
    let museum = |name: &str| {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/museum").join(name);
        std::fs::read_to_string(file).unwrap()
    };
    let mut part = read_part(&museum("part-v1-vertices.ron"), "museum").unwrap();
    part.path = elbowroom_bending::Path::Vertices(points_table::read(&stair(100_000), "a").unwrap());
    let system = write_system(&System::of(part));
    let body = system.split_once('\n').unwrap().1.to_owned();
    let held = "file: \"/a/b.ron\", held: [(length: 1, fnv_1a: 2)], system: ";
    let recovery = format!("(format: \"elbowroom-recovery/3\", {held}{body})");
    let old = museum("part-v1-vertices.ron");
    let point = |n: usize| format!("({}.0, {}.0, 0.0), ", n / 2 * 90, n.div_ceil(2) * 90);
    let from = old.find("points_mm: [").map(|at| at + "points_mm: [".len()).unwrap();
    let to = from + old[from..].find(']').unwrap();
    let part = format!("{}{}{}", &old[..from], (0..150_000).map(point).collect::<String>(), &old[to..]);
    let materials = include_str!("../../../assets/materials.ron");
    let first = materials.find("materials: [").map(|at| at + "materials: [".len()).unwrap();
    let last = materials.rfind(']').unwrap();
    let material = materials[first..last].repeat((3 << 20) / (last - first) + 1);
    let materials = format!("{}{material}{}", &materials[..first], &materials[last..]);
    let shop = BUILT_IN_SHOP_TEXT;
    let first = shop.find("tubes: [").map(|at| at + "tubes: [".len()).unwrap();
    let last = first + shop[first..].find(']').unwrap();
    let tubes = shop[first..last].repeat((3 << 20) / (last - first) + 1);
    let shop = format!("{}{tubes}{}", &shop[..first], &shop[last..]);
    let further: String = (0..150_000).map(|n| format!("    field_{n}: [{n}],\n")).collect();
    let files = [
        ("part", part),
        ("system", system),
        ("recovery", recovery),
        ("shop", shop),
        ("materials", materials),
        ("settings", format!("(\n    dark: true,\n{further})\n")),
        ("points table", stair(190_000)),
        ("step", solids(4000)),
        ("dxf", drawing(60_000)),
        ("measured table", "0 0 0\n".repeat(600_000)),
    ];
    assert_eq!(
        files.each_ref().map(|(name, _)| *name).to_vec(),
        READERS.iter().map(|(name, _)| *name).collect::<Vec<_>>()
    );
    let folder = tempfile::tempdir().unwrap();
    for (reader, text) in &files {
        assert!(text.len() > 2_000_000, "{reader}: {} bytes are no trial", text.len());
        // What is whole, and what breaks off at the very end, when all has been read.
        for broken in [false, true] {
            let file = folder.path().join("file");
            std::fs::write(&file, if broken { text.trim_end().trim_end_matches([')', '\n']) } else { text }).unwrap();
            let output = within(((16 * text.len() as u64) >> 10) + (64 << 10), reader, &file);
            let said = String::from_utf8_lossy(&output.stdout).into_owned();
            let why = String::from_utf8_lossy(&output.stderr).into_owned();
            assert!(output.status.success(), "{reader}, broken {broken}: {said}{why}");
            assert!(said.contains("READ IT") || said.contains("REFUSED"), "{reader}: {said}");
            println!("{reader}, broken {broken}: {}", said.lines().find(|line| line.contains("RE")).unwrap_or(""));
        }
    }
    let file = folder.path().join("file");
    std::fs::write(&file, &files[1].1).unwrap();
    assert!(!within(8 << 10, "system", &file).status.success(), "the limit is felt");
}
