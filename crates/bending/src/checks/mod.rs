//! The checks, one file each, and the one list of them.
//!
//! A check tells typed evidence and no words; text, verdict and cures are worked out when somebody reads them.

mod check;
mod cure;
mod cures;
mod ends;
mod finding;
mod name;
mod naming;
mod nearby;
mod subject;
mod told;
mod words;

use std::ops::Deref;

pub use check::{About, Drawing};
pub use cure::{Cure, Cures};
pub use finding::{Facts, Fault, Place, Severity, Unit};
pub use subject::Subject;
pub use told::{Told, ToldCure};
pub use words::Words;

pub(crate) use check::Said;
pub(crate) use name::TubeEnd;
pub(crate) use words::Marked;

/// One check: its name, its manual page and what it does.
pub struct Check {
    /// Its name, such as `clamp-across-arc`.
    pub fault: Fault,
    /// What it is called in what people read, such as `Clamp over an arc`.
    pub title: &'static str,
    /// How grave its findings are, and what that depends on: whole sentences.
    pub severity: &'static str,
    /// One line that says what it looks for.
    pub summary: &'static str,
    /// The manual page, plain text: what it looks for, why it matters, how it is measured, limit and
    /// source, example, cure and its risk.
    pub manual: &'static str,
    /// What its findings are about, for those who have to tell some from others.
    pub about: About,
    /// The drawing that explains them.
    pub drawing: Drawing,
    /// Adds what it finds.
    pub run: fn(&Subject, &mut Vec<Finding>),
}

/// Makes of one list the modules, the registry, and the evidence of which a finding holds one kind.
macro_rules! checks {
    ($($file:ident => $Kind:ident,)+) => {
        $(mod $file;)+

        /// Every check, in the order of the manual: what makes others meaningless comes before them. Among
        /// findings at one bend the verdict goes to the first.
        pub static REGISTRY: &[Check] = &[$(Check {
            fault: $file::CHECK.fault,
            title: $file::CHECK.title,
            severity: $file::CHECK.severity,
            summary: $file::CHECK.summary,
            manual: $file::CHECK.manual,
            about: $file::CHECK.about,
            drawing: $file::CHECK.drawing,
            run: |subject, findings| {
                ($file::CHECK.run)(subject, &mut |facts, evidence| {
                    keep(findings, Finding { facts, evidence: Evidence::$Kind(evidence) });
                });
            },
        },)+];

        /// What a check has found, as it speaks of it.
        #[derive(Clone, Debug, PartialEq)]
        enum Evidence {
            $($Kind($file::Evidence),)+
        }

        /// The checks in the order of the registry.
        enum Rank {
            $($Kind,)+
        }

        impl Evidence {
            /// The place of its check in the registry.
            const fn rank(&self) -> usize {
                match self {
                    $(Self::$Kind(_) => Rank::$Kind as usize,)+
                }
            }

            fn said(&self) -> &dyn Said {
                match self {
                    $(Self::$Kind(evidence) => evidence,)+
                }
            }
        }
    };
}

checks! {
    path_undefined => PathUndefined,
    arcs_overlap => ArcsOverlap,
    tube_meets_itself => TubeMeetsItself,
    no_die_for_radius => NoDieForRadius,
    angle_beyond_machine => AngleBeyondMachine,
    straight_too_short => StraightTooShort,
    clamp_across_arc => ClampAcrossArc,
    grip_too_short => GripTooShort,
    springback_takes_straight => SpringbackTakesStraight,
    legs_apart => LegsApart,
    stretch_beyond_material => StretchBeyondMaterial,
    wall_too_thin => WallTooThin,
    clamp_not_in_shop => ClampNotInShop,
    lead_too_short_to_clamp => LeadTooShortToClamp,
    tail_too_short_to_hold => TailTooShortToHold,
    end_not_square => EndNotSquare,
    blank_too_long => BlankTooLong,
    seam_in_the_stretch => SeamInTheStretch,
    not_measured => NotMeasured,
    hits => Hits,
    too_close => TooClose,
    ground_too_near => GroundTooNear,
}

/// From so many findings on, room is made for a sixteenth more at a time: to double it again and again would leave as
/// much room empty as a flood of findings takes.
const FLOOD: usize = 4096;

/// Adds a finding.
fn keep(findings: &mut Vec<Finding>, finding: Finding) {
    if findings.len() == findings.capacity() && findings.len() >= FLOOD {
        findings.reserve_exact(findings.len() / 64);
    }
    findings.push(finding);
}

/// The check of that name or title.
pub fn named(fault: &str) -> Option<&'static Check> {
    REGISTRY.iter().find(|check| check.fault == fault || check.title.eq_ignore_ascii_case(fault))
}

/// One thing a check has found, as plain values. It is put into words when it is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    facts: Facts,
    evidence: Evidence,
}

impl Deref for Finding {
    type Target = Facts;

    fn deref(&self) -> &Facts {
        &self.facts
    }
}

impl Finding {
    /// What was found, without what helps: the part of its text that a person needs who can change nothing any more.
    pub fn found(&self, words: &Words) -> String {
        self.evidence.said().text(&self.facts, words)
    }

    /// What would cure it, best first. It is worked out anew each time that it is asked for, and takes about as long as to
    /// find the fault.
    pub fn cures(&self, words: &Words) -> Cures {
        let subject = words.subject();
        // Of another part there is nothing to be said.
        let is_there = self.place.bend.is_none_or(|bend| bend < subject.solved.bends.len());
        let cures = if is_there { self.evidence.said().cures(&self.facts, &subject) } else { None };
        cures.unwrap_or(Cures::NONE)
    }

    /// What the verdict says if this is the first thing in the way, completing nothing: a full sentence.
    pub fn verdict(&self, words: &Words) -> String {
        self.evidence.said().verdict(&self.facts, words)
    }

    /// All of it in words, with these cures of it.
    pub(crate) fn told(&self, words: &Words, cures: Vec<ToldCure>, cured_with: Option<usize>) -> Told {
        let mut text = self.found(words);
        words::with_cures(&mut text, cures.iter().map(|cure| cure.label.clone()));
        Told { title: self.title(), facts: self.facts.clone(), text, verdict: self.verdict(words), cures, cured_with }
    }

    /// The same with another figure measured.
    #[cfg(test)]
    pub(crate) fn measuring(mut self, measured: f64) -> Self {
        self.facts.measured = measured;
        self
    }

    /// The place of its check in the registry.
    pub(crate) const fn rank(&self) -> usize {
        self.evidence.rank()
    }

    /// What it is called wherever it is told in a line: its check, and the bend that it speaks of, counted from 1.
    pub fn called(&self) -> String {
        match self.place.bend {
            Some(bend) => format!("{}, bend {}", self.title(), bend + 1),
            None => self.title().to_owned(),
        }
    }

    /// What its check is called in what people read.
    pub fn title(&self) -> &'static str {
        REGISTRY[self.rank()].title
    }

    /// The drawing that explains it.
    pub fn drawing(&self) -> Drawing {
        REGISTRY[self.rank()].drawing
    }

    fn about(&self) -> About {
        REGISTRY[self.rank()].about
    }

    /// Whether the drawing makes no tube there, so that there is nothing to plan.
    pub fn makes_no_tube(&self) -> bool {
        self.about() == About::Drawing
    }

    /// Whether the straight ahead of a bend is too short for its clamp.
    pub fn lacks_straight(&self) -> bool {
        self.about() == About::Straight
    }

    /// Whether it speaks of how a clamp lies on the tube: on too short a straight, or over an arc.
    pub fn is_of_clamp(&self) -> bool {
        matches!(self.about(), About::Straight | About::Bite)
    }

    /// Whether it says that too short a stretch is gripped.
    pub fn is_of_grip(&self) -> bool {
        self.about() == About::Grip
    }

    /// Whether it is about what stands around the tube, and not about how the tube is made.
    pub fn is_of_surroundings(&self) -> bool {
        self.about() == About::Around
    }

    /// Whether it asks for no more than extra stock at an end, cut off after bending.
    pub fn is_stock(&self) -> bool {
        self.about() == About::Stock
    }
}
