//! `elbowroom check`: can this part be bent on the tooling?

use elbowroom_bending::{Part, Severity, Shop, solve};
use elbowroom_exchange::report::{TextContext, to_json, to_text};
use elbowroom_exchange::{Document, read_document};

use super::arguments::{Check, ReportFormat};
use super::convert::part_of_points;
use super::{Failure, Outcome, output, shop};

/// Reads, solves, reports.
pub fn run(arguments: &Check) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.shop.as_deref())?;
    let part = part(arguments, &shop.shop)?;
    let solved = solve(&part, &shop.shop);
    let text = match arguments.format {
        ReportFormat::Text => to_text(&part, &solved, TextContext { shop: &shop.shop, shop_from: &shop.from }),
        ReportFormat::Json => {
            to_json(&part, &solved).map(|line| line + "\n").map_err(|error| Failure::Output(error.into()))?
        }
    };
    output::print(&text)?;
    Ok(if solved.worst() == Some(Severity::Stop) { Outcome::Stopped } else { Outcome::Passes })
}

/// The part in the file, with what the command line puts in place of its own.
fn part(arguments: &Check, shop: &Shop) -> Result<Part, Failure> {
    let file = &arguments.file;
    let mut part = match read_document(file)? {
        Document::Part(mut part) => {
            if let Some(size) = arguments.tube {
                part.tube.od = size.od;
                part.tube.wall = size.wall;
            }
            *part
        }
        Document::Points(path) => {
            let size = arguments.tube.ok_or_else(|| Failure::NoTube(file.clone()))?;
            part_of_points(file, path, size.kept_by(shop))
        }
    };
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
    Ok(part)
}
