//! The steps, each in two lines: large what is set, small the rest. A click selects the bend.

use egui::{Align2, FontId, Rect, Sense, TextStyle, Ui, WidgetInfo, WidgetType, pos2, vec2};
use elbowroom_bending::Numbering;
use elbowroom_workbench::{Command, SelectMode, Selection, Target, Workbench};

use elbowroom_bending::program_sheet::{NOTHING_BENT, SheetStep};

use super::model::rest;
use crate::colours::{colour, colours};
use crate::style::heading_text;

/// Where the columns end, as shares of the width.
const COLUMNS: [(&str, f32); 4] = [("Step", 0.10), ("Feed", 0.40), ("Rotation", 0.68), ("Set angle", 0.97)];

/// The drawing that the steps make: what of it is selected, and by which ids its bends are known.
#[derive(Clone, Copy, Debug)]
pub struct Drawing<'a> {
    selection: &'a Selection,
    nodes: &'a Numbering,
}

impl<'a> Drawing<'a> {
    /// That of a workbench.
    pub fn of(workbench: &'a Workbench) -> Self {
        Self { selection: workbench.selection(), nodes: &workbench.solved().nodes }
    }
}

/// Draws the steps that are in view and says what was asked for.
pub(super) fn ui(ui: &mut Ui, steps: &[SheetStep], drawing: Drawing) -> Vec<Command> {
    let line = |step: &SheetStep| StepLine {
        number: step.number,
        bend: step.bend,
        feed: step.feed.clone(),
        rotation: format!("{}°", step.rotation),
        set: format!("{}°", step.set),
        rest: rest(step),
    };
    lines(ui, &steps.iter().map(line).collect::<Vec<_>>(), drawing)
}

/// One step as it is drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepLine {
    /// The step, counted from 1.
    pub number: usize,
    /// The bend as drawn, counted from 0.
    pub bend: Option<usize>,
    /// Carriage feed.
    pub feed: String,
    /// Rotation, always with its sign.
    pub rotation: String,
    /// Angle to set.
    pub set: String,
    /// The rest in one line.
    pub rest: String,
}

/// Draws steps that are lines already.
pub(crate) fn lines(ui: &mut Ui, steps: &[StepLine], drawing: Drawing) -> Vec<Command> {
    let mut commands = Vec::new();
    if steps.is_empty() {
        ui.label(NOTHING_BENT);
        return commands;
    }
    let font = |ui: &Ui, style: TextStyle| style.resolve(ui.style());
    let (large, small) = (font(ui, heading_text()), font(ui, TextStyle::Small));
    let width = ui.available_width();
    let (head, _) = ui.allocate_exact_size(vec2(width, small.size + 6.0), Sense::hover());
    let weak = ui.visuals().weak_text_color();
    for (name, end) in COLUMNS {
        let at = pos2(head.left() + width * end, head.center().y);
        ui.painter().text(at, Align2::RIGHT_CENTER, name, small.clone(), weak);
    }
    for step in steps {
        let rest = ui.painter().layout(step.rest.clone(), small.clone(), weak, width * 0.97 - 12.0);
        let height = large.size + rest.size().y + 12.0;
        let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click());
        let label = format!(
            "Step {}: feed {}, rotation {}, set {}, {}",
            step.number, step.feed, step.rotation, step.set, step.rest
        );
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
        if ui.is_rect_visible(rect) {
            let selected = step.bend.is_some_and(|bend| drawing.selection.contains(Target::Bend(bend)));
            row(ui, rect, step, &large, selected, response.hovered());
            let at = pos2(rect.left() + 12.0, rect.top() + large.size + 7.0);
            ui.painter().galley(at, rest, weak);
        }
        if response.clicked() {
            commands.extend(
                step.bend.map(|bend| Command::Select(Target::Bend(drawing.nodes.bend(bend)), SelectMode::Only)),
            );
        }
    }
    commands
}

fn row(ui: &Ui, rect: Rect, step: &StepLine, large: &FontId, selected: bool, hovered: bool) {
    let palette = colours(ui);
    let painter = ui.painter();
    if selected || hovered {
        let fill = if selected { palette.selection } else { palette.hovered };
        painter.rect_filled(rect, 3.0, colour(fill));
    }
    if selected {
        // A bar at the edge, so that the selection is not told by colour alone.
        let bar = Rect::from_min_size(rect.left_top(), vec2(4.0, rect.height()));
        painter.rect_filled(bar, 2.0, colour(palette.accent));
    }
    let cells = [step.number.to_string(), step.feed.clone(), step.rotation.clone(), step.set.clone()];
    for ((_, end), cell) in COLUMNS.iter().zip(cells) {
        let at = pos2(rect.left() + rect.width() * end, rect.top() + 4.0);
        painter.text(at, Align2::RIGHT_TOP, cell, large.clone(), ui.visuals().text_color());
    }
    painter.hline(rect.x_range(), rect.bottom(), egui::Stroke::new(1.0, colour(palette.border)));
}
