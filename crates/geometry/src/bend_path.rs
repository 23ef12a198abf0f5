//! The bend form of a centreline: straight, rotation, angle and radius of each bend, from a start frame.

use crate::refusal::{guard_bends, guard_mm};
use crate::units::format_any;
use crate::{Angle, Frame, LARGEST_MM, LARGEST_ROTATION, Length, Refusal};

/// One bend with the straight before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendRow {
    /// The straight before the bend, tangent point to tangent point. Negative where two arcs overlap.
    pub straight: Length,
    /// Rotation of the tube since the last bend plane, positive clockwise along the direction of travel
    /// (G02, G04). Zero for the first bend: the start frame carries its plane.
    pub rotation: Angle,
    /// Bend angle; 0 is no bend.
    pub angle: Angle,
    /// Centreline radius.
    pub clr: Length,
}

impl BendRow {
    /// Tangent length T = R tan(θ/2), mm (G06): from the arc's start to the vertex. It grows without
    /// bound towards half a turn and is negative beyond, where the straights do not meet ahead.
    pub fn tangent_mm(&self) -> f64 {
        self.clr.mm() * (self.angle.radians() / 2.0).tan()
    }

    /// Length of the arc R θ, mm (G06).
    pub fn arc_mm(&self) -> f64 {
        self.clr.mm() * self.angle.radians()
    }
}

/// A centreline as bend rows, with the frame it starts from and the straight after the last bend.
#[derive(Clone, Debug, PartialEq)]
pub struct BendPath {
    start: Frame,
    rows: Vec<BendRow>,
    tail: Length,
}

impl BendPath {
    /// The largest bend angle that is accepted: a little less than a full turn.
    pub const LARGEST_ANGLE: Angle = Angle::from_degrees(359.0);

    /// Takes a start frame, the bends in order and the straight after the last one.
    ///
    /// A rotation on the first row is folded into the start frame, and every other one is brought into
    /// (-180°, 180°], so that equal parts compare equal. Angles are taken to the nearest one that degrees
    /// can hold ([`Angle::storable`]). What comes out goes in again without a change of a single bit.
    ///
    /// # Errors
    /// Refuses numbers that are not finite, lengths beyond [`LARGEST_MM`], a negative radius, and angles
    /// outside 0° to [`BendPath::LARGEST_ANGLE`].
    pub fn new(start: Frame, rows: Vec<BendRow>, tail: Length) -> Result<Self, Refusal> {
        guard_bends(rows.len())?;
        let start = Frame::along(start.origin, start.tangent, start.normal).ok_or_else(|| {
            Refusal::new(
                "the start direction",
                {
                    let [x, y, z] = [start.tangent.x, start.tangent.y, start.tangent.z].map(format_any);
                    format!("({x}, {y}, {z})")
                },
                "a finite vector that is not zero",
            )
        })?;
        let path = Self { start, rows, tail };
        path.check()?;
        let (mut start, mut rows) = (path.start, path.rows);
        for (index, row) in rows.iter_mut().enumerate() {
            if index == 0 {
                start = start.rolled(row.rotation.radians());
                row.rotation = Angle::ZERO;
            } else {
                row.rotation = row.rotation.within_half_turn();
            }
        }
        Ok(Self::trusted(start, rows, tail))
    }

    /// Whether every number is one that [`Self::new`] takes, as it may not be where the path came out of another.
    ///
    /// # Errors
    /// Those of [`Self::new`] about a number.
    pub fn check(&self) -> Result<(), Refusal> {
        for value_mm in self.start.origin.iter() {
            guard_mm(|| "the start point".into(), *value_mm, -LARGEST_MM, LARGEST_MM)?;
        }
        for (index, row) in self.rows.iter().enumerate() {
            let number = index + 1;
            guard_mm(|| format!("the straight before bend {number}"), row.straight.mm(), -LARGEST_MM, LARGEST_MM)?;
            guard_mm(|| format!("the centreline radius of bend {number}"), row.clr.mm(), 0.0, LARGEST_MM)?;
            if !(row.rotation.is_finite() && row.rotation.abs() <= LARGEST_ROTATION) {
                return Err(Refusal::new(
                    format!("the rotation of bend {number}"),
                    format!("{}°", format_any(row.rotation.degrees())),
                    "from -3600° to 3600°",
                ));
            }
            if !(row.angle.is_finite() && row.angle >= Angle::ZERO && row.angle <= Self::LARGEST_ANGLE) {
                let was = format!("{}°", format_any(row.angle.degrees()));
                return Err(Refusal::new(format!("the angle of bend {number}"), was, "from 0° to 359°"));
            }
        }
        guard_mm(|| "the straight after the last bend".into(), self.tail.mm(), -LARGEST_MM, LARGEST_MM)
    }

    /// A path that is known to be sound, from the conversion of another.
    pub(crate) fn trusted(start: Frame, mut rows: Vec<BendRow>, tail: Length) -> Self {
        for row in &mut rows {
            row.rotation = row.rotation.storable();
            row.angle = row.angle.storable();
        }
        Self { start, rows, tail }
    }

    /// The frame at the lead end; its normal is the side to which the first bend turns.
    pub fn start(&self) -> &Frame {
        &self.start
    }

    /// The bends, from the lead end to the tail.
    pub fn rows(&self) -> &[BendRow] {
        &self.rows
    }

    /// The straight after the last bend.
    pub fn tail(&self) -> Length {
        self.tail
    }
}
