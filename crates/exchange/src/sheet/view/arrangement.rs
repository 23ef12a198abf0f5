//! Front, top, side and isometric view on one area: the largest standard scales at which they fit.

use super::drawn::{How, MARGIN, Sight};
use super::eye::Eye;
use super::room::Room;
use super::scale::Scale;
use super::subject::Subject;
use crate::sheet::ink::{Along, Area, At, Draw, Face, Items};

/// How views are folded out (ISO 5456-2).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Projection {
    /// The view from the top lies below, the one from the left to the right.
    FirstAngle,
    /// The view from the top lies above, the one from the right to the right.
    ThirdAngle,
}

/// What was drawn, at which scales.
pub struct Drawn {
    /// The scale of front, top and side.
    pub scale: Scale,
    /// That of the isometric view.
    pub isometric: Scale,
}

/// The size of what stands under a view, mm.
const CAPTION: f64 = 2.8;
/// More legs than this stand in the table alone.
const MOST_LEGS: usize = 8;
/// Room round the isometric view for numbers, mm.
const ROUND: f64 = 11.0;

/// Three views that lie square to one another.
struct Three<'a> {
    front: Sight<'a>,
    top: Sight<'a>,
    side: Sight<'a>,
}

/// The columns and rows that the three need at a scale, mm.
struct Needs {
    columns: [f64; 2],
    rows: [f64; 2],
}

impl Three<'_> {
    fn needs(&self, scale: Scale) -> Needs {
        let [front, top, side] = [&self.front, &self.top, &self.side].map(|sight| sight.cell(scale));
        Needs { columns: [front[0].max(top[0]), side[0]], rows: [front[1].max(side[1]), top[1]] }
    }
}

/// Where the isometric view may lie beside the others: to the right of all of them, or in the fourth corner.
fn isometric_areas(area: Area, needs: &Needs, projection: Projection) -> [Area; 2] {
    let [first, second] = needs.columns;
    let beside = Area::new(area.x + first + second, area.y, area.width - first - second, area.height);
    let [front_high, top_high] = needs.rows;
    let free_high = area.height - front_high - top_high;
    let corner_high = top_high + free_high;
    let y = match projection {
        Projection::FirstAngle => area.bottom() - corner_high,
        Projection::ThirdAngle => area.y,
    };
    [beside, Area::new(area.x + first, y, area.width - first, corner_high)]
}

/// The largest scale at which the isometric view fits an area.
fn fits_isometric(sight: &Sight, area: Area) -> Option<Scale> {
    let fits = |scale: &Scale| {
        let [wide, high] = sight.size(*scale);
        wide + 2.0 * ROUND <= area.width && high + 2.0 * ROUND <= area.height
    };
    Scale::STANDARD.into_iter().find(fits)
}

/// Draws the four views on an area.
pub fn draw(items: &mut Items, area: Area, subject: &Subject, projection: Projection) -> Drawn {
    let side = match projection {
        Projection::FirstAngle => Eye::left(),
        Projection::ThirdAngle => Eye::right(),
    };
    let three = Three {
        front: Sight::along_axis(subject, Eye::front()),
        top: Sight::along_axis(subject, Eye::top()),
        side: Sight::along_axis(subject, side),
    };
    let isometric = Sight::of(subject, Eye::isometric());
    let best = |scale: Scale| {
        let needs = three.needs(scale);
        let fits = needs.columns.iter().sum::<f64>() <= area.width && needs.rows.iter().sum::<f64>() <= area.height;
        let spots = isometric_areas(area, &needs, projection);
        let at = spots.into_iter().filter_map(|spot| Some((fits_isometric(&isometric, spot)?, spot)));
        let (of, spot) = at.max_by(|a, b| a.0.factor().total_cmp(&b.0.factor()))?;
        fits.then_some((needs, of, spot))
    };
    let scale = Scale::largest(|scale| best(scale).is_some_and(|(_, of, _)| of.steps_below(scale) <= 1));
    let (needs, of, spot) =
        best(scale).unwrap_or_else(|| (three.needs(scale), scale, Area::new(area.x, area.y, area.width, area.height)));
    let beside = spot.y == area.y && spot.height == area.height && spot.x > area.x + needs.columns[0];
    place(items, area, &three, scale, &needs, (projection, beside, spot));
    let mut room = Room::of(spot);
    let how = How { overall: false, legs: subject.legs().len() <= MOST_LEGS };
    let name = if of == scale { "Isometric".to_owned() } else { format!("Isometric, {}", of.text()) };
    let middle = At::new(spot.centre().x, spot.centre().y + CAPTION / 2.0);
    let above = (middle.y - isometric.size(of)[1] / 2.0 - ROUND + CAPTION).max(spot.y + CAPTION * 1.2);
    caption(items, &mut room, At::new(middle.x, above), &name);
    isometric.draw(items, of, middle, &mut room, how);
    Drawn { scale, isometric: of }
}

/// Draws the three, with what room is left over spread between them.
fn place(
    items: &mut Items,
    area: Area,
    three: &Three,
    scale: Scale,
    needs: &Needs,
    (projection, beside, spot): (Projection, bool, Area),
) {
    let wide = if beside { area.width - spot.width } else { area.width };
    let spare = (wide - needs.columns[0] - needs.columns[1]).max(0.0) / 2.0;
    // In the fourth corner the isometric view keeps what it was given.
    let spare = if beside { spare } else { 0.0 };
    let columns = needs.columns.map(|column| column + spare);
    let spare = (area.height - needs.rows[0] - needs.rows[1]).max(0.0);
    // The view from the top shares its row with the isometric view then.
    let rows = if beside { needs.rows.map(|row| row + spare / 2.0) } else { [needs.rows[0], needs.rows[1] + spare] };
    let (front_y, top_y) = match projection {
        Projection::FirstAngle => (area.y, area.y + rows[0]),
        Projection::ThirdAngle => (area.y + rows[1], area.y),
    };
    let side_name = match projection {
        Projection::FirstAngle => "Left side",
        Projection::ThirdAngle => "Right side",
    };
    let cells = [
        (&three.front, Area::new(area.x, front_y, columns[0], rows[0]), "Front"),
        (&three.top, Area::new(area.x, top_y, columns[0], rows[1]), "Top"),
        (&three.side, Area::new(area.x + columns[0], front_y, columns[1], rows[0]), side_name),
    ];
    for (sight, cell, name) in cells {
        let middle = At::new(
            cell.x + MARGIN.left + (cell.width - MARGIN.left - MARGIN.right) / 2.0,
            cell.y + MARGIN.top + (cell.height - MARGIN.top - MARGIN.bottom) / 2.0,
        );
        let mut room = Room::of(cell);
        let [wide, high] = sight.size(scale);
        let above = (middle.y - high / 2.0 - MARGIN.top + CAPTION).max(cell.y + CAPTION);
        caption(items, &mut room, At::new(middle.x - wide / 2.0, above), name);
        sight.draw(items, scale, middle, &mut room, How { overall: true, legs: false });
    }
}

fn caption(items: &mut Items, room: &mut Room, at: At, name: &str) {
    let along = if name.starts_with("Isometric") { Along::Middle } else { Along::Begins };
    let taken = items.text(at, along, (Face::Bold, CAPTION), name);
    room.take(&taken);
}
