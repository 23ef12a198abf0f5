//! What every check is made of: its name, its manual page, what it does, and how it speaks.

use super::cure::Cures;
use super::finding::{Facts, Fault};
use super::subject::Subject;
use super::words::Words;

/// What the findings of a check are about. Nobody outside asks for a check by its name: what others need to tell
/// apart is a question of a finding, answered from here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// The drawing, which makes no tube.
    Drawing,
    /// The straight on which a clamp has to close.
    Straight,
    /// The bite of a clamp that reaches over an arc.
    Bite,
    /// How long a stretch a clamp grips.
    Grip,
    /// Extra stock at an end, cut off after bending.
    Stock,
    /// What stands around the tube.
    Around,
    /// Anything else.
    Rest,
}

/// The drawing that explains what a check finds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawing {
    /// The clamp on the tube.
    Clamp,
    /// Two neighbouring vertices with the leg between them and what each bend takes of it.
    Leg,
    /// The tube in section, at the bend: its wall on the outside and on the inside.
    Section,
    /// Where the weld seam lies round the tube.
    Seam,
    /// The radius as drawn beside those of the die sets.
    Radii,
    /// An angle and the largest one there is.
    Angle,
    /// Two stretches of tube in section, as far apart as they are.
    Meeting,
    /// The tube in section beside something else, as far from it as it is.
    Gap,
    /// The vertices that make no tube.
    Vertices,
    /// None: nothing was measured that could be drawn.
    Nothing,
    /// Two lengths beside each other: what is measured, and what it may be, by their names.
    Lengths(&'static str, &'static str),
}

/// One check that finds evidence of its own kind.
pub(crate) struct Check<Evidence> {
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
    /// Tells what it finds. No words: they are written when they are read.
    pub run: fn(&Subject, Tell<Evidence>),
}

/// Where a check puts what it finds.
pub(crate) type Tell<'a, Evidence> = &'a mut dyn FnMut(Facts, Evidence);

/// Evidence that can be put into words.
pub(crate) trait Said {
    /// One plain sentence or two: what, by how much, where. What helps is added from the cures.
    fn text(&self, facts: &Facts, words: &Words) -> String;

    /// What the verdict says if this is the first thing in the way, completing nothing: a full sentence.
    fn verdict(&self, facts: &Facts, words: &Words) -> String;

    /// What would cure it, worked out when somebody asks: to try what helps takes longer than to find what does not. `None`
    /// where nothing is known to.
    fn cures(&self, _: &Facts, _: &Subject) -> Option<Cures> {
        None
    }
}
