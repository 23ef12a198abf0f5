//! Cures: small values that are written and made into edits when somebody asks for them.

use std::borrow::Cow;
use std::ops::Deref;

use elbowroom_geometry::{Angle, Length};

use super::name::{Ahead, DieNumber, TubeEnd};
use super::words::{Marked, Words, degrees};
use crate::{Basis, Edit, End, NodeId, Path};

/// A cure that can be applied.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cure(Remedy);

/// What a cure does, with the figures that its words need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Remedy {
    /// Makes the straight ahead of a bend longer.
    Lengthen { straight: NodeId, ahead: Ahead, to_mm: f64, by_mm: f64 },
    /// Makes the leg at an end longer.
    LengthenLeg { straight: NodeId, end: TubeEnd, to_mm: f64 },
    /// Takes another clamp.
    TakeClamp { length: Length, proved: Angle, basis: Basis, costs: ClampCosts },
    /// Takes the longest clamp of each die set.
    LongestClamps,
    /// Gives a bend the radius of a die set.
    SetClr { bend: NodeId, die: DieNumber, clr: Length, keeps_vertices: bool },
    /// Gives every bend one radius.
    SetEveryClr { clr: Length },
    /// Leaves the choice of the die set to the shop, which takes this one.
    LeaveDie { die: DieNumber },
    /// Makes a bend turn less.
    SetAngle { bend: NodeId, angle: Angle },
    /// Puts extra stock on an end.
    AddStock { end: TubeEnd, stock_mm: f64 },
    /// Takes extra stock off an end.
    TakeStock { end: TubeEnd, saves_mm: f64 },
    /// Takes a vertex out.
    RemoveVertex { vertex: NodeId, number: u32, closes_up: bool },
    /// Leaves the seam where it is stretched least.
    LeaveSeam { start: Angle, bend: u32 },
}

/// What another clamp costs or risks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum ClampCosts {
    /// It holds every bend, and that is all there is to say.
    Every,
    /// A shorter grip.
    Grip,
    /// A shorter grip, and a bend of so many radians is more than it has proved.
    Unproved(f64),
    /// Longer straights.
    Straights,
}

impl Cure {
    /// What the button says, such as `Lengthen the straight to 120.0 mm`.
    pub fn label(&self, words: &Words) -> String {
        match self.0 {
            Remedy::Lengthen { to_mm, .. } => format!("Lengthen the straight to {}", words.length(to_mm)),
            Remedy::LengthenLeg { end, to_mm, .. } => format!("Lengthen {} to {}", end.leg(), words.length(to_mm)),
            Remedy::TakeClamp { length, proved, basis, .. } => format!(
                "Take the {} clamp (proved to {})",
                words.length(length.mm()),
                degrees(proved.radians()).resting_on(basis)
            ),
            Remedy::LongestClamps => "Take the longest clamp of each die set".into(),
            Remedy::SetClr { die, clr, .. } => format!("Set CLR to {} ({})", words.length(clr.mm()), words.die(die)),
            Remedy::SetEveryClr { clr } => format!("Bend everything at CLR {}", words.length(clr.mm())),
            Remedy::LeaveDie { die } => format!("Take the die set that fits ({})", words.die(die)),
            Remedy::SetAngle { angle, .. } => format!("Set the angle to {}", degrees(angle.radians())),
            Remedy::AddStock { end, stock_mm } => {
                format!("Put {} of extra stock on the {}", words.length(stock_mm), end.name())
            }
            Remedy::TakeStock { end, .. } => format!("Take the extra stock off the {}", end.name()),
            Remedy::RemoveVertex { number, .. } => format!("Remove vertex {number}"),
            Remedy::LeaveSeam { start, bend } => {
                format!("Leave the seam to the best start position, {} at bend {bend}", degrees(start.radians()))
            }
        }
    }

    /// What it costs or risks, in a short sentence; empty where nothing.
    pub fn risk(&self, words: &Words) -> Cow<'static, str> {
        let said = match self.0 {
            Remedy::Lengthen { ahead, by_mm, .. } => {
                let part = words.part;
                if !part.keep.held().is_empty() {
                    return "What is held stays, and what is free gives way.".into();
                }
                return match (&part.path, part.keep.side) {
                    (Path::Vertices(_), _) => {
                        "A vertex moves along it, all others stay, and the straight on its other side changes.".into()
                    }
                    (Path::Bends(_), End::Finish) => {
                        format!("Everything towards the start moves along by {}.", words.length(by_mm)).into()
                    }
                    (Path::Bends(_), End::Start) => {
                        format!("Everything {} moves along by {}.", ahead.beyond(), words.length(by_mm)).into()
                    }
                };
            }
            Remedy::TakeClamp { costs: ClampCosts::Unproved(angle_rad), .. } => {
                let angle = degrees(angle_rad);
                return format!("One clamp then serves the whole part, but it has not yet proved to hold the bend of {angle}: try that on scrap.")
                    .into();
            }
            Remedy::TakeStock { saves_mm, .. } => return format!("Saves {}.", words.length(saves_mm)).into(),
            Remedy::LengthenLeg { end, .. } => end.moves_out(),
            Remedy::TakeClamp { costs: ClampCosts::Every, .. } => "One clamp then serves the whole part.",
            Remedy::TakeClamp { costs: ClampCosts::Grip, .. } => {
                "One clamp then serves the whole part; a shorter one leaves less in hand against slip."
            }
            Remedy::TakeClamp { costs: ClampCosts::Straights, .. } => {
                "One clamp then serves the whole part, and needs longer straights there."
            }
            Remedy::LongestClamps => "A longer clamp needs longer straights.",
            Remedy::SetClr { keeps_vertices: true, .. } => {
                "The vertices stay and the straights beside the bend change."
            }
            Remedy::SetClr { keeps_vertices: false, .. } => "The straights stay and everything beyond moves.",
            Remedy::SetEveryClr { .. } => "Straights or positions change with the radii.",
            Remedy::LeaveDie { .. } => "Every bend then takes the die set that fits it.",
            Remedy::SetAngle { .. } => "Everything beyond turns along: the part becomes another.",
            Remedy::AddStock { .. } => "A longer blank, and a cut after bending.",
            Remedy::RemoveVertex { closes_up: true, .. } => "The path then goes straight between its neighbours.",
            Remedy::RemoveVertex { closes_up: false, .. } => "",
            Remedy::LeaveSeam { .. } => "The tube must be put into the chuck with its seam there.",
        };
        said.into()
    }

    /// The edit that does it.
    pub fn edit(&self) -> Edit {
        match self.0 {
            Remedy::Lengthen { straight, to_mm, .. } | Remedy::LengthenLeg { straight, to_mm, .. } => {
                Edit::SetStraight(straight, Length::from_mm(to_mm))
            }
            Remedy::TakeClamp { length, .. } => Edit::ChooseClamp(Some(length)),
            Remedy::LongestClamps => Edit::ChooseClamp(None),
            Remedy::SetClr { bend, clr, .. } => Edit::SetClr(bend, clr),
            Remedy::SetEveryClr { clr } => Edit::SetEveryClr(clr),
            Remedy::LeaveDie { .. } => Edit::ChooseDie(None),
            Remedy::SetAngle { bend, angle } => Edit::SetAngle(bend, angle),
            Remedy::AddStock { end, stock_mm } => Edit::SetStock(end.end, Length::from_mm(stock_mm)),
            Remedy::TakeStock { end, .. } => Edit::SetStock(end.end, Length::ZERO),
            Remedy::RemoveVertex { vertex, .. } => Edit::RemoveVertices(vec![vertex]),
            Remedy::LeaveSeam { .. } => Edit::PinSeam(None),
        }
    }
}

impl From<Remedy> for Cure {
    fn from(remedy: Remedy) -> Self {
        Self(remedy)
    }
}

/// The cures of a finding, best first: none, one or two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cures {
    /// Beyond `count` they mean nothing.
    list: [Cure; 2],
    count: usize,
}

impl Cures {
    /// No cure.
    pub const NONE: Self = Self { list: [Cure(Remedy::LongestClamps); 2], count: 0 };

    /// The same with one more cure, if there is one. A third one would be one too many to choose from, and is not kept.
    pub(crate) fn and(mut self, remedy: Option<Remedy>) -> Self {
        if let (Some(remedy), Some(place)) = (remedy, self.list.get_mut(self.count)) {
            *place = remedy.into();
            self.count += 1;
        }
        self
    }
}

impl From<Remedy> for Cures {
    fn from(remedy: Remedy) -> Self {
        Self::NONE.and(Some(remedy))
    }
}

impl Deref for Cures {
    type Target = [Cure];

    fn deref(&self) -> &[Cure] {
        &self.list[..self.count]
    }
}

impl<'a> IntoIterator for &'a Cures {
    type Item = &'a Cure;
    type IntoIter = std::slice::Iter<'a, Cure>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}
