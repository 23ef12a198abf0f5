//! Every verb of the program, once: its label, tooltip, shortcut, when it can be used, and its command.
//! Menus, command list, help and keyboard all read it here.

mod shortcut;
mod verb;
mod verbs;

pub use shortcut::{Key, Shortcut};
pub use verb::{Group, Verb};
pub use verbs::VERBS;

/// The verb of that name.
pub fn verb(id: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.id == id)
}

/// The verb that a key calls.
pub fn verb_for(shortcut: Shortcut) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.shortcut == Some(shortcut))
}

/// The verbs whose label or tooltip holds every word of a text, in either case; those whose label starts
/// with the text first.
pub fn matching(text: &str) -> Vec<&'static Verb> {
    let text = text.trim().to_lowercase();
    let holds = |verb: &&Verb| {
        let all = format!("{} {} {}", verb.group.label(), verb.label, verb.tooltip).to_lowercase();
        text.split_whitespace().all(|word| all.contains(word))
    };
    let mut found: Vec<&Verb> = VERBS.iter().filter(holds).collect();
    found.sort_by_key(|verb| !verb.label.to_lowercase().starts_with(&text));
    found
}
