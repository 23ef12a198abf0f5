//! A STEP file as a document.

use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Seam, System, SystemTube, ToolingChoice, Tube, TubeId};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::FileProblem;

use super::exchange::Exchange;
use super::instances::Walk;
use super::tubes::{Found, FoundTube};
use crate::document::{Document, Line, Read, few, told_apart};
use crate::error::TextError;
use crate::sound_run::as_drawn;

/// How many tubes of a file are told of in one sentence.
const MOST_TOLD: usize = 12;

/// Reads a STEP file (AP203, AP214, AP242): a tube for each chain of cylinders and tori with a bore, where it lies in its
/// assembly. Rods without a bore are read as centrelines where there is nothing else. `file` is what the person calls
/// it; it stands in the errors.
///
/// # Errors
/// Says the line and record of what is unsound: the file must be whole, name its unit of length, and every record that
/// is named must be there. Says why no tube was found where there is none.
pub fn read(bytes: &[u8], file: &str) -> Result<Read, FileProblem> {
    document(bytes).map_err(|error| error.in_file(file))
}

fn document(bytes: &[u8]) -> Result<Read, TextError> {
    let exchange = Exchange::new(bytes)?;
    let mut found = Found::default();
    let shown = Walk::shown(&exchange)?;
    for instance in &shown.instances {
        found.take(&exchange, instance)?;
        if found.tubes.len() > System::MOST_TUBES {
            let what = format!("the file holds more than {} tubes", System::MOST_TUBES);
            return Err(TextError::whole(what, "it must hold fewer; write it in several files"));
        }
    }
    found.join_pieces();
    let told = found.passed.iter().map(|(sentence, count)| match count {
        1 => sentence.clone(),
        count => format!("{sentence} ({count} times)"),
    });
    let mut notes = few(told.collect());
    let (hollow, rods): (Vec<FoundTube>, Vec<FoundTube>) =
        found.tubes.into_iter().partition(|tube| tube.wall_mm.is_some());
    if hollow.is_empty() && rods.is_empty() {
        let why = if notes.is_empty() { "it holds no solid".to_owned() } else { notes.join(" ") };
        let what = format!("the file holds no bent tube: {}", why.trim_end_matches('.'));
        return Err(TextError::whole(what, "it must hold solids of cylinders and tori"));
    }
    if hollow.is_empty() {
        notes.push(of_rods(&rods));
        let mut lines: Vec<Line> =
            rods.into_iter().map(|rod| Line { name: rod.name, path: as_drawn(rod.path) }).collect();
        if lines.len() > 1 {
            told_apart(&mut lines.iter_mut().map(|line| &mut line.name).collect::<Vec<_>>(), "Rod");
        }
        return Ok(Read { document: Document::Lines(lines), notes });
    }
    let rods = rods
        .iter()
        .map(|rod| format!("\u{201c}{}\u{201d} is a solid rod without a bore and was passed over.", rod.name));
    notes.extend(few(rods.collect()));
    let system = system_of(&shown.name, hollow)?;
    notes.push(format!("A STEP file names no material that counts here: {} is assumed, welded.", Tube::USUAL_MATERIAL));
    Ok(Read { document: Document::System(Box::new(system)), notes })
}

fn of_rods(rods: &[FoundTube]) -> String {
    let mut sizes: Vec<String> =
        rods.iter().take(MOST_TOLD).map(|rod| elbowroom_geometry::units::format_any(rod.od_mm)).collect();
    sizes.dedup();
    format!("It holds solid rods without a bore (OD {} mm), so that their wall is not known.", sizes.join(", "))
}

fn system_of(name: &str, mut found: Vec<FoundTube>) -> Result<System, TextError> {
    if found.len() > 1 {
        told_apart(&mut found.iter_mut().map(|tube| &mut tube.name).collect::<Vec<_>>(), "Tube");
    }
    let mut tubes = Vec::with_capacity(found.len());
    for (number, tube) in (1..).zip(found) {
        let (od, wall) = (Length::from_mm(tube.od_mm), Length::from_mm(tube.wall_mm.unwrap_or_default()));
        let size = Tube::new(od, wall, Tube::USUAL_MATERIAL, Seam::Welded).map_err(|refusal| {
            TextError::whole(format!("\u{201c}{}\u{201d}: {refusal}", tube.name), "it must be a tube that can be bent")
        })?;
        let part = Part {
            name: tube.name,
            note: String::new(),
            tube: size,
            tooling: ToolingChoice::default(),
            path: as_drawn(tube.path),
            stock: ExtraStock::default(),
            pieces: Vec::new(),
            nodes: Nodes::default(),
            keep: Keep::default(),
            units: LengthUnit::Millimetre,
        };
        tubes.push(SystemTube { id: TubeId::new(number), hidden: false, part: part.into() });
    }
    System::new(name, LengthUnit::Millimetre, tubes, TubeId::new(1))
        .map_err(|refusal| TextError::whole(refusal.to_string(), "write it in several files"))
}
