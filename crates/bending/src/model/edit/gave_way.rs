//! What gave way to an edit so that what is held could stay, in words.

use elbowroom_geometry::{Angle, Length};

use super::Edit;
use super::keeping::Set;
use crate::model::nodes::NodeId;
use crate::model::part::Part;
use crate::model::path::Path;

/// So many figures are named; of more only how many.
const NAMED: usize = 3;
/// What changed by less has not changed: a hundredth of the last figure that is shown.
const CHANGED_MM: f64 = 1e-3;
const CHANGED_DEG: f64 = 1e-3;

impl Edit {
    /// What gave way to this edit of a part so that what is held stays, such as `Straight 3 is 260.0 mm now (280.0 mm
    /// before), so that the finish stays.` `None` where nothing is held, or nothing had to give way.
    pub fn gave_way(&self, before: &Part, after: &Part) -> Option<String> {
        let held = before.keep.held();
        if held.is_empty() || before.path == after.path {
            return None;
        }
        let (ids, was) = (after.numbering(), before.numbering());
        let mut gave = match (&before.path, &after.path) {
            (Path::Vertices(_), Path::Vertices(_)) => self.vertices(before, after),
            _ => self.figures(before, after),
        };
        let start_mm = (after.start() - before.start()).norm();
        if start_mm > CHANGED_MM && matches!(after.path, Path::Bends(_)) {
            gave.insert(0, format!("the start lies {} from where it was", before.units.shown(start_mm)));
        }
        let more = gave.len().saturating_sub(NAMED);
        gave.truncate(NAMED);
        if more > 0 {
            gave.push(if more == 1 {
                "one figure more changed".to_owned()
            } else {
                format!("{more} figures more changed")
            });
        }
        let (last, rest) = gave.split_last()?;
        let gave = if rest.is_empty() { last.clone() } else { format!("{} and {last}", rest.join(", ")) };
        let name = |id: NodeId| match id {
            start if start == was.start() => "the start".to_owned(),
            finish if finish == was.finish() => "the finish".to_owned(),
            other => was
                .bend_at(other)
                .or_else(|| ids.bend_at(other))
                .map_or_else(|| "a vertex".to_owned(), |bend| format!("bend {}", bend + 1)),
        };
        let stays = match held {
            [(one, _)] => format!("{} stays", name(*one)),
            [(one, _), (other, _)] => format!("{} and {} stay", name(*one), name(*other)),
            more => format!("{} held places stay", more.len()),
        };
        let first = gave.chars().next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
        Some(format!("{first}{}, so that {stays}.", gave.get(first.len()..).unwrap_or_default()))
    }

    /// Vertices that moved and were not moved by hand.
    fn vertices(&self, before: &Part, after: &Part) -> Vec<String> {
        let ids = |part: &Part| part.nodes.ids(part.path.places());
        let (was, is) = (ids(before), ids(after));
        let asked = self.asks(&is, &was);
        let (Path::Vertices(old), Path::Vertices(new)) = (&before.path, &after.path) else { return Vec::new() };
        let numbering = after.numbering();
        let moved = is.iter().zip(new.points()).filter_map(|(id, at)| {
            let by_hand = asked.as_ref().is_some_and(|asked| asked.placed.iter().any(|(placed, _)| placed == id));
            let there = was.iter().position(|other| other == id).and_then(|place| old.points().get(place))?;
            let by_mm = (at - there).norm();
            let name = match *id {
                start if start == numbering.start() => "the start".to_owned(),
                finish if finish == numbering.finish() => "the finish".to_owned(),
                other => numbering.bend_at(other).map_or_else(
                    || format!("vertex {}", numbering.place(other).unwrap_or(0) + 1),
                    |bend| format!("bend {}", bend + 1),
                ),
            };
            (!by_hand && by_mm > CHANGED_MM).then(|| format!("{name} moved by {}", before.units.shown(by_mm)))
        });
        moved.collect()
    }

    /// Figures of rows that changed and were not typed.
    fn figures(&self, before: &Part, after: &Part) -> Vec<String> {
        let (was, is) = (before.path.bend_form().path, after.path.bend_form().path);
        let (old, new) = (before.numbering(), after.numbering());
        let asked = self.asks(new.ids(), old.ids());
        let is_set = |set: Set| asked.as_ref().is_some_and(|asked| asked.set.contains(&set));
        let length = |mm: f64| before.units.shown(mm);
        let degrees = |angle: Angle| format!("{:.1}°", angle.degrees());
        let mut gave = Vec::new();
        let mut straight = |id: NodeId, number: usize, was: Length, is: Length| {
            if !is_set(Set::Straight(id)) && (is - was).mm().abs() > CHANGED_MM {
                let (is, was) = (length(is.mm()), length(was.mm()));
                gave.push(format!("straight {number} is {is} now ({was} before)"));
            }
        };
        for (bend, row) in is.rows().iter().enumerate() {
            let id = new.bend(bend);
            if let Some(there) = old.bend_at(id).and_then(|bend| was.rows().get(bend)) {
                straight(id, bend + 1, there.straight, row.straight);
            }
        }
        straight(new.finish(), is.rows().len() + 1, was.tail(), is.tail());
        for (bend, row) in is.rows().iter().enumerate() {
            let id = new.bend(bend);
            let Some(there) = old.bend_at(id).and_then(|bend| was.rows().get(bend)) else { continue };
            let turned = |is: Angle, was: Angle| (is - was).within_half_turn().degrees().abs() > CHANGED_DEG;
            if !is_set(Set::Angle(id)) && turned(row.angle, there.angle) {
                let (is, was) = (degrees(row.angle), degrees(there.angle));
                gave.push(format!("bend {} is {is} now ({was} before)", bend + 1));
            }
            if bend > 0 && !is_set(Set::Rotation(id)) && turned(row.rotation, there.rotation) {
                let (is, was) = (degrees(row.rotation), degrees(there.rotation));
                gave.push(format!("the rotation before bend {} is {is} now ({was} before)", bend + 1));
            }
        }
        gave
    }
}
