//! The clock position to which a person pins the seam.

use elbowroom_geometry::{Angle, Refusal};

use crate::Path;
use crate::layout::ahead::is_bend;
use crate::seam::SeamLay;

/// A clock position brought into (-180°, 180°].
pub(super) fn guarded(start: Angle) -> Result<Angle, Refusal> {
    if start.is_finite() {
        return Ok(SeamLay::from_start(start, &[]).start.storable());
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
    SeamLay::from_start(-at_last_bend, &[]).start.storable()
}
