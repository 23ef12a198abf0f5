//! The part that a task is about, with what the command line puts in place of its own.

use elbowroom_bending::{Part, Shop};
use elbowroom_exchange::{Document, read_document};

use super::Failure;
use super::arguments::Subject;
use super::convert::part_of_points;

/// The part in the file, with what the command line puts in place of its own.
pub fn part(arguments: &Subject, shop: &Shop) -> Result<Part, Failure> {
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
    if let Some(from) = arguments.from {
        part.tooling.from = from.into();
    }
    if let Some(hand) = arguments.hand {
        part.tooling.hand = Some(hand.into());
    }
    Ok(part)
}
