//! Straights, bends, clamps and blank worked out again from the points alone, by other means than the
//! program's: plain arrays, no frames, and the bite by walking along the tube in small steps.

type Vector = [f64; 3];

fn sub(a: Vector, b: Vector) -> Vector {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn plus(a: Vector, b: Vector, times: f64) -> Vector {
    [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times]
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn norm(a: Vector) -> f64 {
    dot(a, a).sqrt()
}

fn unit(a: Vector) -> Vector {
    let length = norm(a);
    a.map(|c| c / length)
}

/// What the points say.
pub struct Recomputed {
    points: Vec<Vector>,
    pub clr: f64,
    directions: Vec<Vector>,
    pub angles_deg: Vec<f64>,
    pub rotations_deg: Vec<f64>,
    pub tangents: Vec<f64>,
    pub arcs: Vec<f64>,
    pub straights: Vec<f64>,
    pub starts_at: Vec<f64>,
    pub developed: f64,
}

impl Recomputed {
    /// Works out a path without collinear points.
    pub fn of(points: &[Vector], clr: f64) -> Self {
        let legs: Vec<Vector> = points.windows(2).map(|pair| sub(pair[1], pair[0])).collect();
        let directions: Vec<Vector> = legs.iter().map(|leg| unit(*leg)).collect();
        // By the cosine here; the program goes by sine and cosine both.
        let angles: Vec<f64> =
            directions.windows(2).map(|pair| dot(pair[0], pair[1]).clamp(-1.0, 1.0).acos()).collect();
        let axes: Vec<Vector> = directions.windows(2).map(|pair| unit(cross(pair[0], pair[1]))).collect();
        let mut rotations_deg = vec![0.0];
        for (index, pair) in axes.windows(2).enumerate() {
            let size = dot(pair[0], pair[1]).clamp(-1.0, 1.0).acos();
            // The next leg lies on the positive side of the bend plane before it: clockwise along the way.
            let side = dot(pair[0], directions[index + 2]);
            rotations_deg.push(if side < 0.0 { -size.to_degrees() } else { size.to_degrees() });
        }
        let tangents: Vec<f64> = angles.iter().map(|angle| clr * (angle / 2.0).tan()).collect();
        let arcs: Vec<f64> = angles.iter().map(|angle| clr * angle).collect();
        let taken = |bend: Option<usize>| bend.and_then(|bend| tangents.get(bend)).copied().unwrap_or(0.0);
        let straights: Vec<f64> =
            (0..legs.len()).map(|index| norm(legs[index]) - taken(index.checked_sub(1)) - taken(Some(index))).collect();
        let mut starts_at = Vec::new();
        let mut at = 0.0;
        for (straight, arc) in straights.iter().zip(&arcs) {
            starts_at.push(at + straight);
            at += straight + arc;
        }
        let developed = straights.iter().sum::<f64>() + arcs.iter().sum::<f64>();
        let angles_deg = angles.iter().map(|angle| angle.to_degrees()).collect();
        let points = points.to_vec();
        Self { points, clr, directions, angles_deg, rotations_deg, tangents, arcs, straights, starts_at, developed }
    }

    /// The point at `back` mm before the start of bend `bend`.
    fn before_bend(&self, bend: usize, back: f64) -> Vector {
        let mut left = back;
        let mut bend = bend;
        loop {
            let start = plus(self.points[bend + 1], self.directions[bend], -self.tangents[bend]);
            if left <= self.straights[bend] || bend == 0 {
                return plus(start, self.directions[bend], -left);
            }
            left -= self.straights[bend];
            bend -= 1;
            if left <= self.arcs[bend] {
                // On the arc before: back from its end, about its centre.
                let (into, out) = (self.directions[bend], self.directions[bend + 1]);
                let end = plus(self.points[bend + 1], out, self.tangents[bend]);
                let inwards = cross(unit(cross(into, out)), out);
                let centre = plus(end, inwards, self.clr);
                let turn = left / self.clr;
                return plus(plus(centre, inwards, -self.clr * turn.cos()), out, -self.clr * turn.sin());
            }
            left -= self.arcs[bend];
        }
    }

    /// The largest distance from the clamp's axis to the centreline under a clamp, by walking along it.
    pub fn bite(&self, bend: usize, clamp: f64) -> f64 {
        const STEPS: usize = 20_000;
        let start = plus(self.points[bend + 1], self.directions[bend], -self.tangents[bend]);
        (0..=STEPS)
            .map(|step| {
                let offset = sub(self.before_bend(bend, clamp * step as f64 / STEPS as f64), start);
                norm(cross(offset, self.directions[bend]))
            })
            .fold(0.0, f64::max)
    }
}
