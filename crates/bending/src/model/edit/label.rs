//! What undo and redo call an edit.

use elbowroom_geometry::{Angle, HandleId, Length};

use super::refusal::counted;
use super::{Edit, Motion};
use crate::{End, Hand, NodeId, Numbering, Part, Path};

impl Edit {
    /// What undo and redo call it, such as `move vertex 3` or `set angle of bend 2 to 45.0°`, when it is made
    /// on a part. Everything is counted from 1 and lengths are in the unit that the part shows, as on screen.
    pub fn label(&self, part: &Part) -> String {
        let unit = part.units;
        let mm = |length: &Length| unit.shown(length.mm());
        // Most edits need no numbers, and to count the bends of a large part takes a moment.
        let ids = std::cell::LazyCell::new(|| part.numbering());
        let bend = |id: &NodeId| named("bend", ids.bend_at(*id));
        let straight = |id: &NodeId| named("straight", ids.straight_at(*id));
        let vertex = |id: &NodeId| named("vertex", ids.place(*id));
        let place = |id: &NodeId| match *id {
            start if start == ids.start() => "the start".to_owned(),
            finish if finish == ids.finish() => "the finish".to_owned(),
            other => ids.bend_at(other).map_or_else(|| vertex(&other), |bend| format!("bend {}", bend + 1)),
        };
        match self {
            Self::Rename(name) => format!("rename to \u{201c}{name}\u{201d}"),
            Self::SetNote(_) => "change note".into(),
            Self::ShowUnits(unit) => format!("show lengths in {}", unit.name()),
            Self::SetTube(tube) => format!("take tube {}", tube.size(unit)),
            Self::ChooseDie(Some(name)) => format!("choose die set \u{201c}{name}\u{201d}"),
            Self::ChooseDie(None) => "leave die sets to the shop".into(),
            Self::ChooseClamp(Some(length)) => format!("choose {} clamp", mm(length)),
            Self::ChooseClamp(None) => "take the longest clamp".into(),
            Self::SetStock(End::Start, length) => format!("set extra stock at the start to {}", mm(length)),
            Self::SetStock(End::Finish, length) => format!("set extra stock at the finish to {}", mm(length)),
            Self::MoveHandle(handle, _) => format!("move {}", handle_name(*handle, &ids)),
            Self::MoveVertex(id, _) => format!("move {}", vertex(id)),
            Self::MoveVertices(moved) => match moved.as_slice() {
                [(one, _)] => format!("move {}", vertex(one)),
                _ => format!("move {}", counted(moved.len(), "vertex", "vertices")),
            },
            Self::InsertVertex(id, ..) => format!("add vertex on {}", straight(id)),
            Self::SetStraight(id, length) => format!("set {} to {}", straight(id), mm(length)),
            Self::SetRotation(id, angle) => format!("set rotation of {} to {}", bend(id), degrees(*angle)),
            Self::SetAngle(id, angle) => format!("set angle of {} to {}", bend(id), degrees(*angle)),
            Self::SetClr(id, length) => format!("set CLR of {} to {}", bend(id), mm(length)),
            Self::SetEveryClr(length) => format!("set every CLR to {}", mm(length)),
            Self::InsertRows(_, rows) => format!("insert {}", counted(rows.len(), "row", "rows")),
            Self::ReplaceRows(id, rows) => match (ids.straight_at(*id), rows.len()) {
                (Some(index), 1) => format!("change row {}", index + 1),
                (Some(index), count) => format!("change rows {} to {}", index + 1, index + count),
                (None, count) => format!("change {}", counted(count, "row", "rows")),
            },
            Self::RemoveBends(bends) => match bends.as_slice() {
                [one] => format!("remove {}", bend(one)),
                _ => format!("remove {}", counted(bends.len(), "bend", "bends")),
            },
            Self::RemoveVertices(which) => match which.as_slice() {
                [one] => format!("remove {}", vertex(one)),
                _ => format!("remove {}", counted(which.len(), "vertex", "vertices")),
            },
            Self::SetStart(_) => "move the whole part".into(),
            Self::Move(Motion::By(_)) => "move the whole part".into(),
            Self::Move(Motion::Turned { .. }) => "turn the whole part".into(),
            Self::Move(Motion::Mirrored { .. }) => "mirror the whole part".into(),
            Self::SetPath(_) => "replace the path".into(),
            Self::ChangeForm => match part.path {
                Path::Vertices(_) => "hold the path as bend rows".into(),
                Path::Bends(_) => "hold the path as vertices".into(),
            },
            Self::PinSeam(Some(start)) => format!("put the seam at {}", degrees(*start)),
            Self::PinSeam(None) => "leave the seam where it is stretched least".into(),
            Self::SetPieces(pieces) => format!("keep {}", counted(pieces.len(), "measured piece", "measured pieces")),
            Self::BendFrom(End::Start) => "bend from the start".into(),
            Self::BendFrom(End::Finish) => "bend from the finish".into(),
            Self::BendToHand(Some(Hand::Left)) => "bend to the left".into(),
            Self::BendToHand(Some(Hand::Right)) => "bend to the right".into(),
            Self::BendToHand(None) => "bend to the side of the shop's machine".into(),
            Self::CorrectBy(true) => "correct the program by measured pieces".into(),
            Self::CorrectBy(false) => "leave the program as planned".into(),
            Self::SetTolerance(tolerance) => match (tolerance.angle(), &tolerance.length()) {
                (None, None) => "go back to the usual tolerance".into(),
                (Some(angle), None) => format!("allow {} on angles", degrees(angle)),
                (None, Some(length)) => format!("allow {} on lengths", mm(length)),
                (Some(angle), Some(length)) => format!("allow {} and {}", degrees(angle), mm(length)),
            },
            Self::SwapEnds => "swap ends".into(),
            Self::Hold(id, hold) => match (hold.place, hold.direction) {
                (true, true) => format!("hold {} and its direction", place(id)),
                (true, false) => format!("hold {}", place(id)),
                (false, true) => format!("hold the direction of {}", place(id)),
                (false, false) => format!("free {}", place(id)),
            },
            Self::FreeAll => "free everything held".into(),
            Self::KeepSide(End::Start) => "keep what lies towards the start".into(),
            Self::KeepSide(End::Finish) => "keep what lies towards the finish".into(),
            Self::Together(label, _) => label.clone(),
        }
    }
}

fn degrees(angle: Angle) -> String {
    format!("{:.1}°", angle.degrees())
}

/// What is meant, by its number where the part has it.
fn named(what: &str, index: Option<usize>) -> String {
    match index {
        Some(index) => format!("{what} {}", index + 1),
        None => format!("a {what}"),
    }
}

fn handle_name(handle: HandleId<NodeId>, ids: &Numbering) -> String {
    let bend = |id: NodeId| named("bend", ids.bend_at(id));
    match handle {
        HandleId::Start => "start".into(),
        HandleId::Vertex(id) => format!("vertex of {}", bend(id)),
        HandleId::ArcStart(id) => format!("start of {}", bend(id)),
        HandleId::ArcEnd(id) => format!("end of {}", bend(id)),
        HandleId::Finish => "finish".into(),
    }
}
