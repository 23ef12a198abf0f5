//! From the engine's events to the hand's acts. They are read in their true order, so that a press, a move and a
//! release within one slow frame are still a click or a drag.

use bevy::input::ButtonState;
use bevy::input::keyboard::Key;
use bevy::input::mouse::MouseScrollUnit;
use bevy::prelude::*;
use bevy::window::WindowEvent;

use super::{Act, Around, Button, Hand};
use crate::camera::{Eye, Framing, View};
use crate::pick::{Bystander, Knobs};
use crate::{Desk, MenuWish, SceneArea, SceneBox, SceneKeys, Wishes};

/// Pixels of a touchpad that count as one notch of a wheel.
const PIXELS_PER_NOTCH: f64 = 60.0;

/// Turns what mouse and keys did over the scene into wishes and a moved eye.
#[allow(clippy::too_many_arguments, reason = "a system names each resource it touches")]
pub fn read_hand(
    mut events: MessageReader<WindowEvent>,
    keys: Res<ButtonInput<KeyCode>>,
    time: Res<Time<Real>>,
    desk: Res<Desk>,
    area: Res<SceneArea>,
    mut knobs: ResMut<Knobs>,
    mut hand: ResMut<Hand>,
    mut eye: ResMut<Eye>,
    mut framing: ResMut<Framing>,
    mut scene_keys: ResMut<SceneKeys>,
    mut wishes: ResMut<Wishes>,
    mut boxed: ResMut<SceneBox>,
    mut menu: ResMut<MenuWish>,
) {
    let acts: Vec<Act> = events.read().filter_map(act).collect();
    let Some(view) = View::new(&eye, &area) else { return };
    knobs.follow(&desk.0);
    let held = |pair: [KeyCode; 2]| keys.any_pressed(pair);
    let bystanders = desk.0.other_tubes();
    let others: Vec<_> = bystanders.map(|(tube, solved)| Bystander { id: tube.id, part: &tube.part, solved }).collect();
    let around = Around {
        view,
        part: desk.0.part(),
        solved: desk.0.solved(),
        knobs: knobs.all(),
        others: &others,
        shop: desk.0.shop(),
        selection: desk.0.selection(),
        hover: desk.0.hover(),
        shift: held([KeyCode::ShiftLeft, KeyCode::ShiftRight]),
        snap: held([KeyCode::ControlLeft, KeyCode::ControlRight]) || held([KeyCode::SuperLeft, KeyCode::SuperRight]),
        now_s: time.elapsed_secs_f64(),
    };
    let outcome = hand.frame(acts, around);
    if let Some(moved) = outcome.eye {
        eye.set_if_neq(moved);
        framing.by_hand = true;
    }
    boxed.set_if_neq(SceneBox(hand.boxed().map(|boxed| (boxed.min, boxed.max))));
    if outcome.menu.is_some() {
        menu.0 = outcome.menu;
    }
    scene_keys.set_if_neq(SceneKeys { taken: outcome.keys_taken });
    if !outcome.wishes.is_empty() {
        wishes.0.extend(outcome.wishes);
    }
}

fn act(event: &WindowEvent) -> Option<Act> {
    match event {
        WindowEvent::CursorMoved(moved) => Some(Act::Moved(moved.position)),
        WindowEvent::MouseButtonInput(input) => {
            let button = match input.button {
                MouseButton::Left => Button::Left,
                MouseButton::Middle | MouseButton::Right => Button::Turn,
                _ => return None,
            };
            Some(if input.state == ButtonState::Pressed { Act::Down(button) } else { Act::Up(button) })
        }
        WindowEvent::MouseWheel(wheel) => Some(Act::Wheel(match wheel.unit {
            MouseScrollUnit::Line => f64::from(wheel.y),
            MouseScrollUnit::Pixel => f64::from(wheel.y) / PIXELS_PER_NOTCH,
        })),
        WindowEvent::KeyboardInput(input) => key(input.state == ButtonState::Pressed, &input.logical_key),
        WindowEvent::WindowFocused(focus) if !focus.focused => Some(Act::FocusLost),
        _ => None,
    }
}

fn key(pressed: bool, key: &Key) -> Option<Act> {
    match key {
        Key::Character(text) => {
            let axis = ["x", "y", "z"].iter().position(|axis| text.eq_ignore_ascii_case(axis));
            match axis {
                Some(axis) => Some(Act::Axis(axis, pressed)),
                None => pressed.then(|| Act::Text(text.to_string())),
            }
        }
        Key::ArrowLeft if pressed => Some(Act::Arrow(-1, 0)),
        Key::ArrowRight if pressed => Some(Act::Arrow(1, 0)),
        Key::ArrowDown if pressed => Some(Act::Arrow(0, -1)),
        Key::ArrowUp if pressed => Some(Act::Arrow(0, 1)),
        Key::Space if pressed => Some(Act::Text(" ".to_owned())),
        Key::Backspace if pressed => Some(Act::Erase),
        Key::Enter if pressed => Some(Act::Enter),
        Key::Escape if pressed => Some(Act::Escape),
        _ => None,
    }
}
