//! Every colour of the program, read once from `assets/theme.ron`.

use std::fmt;
use std::sync::LazyLock;

use elbowroom_bending::Severity;
use serde::Deserialize;

/// The colours of the whole interface.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Light panels.
    #[default]
    Light,
    /// Dark panels.
    Dark,
}

/// A colour as sRGB with straight (not premultiplied) alpha.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(try_from = "String")]
pub struct Colour(pub [u8; 4]);

impl Colour {
    /// Red, green and blue.
    pub const fn rgb(self) -> [u8; 3] {
        let [red, green, blue, _] = self.0;
        [red, green, blue]
    }

    /// Red, green, blue and alpha.
    pub const fn rgba(self) -> [u8; 4] {
        self.0
    }

    /// Relative luminance, 0 to 1, alpha left out of account (W3C, Web Content Accessibility Guidelines
    /// 2.1, definition of relative luminance; written from memory).
    pub fn luminance(self) -> f64 {
        let [red, green, blue] = self.rgb().map(|channel| {
            let share = f64::from(channel) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        });
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    /// Contrast ratio between two colours, 1 to 21 (same source, definition of contrast ratio).
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }
}

impl fmt::Debug for Colour {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [red, green, blue, alpha] = self.0;
        write!(formatter, "#{red:02X}{green:02X}{blue:02X}{alpha:02X}")
    }
}

impl TryFrom<String> for Colour {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        let refusal = || format!("`{text}` is no colour; write it as #RRGGBB or #RRGGBBAA");
        let digits = text.strip_prefix('#').ok_or_else(refusal)?;
        if !digits.chars().all(|digit| digit.is_ascii_hexdigit()) {
            return Err(refusal());
        }
        let digits = match digits.len() {
            6 => format!("{digits}FF"),
            8 => digits.to_owned(),
            _ => return Err(refusal()),
        };
        let value = u32::from_str_radix(&digits, 16).map_err(|_| refusal())?;
        Ok(Self(value.to_be_bytes()))
    }
}

/// The colours of one theme, by what they are for.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Palette {
    /// Behind everything in a panel.
    pub panel: Colour,
    /// Buttons and headings that stand out of a panel.
    pub raised: Colour,
    /// Behind text that can be typed.
    pub field: Colour,
    /// Behind a row or button under the pointer.
    pub hovered: Colour,
    /// Behind a button that is held down.
    pub pressed: Colour,
    /// Behind a row that is selected, and selected text.
    pub selection: Colour,
    /// Lines between things.
    pub border: Colour,
    /// Text.
    pub text: Colour,
    /// Text that may be overlooked.
    pub weak_text: Colour,
    /// Text that says what is wrong with what was typed.
    pub error_text: Colour,
    /// Links, focus, whatever is chosen.
    pub accent: Colour,
    /// Text on the accent.
    pub on_accent: Colour,
    /// Shadow under menus and dialogs; translucent.
    pub shadow: Colour,
    /// Laid over everything behind a question; translucent.
    pub dim: Colour,
    /// Mark of a note.
    pub note: Colour,
    /// Mark of a caution.
    pub caution: Colour,
    /// Mark of a stop.
    pub stop: Colour,
    /// Outline of every mark.
    pub mark_outline: Colour,
    /// Behind the tube.
    pub scene_background: Colour,
    /// Lines of the floor grid.
    pub grid: Colour,
    /// Every tenth line of the floor grid.
    pub grid_strong: Colour,
    /// The axes and their letters.
    pub axis: Colour,
    /// Sound tube: plain metal.
    pub tube: Colour,
    /// A tube that is not worked on.
    pub other_tube: Colour,
    /// The stretch under the pointer, or the other tube there.
    pub tube_hovered: Colour,
    /// The selected stretch.
    pub tube_selected: Colour,
    /// The cut faces of the tube.
    pub tube_end: Colour,
    /// The weld seam on the tube.
    pub tube_seam: Colour,
    /// A handle.
    pub handle: Colour,
    /// The handle under the pointer or held.
    pub handle_hovered: Colour,
    /// Around a handle.
    pub handle_outline: Colour,
    /// The clamp of the selected bend; translucent.
    pub clamp_block: Colour,
    /// The measured first-off laid over the tube; translucent.
    pub ghost: Colour,
    /// The tube as a change would make it that is pointed at, see-through.
    pub proposal: Colour,
    /// What stands around the tubes.
    pub obstacle: Colour,
    /// The main light of the scene.
    pub light: Colour,
    /// The light from all sides.
    pub ambient: Colour,
    /// Behind a label over the scene; translucent.
    pub label_background: Colour,
    /// Text of such a label.
    pub label_text: Colour,
    /// A straight of the blank strip.
    pub strip_straight: Colour,
    /// An arc of the blank strip.
    pub strip_arc: Colour,
    /// The bracket of a clamp over the blank strip.
    pub strip_clamp: Colour,
    /// The line of the seam.
    pub strip_seam: Colour,
    /// Stock that is cut off after bending.
    pub strip_trim: Colour,
    /// The ruler's lines and figures.
    pub strip_ruler: Colour,
}

impl Palette {
    /// The colour of a severity's mark.
    pub const fn severity(&self, severity: Severity) -> Colour {
        match severity {
            Severity::Note => self.note,
            Severity::Caution => self.caution,
            Severity::Stop => self.stop,
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Themes {
    light: Palette,
    dark: Palette,
}

static THEMES: LazyLock<Themes> = LazyLock::new(|| {
    ron::from_str(include_str!("../../../../assets/theme.ron"))
        .expect("the theme is part of the program and a test reads it")
});

/// The colours of a theme.
pub fn palette(theme: Theme) -> &'static Palette {
    match theme {
        Theme::Light => &THEMES.light,
        Theme::Dark => &THEMES.dark,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use super::*;

    fn colour(text: &str) -> Result<Colour, String> {
        Colour::try_from(text.to_owned())
    }

    #[test]
    fn contrast_has_its_published_extremes() {
        // W3C, WCAG 2.1: black on white is 21 : 1; #777777 on white is known to fall just short of 4.5 : 1.
        let (black, white) = (colour("#000000").unwrap(), colour("#FFFFFF").unwrap());
        assert!((black.contrast(white) - 21.0).abs() < 1e-9);
        assert!((white.contrast(white) - 1.0).abs() < 1e-12);
        let grey = colour("#777777").unwrap().contrast(white);
        assert!((4.47..4.5).contains(&grey), "{grey}");
    }

    #[test]
    fn text_is_legible_in_both_themes() {
        for theme in [Theme::Light, Theme::Dark] {
            let p = palette(theme);
            let surfaces = [
                ("panel", p.panel),
                ("raised", p.raised),
                ("field", p.field),
                ("hovered", p.hovered),
                ("selection", p.selection),
            ];
            let mut pairs = vec![
                ("text on pressed", p.text, p.pressed),
                ("text on accent", p.on_accent, p.accent),
                ("label", p.label_text, p.label_background),
                ("text on scene", p.text, p.scene_background),
                ("axis letters on scene", p.axis, p.scene_background),
                ("text on straight", p.text, p.strip_straight),
                ("text on arc", p.text, p.strip_arc),
                ("text on trim", p.text, p.strip_trim),
                ("ruler figures", p.strip_ruler, p.panel),
            ];
            for (name, surface) in surfaces {
                pairs.extend([(name, p.text, surface), (name, p.weak_text, surface)]);
                pairs.extend([(name, p.error_text, surface), (name, p.accent, surface)]);
            }
            for (name, text, behind) in pairs {
                let ratio = text.contrast(behind);
                assert!(ratio >= 4.5, "{theme:?}: {name}: {text:?} on {behind:?} has only {ratio:.2} : 1");
            }
        }
    }

    #[test]
    fn marks_stand_out_by_their_outline() {
        // WCAG 2.1, 1.4.11: 3 : 1 for what is not text.
        for theme in [Theme::Light, Theme::Dark] {
            let p = palette(theme);
            for behind in [p.panel, p.field, p.selection, p.hovered] {
                assert!(p.mark_outline.contrast(behind) >= 3.0, "{theme:?} {behind:?}");
            }
            assert!(p.handle.contrast(p.scene_background) >= 3.0, "{theme:?}");
        }
    }

    #[test]
    fn severities_are_of_the_published_palette() {
        // Okabe and Ito, Color Universal Design (2008): blue, sky blue, orange, vermillion.
        let (light, dark) = (palette(Theme::Light), palette(Theme::Dark));
        assert_eq!(light.note.rgb(), [0, 114, 178]);
        assert_eq!(dark.note.rgb(), [86, 180, 233]);
        for p in [light, dark] {
            assert_eq!(p.severity(Severity::Caution).rgb(), [230, 159, 0]);
            assert_eq!(p.severity(Severity::Stop).rgb(), [213, 94, 0]);
        }
    }

    #[test]
    fn colours_are_read_or_refused() {
        assert_eq!(colour("#0A0b0C").unwrap().rgba(), [10, 11, 12, 255]);
        assert_eq!(colour("#0A0B0C80").unwrap().rgba(), [10, 11, 12, 128]);
        for wrong in ["0A0B0C", "#0A0B0", "#GG0B0C", "", "#", "#ééé", "#+12345", "#+1234567"] {
            assert!(colour(wrong).is_err(), "{wrong}");
        }
    }
}
