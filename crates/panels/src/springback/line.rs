//! A springback line and a stretch of the shop's own.

use egui::{RichText, Ui};
use elbowroom_bending::Knowledge;
use elbowroom_bending::forming::springback::SpringbackLine;
use elbowroom_geometry::units::{format_angle, format_number, parse_angle};
use elbowroom_workbench::Command;

use super::Known;
use crate::widgets::{FieldError, entry_field, heading, named_row};

pub(super) fn ui(ui: &mut Ui, known: &Known) -> Vec<Command> {
    heading(ui, "Own line and stretch", |_| ());
    let mut commands = Vec::new();
    let line = known.line;
    let set = |a, b| {
        let line = SpringbackLine::new(a, b).map_err(|refusal| FieldError::Refused(format!("{refusal}.")))?;
        Ok(known.change(Knowledge::Line(Some(line))))
    };
    let fields: [(&str, &str, String, Reader<'_>); 3] = [
        (
            "Springback at no angle",
            "Own springback at no angle",
            format_angle(line.a(), 4),
            Box::new(move |text| set(parse_angle(text)?, line.b())),
        ),
        (
            "Springback per degree",
            "Own springback per degree",
            format_number(line.b(), 6),
            Box::new(move |text| set(line.a(), below_half(number(text)?)?)),
        ),
        (
            "Stretch",
            "Own stretch",
            percent(known.stretch),
            Box::new(move |text| {
                let share = below_half(number(text.trim().trim_end_matches('%'))? / 100.0)?;
                Ok(known.change(Knowledge::Stretch(Some(share))))
            }),
        ),
    ];
    for (name, label, shown, take) in fields {
        commands.extend(named_row(ui, 160.0, name, |ui| entry_field(ui, label, &shown, take)));
    }
    ui.label(RichText::new(format!("Stretch: {}.", known.stretch_from)).small().weak());
    ui.horizontal_wrapped(|ui| {
        if known.line_typed && ui.button("Give up the typed line").clicked() {
            commands.push(known.change(Knowledge::Line(None)));
        }
        if known.stretch_typed && ui.button("Give up the typed stretch").clicked() {
            commands.push(known.change(Knowledge::Stretch(None)));
        }
    });
    commands
}

/// Makes a command of a typed text.
type Reader<'a> = Box<dyn Fn(&str) -> Result<Command, FieldError> + 'a>;

/// A share as a field shows it: percent, to a millionth.
fn percent(share: f64) -> String {
    format!("{} %", (share * 1e8).round() / 1e6)
}

fn number(text: &str) -> Result<f64, FieldError> {
    let read = text.trim().parse::<f64>().ok().filter(|value| value.is_finite());
    read.ok_or_else(|| FieldError::Refused("Write a plain number, with a point before decimals.".to_owned()))
}

fn below_half(value: f64) -> Result<f64, FieldError> {
    if value.abs() < 0.5 {
        return Ok(value);
    }
    Err(FieldError::Refused("That would be half of the bend and more; a few in a hundred is usual.".to_owned()))
}
