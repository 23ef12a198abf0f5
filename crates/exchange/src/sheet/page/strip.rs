//! The blank, unrolled to scale, with its trims, its bends and the marks at which they begin.

use elbowroom_bending::plan::Plan;

use crate::sheet::ink::{Along, Area, At, Draw, Face, Items, Pen};
use crate::sheet::work::{Planned, Work};

/// The size of figures at marks, and how far apart marks stand at least, mm.
const FIGURE: f64 = 2.6;
const PITCH: f64 = 3.5;
/// How high the strip is, and the leaders under it, mm.
const BAR: f64 = 5.0;
const LEADER: f64 = 4.0;
/// Room for the numbers over it, and for the heading over those, mm.
const NUMBERS: f64 = 4.6;
const HEADING: f64 = 4.8;
/// More lines than this are not worth their paper.
const MOST_ROWS: usize = 24;
/// How much black an arc is, and a line of the hatching of a trim every so many mm.
const ARC: f64 = 0.22;
const HATCH: f64 = 1.3;

/// A mark along the blank.
struct Mark {
    at_mm: f64,
    text: String,
}

/// A stretch of blank on one line of paper, mm.
#[derive(Clone, Copy)]
struct Window {
    from: f64,
    to: f64,
}

fn marks(work: &Work, planned: &Planned) -> Vec<Mark> {
    let program = &planned.plan.program;
    let steps = program.steps.iter().zip(&planned.sheet.steps);
    let blank = planned.sheet.blank.first().is_some_and(|line| line.unsure);
    let unsure = if blank { elbowroom_bending::setup::UNSURE_MARK } else { "" };
    let first = Mark { at_mm: 0.0, text: work.part.units.bare(0.0).to_string() };
    let last = Mark { at_mm: program.blank.mm(), text: format!("{unsure}{}", work.bare(program.blank)) };
    let bends = steps.map(|(step, shown)| Mark { at_mm: step.mark.mm(), text: shown.mark.clone() });
    std::iter::once(first).chain(bends).chain([last]).collect()
}

/// How far apart marks and the numbers of bends stand at least, mm.
fn pitch(planned: &Planned) -> f64 {
    let most = planned.plan.solved.bends.len().to_string();
    PITCH.max(Face::Bold.width(&most, FIGURE) + 0.9)
}

/// How many marks, or numbers, have room on one line of a width, mm.
fn capacity(planned: &Planned, width: f64) -> usize {
    let pitch = pitch(planned);
    ((width - pitch) / pitch).floor().max(1.0) as usize
}

/// How many lines the strip takes on a width, mm: as many as leave room for every mark, up to a page or two of them.
pub fn rows(planned: &Planned, width: f64) -> usize {
    let (program, room) = (&planned.plan.program, capacity(planned, width));
    let starts = program.steps.iter().map(|step| step.mark.mm());
    let middles: Vec<f64> = program.steps.iter().map(|step| step.mark.mm() + step.take_up.mm() / 2.0).collect();
    let marks: Vec<f64> = std::iter::once(0.0).chain(starts).chain([program.blank.mm()]).collect();
    let fit = |places: &[f64], count: usize| {
        let share = program.blank.mm() / count as f64;
        let mut held = vec![0_usize; count];
        for place in places {
            held[((place / share.max(1e-9)) as usize).min(count - 1)] += 1;
        }
        held.iter().all(|held| *held <= room)
    };
    (1..MOST_ROWS).find(|count| fit(&marks, *count) && fit(&middles, *count)).unwrap_or(MOST_ROWS)
}

/// How high one line of it is, mm.
pub fn height(work: &Work, planned: &Planned) -> f64 {
    let longest = marks(work, planned).iter().map(|mark| Face::Regular.width(&mark.text, FIGURE)).fold(0.0, f64::max);
    HEADING + NUMBERS + BAR + LEADER + longest + 1.0
}

/// Places along a line moved apart to at least a pitch, in order, and kept within the line where they have room.
fn spread(places: &[f64], pitch: f64, [least, most]: [f64; 2]) -> Vec<f64> {
    let mut spread = places.to_vec();
    for index in 0..spread.len() {
        let before = if index == 0 { least } else { spread[index - 1] + pitch };
        spread[index] = spread[index].max(before);
    }
    for index in (0..spread.len()).rev() {
        let behind = spread.get(index + 1).map_or(most, |next| next - pitch);
        spread[index] = spread[index].min(behind);
    }
    spread
}

/// Draws line `row` of `count` of the strip on an area.
pub fn draw(items: &mut Items, area: Area, work: &Work, planned: &Planned, [row, count]: [usize; 2]) {
    let plan = &planned.plan;
    let blank = plan.program.blank.mm();
    let share = blank / count as f64;
    let window = Window { from: share * row as f64, to: share * (row + 1) as f64 };
    let inner = Area::new(area.x + PITCH / 2.0, area.y, area.width - PITCH, area.height);
    let along = |at_mm: f64| inner.x + (at_mm - window.from) / (window.to - window.from).max(1e-9) * inner.width;
    heading(items, area, work, plan, [row, count]);
    let top = area.y + HEADING + NUMBERS;
    let bar = Area::new(inner.x, top, inner.width, BAR);
    stretches(items, bar, planned, window, &along);
    items.frame(bar, Pen::Wide);
    let last = row + 1 == count;
    let inside = |at_mm: f64| at_mm >= window.from - 1e-9 && (at_mm < window.to || (last && at_mm <= window.to + 1e-6));
    // Where marks stand so dense that no number of lines has room for them, the program holds the others.
    let room = capacity(planned, area.width);
    let marks: Vec<Mark> = marks(work, planned).into_iter().filter(|mark| inside(mark.at_mm)).take(room).collect();
    let places: Vec<f64> = marks.iter().map(|mark| along(mark.at_mm)).collect();
    let pitch = pitch(planned);
    let spread = spread(&places, pitch, [area.x + PITCH / 2.0, area.right() - PITCH / 2.0]);
    for ((mark, place), shown) in marks.iter().zip(&places).zip(&spread) {
        let under = bar.bottom();
        items.through(
            &[
                At::new(*place, top),
                At::new(*place, under + 0.8),
                At::new(*shown, under + LEADER - 0.6),
                At::new(*shown, under + LEADER),
            ],
            Pen::Narrow,
        );
        items.upright(
            At::new(shown + FIGURE * 0.36, under + LEADER + 0.5),
            Along::Ends,
            (Face::Regular, FIGURE),
            &mark.text,
        );
    }
}

fn heading(items: &mut Items, area: Area, work: &Work, plan: &Plan, [row, count]: [usize; 2]) {
    let [first, _] = plan.from.first_before(["start", "finish"]);
    let part = if count > 1 { format!(", {} of {count}", row + 1) } else { String::new() };
    let title = format!("Blank{part}, to scale");
    let bold = items.text(At::new(area.x, area.y + 3.0), Along::Begins, (Face::Bold, 2.8), &title);
    let text = format!(
        "from the {first} of the drawing, bent first; each mark is where a bend starts, {}; bends are grey, trims hatched",
        work.part.units.name()
    );
    let size =
        [2.5, 2.2, 1.9].into_iter().find(|size| Face::Regular.width(&text, *size) < area.right() - bold.right() - 3.0);
    items.text(At::new(bold.right() + 2.5, area.y + 3.0), Along::Begins, (Face::Regular, size.unwrap_or(1.7)), &text);
}

/// Arcs, trims and the numbers of the bends.
fn stretches(items: &mut Items, bar: Area, planned: &Planned, window: Window, along: &dyn Fn(f64) -> f64) {
    let plan = &planned.plan;
    let program = &plan.program;
    let within = |from: f64, to: f64| {
        let (from, to) = (from.max(window.from), to.min(window.to));
        (to > from).then(|| Area::new(along(from), bar.y, along(to) - along(from), bar.height))
    };
    let mut numbers = Vec::new();
    for (index, step) in program.steps.iter().enumerate() {
        let (from, to) = (step.mark.mm(), step.mark.mm() + step.take_up.mm());
        if let Some(arc) = within(from, to) {
            items.shade(arc, ARC);
        }
        let middle = (from + to) / 2.0;
        if middle >= window.from && middle < window.to {
            let bend = plan.drawn_bend(index).map_or_else(String::new, |bend| (bend + 1).to_string());
            numbers.push((along(middle), bend));
        }
    }
    numbers.truncate(capacity(planned, bar.width + PITCH));
    let widest = numbers.iter().map(|(_, text)| Face::Bold.width(text, FIGURE)).fold(0.0, f64::max);
    let places: Vec<f64> = numbers.iter().map(|(place, _)| *place).collect();
    let spread = spread(&places, widest + 0.8, [bar.x + widest / 2.0, bar.right() - widest / 2.0]);
    for ((place, text), shown) in numbers.iter().zip(&spread) {
        items.line(At::new(*place, bar.y), At::new(*shown, bar.y - 1.2), Pen::Narrow);
        items.text(At::new(*shown, bar.y - 1.7), Along::Middle, (Face::Bold, FIGURE), text);
    }
    let trims = [(0.0, program.lead_trim.mm()), (program.blank.mm() - program.tail_trim.mm(), program.blank.mm())];
    for trim in trims.into_iter().filter_map(|(from, to)| within(from, to)) {
        hatch(items, trim);
        items.line(At::new(trim.x, trim.y), At::new(trim.x, trim.bottom()), Pen::Narrow);
        items.line(At::new(trim.right(), trim.y), At::new(trim.right(), trim.bottom()), Pen::Narrow);
    }
}

/// Slanting lines over an area.
fn hatch(items: &mut Items, area: Area) {
    let mut start = area.x - area.height;
    while start < area.right() {
        let (from, to) = (start.max(area.x), (start + area.height).min(area.right()));
        if to > from {
            items.line(
                At::new(from, area.bottom() - (from - start)),
                At::new(to, area.bottom() - (to - start)),
                Pen::Narrow,
            );
        }
        start += HATCH;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_that_stand_close_are_moved_apart_in_order() {
        let spread = spread(&[0.0, 1.0, 2.0, 50.0, 99.0, 100.0], 3.5, [0.0, 100.0]);
        assert!(spread.windows(2).all(|pair| pair[1] - pair[0] >= 3.5 - 1e-9), "{spread:?}");
        assert_eq!((spread[0], spread[3], spread[5]), (0.0, 50.0, 100.0));
    }
}
