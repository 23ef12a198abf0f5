//! The guard that figures pass before anything is worked out from them. A file, a field of the window and the command
//! line all go through it, so that behind it nobody has to ask again.

use std::fmt;
use std::ops::Deref;

use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, BendPath, Length, Refusal, Told};

/// Figures as a person or a file gives them, and the guard that they must pass.
pub trait Guard: Sized {
    /// Brings the figures into the form in which they are kept.
    ///
    /// # Errors
    /// Turns away figures that cannot be: says which, what it was and what it may be.
    fn guard(&mut self) -> Result<(), Refusal>;

    /// The figures behind their guard.
    ///
    /// # Errors
    /// Those of [`Self::guard`].
    fn sound(mut self) -> Result<Guarded<Self>, Refusal> {
        self.guard()?;
        Ok(Guarded(self))
    }
}

/// Figures that have passed their guard. They are read as they stand, and changed only through it.
#[derive(Clone, Copy, PartialEq)]
pub struct Guarded<T>(T);

impl<T> Guarded<T> {
    /// Figures that are known to be sound, written down in this crate.
    pub(super) const fn known(figures: T) -> Self {
        Self(figures)
    }

    /// The figures, no longer behind their guard.
    pub fn into_figures(self) -> T {
        self.0
    }
}

impl<T: Guard + Clone> Guarded<T> {
    /// The same with a change.
    ///
    /// # Errors
    /// Turns away a change after which the figures cannot be.
    pub fn with(&self, change: impl FnOnce(&mut T)) -> Result<Self, Refusal> {
        let mut figures = self.0.clone();
        change(&mut figures);
        figures.sound()
    }

    /// Makes a change.
    ///
    /// # Errors
    /// Turns away a change after which the figures cannot be; they stay as they were.
    pub fn change(&mut self, change: impl FnOnce(&mut T)) -> Result<(), Refusal> {
        *self = self.with(change)?;
        Ok(())
    }
}

impl<T> Deref for Guarded<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T: fmt::Debug> fmt::Debug for Guarded<T> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(out)
    }
}

impl<'a, T> IntoIterator for &'a Guarded<Vec<T>> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

/// The largest length of tooling and of what it holds: several times that of the largest benders. Common practice,
/// no source.
pub(crate) const LARGEST_TOOLING: Length = Length::from_mm(10_000.0);

/// The smallest length that anything on a bender has: far below what is cut, so that a slip of the pen is seen.
const SMALLEST: Length = Length::from_mm(0.01);

/// Passes a length of something that is there.
pub(crate) fn positive(field: impl FnOnce() -> String, value: Length, most: Length) -> Result<(), Refusal> {
    if value >= SMALLEST && value <= most {
        return Ok(());
    }
    let may_be = Told::from("from ").and_length(SMALLEST).and(" to ").and_length(most);
    Err(Refusal::new(field(), value, may_be))
}

/// Passes a length that may be nothing.
pub(crate) fn not_negative(field: impl FnOnce() -> String, value: Length, most: Length) -> Result<(), Refusal> {
    if value >= Length::ZERO && value <= most {
        return Ok(());
    }
    let may_be = Told::from("from ").and_length(Length::ZERO).and(" to ").and_length(most);
    Err(Refusal::new(field(), value, may_be))
}

/// The smallest angle to which anything bends.
const SMALLEST_ANGLE: Angle = Angle::from_degrees(0.01);

/// Passes an angle to which something bends, and takes it to the nearest one that a file holds.
pub(crate) fn bend_angle(field: impl FnOnce() -> String, value: &mut Angle) -> Result<(), Refusal> {
    if *value >= SMALLEST_ANGLE && *value <= BendPath::LARGEST_ANGLE {
        *value = value.storable();
        return Ok(());
    }
    Err(Refusal::new(field(), degrees(*value), "from 0.01° to 359°"))
}

/// An angle as it stands in a refusal.
pub(crate) fn degrees(angle: Angle) -> String {
    format!("{}°", as_written(angle.degrees()))
}

/// A number as it stands in a refusal that was multiplied since a person wrote it, without the digits that come of that.
pub(crate) fn as_written(value: f64) -> String {
    let rounded = (value * 1e9).round() / 1e9;
    format_any(if rounded.is_finite() && rounded != 0.0 { rounded } else { value })
}
