//! Which file of a crate uses which, read from its source. What only tests use is left out.

use std::collections::{BTreeMap, BTreeSet};

use proc_macro2::{Delimiter, Spacing, TokenStream, TokenTree};

/// A module by its names from the root of the crate on.
type Module = Vec<String>;

/// One file uses another.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Use {
    /// The file that uses.
    pub from: String,
    /// The file that is used: the one that holds what is named, through whichever re-exports.
    pub to: String,
    /// The line on which it does, counted from 1.
    pub line: usize,
    /// As it is written, such as `crate::Part`.
    pub written: String,
}

/// A path as it is written somewhere.
struct Written {
    module: Module,
    line: usize,
    names: Vec<String>,
    /// What a `pub use` calls it: it passes a name on, and uses it only where the file speaks of it elsewhere.
    passed_on: Option<String>,
}

/// A crate as its files are written.
#[derive(Default)]
struct Crate {
    /// Modules with the file that holds each.
    files: BTreeMap<Module, String>,
    /// What each module takes in, by the name that it has there.
    imports: BTreeMap<Module, BTreeMap<String, Vec<Vec<String>>>>,
    /// Every word of a module outside its `use`.
    words: BTreeMap<Module, BTreeSet<String>>,
    /// Every path.
    written: Vec<Written>,
    /// Modules that are tests.
    tests: BTreeSet<Module>,
    /// What can't be followed.
    refused: Vec<String>,
}

/// The uses between files of one crate, each with the first line on which it is, and what can't be followed. Files are
/// given by their paths from the folder of the crate's root, which is `lib.rs` or `main.rs`.
pub fn uses(files: &[(String, String)]) -> (Vec<Use>, Vec<String>) {
    let mut read = Crate::default();
    for (path, _) in files {
        read.files.insert(module_of(path), path.clone());
    }
    for (path, text) in files {
        match text.parse::<TokenStream>() {
            Ok(tokens) => read.take(tokens, &module_of(path), path),
            Err(error) => read.refused.push(format!("{path}: {error}")),
        }
    }
    let mut found: BTreeMap<(String, String), Use> = BTreeMap::new();
    for written in &read.written {
        let is_test = |length: usize| read.tests.contains(&written.module[..length]);
        if (0..=written.module.len()).any(is_test) {
            continue;
        }
        if let Some(name) = &written.passed_on
            && !read.words.get(&written.module).is_some_and(|words| words.contains(name))
        {
            continue;
        }
        let from = &read.files[&written.module];
        for to in read.resolve(&written.module, &written.names, 0).into_iter().filter(|to| to != from) {
            let written_so = written.names.join("::");
            let used = Use { from: from.clone(), to: to.clone(), line: written.line, written: written_so };
            found.entry((from.clone(), to)).and_modify(|was| *was = used.clone().min(was.clone())).or_insert(used);
        }
    }
    (found.into_values().collect(), read.refused)
}

/// The module that a file is.
fn module_of(path: &str) -> Module {
    let mut names: Module = path.trim_end_matches(".rs").split('/').map(Into::into).collect();
    if names.last().is_some_and(|name| ["mod", "lib", "main"].contains(&name.as_str())) {
        names.pop();
    }
    names
}

impl Crate {
    fn child(&self, module: &[String], name: &str) -> Option<Module> {
        let child: Module = module.iter().map(String::as_str).chain([name]).map(Into::into).collect();
        self.files.contains_key(&child).then_some(child)
    }

    /// The files that hold what a path names, seen from a module: several where a name is a module and more. None where
    /// it leads out of the crate.
    fn resolve(&self, module: &[String], names: &[String], depth: usize) -> BTreeSet<String> {
        let Some((first, rest)) = names.split_first().filter(|_| depth < 32) else { return BTreeSet::new() };
        match first.as_str() {
            "crate" => self.walk(&[], rest, depth),
            "self" => self.walk(module, rest, depth),
            "super" => {
                let mut up = &module[..module.len().saturating_sub(1)];
                let mut rest = rest;
                while let Some((_, further)) = rest.split_first().filter(|(name, _)| *name == "super") {
                    (up, rest) = (&up[..up.len().saturating_sub(1)], further);
                }
                self.walk(up, rest, depth)
            }
            _ if self.child(module, first).is_some() || self.imported(module, first).is_some() => {
                self.walk(module, names, depth)
            }
            _ => BTreeSet::new(),
        }
    }

    fn imported(&self, module: &[String], name: &str) -> Option<&Vec<Vec<String>>> {
        self.imports.get(module)?.get(name)
    }

    fn walk(&self, module: &[String], names: &[String], depth: usize) -> BTreeSet<String> {
        let here = || self.files.get(module).cloned().into_iter().collect();
        let Some((first, rest)) = names.split_first() else { return here() };
        let mut found = BTreeSet::new();
        let child = self.child(module, first);
        if let Some(child) = &child {
            found = self.walk(child, rest, depth);
            if !rest.is_empty() {
                return found;
            }
        }
        let imported = self.imported(module, first);
        for target in imported.into_iter().flatten() {
            let names: Vec<String> = target.iter().chain(rest).cloned().collect();
            found.extend(self.resolve(module, &names, depth + 1));
        }
        if child.is_none() && imported.is_none() { here() } else { found }
    }

    /// Reads the tokens of a module or of a group within it.
    fn take(&mut self, tokens: TokenStream, module: &Module, file: &str) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut at = 0;
        while at < tokens.len() {
            at = self.take_one(&tokens, at, module, file);
        }
    }

    /// Reads what begins at a token and gives the place behind it.
    fn take_one(&mut self, tokens: &[TokenTree], at: usize, module: &Module, file: &str) -> usize {
        let word = |at: usize| match tokens.get(at) {
            Some(TokenTree::Ident(word)) => Some(word.to_string()),
            _ => None,
        };
        if is_punct(tokens, at, '#') && is_test_only(tokens.get(at + 1)) {
            let end = end_of_item(tokens, at + 2);
            let item = &tokens[at + 2..end];
            // A module in a file of its own.
            if is_punct(item, item.len().saturating_sub(1), ';')
                && let Some(name) =
                    item.iter().position(|token| is_word(token, "mod")).and_then(|word| item.get(word + 1))
            {
                self.tests.insert(module.iter().cloned().chain([name.to_string()]).collect());
            }
            return end;
        }
        match &tokens[at] {
            TokenTree::Group(group) => self.take(group.stream(), module, file),
            TokenTree::Ident(first) if first == "use" && !is_punct(tokens, at.wrapping_sub(1), '.') => {
                let end = (at..tokens.len()).find(|&end| is_punct(tokens, end, ';')).unwrap_or(tokens.len());
                self.take_use(&tokens[at + 1..end], module, is_public(tokens, at), file);
                return end + 1;
            }
            TokenTree::Ident(first) if first == "mod" => {
                if let (Some(name), Some(TokenTree::Group(body))) = (word(at + 1), tokens.get(at + 2)) {
                    let inner: Module = module.iter().cloned().chain([name]).collect();
                    self.files.insert(inner.clone(), file.into());
                    self.take(body.stream(), &inner, file);
                    return at + 3;
                }
                return at + 2;
            }
            TokenTree::Ident(_) => return self.take_path(tokens, at, module),
            _ => {}
        }
        at + 1
    }

    /// Reads a word, and the path that it begins.
    fn take_path(&mut self, tokens: &[TokenTree], at: usize, module: &Module) -> usize {
        let mut names = Vec::new();
        let mut next = at;
        while let Some(TokenTree::Ident(word)) = tokens.get(next) {
            names.push(word.to_string());
            self.words.entry(module.clone()).or_default().insert(word.to_string());
            next += 1;
            if !(is_punct(tokens, next, ':') && is_punct(tokens, next + 1, ':')) {
                break;
            }
            next += 2;
        }
        let line = tokens[at].span().start().line;
        // What follows a type in angle brackets, or leads out of the crate from its root.
        let goes_on = at >= 2 && is_punct(tokens, at - 1, ':') && is_joint(tokens, at - 2);
        if names.len() > 1 && !goes_on {
            self.written.push(Written { module: module.clone(), line, names, passed_on: None });
        } else if is_punct(tokens, next, '!')
            && let Some(TokenTree::Group(body)) = tokens.get(next + 1)
            && body.delimiter() == Delimiter::Brace
        {
            // A macro may make a path of any word that it is given.
            self.take_words(body.stream(), module);
        }
        next.max(at + 1)
    }

    fn take_words(&mut self, tokens: TokenStream, module: &Module) {
        for token in tokens {
            if let TokenTree::Ident(word) = &token
                && self.child(module, &word.to_string()).is_some()
            {
                let (line, names) = (word.span().start().line, vec!["self".into(), word.to_string()]);
                self.written.push(Written { module: module.clone(), line, names, passed_on: None });
            }
        }
    }

    fn take_use(&mut self, tokens: &[TokenTree], module: &Module, public: bool, file: &str) {
        let mut leaves = Vec::new();
        leaves_of(tokens, &mut Vec::new(), &mut leaves);
        for (mut names, alias, line) in leaves {
            if names.last().is_some_and(|name| name == "*") {
                names.pop();
                let of_crate = names.first().is_some_and(|first| {
                    ["crate", "self", "super"].contains(&first.as_str()) || self.child(module, first).is_some()
                });
                if of_crate {
                    self.refused.push(format!("{file}:{line}: a * hides what is used; name it"));
                }
                continue;
            }
            if names.len() > 1 && names.last().is_some_and(|name| name == "self") {
                names.pop();
            }
            let name = alias.or_else(|| names.last().cloned()).unwrap_or_default();
            self.imports.entry(module.clone()).or_default().entry(name.clone()).or_default().push(names.clone());
            let passed_on = public.then_some(name);
            self.written.push(Written { module: module.clone(), line, names, passed_on });
        }
    }
}

/// The names that a `use` takes: each as a path, with what it is called here and its line.
fn leaves_of(tokens: &[TokenTree], before: &mut Vec<String>, leaves: &mut Vec<(Vec<String>, Option<String>, usize)>) {
    let parts = tokens.split(|token| matches!(token, TokenTree::Punct(punct) if punct.as_char() == ','));
    for part in parts.filter(|part| !part.is_empty()) {
        let depth = before.len();
        let mut alias = None;
        let mut is_leaf = true;
        let mut renamed = false;
        for token in part {
            match token {
                TokenTree::Ident(word) if word == "as" => renamed = true,
                TokenTree::Ident(word) if renamed => alias = Some(word.to_string()),
                TokenTree::Ident(word) => before.push(word.to_string()),
                TokenTree::Punct(punct) if punct.as_char() == '*' => before.push("*".into()),
                TokenTree::Group(group) => {
                    let inner: Vec<TokenTree> = group.stream().into_iter().collect();
                    leaves_of(&inner, before, leaves);
                    is_leaf = false;
                }
                _ => {}
            }
        }
        if is_leaf {
            leaves.push((before.clone(), alias, part[0].span().start().line));
        }
        before.truncate(depth);
    }
}

fn is_word(token: &TokenTree, wanted: &str) -> bool {
    matches!(token, TokenTree::Ident(word) if word == wanted)
}

fn is_punct(tokens: &[TokenTree], at: usize, wanted: char) -> bool {
    matches!(tokens.get(at), Some(TokenTree::Punct(punct)) if punct.as_char() == wanted)
}

/// Whether a colon follows right upon this one.
fn is_joint(tokens: &[TokenTree], at: usize) -> bool {
    matches!(&tokens[at], TokenTree::Punct(punct) if punct.as_char() == ':' && punct.spacing() == Spacing::Joint)
}

/// Whether `pub` or `pub(…)` stands before a token.
fn is_public(tokens: &[TokenTree], at: usize) -> bool {
    let before = |back: usize| at.checked_sub(back).and_then(|at| tokens.get(at));
    let bare = before(1).is_some_and(|token| is_word(token, "pub"));
    let within = matches!(before(1), Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Parenthesis);
    bare || (within && before(2).is_some_and(|token| is_word(token, "pub")))
}

/// Whether an attribute leaves what follows to tests.
fn is_test_only(attribute: Option<&TokenTree>) -> bool {
    let Some(TokenTree::Group(group)) = attribute else { return false };
    let text = group.stream().to_string().replace(' ', "");
    text == "cfg(test)" || text.starts_with("cfg(all(test,")
}

/// The place behind the item that begins at a token.
fn end_of_item(tokens: &[TokenTree], from: usize) -> usize {
    let ends = |token: &TokenTree| match token {
        TokenTree::Punct(punct) => punct.as_char() == ';',
        TokenTree::Group(group) => group.delimiter() == Delimiter::Brace,
        _ => false,
    };
    tokens[from..].iter().position(ends).map_or(tokens.len(), |place| from + place + 1)
}
