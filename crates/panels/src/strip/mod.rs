//! The blank strip: the tube unrolled to scale, with clamps, findings, seam and trims.

mod edges;
mod hands;
mod held;
mod lanes;
mod model;
mod paint;
mod pattern;
mod plan;
mod ruler;
mod scale;
mod seam;
mod snapshot;
mod title;

pub use edges::Edge;
pub use model::{Footprint, Mark, Model, Piece};
pub use pattern::paint_stretch;
pub use seam::SeamLine;
pub use title::sentence;

use egui::{Sense, TextStyle, Ui, Vec2, WidgetInfo, WidgetType};
use elbowroom_workbench::Command;

use crate::colours::colours;
use hands::Hands;
use held::Held;
use lanes::Lanes;
use paint::Pen;
use plan::Plan;

/// The height that the strip likes to have, points.
pub const HEIGHT: f32 = Plan::HEIGHT;

/// Shows the strip in the room there is, and returns what the person asks for.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let height = ui.available_height().clamp(Plan::LEAST, Plan::MOST);
    let (rect, response) = ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, "Blank strip"));
    let memory = response.id;
    let mut held: Held = ui.data_mut(|data| data.get_temp(memory)).unwrap_or_default();
    let scale = held.scale(model.extent_mm(), rect.x_range());
    let plan = Plan::new(rect, scale);
    let lanes = Lanes::of(model, plan.lanes);
    let mut hands = Hands { ui, model, plan, held: &mut held, commands: Vec::new(), hovered: None };
    hands.pieces(&response);
    hands.footprints(&lanes);
    hands.marks(&lanes);
    hands.edges();
    hands.view(&response);
    hands.keys(&response);
    let commands = hands.finish();
    let painter = ui.painter_at(rect);
    let pen = Pen { painter: &painter, palette: colours(ui), plan, font: TextStyle::Small.resolve(ui.style()) };
    pen.strip(model, &lanes);
    pen.edge_in_hand(model, &held, response.has_focus());
    title::ui(ui, model, &plan, &mut held);
    ui.data_mut(|data| data.insert_temp(memory, held));
    commands
}
