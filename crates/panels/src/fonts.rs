//! The fonts: a family drawn to be read at a distance, with figures of one width, from `assets/fonts`.

use std::sync::Arc;

use egui::{FontData, FontDefinitions, FontFamily};

const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/B612-Regular.otf");
const BOLD: &[u8] = include_bytes!("../../../assets/fonts/B612-Bold.otf");
const EVEN: &[u8] = include_bytes!("../../../assets/fonts/B612Mono-Regular.otf");

/// The family of headings and of the verdict.
pub fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// All families. The regular one stands in where another lacks a sign.
pub(crate) fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    for (name, bytes) in [("regular", REGULAR), ("bold", BOLD), ("even", EVEN)] {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    let list = |names: &[&str]| names.iter().map(ToString::to_string).collect();
    fonts.families.insert(FontFamily::Proportional, list(&["regular"]));
    fonts.families.insert(bold(), list(&["bold", "regular"]));
    fonts.families.insert(FontFamily::Monospace, list(&["even", "regular"]));
    fonts
}

#[cfg(test)]
mod tests {
    use egui::FontId;
    use egui::epaint::text::FontsView;

    use super::*;

    /// Runs with the fonts of the program.
    fn with_fonts(check: impl Fn(&mut FontsView<'_>)) {
        let context = egui::Context::default();
        context.set_fonts(definitions());
        let mut output = context.run_ui(egui::RawInput::default(), |ui| ui.ctx().fonts_mut(|fonts| check(fonts)));
        output.textures_delta.clear();
    }

    /// Where in the atlas a sign is kept; signs without a glyph of their own share that of the stand-in.
    fn place(fonts: &mut FontsView<'_>, font: &FontId, sign: char) -> [u16; 4] {
        let galley = fonts.layout_no_wrap(sign.to_string(), font.clone(), egui::Color32::PLACEHOLDER);
        let uv = galley.rows[0].glyphs[0].uv_rect;
        [uv.min[0], uv.min[1], uv.max[0], uv.max[1]]
    }

    #[test]
    fn every_sign_the_program_writes_has_a_glyph() {
        with_fonts(|fonts| {
            let signs = "0123456789abcXYZäéñøØ°×−±·≤≥½¼¾⅛←↑→↓…–—•‘’“”√π∅\"'/+*()%&<>";
            for family in [FontFamily::Proportional, bold(), FontFamily::Monospace] {
                let font = FontId::new(14.0, family);
                let missing = place(fonts, &font, '\u{F0000}');
                for sign in signs.chars() {
                    assert_ne!(place(fonts, &font, sign), missing, "{sign} in {font:?}");
                }
            }
        });
    }

    #[test]
    fn figures_are_of_one_width_so_that_columns_line_up() {
        with_fonts(|fonts| {
            let font = FontId::new(14.0, FontFamily::Proportional);
            let zero = fonts.glyph_width(&font, '0');
            assert!(zero > 0.0);
            for figure in "123456789".chars() {
                assert!((fonts.glyph_width(&font, figure) - zero).abs() < 1e-3, "{figure}");
            }
        });
    }
}
