//! `elbowroom convert`: between any two formats, and from older files to those of today.

use elbowroom_bending::text::shown_path;
use elbowroom_bending::{Shop, System};
use elbowroom_exchange::{Document, Format, Line, finished, format_of, read_document, write_document};
use elbowroom_workbench::file::{older_stamp, read_system, read_text, todays_stamp};

use super::arguments::Convert;
use super::{Failure, Outcome, output, shop, subject};

/// What is written, and what is to be said of it beside that.
type Converted = (Document, String);

/// Reads one form and writes the other.
pub fn run(arguments: &Convert) -> Result<Outcome, Failure> {
    let (from, to) = (&arguments.from, &arguments.to);
    let (read_as, write_as) = (format_of(from)?, format_of(to)?);
    let shop = shop::chosen(arguments.shop.as_deref())?.shop;
    let (document, hint) = if read_as.name != write_as.name {
        between_formats(arguments, write_as, &shop)?
    } else if read_as.is_native() && !arguments.finished {
        within_native(arguments)?
    } else if read_as.is_native() {
        between_formats(arguments, write_as, &shop)?
    } else {
        return Err(Failure::NothingToConvert { from: from.clone(), to: to.clone(), format: read_as.name });
    };
    write_document(to, &document, &shop)?;
    output::print(&format!("Written: {}\n{hint}", shown_path(to)))?;
    Ok(Outcome::Passes)
}

/// What one format holds as another takes it.
fn between_formats(arguments: &Convert, write_as: &Format, shop: &Shop) -> Result<Converted, Failure> {
    let (from, to) = (&arguments.from, &arguments.to);
    let read = read_document(from)?;
    subject::told(from, &read.notes);
    let system = match read.document {
        Document::Lines(lines) => {
            let lines = only_line(arguments, lines, write_as)?;
            match &arguments.tube {
                Some(size) => subject::of_lines(to, lines, &size.kept_by(shop))?,
                None if write_as.holds_tube || arguments.finished => return Err(Failure::NoTube(from.clone())),
                None => return Ok((Document::Lines(lines), String::new())),
            }
        }
        Document::System(system) => {
            refuse_tube(arguments)?;
            let one = arguments.only.is_some() || !write_as.several;
            if one { System::of(subject::only_tube(from, &system, arguments.only.as_deref())?) } else { *system }
        }
    };
    let system = if arguments.finished { finished(&system, shop).map_err(|why| why.in_file_of(from))? } else { system };
    let hint = match system.tubes() {
        [tube] if !write_as.holds_tube => format!(
            "A {} holds no tube and no tooling. To check it: elbowroom check {} --tube {}x{}\n",
            write_as.name,
            shown_path(to),
            tube.part.tube.od.mm(),
            tube.part.tube.wall.mm()
        ),
        _ => String::new(),
    };
    Ok((Document::System(Box::new(system)), hint))
}

/// The centreline that is named, or all where there may be several.
fn only_line(arguments: &Convert, mut lines: Vec<Line>, write_as: &Format) -> Result<Vec<Line>, Failure> {
    let names: Vec<String> = lines.iter().map(|line| format!("\u{201c}{}\u{201d}", line.name)).collect();
    let (file, names) = (arguments.from.clone(), names.join(", "));
    match &arguments.only {
        Some(name) => {
            lines.retain(|line| line.name == *name);
            if lines.is_empty() { Err(Failure::NoSuchTube { file, name: name.clone(), names }) } else { Ok(lines) }
        }
        None if lines.len() > 1 && !write_as.several => {
            Err(Failure::SeveralTubes { file, count: lines.len(), names, first: lines[0].name.clone() })
        }
        None => Ok(lines),
    }
}

/// A file of today of one of an older version, or a file of its own for one tube of several.
fn within_native(arguments: &Convert) -> Result<Converted, Failure> {
    let from = &arguments.from;
    refuse_tube(arguments)?;
    let text = read_text(from)?;
    let system = read_system(&text, &from.display().to_string())?;
    let older = older_stamp(&text);
    let system = match &arguments.only {
        Some(name) => System::of(subject::only_tube(from, &system, Some(name))?),
        None if older.is_none() => {
            return Err(Failure::OfToday { from: from.clone(), to: arguments.to.clone(), format: todays_stamp() });
        }
        None => system,
    };
    let hint = older.map(|older| {
        format!(
            "{} is {older}; what is written is {}, which an older Elbowroom does not read.\n",
            shown_path(from),
            todays_stamp()
        )
    });
    Ok((Document::System(Box::new(system)), hint.unwrap_or_default()))
}

/// A file that says what its tubes are is not to be told another one without a word.
fn refuse_tube(arguments: &Convert) -> Result<(), Failure> {
    if arguments.tube.is_some() { Err(Failure::TubeKnown(arguments.from.clone())) } else { Ok(()) }
}
