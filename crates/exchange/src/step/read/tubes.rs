//! The tubes that the faces of a product's solids are.

use std::collections::{BTreeMap, HashMap};
use std::f64::consts::TAU;

use elbowroom_geometry::{BendPath, Point3};

use super::exchange::Exchange;
use super::faces::{Face, SAME_MM, Stretch};
use super::instances::Instance;
use crate::chained::{Built, Piece, built, clean, linked};
use crate::error::TextError;

/// How far a centreline may lie from the faces that it was read from, mm; beyond it they do not hang together.
const LARGEST_OFF_MM: f64 = 0.01;

/// The most faces that are looked at, those of a shape in each place where it lies: a bound on time.
const MOST_FACES: usize = 1_000_000;

/// A tube, or a rod of which nobody knows the wall.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct FoundTube {
    /// What its product is called.
    pub name: String,
    /// Its centreline.
    pub path: BendPath,
    /// Outside diameter, mm.
    pub od_mm: f64,
    /// Wall, mm; `None` where there is no bore.
    pub wall_mm: Option<f64>,
    /// What it was put together from.
    pieces: Vec<Piece>,
}

/// What was found in a file.
#[derive(Default)]
pub(super) struct Found {
    /// Tubes and rods.
    pub tubes: Vec<FoundTube>,
    /// What was passed over, in whole sentences, each once with how often.
    pub passed: BTreeMap<String, usize>,
    faces: usize,
}

impl Found {
    fn pass(&mut self, sentence: String) {
        *self.passed.entry(sentence).or_default() += 1;
    }

    /// Takes the tubes of a product where it lies.
    pub fn take(&mut self, exchange: &Exchange<'_>, instance: &Instance) -> Result<(), TextError> {
        let called =
            if instance.name.is_empty() { "a solid".into() } else { format!("\u{201c}{}\u{201d}", instance.name) };
        let mut stretches: Vec<Stretch> = Vec::new();
        let (mut cut, mut other, mut flat) = (0, BTreeMap::<String, usize>::new(), 0);
        let mut ends: Vec<Point3<f64>> = Vec::new();
        for (shape, unit_mm, lies) in &instance.shapes {
            let faces = exchange.faces_of(*shape)?;
            self.faces += faces.len();
            if self.faces > MOST_FACES {
                let right = format!("the file must place {MOST_FACES} faces or fewer");
                return Err(exchange.wrong(*shape, "is one shape too many to be looked at", &right));
            }
            for (face, turned) in faces {
                match exchange.face(face, turned, *unit_mm, lies)? {
                    Face::Stretch(stretch) => stretches.push(stretch),
                    Face::Flat(circles) => {
                        flat += 1;
                        ends.extend(circles);
                    }
                    Face::Cut => cut += 1,
                    Face::Other(kind) => *other.entry(surface_in_words(&kind)).or_default() += 1,
                }
            }
        }
        for (what, count) in &other {
            self.pass(format!("{called}: {count} of its faces lie on {what}, which are no part of a bent tube here."));
        }
        if cut > 0 {
            self.pass(format!(
                "{called}: {cut} of its round faces do not run from one circle across the tube to another (a branch, a hole, an end \
                 that is cut at an angle) and were passed over."
            ));
        }
        if stretches.is_empty() {
            if flat > 0 && other.is_empty() && cut == 0 {
                self.pass(format!("{called} has flat faces only and was passed over."));
            }
            return Ok(());
        }
        if stretches.iter().any(|stretch| stretch.opened) {
            self.pass(format!("{called}: openings in its wall were passed over."));
        }
        let outer = self.chains(&called, whole(stretches.iter().filter(|stretch| stretch.outside)));
        let bores = self.chains(&called, whole(stretches.iter().filter(|stretch| !stretch.outside)));
        let mut used = vec![false; bores.len()];
        for chain in outer {
            if !chain.ends().iter().all(|end| ends.iter().any(|closed| (closed - end).norm() < SAME_MM)) {
                self.pass(format!(
                    "{called}: a stretch of tube does not end in a flat face square to it (it goes on in something that cannot be read, or \
                     is cut at an angle) and was passed over."
                ));
                continue;
            }
            let Some(path) = self.path(&called, &chain) else { continue };
            let bore = bores.iter().position(|bore| lies_in(bore, &chain));
            let wall_mm = bore.map(|bore| {
                used[bore] = true;
                clean(chain.radius_mm - bores[bore].radius_mm)
            });
            self.tubes.push(FoundTube {
                name: instance.name.clone(),
                path,
                od_mm: clean(2.0 * chain.radius_mm),
                wall_mm,
                pieces: chain.pieces,
            });
        }
        if used.contains(&false) {
            self.pass(format!("{called}: a bore that follows no outside was passed over."));
        }
        Ok(())
    }

    /// Joins tubes that are a single straight or arc each to the tubes that they make: an arc without a straight is no tube
    /// that is bent by itself, but a piece of one that was drawn in pieces. Tubes of several pieces are left apart, however
    /// they meet.
    pub fn join_pieces(&mut self) {
        let is_arc = |tube: &FoundTube| is_one_piece(tube) && matches!(tube.pieces[0], Piece::Arc { .. });
        let mut tubes = std::mem::take(&mut self.tubes);
        while let Some(arc) = tubes.iter().position(is_arc) {
            let size = tubes[arc].clone();
            let (alike, others): (Vec<_>, Vec<_>) =
                tubes.into_iter().partition(|tube| is_one_piece(tube) && same_size(tube, &size));
            let pieces: Vec<Piece> = alike.iter().map(|tube| tube.pieces[0]).collect();
            tubes = others;
            let linked = linked(&pieces, SAME_MM);
            if !linked.forks.is_empty() || linked.rounds > 0 {
                self.pass("Straights and arcs that meet in a fork or a ring were passed over.".into());
            }
            for chain in linked.chains {
                let first = chain.iter().map(|(index, _)| *index).min().unwrap_or_default();
                let joined: Vec<Piece> = chain.iter().map(|(_, piece)| *piece).collect();
                let chain = Chain { radius_mm: size.od_mm / 2.0, pieces: joined };
                let called = format!("\u{201c}{}\u{201d}", alike[first].name);
                let Some(path) = self.path(&called, &chain) else { continue };
                if chain.pieces.len() > 1 {
                    self.pass(format!(
                        "{} straights and arcs that meet end to end were joined to one tube.",
                        chain.pieces.len()
                    ));
                }
                self.tubes.push(FoundTube { path, pieces: chain.pieces, ..alike[first].clone() });
            }
        }
        // In the order of the file as far as nothing was joined.
        self.tubes.splice(0..0, tubes);
    }

    /// Chains of stretches of one radius.
    fn chains(&mut self, called: &str, stretches: Vec<(f64, Piece)>) -> Vec<Chain> {
        let mut by_radius: Vec<(f64, Vec<Piece>)> = Vec::new();
        for (radius_mm, piece) in stretches {
            match by_radius.iter_mut().find(|(known, _)| (known - radius_mm).abs() < SAME_MM) {
                Some((_, pieces)) => pieces.push(piece),
                None => by_radius.push((radius_mm, vec![piece])),
            }
        }
        let mut chains = Vec::new();
        for (radius_mm, pieces) in by_radius {
            let linked = linked(&pieces, SAME_MM);
            if !linked.forks.is_empty() {
                self.pass(format!(
                    "{called}: more than two stretches of tube meet in one place, and what meets there was passed over."
                ));
            }
            if linked.rounds > 0 {
                self.pass(format!("{called}: a ring without an end is no tube to be bent, and was passed over."));
            }
            let pieces = |chain: Vec<(usize, Piece)>| chain.into_iter().map(|(_, piece)| piece).collect();
            chains.extend(linked.chains.into_iter().map(|chain| Chain { radius_mm, pieces: pieces(chain) }));
        }
        chains
    }

    fn path(&mut self, called: &str, chain: &Chain) -> Option<BendPath> {
        match built(&chain.pieces) {
            Ok(Built { path, off_mm, corners: 0 }) if off_mm <= LARGEST_OFF_MM => Some(path),
            Ok(Built { corners: 0, off_mm, .. }) => {
                self.pass(format!(
                    "{called}: its faces lie {off_mm:.3} mm apart where they should meet; it was passed over."
                ));
                None
            }
            Ok(_) => {
                self.pass(format!(
                    "{called} turns a corner without an arc, as no bent tube does, and was passed over."
                ));
                None
            }
            Err(refusal) => {
                self.pass(format!("{called} was passed over: {refusal}."));
                None
            }
        }
    }
}

/// Whether a tube is a single straight or arc.
fn is_one_piece(tube: &FoundTube) -> bool {
    tube.pieces.len() == 1
}

/// Whether two tubes are of one size.
fn same_size(one: &FoundTube, other: &FoundTube) -> bool {
    let wall = |tube: &FoundTube| tube.wall_mm.unwrap_or_default();
    (one.od_mm - other.od_mm).abs() < SAME_MM && (wall(one) - wall(other)).abs() < SAME_MM
}

/// A chain of stretches of one radius.
struct Chain {
    radius_mm: f64,
    pieces: Vec<Piece>,
}

impl Chain {
    /// Where it begins and ends.
    fn ends(&self) -> Vec<Point3<f64>> {
        let ends = [self.pieces.first().map(Piece::from), self.pieces.last().map(Piece::to)];
        ends.into_iter().flatten().collect()
    }
}

/// Whether a bore begins and ends where an outside does, and is as long, and narrower.
fn lies_in(bore: &Chain, outside: &Chain) -> bool {
    let length = |chain: &Chain| chain.pieces.iter().map(Piece::length_mm).sum::<f64>();
    let (&[a, b], &[c, d]) = (bore.ends().as_slice(), outside.ends().as_slice()) else { return false };
    let near = |one: Point3<f64>, other: Point3<f64>| (one - other).norm() < SAME_MM;
    let meets = near(a, c) && near(b, d) || near(a, d) && near(b, c);
    meets
        && (length(bore) - length(outside)).abs() < 2.0 * LARGEST_OFF_MM
        && bore.radius_mm < outside.radius_mm - SAME_MM
}

/// Stretches that go all the way round the tube, parts of one put together. What is left of them is no tube but a gutter.
fn whole<'s>(stretches: impl Iterator<Item = &'s Stretch>) -> Vec<(f64, Piece)> {
    let mut found: Vec<(f64, &Stretch)> = Vec::new();
    // By the middle between their ends, which is the same whichever way they run.
    let mut cells: HashMap<[i64; 3], Vec<usize>> = HashMap::new();
    for stretch in stretches {
        let middle = middle_of(&stretch.piece);
        let cell = [middle.x, middle.y, middle.z].map(|value| (value / SAME_MM / 2.0).floor() as i64);
        let around = (-1..=1).flat_map(|x| (-1..=1).flat_map(move |y| (-1..=1).map(move |z| [x, y, z])));
        let known = around
            .filter_map(|[x, y, z]| cells.get(&[cell[0] + x, cell[1] + y, cell[2] + z]))
            .flatten()
            .copied()
            .find(|known| same_stretch(found[*known].1, stretch));
        match known {
            Some(known) => found[known].0 += stretch.round_rad,
            None => {
                cells.entry(cell).or_default().push(found.len());
                found.push((stretch.round_rad, stretch));
            }
        }
    }
    let goes_round = |(round, _): &(f64, &Stretch)| (round - TAU).abs() < 1e-3;
    found.into_iter().filter(goes_round).map(|(_, stretch)| (stretch.radius_mm, stretch.piece)).collect()
}

/// The middle between the ends of a piece.
fn middle_of(piece: &Piece) -> Point3<f64> {
    piece.from() + (piece.to() - piece.from()) / 2.0
}

/// Whether two faces are parts of one stretch of tube.
fn same_stretch(one: &Stretch, other: &Stretch) -> bool {
    let near = |a: Point3<f64>, b: Point3<f64>| (a - b).norm() < SAME_MM;
    let [a, b, c, d] = [one.piece.from(), one.piece.to(), other.piece.from(), other.piece.to()];
    // Arcs of a full turn less the other have the same ends, but not the same length.
    (one.radius_mm - other.radius_mm).abs() < SAME_MM
        && (one.piece.length_mm() - other.piece.length_mm()).abs() < 2.0 * SAME_MM
        && (near(a, c) && near(b, d) || near(a, d) && near(b, c))
}

/// The kind of a surface as a person knows it.
fn surface_in_words(kind: &str) -> String {
    if kind.contains("B_SPLINE") {
        return "free-form (spline) surfaces".into();
    }
    let words: String = kind.chars().take(40).collect();
    format!("surfaces of the kind {}", words.to_lowercase().replace('_', " "))
}
