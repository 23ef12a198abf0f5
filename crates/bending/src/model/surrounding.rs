//! What a tube has to keep clear of, by its kind, and how far.

use elbowroom_geometry::{LARGEST_MM, Length, Refusal};

use super::ground::Ground;

/// What stands around a tube.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum ObstacleKind {
    /// Body, floor or chassis.
    #[default]
    Body,
    /// Wiring, hoses, rubber.
    Wiring,
    /// A fuel or brake line, or anything else that must not burn.
    FuelLine,
    /// A part that moves, by how far it comes nearer than it is drawn.
    Moving {
        /// Its travel towards the tube, from where it is drawn.
        travel: Length,
    },
    /// The ground, beneath an unladen car.
    Ground,
}

/// How far a tube has to keep clear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// The clearance of the tube's outside, mm.
    pub clearance_mm: f64,
    /// What it rests on; `None` where it follows from geometry.
    pub basis: Option<Ground>,
    /// A smaller clearance that is no matter of taste, mm, and what it rests on.
    pub must: Option<(f64, Ground)>,
}

/// T07, the larger figure where it gives two. Common practice, no source.
const BODY_MM: f64 = 25.0;
const WIRING_MM: f64 = 100.0;
const FUEL_LINE_MM: f64 = 100.0;
const BESIDE_TRAVEL_MM: f64 = 25.0;

/// T05: Maryland COMAR 11.22.02.11 rejects an exhaust less than 1 1/2 inches from fuel system, brake system or
/// unshielded combustible.
const FUEL_LINE_MUST_MM: f64 = 38.1;

/// T09: the running clearance of the Australian ADR 43/04, clause 6.6, unladen.
const GROUND_MM: f64 = 100.0;

impl ObstacleKind {
    /// The word for scripts.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Body => "body",
            Self::Wiring => "wiring",
            Self::FuelLine => "fuel_line",
            Self::Moving { .. } => "moving",
            Self::Ground => "ground",
        }
    }

    /// What a person is told.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Body => "body",
            Self::Wiring => "wiring or rubber",
            Self::FuelLine => "fuel or brake line",
            Self::Moving { .. } => "moving part",
            Self::Ground => "ground",
        }
    }

    /// How far a tube keeps clear of it until somebody says otherwise.
    pub fn usual(self) -> Wanted {
        let common = |clearance_mm| Wanted { clearance_mm, basis: Some(Ground::CommonPractice), must: None };
        match self {
            Self::Body => common(BODY_MM),
            Self::Wiring => common(WIRING_MM),
            Self::FuelLine => Wanted { must: Some((FUEL_LINE_MUST_MM, Ground::Published)), ..common(FUEL_LINE_MM) },
            Self::Moving { travel } => common(BESIDE_TRAVEL_MM + travel.mm()),
            Self::Ground => Wanted { clearance_mm: GROUND_MM, basis: Some(Ground::Published), must: None },
        }
    }

    /// The same, or what somebody has laid down for it.
    pub fn wanted(self, own: Option<Length>) -> Wanted {
        own.map_or_else(|| self.usual(), Wanted::own)
    }
}

impl Wanted {
    /// A clearance that somebody has laid down.
    pub fn own(clearance: Length) -> Self {
        Self { clearance_mm: clearance.mm(), basis: Some(Ground::Shop), must: None }
    }

    /// Nothing but not to touch.
    pub const fn apart() -> Self {
        Self { clearance_mm: 0.0, basis: None, must: None }
    }
}

/// Passes a clearance or a travel that can be: from nothing up to what coordinates reach.
///
/// # Errors
/// Says what it may be.
pub fn guard_clearance(field: &str, length: Length) -> Result<Length, Refusal> {
    let most = Length::from_mm(LARGEST_MM);
    if length.is_finite() && length >= Length::ZERO && length <= most {
        return Ok(length);
    }
    Err(Refusal::out_of(field, length, Length::ZERO, most))
}
