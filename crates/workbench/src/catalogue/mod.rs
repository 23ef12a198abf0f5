//! Every verb of the program, once: its label, tooltip, shortcut, when it can be used, and its command.
//! Menus, command list, help and keyboard all read it here.

mod shortcut;
mod verb;
mod verbs;
mod words;

pub use shortcut::{Key, Shortcut};
pub use verb::{Group, Verb};
pub use verbs::VERBS;

/// The verb of that name.
pub fn verb(id: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.id == id)
}

/// The verb that a key calls.
pub fn verb_for(shortcut: Shortcut) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.shortcut == Some(shortcut) || verb.other_shortcut == Some(shortcut))
}

/// The verbs whose label, tooltip or everyday words hold every word of a text, in either case: those whose label starts
/// with the text first, then those that have it as a word.
pub fn matching(text: &str) -> Vec<&'static Verb> {
    let text = text.trim().to_lowercase();
    let all = |verb: &Verb| {
        format!("{} {} {} {}", verb.group.label(), verb.label, verb.tooltip, words::of(verb.id)).to_lowercase()
    };
    let holds = |verb: &&Verb| {
        let all = all(verb);
        text.split_whitespace().all(|word| all.contains(word))
    };
    let has_word = |verb: &Verb| {
        let all = format!("{} {}", verb.label, words::of(verb.id)).to_lowercase();
        !text.is_empty() && all.split(|sign: char| !sign.is_alphanumeric()).any(|word| word == text)
    };
    let mut found: Vec<&Verb> = VERBS.iter().filter(holds).collect();
    found.sort_by_key(|verb| (!verb.label.to_lowercase().starts_with(&text), !has_word(verb)));
    found
}
