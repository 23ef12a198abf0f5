//! The edges between straights and arcs, and what dragging one does.
//!
//! An arc's start edge changes the straight before it, its end edge the bend angle; the end of the tail
//! changes the last straight. What is shown while dragging is a preview; release makes it one step.

use elbowroom_bending::{Edit, NodeId};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length};
use elbowroom_geometry::{Angle, Length};

use super::model::Model;

/// An edge that can be dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edge {
    /// The end of a straight: the start of the arc after it, or the end of the tail.
    Straight(usize),
    /// The end of a bend's arc.
    Arc(usize),
}

/// An edge that is being dragged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drag {
    /// Which edge.
    pub edge: Edge,
    /// The straight or bend that it sets.
    id: NodeId,
    /// What it had when the drag began: mm of straight, or radians of bend.
    pub began: f64,
    /// The radius by which an arc's length becomes an angle, mm.
    clr_mm: f64,
    /// The value last previewed.
    pub value: f64,
    /// Whether it has been dropped by escape and only waits for the button.
    pub dropped: bool,
}

/// The smallest angle that a drag makes, so that a bend is never dragged away.
const LEAST_DEGREES: f64 = 0.1;
/// The largest angle that a drag makes; larger ones can be typed.
const MOST_DEGREES: f64 = 200.0;

impl Edge {
    /// Every edge with its place, mm, along the tube.
    pub fn all(model: &Model) -> impl Iterator<Item = (Self, f64)> {
        model.pieces.iter().enumerate().filter_map(|(index, piece)| {
            let edge = match piece.arc {
                None => Self::Straight(index / 2),
                // An arc without radius has no length to drag.
                Some((_, clr_mm)) if clr_mm > 0.0 => Self::Arc(index / 2),
                Some(_) => return None,
            };
            Some((edge, piece.to_mm()))
        })
    }

    /// What it is called.
    pub fn label(self, model: &Model) -> String {
        match self {
            Self::Straight(index) if model.arc(index).is_none() => "Finish of the tube".to_owned(),
            Self::Straight(index) => format!("Start of bend {}", index + 1),
            Self::Arc(bend) => format!("End of bend {}", bend + 1),
        }
    }

    /// What it sets now, as text.
    pub fn value_text(self, model: &Model) -> String {
        match self {
            Self::Straight(index) => {
                let straight_mm = model.straight(index).map_or(0.0, |piece| piece.length_mm);
                length_text(straight_mm, model.unit)
            }
            Self::Arc(bend) => {
                let angle = model.arc(bend).and_then(|piece| piece.arc).map_or(0.0, |(angle, _)| angle);
                format_angle(Angle::from_radians(angle), 1)
            }
        }
    }
}

impl Drag {
    /// Takes hold of an edge.
    pub fn begin(edge: Edge, model: &Model) -> Option<Self> {
        let (id, (began, clr_mm)) = match edge {
            Edge::Straight(index) => model.straight(index).map(|piece| (piece.id, (piece.length_mm, 0.0)))?,
            Edge::Arc(bend) => model.arc(bend).and_then(|piece| Some((piece.id, piece.arc?)))?,
        };
        Some(Self { edge, id, began, clr_mm, value: began, dropped: false })
    }

    /// The value after the pointer went `moved_mm` from where it took hold; round where `round` is set.
    pub fn value_at(&self, moved_mm: f64, unit: LengthUnit, round: bool) -> f64 {
        match self.edge {
            Edge::Straight(_) => {
                let step = round_length_mm(unit);
                let wanted_mm = self.began + moved_mm;
                let wanted_mm = if round { (wanted_mm / step).round() * step } else { wanted_mm };
                // Never pulled below nothing, nor deeper into an overlap than it was.
                wanted_mm.max(self.began.min(0.0))
            }
            Edge::Arc(_) => {
                let wanted = (self.began + moved_mm / self.clr_mm).to_degrees();
                let wanted = if round { wanted.round() } else { wanted };
                let most = MOST_DEGREES.max(self.began.to_degrees());
                wanted.clamp(LEAST_DEGREES, most).to_radians()
            }
        }
    }

    /// The edit that gives the edge a value.
    pub fn edit(&self, value: f64) -> Edit {
        match self.edge {
            Edge::Straight(_) => Edit::SetStraight(self.id, Length::from_mm(value)),
            Edge::Arc(_) => Edit::SetAngle(self.id, Angle::from_radians(value)),
        }
    }
}

/// The length to which a drag rounds: what a tape measure shows.
pub fn round_length_mm(unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Millimetre | LengthUnit::Centimetre | LengthUnit::Metre => 1.0,
        LengthUnit::Inch | LengthUnit::Foot => LengthUnit::Inch.in_mm() / 16.0,
    }
}

/// A length with its unit.
pub fn length_text(mm: f64, unit: LengthUnit) -> String {
    format_length(Length::from_mm(mm), unit, unit.decimals())
}
