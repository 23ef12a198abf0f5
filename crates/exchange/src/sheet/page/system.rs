//! The first pages of a system: all its tubes in one view, and the list of them.

use super::title;
use crate::sheet::ink::{Along, Area, At, Draw, Face, Items, Page, Pen, fitted};
use crate::sheet::layout::{Breadth, Section, content, flow, heading, width};
use crate::sheet::options::SheetOptions;
use crate::sheet::section;
use crate::sheet::view::{Subject, overview};
use crate::sheet::work::Work;

/// How high the name of the system is, mm.
const NAME: f64 = 9.0;
/// The most of a page that the list may take to stand under the view, in shares.
const MOST: f64 = 0.45;

/// How high a list is, with its heading.
fn height(list: &Section, wide: f64) -> f64 {
    let head = list.head.as_ref().map_or(0.0, |head| head.height);
    heading(&list.title, wide).height + head + list.pieces.iter().map(|piece| piece.height).sum::<f64>()
}

/// How many pages the overview takes.
pub fn count(works: &[Work], options: &SheetOptions) -> usize {
    // The numbers of the sheets take no other room whatever they are, as long as they have so many figures.
    pages("", works, options, &vec![999; works.len()]).len()
}

/// The pages: `sheets` says on which sheet each tube begins.
pub fn pages(title: &str, works: &[Work], options: &SheetOptions, sheets: &[usize]) -> Vec<Page> {
    let paper = options.paper;
    let wide = width(paper, Breadth::Full);
    let list = section::parts(works, sheets, wide);
    let inside = content(paper);
    let below = height(&list, wide);
    let under = below <= inside.height * MOST;
    let mut page = Page::lying(paper);
    let said = [title.to_owned(), labelled("for", &options.customer), labelled("revision", &options.revision)];
    let said: Vec<String> = said.into_iter().filter(|text| !text.trim().is_empty()).collect();
    let name = if said.is_empty() { "System".to_owned() } else { said.join(", ") };
    let fits = fitted(Face::Bold, &name, [inside.width, 6.0], [5.0, 2.0]);
    for (index, line) in fits.lines.iter().enumerate() {
        let base = At::new(inside.x, inside.y + fits.size * (1.0 + 1.28 * index as f64));
        page.items.text(base, Along::Begins, (Face::Bold, fits.size), line);
    }
    let room = inside.height - NAME - if under { below + 4.0 } else { 0.0 };
    let area = Area::new(inside.x, inside.y + NAME, inside.width, room);
    let tubes: Vec<Subject> = works.iter().map(|work| Subject::of(&work.part, &work.solved)).collect();
    let scale = overview(&mut page.items, Area::new(area.x, area.y + 4.0, area.width, area.height - 4.0), &tubes);
    let caption = format!("Isometric, {}", scale.text());
    page.items.text(At::new(area.x, area.y + 2.8), Along::Begins, (Face::Bold, 2.8), &caption);
    if !under {
        let mut pages = vec![page];
        pages.extend(flow(paper, &[list]));
        return pages;
    }
    let mut down = inside.bottom() - below;
    let mut stack = vec![heading(&list.title, wide)];
    stack.extend(list.head.clone());
    stack.extend(list.pieces.iter().cloned());
    for piece in stack {
        page.items.extend(piece.items.iter().map(|item| item.moved(inside.x, down)).collect::<Items>());
        down += piece.height;
    }
    vec![page]
}

fn labelled(label: &str, text: &str) -> String {
    if text.trim().is_empty() { String::new() } else { format!("{label} {text}") }
}

/// Frames and numbers them, the first being sheet 1 of `count`.
pub fn numbered(mut pages: Vec<Page>, title: &str, options: &SheetOptions, count: usize) -> Vec<Page> {
    let frame = Area::inside_frame(options.paper);
    let name = if title.trim().is_empty() { "System" } else { title };
    for (index, page) in pages.iter_mut().enumerate() {
        page.items.frame(frame, Pen::Wide);
        title::foot(&mut page.items, frame, &format!("{name}, {}", options.date), [index + 1, count]);
    }
    pages
}
