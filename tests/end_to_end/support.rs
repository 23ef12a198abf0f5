//! Running the program in a folder of its own, away from the user's configuration.

use std::ffi::OsStr;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// A folder in which the program runs.
pub struct Bench {
    folder: TempDir,
}

/// What came of a run.
#[derive(Debug)]
pub struct Ran {
    /// Exit code; `None` where the program was killed or crashed.
    pub code: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Bench {
    pub fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// The path of a file in the folder.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file.
    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.path(name), bytes).unwrap();
    }

    /// Reads a file.
    pub fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// The command, ready to run in the folder, with a configuration folder that is empty.
    pub fn command<S: AsRef<OsStr>>(&self, arguments: &[S]) -> Command {
        let mut command = Command::new(elbowroom_tests::windowless_program());
        let home = self.folder.path().join("home");
        command.env_remove("ELBOWROOM_HOME").args(arguments).current_dir(self.folder.path()).stdin(Stdio::null());
        command.env("HOME", &home).env("XDG_CONFIG_HOME", home.join("config")).env("XDG_DATA_HOME", home.join("data"));
        command
    }

    /// Runs the program to its end.
    pub fn run<S: AsRef<OsStr>>(&self, arguments: &[S]) -> Ran {
        let output = self.command(arguments).output().unwrap();
        Ran {
            code: output.status.code(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    /// Runs `check FILE --format json` with more arguments; gives exit code and report.
    pub fn report(&self, file: &str, more: &[&str]) -> (i32, Value) {
        let ran = self.run(&[&["check", file, "--format", "json"], more].concat());
        assert_eq!(ran.err, "");
        (ran.code.unwrap(), serde_json::from_str(&ran.out).unwrap())
    }

    /// Runs the program and expects it to refuse: exit 2, nothing on standard output, each of `wanted` on
    /// standard error, and no panic.
    #[track_caller]
    pub fn refused<S: AsRef<OsStr>>(&self, arguments: &[S], wanted: &[&str]) {
        let ran = self.run(arguments);
        assert_eq!(ran.code, Some(2), "{ran:?}");
        assert_eq!(ran.out, "", "{ran:?}");
        assert!(!ran.err.contains("panicked"), "{}", ran.err);
        for words in wanted {
            assert!(ran.err.contains(words), "\"{words}\" is missing in:\n{}", ran.err);
        }
    }
}

/// A points table with one radius for every bend.
pub fn table(points: &[[f64; 3]], clr_mm: f64) -> String {
    let mut text = String::from("x_mm,y_mm,z_mm,clr_mm\n");
    for (index, [x, y, z]) in points.iter().enumerate() {
        let clr = if index == 0 || index + 1 == points.len() { String::new() } else { clr_mm.to_string() };
        text += &format!("{x},{y},{z},{clr}\n");
    }
    text
}

/// The faults of a report, each once, in alphabetical order.
pub fn faults(report: &Value) -> Vec<&str> {
    let mut faults: Vec<_> =
        report["findings"].as_array().unwrap().iter().map(|finding| finding["fault"].as_str().unwrap()).collect();
    faults.sort_unstable();
    faults.dedup();
    faults
}
