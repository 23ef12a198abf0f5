//! The entities of a drawing that centrelines are drawn with, as straights and arcs in space.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use elbowroom_geometry::{Point3, Vector3};

use super::pairs::{Pair, Pairs};
use crate::chained::Piece;
use crate::dxf::plane::Plane;
use crate::error::TextError;

/// The most straights and arcs that are read: those of the longest table of points. A bound on memory.
const MOST_PIECES: usize = 100_000;

/// How many kinds of entities are told of by name.
const MOST_KINDS: usize = 12;

/// What the entities of a drawing are.
#[derive(Default)]
pub(super) struct Entities {
    /// Straights and arcs by their layer, in the unit of the drawing.
    pub layers: BTreeMap<String, Vec<Piece>>,
    /// Kinds of entities that were passed over, with how many.
    pub passed: BTreeMap<String, usize>,
    count: usize,
}

/// An entity while it is read: the figures that lines, arcs and polylines have.
#[derive(Default)]
struct Entity {
    kind: String,
    layer: String,
    figures: BTreeMap<i32, f64>,
    /// Points with the bulge of what follows each.
    points: Vec<([f64; 3], f64)>,
    line: Option<usize>,
}

impl Entities {
    /// Reads entities up to the end of their section. `first` is the kind of the first of them.
    pub fn read(&mut self, pairs: &mut Pairs<'_>) -> Result<(), TextError> {
        let mut entity: Option<Entity> = None;
        let mut polyline: Option<Entity> = None;
        loop {
            let Some(pair) = pairs.next()? else {
                return Err(pairs.wrong("the file breaks off among its entities", "take a whole copy of the file"));
            };
            if pair.code == 0 {
                if let Some(done) = entity.take() {
                    self.take(done, &mut polyline)?;
                }
                match pair.value.text() {
                    "ENDSEC" => {
                        if let Some(open) = polyline {
                            return Err(unsound(&open, "does not end with SEQEND", "take a whole copy of the file"));
                        }
                        return Ok(());
                    }
                    kind => {
                        let kind = kind.chars().take(40).collect();
                        entity = Some(Entity { kind, line: pair.line, ..Entity::default() });
                    }
                }
            } else if let Some(entity) = &mut entity {
                entity.put(&pair).map_err(|()| {
                    let what = format!("code {} of a {} is no number", pair.code, entity.kind);
                    pairs.wrong(what, "it must be a number such as 120.5")
                })?;
            }
        }
    }

    /// Takes an entity that is read to its end. Vertices go to the polyline that is open.
    fn take(&mut self, entity: Entity, polyline: &mut Option<Entity>) -> Result<(), TextError> {
        match (entity.kind.as_str(), &mut *polyline) {
            ("VERTEX", Some(open)) => {
                // Vertices that a spline or a mesh was made from are no part of the line.
                if entity.flags() & (16 | 64 | 128) == 0 {
                    let point = entity.point(10)?;
                    open.points.push((point, entity.figure(42)));
                    self.counted(&entity)?;
                }
                Ok(())
            }
            ("SEQEND", _) => match polyline.take() {
                Some(open) => self.polyline(&open, false),
                None => Ok(()),
            },
            (_, Some(open)) => Err(unsound(open, "does not end with SEQEND", "take a whole copy of the file")),
            ("POLYLINE", None) => {
                *polyline = Some(Entity { points: Vec::new(), ..entity });
                Ok(())
            }
            ("LWPOLYLINE", None) => self.polyline(&entity, true),
            ("LINE", None) => {
                let piece = Piece::Straight { from: entity.point(10)?.into(), to: entity.point(11)?.into() };
                self.piece(&entity, piece)
            }
            ("ARC", None) => self.arc(&entity),
            (kind, None) => {
                let known = self.passed.contains_key(kind) || self.passed.len() < MOST_KINDS;
                *self.passed.entry(if known { kind } else { "OTHERS" }.to_owned()).or_default() += 1;
                Ok(())
            }
        }
    }

    fn counted(&mut self, entity: &Entity) -> Result<(), TextError> {
        self.count += 1;
        if self.count <= MOST_PIECES {
            return Ok(());
        }
        let what = format!("is one too many: the drawing has more than {MOST_PIECES} straights and arcs");
        Err(unsound(entity, &what, "it must hold the centreline alone"))
    }

    fn piece(&mut self, entity: &Entity, piece: Piece) -> Result<(), TextError> {
        self.counted(entity)?;
        let length = piece.length_mm();
        if !length.is_finite() || !piece.to().iter().all(|value| value.is_finite()) {
            return Err(unsound(entity, "is endless", "its figures must be those of a tube"));
        }
        if length > 0.0 {
            // What names no layer lies on the layer 0.
            let layer = if entity.layer.is_empty() { "0" } else { &entity.layer };
            self.layers.entry(layer.to_owned()).or_default().push(piece);
        }
        Ok(())
    }

    fn arc(&mut self, entity: &Entity) -> Result<(), TextError> {
        let plane = entity.plane()?;
        let [x, y, z] = entity.point(10)?;
        let centre = plane.in_space(x, y, z);
        let radius = entity.needed(40)?;
        if radius <= 0.0 {
            return Err(unsound(entity, "has a radius of 0 or less", "it must be more than 0"));
        }
        let [from, to] = [entity.needed(50)?, entity.needed(51)?].map(f64::to_radians);
        let angle_rad = (to - from).rem_euclid(TAU);
        let piece =
            Piece::Arc { from: centre + plane.direction(from) * radius, centre, axis: plane.normal(), angle_rad };
        self.piece(entity, piece)
    }

    fn polyline(&mut self, entity: &Entity, light: bool) -> Result<(), TextError> {
        let flags = entity.flags();
        if !light && flags & (16 | 64) != 0 {
            *self.passed.entry("POLYLINE of a mesh".into()).or_default() += 1;
            return Ok(());
        }
        let in_space = !light && flags & 8 != 0;
        let plane = entity.plane()?;
        let height = if light { entity.figure(38) } else { entity.figure(30) };
        let place = |[x, y, z]: [f64; 3]| {
            if in_space {
                Point3::new(x, y, z)
            } else {
                plane.in_space(x, y, if light || height != 0.0 { height } else { z })
            }
        };
        let closes = if flags & 1 != 0 { entity.points.first().copied() } else { None };
        let points: Vec<_> = entity.points.iter().copied().chain(closes).collect();
        for pair in points.windows(2) {
            let [from, to] = [place(pair[0].0), place(pair[1].0)];
            let bulge = if in_space { 0.0 } else { pair[0].1 };
            self.piece(entity, bulged(from, to, bulge, &plane.normal()))?;
        }
        Ok(())
    }
}

/// What lies between two vertices of a flat polyline: its bulge is the tangent of a quarter of the angle, positive
/// anticlockwise (the published DXF reference; from memory).
fn bulged(from: Point3<f64>, to: Point3<f64>, bulge: f64, normal: &Vector3<f64>) -> Piece {
    let chord = to - from;
    if bulge == 0.0 || chord.norm() == 0.0 {
        return Piece::Straight { from, to };
    }
    // From the middle of the chord the centre lies c (1 - b²) / (4 b) to the left.
    let left = normal.cross(&chord);
    let centre = from + chord / 2.0 + left * ((1.0 - bulge * bulge) / (4.0 * bulge));
    let axis = if bulge > 0.0 { *normal } else { -normal };
    Piece::Arc { from, centre, axis, angle_rad: 4.0 * bulge.abs().atan() }
}

fn unsound(entity: &Entity, what: &str, right: &str) -> TextError {
    let what = format!("a {} {what}", entity.kind);
    match entity.line {
        Some(line) => TextError::at(line, what, right),
        None => TextError::whole(what, right),
    }
}

impl Entity {
    /// Takes a pair.
    fn put(&mut self, pair: &Pair<'_>) -> Result<(), ()> {
        match pair.code {
            8 => self.layer = elbowroom_bending::text::harmless(pair.value.text()).chars().take(200).collect(),
            10 | 20 | 42 if self.kind == "LWPOLYLINE" => {
                let value = pair.value.number().ok_or(())?;
                match (pair.code, self.points.last_mut()) {
                    (10, _) => self.points.push(([value, f64::NAN, 0.0], 0.0)),
                    (20, Some((point, _))) => point[1] = value,
                    (42, Some((_, bulge))) => *bulge = value,
                    _ => {}
                }
                // One more than is taken, so that it is refused for its number.
                self.points.truncate(MOST_PIECES + 2);
            }
            10..=11 | 20..=21 | 30..=31 | 38 | 40 | 42 | 50 | 51 | 70 | 210 | 220 | 230 => {
                self.figures.insert(pair.code, pair.value.number().ok_or(())?);
            }
            _ => {}
        }
        Ok(())
    }

    fn figure(&self, code: i32) -> f64 {
        self.figures.get(&code).copied().unwrap_or_default()
    }

    fn flags(&self) -> u32 {
        self.figure(70) as u32
    }

    fn needed(&self, code: i32) -> Result<f64, TextError> {
        let right = "every figure of a line or arc must be there";
        self.figures.get(&code).copied().ok_or_else(|| unsound(self, &format!("lacks its code {code}"), right))
    }

    /// A point by its first code; the third figure may be left out on a flat drawing.
    fn point(&self, code: i32) -> Result<[f64; 3], TextError> {
        Ok([self.needed(code)?, self.needed(code + 10)?, self.figure(code + 20)])
    }

    fn plane(&self) -> Result<Plane, TextError> {
        if !self.figures.contains_key(&230) {
            return Plane::of(Vector3::z()).ok_or_else(|| unsound(self, "lies in no plane", "it must lie in one"));
        }
        let normal = Vector3::new(self.figure(210), self.figure(220), self.figure(230));
        Plane::of(normal)
            .ok_or_else(|| unsound(self, "lies in a plane without a direction", "210, 220, 230 must not all be 0"))
    }
}
