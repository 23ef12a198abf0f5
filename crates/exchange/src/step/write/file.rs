//! The whole file: its header, and one product a tube.

use elbowroom_bending::System;
use elbowroom_geometry::units::format_any;
use elbowroom_workbench::file::FileProblem;
use elbowroom_workbench::{Theme, palette};

use super::colour::colour;
use super::product::{Common, Product};
use super::records::{Records, text};
use super::tube::solid;
use crate::error::TextError;
use crate::sound_run::sound_run;

/// The STEP file (AP214, mm) of a system: its only tube as one product, or an assembly of several. The same system
/// always gives the same bytes, so the header names no time.
/// `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says which tube has no solid, and why not.
pub fn write(system: &System, file: &str) -> Result<String, FileProblem> {
    text_of(system).map_err(|error| error.in_file(file))
}

fn text_of(system: &System) -> Result<String, TextError> {
    let mut records = Records::default();
    let common = Common::put(&mut records);
    let (mut products, mut solids): (Vec<(String, Product)>, Vec<_>) = (Vec::new(), Vec::new());
    for tube in system.tubes() {
        let part = &tube.part;
        let run = sound_run(part)?;
        let outer_mm = part.tube.od.mm() / 2.0;
        let solid = solid(&mut records, &run, outer_mm, outer_mm - part.tube.wall.mm(), &part.name);
        let note = format!(
            "tube {} x {} mm, {}",
            format_any(part.tube.od.mm()),
            format_any(part.tube.wall.mm()),
            part.tube.material
        );
        products.push((part.name.clone(), common.tube(&mut records, &part.name, &note, solid)));
        solids.push(solid);
    }
    if products.len() > 1 {
        common.assembly(&mut records, system.title(), &products);
    }
    colour(&mut records, &solids, palette(Theme::Light).tube.rgb(), common.units);
    Ok(format!(
        "ISO-10303-21;\nHEADER;\n\
         FILE_DESCRIPTION(('bent tube, exact solids'),'2;1');\n\
         FILE_NAME({},'',(''),(''),'Elbowroom','Elbowroom','');\n\
         FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));\n\
         ENDSEC;\nDATA;\n{}ENDSEC;\nEND-ISO-10303-21;\n",
        text(system.title()),
        records.into_text()
    ))
}
