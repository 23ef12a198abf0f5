//! What the marks on the tube mean, in the lower right corner of the scene: the signs of what is found on this tube, each
//! in the pattern that it has on the tube.

use std::fmt;

use egui::{Align2, Area, Frame, Id, Margin, Order, RichText, Ui, vec2};
use elbowroom_bending::Severity;
use elbowroom_workbench::Workbench;

use crate::colours::{colour, colours};
use crate::widgets::mark;

/// Height of a sign, points.
const SIGN: f32 = 14.0;
/// In a scene narrower than this, points, there is no room beside the tube.
const ROOM: f32 = 260.0;
/// What is said where something is found of the tube as a whole.
const WHOLE: &str = "at both ends: the whole tube";

/// What is marked on the tube.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The severities that are found, worst first.
    pub found: Vec<Severity>,
    /// Whether something is found of the tube as a whole, which marks both ends.
    pub of_whole: bool,
}

impl Model {
    /// What is marked on the tube that is worked on; `None` where nothing is.
    pub fn of(workbench: &Workbench) -> Option<Self> {
        let findings = &workbench.solved().findings;
        let is_marked = |severity: &Severity| {
            let mut of_it = findings.iter().filter(|finding| finding.severity == *severity);
            of_it.any(|finding| finding.places().any(|place| place.to_mm > place.from_mm))
        };
        let found: Vec<_> = [Severity::Stop, Severity::Caution, Severity::Note].into_iter().filter(is_marked).collect();
        let mut places = findings.iter().flat_map(|finding| finding.places());
        let of_whole = places.any(|place| place.is_whole_tube() && place.to_mm > place.from_mm);
        (!found.is_empty()).then_some(Self { found, of_whole })
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words: Vec<&str> = self.found.iter().map(|severity| severity.word()).collect();
        write!(out, "{}", words.join(", "))?;
        if self.of_whole { write!(out, "; {WHOLE}") } else { Ok(()) }
    }
}

/// Shows it in the lower right corner of what `ui` has left. It takes no part of the scene from the pointer.
pub fn ui(ui: &mut Ui, model: &Model) {
    let free = ui.available_rect_before_wrap();
    if free.width() < ROOM {
        return;
    }
    let area = Area::new(Id::new("marks legend")).order(Order::Background).interactable(false).movable(false);
    let place = free.right_bottom() + vec2(-8.0, -8.0);
    area.pivot(Align2::RIGHT_BOTTOM).fixed_pos(place).constrain(true).show(ui.ctx(), |ui| {
        let plate = Frame::new().inner_margin(Margin::symmetric(8, 4)).corner_radius(4.0);
        plate.fill(colour(colours(ui).label_background)).show(ui, |ui| {
            ui.horizontal(|ui| {
                for severity in &model.found {
                    mark(ui, *severity, SIGN);
                    ui.label(RichText::new(severity.word()).small());
                    ui.add_space(4.0);
                }
            });
            if model.of_whole {
                ui.label(RichText::new(WHOLE).small().weak());
            }
        });
    });
}
