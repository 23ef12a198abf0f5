//! A moving frame on the centreline: where it is, where it goes, and to which side it bends next.

use nalgebra::{Point3, Vector3};

/// A right-handed frame on the centreline.
///
/// `tangent`, `normal` and [`Frame::binormal`] are unit vectors at right angles. In a bend the normal
/// points to the centre of the arc and the binormal is the axis about which the tube turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Where the frame stands, mm.
    pub origin: Point3<f64>,
    /// The direction of travel, from the lead end to the tail.
    pub tangent: Vector3<f64>,
    /// The direction to which a bend of rotation zero turns.
    pub normal: Vector3<f64>,
}

impl Frame {
    /// The frame at the world's origin that travels along +x and bends towards +y.
    pub fn world() -> Self {
        Self { origin: Point3::origin(), tangent: Vector3::x(), normal: Vector3::y() }
    }

    /// A frame from a direction and a hint for the normal, both made unit and square to one another.
    /// Where the hint is no help (zero, or along the tangent) a fixed perpendicular is taken. `None` if
    /// the tangent has no direction.
    pub fn along(origin: Point3<f64>, tangent: Vector3<f64>, normal_hint: Vector3<f64>) -> Option<Self> {
        if is_square(&tangent, &normal_hint) {
            // A frame that is sound already keeps its bits, so that files read back what was written.
            return Some(Self { origin, tangent, normal: normal_hint });
        }
        let largest = tangent.amax();
        // Scaled first: the square of a huge or tiny component would leave the range of numbers.
        let tangent = (tangent / largest).try_normalize(0.0).filter(|t| t.iter().all(|c| c.is_finite()))?;
        let hint = normal_hint / normal_hint.amax();
        let square = hint - tangent * tangent.dot(&hint);
        // NaN, from a hint of zero or one that is no number, fails the comparison as well.
        let normal = if square.norm() > 1e-9 {
            let once = square.normalize();
            (once - tangent * tangent.dot(&once)).normalize()
        } else {
            any_perpendicular(&tangent)
        };
        Some(Self { origin, tangent, normal })
    }

    /// The third axis, tangent × normal: the axis of the next bend.
    pub fn binormal(&self) -> Vector3<f64> {
        self.tangent.cross(&self.normal)
    }

    /// The frame moved on by `length_mm` along its tangent (back where negative).
    pub fn advanced(&self, length_mm: f64) -> Self {
        Self { origin: self.origin + self.tangent * length_mm, ..*self }
    }

    /// The frame rolled about its tangent, right-handed: clockwise looking along the direction of
    /// travel, as the torsion angle of the IUPAC Gold Book (G04, from memory) counts it.
    pub fn rolled(&self, rotation_rad: f64) -> Self {
        if rotation_rad == 0.0 {
            return *self;
        }
        let (sin, cos) = exact_sin_cos(rotation_rad);
        Self { normal: self.normal * cos + self.binormal() * sin, ..*self }.squared()
    }

    /// The frame carried round an arc of the given radius (mm) and angle, towards its normal.
    pub fn bent(&self, radius_mm: f64, angle_rad: f64) -> Self {
        let (sin, cos) = exact_sin_cos(angle_rad);
        Self {
            origin: self.origin + (self.tangent * sin + self.normal * (1.0 - cos)) * radius_mm,
            tangent: self.tangent * cos + self.normal * sin,
            normal: self.normal * cos - self.tangent * sin,
        }
        .squared()
    }

    /// A place of this frame's own coordinates, along tangent, normal and binormal, as the world sees it.
    pub fn world_point(&self, local: &Point3<f64>) -> Point3<f64> {
        self.origin + self.tangent * local.x + self.normal * local.y + self.binormal() * local.z
    }

    /// A frame of the world as this one sees it.
    pub fn local(&self, frame: &Self) -> Self {
        let (along, beside, up) = (self.tangent, self.normal, self.binormal());
        let turned = |of: &Vector3<f64>| Vector3::new(of.dot(&along), of.dot(&beside), of.dot(&up));
        let origin = Point3::from(turned(&(frame.origin - self.origin)));
        Self { origin, tangent: turned(&frame.tangent), normal: turned(&frame.normal) }
    }

    /// The same frame with its axes unit and square again, so that thousands of bends add no drift.
    fn squared(self) -> Self {
        let tangent = self.tangent.normalize();
        let normal = (self.normal - tangent * tangent.dot(&self.normal)).normalize();
        Self { origin: self.origin, tangent, normal }
    }
}

/// Whether two vectors are unit and at right angles, as nearly as rounding leaves them.
fn is_square(tangent: &Vector3<f64>, normal: &Vector3<f64>) -> bool {
    const ROUNDING: f64 = 8.0 * f64::EPSILON;
    (tangent.norm_squared() - 1.0).abs() <= ROUNDING
        && (normal.norm_squared() - 1.0).abs() <= ROUNDING
        && tangent.dot(normal).abs() <= ROUNDING
}

/// Sine and cosine with the quarter turns exact, so that planar parts stay planar to the bit.
fn exact_sin_cos(angle_rad: f64) -> (f64, f64) {
    use std::f64::consts::{FRAC_PI_2, PI};
    if angle_rad == PI || angle_rad == -PI {
        (0.0, -1.0)
    } else if angle_rad == FRAC_PI_2 {
        (1.0, 0.0)
    } else if angle_rad == -FRAC_PI_2 {
        (-1.0, 0.0)
    } else {
        angle_rad.sin_cos()
    }
}

/// A unit vector at right angles to `direction`, always the same one for the same direction.
pub(crate) fn any_perpendicular(direction: &Vector3<f64>) -> Vector3<f64> {
    let axis = if direction.z.abs() < 0.9 { Vector3::z() } else { Vector3::x() };
    direction.cross(&axis).normalize()
}
