//! Every change to a part, as a value: applied by the workbench, offered as a cure by the checks.

mod handle;
mod insert;
mod label;
mod radius;
mod remove;
mod rotation;
mod rows;
mod seam;
mod start;
mod straight;
mod vertices;

use super::text::{harmless, harmless_lines};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendRow, LARGEST_MM, Length, Point3, Refusal, Told};
use thiserror::Error;

use crate::first_off::piece::Piece;
use crate::{End, Hand, Part, Path, Tube};

/// A straight counted from 0: straight k lies before bend k, the last one is the tail.
pub type StraightIndex = usize;

/// A change to a part. Bends, straights and vertices are counted from 0.
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
    MoveHandle(elbowroom_geometry::HandleId, Point3<f64>),
    /// Moves vertex `index`.
    MoveVertex(usize, Point3<f64>),
    /// Adds a vertex on straight `straight`, at a point in space.
    InsertVertex(StraightIndex, Point3<f64>, Length),
    /// Makes a straight so long; everything beyond keeps its direction and moves along.
    SetStraight(StraightIndex, Length),
    /// Sets the rotation before a bend; everything beyond turns along.
    SetRotation(usize, Angle),
    /// Sets a bend's angle; everything beyond turns along.
    SetAngle(usize, Angle),
    /// Sets a bend's radius. In vertex form the vertex stays, in bend form the straights stay.
    SetClr(usize, Length),
    /// Sets the radius of every bend.
    SetEveryClr(Length),
    /// Inserts rows before bend `index` (or at the end), the straights as given.
    InsertRows(usize, Vec<BendRow>),
    /// Replaces `rows.len()` rows from bend `index` on, adding rows at the end as needed.
    ReplaceRows(usize, Vec<BendRow>),
    /// Removes bends: the vertex goes, its neighbours meet directly. Where a bend of the part has no
    /// vertex, the row goes and its straight is added to the next one.
    RemoveBends(Vec<usize>),
    /// Removes vertices by index, those on a line and those that coincide among them.
    RemoveVertices(Vec<usize>),
    /// Moves the whole part so that its lead end lies at a point in space.
    SetStart(Point3<f64>),
    /// Takes another path as a whole.
    SetPath(Path),
    /// Pins the weld seam to a clock position at the first bend, or leaves it where it is stretched least.
    PinSeam(Option<Angle>),
    /// Bends the part from this end of the drawing first. The drawing stays as it is.
    BendFrom(End),
    /// Bends it on a machine that bends to this side, or on the shop's.
    BendToHand(Option<Hand>),
    /// Takes these measured pieces, in the order in which they were bent, in place of those there.
    SetPieces(Vec<Piece>),
    /// Turns the drawing round: what was its finish is its start. Whichever of the two is bent first stays chosen.
    SwapEnds,
    /// Several edits as one step, under one label.
    Together(String, Vec<Edit>),
}

/// Why an edit could not be applied. The part stays as it was.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum EditRefusal {
    /// A number was turned away.
    #[error(transparent)]
    Number(#[from] Refusal),
    /// The edit names something the part does not have.
    #[error("there is no {what}; the part has {has}")]
    NoSuch {
        /// What was named, such as `bend 7`.
        what: String,
        /// What there is, such as `4 bends`.
        has: String,
    },
    /// A straight between two vertices would vanish.
    #[error("{}", vertices_meet(*.straight, *.wanted, *.least, LengthUnit::Millimetre))]
    VerticesMeet {
        /// The straight, counted from 0.
        straight: StraightIndex,
        /// What it was to become.
        wanted: Length,
        /// What it must be more than.
        least: Length,
    },
    /// The change cannot be made for a reason of its own.
    #[error("{0}")]
    Impossible(String),
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
        match self {
            Self::Rename(name) => part.name = harmless(name).into_owned(),
            Self::SetNote(note) => part.note = harmless_lines(note).into_owned(),
            Self::ShowUnits(units) => part.units = *units,
            Self::SetTube(tube) => part.tube = Tube::new(tube.od, tube.wall, harmless(&tube.material), tube.seam)?,
            Self::ChooseDie(name) => part.tooling.die = name.as_deref().map(|name| harmless(name).into_owned()),
            Self::ChooseClamp(length) => part.tooling.clamp = length.map(guarded_clamp).transpose()?,
            Self::SetStock(end, length) => set_stock(part, *end, *length)?,
            Self::SetPath(path) => part.path = path.clone(),
            Self::PinSeam(start) => part.tooling.seam_start = start.map(seam::guarded).transpose()?,
            Self::BendFrom(end) => part.tooling.from = *end,
            Self::BendToHand(hand) => part.tooling.hand = *hand,
            Self::SwapEnds => turn(part),
            Self::SetPieces(pieces) => {
                pieces.iter().enumerate().try_for_each(|(index, piece)| piece.check(index + 1))?;
                part.pieces.clone_from(pieces);
            }
            Self::Together(_, edits) => edits.iter().try_for_each(|edit| edit.apply(part))?,
            _ => part.path = self.path_after(&part.path)?,
        }
        Ok(())
    }

    /// The path after an edit that changes nothing else.
    fn path_after(&self, path: &Path) -> Result<Path, EditRefusal> {
        match self {
            Self::MoveHandle(handle, to) => handle::moved(path, *handle, *to),
            Self::MoveVertex(index, to) => vertices::change(path, |points| points.shift(*index, *to)),
            Self::InsertVertex(straight, at, clr) => insert::vertex(path, *straight, *at, *clr),
            Self::RemoveVertices(indices) => vertices::change(path, |points| points.remove(indices)),
            Self::RemoveBends(bends) => remove::bends(path, bends),
            Self::SetStart(to) => start::moved(path, *to),
            Self::SetStraight(index, length) => straight::set(path, *index, *length),
            Self::SetClr(bend, clr) => radius::set(path, *bend, *clr),
            Self::SetEveryClr(clr) => radius::set_every(path, *clr),
            Self::SetRotation(bend, rotation) => rotation::set(path, *bend, *rotation),
            Self::SetAngle(bend, angle) => rows::change(path, |rows| {
                rows::bend_in(rows, *bend)?.angle = *angle;
                Ok(())
            }),
            Self::InsertRows(index, new) => rows::change(path, |rows| rows::insert(rows, *index, new)),
            Self::ReplaceRows(index, new) => rows::change(path, |rows| rows::replace(rows, *index, new)),
            _ => Ok(path.clone()),
        }
    }
}

fn guarded_clamp(length: Length) -> Result<Length, EditRefusal> {
    if length.is_finite() && length > Length::ZERO && length.mm() <= LARGEST_MM {
        return Ok(length);
    }
    Err(Refusal::new("the clamp length", length, Told::from("more than ").and_length(Length::ZERO)).into())
}

fn set_stock(part: &mut Part, end: End, length: Length) -> Result<(), EditRefusal> {
    let (field, stock) = match end {
        End::Start => ("the extra stock on the lead end", &mut part.stock.lead),
        End::Finish => ("the extra stock on the tail", &mut part.stock.tail),
    };
    if !(length.is_finite() && length >= Length::ZERO && length.mm() <= LARGEST_MM) {
        return Err(Refusal::new(field, length, Told::from(Length::ZERO).and(" or more")).into());
    }
    *stock = length;
    Ok(())
}

fn vertices_meet(straight: StraightIndex, wanted: Length, least: Length, unit: LengthUnit) -> String {
    let (number, wanted, least) = (straight + 1, unit.shown(wanted.mm()), unit.shown(least.mm()));
    format!("straight {number} cannot become {wanted}: its two vertices would meet; it must be more than {least}")
}

impl EditRefusal {
    /// The refusal with its lengths in the unit that the part shows.
    pub fn said(&self, unit: LengthUnit) -> String {
        match self {
            Self::Number(refusal) => refusal.said(unit),
            Self::VerticesMeet { straight, wanted, least } => vertices_meet(*straight, *wanted, *least, unit),
            Self::NoSuch { .. } | Self::Impossible(_) => self.to_string(),
        }
    }

    /// Says that there is no bend `index`, counted from 0, among so many.
    pub(crate) fn no_bend(index: usize, bends: usize) -> Self {
        Self::NoSuch { what: format!("bend {}", index + 1), has: counted(bends, "bend", "bends") }
    }

    /// Says that there is no straight `index`, counted from 0, among so many.
    pub(crate) fn no_straight(index: usize, straights: usize) -> Self {
        Self::NoSuch { what: format!("straight {}", index + 1), has: counted(straights, "straight", "straights") }
    }

    /// Says that there is no vertex `index`, counted from 0, among so many.
    pub(crate) fn no_vertex(index: usize, vertices: usize) -> Self {
        Self::NoSuch { what: format!("vertex {}", index + 1), has: counted(vertices, "vertex", "vertices") }
    }
}

fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// Turns a part round: what was the tail leads, with its stock and its seam.
fn turn(part: &mut Part) {
    part.tooling.seam_start = part.tooling.seam_start.map(|start| seam::turned(&part.path, start));
    part.path = match &part.path {
        Path::Vertices(path) => Path::Vertices(path.reversed()),
        Path::Bends(path) => Path::Bends(path.reversed()),
    };
    std::mem::swap(&mut part.stock.lead, &mut part.stock.tail);
    part.pieces = part.pieces.iter().map(Piece::turned_round).collect();
}

impl Part {
    /// The part in the order in which it is bent from an end: itself, or turned round.
    #[must_use]
    pub fn bent_from(&self, from: End) -> Self {
        let mut part = self.clone();
        if from == End::Finish {
            turn(&mut part);
        }
        part
    }
}
