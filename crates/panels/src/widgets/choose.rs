//! A list to choose from that folds out.

use egui::{ComboBox, Ui, WidgetInfo, WidgetType};

/// A list to choose from, called `label`; gives what is newly chosen.
pub fn choose<T: PartialEq + Clone>(
    ui: &mut Ui,
    label: &str,
    shown: String,
    now: Option<&T>,
    choices: Vec<(T, String)>,
) -> Option<T> {
    let mut chosen = None;
    let width = ui.available_width();
    let combo = ComboBox::from_id_salt(label).selected_text(shown.clone()).width(width).truncate();
    let response = combo.show_ui(ui, |ui| {
        for (value, text) in choices {
            let is_now = now == Some(&value);
            if ui.selectable_label(is_now, text).clicked() && !is_now {
                chosen = Some(value);
            }
        }
    });
    response.response.widget_info(|| {
        let mut info = WidgetInfo::labeled(WidgetType::ComboBox, true, label);
        info.current_text_value = Some(shown.clone());
        info
    });
    response.response.on_hover_text(shown);
    chosen
}
