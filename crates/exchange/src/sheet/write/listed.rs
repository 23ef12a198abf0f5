//! Everything on a sheet as comma-separated text: a line a figure or a sentence, for spreadsheets and scripts.

use elbowroom_bending::setup::UNSURE_MARK;
use elbowroom_geometry::units::format_any;

use crate::sheet::work::Work;

/// The columns.
pub const COLUMNS: [&str; 8] = ["tube", "section", "number", "name", "value", "unit", "source", "unsure"];

/// A line: section, number, name, value, unit, source, unsure.
type Line = [String; 7];

fn figure(section: &str, number: &str, name: &str, value: f64, unit: &str) -> Line {
    [section.into(), number.into(), name.into(), format_any(value), unit.into(), String::new(), String::new()]
}

fn words(section: &str, number: &str, name: &str, value: &str, source: &str, unsure: bool) -> Line {
    let unsure = if unsure { "yes" } else { "" };
    [section.into(), number.into(), name.into(), value.into(), String::new(), source.into(), unsure.into()]
}

/// The lines of tubes as comma-separated text under a head. Figures are mm and degrees in full precision; sentences have
/// their lengths in the unit of the part.
///
/// # Errors
/// None that is known: it is written to memory. The type is that of the writer.
pub fn listed(works: &[Work]) -> Result<String, std::io::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for work in works {
        for line in lines(work) {
            writer.write_field(no_formula(work.name()))?;
            writer.write_record(line.iter().map(|cell| no_formula(cell)))?;
        }
    }
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    String::from_utf8(bytes).map_err(std::io::Error::other)
}

/// A cell that no spreadsheet takes for a formula: what begins as one and is no number stands behind a quotation mark.
fn no_formula(cell: &str) -> String {
    let begins = cell.trim_start().starts_with(['=', '+', '-', '@', '\t', '\r']);
    if begins && cell.parse::<f64>().is_err() { format!("'{cell}") } else { cell.to_owned() }
}

fn lines(work: &Work) -> Vec<Line> {
    let mut lines = vec![
        words("part", "", "verdict", &work.verdict().text, "", false),
        words("part", "", "tube", &work.tube(), "", false),
        words("part", "", "shop", &work.shop.name, work.shop_from, false),
        figure("part", "", "length as drawn", work.solved.developed_length_mm, "mm"),
    ];
    drawn(work, &mut lines);
    let tolerance = work.tolerance;
    lines.push(figure("tolerance", "", "angles and rotations", tolerance.angle.degrees(), "deg"));
    lines.push(figure("tolerance", "", "straights and points", tolerance.length.mm(), "mm"));
    match &work.planned {
        Err(why) => lines.push(words("program", "", "none", why, "", false)),
        Ok(planned) => {
            let sheet = &planned.sheet;
            let sections = [("blank", &sheet.blank), ("loading", &sheet.load), ("springback", &sheet.springback)];
            for (section, said) in sections {
                lines.extend(
                    said.iter().map(|line| words(section, "", &line.name, &line.value, &line.source, line.unsure)),
                );
            }
            for step in &sheet.steps {
                let number = step.number.to_string();
                let bend = step.bend.map_or_else(String::new, |bend| (bend + 1).to_string());
                let cells = [
                    ("bend", &bend),
                    ("feed", &step.feed),
                    ("rotation", &step.rotation),
                    ("dial", &step.dial),
                    ("set angle", &step.set),
                    ("free angle", &step.free),
                    ("die CLR", &step.die_clr),
                    ("free CLR", &step.free_clr),
                    ("take-up", &step.take_up),
                    ("mark", &step.mark),
                    ("clamp", &step.clamp),
                    ("clamp from", &step.clamp_from),
                    ("die", &step.die),
                ];
                for (name, value) in cells {
                    let bare = value.strip_prefix(UNSURE_MARK).unwrap_or(value);
                    lines.push(words("program, as shown", &number, name, bare, "", value.starts_with(UNSURE_MARK)));
                }
            }
            lines.extend(
                sheet.setup.iter().map(|item| words("setup", "", item.what, &item.value, &item.source, item.unsure)),
            );
            lines.extend(
                sheet.cautions.iter().map(|caution| words("caution", "", "", &caution.text, caution.source, false)),
            );
        }
    }
    for (index, told) in work.findings().iter().enumerate() {
        let number = (index + 1).to_string();
        lines.push(words(
            "finding",
            &number,
            told.severity.word(),
            &told.text,
            told.fault,
            told.text.contains(UNSURE_MARK),
        ));
        lines.extend(
            told.cures.iter().map(|cure| words("cure of finding", &number, "", &cure.label, &cure.risk, false)),
        );
    }
    lines
}

/// Bend rows as drawn, in full precision.
fn drawn(work: &Work, lines: &mut Vec<Line>) {
    let path = &work.solved.form.path;
    for (index, row) in path.rows().iter().enumerate() {
        let number = (index + 1).to_string();
        lines.push(figure("bend as drawn", &number, "straight before", row.straight.mm(), "mm"));
        lines.push(figure("bend as drawn", &number, "rotation", row.rotation.degrees(), "deg"));
        lines.push(figure("bend as drawn", &number, "angle", row.angle.degrees(), "deg"));
        lines.push(figure("bend as drawn", &number, "CLR", row.clr.mm(), "mm"));
    }
    lines.push(figure("bend as drawn", "", "straight after the last", path.tail().mm(), "mm"));
}
