//! The page of the shop: its machine, die sets with their clamps, tubes and limits, each changed where it stands and
//! judged at once; and what of it is still common practice.

mod change;
mod clamps;
mod die;
mod dies;
mod fields;
mod leaf;
mod limits;
mod machine;
mod model;
mod rests;
mod tubes;

pub use leaf::Leaf;
pub use model::{Model, Rest};

use egui::{Id, ScrollArea, Ui, Vec2, Window, pos2};
use elbowroom_workbench::Command;

use crate::widgets::{legend, link};

/// Which leaf is open, and which die set is looked at.
#[derive(Clone, Debug, Default)]
pub struct State {
    leaf: Leaf,
    /// The die set that is looked at, by name; one of the part's where none is.
    die: Option<String>,
}

/// Size of the page where the window gives it, points.
const SIZE: Vec2 = Vec2::new(806.0, 900.0);

/// Shows the page.
pub fn ui(ui: &Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    let mut open = true;
    let window = ui.ctx().content_rect();
    let size = SIZE.min(window.size() * Vec2::new(0.9, 0.78));
    Window::new("Shop")
        .id(Id::new("shop"))
        .open(&mut open)
        .collapsible(false)
        .default_size(size)
        // At the left, so that the verdict stays in sight.
        .default_pos(pos2(window.left() + 8.0, window.top() + 44.0))
        .constrain_to(window)
        .show(ui.ctx(), |ui| commands.extend(head_and_leaf(ui, model, state)));
    if !open {
        commands.push(Command::ToggleShop);
    }
    commands
}

fn head_and_leaf(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = fields::shop(ui, model);
    ui.horizontal_wrapped(|ui| {
        for leaf in Leaf::ALL {
            let count = if leaf == Leaf::Rests { model.unsure_count() } else { 0 };
            let name = if count > 0 { format!("{} ({count})", leaf.name()) } else { leaf.name().to_owned() };
            if ui.selectable_label(state.leaf == leaf, name).clicked() {
                state.leaf = leaf;
            }
        }
        for (what, label, command) in [("Undo", &model.undo, Command::Undo), ("Redo", &model.redo, Command::Redo)] {
            let Some(label) = label else { continue };
            if link(ui, what, &format!("{what} on the page of the shop")).on_hover_text(label).clicked() {
                commands.push(command);
            }
        }
    });
    ui.separator();
    let scroll = ScrollArea::vertical().id_salt(("shop", state.leaf.name())).auto_shrink([false, false]);
    scroll.show(ui, |ui| {
        commands.extend(match state.leaf {
            Leaf::Machine => machine::ui(ui, model),
            Leaf::Dies => dies::ui(ui, model, &mut state.die),
            Leaf::Tubes => tubes::ui(ui, model),
            Leaf::Limits => limits::ui(ui, model),
            Leaf::Rests => {
                if let Some((leaf, die)) = rests::ui(ui, model) {
                    (state.leaf, state.die) = (leaf, die.or(state.die.take()));
                }
                Vec::new()
            }
        });
        ui.add_space(4.0);
        legend(ui, model.unsure_count() > 0);
    });
    commands
}
