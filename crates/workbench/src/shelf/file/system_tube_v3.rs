//! A tube with all that was chosen for it, as it stands in system files of version 3.

use std::collections::HashSet;
use std::fmt;
use std::marker::PhantomData;
use std::sync::Arc;

use elbowroom_bending::text::{harmless, harmless_lines};
use elbowroom_bending::{NodeId, Nodes, Part, System, SystemTube, ToolingChoice, TubeId};
use elbowroom_geometry::Refusal;
use elbowroom_geometry::units::LengthUnit;
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

use super::choice_v2::{ToleranceV2, ToolingV2};
use super::keep_v1::KeepV1;
use super::numbers::{ClampMillimetres, SeamDegrees};
use super::path_v1::PathV1;
use super::piece_v2::PieceV2;
use super::stock_v1::StockV1;
use super::tube_v1::TubeV1;

/// The tubes of a system. They are told apart while they are read, so that a mistake is told on its line.
#[derive(Serialize)]
#[serde(transparent)]
pub(crate) struct TubesV3(pub Vec<TubeOfSystemV3>);

/// A tube in a file of a system; its numbers have passed the guards of the live types.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, try_from = "TubeOfSystemFieldsV3")]
pub(crate) struct TubeOfSystemV3 {
    pub(super) id: u32,
    pub(super) name: String,
    /// Left out where it is shown.
    #[serde(skip_serializing_if = "is_not")]
    pub(super) hidden: bool,
    pub(super) note: String,
    pub(super) tube: TubeV1,
    pub(super) tooling: ToolingV2,
    pub(super) stock: StockV1,
    pub(super) path: PathV1,
    /// The id of every vertex, or of every row and the two ends about them. Left out while they count from 0.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) places: Vec<u32>,
    /// What edits leave where it is. Left out where that is nothing, and rows change what lies behind them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) keep: Option<KeepV1>,
    /// Left out where nothing was measured.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) pieces: Vec<PieceV2>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TubeOfSystemFieldsV3 {
    pub(super) id: u32,
    pub(super) name: String,
    #[serde(default)]
    pub(super) hidden: bool,
    #[serde(default)]
    pub(super) note: String,
    pub(super) tube: TubeV1,
    #[serde(default)]
    pub(super) tooling: ToolingV2,
    #[serde(default)]
    pub(super) stock: StockV1,
    pub(super) path: PathV1,
    #[serde(default)]
    pub(super) places: Vec<u32>,
    #[serde(default)]
    pub(super) keep: Option<KeepV1>,
    #[serde(default)]
    pub(super) pieces: Vec<PieceV2>,
}

impl TryFrom<TubeOfSystemFieldsV3> for TubeOfSystemV3 {
    type Error = Refusal;

    fn try_from(fields: TubeOfSystemFieldsV3) -> Result<Self, Refusal> {
        let name = harmless(&fields.name).into_owned();
        guard_places(&name, &fields.places, fields.path.0.places())?;
        if let Some(keep) = &fields.keep {
            keep.guard(&name, &fields.places, fields.path.0.places())?;
        }
        if fields.id == u32::MAX {
            let field = format!("the id of the tube \u{201c}{name}\u{201d}");
            return Err(Refusal::new(field, fields.id.to_string(), "a smaller number"));
        }
        let TubeOfSystemFieldsV3 { id, hidden, note, tube, tooling, stock, path, places, keep, pieces, .. } = fields;
        Ok(Self { id, name, hidden, note, tube, tooling, stock, path, places, keep, pieces })
    }
}

/// Passes the ids of a path's places: none, or one for each and each its own.
fn guard_places(name: &str, ids: &[u32], places: usize) -> Result<(), Refusal> {
    if ids.is_empty() {
        return Ok(());
    }
    if ids.len() != places {
        let field = format!("the number of places of the tube \u{201c}{name}\u{201d}");
        let may_be = format!("{places}, one for each vertex, or for each row and the two ends");
        return Err(Refusal::new(field, ids.len().to_string(), may_be));
    }
    let mut seen = HashSet::with_capacity(ids.len());
    let wrong = ids.iter().find(|id| **id == u32::MAX || !seen.insert(**id));
    wrong.map_or(Ok(()), |id| {
        let field = format!("a place of the tube \u{201c}{name}\u{201d}");
        Err(Refusal::new(field, format!("{id} twice, or too large"), "a number of its own, such as 7"))
    })
}

impl TubeOfSystemV3 {
    /// The tube itself.
    pub fn live(self, units: LengthUnit) -> SystemTube {
        let places = self.places.into_iter().map(NodeId::new).collect::<Vec<_>>();
        let part = Part {
            name: self.name,
            note: harmless_lines(&self.note.replace("\r\n", "\n")).into_owned(),
            tube: self.tube.0,
            tooling: ToolingChoice {
                die: self.tooling.die.map(|die| harmless(&die).into_owned()),
                clamp: self.tooling.clamp_mm.map(|clamp| clamp.0),
                seam_start: self.tooling.seam_start_deg.map(|start| start.0),
                from: self.tooling.from.into(),
                hand: self.tooling.hand.map(Into::into),
                as_planned: self.tooling.as_planned,
                tolerance: self.tooling.tolerance.map(|tolerance| tolerance.0).unwrap_or_default(),
            },
            path: self.path.0,
            stock: self.stock.0,
            units,
            pieces: self.pieces.into_iter().map(|piece| piece.0).collect(),
            nodes: if places.is_empty() { Nodes::default() } else { Nodes::from_ids(places, 0) },
            keep: self.keep.map(KeepV1::live).unwrap_or_default(),
        };
        SystemTube { id: TubeId::new(self.id), hidden: self.hidden, part: Arc::new(part) }
    }
}

impl From<&SystemTube> for TubeOfSystemV3 {
    fn from(tube: &SystemTube) -> Self {
        let part = &tube.part;
        let places: Vec<u32> = part.nodes.ids(part.path.places()).into_iter().map(NodeId::number).collect();
        let count_from_0 = places.iter().copied().eq(0..places.len() as u32);
        Self {
            id: tube.id.number(),
            name: part.name.clone(),
            hidden: tube.hidden,
            note: part.note.clone(),
            tube: TubeV1(part.tube.clone()),
            tooling: ToolingV2 {
                die: part.tooling.die.clone(),
                clamp_mm: part.tooling.clamp.map(ClampMillimetres),
                from: part.tooling.from.into(),
                hand: part.tooling.hand.map(Into::into),
                seam_start_deg: part.tooling.seam_start.map(SeamDegrees),
                as_planned: part.tooling.as_planned,
                tolerance: Some(part.tooling.tolerance).filter(|choice| choice.is_own()).map(ToleranceV2),
            },
            stock: StockV1(part.stock),
            path: PathV1(part.path.clone()),
            places: if count_from_0 { Vec::new() } else { places },
            keep: KeepV1::of(&part.keep),
            pieces: part.pieces.iter().cloned().map(PieceV2).collect(),
        }
    }
}

impl<'de> Deserialize<'de> for TubesV3 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        tubes::<D, TubeOfSystemV3>(deserializer)
    }
}

/// Reads tubes of some version.
pub(super) fn tubes<'de, D, T>(deserializer: D) -> Result<TubesV3, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de> + Into<TubeOfSystemV3>,
{
    deserializer.deserialize_seq(Tubes::<T>(PhantomData))
}

struct Tubes<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de> + Into<TubeOfSystemV3>> Visitor<'de> for Tubes<T> {
    type Value = TubesV3;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a sequence of tubes")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<TubesV3, A::Error> {
        let (mut ids, mut names) = (HashSet::new(), HashSet::new());
        let mut tubes: Vec<TubeOfSystemV3> = Vec::new();
        while let Some(tube) = seq.next_element::<T>()? {
            let tube: TubeOfSystemV3 = tube.into();
            let refuse =
                |field: String, was: &str, may_be: &str| Err(A::Error::custom(Refusal::new(field, was, may_be)));
            if tubes.len() == System::MOST_TUBES {
                let may_be = format!("{} or fewer", System::MOST_TUBES);
                return refuse("the number of tubes".into(), "larger than that", &may_be);
            }
            if !ids.insert(tube.id) {
                let field = format!("the id {} of the tube \u{201c}{}\u{201d}", tube.id, tube.name);
                return refuse(field, "that of a tube before it too", "a number of its own");
            }
            if !names.insert(tube.name.clone()) {
                let field = format!("the name \u{201c}{}\u{201d}", tube.name);
                return refuse(field, "that of a tube before it too", "one of its own");
            }
            tubes.push(tube);
        }
        if tubes.is_empty() {
            return Err(A::Error::custom(Refusal::new("the number of tubes", "0", "1 or more")));
        }
        Ok(TubesV3(tubes))
    }
}

/// Whether a word that is left out where it is no has to be left out.
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde passes every field by reference")]
fn is_not(yes: &bool) -> bool {
    !yes
}
