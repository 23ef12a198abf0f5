//! Removing bends.

use elbowroom_geometry::{BendPath, Length};

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::vertices;
use crate::model::path::Path;

/// Removes bends, each once however often it is named.
pub(super) fn bends(path: &Path, bends: &[usize]) -> Result<Changed, EditRefusal> {
    let form = path.bend_form();
    let count = form.path.rows().len();
    if let Some(&beyond) = bends.iter().find(|&&bend| bend >= count) {
        return Err(EditRefusal::no_bend(beyond, count));
    }
    match path {
        Path::Vertices(_) => {
            let indices: Vec<usize> = bends.iter().map(|&bend| form.vertex_of_bend[bend]).collect();
            vertices::change(path, |points| points.remove(&indices))
        }
        Path::Bends(rows) if rows.to_vertex_form().is_ok() => {
            let indices: Vec<usize> = bends.iter().map(|bend| bend + 1).collect();
            vertices::change(path, |points| points.remove(&indices))
        }
        Path::Bends(rows) => {
            let mut goes = vec![false; count + 2];
            bends.iter().for_each(|bend| goes[bend + 1] = true);
            let from = (0..count + 2).filter(|&place| !goes[place]);
            Ok(Changed { path: Path::Bends(without_rows(rows, bends)?), from: from.map(Some).collect() })
        }
    }
}

/// The rows without some of them; straights and rotations go to the next row that stays.
fn without_rows(path: &BendPath, bends: &[usize]) -> Result<BendPath, EditRefusal> {
    let mut goes = vec![false; path.rows().len()];
    bends.iter().for_each(|&bend| goes[bend] = true);
    let mut rows = Vec::with_capacity(goes.len());
    let mut straight = Length::ZERO;
    let mut rotation = elbowroom_geometry::Angle::ZERO;
    for (row, goes) in path.rows().iter().zip(goes) {
        straight += row.straight;
        rotation += row.rotation;
        if !goes {
            let mut row = *row;
            (row.straight, row.rotation) = (straight, rotation);
            rows.push(row);
            (straight, rotation) = (Length::ZERO, elbowroom_geometry::Angle::ZERO);
        }
    }
    Ok(BendPath::new(*path.start(), rows, straight + path.tail())?)
}
