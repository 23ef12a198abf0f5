//! Triangles that stand in the way: their points, a tree of boxes over them, and what is inside of them.

use super::boxes::{Boxes, Triangles};
use super::closed::{Hull, hulls, welded};
use super::triangle::Near;
use crate::refusal::guard_mm;
use crate::{BoundingBox, LARGEST_MM, Point3, Refusal, Vector3};

/// The most triangles that are taken: sixteen times a large scan of a chassis (common practice, no source). Beyond it a
/// file is a mistake, or wants to be thinned out.
pub const MOST_TRIANGLES: usize = 16_000_000;

/// Triangles as they came from a file, in millimetres, ready to be measured against.
#[derive(Clone, Debug)]
pub struct TriangleMesh {
    points: Vec<Point3<f64>>,
    triangles: Vec<[u32; 3]>,
    hulls: Vec<Hull>,
    boxes: Boxes,
    bounds: BoundingBox,
}

/// Directions for rays, square to nothing that anyone draws; the next where one grazes a side.
const RAYS: [[f64; 3]; 8] = [
    [0.543_21, 0.297_13, 0.785_31],
    [-0.371_57, 0.859_43, 0.351_19],
    [0.117_31, -0.613_97, 0.780_57],
    [-0.791_13, -0.401_71, -0.461_33],
    [0.661_57, 0.731_83, -0.163_19],
    [-0.213_71, 0.309_37, -0.926_59],
    [0.871_39, -0.473_11, -0.130_87],
    [0.031_97, 0.071_33, 0.996_91],
];

impl TriangleMesh {
    /// Takes points (mm) and triangles on them, each of three numbers of points counted from 0. Points with the same
    /// coordinates become one.
    ///
    /// # Errors
    /// Refuses coordinates that are no numbers or out of reach, a triangle on a point that is not there, no triangle at
    /// all, and more than [`MOST_TRIANGLES`].
    pub fn new(points: Vec<Point3<f64>>, mut triangles: Vec<[u32; 3]>) -> Result<Self, Refusal> {
        if triangles.is_empty() || triangles.len() > MOST_TRIANGLES {
            let may_be = format!("from 1 to {MOST_TRIANGLES}");
            return Err(Refusal::new("the number of triangles", triangles.len().to_string(), may_be));
        }
        for (index, point) in points.iter().enumerate() {
            for (axis, name) in ["x", "y", "z"].into_iter().enumerate() {
                guard_mm(|| format!("vertex {}, {name}", index + 1), point[axis], -LARGEST_MM, LARGEST_MM)?;
            }
        }
        for (index, triangle) in triangles.iter().enumerate() {
            if let Some(corner) = triangle.iter().find(|corner| **corner as usize >= points.len()) {
                let may_be = format!("one of the {} vertices there are", points.len());
                let was = (u64::from(*corner) + 1).to_string();
                return Err(Refusal::new(format!("a vertex of triangle {}", index + 1), was, may_be));
            }
        }
        let points = welded(points, &mut triangles);
        let (boxes, order) = Boxes::over(Triangles { points: &points, triangles: &triangles });
        let triangles: Vec<[u32; 3]> = order.iter().map(|index| triangles[*index as usize]).collect();
        let hulls = hulls(points.len(), &triangles);
        let corner = triangles[0][0] as usize;
        let used = triangles.iter().flatten().map(|corner| BoundingBox::of_point(points[*corner as usize]));
        let bounds = used.fold(BoundingBox::of_point(points[corner]), |all, one| all.union(&one));
        Ok(Self { points, triangles, hulls, boxes, bounds })
    }

    /// Its points, mm.
    pub fn points(&self) -> &[Point3<f64>] {
        &self.points
    }

    /// Its triangles by their points, in an order of its own.
    pub fn triangles(&self) -> &[[u32; 3]] {
        &self.triangles
    }

    /// The box that holds it, mm.
    pub fn bounds(&self) -> &BoundingBox {
        &self.bounds
    }

    /// How many of its triangles close a body, so that it has an inside.
    pub fn closed_triangles(&self) -> usize {
        self.hulls.iter().filter(|hull| **hull != Hull::Open).count()
    }

    /// How many bytes it takes.
    pub fn bytes(&self) -> usize {
        self.points.capacity() * size_of::<Point3<f64>>()
            + self.triangles.capacity() * size_of::<[u32; 3]>()
            + self.hulls.capacity() * size_of::<Hull>()
            + self.boxes.bytes()
    }

    /// The nearest places of a segment and the triangles, where they are nearer than `limit_mm`.
    pub(super) fn nearest(&self, segment: (&Point3<f64>, &Point3<f64>), limit_mm: f64) -> Option<Near> {
        self.boxes.nearest(self.all(), segment, limit_mm)
    }

    /// Whether a point lies inside a body that the triangles close. Of bodies that are turned one way the turns round the
    /// point are added up, so that a hollow is outside and where two bodies overlap is inside; of a body that is not, it counts whether
    /// a ray leaves it an odd number of times. Sheets with an edge have no inside.
    pub fn holds(&self, point: &Point3<f64>) -> bool {
        let within = (0..3).all(|axis| self.bounds.min[axis] <= point[axis] && point[axis] <= self.bounds.max[axis]);
        within && RAYS.iter().find_map(|ray| self.is_inside(point, &Vector3::from(*ray))).unwrap_or(false)
    }

    /// The same along one ray; `None` where it grazes a side, and so says nothing.
    fn is_inside(&self, point: &Point3<f64>, ray: &Vector3<f64>) -> Option<bool> {
        let (mut turns, mut is_odd, mut is_sure) = (0_i64, false, true);
        self.boxes.along_ray(point, ray, &mut |index| {
            if self.hulls[index] == Hull::Open {
                return;
            }
            match crossing(point, ray, &self.all().corners(index)) {
                Crossing::None => {}
                Crossing::Grazes => is_sure = false,
                Crossing::Through(turn) if self.hulls[index] == Hull::Turned => turns += turn,
                Crossing::Through(_) => is_odd = !is_odd,
            }
        });
        is_sure.then_some(turns != 0 || is_odd)
    }

    fn all(&self) -> Triangles<'_> {
        Triangles { points: &self.points, triangles: &self.triangles }
    }
}

/// How a ray goes through a triangle.
enum Crossing {
    None,
    Grazes,
    /// From which side: 1 or -1.
    Through(i64),
}

/// How a ray meets a triangle, by the volumes that it spans with each side: all of one sign where it goes through (derived
/// here).
fn crossing(from: &Point3<f64>, ray: &Vector3<f64>, [a, b, c]: &[Point3<f64>; 3]) -> Crossing {
    // What is smaller than this share of the largest it could be is rounding.
    const ROUNDING: f64 = 1e-12;
    let (a, b, c) = (a - from, b - from, c - from);
    let sides = [(&a, &b), (&b, &c), (&c, &a)];
    let volumes = sides.map(|(u, v)| ray.dot(&u.cross(v)));
    let most = sides.map(|(u, v)| u.norm() * v.norm()).into_iter().fold(0.0, f64::max);
    let is_over = |volume: &f64| *volume > ROUNDING * most;
    let is_under = |volume: &f64| *volume < -ROUNDING * most;
    if volumes.iter().any(is_over) && volumes.iter().any(is_under) {
        return Crossing::None;
    }
    let normal = (b - a).cross(&(c - a));
    let through = ray.dot(&normal);
    if !volumes.iter().all(is_over) && !volumes.iter().all(is_under) {
        // Beside it, behind the start, or along a side of it: only what lies ahead can be grazed.
        let ahead = [a, b, c].iter().any(|corner| corner.dot(ray) >= 0.0);
        return if ahead { Crossing::Grazes } else { Crossing::None };
    }
    let at = a.dot(&normal) / through;
    if at > 0.0 { Crossing::Through(if through > 0.0 { 1 } else { -1 }) } else { Crossing::None }
}
