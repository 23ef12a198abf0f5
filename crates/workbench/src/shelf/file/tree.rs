//! The text of a native file as a tree of fields and lists, each with where it lies, without understanding what it says.

use super::tokens::token;

/// A value in a text, in bytes.
#[derive(Debug)]
pub(super) struct Node<'a> {
    /// Its first byte.
    pub from: usize,
    /// After its last byte.
    pub to: usize,
    /// What is in it.
    pub kind: Kind<'a>,
}

#[derive(Debug)]
pub(super) enum Kind<'a> {
    /// Fields between round brackets.
    Fields(Vec<Entry<'a>>),
    /// Values between square brackets.
    List(Vec<Entry<'a>>),
    /// Anything else, which is taken as a whole.
    Plain,
}

/// A field, or a value of a list.
#[derive(Debug)]
pub(super) struct Entry<'a> {
    /// The name of a field; empty in a list.
    pub name: &'a str,
    /// Its first byte: that of its name, where it has one.
    pub from: usize,
    /// What it holds.
    pub value: Node<'a>,
    /// The comma behind it.
    pub comma: Option<usize>,
}

impl Entry<'_> {
    /// After its comma, or its value where there is none.
    pub fn end(&self) -> usize {
        self.comma.map_or(self.value.to, |comma| comma + 1)
    }
}

impl<'a> Node<'a> {
    /// The value that a whole text holds; `None` where it ends too early or is no list of fields.
    pub fn of(text: &'a str) -> Option<Self> {
        let mut at = 0;
        // A head such as `#![enable(implicit_some)]`.
        while text[token(text, at)?.0..].starts_with('#') {
            while &text[token(text, at)?.0..token(text, at)?.1] != "[" {
                at = token(text, at)?.1;
            }
            at = balanced(text, at)?;
        }
        value(text, at).filter(|node| matches!(node.kind, Kind::Fields(_)))
    }

    /// What stands between the brackets, in order; nothing of a plain value.
    pub fn entries(&self) -> &[Entry<'a>] {
        match &self.kind {
            Kind::Fields(entries) | Kind::List(entries) => entries,
            Kind::Plain => &[],
        }
    }

    /// The value of a field.
    pub fn field(&self, name: &str) -> Option<&Self> {
        self.entries().iter().find(|entry| entry.name == name).map(|entry| &entry.value)
    }
}

/// The value that begins at a place.
fn value(text: &str, at: usize) -> Option<Node<'_>> {
    let (from, to) = token(text, at)?;
    let bracketed = match &text[from..to] {
        "(" => entries(text, to, ")", true).map(|(entries, to)| (Kind::Fields(entries), to)),
        "[" => entries(text, to, "]", false).map(|(entries, to)| (Kind::List(entries), to)),
        _ => None,
    };
    if let Some((kind, to)) = bracketed {
        return Some(Node { from, to, kind });
    }
    // A number such as -12.5 is several words, and some values have brackets behind a word.
    let (mut to, mut at) = (from, at);
    loop {
        let next = token(text, at)?;
        match &text[next.0..next.1] {
            "," | ")" | "]" | "}" => return (to > from).then_some(Node { from, to, kind: Kind::Plain }),
            "(" | "[" | "{" => to = balanced(text, at)?,
            _ => to = next.1,
        }
        at = to;
    }
}

/// The entries up to a closing bracket, and the place behind it.
fn entries<'a>(text: &'a str, mut at: usize, closing: &str, named: bool) -> Option<(Vec<Entry<'a>>, usize)> {
    let mut entries = Vec::new();
    loop {
        let (from, to) = token(text, at)?;
        if &text[from..to] == closing {
            return Some((entries, to));
        }
        let mut name = "";
        if named {
            let colon = token(text, to)?;
            if &text[colon.0..colon.1] != ":" {
                return None;
            }
            (name, at) = (&text[from..to], colon.1);
        }
        let value = value(text, at)?;
        at = value.to;
        let behind = token(text, at)?;
        let comma = (&text[behind.0..behind.1] == ",").then_some(behind.0);
        if comma.is_some() {
            at = behind.1;
        } else if &text[behind.0..behind.1] != closing {
            return None;
        }
        entries.push(Entry { name, from, value, comma });
    }
}

/// The place behind the bracket that closes the one that begins at a place.
fn balanced(text: &str, mut at: usize) -> Option<usize> {
    let mut depth = 0_usize;
    loop {
        let (from, to) = token(text, at)?;
        match &text[from..to] {
            "(" | "[" | "{" => depth += 1,
            ")" | "]" | "}" => depth = depth.checked_sub(1)?,
            _ => {}
        }
        at = to;
        if depth == 0 {
            return Some(at);
        }
    }
}
