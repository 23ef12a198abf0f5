//! The clock position to which a person pins the seam.

use elbowroom_geometry::{Angle, Refusal};

use crate::Path;
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
    let at_last_bend = path.bend_form().path.rows().iter().skip(1).fold(start, |at, row| at + row.rotation);
    SeamLay::from_start(-at_last_bend, &[]).start.storable()
}
