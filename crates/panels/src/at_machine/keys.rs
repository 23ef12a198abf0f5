//! The keys of the view for the machine. A foot switch sends one of them.

use egui::{Event, Key, Ui};
use elbowroom_workbench::Command;

/// A press that follows another within so many seconds is the bouncing of a switch, no second step.
const BOUNCE: f64 = 0.3;

/// What the keys of this frame ask for. They are taken, so that nothing else hears them; a button that was reached by Tab
/// keeps Space and Enter for itself. A key that is held down asks once. `last_at` is when one was heard last.
pub(super) fn asked(ui: &Ui, last_at: &mut Option<f64>) -> Vec<Command> {
    let a_button_has_them = ui.ctx().memory(|memory| memory.focused().is_some());
    let mut commands = Vec::new();
    ui.input_mut(|input| {
        let now = input.time;
        input.events.retain(|event| {
            let Event::Key { key, pressed, repeat, modifiers, .. } = event else { return true };
            let is_next = match key {
                Key::Space | Key::Enter if !a_button_has_them => true,
                Key::PageDown => true,
                Key::PageUp => false,
                _ => return true,
            };
            if modifiers.any() {
                return true;
            }
            if !pressed || *repeat {
                return false;
            }
            if last_at.is_none_or(|last| now - last >= BOUNCE) {
                *last_at = Some(now);
                commands.push(if is_next { Command::StepOn } else { Command::StepBack });
            }
            false
        });
    });
    commands
}
