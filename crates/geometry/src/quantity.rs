//! Lengths and angles as types, so that a millimetre is never taken for a radian.

use std::f64::consts::{PI, TAU};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A length, held in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

/// An angle, held in radians.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle(f64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0.0);

    /// A length of so many millimetres.
    pub const fn from_mm(mm: f64) -> Self {
        Self(mm)
    }

    /// The length in millimetres.
    pub const fn mm(self) -> f64 {
        self.0
    }
}

impl Angle {
    /// No angle at all.
    pub const ZERO: Self = Self(0.0);
    /// Half a turn, 180°.
    pub const HALF_TURN: Self = Self(PI);

    /// An angle of so many radians.
    pub const fn from_radians(radians: f64) -> Self {
        Self(radians)
    }

    /// An angle of so many degrees.
    pub const fn from_degrees(degrees: f64) -> Self {
        Self(degrees.to_radians())
    }

    /// The angle in radians.
    pub const fn radians(self) -> f64 {
        self.0
    }

    /// The angle in degrees.
    pub const fn degrees(self) -> f64 {
        self.0.to_degrees()
    }

    /// The degrees that [`Angle::from_degrees`] turns into this very angle, to the bit, where there are
    /// such degrees; else the nearest.
    ///
    /// The scale of degrees lies so that some stretches hold fewer `f64` numbers of degrees than of
    /// radians, so not every angle has one. [`Angle::storable`] gives the nearest that has, and the angles of a
    /// [`BendPath`](crate::BendPath) are all of that kind, so files in degrees lose nothing.
    pub const fn degrees_exact(self) -> f64 {
        let near = self.degrees();
        if Self::from_degrees(near).0 == self.0 {
            near
        } else if Self::from_degrees(near.next_up()).0 == self.0 {
            near.next_up()
        } else if Self::from_degrees(near.next_down()).0 == self.0 {
            near.next_down()
        } else {
            near
        }
    }

    /// The nearest angle that a number of degrees gives to the bit: this one or one next to it, at most
    /// two units in the last place away.
    pub const fn storable(self) -> Self {
        Self::from_degrees(self.degrees_exact())
    }

    /// The same angle brought into (-180°, 180°].
    #[must_use]
    pub fn within_half_turn(self) -> Self {
        if self.0 > -PI && self.0 <= PI {
            return self;
        }
        let within = self.0 - TAU * (self.0 / TAU).round();
        Self(if within <= -PI { within + TAU } else { within })
    }
}

macro_rules! arithmetic {
    ($quantity:ident) => {
        impl $quantity {
            /// The value without its sign.
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }

            /// The larger of the two.
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The smaller of the two.
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// Whether the value is neither NaN nor infinite.
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }
        impl Add for $quantity {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl AddAssign for $quantity {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }
        impl Sub for $quantity {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl SubAssign for $quantity {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }
        impl Neg for $quantity {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl Mul<f64> for $quantity {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl Div<f64> for $quantity {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl Div for $quantity {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl Sum for $quantity {
            fn sum<I: Iterator<Item = Self>>(values: I) -> Self {
                values.fold(Self(0.0), Add::add)
            }
        }
    };
}

arithmetic!(Length);
arithmetic!(Angle);
