//! One sentence on this tube and this tooling: the first thing in the way.

use crate::checks::Marked;
use crate::checks::{REGISTRY, SAME_MM, Subject};
use crate::{End, Finding, Severity, Verdict};

/// The verdict on findings in their total order.
pub(crate) fn of(subject: &Subject, findings: &[Finding]) -> Verdict {
    let Some(first) = first_in_the_way(subject, findings) else {
        let bent = subject.solved.bends.iter().any(|bend| bend.is_bent());
        let text = if bent { "Bends as drawn." } else { "A straight tube: there is nothing to bend." };
        return Verdict { severity: None, text: text.into() };
    };
    let text = match first.severity {
        Severity::Note if findings.iter().any(Finding::is_stock) => {
            trimmed(subject).unwrap_or_else(|| first.verdict.clone())
        }
        _ => first.verdict.clone(),
    };
    Verdict { severity: Some(first.severity), text }
}

/// Among the worst findings the one that lies at the first bend, in the order in which checks are listed:
/// the registry names what makes others meaningless before them.
fn first_in_the_way<'a>(subject: &Subject, findings: &'a [Finding]) -> Option<&'a Finding> {
    let worst = findings.first()?.severity;
    let turn = |bend: usize| match subject.from() {
        End::Start => bend,
        End::Finish => subject.solved.bends.len() - 1 - bend,
    };
    let rank = |finding: &Finding| REGISTRY.iter().position(|check| check.fault == finding.fault);
    findings
        .iter()
        .take_while(|finding| finding.severity == worst)
        .min_by_key(|finding| (finding.place.bend.map_or(usize::MAX, turn), rank(finding)))
}

/// What is to be trimmed, if anything is.
fn trimmed(subject: &Subject) -> Option<String> {
    let solved = subject.solved;
    let [start_basis, finish_basis] = solved.trim_bases;
    let ends = solved.from.first_before([
        (solved.lead_trim_mm, start_basis, subject.end(End::Start)),
        (solved.tail_trim_mm, finish_basis, subject.end(End::Finish)),
    ]);
    let trims: Vec<_> = ends
        .iter()
        .filter(|(trim_mm, ..)| *trim_mm > SAME_MM)
        .map(|(trim_mm, basis, end)| {
            let trim = subject.length(*trim_mm);
            (basis.map_or(trim, |ground| trim.resting_on(ground)), *end)
        })
        .collect();
    match trims.as_slice() {
        [] => None,
        [(trim, end)] => Some(format!("Bends as drawn, with {trim} of extra stock to trim at the {end}.")),
        [(first, lead), (second, tail), ..] => Some(format!(
            "Bends as drawn, with {first} of extra stock to trim at the {lead} and {second} at the {tail}."
        )),
    }
}
