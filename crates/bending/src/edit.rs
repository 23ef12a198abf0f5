//! Every change to a part, as a value: applied by the workbench, offered as a cure by the checks.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendRow, Length, Point3, Refusal};
use thiserror::Error;

use crate::{End, Part, Path, Tube};

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
    /// Moves vertex `index` of a path held in vertex form.
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
    /// Removes bends: the vertex goes, its neighbours meet directly.
    RemoveBends(Vec<usize>),
    /// Takes another path as a whole.
    SetPath(Path),
    /// Turns the part round, so that the other end is bent first.
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
    /// The change cannot be made for a reason of its own.
    #[error("{0}")]
    Impossible(String),
}

impl Edit {
    /// The part with this change made.
    ///
    /// # Errors
    /// Says why the change cannot be made; the part given stays as it was.
    pub fn applied_to(&self, part: &Part) -> Result<Part, EditRefusal> {
        let _ = part;
        Err(EditRefusal::Impossible("under construction".into()))
    }

    /// What undo and redo call it, such as `move vertex 3`.
    pub fn label(&self) -> String {
        String::new()
    }
}
