//! `elbowroom sheet`: the printed sheet of a tube or of a system, as PDF, its drawing as SVG, or all of it as a list.

use std::ffi::OsStr;
use std::path::Path;

use elbowroom_bending::text::{harmless, shown_path};
use elbowroom_exchange::sheet::{self, Paper, SheetOptions};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{FileProblem, save_atomically, sweep_beside};

use super::arguments::{Sheet, SheetPaper, SheetUnits};
use super::{Failure, Outcome, complain, output, shop, subject};

/// The forms in which a sheet is written, by the ending of the file.
#[derive(Clone, Copy)]
enum Form {
    Pdf,
    Svg,
    Csv,
}

/// Reads, lays out, writes.
pub fn run(arguments: &Sheet) -> Result<Outcome, Failure> {
    let form = form(&arguments.out)?;
    if arguments.out == arguments.subject.file {
        let what = "it is the file that is to be printed, and would be replaced by its sheet";
        return Err(FileProblem::whole(shown_path(&arguments.out), what, "name another file to write").into());
    }
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let subject::Tubes { system, asked: parts, .. } = subject::tubes(&arguments.subject, &shop.shop)?;
    let title = match parts.as_slice() {
        [part] => part.name.clone(),
        _ => system.name().to_owned(),
    };
    let sheet = sheet::Sheet::of(&title, &parts, &shop.shop, &shop.from, &options(arguments))
        .map_err(|why| FileProblem::whole(shown_path(&arguments.subject.file), why.to_string(), ""))?;
    let bytes = match form {
        Form::Pdf => sheet.pdf().map_err(|why| {
            FileProblem::whole(shown_path(&arguments.out), why.to_string(), "tell us how it came about")
        })?,
        Form::Svg => sheet.svg().into_bytes(),
        Form::Csv => sheet.listed.clone().into_bytes(),
    };
    save_atomically(&arguments.out, bytes)?;
    sweep_beside(&arguments.out);
    let sheets = |count: usize| if count == 1 { "1 sheet".to_owned() } else { format!("{count} sheets") };
    let what = match form {
        Form::Pdf => format!("{} of {}", sheets(sheet.pages.len()), arguments_paper(arguments).name()),
        Form::Svg => match sheet.drawings.len() {
            1 => "the drawing".to_owned(),
            count => format!("{count} drawings, under one another"),
        },
        Form::Csv => "all of it as a list".to_owned(),
    };
    output::print(&format!("Written: {} ({what})\n", shown_path(&arguments.out)))?;
    for stop in &sheet.stops {
        complain(&format!("stop: {stop}"));
    }
    Ok(if sheet.stops.is_empty() { Outcome::Passes } else { Outcome::Stopped })
}

fn form(out: &Path) -> Result<Form, FileProblem> {
    match out.extension().and_then(OsStr::to_str).map(str::to_lowercase).as_deref() {
        Some("pdf") => Ok(Form::Pdf),
        Some("svg") => Ok(Form::Svg),
        Some("csv") => Ok(Form::Csv),
        _ => Err(FileProblem::whole(
            shown_path(out),
            "a sheet is written as .pdf, its drawing alone as .svg, and all of it as a list as .csv",
            "name a file that ends so, such as sheet.pdf",
        )),
    }
}

const fn arguments_paper(arguments: &Sheet) -> Paper {
    match arguments.paper {
        SheetPaper::A4 => Paper::A4,
        SheetPaper::Letter => Paper::Letter,
    }
}

fn options(arguments: &Sheet) -> SheetOptions {
    let said = |text: &Option<String>| text.as_deref().map(|text| harmless(text).into_owned()).unwrap_or_default();
    SheetOptions {
        paper: arguments_paper(arguments),
        units: arguments.units.map(|units| match units {
            SheetUnits::Mm => LengthUnit::Millimetre,
            SheetUnits::In => LengthUnit::Inch,
        }),
        templates: arguments.templates,
        customer: said(&arguments.customer),
        revision: said(&arguments.revision),
        drawn_by: said(&arguments.drawn_by),
        date: arguments.date.as_deref().map_or_else(sheet::today, |date| harmless(date).into_owned()),
    }
}
