//! The program, running on a display, with a home and an account of its own.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

use crate::account::Entry;
use crate::display::Display;

/// How long something may take on a machine that is busy with other things and draws without a graphics card.
const PATIENCE: Duration = Duration::from_secs(60);
/// How often it is looked for.
const GLANCE: Duration = Duration::from_millis(50);

/// A program that is killed with its owner.
pub struct Program<'a> {
    /// The display it runs on.
    pub display: &'a Display,
    child: Child,
    account: PathBuf,
    log: PathBuf,
}

impl<'a> Program<'a> {
    /// Starts the program on `file`, with `folder` for its home, account and log, and waits for its window.
    pub fn start(display: &'a Display, folder: &Path, file: Option<&Path>) -> Self {
        let (account, log) = (folder.join("account.txt"), folder.join("log.txt"));
        // An account left by a run before would be taken for this one's.
        let _ = std::fs::remove_file(&account);
        let output = std::fs::File::create(&log).expect("a log");
        let child = command(folder)
            .env("DISPLAY", &display.name)
            .env("ELBOWROOM_ACCOUNT", &account)
            .args(file)
            .stdout(Stdio::null())
            .stderr(output)
            .spawn()
            .expect("the program starts");
        let mut program = Self { display, child, account, log };
        program.wait_for("its window", |entry| entry.ready());
        display.focus();
        program
    }

    /// What it shows.
    pub fn shows(&self) -> Entry {
        Entry::last(&self.account).unwrap_or_default()
    }

    /// Waits until it shows something, and gives the entry in which it does.
    pub fn wait_for(&mut self, what: &str, mut seen: impl FnMut(&Entry) -> bool) -> Entry {
        let start = Instant::now();
        loop {
            let entry = self.shows();
            if seen(&entry) {
                return entry;
            }
            let ended = self.child.try_wait().expect("its state is known");
            let log = || std::fs::read_to_string(&self.log).unwrap_or_default();
            assert!(ended.is_none(), "waiting for {what}: it ended with {ended:?}\n{}", log());
            assert!(start.elapsed() < PATIENCE, "waited in vain for {what}; it shows:\n{}\n{}", entry.text, log());
            std::thread::sleep(GLANCE);
        }
    }

    /// The most memory that it has held at once since it began, bytes.
    pub fn most_memory(&self) -> u64 {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).expect("it runs");
        let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB"));
        most.and_then(|most| most.trim().parse::<u64>().ok()).expect("Linux tells it") << 10
    }

    /// Waits until it has ended by itself.
    pub fn wait_for_end(&mut self) -> ExitStatus {
        let start = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().expect("its state is known") {
                return status;
            }
            assert!(start.elapsed() < PATIENCE, "waited in vain for its end; it shows:\n{}", self.shows().text);
            std::thread::sleep(GLANCE);
        }
    }

    /// Kills it as `kill -9` does.
    pub fn kill(&mut self) {
        self.child.kill().expect("it can be killed");
        self.child.wait().expect("it ends");
    }

    /// Types a text over what a field holds, and the return key.
    pub fn type_into(&self, shown: &Entry, field: &str, text: &str) {
        let at = shown.place("widget", field);
        self.display.click(at.unwrap_or_else(|| panic!("there is no {field}:\n{}", shown.text)));
        self.display.keys("ctrl+a");
        self.display.text(text);
        self.display.keys("Return");
    }

    /// Drags with the left button from one place to another, in small steps as a hand does, without letting go.
    pub fn hold(&self, from: (i32, i32), to: (i32, i32)) {
        const STEPS: i32 = 6;
        self.display.point(from);
        self.display.press();
        for step in 1..=STEPS {
            self.display.point((from.0 + (to.0 - from.0) * step / STEPS, from.1 + (to.1 - from.1) * step / STEPS));
        }
    }
}

impl Drop for Program<'_> {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The program in a folder of its own, cut off from the user's display, home and dialogs.
pub fn command(folder: &Path) -> Command {
    let mut command = Command::new(elbowroom_tests::program());
    command
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .env("ELBOWROOM_HOME", folder.join("home"))
        .env("ELBOWROOM_OWN_DIALOGS", "1")
        .env("XDG_RUNTIME_DIR", folder)
        // Mesa's driver that needs no graphics card, where there is one; every driver draws the same.
        .env("WGPU_ADAPTER_NAME", "llvmpipe")
        .current_dir(folder)
        .stdin(Stdio::null());
    command
}
