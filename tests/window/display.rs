//! A virtual display, and hands on its mouse and keyboard.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// Time for the window to hear of a step before the next one. Not a wait for its effect: that is polled for.
const BEAT: Duration = Duration::from_millis(60);

/// A display that ends with its owner.
pub struct Display {
    server: Child,
    /// Its name, such as `:1`.
    pub name: String,
}

/// What is missing on this machine; empty where the tests can run.
pub fn missing() -> Vec<String> {
    let folders: Vec<PathBuf> =
        std::env::var_os("PATH").map(|path| std::env::split_paths(&path).collect()).unwrap_or_default();
    let tools = ["Xvfb", "xdotool", "import"];
    let lacking = tools.into_iter().filter(|tool| !folders.iter().any(|folder| folder.join(tool).is_file()));
    let mut missing: Vec<String> = lacking.map(str::to_owned).collect();
    let named = ["VK_DRIVER_FILES", "VK_ICD_FILENAMES"].iter().any(|name| std::env::var_os(name).is_some());
    let shelves = ["/usr/share/vulkan/icd.d", "/etc/vulkan/icd.d", "/usr/local/share/vulkan/icd.d"];
    let filled = |folder: &&str| std::fs::read_dir(folder).is_ok_and(|mut files| files.next().is_some());
    if !named && !shelves.iter().any(filled) {
        missing.push("a Vulkan driver".into());
    }
    missing
}

/// A display, or `None` with a loud line where this machine cannot have one.
pub fn open(width: u32, height: u32) -> Option<Display> {
    let missing = missing();
    if !missing.is_empty() {
        let text = format!("WINDOW TEST SKIPPED: this machine has no {}", missing.join(", no "));
        assert!(std::env::var("CI").is_err(), "{text}, and CI is set");
        eprintln!("{text}");
        return None;
    }
    let mut server = Command::new("Xvfb")
        .args(["-displayfd", "1", "-nolisten", "tcp", "-screen", "0", &format!("{width}x{height}x24")])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("Xvfb starts");
    let mut number = String::new();
    let said = server.stdout.take().expect("its output is piped");
    BufReader::new(said).read_line(&mut number).expect("Xvfb says which display it took");
    Some(Display { server, name: format!(":{}", number.trim()) })
}

impl Display {
    fn tool(&self, arguments: &[&str]) -> String {
        let done = Command::new("xdotool").env("DISPLAY", &self.name).args(arguments).output().expect("xdotool runs");
        String::from_utf8_lossy(&done.stdout).into_owned()
    }

    /// Gives the program's window the keyboard; no window manager runs here that would.
    pub fn focus(&self) {
        let found = self.tool(&["search", "--onlyvisible", "--name", "Elbowroom"]);
        if let Some(window) = found.lines().last() {
            self.tool(&["windowfocus", "--sync", window]);
        }
    }

    /// Moves the mouse.
    pub fn point(&self, (x, y): (i32, i32)) {
        self.tool(&["mousemove", "--sync", &x.to_string(), &y.to_string()]);
        std::thread::sleep(BEAT);
    }

    /// Presses and releases the left button there.
    pub fn click(&self, at: (i32, i32)) {
        self.point(at);
        self.press();
        self.release();
    }

    /// Presses the left button.
    pub fn press(&self) {
        self.tool(&["mousedown", "1"]);
        std::thread::sleep(BEAT);
    }

    /// Releases the left button.
    pub fn release(&self) {
        self.tool(&["mouseup", "1"]);
        std::thread::sleep(BEAT);
    }

    /// Presses keys, such as `ctrl+z`.
    pub fn keys(&self, keys: &str) {
        self.tool(&["key", "--clearmodifiers", keys]);
        std::thread::sleep(BEAT);
    }

    /// Types a text.
    pub fn text(&self, text: &str) {
        self.tool(&["type", "--delay", "40", "--", text]);
        std::thread::sleep(BEAT);
    }

    /// The colours of the whole display, as rows of red, green and blue.
    pub fn picture(&self, folder: &Path) -> Picture {
        let file = folder.join("picture.ppm");
        let done = Command::new("import")
            .env("DISPLAY", &self.name)
            .args(["-window", "root", "-depth", "8"])
            .arg(&file)
            .status()
            .expect("import runs");
        assert!(done.success(), "import takes a picture");
        Picture::read(&std::fs::read(&file).expect("the picture was written"))
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

/// A picture of a display.
pub struct Picture {
    width: usize,
    height: usize,
    bytes: Vec<u8>,
}

impl Picture {
    /// Reads a binary portable pixmap with 8 bits a channel.
    fn read(file: &[u8]) -> Self {
        let mut words = Vec::new();
        let mut at = 0;
        while words.len() < 4 {
            let word: Vec<u8> = file[at..].iter().copied().take_while(|byte| !byte.is_ascii_whitespace()).collect();
            at += word.len() + 1;
            words.push(String::from_utf8_lossy(&word).into_owned());
        }
        assert_eq!((words[0].as_str(), words[3].as_str()), ("P6", "255"), "a plain picture");
        let number = |word: &String| word.parse().expect("a size");
        Self { width: number(&words[1]), height: number(&words[2]), bytes: file[at..].to_vec() }
    }

    /// The brightness of each pixel within `reach` of a place, 0 to 1, as a picture turned to grey keeps it: relative
    /// luminance (W3C, Web Content Accessibility Guidelines 2.1; written from memory).
    pub fn grey_near(&self, (x, y): (i32, i32), reach: i32) -> Vec<f64> {
        let linear = |byte: u8| {
            let share = f64::from(byte) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        let rows = (y - reach).max(0)..(y + reach).min(self.height as i32);
        let columns = (x - reach).max(0)..(x + reach).min(self.width as i32);
        let firsts =
            rows.flat_map(|row| columns.clone().map(move |column| 3 * (row as usize * self.width + column as usize)));
        let grey = |first: usize| {
            let [red, green, blue] = [0, 1, 2].map(|channel| linear(self.bytes[first + channel]));
            0.2126 * red + 0.7152 * green + 0.0722 * blue
        };
        firsts.map(grey).collect()
    }

    /// How many pixels within `reach` of a place are vermillion, however the light falls on them: the colour of
    /// what stops a tube from being bent, #D55E00 after Okabe and Ito.
    pub fn vermillion_near(&self, (x, y): (i32, i32), reach: i32) -> usize {
        let rows = (y - reach).max(0)..(y + reach).min(self.height as i32);
        let columns = (x - reach).max(0)..(x + reach).min(self.width as i32);
        let pixels = rows.flat_map(|row| columns.clone().map(move |column| (row, column)));
        let is_vermillion = |(row, column): &(i32, i32)| {
            let first = 3 * (*row as usize * self.width + *column as usize);
            let [red, green, blue] = [0, 1, 2].map(|channel| i32::from(self.bytes[first + channel]));
            red > 90 && 100 * green < 62 * red && 100 * blue < 35 * red
        };
        pixels.filter(is_vermillion).count()
    }
}
