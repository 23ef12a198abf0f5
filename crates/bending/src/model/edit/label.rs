//! What undo and redo call an edit.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, HandleId, Length};

use super::{Edit, counted};
use crate::{End, Hand};

impl Edit {
    /// What undo and redo call it, such as `move vertex 3` or `set angle of bend 2 to 45.0°`. Everything
    /// is counted from 1 and lengths are in the unit that the part shows, as on screen.
    pub fn label(&self, unit: LengthUnit) -> String {
        let mm = |length: &Length| unit.shown(length.mm());
        match self {
            Self::Rename(name) => format!("rename to \u{201c}{name}\u{201d}"),
            Self::SetNote(_) => "change note".into(),
            Self::ShowUnits(unit) => format!("show lengths in {}", unit.name()),
            Self::SetTube(tube) => format!("take tube {}", tube.size(unit)),
            Self::ChooseDie(Some(name)) => format!("choose die set \u{201c}{name}\u{201d}"),
            Self::ChooseDie(None) => "leave die sets to the shop".into(),
            Self::ChooseClamp(Some(length)) => format!("choose {} clamp", mm(length)),
            Self::ChooseClamp(None) => "take the longest clamp".into(),
            Self::SetStock(End::Start, length) => format!("set extra stock at lead end to {}", mm(length)),
            Self::SetStock(End::Finish, length) => format!("set extra stock at tail to {}", mm(length)),
            Self::MoveHandle(handle, _) => format!("move {}", handle_name(*handle)),
            Self::MoveVertex(index, _) => format!("move vertex {}", index + 1),
            Self::InsertVertex(straight, ..) => format!("add vertex on straight {}", straight + 1),
            Self::SetStraight(index, length) => format!("set straight {} to {}", index + 1, mm(length)),
            Self::SetRotation(bend, angle) => format!("set rotation of bend {} to {}", bend + 1, degrees(*angle)),
            Self::SetAngle(bend, angle) => format!("set angle of bend {} to {}", bend + 1, degrees(*angle)),
            Self::SetClr(bend, length) => format!("set CLR of bend {} to {}", bend + 1, mm(length)),
            Self::SetEveryClr(length) => format!("set every CLR to {}", mm(length)),
            Self::InsertRows(_, rows) => format!("insert {}", counted(rows.len(), "row", "rows")),
            Self::ReplaceRows(index, rows) => match rows.len() {
                1 => format!("change row {}", index + 1),
                count => format!("change rows {} to {}", index + 1, index + count),
            },
            Self::RemoveBends(bends) => match bends.as_slice() {
                [bend] => format!("remove bend {}", bend + 1),
                _ => format!("remove {}", counted(bends.len(), "bend", "bends")),
            },
            Self::RemoveVertices(indices) => match indices.as_slice() {
                [index] => format!("remove vertex {}", index + 1),
                _ => format!("remove {}", counted(indices.len(), "vertex", "vertices")),
            },
            Self::SetStart(_) => "move the whole part".into(),
            Self::SetPath(_) => "replace the path".into(),
            Self::PinSeam(Some(start)) => format!("put the seam at {}", degrees(*start)),
            Self::PinSeam(None) => "leave the seam where it is stretched least".into(),
            Self::SetPieces(pieces) => format!("keep {}", counted(pieces.len(), "measured piece", "measured pieces")),
            Self::BendFrom(End::Start) => "bend from the start".into(),
            Self::BendFrom(End::Finish) => "bend from the finish".into(),
            Self::BendToHand(Some(Hand::Left)) => "bend to the left".into(),
            Self::BendToHand(Some(Hand::Right)) => "bend to the right".into(),
            Self::BendToHand(None) => "bend to the side of the shop's machine".into(),
            Self::SwapEnds => "swap ends".into(),
            Self::Together(label, _) => label.clone(),
        }
    }
}

fn degrees(angle: Angle) -> String {
    format!("{:.1}°", angle.degrees())
}

fn handle_name(handle: HandleId) -> String {
    match handle {
        HandleId::Start => "lead end".into(),
        HandleId::Vertex(bend) => format!("vertex of bend {}", bend + 1),
        HandleId::ArcStart(bend) => format!("start of bend {}", bend + 1),
        HandleId::ArcEnd(bend) => format!("end of bend {}", bend + 1),
        HandleId::Finish => "tail end".into(),
    }
}
