//! Every change to a part, as a value: applied by the workbench, offered as a cure by the checks.

mod asks;
mod changed;
mod form;
mod gave_way;
mod handle;
mod insert;
mod keeping;
mod label;
mod leg;
mod motion;
mod radius;
mod refusal;
mod remove;
mod rotation;
mod rows;
mod seam;
mod start;
mod straight;
mod vertices;

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendRow, HandleId, Length, Point3};

use super::end::End;
use super::keep::{Hold, Keep};
use super::nodes::NodeId;
use super::numbering::Numbering;
use super::part::{ClampLength, Part, SeamStart};
use super::path::Path;
use super::piece::Piece;
use super::shop::Hand;
use super::text::{harmless, harmless_lines};
use super::tolerance::ToleranceChoice;
use super::tube::Tube;
use changed::Changed;
pub use motion::Motion;
pub use refusal::{EditRefusal, StraightIndex};

/// A change to a part. Bends, straights and vertices go by their ids, so that an edit made against one state of
/// the part means the same bend in another; a straight goes by the bend that it lies before, or the finish.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Gives the part another name.
    Rename(String),
    /// Replaces the note.
    SetNote(String),
    /// Shows lengths in another unit. The part itself stays as it is.
    ShowUnits(LengthUnit),
    /// Takes another tube.
    SetTube(Tube),
    /// Chooses a die set by name, or leaves the choice to the shop.
    ChooseDie(Option<String>),
    /// Chooses a clamp by length, or leaves the longest.
    ChooseClamp(Option<Length>),
    /// Puts extra stock on an end.
    SetStock(End, Length),
    /// Moves a handle to a point in space.
    MoveHandle(HandleId<NodeId>, Point3<f64>),
    /// Moves a vertex.
    MoveVertex(NodeId, Point3<f64>),
    /// Moves several vertices at once: what lies between two places is drawn only when all are where they go.
    MoveVertices(Vec<(NodeId, Point3<f64>)>),
    /// Adds a vertex on a straight, at a point in space.
    InsertVertex(NodeId, Point3<f64>, Length),
    /// Makes a straight so long. In bend form everything beyond keeps its direction and moves along; in vertices one of the
    /// two about it moves along their leg, and all others stay.
    SetStraight(NodeId, Length),
    /// Sets the rotation before a bend; everything beyond turns along.
    SetRotation(NodeId, Angle),
    /// Sets a bend's angle; everything beyond turns along.
    SetAngle(NodeId, Angle),
    /// Sets a bend's radius. In vertex form the vertex stays, in bend form the straights stay.
    SetClr(NodeId, Length),
    /// Sets the radius of every bend.
    SetEveryClr(Length),
    /// Inserts rows before a bend, or before the finish, the straights as given.
    InsertRows(NodeId, Vec<BendRow>),
    /// Replaces `rows.len()` rows from a bend on (from the finish: none), adding rows at the end as needed.
    ReplaceRows(NodeId, Vec<BendRow>),
    /// Removes bends: the vertex goes, its neighbours meet directly. Where a bend of the part has no
    /// vertex, the row goes and its straight is added to the next one.
    RemoveBends(Vec<NodeId>),
    /// Removes vertices, those on a line and those that coincide among them.
    RemoveVertices(Vec<NodeId>),
    /// Moves the whole part so that its lead end lies at a point in space.
    SetStart(Point3<f64>),
    /// Moves the whole part without bending it otherwise.
    Move(Motion),
    /// Takes another path as a whole; only its ends are those of before.
    SetPath(Path),
    /// Holds the path in its other form: vertices as bend rows, or bend rows as vertices.
    ChangeForm,
    /// Pins the weld seam to a clock position at the first bend, or leaves it where it is stretched least.
    PinSeam(Option<Angle>),
    /// Bends the part from this end of the drawing first. The drawing stays as it is.
    BendFrom(End),
    /// Bends it on a machine that bends to this side, or on the shop's.
    BendToHand(Option<Hand>),
    /// Takes what measured pieces ask for into the program, or puts it aside.
    CorrectBy(bool),
    /// Judges pieces by this tolerance; what it leaves open is usual.
    SetTolerance(ToleranceChoice),
    /// Takes these measured pieces, in the order in which they were bent, in place of those there.
    SetPieces(Vec<Piece>),
    /// Turns the drawing round: what was its finish is its start. Whichever of the two is bent first stays chosen.
    SwapEnds,
    /// Holds this of an end or a vertex, wherever it lies now, or frees it: other edits leave it where it is.
    Hold(NodeId, Hold),
    /// Frees everything that is held.
    FreeAll,
    /// Where a row is changed and nothing is held, what lies towards this end of the drawing stays.
    KeepSide(End),
    /// Several edits as one step, under one label.
    Together(String, Vec<Edit>),
}

impl Edit {
    /// The part with this change made.
    ///
    /// The path stays in the form it is held in wherever that form can hold the result.
    ///
    /// # Errors
    /// Says why the change cannot be made; the part given stays as it was.
    pub fn applied_to(&self, part: &Part) -> Result<Part, EditRefusal> {
        let mut part = part.clone();
        self.apply(&mut part)?;
        Ok(part)
    }

    fn apply(&self, part: &mut Part) -> Result<(), EditRefusal> {
        let changed = match self {
            Self::Rename(name) => {
                part.name = harmless(name).into_owned();
                None
            }
            Self::SetNote(note) => {
                part.note = harmless_lines(note).into_owned();
                None
            }
            Self::ShowUnits(units) => {
                part.units = *units;
                None
            }
            Self::SetTube(tube) => {
                part.tube.clone_from(tube);
                None
            }
            Self::ChooseDie(name) => {
                part.tooling.die = name.as_deref().map(|name| harmless(name).into_owned());
                None
            }
            Self::ChooseClamp(length) => {
                part.tooling.clamp = length.map(ClampLength::new).transpose()?;
                None
            }
            Self::SetStock(end, length) => {
                part.stock.change(|stock| match end {
                    End::Start => stock.lead = *length,
                    End::Finish => stock.tail = *length,
                })?;
                None
            }
            Self::PinSeam(start) => {
                part.tooling.seam_start = start.map(SeamStart::new).transpose()?;
                None
            }
            Self::BendFrom(end) => {
                part.tooling.from = *end;
                None
            }
            Self::BendToHand(hand) => {
                part.tooling.hand = *hand;
                None
            }
            Self::CorrectBy(pieces) => {
                part.tooling.as_planned = !pieces;
                None
            }
            Self::SetTolerance(tolerance) => {
                part.tooling.tolerance = *tolerance;
                None
            }
            Self::SwapEnds => {
                turn(part)?;
                None
            }
            Self::SetPieces(pieces) => {
                part.pieces.clone_from(pieces);
                None
            }
            Self::Hold(id, hold) => {
                Numbers(Numbering::of(part)).vertex(*id)?;
                part.keep.hold(*id, *hold);
                None
            }
            Self::FreeAll => {
                part.keep = Keep::new(part.keep.side, []);
                None
            }
            Self::KeepSide(end) => {
                part.keep.side = *end;
                None
            }
            Self::Together(_, edits) => {
                edits.iter().try_for_each(|edit| edit.apply(part))?;
                None
            }
            Self::Move(motion) => {
                motion::moved(part, motion)?;
                None
            }
            Self::SetPath(path) => Some(replaced(&part.path, path)),
            Self::ChangeForm => Some(form::changed(&part.path)?),
            Self::SetStart(to) => Some(Changed::in_place(start::moved(&part.path, *to)?)),
            Self::SetEveryClr(clr) => Some(radius::set_every(&part.path, *clr)?),
            Self::MoveHandle(..)
            | Self::MoveVertex(..)
            | Self::MoveVertices(..)
            | Self::InsertVertex(..)
            | Self::SetStraight(..)
            | Self::SetRotation(..)
            | Self::SetAngle(..)
            | Self::SetClr(..)
            | Self::InsertRows(..)
            | Self::ReplaceRows(..)
            | Self::RemoveBends(..)
            | Self::RemoveVertices(..) => Some(self.at_its_place(part, &Numbers(Numbering::of(part)))?),
        };
        if let Some(changed) = changed {
            changed.path.check()?;
            let nodes = part.nodes.after(part.path.places(), &changed.from);
            // Mostly nothing has to stay, and an edit is worked out at every move of a drag.
            part.path = if part.keep == Keep::default() {
                changed.path
            } else {
                let before = part.nodes.ids(part.path.places());
                let asked = self.asks(&nodes.ids(changed.path.places()), &before);
                keeping::kept(part, asked, changed.path, &nodes)?
            };
            part.path.check()?;
            part.nodes = nodes;
        }
        Ok(())
    }

    /// The path after an edit that goes by an id. The others leave it as it is; they have their own way.
    fn at_its_place(&self, part: &Part, ids: &Numbers) -> Result<Changed, EditRefusal> {
        let path = &part.path;
        match self {
            Self::MoveHandle(handle, to) => handle::moved(path, ids.handle(*handle)?, *to),
            Self::MoveVertex(vertex, to) => {
                let index = ids.vertex(*vertex)?;
                vertices::change(path, |points| points.shift(index, *to))
            }
            Self::MoveVertices(moved) => {
                let places: Vec<usize> = moved.iter().map(|(id, _)| ids.vertex(*id)).collect::<Result<_, _>>()?;
                vertices::change(path, |points| {
                    places.iter().zip(moved).try_for_each(|(place, (_, to))| points.shift(*place, *to))
                })
            }
            Self::InsertVertex(straight, at, clr) => insert::vertex(path, ids.straight(*straight)?, *at, *clr),
            Self::SetStraight(straight, length) => {
                let index = ids.straight(*straight)?;
                straight::set(path, index, *length, &movable(&part.keep, &ids.0, index))
            }
            Self::SetRotation(bend, rotation) => rotation::set(path, ids.bend(*bend)?, *rotation),
            Self::SetAngle(bend, angle) => {
                let index = ids.bend(*bend)?;
                rows::change(path, |rows| {
                    rows::bend_in(rows, index)?.angle = *angle;
                    Ok(())
                })
            }
            Self::SetClr(bend, clr) => radius::set(path, ids.bend(*bend)?, *clr),
            Self::InsertRows(before, new) => {
                let index = ids.straight(*before)?;
                rows::change(path, |rows| rows::insert(rows, index, new))
            }
            Self::ReplaceRows(first, new) => {
                let index = ids.straight(*first)?;
                rows::change(path, |rows| rows::replace(rows, index, new))
            }
            Self::RemoveBends(bends) => {
                let indices: Vec<usize> = bends.iter().map(|bend| ids.bend(*bend)).collect::<Result<_, _>>()?;
                remove::bends(path, &indices)
            }
            Self::RemoveVertices(which) => {
                let indices: Vec<usize> = which.iter().map(|vertex| ids.vertex(*vertex)).collect::<Result<_, _>>()?;
                vertices::change(path, |points| points.remove(&indices))
            }
            Self::Rename(_)
            | Self::SetNote(_)
            | Self::ShowUnits(_)
            | Self::SetTube(_)
            | Self::ChooseDie(_)
            | Self::ChooseClamp(_)
            | Self::SetStock(..)
            | Self::SetEveryClr(_)
            | Self::SetStart(_)
            | Self::Move(_)
            | Self::SetPath(_)
            | Self::ChangeForm
            | Self::PinSeam(_)
            | Self::BendFrom(_)
            | Self::BendToHand(_)
            | Self::CorrectBy(_)
            | Self::SetTolerance(_)
            | Self::SetPieces(_)
            | Self::SwapEnds
            | Self::Hold(..)
            | Self::FreeAll
            | Self::KeepSide(_)
            | Self::Together(..) => Ok(Changed::in_place(path.clone())),
        }
    }
}

/// Another path in place of one: its ends are the ends.
fn replaced(before: &Path, after: &Path) -> Changed {
    let (old, new) = (before.places(), after.places());
    let from = (0..new).map(|place| match place {
        0 => old.checked_sub(1).map(|_| 0),
        last if last + 1 == new => old.checked_sub(1),
        _ => None,
    });
    Changed { from: from.collect(), path: after.clone() }
}

/// The ends of a straight that may move along it, those away from the side that stays first.
fn movable(keep: &Keep, ids: &Numbering, straight: usize) -> Vec<End> {
    let before = straight.checked_sub(1).map_or(ids.start(), |bend| ids.bend(bend));
    let held = |end: End| match end {
        End::Start => keep.of(before).place,
        End::Finish => keep.of(ids.straight(straight)).place,
    };
    [keep.side.other(), keep.side].into_iter().filter(|end| !held(*end)).collect()
}

/// The numbering of the part that is edited, with a refusal for what it does not have.
struct Numbers(Numbering);

impl Numbers {
    fn bend(&self, id: NodeId) -> Result<usize, EditRefusal> {
        self.0.bend_at(id).ok_or_else(|| EditRefusal::gone("such bend", self.0.bends(), "bend", "bends"))
    }

    fn straight(&self, id: NodeId) -> Result<usize, EditRefusal> {
        let straights = self.0.bends() + 1;
        self.0.straight_at(id).ok_or_else(|| EditRefusal::gone("such straight", straights, "straight", "straights"))
    }

    /// On a path in rows the vertex of a bend, or of an end.
    fn vertex(&self, id: NodeId) -> Result<usize, EditRefusal> {
        let vertices = self.0.ids().len();
        self.0.place(id).ok_or_else(|| EditRefusal::gone("such vertex", vertices, "vertex", "vertices"))
    }

    fn handle(&self, handle: HandleId<NodeId>) -> Result<HandleId, EditRefusal> {
        let found = self.0.handle_at(handle);
        found.ok_or_else(|| EditRefusal::gone("such bend", self.0.bends(), "bend", "bends"))
    }
}

/// Turns a part round: what was the tail leads, with its stock and its seam.
fn turn(part: &mut Part) -> Result<(), EditRefusal> {
    let path = match &part.path {
        Path::Vertices(path) => Path::Vertices(path.reversed()),
        Path::Bends(path) => Path::Bends(path.reversed()),
    };
    path.check()?;
    let count = part.path.places();
    let from: Vec<Option<usize>> = (0..count).rev().map(Some).collect();
    part.nodes = part.nodes.after(count, &from);
    part.tooling.seam_start = part.tooling.seam_start.map(|start| seam::turned(&part.path, start));
    part.path = path;
    part.stock = part.stock.turned_round();
    part.pieces = part.pieces.iter().map(Piece::turned_round).collect();
    Ok(())
}
