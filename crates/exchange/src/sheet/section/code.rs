//! The bend rows as a code that a phone reads: plain comma-separated text.

use elbowroom_geometry::BendPath;
use elbowroom_geometry::units::format_number;
use qrcodegen::{QrCode, QrCodeEcc};

use crate::sheet::ink::{Area, At, Draw, Face, Item, Items, Segment, high, lines, wrapped};
use crate::sheet::layout::{Breadth, Piece, Section, TEXT, paragraphs};
use crate::sheet::work::Work;

/// The head of the rows, the same that a first-off is measured by.
pub const HEAD: &str = "straight_mm,rotation_deg,angle_deg,clr_mm";

/// Bytes that one code may hold: so many that each of its squares stays half a millimetre.
const MOST_BYTES: usize = 620;
/// More codes than this nobody reads one after the other.
const MOST_CODES: usize = 4;
/// The side of a square, mm.
const SQUARE: f64 = 0.5;
/// White squares round a code (ISO/IEC 18004: four).
const QUIET: f64 = 4.0;

/// A figure to a thousandth, without zeros at its end.
fn figure(value: f64) -> String {
    let text = format_number(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The rows as lines, the tail alone on the last.
pub fn rows(path: &BendPath) -> Vec<String> {
    let row = |row: &elbowroom_geometry::BendRow| {
        let cells = [row.straight.mm(), row.rotation.degrees(), row.angle.degrees(), row.clr.mm()];
        cells.map(figure).join(",")
    };
    path.rows().iter().map(row).chain([figure(path.tail().mm())]).collect()
}

/// The texts of the codes, each under the head of its own; `None` where there would be too many.
pub fn texts(path: &BendPath) -> Option<Vec<String>> {
    let mut texts = vec![format!("{HEAD}\n")];
    for row in rows(path) {
        let last = texts.len() - 1;
        if texts[last].len() + row.len() + 1 > MOST_BYTES {
            if texts.len() == MOST_CODES {
                return None;
            }
            texts.push(format!("{HEAD}\n"));
        }
        let last = texts.len() - 1;
        texts[last] += &row;
        texts[last].push('\n');
    }
    Some(texts)
}

/// The section.
pub fn section(work: &Work, width: f64) -> Section {
    let mut section = Section::new("Bend rows for a phone", Breadth::Half);
    let path = &work.solved.form.path;
    let codes = texts(path).and_then(|texts| {
        let code = |text: &String| QrCode::encode_text(text, QrCodeEcc::Medium).ok();
        texts.iter().map(code).collect::<Option<Vec<_>>>()
    });
    let Some(codes) = codes else {
        let text = format!(
            "The rows of {} bends are too long for {MOST_CODES} codes that a phone still reads. `elbowroom convert` and `elbowroom \
             program --format csv` write them as files.",
            path.rows().len()
        );
        section.pieces = paragraphs(&[text], width);
        return section;
    };
    let count = codes.len();
    for (index, code) in codes.iter().enumerate() {
        let which = if count == 1 {
            String::new()
        } else {
            format!(
                "Code {} of {count}: read them in turn and leave out the first line of every one but the first. ",
                index + 1
            )
        };
        let text = format!(
            "{which}Straight before each bend, rotation, angle and CLR as drawn, in mm and degrees, from the start to the finish; the \
             straight after the last bend alone on the last line. Comma-separated text, as `elbowroom first-off` takes it."
        );
        section.pieces.push(piece(code, &text, width));
    }
    section
}

fn piece(code: &QrCode, text: &str, width: f64) -> Piece {
    let side = (f64::from(code.size()) + 2.0 * QUIET) * SQUARE;
    let mut items: Items = vec![Item::Fill(squares(code, QUIET * SQUARE), 1.0)];
    let left = side + 1.0;
    let texts = wrapped(Face::Regular, TEXT, text, width - left);
    lines(&mut items, Area::new(left, 1.5, width - left, 0.0), (Face::Regular, TEXT), &texts);
    // The white margin belongs to the code: nothing else may come there.
    items.shade(Area::new(0.0, 0.0, side, side), 0.0);
    items.rotate_right(1);
    Piece { height: side.max(high(TEXT, texts.len()) + 2.0), items }
}

/// The dark squares, those beside one another in one stroke.
fn squares(code: &QrCode, offset: f64) -> Vec<Segment> {
    let mut path = Vec::new();
    for row in 0..code.size() {
        let mut column = 0;
        while column < code.size() {
            let from = column;
            while column < code.size() && code.get_module(column, row) {
                column += 1;
            }
            if column > from {
                let [left, right] = [from, column].map(|edge| offset + f64::from(edge) * SQUARE);
                let [top, bottom] = [row, row + 1].map(|edge| offset + f64::from(edge) * SQUARE);
                path.extend([
                    Segment::Move(At::new(left, top)),
                    Segment::Line(At::new(right, top)),
                    Segment::Line(At::new(right, bottom)),
                    Segment::Line(At::new(left, bottom)),
                    Segment::Close,
                ]);
            }
            column += 1;
        }
    }
    path
}
