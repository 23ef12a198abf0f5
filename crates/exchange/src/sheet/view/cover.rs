//! What of a tube covers a place from the eye: the tube as short round rods along its centreline.

use elbowroom_geometry::{Centreline, ElementKind, Vector3};

use super::eye::{Eye, Seen};

/// By what share of its radius the tube that covers is thinner than the one that is drawn, so that no line hides
/// behind its own rounding.
const THINNER: f64 = 0.02;

/// How far a rod may leave the centreline of an arc, radii: well within [`THINNER`].
const SAGITTA: f64 = 0.004;

/// The largest turn of one rod along an arc.
const LARGEST_TURN_RAD: f64 = 0.06;

/// A straight round rod.
struct Rod {
    from: Vector3<f64>,
    along: Vector3<f64>,
    length: f64,
}

/// The rods of a straight or an arc, with the box in the view that they lie in.
struct Stretch {
    rods: Vec<Rod>,
    least: [f64; 2],
    most: [f64; 2],
    nearest: f64,
    /// The radius of what covers, and how far off something has to lie to be behind it, in the view.
    radius: f64,
    clear: f64,
}

/// Tubes that cover what lies behind them.
#[derive(Default)]
pub struct Cover {
    stretches: Vec<Stretch>,
}

fn vector(seen: Seen) -> Vector3<f64> {
    Vector3::new(seen.x, seen.y, seen.near)
}

impl Cover {
    /// Adds a tube of that outside radius, mm.
    pub fn add(&mut self, centreline: &Centreline, eye: &Eye, radius_mm: f64) {
        let drawn = eye.length(radius_mm);
        for element in centreline.elements().iter().filter(|element| element.length_mm > 0.0) {
            let count = match element.kind {
                ElementKind::Straight => 1,
                ElementKind::Arc { radius_mm: bend, angle_rad } => {
                    let turn = 2.0 * (1.0 - SAGITTA * radius_mm / bend.max(radius_mm)).acos();
                    (angle_rad / turn.min(LARGEST_TURN_RAD)).ceil().max(1.0) as usize
                }
            };
            let spots: Vec<Vector3<f64>> = (0..=count)
                .map(|index| vector(eye.seen(&element.turned(index as f64 / count as f64).origin)))
                .collect();
            let mut stretch = Stretch {
                rods: Vec::with_capacity(count),
                least: [f64::INFINITY; 2],
                most: [f64::NEG_INFINITY; 2],
                nearest: f64::NEG_INFINITY,
                radius: drawn * (1.0 - THINNER),
                clear: drawn * THINNER,
            };
            for spot in &spots {
                for axis in 0..2 {
                    stretch.least[axis] = stretch.least[axis].min(spot[axis] - drawn);
                    stretch.most[axis] = stretch.most[axis].max(spot[axis] + drawn);
                }
                stretch.nearest = stretch.nearest.max(spot.z + drawn);
            }
            for pair in spots.windows(2) {
                let way = pair[1] - pair[0];
                let length = way.norm();
                if length > 0.0 {
                    stretch.rods.push(Rod { from: pair[0], along: way / length, length });
                }
            }
            self.stretches.push(stretch);
        }
    }

    /// Whether the tube lies between a place and the eye.
    pub fn hides(&self, seen: Seen) -> bool {
        let spot = vector(seen);
        self.stretches.iter().any(|stretch| {
            let inside = (0..2).all(|axis| spot[axis] > stretch.least[axis] && spot[axis] < stretch.most[axis]);
            inside && stretch.nearest > spot.z && stretch.rods.iter().any(|rod| stretch.rod_hides(rod, &spot))
        })
    }
}

impl Stretch {
    /// Whether the line of sight from a place goes through a rod, farther on than rounding: where the ray lies within the
    /// endless cylinder and between its two end faces at once.
    fn rod_hides(&self, rod: &Rod, spot: &Vector3<f64>) -> bool {
        let beside = spot - rod.from;
        let (at, climb) = (beside.dot(&rod.along), rod.along.z);
        let off = beside - rod.along * at;
        let rise = Vector3::z() - rod.along * climb;
        let (a, b, c) = (rise.norm_squared(), off.dot(&rise), off.norm_squared() - self.radius * self.radius);
        let (mut enters, mut leaves) = if a < 1e-12 {
            if c >= 0.0 {
                return false;
            }
            (f64::NEG_INFINITY, f64::INFINITY)
        } else {
            let inside = b * b - a * c;
            if inside <= 0.0 {
                return false;
            }
            let half = inside.sqrt();
            ((-b - half) / a, (-b + half) / a)
        };
        if climb.abs() < 1e-12 {
            if at < 0.0 || at > rod.length {
                return false;
            }
        } else {
            let (one, other) = (-at / climb, (rod.length - at) / climb);
            enters = enters.max(one.min(other));
            leaves = leaves.min(one.max(other));
        }
        leaves > enters && leaves > self.clear
    }
}
