//! Changes woven into a text that somebody else has written: what stays the same stays as it is written, with its comments.

use super::tree::{Entry, Kind, Node};

/// The text with what is other in `now` than in `was`; both are written by this program, of what the text says before
/// and after the change. `None` where the text is not written as native files are; the caller must read back what
/// comes out.
pub(super) fn woven(text: &str, was: &str, now: &str) -> Option<String> {
    let (old, from, to) = (Node::of(text)?, Node::of(was)?, Node::of(now)?);
    let mut weave = Weave { text, was, now, changes: Vec::new() };
    weave.value(&old, &from, &to);
    Some(weave.made())
}

/// The text with the value of a field at its outer level replaced.
pub(super) fn with_field(text: &str, name: &str, value: &str) -> Option<String> {
    let (from, to) = Node::of(text)?.field(name).map(|field| (field.from, field.to))?;
    let mut text = text.to_owned();
    text.replace_range(from..to, value);
    Some(text)
}

struct Weave<'a> {
    /// The text that somebody has written.
    text: &'a str,
    was: &'a str,
    now: &'a str,
    /// What stands from a byte to another, and what shall.
    changes: Vec<(usize, usize, String)>,
}

impl Weave<'_> {
    fn made(mut self) -> String {
        // What is put in at one place stays in the order in which it was asked for.
        self.changes.sort_by_key(|(from, ..)| *from);
        let (mut made, mut at) = (String::with_capacity(self.text.len()), 0);
        for (from, to, what) in &self.changes {
            made.push_str(&self.text[at.min(*from)..*from]);
            made.push_str(what);
            at = *to;
        }
        made + &self.text[at..]
    }

    fn value(&mut self, old: &Node<'_>, was: &Node<'_>, now: &Node<'_>) {
        if self.was[was.from..was.to] == self.now[now.from..now.to] {
            return;
        }
        match (&old.kind, &was.kind, &now.kind) {
            (Kind::Fields(_), Kind::Fields(_), Kind::Fields(_)) => self.fields(old, was, now),
            (Kind::List(_), Kind::List(_), Kind::List(_)) => self.list(old, was, now),
            _ => self.replace(old, now),
        }
    }

    fn replace(&mut self, old: &Node<'_>, now: &Node<'_>) {
        let what = self.indented(now.from, now.to, indent(self.text, old.from));
        self.changes.push((old.from, old.to, what));
    }

    fn fields(&mut self, old: &Node<'_>, was: &Node<'_>, now: &Node<'_>) {
        for gone in was.entries().iter().filter(|field| now.field(field.name).is_none()) {
            if let Some(entry) = old.entries().iter().find(|entry| entry.name == gone.name) {
                self.remove(entry);
            }
        }
        for field in now.entries() {
            match (old.field(field.name), was.field(field.name)) {
                (Some(old), Some(was)) => self.value(old, was, &field.value),
                (Some(old), None) => self.replace(old, &field.value),
                (None, Some(was)) if self.was[was.from..was.to] == self.now[field.value.from..field.value.to] => {}
                (None, _) => self.insert(old, old.entries().last(), field),
            }
        }
    }

    fn list(&mut self, old: &Node<'_>, was: &Node<'_>, now: &Node<'_>) {
        let (olds, wases, nows) = (old.entries(), was.entries(), now.entries());
        let old_of = partners(&known(self.text, olds), &known(self.was, wases));
        let (before, after) = (known(self.was, wases), known(self.now, nows));
        let anchors = in_common(&before, &after);
        // What was put in before comes behind what is there of the text already.
        let mut behind: Option<&Entry<'_>> = None;
        let (mut at, mut to) = (0, 0);
        for (next, next_to) in anchors.into_iter().chain([(wases.len(), nows.len())]) {
            // Between two that stay, those that are other are the same in order; the rest came in or went.
            while at < next || to < next_to {
                let there = (at < next).then(|| old_of[at].map(|place| &olds[place])).flatten();
                match (at < next, to < next_to) {
                    (true, true) => {
                        if let Some(entry) = there {
                            self.value(&entry.value, &wases[at].value, &nows[to].value);
                            behind = Some(entry);
                        }
                    }
                    (true, false) => there.into_iter().for_each(|entry| self.remove(entry)),
                    (false, _) => self.insert(old, behind, &nows[to]),
                }
                (at, to) = ((at + 1).min(next), (to + 1).min(next_to));
            }
            if next < wases.len()
                && let Some(place) = old_of[next]
            {
                self.value(&olds[place].value, &wases[next].value, &nows[next_to].value);
                behind = Some(&olds[place]);
                (at, to) = (next + 1, next_to + 1);
            }
        }
    }

    /// Takes an entry out, with its line and a comment behind it where nothing else stands there.
    fn remove(&mut self, entry: &Entry<'_>) {
        let (mut from, mut to) = (entry.from, entry.end());
        let line = self.text[..from].rfind('\n').map_or(0, |newline| newline + 1);
        let rest = rest_of_line(self.text, to);
        if self.text[line..from].trim().is_empty() && is_blank(rest) {
            from = line;
            to = (to + rest.len() + 1).min(self.text.len());
        } else {
            to += rest.len() - rest.trim_start().len();
        }
        self.changes.push((from, to, String::new()));
    }

    /// Puts an entry in behind another one of a bracket, or as its first.
    fn insert(&mut self, bracket: &Node<'_>, behind: Option<&Entry<'_>>, entry: &Entry<'_>) {
        let base = indent(self.text, bracket.from);
        let sibling = bracket.entries().iter().find(|entry| begins_its_line(self.text, entry.from));
        let margin = sibling.map_or_else(|| format!("{base}    "), |entry| indent(self.text, entry.from).to_owned());
        let what = match bracket.entries().first() {
            // Where the others stand on a line each, this one does too.
            Some(other) if !self.text[other.from..other.value.to].contains('\n') => {
                on_one_line(&self.now[entry.from..entry.value.to])
            }
            _ => self.indented(entry.from, entry.value.to, &margin),
        };
        let at = behind.map_or(bracket.from + 1, Entry::end);
        if let Some(entry) = behind.filter(|entry| entry.comma.is_none()) {
            let comma = (entry.value.to, entry.value.to, ",".to_owned());
            if !self.changes.contains(&comma) {
                self.changes.push(comma);
            }
        }
        let rest = rest_of_line(self.text, at);
        let (at, what) = match behind {
            _ if is_blank(rest) => (at + rest.len(), format!("\n{margin}{what},")),
            None if bracket.entries().is_empty() => (at, format!("\n{margin}{what},\n{base}")),
            None => (at, format!("{what}, ")),
            Some(_) => (at, format!(" {what},")),
        };
        self.changes.push((at, at, what));
    }

    /// A piece of `now` as it stands under a margin.
    fn indented(&self, from: usize, to: usize, margin: &str) -> String {
        let own = indent(self.now, from);
        let lines = self.now[from..to].lines().enumerate();
        let lines = lines.map(|(index, line)| match index {
            0 => line.to_owned(),
            _ => format!("\n{margin}{}", line.strip_prefix(own).unwrap_or(line)),
        });
        lines.collect()
    }
}

/// A piece that this program has written over several lines, on one. No text in it holds a line break.
fn on_one_line(piece: &str) -> String {
    let mut line = String::with_capacity(piece.len());
    for next in piece.lines().map(str::trim) {
        if next.starts_with([')', ']']) {
            line.truncate(line.trim_end_matches(',').len());
        } else if !line.is_empty() && !line.ends_with(['(', '[']) {
            line.push(' ');
        }
        line.push_str(next);
    }
    line
}

/// The spaces that the line of a place begins with.
fn indent(text: &str, at: usize) -> &str {
    let line = text[..at].rfind('\n').map_or(0, |newline| newline + 1);
    let spaces = text[line..at].len() - text[line..at].trim_start().len();
    &text[line..line + spaces]
}

fn begins_its_line(text: &str, at: usize) -> bool {
    let line = text[..at].rfind('\n').map_or(0, |newline| newline + 1);
    text[line..at].trim().is_empty()
}

fn rest_of_line(text: &str, at: usize) -> &str {
    text[at..].split('\n').next().unwrap_or_default()
}

/// Whether nothing but a comment stands on the rest of a line.
fn is_blank(rest: &str) -> bool {
    let rest = rest.trim();
    rest.is_empty() || rest.starts_with("//")
}

/// By what the entries of a list are known: the name of a thing, the length of a clamp, die set and material of what
/// was found out, else all that is said of it.
fn known(text: &str, entries: &[Entry<'_>]) -> Vec<String> {
    let said = |node: &Node<'_>| {
        let words = &text[node.from..node.to];
        // 4000 and 4000.0 are the same figure.
        words.parse::<f64>().map_or_else(|_| words.to_owned(), |figure| figure.to_string())
    };
    let by = |node: &Node<'_>, names: &[&str]| -> Option<String> {
        names.iter().map(|name| node.field(name).map(said)).collect::<Option<Vec<_>>>().map(|said| said.join(" "))
    };
    let known = |entry: &Entry<'_>| {
        let node = &entry.value;
        by(node, &["name"])
            .or_else(|| by(node, &["length_mm"]))
            .or_else(|| by(node, &["die", "material"]))
            .unwrap_or_else(|| {
                let mut fields: Vec<String> = node
                    .entries()
                    .iter()
                    .map(|field| (field, said(&field.value)))
                    .filter(|(_, said)| said != "None")
                    .map(|(field, said)| format!("{} {said}", field.name))
                    .collect();
                fields.sort();
                if fields.is_empty() { said(node) } else { fields.join(" ") }
            })
    };
    entries.iter().map(known).collect()
}

/// For each of `wanted` its partner among `there`: one that is known by the same, else the next that is left.
fn partners(there: &[String], wanted: &[String]) -> Vec<Option<usize>> {
    let mut free: Vec<bool> = vec![true; there.len()];
    let mut partners: Vec<Option<usize>> = vec![None; wanted.len()];
    for known_by in [true, false] {
        for (index, name) in wanted.iter().enumerate() {
            if partners[index].is_none() {
                let found = (0..there.len()).find(|place| free[*place] && (!known_by || there[*place] == *name));
                found.into_iter().for_each(|place| free[place] = false);
                partners[index] = found;
            }
        }
    }
    partners
}

/// The longest row of names that stand in both lists in the same order, by their places in each.
fn in_common(before: &[String], after: &[String]) -> Vec<(usize, usize)> {
    let mut longest = vec![vec![0_usize; after.len() + 1]; before.len() + 1];
    for (i, one) in before.iter().enumerate().rev() {
        for (j, other) in after.iter().enumerate().rev() {
            longest[i][j] =
                if one == other { longest[i + 1][j + 1] + 1 } else { longest[i + 1][j].max(longest[i][j + 1]) };
        }
    }
    let (mut i, mut j, mut row) = (0, 0, Vec::new());
    while i < before.len() && j < after.len() {
        if before[i] == after[j] {
            row.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if longest[i + 1][j] >= longest[i][j + 1] {
            i += 1;
        } else {
            j += 1;
        }
    }
    row
}
