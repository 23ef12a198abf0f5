//! Which part of a page is taken, so that labels find free room.

use crate::sheet::ink::{Area, At};

/// The side of a cell, mm.
const CELL: f64 = 0.8;

/// How far labels stay off what is there, mm.
const CLEAR: f64 = 0.4;

/// A stretch of a page in cells, each free or taken.
pub struct Room {
    area: Area,
    columns: usize,
    taken: Vec<bool>,
}

impl Room {
    /// An area with nothing on it.
    pub fn of(area: Area) -> Self {
        let count = |length: f64| (length / CELL).ceil().max(1.0) as usize;
        let columns = count(area.width);
        Self { area, columns, taken: vec![false; columns * count(area.height)] }
    }

    /// The cells that a stretch of a line of them meets.
    fn cells(&self, from: f64, to: f64, least: f64, count: usize) -> std::ops::Range<usize> {
        let cell = |at: f64| (((at - least) / CELL).floor().max(0.0) as usize).min(count);
        cell(from)..(cell(to) + 1).min(count)
    }

    fn within(&self, area: &Area) -> impl Iterator<Item = usize> + use<'_> {
        let rows = self.taken.len() / self.columns;
        let across = self.cells(area.x, area.right(), self.area.x, self.columns);
        let down = self.cells(area.y, area.bottom(), self.area.y, rows);
        down.flat_map(move |row| across.clone().map(move |column| row * self.columns + column))
    }

    /// Takes an area.
    pub fn take(&mut self, area: &Area) {
        let cells: Vec<usize> = self.within(area).collect();
        for cell in cells {
            self.taken[cell] = true;
        }
    }

    /// Takes a line and a little to both of its sides.
    pub fn take_line(&mut self, from: At, to: At) {
        let steps = ((to.x - from.x).hypot(to.y - from.y) / (CELL * 0.5)).ceil().clamp(1.0, 4000.0) as usize;
        for step in 0..=steps {
            let share = step as f64 / steps as f64;
            let at = At::new(from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share);
            self.take(&Area::new(at.x, at.y, 0.0, 0.0));
        }
    }

    /// Whether an area lies inside, on nothing that is taken.
    pub fn is_free(&self, area: &Area) -> bool {
        self.area.holds(area) && self.within(area).all(|cell| !self.taken[cell])
    }

    /// How many cells a line goes over that are taken.
    pub fn crossed(&self, from: At, to: At) -> usize {
        let steps = ((to.x - from.x).hypot(to.y - from.y) / CELL).ceil().clamp(1.0, 400.0) as usize;
        let taken = |step: &usize| {
            let share = *step as f64 / steps as f64;
            let at = At::new(from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share);
            self.within(&Area::new(at.x, at.y, 0.0, 0.0)).any(|cell| self.taken[cell])
        };
        (0..=steps).filter(taken).count()
    }

    /// A free place for a label of that size near an anchor: of the nearest ring that has one, the one whose leader crosses
    /// least. `None` where there is none within reach.
    pub fn near(&self, anchor: At, [width, height]: [f64; 2], [from, to]: [f64; 2]) -> Option<Area> {
        const DIRECTIONS: usize = 24;
        const STEP: f64 = 1.2;
        let mut away = from;
        while away <= to {
            let ring = (0..DIRECTIONS).filter_map(|direction| {
                // Above first, then to both sides by turns.
                let turn = direction.div_ceil(2) as f64 * if direction % 2 == 0 { 1.0 } else { -1.0 };
                let angle = turn * std::f64::consts::TAU / DIRECTIONS as f64;
                let (sin, cos) = angle.sin_cos();
                let middle = anchor.moved(sin * (away + width / 2.0), -cos * (away + height / 2.0));
                let area = Area::new(middle.x - width / 2.0, middle.y - height / 2.0, width, height);
                self.is_free(&area.within(-CLEAR)).then_some(area)
            });
            let best = ring.min_by_key(|area| self.crossed(anchor, area.centre()));
            if best.is_some() {
                return best;
            }
            away += STEP;
        }
        None
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn labels_find_room_beside_what_is_there() {
        let mut room = Room::of(Area::new(10.0, 10.0, 60.0, 40.0));
        room.take_line(At::new(10.0, 30.0), At::new(70.0, 30.0));
        let mut placed: Vec<Area> = Vec::new();
        for _ in 0..12 {
            let area = room.near(At::new(40.0, 30.0), [9.0, 4.0], [1.0, 40.0]).unwrap();
            assert!(placed.iter().all(|other| !other.meets(&area)) && room.is_free(&area), "{area:?}");
            assert!(!area.meets(&Area::new(10.0, 29.9, 60.0, 0.2)), "{area:?}");
            room.take(&area);
            placed.push(area);
        }
        assert!(room.near(At::new(40.0, 30.0), [59.0, 20.0], [1.0, 40.0]).is_none());
    }
}
