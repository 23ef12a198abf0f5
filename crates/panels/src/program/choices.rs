//! From which end a part is bent and to which side: a choice that program and first-off share.

use egui::Ui;
use elbowroom_bending::{Edit, End, Hand};
use elbowroom_workbench::{Command, Workbench};

/// What is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The end that is bent first.
    pub from: End,
    /// The side to which the machine bends.
    pub hand: Hand,
    /// The side to which the shop's machine bends.
    pub hand_of_shop: Hand,
}

impl Choice {
    /// The choice of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let (tooling, shop) = (&workbench.part().tooling, workbench.shop());
        Self { from: tooling.from, hand: tooling.hand_in(shop), hand_of_shop: shop.machine.hand }
    }

    /// Shows it and says what was asked for.
    pub(crate) fn ui(self, ui: &mut Ui) -> Vec<Command> {
        let mut commands: Vec<Command> = bent_first(ui, self.from).into_iter().collect();
        ui.horizontal_wrapped(|ui| {
            ui.label("Machine bends");
            for (hand, name) in [(Hand::Left, "Left"), (Hand::Right, "Right")] {
                let hint =
                    "Seen from the chuck looking to the die. Where nothing is chosen, it is that of the shop's machine.";
                if ui.selectable_label(self.hand == hand, name).on_hover_text(hint).clicked() {
                    commands.push(Command::Edit(Edit::BendToHand((hand != self.hand_of_shop).then_some(hand))));
                }
            }
        });
        commands
    }
}

/// Whether the program is corrected by measured pieces, the last of which is named, or stays as planned.
pub(crate) fn corrected(ui: &mut Ui, after: usize, is_corrected: bool) -> Option<Command> {
    let mut wanted = is_corrected;
    let hint = "With it the program takes out what the machine strayed on the measured pieces; without, it stays as planned. \
                The choice is kept with the part.";
    let changed = ui.checkbox(&mut wanted, format!("Corrected after piece {after}")).on_hover_text(hint).changed();
    changed.then_some(Command::Edit(Edit::CorrectBy(wanted)))
}

/// The choice of the end that is bent first.
pub(crate) fn bent_first(ui: &mut Ui, from: End) -> Option<Command> {
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        ui.label("Bent first");
        for (end, name, hint) in [
            (End::Start, "Start", "The drawing's first bend is made first."),
            (End::Finish, "Finish", "The drawing's last bend is made first."),
        ] {
            if ui.selectable_label(from == end, name).on_hover_text(hint).clicked() {
                asked = Some(Command::Edit(Edit::BendFrom(end)));
            }
        }
    });
    asked
}
