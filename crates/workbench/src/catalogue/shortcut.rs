//! Keys, as plain values that any window toolkit can be asked for.

use std::fmt;

/// A key of the keyboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// A letter, digit or sign, by what it prints without shift; letters in upper case.
    Character(char),
    /// A function key, F1 to F12.
    Function(u8),
    /// Delete. Backspace does the same.
    Delete,
    /// Escape.
    Escape,
    /// Home.
    Home,
}

/// A key with the keys held down beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Shortcut {
    /// Control; on a Mac the command key.
    pub ctrl: bool,
    /// Shift.
    pub shift: bool,
    /// Alt.
    pub alt: bool,
    /// The key itself.
    pub key: Key,
}

impl Shortcut {
    /// A key alone. It belongs to the scene: a text field that has the keyboard takes it first.
    pub const fn plain(key: Key) -> Self {
        Self { ctrl: false, shift: false, alt: false, key }
    }

    /// A key with control.
    pub const fn ctrl(key: char) -> Self {
        Self { ctrl: true, ..Self::plain(Key::Character(key)) }
    }

    /// A key with control and shift.
    pub const fn ctrl_shift(key: char) -> Self {
        Self { shift: true, ..Self::ctrl(key) }
    }

    /// A key with shift.
    pub const fn shift(key: Key) -> Self {
        Self { shift: true, ..Self::plain(key) }
    }

    /// Whether a text field that has the keyboard would take it for typing or editing: keys without
    /// control or alt, except function keys and escape, and those for undo, redo and select all.
    pub fn belongs_to_text(self) -> bool {
        if self.ctrl {
            return matches!(self.key, Key::Character('Z' | 'Y' | 'A'));
        }
        !self.alt && !matches!(self.key, Key::Function(_) | Key::Escape)
    }
}

impl fmt::Display for Shortcut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (held, name) in [(self.ctrl, "Ctrl+"), (self.alt, "Alt+"), (self.shift, "Shift+")] {
            if held {
                f.write_str(name)?;
            }
        }
        match self.key {
            Key::Character(character) => write!(f, "{character}"),
            Key::Function(number) => write!(f, "F{number}"),
            Key::Delete => f.write_str("Delete"),
            Key::Escape => f.write_str("Escape"),
            Key::Home => f.write_str("Home"),
        }
    }
}
