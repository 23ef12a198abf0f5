//! The bend program: a row a step.

use elbowroom_bending::program_sheet::{NOTHING_BENT, SheetStep};

use crate::sheet::layout::{Breadth, Cell, Section, Table, hanging, paragraphs};
use crate::sheet::work::Work;

/// The columns.
const HEAD: [&str; 15] = [
    "Step",
    "Bend",
    "Feed",
    "Rotation",
    "Dial",
    "Set angle",
    "Free angle",
    "Die CLR",
    "Free CLR",
    "Take-up",
    "Mark",
    "Clamp",
    "Clamp from",
    "Die",
    "See finding",
];

/// The section for a width in mm; why there is none, where there is none.
pub fn section(work: &Work, width: f64) -> Section {
    let unit = work.part.units.name();
    let mut section = Section::new(format!("Bend program, {unit} and degrees"), Breadth::Full);
    let planned = match &work.planned {
        Ok(planned) => planned,
        Err(why) => {
            section.pieces = paragraphs(&[format!("There is no program: {why}.")], width);
            return section;
        }
    };
    if planned.sheet.steps.is_empty() {
        section.pieces = paragraphs(&[NOTHING_BENT.to_owned()], width);
        return section;
    }
    let findings = work.findings();
    let row = |step: &SheetStep| {
        let here = findings.iter().enumerate().filter(|(_, told)| step.bend.is_some() && told.place.bend == step.bend);
        let numbers: Vec<String> = here.map(|(index, _)| (index + 1).to_string()).collect();
        let bend = step.bend.map_or_else(String::new, |bend| (bend + 1).to_string());
        let figures = [
            &step.number.to_string(),
            &bend,
            &step.feed,
            &step.rotation,
            &step.dial,
            &step.set,
            &step.free,
            &step.die_clr,
            &step.free_clr,
            &step.take_up,
            &step.mark,
            &step.clamp,
            &step.clamp_from,
        ];
        let mut cells: Vec<Cell> = figures.into_iter().map(|figure| Cell::Figure(figure.clone())).collect();
        cells.push(Cell::Words(step.die.clone()));
        cells.push(Cell::Words(numbers.join(", ")));
        cells
    };
    let table = Table {
        head: HEAD.iter().map(|head| (*head).to_owned()).collect(),
        rows: planned.sheet.steps.iter().map(row).collect(),
    };
    let (head, rows) = table.pieces(width);
    (section.head, section.pieces) = (Some(head), rows);
    section
}

/// What goes with the table: from which end and to which side, what its figures are, and what changes at which step.
pub fn notes(work: &Work, width: f64) -> Option<Section> {
    let planned = work.planned.as_ref().ok()?;
    let mut lines: Vec<(String, String)> =
        planned.sheet.head.iter().map(|line| (line.name.clone(), line.value.clone())).collect();
    if !planned.sheet.explained.is_empty() {
        lines.push(("Figures".into(), planned.sheet.explained.clone()));
    }
    for step in &planned.sheet.steps {
        let changes = step.watch.iter().filter(|watch| watch.severity.is_none());
        lines.extend(changes.map(|watch| (format!("At step {}", step.number), watch.text.clone())));
    }
    let mut section = Section::new("How to read the program", Breadth::Half);
    section.pieces = hanging(&lines, 22.0, width);
    Some(section)
}
