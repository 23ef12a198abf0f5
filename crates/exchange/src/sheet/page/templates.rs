//! Full-size templates.

use crate::sheet::ink::{Page, Paper};
use crate::sheet::work::Work;

/// The pages.
pub fn pages(_work: &Work, _paper: Paper) -> Vec<Page> {
    Vec::new()
}

/// The foot.
pub fn foot(_page: &mut Page, _told: &str, _number: [usize; 2]) {}
