//! Colours live in the theme, `assets/theme.ron`, and nowhere else.

use super::tree::{none_of, texts};

/// Calls that make a colour; what follows tells whether it is made of plain figures.
const MAKERS: &[&str] = &[
    "Color32::from_rgb(",
    "Color32::from_rgba_unmultiplied(",
    "Color32::from_rgba_premultiplied(",
    "Color32::from_gray(",
    "Color32::from_black_alpha(",
    "Color32::from_white_alpha(",
    "Color32::from_additive_luminance(",
    "Color::srgb(",
    "Color::srgba(",
    "Color::srgb_u8(",
    "Color::srgba_u8(",
    "Color::linear_rgb(",
    "Color::linear_rgba(",
    "Color::hsl(",
    "Color::hsla(",
    "Color::hsv(",
    "Color::oklch(",
    "LinearRgba::new(",
    "LinearRgba::rgb(",
    "Srgba::new(",
    "Srgba::rgb(",
    "Srgba::hex(",
    "hex_color!(",
];

/// Constants that are colours of their own. Nothing at all (`TRANSPARENT`, `NONE`) is none.
const NAMES: &[&str] = &[
    "RED",
    "GREEN",
    "BLUE",
    "YELLOW",
    "ORANGE",
    "GOLD",
    "GRAY",
    "GREY",
    "DARK_GRAY",
    "LIGHT_GRAY",
    "BLACK",
    "BROWN",
    "PURPLE",
    "MAGENTA",
    "CYAN",
    "LIGHT_BLUE",
    "DARK_BLUE",
    "LIGHT_RED",
    "DARK_RED",
    "LIGHT_GREEN",
    "DARK_GREEN",
];

fn makes_a_colour(line: &str) -> bool {
    let made = MAKERS.iter().any(|maker| {
        line.match_indices(maker)
            .any(|(at, _)| line[at + maker.len()..].trim_start().starts_with(|c: char| c.is_ascii_digit() || c == '"'))
    });
    let named = ["Color32::", "Color::", "LinearRgba::", "Srgba::"].iter().any(|kind| {
        line.match_indices(kind).any(|(at, _)| {
            let rest = &line[at + kind.len()..];
            let name = rest.split(|c: char| !c.is_ascii_uppercase() && c != '_').next().unwrap_or_default();
            NAMES.contains(&name)
        })
    });
    let hexadecimal = line.match_indices("\"#").any(|(at, _)| {
        let digits = line[at + 2..].split('"').next().unwrap_or_default();
        matches!(digits.len(), 3 | 6 | 8) && digits.chars().all(|c| c.is_ascii_hexdigit())
    });
    made || named || hexadecimal
}

#[test]
fn the_rule_sees_colours() {
    for line in ["Color32::from_rgb(1, 2, 3)", "Color::srgb( 0.5, 0.1, 0.2)", "x(Color32::RED)", "let c = \"#E69F00\";"]
    {
        assert!(makes_a_colour(line), "{line}");
    }
    for line in
        ["Color32::from_rgb(c.red, c.green, c.blue)", "Color32::TRANSPARENT", "\"#clip\"", "Color::srgb_u8(r, g, b)"]
    {
        assert!(!makes_a_colour(line), "{line}");
    }
}

#[test]
fn no_colour_is_written_outside_the_theme() {
    let code = |path: &str| {
        path.starts_with("crates/")
            && !path.contains("/tests/")
            && path.ends_with(".rs")
            && path != "crates/workbench/src/desk/palette.rs"
    };
    let mut offences = Vec::new();
    for file in texts(code) {
        // A test may compare with a colour of its own.
        let code = file.text.split("#[cfg(test)]").next().unwrap_or_default();
        for (number, line) in code.lines().enumerate().filter(|(_, line)| makes_a_colour(line)) {
            offences.push(format!("{}:{}: {}", file.path, number + 1, line.trim()));
        }
    }
    none_of(&offences, "colours belong in assets/theme.ron");
}
