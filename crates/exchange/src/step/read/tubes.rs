//! The tubes that the faces of a product's solids are.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use elbowroom_geometry::BendPath;

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
                    Face::Flat => flat += 1,
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
            });
        }
        if used.contains(&false) {
            self.pass(format!("{called}: a bore that follows no outside was passed over."));
        }
        Ok(())
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

/// A chain of stretches of one radius.
struct Chain {
    radius_mm: f64,
    pieces: Vec<Piece>,
}

/// Whether a bore begins and ends where an outside does, and is as long, and narrower.
fn lies_in(bore: &Chain, outside: &Chain) -> bool {
    let ends = |chain: &Chain| Some([chain.pieces.first()?.from(), chain.pieces.last()?.to()]);
    let length = |chain: &Chain| chain.pieces.iter().map(Piece::length_mm).sum::<f64>();
    let (Some([a, b]), Some([c, d])) = (ends(bore), ends(outside)) else { return false };
    let near =
        |one: elbowroom_geometry::Point3<f64>, other: elbowroom_geometry::Point3<f64>| (one - other).norm() < SAME_MM;
    let meets = near(a, c) && near(b, d) || near(a, d) && near(b, c);
    meets
        && (length(bore) - length(outside)).abs() < 2.0 * LARGEST_OFF_MM
        && bore.radius_mm < outside.radius_mm - SAME_MM
}

/// Stretches that go all the way round the tube, parts of one put together. What is left of them is no tube but a gutter.
fn whole<'s>(stretches: impl Iterator<Item = &'s Stretch>) -> Vec<(f64, Piece)> {
    let key = |stretch: &Stretch| {
        let ends = [stretch.piece.from(), stretch.piece.to()];
        let grain = |value: f64| (value / (10.0 * SAME_MM)).round() as i64;
        let mut ends = ends.map(|end| [grain(end.x), grain(end.y), grain(end.z)]);
        ends.sort_unstable();
        // Arcs of a full turn less the other have the same ends.
        (ends, grain(stretch.piece.length_mm()), grain(stretch.radius_mm))
    };
    let mut found: BTreeMap<_, (usize, f64, &Stretch)> = BTreeMap::new();
    for (order, stretch) in stretches.enumerate() {
        found.entry(key(stretch)).or_insert((order, 0.0, stretch)).1 += stretch.round_rad;
    }
    let mut whole: Vec<_> = found.into_values().filter(|(_, round, _)| (round - TAU).abs() < 1e-3).collect();
    whole.sort_by_key(|(order, ..)| *order);
    whole.into_iter().map(|(_, _, stretch)| (stretch.radius_mm, stretch.piece)).collect()
}

/// The kind of a surface as a person knows it.
fn surface_in_words(kind: &str) -> String {
    if kind.contains("B_SPLINE") {
        return "free-form (spline) surfaces".into();
    }
    let words: String = kind.chars().take(40).collect();
    format!("surfaces of the kind {}", words.to_lowercase().replace('_', " "))
}
