//! The buttons that add and remove bends.

use egui::{Button, Ui};
use elbowroom_bending::{ClampLength, DieSet, Edit};
use elbowroom_geometry::{Angle, BendRow, Length};
use elbowroom_workbench::{Command, Table};

use super::{Cell, Column, Model, State};

/// The angle of a bend that is added, to be typed over.
const NEW_ANGLE: Angle = Angle::from_degrees(45.0);

/// Draws the buttons, from the right.
pub(super) fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    let selected = model.selected_bends();
    // Without a frame while it can do nothing: a faded fill comes out darker where the window blends in
    // linear light, and would look pressed.
    let any = !selected.is_empty();
    let remove = ui.add_enabled(any, Button::new("Remove").frame(any));
    let remove = remove.on_hover_text("Remove the selected bends: their neighbours meet directly");
    if remove.on_disabled_hover_text("Select a bend to remove it").clicked() {
        commands.push(Command::Edit(Edit::RemoveBends(selected.iter().map(|bend| model.nodes.bend(*bend)).collect())));
    }
    let after = selected.last().map(|bend| bend + 1);
    let add = ui.button("Add bend").on_hover_text(match after {
        Some(bend) => format!("Add a bend after bend {bend}"),
        None => "Add a bend at the finish".to_owned(),
    });
    if add.clicked() {
        let at = after.unwrap_or(model.bends());
        // What is put in is selected by itself.
        commands.push(Command::Edit(Edit::InsertRows(model.nodes.straight(at), vec![new_row(model, at)])));
        // Among points it is the one that is selected next.
        state.go_to = (model.table == Table::Rows).then_some(Cell::new(at, Column::Straight));
    }
    commands
}

/// A bend that the tooling makes as it stands: the radius of its neighbour or of the first die set that
/// takes the tube, and a straight as long as the longest clamp.
fn new_row(model: &Model, at: usize) -> BendRow {
    let part = &model.part;
    let clr = usual_clr(model, at);
    let chosen = chosen_die(model);
    let die = chosen.or_else(|| model.shop.die_for(part.tube.od, clr));
    let clamp = part
        .tooling
        .clamp
        .map(ClampLength::length)
        .or_else(|| die.and_then(|die| die.longest_clamp()).map(|clamp| clamp.length));
    // A clamp of 2.5 diameters where none is known: common practice, no source.
    let straight = clamp.unwrap_or(part.tube.od * 2.5);
    BendRow { straight: Length::from_mm(straight.mm().ceil()), rotation: Angle::ZERO, angle: NEW_ANGLE, clr }
}

fn chosen_die(model: &Model) -> Option<&DieSet> {
    model.part.tooling.die.as_deref().and_then(|name| model.shop.die_named(name))
}

/// The radius of a bend that comes to stand in a row: that of its neighbour, else of the die set.
pub(super) fn usual_clr(model: &Model, at: usize) -> Length {
    let od = model.part.tube.od;
    let neighbour = at.checked_sub(1).and_then(|row| model.rows.get(row)).or_else(|| model.rows.get(at));
    let neighbour = neighbour.or_else(|| model.rows.last()).map(|row| row.bend.clr);
    let fitting = || model.shop.die_sets.iter().find(|die| die.takes(od));
    let clr = neighbour.or_else(|| chosen_die(model).or_else(fitting).map(|die| die.clr));
    // Without any die set at all: one and a half diameters, a common radius in exhaust work (common
    // practice, no source).
    clr.unwrap_or(od * 1.5)
}
