//! Sections set on pages: full width or in two columns, each going on where there is room, under its heading again.

use super::section::{Breadth, Piece, Section, heading};
use crate::sheet::ink::{Area, Item, Page, Paper};

/// Between two columns, mm.
const GUTTER: f64 = 7.0;
/// Over a heading that is not the first of its column, mm.
const OVER: f64 = 3.2;
/// Between the frame and what is inside, mm.
pub const INSIDE: f64 = 3.0;
/// The line at the foot of a page, mm.
pub const FOOT: f64 = 7.0;

/// What is inside the frame, above the line at the foot.
pub fn content(paper: Paper) -> Area {
    let frame = Area::inside_frame(paper);
    Area::new(frame.x + INSIDE, frame.y + INSIDE, frame.width - 2.0 * INSIDE, frame.height - 2.0 * INSIDE - FOOT)
}

/// How wide a section is, mm.
pub fn width(paper: Paper, breadth: Breadth) -> f64 {
    match breadth {
        Breadth::Full => content(paper).width,
        Breadth::Half => (content(paper).width - GUTTER) / 2.0,
    }
}

/// Where the next piece goes.
struct Flow {
    paper: Paper,
    area: Area,
    pages: Vec<Page>,
    /// Where the columns of the page begin.
    top: f64,
    /// How far down each column is filled.
    filled: [f64; 2],
    column: usize,
    /// Half columns that were left: page, column, and how far down each is filled.
    left_over: Vec<(usize, usize, f64)>,
}

impl Flow {
    fn new(paper: Paper) -> Self {
        let area = content(paper);
        Self {
            paper,
            area,
            pages: vec![Page::lying(paper)],
            top: area.y,
            filled: [area.y; 2],
            column: 0,
            left_over: Vec::new(),
        }
    }

    /// Remembers what room is left in a column that is left.
    fn leave(&mut self) {
        self.left_over.push((self.pages.len() - 1, self.column, self.filled[self.column]));
    }

    fn new_page(&mut self) {
        self.pages.push(Page::lying(self.paper));
        self.top = self.area.y;
        self.filled = [self.area.y; 2];
        self.column = 0;
    }

    /// Takes as much room across both columns.
    fn across(&mut self) {
        self.top = self.filled[0].max(self.filled[1]);
        self.filled = [self.top; 2];
        self.column = 0;
    }

    fn left(&self) -> f64 {
        self.area.bottom() - self.filled[self.column]
    }

    /// On to the next column, or page.
    fn on(&mut self, breadth: Breadth) {
        if breadth == Breadth::Half && self.column == 0 {
            self.leave();
            self.column = 1;
        } else {
            if breadth == Breadth::Half {
                self.leave();
            }
            self.new_page();
        }
    }

    /// Puts a whole section into room that was left over; whether there was any.
    fn floated(&mut self, section: &Section) -> bool {
        let wide = width(self.paper, Breadth::Half);
        let mut stack = vec![heading(&section.title, wide)];
        stack.extend(section.head.iter().chain(&section.pieces).cloned());
        let height: f64 = stack.iter().map(|piece| piece.height).sum();
        let bottom = self.area.bottom();
        let Some(place) = self.left_over.iter().position(|(_, _, filled)| filled + OVER + height <= bottom) else {
            return false;
        };
        let (page, column, filled) = self.left_over[place];
        let x = self.area.x + column as f64 * (wide + GUTTER);
        let mut y = filled + OVER;
        for piece in &stack {
            self.pages[page].items.extend(piece.items.iter().map(|item| item.moved(x, y)));
            y += piece.height;
        }
        self.left_over[place].2 = y;
        true
    }

    fn put(&mut self, piece: &Piece, breadth: Breadth) {
        let x = match breadth {
            Breadth::Full => self.area.x,
            Breadth::Half => self.area.x + self.column as f64 * (width(self.paper, breadth) + GUTTER),
        };
        let y = self.filled[self.column];
        if let Some(page) = self.pages.last_mut() {
            page.items.extend(piece.items.iter().map(|item: &Item| item.moved(x, y)));
        }
        self.filled[self.column] += piece.height;
    }

    fn section(&mut self, section: &Section) {
        let breadth = section.breadth;
        let full = breadth == Breadth::Full;
        if full {
            self.across();
        }
        let wide = width(self.paper, breadth);
        let head_high = section.head.as_ref().map_or(0.0, |head| head.height);
        let mut next = 0;
        let mut begun = false;
        while next < section.pieces.len() {
            let title =
                heading(&if begun { format!("{} (continued)", section.title) } else { section.title.clone() }, wide);
            let fresh = self.filled[self.column] <= self.top + 0.01 && (self.top <= self.area.y + 0.01 || !full);
            let at_top = self.filled[self.column] <= self.area.y + 0.01;
            let over = if fresh || at_top { 0.0 } else { OVER };
            let first: f64 = section.pieces[next..].iter().take(2).map(|piece| piece.height).sum();
            let needs = over + title.height + head_high + first;
            if needs > self.left() && !at_top {
                self.on(breadth);
                continue;
            }
            self.filled[self.column] += over;
            self.put(&title, breadth);
            if let Some(head) = &section.head {
                self.put(head, breadth);
            }
            let from = next;
            while next < section.pieces.len() && (section.pieces[next].height <= self.left() || next == from) {
                self.put(&section.pieces[next], breadth);
                next += 1;
            }
            begun = true;
            if next < section.pieces.len() {
                self.on(breadth);
            }
        }
        if full {
            self.filled = [self.filled[0]; 2];
            self.filled[0] += OVER;
            self.across();
        }
    }
}

/// Sets sections on pages of their own.
pub fn flow(paper: Paper, sections: &[Section]) -> Vec<Page> {
    let mut flow = Flow::new(paper);
    for section in sections {
        if !(section.floats && flow.floated(section)) {
            flow.section(section);
        }
    }
    flow.pages.retain(|page| !page.items.is_empty());
    flow.pages
}
