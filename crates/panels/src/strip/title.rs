//! The sentence above the strip: what the blank is made up of, and the way back from a zoom.

use egui::{Align, Color32, Label, Layout, Rect, RichText, TextStyle, Ui, UiBuilder};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::setup::UNSURE_LEGEND;
use elbowroom_geometry::Length;
use elbowroom_geometry::units::format_length;

use crate::widgets::UNSURE;

use super::held::Held;
use super::model::Model;
use super::plan::Plan;

/// The sentence: the blank to cut, springback counted where there is a die set; the tube is as drawn.
pub fn sentence(model: &Model) -> String {
    let text = |mm: f64| format_length(Length::from_mm(mm), model.unit, model.unit.decimals());
    let marked = |unsure: bool, mm: f64| if unsure { format!("{UNSURE}{}", text(mm)) } else { text(mm) };
    let drawn = model.tail_at_mm + model.lead_trim_mm + model.tail_trim_mm;
    let [lead_unsure, tail_unsure] = model.trims_unsure;
    let (blank_mm, lead, tail, theory) = match model.cut {
        Some(cut) => (cut.blank_mm, cut.lead_trim_mm, cut.tail_trim_mm, Ground::from(cut.basis).unsure()),
        None => (drawn, model.lead_trim_mm, model.tail_trim_mm, false),
    };
    let blank = marked(theory || lead_unsure || tail_unsure, blank_mm);
    // A trim that springback makes longer is no surer than the springback.
    let lead_text = marked(lead_unsure || (theory && lead > model.lead_trim_mm), lead);
    let tail_text = marked(tail_unsure || (theory && tail > model.tail_trim_mm), tail);
    let [first, last] = ["the start", "the finish"];
    match (lead > 0.0, tail > 0.0) {
        (false, false) => format!("Blank {blank}, nothing to cut off"),
        (true, false) => {
            format!("Blank {blank}: {lead_text} to cut off {first}, tube {}", text(model.tail_at_mm))
        }
        (false, true) => format!("Blank {blank}: tube {}, {tail_text} to cut off {last}", text(model.tail_at_mm)),
        (true, true) => {
            let tube = text(model.tail_at_mm);
            format!("Blank {blank}: {lead_text} to cut off {first}, tube {tube}, {tail_text} to cut off {last}")
        }
    }
}

/// What the seam's line means.
const SEAM: &str = "Seam: at the upper edge it lies on the outside of a bend; dashed, on the side turned away";

/// Shows it, with what the seam's line means beside it where there is room for both.
pub fn ui(ui: &mut Ui, model: &Model, plan: &Plan, held: &mut Held) {
    let Some(title) = plan.title else { return };
    let rect = Rect::from_x_y_ranges(plan.x.expand(-6.0), title);
    let layout = Layout::right_to_left(Align::Center);
    let mut row = ui.new_child(UiBuilder::new().max_rect(rect).layout(layout));
    if held.view.zoomed.is_some() && row.small_button("Show all").on_hover_text("Double click does the same").clicked()
    {
        held.view.zoomed = None;
    }
    let sentence = sentence(model);
    let font = TextStyle::Small.resolve(row.style());
    let width = |text: &str| {
        let galley = row.painter().layout_no_wrap(text.to_owned(), font.clone(), Color32::PLACEHOLDER);
        galley.size().x
    };
    if model.seam.is_some() && width(&sentence) + width(SEAM) + 32.0 < row.available_width() {
        row.add(Label::new(RichText::new(SEAM).small().weak()));
    }
    row.with_layout(Layout::left_to_right(Align::Center), |row| {
        let unsure = sentence.contains(UNSURE);
        let shown = row.add(Label::new(RichText::new(sentence).small().strong()).truncate());
        if unsure {
            shown.on_hover_text(UNSURE_LEGEND);
        }
    });
}
