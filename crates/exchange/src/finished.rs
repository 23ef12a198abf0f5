//! Tubes as they come off the machine: each bend on the radius that springback leaves.

use std::sync::Arc;

use elbowroom_bending::{Part, Path, Shop, System, SystemTube, solve};
use elbowroom_geometry::{BendPath, BendRow, Length, Refusal};
use elbowroom_workbench::file::FileProblem;
use thiserror::Error;

/// Why a tube has no finished shape.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum NotFinished {
    /// The shop bends it with nothing.
    #[error(
        "bend {bend} of \u{201c}{name}\u{201d} has no die set in the shop \u{201c}{shop}\u{201d}, so nobody knows the radius that springback leaves"
    )]
    NoDie {
        /// The tube.
        name: String,
        /// The bend, counted from 1.
        bend: usize,
        /// The shop.
        shop: String,
    },
    /// What springback leaves lies beyond what a path can be.
    #[error("\u{201c}{name}\u{201d} as it comes off the machine lies beyond what can be drawn: {why}")]
    Beyond {
        /// The tube.
        name: String,
        /// What lies beyond.
        why: Refusal,
    },
}

impl NotFinished {
    /// The same, naming the file.
    pub fn in_file_of(self, file: &std::path::Path) -> FileProblem {
        let right = match self {
            Self::NoDie { .. } => "write it as drawn, without --finished, or add the die set to the shop",
            Self::Beyond { .. } => "draw it nearer to the origin",
        };
        FileProblem::whole(file.display().to_string(), self.to_string(), right)
    }
}

/// Every tube of a system on the radii that springback leaves on the shop's die sets. Vertices stay where they were drawn
/// and the straights beside a bend give way, as in the program; the legs of a U stand further apart.
///
/// # Errors
/// Names a bend that has no die set.
pub fn finished(system: &System, shop: &Shop) -> Result<System, NotFinished> {
    let of_tube = |tube: &SystemTube| Ok(SystemTube { part: Arc::new(of_part(&tube.part, shop)?), ..tube.clone() });
    let tubes = system.tubes().iter().map(of_tube).collect::<Result<Vec<_>, _>>()?;
    System::new(system.name(), system.units(), tubes, system.active())
        .and_then(|finished| finished.on_floor(system.floor()))
        .map_err(|why| NotFinished::Beyond { name: system.title().to_owned(), why })
}

fn of_part(part: &Part, shop: &Shop) -> Result<Part, NotFinished> {
    let solved = solve(part, shop);
    let path = &solved.form.path;
    let mut taken_before = Length::ZERO;
    let mut rows = Vec::with_capacity(path.rows().len());
    for (index, (row, bend)) in path.rows().iter().zip(&solved.bends).enumerate() {
        let (clr, taken) = match bend.formed.as_ref().and_then(|formed| formed.released) {
            Some(released) => (Length::from_mm(released.free_clr_mm), Length::from_mm(released.takes_mm)),
            None if !bend.is_bent() => (row.clr, Length::ZERO),
            None => {
                return Err(NotFinished::NoDie { name: part.name.clone(), bend: index + 1, shop: shop.name.clone() });
            }
        };
        rows.push(BendRow { straight: row.straight - taken_before - taken, clr, ..*row });
        taken_before = taken;
    }
    let path = BendPath::new(*path.start(), rows, path.tail() - taken_before)
        .map_err(|why| NotFinished::Beyond { name: part.name.clone(), why })?;
    Ok(Part { path: Path::Bends(path), pieces: Vec::new(), ..part.clone() })
}
