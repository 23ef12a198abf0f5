//! The clock position to which a person pins the seam.

use elbowroom_geometry::{Angle, Refusal};

use crate::model::nearly::is_bend;
use crate::model::path::Path;

/// A clock position brought into (-180°, 180°].
pub(super) fn guarded(start: Angle) -> Result<Angle, Refusal> {
    if start.is_finite() {
        return Ok(start.within_half_turn().storable());
    }
    Err(Refusal::new("the seam's clock position", start.degrees().to_string(), "a number of degrees"))
}

/// The clock position of the seam at the first bend of the part turned round, for its position at the first
/// bend now. The tube does not twist, so the seam has gone on by all rotations, and it is seen from the
/// other side.
pub(super) fn turned(path: &Path, start: Angle) -> Angle {
    let form = path.bend_form();
    let rows = form.path.rows();
    let (first, last) = (rows.iter().position(is_bend), rows.iter().rposition(is_bend));
    let between = first.zip(last).map_or(&[][..], |(first, last)| &rows[first + 1..=last]);
    let at_last_bend = between.iter().fold(start, |at, row| at + row.rotation);
    (-at_last_bend).within_half_turn().storable()
}
