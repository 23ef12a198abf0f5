//! Mouse and keys as the panels hear them, in their true order.
//!
//! The engine's own bridge to egui asks for the modifier keys once a frame. In a slow frame a whole Ctrl+Z has
//! come and gone by then and would be a plain Z, and a held key would never repeat; it also reports the
//! modifiers in every frame, on which egui draws without end, and hands pasted text over as if it were typed.
//! So what the bridge says of mouse buttons and keys is replaced by what happened, event by event.
//!
//! Which field has the keyboard, and what is open, changes once a frame. What is typed after a Tab, an Enter, a chord
//! or a click in the same slow frame would land where the keyboard was before, or nowhere, so it waits for the next.

use std::collections::VecDeque;

use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::prelude::*;
use bevy::window::{RequestRedraw, WindowEvent};
use bevy_egui::egui::{self, Event, Modifiers, PointerButton, Pos2};
use bevy_egui::helpers::{bevy_to_egui_key, bevy_to_egui_physical_key};
use bevy_egui::{EguiClipboard, EguiContext, EguiInput};
use elbowroom_viewport::SceneKeys;

/// What is known from the frames before.
#[derive(Default)]
pub struct Before {
    held: Modifiers,
    pointer: Pos2,
    waiting: VecDeque<Event>,
}

/// Replaces the bridge's events of mouse and keys. Keys stay with a drag in the scene that uses them: typed
/// numbers, held axes, Enter, Escape.
pub fn hear(
    mut happened: MessageReader<WindowEvent>,
    keys: Res<SceneKeys>,
    mut panels: Query<(&mut EguiContext, &mut EguiInput)>,
    mut clipboard: ResMut<EguiClipboard>,
    mut before: Local<Before>,
    mut redraw: MessageWriter<RequestRedraw>,
) {
    let Ok((mut context, mut input)) = panels.single_mut() else { return };
    let zoom = context.get_mut().zoom_factor();
    input.events.retain(|event| !replaced(event));
    let mut events = Vec::new();
    for event in happened.read() {
        before.turn(event, zoom, || clipboard.get_text(), &mut events);
    }
    if keys.taken {
        events.retain(|event| !of_keyboard(event));
    }
    before.waiting.extend(events);
    let mut events = one_frame(&mut before.waiting);
    if !before.waiting.is_empty() {
        redraw.write(RequestRedraw);
    }
    events.append(&mut input.events);
    input.events = events;
}

/// What the panels hear in this frame; the rest waits. A key that leaves a field or calls something has a frame to
/// itself, since what is typed after it belongs elsewhere; keys and mouse buttons come in frames of their own.
fn one_frame(waiting: &mut VecDeque<Event>) -> Vec<Event> {
    let mut frame = Vec::new();
    let mut last = None;
    while let Some(event) = waiting.front() {
        let kind = Kind::of(event);
        match (last, kind) {
            (Some(Kind::Leaving), Some(_)) | (Some(_), Some(Kind::Leaving)) => break,
            (Some(last), Some(kind)) if last != kind => break,
            _ => last = kind.or(last),
        }
        frame.extend(waiting.pop_front());
    }
    frame
}

/// Events that must not meet in one frame.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Leaving,
    Keyboard,
    Button,
}

impl Kind {
    /// `None` for what goes with anything: moves, modifiers, and keys that are let go.
    fn of(event: &Event) -> Option<Self> {
        match event {
            Event::Key { pressed: false, .. } => None,
            Event::Key { key, modifiers, .. } if leaves(*key, *modifiers) => Some(Self::Leaving),
            Event::PointerButton { .. } => Some(Self::Button),
            event if of_keyboard(event) => Some(Self::Keyboard),
            _ => None,
        }
    }
}

/// Whether a key may move the keyboard elsewhere or open something: it leaves a field, or is a chord or function key.
fn leaves(key: egui::Key, modifiers: Modifiers) -> bool {
    use egui::Key::{ArrowDown, ArrowUp, Enter, Escape, F1, F2, F3, F4, F5, F6, F7, F8, F9, F10, F11, F12, Tab};
    let chord = modifiers.command && !modifiers.alt;
    let function = matches!(key, F1 | F2 | F3 | F4 | F5 | F6 | F7 | F8 | F9 | F10 | F11 | F12);
    chord || function || matches!(key, Tab | Enter | Escape | ArrowUp | ArrowDown)
}

fn of_keyboard(event: &Event) -> bool {
    matches!(event, Event::Key { .. } | Event::Text(_) | Event::Paste(_) | Event::Copy | Event::Cut)
}

fn replaced(event: &Event) -> bool {
    let of_mouse = matches!(event, Event::PointerMoved(_) | Event::PointerButton { .. });
    of_mouse || of_keyboard(event) || matches!(event, Event::ModifiersChanged(_))
}

impl Before {
    fn turn(&mut self, event: &WindowEvent, zoom: f32, pasted: impl FnOnce() -> Option<String>, to: &mut Vec<Event>) {
        match event {
            WindowEvent::CursorMoved(moved) => {
                self.pointer = Pos2::new(moved.position.x, moved.position.y) / zoom;
                to.push(Event::PointerMoved(self.pointer));
            }
            WindowEvent::CursorLeft(_) => to.push(Event::PointerGone),
            WindowEvent::MouseButtonInput(input) => {
                let button = match input.button {
                    MouseButton::Left => PointerButton::Primary,
                    MouseButton::Right => PointerButton::Secondary,
                    MouseButton::Middle => PointerButton::Middle,
                    MouseButton::Back => PointerButton::Extra1,
                    MouseButton::Forward => PointerButton::Extra2,
                    MouseButton::Other(_) => return,
                };
                let pressed = input.state == ButtonState::Pressed;
                to.push(Event::PointerButton { pos: self.pointer, button, pressed, modifiers: self.held });
            }
            WindowEvent::KeyboardInput(input) => self.key(input, pasted, to),
            WindowEvent::KeyboardFocusLost(_) => self.hold(Modifiers::NONE, to),
            _ => {}
        }
    }

    fn key(&mut self, input: &KeyboardInput, pasted: impl FnOnce() -> Option<String>, to: &mut Vec<Event>) {
        let pressed = input.state == ButtonState::Pressed;
        let mut held = self.held;
        match input.logical_key {
            Key::Shift => held.shift = pressed,
            Key::Control => held.ctrl = pressed,
            Key::Alt => held.alt = pressed,
            Key::Super | Key::Meta => held.mac_cmd = pressed && cfg!(target_os = "macos"),
            _ => {}
        }
        held.command = if cfg!(target_os = "macos") { held.mac_cmd } else { held.ctrl };
        self.hold(held, to);
        let physical_key = bevy_to_egui_physical_key(&input.key_code);
        // The physical key stands in on keyboards without Latin letters.
        let key = bevy_to_egui_key(&input.logical_key).or(physical_key);
        // Control and Alt together are how some keyboards write signs of their own.
        let typing = !held.command || (held.ctrl && held.alt);
        if let Some(key) = key {
            let letter = (pressed && !typing).then_some(key);
            match letter {
                Some(egui::Key::C) => to.push(Event::Copy),
                Some(egui::Key::X) => to.push(Event::Cut),
                Some(egui::Key::V) => to.extend(pasted().map(|text| Event::Paste(text.replace("\r\n", "\n")))),
                _ => {}
            }
            to.push(Event::Key { key, physical_key, pressed, repeat: input.repeat, modifiers: held });
        }
        let text = input.text.as_ref().filter(|text| pressed && typing && !text.chars().any(char::is_control));
        to.extend(text.filter(|text| !text.is_empty()).map(|text| Event::Text(text.to_string())));
    }

    fn hold(&mut self, held: Modifiers, to: &mut Vec<Event>) {
        if self.held != held {
            self.held = held;
            to.push(Event::ModifiersChanged(held));
        }
    }
}

#[cfg(test)]
mod tests {
    use bevy::input::keyboard::KeyCode;
    use bevy::window::CursorMoved;

    use super::*;

    fn press(key_code: KeyCode, logical_key: Key, text: Option<&str>, state: ButtonState) -> WindowEvent {
        let text = text.map(Into::into);
        KeyboardInput { key_code, logical_key, state, text, repeat: false, window: Entity::PLACEHOLDER }.into()
    }

    fn heard(happened: &[WindowEvent]) -> Vec<Event> {
        let (mut before, mut events) = (Before::default(), Vec::new());
        for event in happened {
            before.turn(event, 2.0, || Some("1\t2\r\n".into()), &mut events);
        }
        events
    }

    #[test]
    fn a_chord_within_one_frame_keeps_its_modifiers() {
        use ButtonState::{Pressed, Released};
        let control = |state| press(KeyCode::ControlLeft, Key::Control, None, state);
        let z = |state| press(KeyCode::KeyZ, Key::Character("z".into()), Some("z"), state);
        let events = heard(&[control(Pressed), z(Pressed), z(Released), control(Released)]);
        let chord = events.iter().find(|event| matches!(event, Event::Key { key: egui::Key::Z, pressed: true, .. }));
        assert!(matches!(chord, Some(Event::Key { modifiers, .. }) if modifiers.ctrl && modifiers.command));
        assert!(!events.iter().any(|event| matches!(event, Event::Text(_))), "a chord types nothing");
        assert_eq!(events.last(), Some(&Event::ModifiersChanged(Modifiers::NONE)));
    }

    #[test]
    fn plain_letters_type_and_the_paste_chord_pastes() {
        use ButtonState::Pressed;
        let a = press(KeyCode::KeyA, Key::Character("ä".into()), Some("ä"), Pressed);
        assert!(heard(&[a]).contains(&Event::Text("ä".into())));
        let control = press(KeyCode::ControlLeft, Key::Control, None, Pressed);
        let v = press(KeyCode::KeyV, Key::Character("v".into()), Some("v"), Pressed);
        assert!(heard(&[control, v]).contains(&Event::Paste("1\t2\n".into())));
    }

    #[test]
    fn the_pointer_is_told_in_points_and_a_click_where_it_was_made() {
        let moved = CursorMoved { window: Entity::PLACEHOLDER, position: Vec2::new(40.0, 20.0), delta: None };
        let button = bevy::input::mouse::MouseButtonInput {
            button: MouseButton::Left,
            state: ButtonState::Pressed,
            window: Entity::PLACEHOLDER,
        };
        let events = heard(&[moved.into(), button.into()]);
        assert_eq!(events[0], Event::PointerMoved(Pos2::new(20.0, 10.0)));
        assert!(matches!(events[1], Event::PointerButton { pos, pressed: true, .. } if pos == Pos2::new(20.0, 10.0)));
    }

    #[test]
    fn what_follows_a_tab_or_a_click_waits_for_the_next_frame() {
        use ButtonState::{Pressed, Released};
        let typed = |sign: &str| press(KeyCode::Digit4, Key::Character(sign.into()), Some(sign), Pressed);
        let tab = |state| press(KeyCode::Tab, Key::Tab, None, state);
        let button = |state| {
            let window = Entity::PLACEHOLDER;
            bevy::input::mouse::MouseButtonInput { button: MouseButton::Left, state, window }.into()
        };
        let happened = [
            typed("4"),
            typed("5"),
            tab(Pressed),
            tab(Released),
            typed("6"),
            button(Pressed),
            button(Released),
            button(Pressed),
            button(Released),
            typed("7"),
        ];
        let mut waiting: VecDeque<Event> = heard(&happened).into();
        let mut frames = Vec::new();
        while !waiting.is_empty() {
            frames.push(one_frame(&mut waiting));
        }
        let said: Vec<String> = frames
            .iter()
            .map(|frame| {
                let word = |event: &Event| match event {
                    Event::Text(text) => text.clone(),
                    Event::Key { key: egui::Key::Tab, pressed: true, .. } => "tab".into(),
                    Event::PointerButton { pressed: true, .. } => "click".into(),
                    _ => String::new(),
                };
                frame.iter().map(word).collect()
            })
            .collect();
        // Two clicks in one frame stay together: they may be a double click.
        assert_eq!(said, ["45", "tab", "6", "clickclick", "7"]);
    }

    #[test]
    fn what_is_typed_before_and_after_enter_or_a_chord_keeps_its_order() {
        use ButtonState::{Pressed, Released};
        let typed = |sign: &str| press(KeyCode::Digit4, Key::Character(sign.into()), Some(sign), Pressed);
        let enter = press(KeyCode::Enter, Key::Enter, Some("\r"), Pressed);
        let control = |state| press(KeyCode::ControlLeft, Key::Control, None, state);
        let open = press(KeyCode::KeyO, Key::Character("o".into()), Some("o"), Pressed);
        let happened = [
            typed("5"),
            typed("3"),
            typed("9"),
            enter,
            typed("1"),
            control(Pressed),
            open,
            control(Released),
            typed("s"),
        ];
        let mut waiting: VecDeque<Event> = heard(&happened).into();
        let mut said = Vec::new();
        while !waiting.is_empty() {
            let word = |event: &Event| match event {
                Event::Text(text) => text.clone(),
                Event::Key { key: egui::Key::Enter, pressed: true, .. } => "enter".into(),
                Event::Key { key: egui::Key::O, pressed: true, .. } => "chord".into(),
                _ => String::new(),
            };
            said.push(one_frame(&mut waiting).iter().map(word).collect::<String>());
        }
        assert_eq!(said, ["539", "enter", "1", "chord", "s"]);
    }

    /// F2 takes the keyboard to the name of the tube, which is typed in the same slow frame.
    #[test]
    fn what_is_typed_after_a_function_key_waits_for_what_the_key_opens() {
        use ButtonState::Pressed;
        let letter = |sign: &str| press(KeyCode::KeyT, Key::Character(sign.into()), Some(sign), Pressed);
        for (code, key, heard_as) in [
            (KeyCode::F1, Key::F1, egui::Key::F1),
            (KeyCode::F2, Key::F2, egui::Key::F2),
            (KeyCode::F12, Key::F12, egui::Key::F12),
        ] {
            let happened = [press(code, key, None, Pressed), letter("T"), letter("a")];
            let mut waiting: VecDeque<Event> = heard(&happened).into();
            let first = one_frame(&mut waiting);
            assert!(matches!(first.as_slice(), [Event::Key { key, .. }] if *key == heard_as), "{first:?}");
            let text = |event: &Event| if let Event::Text(text) = event { text.clone() } else { String::new() };
            assert_eq!(one_frame(&mut waiting).iter().map(text).collect::<String>(), "Ta");
        }
    }

    #[test]
    fn nothing_is_said_while_nothing_happens() {
        assert!(heard(&[]).is_empty());
    }
}
