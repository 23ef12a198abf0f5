//! The printed sheet: drawing, program, setup, findings and inspection of a tube, on paper or as a drawing for the screen.
//!
//! [`Sheet`] is a plain value: pages of lines, fills and texts in millimetres. [`Sheet::pdf`] and [`Sheet::svg`] write it.

mod ink;
mod layout;
mod options;
mod page;
mod section;
mod today;
mod view;
mod work;
mod write;

use std::fmt;

use elbowroom_bending::{Part, Severity, Shop};

pub use ink::{Area, At, Face, Item, Label, Page, Paper, Pen, Segment};
pub use options::SheetOptions;
use page::{TubePages, drawing, system};
pub use section::{CODE_HEAD, code_texts};
pub use today::today;
use work::Work;

/// The most bends that are put on paper: a sheet of more is a book, and files carry them better (common practice, no source).
pub const MOST_BENDS: usize = 300;

/// Why there is no sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoSheet(String);

impl fmt::Display for NoSheet {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}

impl std::error::Error for NoSheet {}

/// A sheet: its pages, and the drawings among them alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What it is called.
    pub title: String,
    /// All pages in order.
    pub pages: Vec<Page>,
    /// The drawing of each tube by itself, without title, after that of the whole where there are several.
    pub drawings: Vec<Page>,
    /// Everything on it as comma-separated text, a line a figure or a sentence.
    pub listed: String,
    /// What stops the tubes from being bent by it, in words, each with the name of its tube where there are several.
    pub stops: Vec<String>,
}

impl Sheet {
    /// The sheet of tubes on a shop. `shop_from` says where the shop comes from, such as `built in`; empty
    /// where nobody knows.
    ///
    /// # Errors
    /// Says which tube has too many bends for paper.
    pub fn of(
        title: &str,
        parts: &[Part],
        shop: &Shop,
        shop_from: &str,
        options: &SheetOptions,
    ) -> Result<Self, NoSheet> {
        let mut works = Vec::with_capacity(parts.len());
        for part in parts {
            let mut part = part.clone();
            part.units = options.units.unwrap_or(part.units);
            let bends = part.path.places().saturating_sub(2);
            if bends > MOST_BENDS {
                return Err(NoSheet(format!(
                    "\"{}\" has {bends} bends, and a sheet takes up to {MOST_BENDS}; `elbowroom program` writes the program of any \
                     number as text, JSON or CSV",
                    part.name
                )));
            }
            works.push(Work::of(&part, shop, shop_from));
        }
        let laid: Vec<TubePages> = works.iter().map(|work| TubePages::of(work, options)).collect();
        let several = works.len() > 1;
        let before = if several { system::count(&works, options) } else { 0 };
        let mut begins = Vec::with_capacity(laid.len());
        let count = laid.iter().fold(before, |count, tube| {
            begins.push(count + 1);
            count + tube.pages.len()
        });
        let mut pages = Vec::with_capacity(count);
        let mut drawings = Vec::new();
        if several {
            let overview = system::pages(title, &works, options, &begins);
            drawings.extend(overview.first().cloned());
            pages = system::numbered(overview, title, options, count);
        }
        for (tube, work) in laid.into_iter().zip(&works) {
            let from = pages.len() + 1;
            pages.extend(tube.numbered(work, options, [from, count]));
        }
        drawings.extend(works.iter().map(|work| drawing(work, options.paper).0));
        let stops = works.iter().flat_map(|work| stops(work, several)).collect();
        let listed = write::listed(&works).map_err(|why| NoSheet(format!("the list cannot be written: {why}")))?;
        Ok(Self { title: title.to_owned(), pages, drawings, listed, stops })
    }

    /// The sheet as a PDF.
    ///
    /// # Errors
    /// None that is known that these pages bring about; what the writer says.
    pub fn pdf(&self) -> Result<Vec<u8>, NoSheet> {
        write::pdf(&self.pages, &self.title).map_err(|why| NoSheet(format!("the PDF cannot be written: {why}")))
    }

    /// Its drawings as an SVG, under one another.
    pub fn svg(&self) -> String {
        write::svg(&self.drawings, &self.title)
    }
}

fn stops(work: &Work, several: bool) -> Vec<String> {
    let name = if several { format!("{}: ", work.name()) } else { String::new() };
    let found = work.findings().into_iter().filter(|told| told.severity == Severity::Stop).map(|told| told.text);
    let of_program = match &work.planned {
        Ok(planned) => planned.sheet.used_up.iter().chain(&planned.sheet.beyond_machine).cloned().collect(),
        Err(why) => vec![format!("there is no program: {why}")],
    };
    found.chain(of_program).map(|words| format!("{name}{words}")).collect()
}
