//! The title block on the first page of a tube (its fields after ISO 7200), and the line at the foot of the others.

use crate::sheet::ink::{Along, Area, At, Draw, FIRST, Face, Items, LINE, Pen, fitted, lines};
use crate::sheet::layout::{FOOT, INSIDE};
use crate::sheet::options::SheetOptions;
use crate::sheet::view::Projection;
use crate::sheet::work::Work;

/// How high the block is, mm.
pub const HEIGHT: f64 = 27.0;
/// The size of captions, mm.
const CAPTION: f64 = 1.9;
/// The largest and the smallest letters of a field, mm.
const LETTERS: [f64; 2] = [3.2, 1.9];
const NAME: [f64; 2] = [5.0, 2.0];

/// A field of the title block.
struct Field {
    area: Area,
    caption: &'static str,
    text: String,
    face: Face,
    letters: [f64; 2],
}

/// What the title says beside the tube.
pub struct Told<'a> {
    /// What a person says.
    pub options: &'a SheetOptions,
    /// The scale, in words.
    pub scale: String,
    /// How views are folded out.
    pub projection: Projection,
}

fn fields(area: Area, work: &Work, told: &Told) -> Vec<Field> {
    let options = told.options;
    let at = |left: f64, right: f64, row: f64, rows: f64| {
        let high = area.height / 3.0;
        Area::new(area.x + area.width * left, area.y + high * row, area.width * (right - left), high * rows)
    };
    let verdict = work.verdict();
    let word = verdict
        .severity
        .map_or_else(String::new, |severity| format!("{}: ", elbowroom_bending::text::capital(severity.word())));
    let field = |area, caption, text: String| Field { area, caption, text, face: Face::Regular, letters: LETTERS };
    vec![
        Field {
            face: Face::Bold,
            letters: [3.6, 1.9],
            ..field(at(0.0, 0.33, 0.0, 3.0), "Verdict", format!("{word}{}", verdict.text))
        },
        Field { face: Face::Bold, letters: NAME, ..field(at(0.33, 0.70, 0.0, 1.0), "Part", work.name().to_owned()) },
        field(at(0.33, 0.70, 1.0, 1.0), "Tube and material", work.tube()),
        field(at(0.33, 0.54, 2.0, 1.0), "Customer", options.customer.clone()),
        field(at(0.54, 0.70, 2.0, 1.0), "Drawn by", options.drawn_by.clone()),
        field(at(0.70, 0.82, 0.0, 1.0), "Revision", options.revision.clone()),
        field(at(0.82, 1.0, 0.0, 1.0), "Date", options.date.clone()),
        field(at(0.70, 0.82, 1.0, 1.0), "Scale", told.scale.clone()),
        field(at(0.82, 0.92, 1.0, 1.0), "Dimensions in", work.part.units.name().to_owned()),
        field(at(0.70, 0.82, 2.0, 1.0), "Paper", format!("{}, print at 100 %", options.paper.name())),
    ]
}

fn room(field: &Field) -> Area {
    Area::new(
        field.area.x + 1.2,
        field.area.y + CAPTION + 0.9,
        field.area.width - 2.4,
        field.area.height - CAPTION - 1.3,
    )
}

/// What has no room in the title block, by its caption, and has to be printed elsewhere.
pub fn no_room(area: Area, work: &Work, told: &Told) -> Vec<(String, String)> {
    let cut = |field: &Field| {
        let room = room(field);
        !fitted(field.face, &field.text, [room.width, room.height], field.letters).whole
    };
    fields(area, work, told).into_iter().filter(cut).map(|field| (field.caption.to_owned(), field.text)).collect()
}

/// Draws the title block, sheet `number` of `count`.
pub fn block(items: &mut Items, area: Area, work: &Work, told: &Told, [number, count]: [usize; 2]) {
    let mut fields = fields(area, work, told);
    let high = area.height / 3.0;
    let sheet = Area::new(area.x + area.width * 0.82, area.y + 2.0 * high, area.width * 0.18, high);
    fields.push(Field {
        area: sheet,
        caption: "Sheet",
        text: format!("{number} of {count}"),
        face: Face::Bold,
        letters: [3.8, 2.0],
    });
    for field in &fields {
        items.frame(field.area, Pen::Narrow);
        let caption = At::new(field.area.x + 1.2, field.area.y + CAPTION + 0.2);
        items.text(caption, Along::Begins, (Face::Regular, CAPTION), field.caption);
        let room = room(field);
        let fits = fitted(field.face, &field.text, [room.width, room.height], field.letters);
        // One line stands in the middle of its field.
        let spare = (room.height - (FIRST + 0.24 + LINE * (fits.lines.len().max(1) - 1) as f64) * fits.size).max(0.0);
        let down = if field.area.height > high + 0.1 { 0.8 } else { spare / 2.0 };
        let room = Area::new(room.x, room.y + down.min(spare), room.width, room.height);
        lines(items, room, (field.face, fits.size), &fits.lines);
    }
    let symbol = Area::new(area.x + area.width * 0.92, area.y + high, area.width * 0.08, high);
    items.frame(symbol, Pen::Narrow);
    projection_symbol(items, symbol, told.projection);
    items.frame(area, Pen::Wide);
}

/// The cone cut off, from its side and from its end (ISO 5456-2): the end view lies to its right in first angle and to its
/// left in third.
fn projection_symbol(items: &mut Items, area: Area, projection: Projection) {
    let middle = area.centre();
    let [small, large, long] = [1.1, 2.2, 4.4];
    let apart = 4.6;
    let (side, end) = match projection {
        Projection::FirstAngle => (-apart, apart),
        Projection::ThirdAngle => (apart, -apart),
    };
    let at = |x: f64, y: f64| middle.moved(side + x, y);
    let half = long / 2.0;
    // The small end looks away from the end view in first angle, towards it in third.
    let cone = [at(-half, -small), at(half, -large), at(half, large), at(-half, small), at(-half, -small)];
    items.through(&cone, Pen::Wide);
    items.line(at(-half - 1.0, 0.0), at(half + 1.0, 0.0), Pen::Narrow);
    let round = middle.moved(end, 0.0);
    items.circle(round, small, Pen::Wide);
    items.circle(round, large, Pen::Wide);
    items.line(round.moved(-large - 0.8, 0.0), round.moved(large + 0.8, 0.0), Pen::Narrow);
    items.line(round.moved(0.0, -large - 0.8), round.moved(0.0, large + 0.8), Pen::Narrow);
}

/// The line at the foot of a page: what it is about, and sheet `number` of `count`.
pub fn foot(items: &mut Items, frame: Area, told: &str, [number, count]: [usize; 2]) {
    let line = frame.bottom() - FOOT;
    items.line(At::new(frame.x, line), At::new(frame.right(), line), Pen::Narrow);
    let sheet = format!("Sheet {number} of {count}");
    let base = line + FOOT / 2.0 + 1.1;
    let right = items.text(At::new(frame.right() - INSIDE, base), Along::Ends, (Face::Bold, 3.2), &sheet);
    let width = right.x - frame.x - 3.0 * INSIDE;
    let fits = fitted(Face::Regular, told, [width, 3.4], [3.0, 2.0]);
    if let Some(line) = fits.lines.first() {
        items.text(At::new(frame.x + INSIDE, base), Along::Begins, (Face::Regular, fits.size), line);
    }
}
