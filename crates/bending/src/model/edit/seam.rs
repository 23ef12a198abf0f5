//! The clock position to which a person pins the seam.

use crate::model::nearly::is_bend;
use crate::model::part::SeamStart;
use crate::model::path::Path;

/// The clock position of the seam at the first bend of the part turned round, for its position at the first
/// bend now. The tube does not twist, so the seam has gone on by all rotations, and it is seen from the
/// other side.
pub(super) fn turned(path: &Path, start: SeamStart) -> SeamStart {
    let form = path.bend_form();
    let rows = form.path.rows();
    let (first, last) = (rows.iter().position(is_bend), rows.iter().rposition(is_bend));
    let between = first.zip(last).map_or(&[][..], |(first, last)| &rows[first + 1..=last]);
    let at_last_bend = between.iter().fold(start.clock(), |at, row| at + row.rotation);
    SeamStart::at(-at_last_bend)
}
