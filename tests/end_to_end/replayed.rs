//! A bender on paper, of the tests' own: it reads a program as a script does, bends a blank by it, and says
//! where everything ends up. Plain arrays and one fixed tangent point; it knows nothing of drawings.

use serde_json::Value;

type Vector = [f64; 3];

/// A bent part as it lies in the machine, trims cut off.
pub struct Replayed {
    /// Both ends, and the point at each bend where the legs beside it would meet; nonsense at half turns.
    pub vertices: Vec<Vector>,
    /// For each bend the two ends of its arc, the one towards the tip first.
    pub arc_ends: Vec<[Vector; 2]>,
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("no number: {value}"))
}

/// Bends a blank by a program as it stands in JSON. The machine: x from the chuck to the die along the tube, z
/// up, so that right is -y. What is fed past the tangent point, the origin, swings to the machine's hand.
pub fn replay(program: &Value) -> Replayed {
    let side = if program["hand"] == "left" { 1.0 } else { -1.0 };
    let tip = [-number(&program["lead_trim_mm"]), 0.0, 0.0];
    let (mut vertices, mut arc_ends) = (vec![tip], Vec::<[Vector; 2]>::new());
    let mut used = 0.0;
    for step in program["steps"].as_array().unwrap() {
        let feed = number(&step["feed_mm"]);
        let (roll_sin, roll_cos) = number(&step["rotation_deg"]).to_radians().sin_cos();
        let set = number(&step["set_angle_deg"]);
        let springback = &step["springback"];
        let free = (set - number(&springback["a_deg"]) - number(&springback["b"]) * set).to_radians();
        // The arc keeps its length when it opens.
        let die = number(&step["die_clr_mm"]);
        let radius = die * set.to_radians() / free;
        used += feed + number(&step["take_up_mm"]);
        let (sin, cos) = (side * free).sin_cos();
        let reach = [radius * free.sin(), side * radius * (1.0 - free.cos())];
        let carry = |point: &mut Vector| {
            let [x, y, z] = *point;
            // Fed on, then turned clockwise as one looks along x: up goes to the right.
            let [x, y, z] = [x + feed, y * roll_cos - z * roll_sin, y * roll_sin + z * roll_cos];
            *point = [x * cos - y * sin + reach[0], x * sin + y * cos + reach[1], z];
        };
        vertices.iter_mut().chain(arc_ends.iter_mut().flatten()).for_each(carry);
        vertices.push([radius * (free / 2.0).tan(), 0.0, 0.0]);
        arc_ends.push([[reach[0], reach[1], 0.0], [0.0; 3]]);
    }
    let behind = number(&program["blank_length_mm"]) - used - number(&program["tail_trim_mm"]);
    vertices.push([-behind, 0.0, 0.0]);
    Replayed { vertices, arc_ends }
}

pub fn sub(a: Vector, b: Vector) -> Vector {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub fn distance(a: Vector, b: Vector) -> f64 {
    dot(sub(a, b), sub(a, b)).sqrt()
}

/// The points as seen from a right-handed frame that belongs to them: origin at their middle, axes by the
/// two longest ways from it that are far from parallel. Two rigid copies look the same in it, mirror images
/// do not.
fn in_own_frame(points: &[Vector], first: usize, second: usize) -> Vec<Vector> {
    let count = points.len() as f64;
    let middle = points.iter().fold([0.0; 3], |sum, p| [0, 1, 2].map(|axis| sum[axis] + p[axis] / count));
    let unit = |v: Vector| v.map(|c| c / dot(v, v).sqrt());
    let x = unit(sub(points[first], middle));
    let z = unit(cross(x, sub(points[second], middle)));
    let y = cross(z, x);
    points.iter().map(|p| sub(*p, middle)).map(|p| [dot(p, x), dot(p, y), dot(p, z)]).collect()
}

/// The worst distance between two copies of a part laid on one another, moved and turned but not mirrored.
pub fn worst_after_laying_together(drawn: &[Vector], bent: &[Vector]) -> f64 {
    assert_eq!(drawn.len(), bent.len());
    let count = drawn.len() as f64;
    let middle = drawn.iter().fold([0.0; 3], |sum, p| [0, 1, 2].map(|axis| sum[axis] + p[axis] / count));
    let furthest = |measure: &dyn Fn(Vector) -> f64| {
        let far = |index: &usize| measure(sub(drawn[*index], middle));
        (0..drawn.len()).max_by(|a, b| far(a).total_cmp(&far(b))).unwrap()
    };
    let first = furthest(&|p| dot(p, p));
    let along = sub(drawn[first], middle);
    let second = furthest(&|p| dot(cross(along, p), cross(along, p)));
    let (drawn, bent) = (in_own_frame(drawn, first, second), in_own_frame(bent, first, second));
    drawn.iter().zip(&bent).map(|(a, b)| distance(*a, *b)).fold(0.0, f64::max)
}
