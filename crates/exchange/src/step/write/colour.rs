//! The colour of solids.

use super::records::{Id, Records, list, real};

/// Gives solids a colour, red, green and blue from 0 to 255.
pub(super) fn colour(records: &mut Records, solids: &[Id], rgb: [u8; 3], units: Id) {
    let [red, green, blue] = rgb.map(|channel| real(f64::from(channel) / 255.0));
    let colour = records.put(format_args!("COLOUR_RGB('',{red},{green},{blue})"));
    let fill = records.put(format_args!("FILL_AREA_STYLE_COLOUR('',{colour})"));
    let area = records.put(format_args!("FILL_AREA_STYLE('',({fill}))"));
    let surface = records.put(format_args!("SURFACE_STYLE_FILL_AREA({area})"));
    let side = records.put(format_args!("SURFACE_SIDE_STYLE('',({surface}))"));
    let usage = records.put(format_args!("SURFACE_STYLE_USAGE(.BOTH.,{side})"));
    let style = records.put(format_args!("PRESENTATION_STYLE_ASSIGNMENT(({usage}))"));
    let styled: Vec<Id> =
        solids.iter().map(|solid| records.put(format_args!("STYLED_ITEM('',({style}),{solid})"))).collect();
    records.put(format_args!("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',{},{units})", list(&styled)));
}
