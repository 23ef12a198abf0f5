//! One sentence on this tube and this tooling: the first thing in the way. It is written when it is read.

use super::solved::Solved;
use crate::checks::{Marked, TubeEnd};
use crate::forming::ground::Ground;
use crate::model::nearly::SAME_MM;
use crate::{End, Finding, Severity, Words};

/// The verdict: one sentence on this tube and this tooling.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The worst severity found; `None` where nothing was.
    pub severity: Option<Severity>,
    /// The sentence.
    pub text: String,
}

impl Solved {
    /// The verdict in one sentence.
    pub fn verdict(&self, words: &Words) -> Verdict {
        let Some(first) = self.findings.first() else {
            let bent = self.bends.iter().any(|bend| bend.is_bent());
            let text = if bent { "Bends as drawn." } else { "A straight tube: there is nothing to bend." };
            return Verdict { severity: None, text: text.into() };
        };
        let trimmed = match first.severity {
            Severity::Note if self.findings.iter().any(Finding::is_stock) => self.trimmed(words),
            _ => None,
        };
        Verdict { severity: Some(first.severity), text: trimmed.unwrap_or_else(|| first.verdict(words)) }
    }

    /// The number of what the verdict speaks of, which then stands first: among the worst findings the one that lies at the bend that is made first. At one bend it is the one whose check
    /// is listed first: the registry names what makes others meaningless before them. Names of checks count for nothing.
    pub(super) fn first_in_the_way(&self) -> Option<usize> {
        let worst = self.worst()?;
        let turn = |bend: usize| match self.from {
            End::Start => bend,
            End::Finish => self.bends.len().saturating_sub(bend + 1),
        };
        self.findings
            .iter()
            .enumerate()
            .take_while(|(_, finding)| finding.severity == worst)
            .min_by_key(|(_, finding)| (finding.place.bend.map_or(usize::MAX, turn), finding.rank()))
            .map(|(index, _)| index)
    }

    /// What is to be trimmed, if anything is.
    fn trimmed(&self, words: &Words) -> Option<String> {
        let ([lead_mm, tail_mm], [lead_basis, tail_basis]) = (self.trims_in_order_mm(), self.trim_bases_in_order());
        let [lead, tail] = self.from.first_before([End::Start, End::Finish]);
        let trim = |trim_mm: f64, basis: Option<Ground>, end: End| {
            let name = TubeEnd { from: self.from, end }.name();
            (trim_mm > SAME_MM).then(|| (words.length(trim_mm).resting(basis), name))
        };
        match (trim(lead_mm, lead_basis, lead), trim(tail_mm, tail_basis, tail)) {
            (None, None) => None,
            (Some((trim, end)), None) | (None, Some((trim, end))) => {
                Some(format!("Bends as drawn, with {trim} of extra stock to trim at the {end}."))
            }
            (Some((first, lead)), Some((second, tail))) => Some(format!(
                "Bends as drawn, with {first} of extra stock to trim at the {lead} and {second} at the {tail}."
            )),
        }
    }
}
