//! The manual page of a check, in a window to read while one works.

use std::fmt;

use egui::{RichText, Ui, vec2};
use elbowroom_bending::Fault;
use elbowroom_bending::checks::REGISTRY;
use elbowroom_workbench::{Command, Workbench};

use crate::style::heading_text;
use crate::widgets::page;

/// A piece of a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// The name of a section.
    Heading(String),
    /// A paragraph, its lines joined.
    Paragraph(String),
}

/// The page that is open.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The check.
    pub fault: Fault,
    /// What it is called.
    pub title: &'static str,
    /// What it looks for, on one line.
    pub summary: String,
    /// The page.
    pub blocks: Vec<Block>,
}

impl Model {
    /// The open page; none where none is, or where no check has that name.
    pub fn of(workbench: &Workbench) -> Option<Self> {
        let fault = workbench.screen().manual?;
        let check = REGISTRY.iter().find(|check| check.fault == fault)?;
        let severity = [Block::Heading("Severity".into()), Block::Paragraph(check.severity.into())];
        let blocks = severity.into_iter().chain(blocks(check.manual)).collect();
        Some(Self { fault: check.fault, title: check.title, summary: check.summary.to_owned(), blocks })
    }
}

/// The blocks of a page: a line at the margin is a heading, indented lines are the text under it, and an
/// empty line ends a paragraph.
fn blocks(page: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut paragraph = String::new();
    for line in page.lines().chain([""]) {
        let indented = line.starts_with(char::is_whitespace);
        if !indented && !paragraph.is_empty() {
            blocks.push(Block::Paragraph(std::mem::take(&mut paragraph)));
        }
        if indented {
            if !paragraph.is_empty() {
                paragraph.push(' ');
            }
            paragraph.push_str(line.trim());
        } else if !line.is_empty() {
            blocks.push(Block::Heading(line.to_owned()));
        }
    }
    blocks
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}: {}", self.title, self.summary)?;
        for block in &self.blocks {
            match block {
                Block::Heading(text) => writeln!(out, "# {text}")?,
                Block::Paragraph(text) => writeln!(out, "{text}")?,
            }
        }
        Ok(())
    }
}

/// Shows the page over the scene.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let title = format!("Manual: {}", model.title);
    let open = page(ui, "manual page", &title, vec2(560.0, 520.0), |ui| {
        ui.label(RichText::new(&model.summary).strong());
        for block in &model.blocks {
            match block {
                Block::Heading(text) => {
                    ui.add_space(8.0);
                    ui.label(RichText::new(text).text_style(heading_text()));
                }
                Block::Paragraph(text) => {
                    ui.label(text);
                }
            }
        }
        ui.add_space(8.0);
        ui.label(RichText::new(format!("On the command line: elbowroom explain {}", model.fault)).small().weak());
    });
    if open { Vec::new() } else { vec![Command::CloseManual] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_fall_into_headings_and_paragraphs() {
        let page = "What\n  One line\n  and another.\n\n  A second paragraph.\n\nWhy\n  Because.\n";
        let text = |text: &str| Block::Paragraph(text.to_owned());
        let expected = [
            Block::Heading("What".to_owned()),
            text("One line and another."),
            text("A second paragraph."),
            Block::Heading("Why".to_owned()),
            text("Because."),
        ];
        assert_eq!(blocks(page), expected);
    }

    #[test]
    fn every_check_has_a_page_that_reads() {
        assert!(!REGISTRY.is_empty());
        for check in REGISTRY {
            let blocks = blocks(check.manual);
            let headings = blocks.iter().filter(|block| matches!(block, Block::Heading(_))).count();
            assert!(headings >= 5, "{}: {headings}", check.fault);
            assert!(matches!(blocks.first(), Some(Block::Heading(_))), "{}", check.fault);
            for pair in blocks.windows(2) {
                assert!(!pair.iter().all(|block| matches!(block, Block::Heading(_))), "{}: {pair:?}", check.fault);
            }
        }
    }
}
