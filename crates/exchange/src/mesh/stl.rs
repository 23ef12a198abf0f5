//! Binary STL: triangles alone, in mm. The format says neither its unit nor what it shows (from memory of its description).

use elbowroom_bending::System;
use elbowroom_workbench::file::FileProblem;

use super::hollow::hollow;
use crate::error::TextError;
use crate::sound_run::sound_run;

/// What the head of the file says. It must not begin with `solid`, which would be taken for text.
const HEAD: &[u8] = b"Elbowroom: bent tubes, hollow, mm";

/// The binary STL file of all tubes of a system, mm. `file` is what the person calls it; it stands in the errors.
///
/// # Errors
/// Says which tube has no solid, and why not.
pub fn write(system: &System, file: &str) -> Result<Vec<u8>, FileProblem> {
    bytes_of(system).map_err(|error| error.in_file(file))
}

fn bytes_of(system: &System) -> Result<Vec<u8>, TextError> {
    let mut bytes = vec![0; 84];
    bytes[..HEAD.len()].copy_from_slice(HEAD);
    let mut count: u32 = 0;
    for tube in system.tubes() {
        let part = &tube.part;
        let (run, outer_mm) = (sound_run(part)?, part.tube.od.mm() / 2.0);
        let mesh = hollow(&run, outer_mm, outer_mm - part.tube.wall.mm(), &[])?;
        for triangle in mesh.bands.iter().flat_map(|band| &band.triangles) {
            let corners = triangle.map(|vertex| mesh.positions[vertex as usize]);
            let normal = (corners[1] - corners[0]).cross(&(corners[2] - corners[0]));
            let normal = normal.try_normalize(0.0).unwrap_or_default();
            let figures =
                normal.iter().copied().chain(corners.iter().flat_map(|corner| [corner.x, corner.y, corner.z]));
            bytes.extend(figures.flat_map(|figure| (figure as f32).to_le_bytes()));
            bytes.extend([0, 0]);
            count = count.checked_add(1).ok_or_else(|| {
                TextError::whole("there are too many triangles for an STL file", "write the tubes one by one")
            })?;
        }
    }
    bytes[80..84].copy_from_slice(&count.to_le_bytes());
    Ok(bytes)
}
