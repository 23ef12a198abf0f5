//! The tubes that a task is about, with what the command line puts in place of their own.

use std::path::Path;

use elbowroom_bending::text::harmless;
use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Shop, System, SystemTube, ToolingChoice, Tube, TubeId};
use elbowroom_exchange::{Document, Line, read_document};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::FileProblem;

use super::arguments::Subject;
use super::sizes::TubeSize;
use super::{Failure, output};

/// The only tube of a file, or the one that is named, with what the command line puts in place of its own.
pub fn part(arguments: &Subject, shop: &Shop) -> Result<Part, Failure> {
    let system = system(arguments, shop)?;
    dressed(only_tube(&arguments.file, &system, arguments.only.as_deref())?, arguments, shop)
}

/// The tubes of a file, and which of them are asked for.
pub struct Tubes {
    /// All that the file holds.
    pub system: System,
    /// Every tube of it or the one that is named, likewise.
    pub asked: Vec<Part>,
    /// The others, as they are drawn.
    pub others: Vec<Part>,
}

/// What the whole is called, and its tubes.
pub fn tubes(arguments: &Subject, shop: &Shop) -> Result<Tubes, Failure> {
    let system = system(arguments, shop)?;
    let parts = || system.tubes().iter().map(|tube| Part::clone(&tube.part));
    let (asked, others): (Vec<Part>, Vec<Part>) = match &arguments.only {
        Some(name) => {
            let only = only_tube(&arguments.file, &system, Some(name))?;
            let others = parts().filter(|part| part.name != only.name).collect();
            (vec![only], others)
        }
        None => (parts().collect(), Vec::new()),
    };
    let asked = asked.into_iter().map(|part| dressed(part, arguments, shop)).collect::<Result<_, _>>()?;
    Ok(Tubes { system, asked, others })
}

/// The tube of that name, or the only one.
pub fn only_tube(file: &Path, system: &System, name: Option<&str>) -> Result<Part, Failure> {
    let found = match (name, system.tubes()) {
        (Some(name), _) => system.tube_named(name).ok_or_else(|| Failure::NoSuchTube {
            file: file.to_owned(),
            name: name.to_owned(),
            names: system.names_told(),
        })?,
        (None, [tube]) => tube,
        (None, tubes) => {
            return Err(Failure::SeveralTubes {
                file: file.to_owned(),
                count: tubes.len(),
                names: system.names_told(),
                first: tubes.first().map(|tube| tube.name().to_owned()).unwrap_or_default(),
            });
        }
    };
    Ok(Part::clone(&found.part))
}

/// Parts from centrelines of a tube, named as the file names them, and a single one after the file where it does not;
/// tooling left to the shop.
///
/// # Errors
/// Says what is wrong with the system that they make.
pub fn of_lines(file: &Path, lines: Vec<Line>, tube: &Tube) -> Result<System, Failure> {
    let stem = file.file_stem().map(|stem| harmless(&stem.to_string_lossy()).into_owned()).unwrap_or_default();
    let mut tubes = Vec::with_capacity(lines.len());
    for (number, line) in (1..).zip(lines) {
        let name = if line.name.is_empty() { stem.clone() } else { line.name };
        let part = Part {
            name,
            note: String::new(),
            tube: tube.clone(),
            tooling: ToolingChoice::default(),
            path: line.path,
            stock: ExtraStock::default(),
            pieces: Vec::new(),
            nodes: Nodes::default(),
            keep: Keep::default(),
            units: LengthUnit::Millimetre,
        };
        tubes.push(SystemTube { id: TubeId::new(number), hidden: false, part: part.into() });
    }
    System::new("", LengthUnit::Millimetre, tubes, TubeId::new(1)).map_err(|refusal| {
        let right = "take the tubes out of the file one by one";
        FileProblem::whole(file.display().to_string(), refusal.to_string(), right).into()
    })
}

/// What the file holds, what is to be said of it told on standard error; centrelines are tubes of the size that is named.
pub fn read(file: &Path, size: Option<&TubeSize>, shop: &Shop) -> Result<System, Failure> {
    let read = read_document(file)?;
    told(file, &read.notes);
    match read.document {
        Document::System(system) => Ok(*system),
        Document::Lines(lines) => {
            let size = size.ok_or_else(|| Failure::NoTube(file.to_owned()))?;
            of_lines(file, lines, &size.kept_by(shop))
        }
    }
}

/// Tells what a reader passed over or took for granted.
pub fn told(file: &Path, notes: &[String]) {
    for note in notes {
        output::complain(&format!("{}: {note}", file.display()));
    }
}

fn system(arguments: &Subject, shop: &Shop) -> Result<System, Failure> {
    read(&arguments.file, arguments.tube.as_ref(), shop)
}

/// A part with what the command line puts in place of its own.
fn dressed(mut part: Part, arguments: &Subject, shop: &Shop) -> Result<Part, Failure> {
    if let Some(size) = &arguments.tube {
        part.tube = size.in_place_of(&part.tube);
    }
    if let Some(name) = &arguments.die {
        if shop.die_named(name).is_none() {
            let known: Vec<_> = shop.die_sets.iter().map(|die| format!("\"{}\"", die.name)).collect();
            let known = match known.len() {
                0 => "it has no die sets at all".into(),
                _ => format!("it has {}", known.join(", ")),
            };
            return Err(Failure::NoSuchDie { name: name.clone(), shop: shop.name.clone(), known });
        }
        part.tooling.die = Some(name.clone());
    }
    if let Some(length) = arguments.clamp {
        part.tooling.clamp = Some(length);
    }
    if let Some(from) = arguments.from {
        part.tooling.from = from.into();
    }
    if let Some(hand) = arguments.hand {
        part.tooling.hand = Some(hand.into());
    }
    Ok(part)
}
