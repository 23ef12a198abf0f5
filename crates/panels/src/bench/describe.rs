//! Tubes in words.

use elbowroom_bending::{Seam, Tube};
use elbowroom_geometry::units::{LengthUnit, format_number};

/// A tube on one line, such as `50.8 × 1.5 mm, 304 stainless, welded`.
pub fn tube_text(tube: &Tube, unit: LengthUnit) -> String {
    format!("{}, {}, {}", size_text(tube, unit), tube.material, seam_text(tube.seam))
}

/// Its size alone, such as `50.8 × 1.5 mm`.
pub fn size_text(tube: &Tube, unit: LengthUnit) -> String {
    let [od, wall] = [tube.od, tube.wall].map(|length| {
        let figure = format_number(length.mm() / unit.in_mm(), unit.decimals() + 1);
        figure.trim_end_matches('0').trim_end_matches('.').to_owned()
    });
    format!("{od} × {wall} {}", unit.symbol())
}

/// How a tube is closed.
pub const fn seam_text(seam: Seam) -> &'static str {
    match seam {
        Seam::Welded => "welded",
        Seam::Seamless => "seamless",
    }
}
