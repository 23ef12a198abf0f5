//! The pages of one tube: the drawing with its title first, then everything else that there is to say.

use super::{strip, templates, title};
use crate::sheet::ink::{Area, Draw, Items, Page, Paper, Pen};
use crate::sheet::layout::{Breadth, Piece, Section, flow, width};
use crate::sheet::options::SheetOptions;
use crate::sheet::section;
use crate::sheet::view::{Drawn, Projection, Subject, draw};
use crate::sheet::work::Work;

/// A tube's pages, still without their numbers.
pub struct TubePages {
    /// The drawing, then what follows it.
    pub pages: Vec<Page>,
    told: String,
    scale: String,
    lying: usize,
}

/// How views are folded out on a paper: first angle where A4 is used, third where letter is (common practice, no source).
pub const fn projection(paper: Paper) -> Projection {
    match paper {
        Paper::A4 => Projection::FirstAngle,
        Paper::Letter => Projection::ThirdAngle,
    }
}

/// Where the title block lies.
fn title_area(paper: Paper) -> Area {
    let frame = Area::inside_frame(paper);
    Area::new(frame.x, frame.bottom() - title::HEIGHT, frame.width, title::HEIGHT)
}

/// The drawing page without its title: the views, and the strip of the blank where it fits in one line.
pub fn drawing(work: &Work, paper: Paper) -> (Page, Drawn) {
    let mut page = Page::lying(paper);
    let frame = Area::inside_frame(paper);
    let block = title_area(paper);
    let items = &mut page.items;
    items.frame(frame, Pen::Wide);
    let mut bottom = block.y;
    if let Ok(planned) = &work.planned {
        let inside = Area::new(frame.x + 4.0, 0.0, frame.width - 8.0, 0.0);
        if strip::rows(planned, inside.width) == 1 {
            let height = strip::height(work, planned);
            bottom -= height + 1.5;
            let area = Area::new(inside.x, bottom, inside.width, height);
            strip::draw(items, area, work, planned, [0, 1]);
        }
    }
    let views = Area::new(frame.x + 2.0, frame.y + 2.0, frame.width - 4.0, bottom - frame.y - 3.0);
    let drawn = draw(items, views, &Subject::of(&work.part, &work.solved), projection(paper));
    (page, drawn)
}

/// The strip as a section of its own, where it takes several lines.
fn long_strip(work: &Work, paper: Paper) -> Option<Section> {
    let planned = work.planned.as_ref().ok()?;
    let wide = width(paper, Breadth::Full);
    let count = strip::rows(planned, Area::inside_frame(paper).width - 8.0);
    if count == 1 {
        return None;
    }
    let count = strip::rows(planned, wide);
    let height = strip::height(work, planned);
    let mut section = Section::new("Blank with bend marks", Breadth::Full);
    for row in 0..count {
        let mut items = Items::new();
        strip::draw(&mut items, Area::new(0.0, 0.0, wide, height), work, planned, [row, count]);
        section.pieces.push(Piece { height: height + 2.0, items });
    }
    Some(section)
}

impl TubePages {
    /// Lays out a tube.
    pub fn of(work: &Work, options: &SheetOptions) -> Self {
        let paper = options.paper;
        let (first, drawn) = drawing(work, paper);
        let scale = if drawn.scale == drawn.isometric {
            drawn.scale.text()
        } else {
            format!("{} ({})", drawn.scale.text(), drawn.isometric.text())
        };
        let told = title::Told { options, scale: scale.clone(), projection: projection(paper) };
        let in_full = title::no_room(title_area(paper), work, &told);
        let sections = section::all(work, paper, &in_full);
        let sections: Vec<Section> = long_strip(work, paper).into_iter().chain(sections).collect();
        let mut pages = vec![first];
        pages.extend(flow(paper, &sections));
        let lying = pages.len();
        if options.templates {
            pages.extend(templates::pages(work, paper));
        }
        let revision =
            if options.revision.is_empty() { String::new() } else { format!(", revision {}", options.revision) };
        Self { pages, told: format!("{}{revision}, {}", work.name(), options.date), scale, lying }
    }

    /// Puts titles and numbers on the pages, the first of them being sheet `from` of `count`.
    pub fn numbered(mut self, work: &Work, options: &SheetOptions, [from, count]: [usize; 2]) -> Vec<Page> {
        let paper = options.paper;
        let frame = Area::inside_frame(paper);
        for (index, page) in self.pages.iter_mut().enumerate() {
            let number = [from + index, count];
            if index == 0 {
                let told = title::Told { options, scale: self.scale.clone(), projection: projection(paper) };
                title::block(&mut page.items, title_area(paper), work, &told, number);
            } else if index < self.lying {
                page.items.frame(frame, Pen::Wide);
                title::foot(&mut page.items, frame, &self.told, number);
            } else {
                templates::foot(page, &self.told, number);
            }
        }
        self.pages
    }
}
