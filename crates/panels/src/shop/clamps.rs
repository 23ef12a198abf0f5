//! The clamps of the die set that is looked at: what each has proved to hold, and on which tube.

use egui::{RichText, Ui};
use elbowroom_bending::{Clamp, ClampFigures, DieSet, Guard, ProvedOn, ShopEdit};
use elbowroom_geometry::{Angle, Length, Refusal};

use super::change::{basis, changed};
use super::fields::{Row, button, field, own, small};
use super::model::Model;
use crate::widgets::{choose, heading};

/// Widths of the columns, points.
const COLUMNS: [f32; 4] = [96.0, 80.0, 176.0, 52.0];
/// The first clamp of all: of about the length that holds a quarter turn on small tube. Common practice, no source.
const USUAL: (f64, f64) = (80.0, 90.0);

pub(super) fn ui(ui: &mut Ui, model: &Model, die: &DieSet) -> Vec<ShopEdit> {
    let mut edits = Vec::new();
    heading(ui, "Clamps", |ui| {
        if button(ui, "Add a clamp", "Add a clamp", "One a little longer than the longest, to be changed") {
            edits.push(changed(model, die, &|it| it.clamps.extend(longer(die))));
        }
    });
    ui.horizontal(|ui| {
        for (head, width) in ["Length", "Proved to", "on tube of", "Our own"].into_iter().zip(COLUMNS) {
            field(ui, width, |ui| ui.label(RichText::new(head).small().weak()));
        }
    });
    for (index, clamp) in die.clamps.iter().enumerate() {
        ui.push_id(("clamp", index), |ui| edits.extend(row(ui, model, die, index, clamp)));
    }
    small(
        ui,
        "A stretch between two lengths is held to an angle between theirs. ~ is common practice, not proved here.",
    );
    edits
}

fn row(ui: &mut Ui, model: &Model, die: &DieSet, index: usize, clamp: &Clamp) -> Option<ShopEdit> {
    let of = |what: &str| format!("{what} of the {} clamp", model.length(clamp.length));
    let with = |change: &dyn Fn(&mut ClampFigures)| {
        let mut figures = clamp.clone().into_figures();
        change(&mut figures);
        figures
    };
    let edit = |figures: ClampFigures| -> Result<ShopEdit, Refusal> {
        let clamp = figures.sound()?;
        Ok(changed(model, die, &|it| it.clamps[index] = clamp.clone()))
    };
    let mut row = Row::default();
    ui.horizontal_top(|ui| {
        field(ui, COLUMNS[0], |ui| {
            row.length(ui, model, &of("Length"), clamp.length, |to| edit(with(&|it| it.length = to)));
        });
        field(ui, COLUMNS[1], |ui| {
            row.angle(ui, model, &of("Proved angle"), clamp.proved_angle, |to| edit(with(&|it| it.proved_angle = to)));
        });
        let on = field(ui, COLUMNS[2], |ui| proved_on(ui, model, die, clamp, &of("Tube")));
        row.give(on.and_then(|on| {
            // Whoever says on which tube has seen it hold.
            let own = if on.is_some() { basis(true) } else { clamp.basis };
            edit(with(&|it| (it.proved_on, it.basis) = (on.clone(), own))).ok()
        }));
        let hint = "Tick it when it has held this angle here without slipping.";
        let own = field(ui, COLUMNS[3], |ui| own(ui, "", &of("Own proof"), clamp.basis.unsure(), hint));
        row.give(own.and_then(|is_own| edit(with(&|it| it.basis = basis(is_own))).ok()));
        let gone = button(ui, "×", &format!("Remove the {} clamp", model.length(clamp.length)), "Remove this clamp");
        row.give(gone.then(|| changed(model, die, &|it| drop(it.clamps.remove(index)))));
    });
    row.end(ui)
}

/// The tube on which a clamp has proved itself; gives what is newly chosen.
fn proved_on(ui: &mut Ui, model: &Model, die: &DieSet, clamp: &Clamp, label: &str) -> Option<Option<ProvedOn>> {
    let said = |on: &ProvedOn| format!("{} {}", model.length(on.wall), on.material);
    let shown = clamp.proved_on.as_ref().map_or("not noted".to_owned(), said);
    let mut choices = vec![(None, "not noted".to_owned())];
    for tube in model.tubes_of(die) {
        let on = ProvedOn { wall: tube.wall, material: tube.material.clone() };
        choices.push((Some(on.clone()), said(&on)));
    }
    choose(ui, label, shown, Some(&clamp.proved_on), choices)
}

/// A clamp a little longer than the longest, with what that has proved.
fn longer(die: &DieSet) -> Option<Clamp> {
    let figures = match die.longest_clamp() {
        Some(longest) => {
            let mut figures = longest.clone().into_figures();
            figures.length += Length::from_mm(10.0);
            (figures.basis, figures.proved_on) = (basis(false), None);
            figures
        }
        None => ClampFigures {
            length: Length::from_mm(USUAL.0),
            proved_angle: Angle::from_degrees(USUAL.1),
            basis: basis(false),
            proved_on: None,
        },
    };
    figures.sound().ok()
}
