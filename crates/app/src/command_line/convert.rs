//! `elbowroom convert`: between part and points table, and from older files to those of today.

use elbowroom_bending::System;
use elbowroom_bending::text::shown_path;
use elbowroom_exchange::{Document, format_of, read_document, write_document};
use elbowroom_workbench::file::{EXTENSION, older_stamp, read_system, read_text, todays_stamp};

use super::arguments::Convert;
use super::{Failure, Outcome, output, shop, subject};

/// What is written, and what is to be said of it beside that.
type Converted = (Document, String);

/// Reads one form and writes the other.
pub fn run(arguments: &Convert) -> Result<Outcome, Failure> {
    let (from, to) = (&arguments.from, &arguments.to);
    let (read_as, write_as) = (format_of(from)?, format_of(to)?);
    let (document, hint) = if read_as.extension != write_as.extension {
        between_formats(arguments)?
    } else if read_as.extension == EXTENSION {
        within_native(arguments)?
    } else {
        return Err(Failure::NothingToConvert { from: from.clone(), to: to.clone(), format: read_as.name });
    };
    write_document(to, &document)?;
    output::print(&format!("Written: {}\n{hint}", shown_path(to)))?;
    Ok(Outcome::Passes)
}

/// A part of a table, or a table of a part.
fn between_formats(arguments: &Convert) -> Result<Converted, Failure> {
    let (from, to) = (&arguments.from, &arguments.to);
    Ok(match read_document(from)? {
        Document::Points(path) => {
            let size = arguments.tube.as_ref().ok_or_else(|| Failure::NoTube(from.clone()))?;
            let shop = shop::chosen(None)?;
            let part = subject::part_of_points(to, path, size.kept_by(&shop.shop));
            let system = System::of(part);
            subject::only_tube(from, &system, arguments.only.as_deref())?;
            (Document::System(Box::new(system)), String::new())
        }
        Document::System(system) => {
            refuse_tube(arguments)?;
            let part = subject::only_tube(from, &system, arguments.only.as_deref())?;
            let hint = format!(
                "A points table holds no tube and no tooling. To check it: elbowroom check {} --tube {}x{}\n",
                shown_path(to),
                part.tube.od.mm(),
                part.tube.wall.mm()
            );
            (Document::System(Box::new(System::of(part))), hint)
        }
    })
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
