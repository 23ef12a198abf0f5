//! Reads the account that the program keeps of what it shows.

use std::path::Path;

/// The last complete entry of an account.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry {
    /// All its lines.
    pub text: String,
}

impl Entry {
    /// The last entry whose end is there; `None` where there is none yet.
    pub fn last(file: &Path) -> Option<Self> {
        let text = std::fs::read_to_string(file).ok()?;
        let end = text.rfind("\nend ")?;
        let begin = text[..end].rfind("entry ")?;
        Some(Self { text: text[begin..end].to_owned() })
    }

    /// What follows a word at the start of a line.
    pub fn line<'a>(&'a self, word: &'a str) -> Option<&'a str> {
        self.lines(word).next()
    }

    /// What follows a word at the start of each of its lines.
    pub fn lines<'a>(&'a self, word: &'a str) -> impl Iterator<Item = &'a str> {
        self.text.lines().filter_map(move |line| line.strip_prefix(word)?.strip_prefix(' '))
    }

    /// The text of a panel.
    pub fn panel(&self, name: &str) -> String {
        let head = format!("[{name}]");
        let body = self.text.lines().skip_while(|line| *line != head).skip(1);
        body.take_while(|line| !(line.starts_with('[') && line.ends_with(']'))).collect::<Vec<_>>().join("\n")
    }

    /// The figures of the table of bends, without the signs of what is selected.
    pub fn rows(&self) -> String {
        self.panel("rows").replace(['>', '*'], " ")
    }

    /// Where a handle or cell lies in the window, logical pixels.
    pub fn place(&self, kind: &str, name: &str) -> Option<(i32, i32)> {
        self.lines(kind).find_map(|line| {
            let (x, y) = line.strip_prefix(name)?.strip_prefix(" at ")?.split_once(' ')?;
            let whole = |number: &str| number.parse::<f64>().ok().map(|number| number.round() as i32);
            Some((whole(x)?, whole(y)?))
        })
    }

    /// Whether everything that is shown could be drawn.
    pub fn ready(&self) -> bool {
        self.line("window").is_some_and(|line| line.starts_with("ready"))
    }
}
