//! The keyboard: every key that the catalogue gives a verb, wherever the pointer is.

use egui::Event;
use elbowroom_workbench::catalogue::{Key, Shortcut, verb_for};
use elbowroom_workbench::{Command, Workbench};

use crate::widgets::letters_are_free;

/// The commands that were called by keys in this frame. A text field that has the keyboard keeps what it
/// needs for typing, a number that nothing was typed into yet lets letters go; while a question waits, only the question hears; while something is dragged, plain
/// letters and digits are left to the drag, where they set it exactly.
pub fn shortcuts(context: &egui::Context, workbench: &Workbench) -> Vec<Command> {
    if workbench.screen().question.is_some() {
        return Vec::new();
    }
    let typing = context.text_edit_focused();
    let letters_are_free = letters_are_free(context);
    let dragging = workbench.previewing();
    let wanted = |shortcut: &Shortcut| {
        let plain = !shortcut.ctrl && !shortcut.alt && matches!(shortcut.key, Key::Character(_));
        let letter = plain && matches!(shortcut.key, Key::Character(letter) if letter.is_alphabetic());
        !(typing && shortcut.belongs_to_text() && !(letter && letters_are_free) || dragging && plain)
    };
    let pressed: Vec<Shortcut> = context.input(|input| input.events.iter().filter_map(shortcut_of).collect());
    let verbs = pressed.into_iter().filter(wanted).filter_map(verb_for);
    verbs.filter(|verb| verb.enabled(workbench)).map(|verb| verb.command(workbench)).collect()
}

/// The shortcut that a key press is.
fn shortcut_of(event: &Event) -> Option<Shortcut> {
    let Event::Key { key, pressed: true, repeat, modifiers, .. } = event else { return None };
    let key = key_of(*key)?;
    // Undo and redo may be held down; nothing else should run on.
    if *repeat && !matches!(key, Key::Character('Z' | 'Y')) {
        return None;
    }
    Some(Shortcut { ctrl: modifiers.command, shift: modifiers.shift, alt: modifiers.alt, key })
}

/// A key as the catalogue names it.
fn key_of(key: egui::Key) -> Option<Key> {
    Some(match key {
        egui::Key::Delete | egui::Key::Backspace => Key::Delete,
        egui::Key::Escape => Key::Escape,
        egui::Key::Home => Key::Home,
        egui::Key::Minus => Key::Character('-'),
        egui::Key::Equals | egui::Key::Plus => Key::Character('='),
        other => {
            let name = other.name();
            let mut letters = name.chars();
            match (letters.next()?, letters.as_str()) {
                ('F', number) if !number.is_empty() => {
                    Key::Function(number.parse().ok().filter(|number| *number <= 12)?)
                }
                (character, "") if character.is_ascii_alphanumeric() => Key::Character(character.to_ascii_uppercase()),
                _ => return None,
            }
        }
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use elbowroom_workbench::catalogue::VERBS;

    use super::*;

    #[test]
    fn keys_have_the_names_of_the_catalogue() {
        assert_eq!(key_of(egui::Key::A), Some(Key::Character('A')));
        assert_eq!(key_of(egui::Key::F), Some(Key::Character('F')));
        assert_eq!(key_of(egui::Key::Num7), Some(Key::Character('7')));
        assert_eq!(key_of(egui::Key::F1), Some(Key::Function(1)));
        assert_eq!(key_of(egui::Key::F12), Some(Key::Function(12)));
        assert_eq!(key_of(egui::Key::F13), None);
        assert_eq!(key_of(egui::Key::Backspace), Some(Key::Delete));
        assert_eq!(key_of(egui::Key::Tab), None);
    }

    #[test]
    fn every_shortcut_of_the_catalogue_can_be_pressed() {
        let keys: Vec<Key> = egui::Key::ALL.iter().filter_map(|key| key_of(*key)).collect();
        for verb in VERBS {
            if let Some(shortcut) = verb.shortcut {
                assert!(keys.contains(&shortcut.key), "{}: no key gives {shortcut}", verb.id);
            }
        }
    }
}
