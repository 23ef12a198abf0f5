//! Fonts, sizes and colours of the whole interface, from the theme.

use std::collections::BTreeMap;

use egui::style::{ScrollFadeStyle, ScrollStyle};
use egui::{CornerRadius, FontFamily, FontId, Margin, Shadow, Stroke, Style, TextStyle, Visuals, vec2};
use elbowroom_workbench::{Palette, Theme, palette};

use crate::colours::colour;
use crate::fonts;

/// The text style of the verdict: large enough to be read from two metres.
pub fn verdict_text() -> TextStyle {
    TextStyle::Name("verdict".into())
}

/// The text style of a panel's heading.
pub fn heading_text() -> TextStyle {
    TextStyle::Name("panel heading".into())
}

/// Readies an egui context: fonts, colours, sizes. Cheap when nothing has changed, so call it every frame.
pub fn install(context: &egui::Context, theme: Theme, scale: f32) {
    let id = egui::Id::new("elbowroom installed");
    let installed: Option<Theme> = context.data(|data| data.get_temp(id));
    if installed.is_none() {
        context.set_fonts(fonts::definitions());
        // The program has its own scale command, with its own limits.
        context.options_mut(|options| {
            options.zoom_with_keyboard = false;
            // So is quitting: it asks first.
            options.quit_shortcuts.clear();
        });
    }
    if installed != Some(theme) {
        context.set_theme(if theme == Theme::Dark { egui::Theme::Dark } else { egui::Theme::Light });
        for (kind, of) in [(egui::Theme::Light, Theme::Light), (egui::Theme::Dark, Theme::Dark)] {
            context.set_style_of(kind, style(of));
        }
        context.data_mut(|data| data.insert_temp(id, theme));
    }
    let scale = if scale.is_finite() { scale.clamp(0.8, 2.0) } else { 1.0 };
    if (context.zoom_factor() - scale).abs() > 1e-3 {
        context.set_zoom_factor(scale);
    }
}

/// Whether the fonts are there. Fonts that are installed within a frame come with the next one, and text
/// in a family that is not there yet would end the program.
pub(crate) fn ready(context: &egui::Context) -> bool {
    let id = egui::Id::new("elbowroom fonts");
    if context.data(|data| data.get_temp(id)) == Some(true) {
        return true;
    }
    let there = context.fonts(|fonts| fonts.families().contains(&fonts::bold()));
    context.data_mut(|data| data.insert_temp(id, there));
    if !there {
        context.request_repaint();
    }
    there
}

/// The style of a theme.
fn style(theme: Theme) -> Style {
    let mut style = Style { visuals: visuals(theme, palette(theme)), text_styles: text_styles(), ..Style::default() };
    let spacing = &mut style.spacing;
    spacing.item_spacing = vec2(8.0, 6.0);
    spacing.button_padding = vec2(8.0, 4.0);
    spacing.interact_size = vec2(28.0, 26.0);
    spacing.menu_margin = Margin::same(6);
    spacing.window_margin = Margin::same(14);
    spacing.tooltip_width = 320.0;
    spacing.scroll = ScrollStyle {
        bar_width: 9.0,
        floating_width: 5.0,
        floating_allocated_width: 10.0,
        foreground_color: true,
        dormant_handle_opacity: 0.35,
        active_handle_opacity: 0.45,
        interact_handle_opacity: 0.8,
        // A fade over light cards comes out as a dark band where the window blends in linear light.
        fade: ScrollFadeStyle { strength: 0.0, ..ScrollFadeStyle::default() },
        ..ScrollStyle::floating()
    };
    style.interaction.selectable_labels = false;
    style.animation_time = 0.1;
    style
}

fn text_styles() -> BTreeMap<TextStyle, FontId> {
    let plain = |size| FontId::new(size, FontFamily::Proportional);
    let bold = |size| FontId::new(size, fonts::bold());
    BTreeMap::from([
        (TextStyle::Small, plain(11.5)),
        (TextStyle::Body, plain(13.5)),
        (TextStyle::Button, plain(13.5)),
        (TextStyle::Monospace, FontId::new(13.5, FontFamily::Monospace)),
        (TextStyle::Heading, bold(17.0)),
        (heading_text(), bold(13.5)),
        (verdict_text(), bold(22.0)),
    ])
}

fn visuals(theme: Theme, p: &Palette) -> Visuals {
    let dark = theme == Theme::Dark;
    let mut visuals = if dark { Visuals::dark() } else { Visuals::light() };
    let shadow = Shadow { offset: [0, 3], blur: 12, spread: 0, color: colour(p.shadow) };
    let round = CornerRadius::same(4);
    visuals.weak_text_color = Some(colour(p.weak_text));
    visuals.hyperlink_color = colour(p.accent);
    visuals.faint_bg_color = colour(p.hovered);
    visuals.extreme_bg_color = colour(p.field);
    visuals.text_edit_bg_color = Some(colour(p.field));
    visuals.code_bg_color = colour(p.raised);
    visuals.warn_fg_color = colour(p.error_text);
    visuals.error_fg_color = colour(p.error_text);
    visuals.window_fill = colour(p.panel);
    visuals.panel_fill = colour(p.panel);
    visuals.window_stroke = Stroke::new(1.0, colour(p.border));
    visuals.window_shadow = shadow;
    visuals.popup_shadow = shadow;
    visuals.window_corner_radius = CornerRadius::same(8);
    visuals.menu_corner_radius = CornerRadius::same(6);
    visuals.selection.bg_fill = colour(p.selection);
    visuals.selection.stroke = Stroke::new(1.0, colour(p.accent));
    // A caret that blinks would draw the whole window twice a second.
    visuals.text_cursor.blink = false;
    visuals.text_cursor.stroke = Stroke::new(2.0, colour(p.accent));
    visuals.disabled_alpha = 0.55;

    let widgets = &mut visuals.widgets;
    let set = |widget: &mut egui::style::WidgetVisuals, fill, line: Stroke, text| {
        widget.bg_fill = fill;
        widget.weak_bg_fill = fill;
        widget.bg_stroke = line;
        widget.fg_stroke = Stroke::new(1.0, text);
        widget.corner_radius = round;
        widget.expansion = 0.0;
    };
    let text = colour(p.text);
    let line = |width: f32, of| Stroke::new(width, colour(of));
    set(&mut widgets.noninteractive, colour(p.panel), line(1.0, p.border), text);
    set(&mut widgets.inactive, colour(p.raised), line(1.0, p.border), text);
    set(&mut widgets.hovered, colour(p.hovered), line(1.0, p.weak_text), text);
    set(&mut widgets.active, colour(p.pressed), line(1.5, p.accent), text);
    set(&mut widgets.open, colour(p.pressed), line(1.0, p.border), text);
    visuals
}
