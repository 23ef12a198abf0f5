//! The text of a system, made certain before anything is written.

use elbowroom_bending::System;

use super::{FileProblem, read_system, write_system};

/// The text of a system, of which is certain that it reads back as the same system.
///
/// # Errors
/// Says why it would not; nothing must be written then.
pub(crate) fn certain_text(system: &System, file: &str) -> Result<String, FileProblem> {
    let text = write_system(system);
    match read_system(&text, file) {
        Ok(back) if back.holds_the_same_as(system) && back.active() == system.active() => Ok(text),
        Ok(_) => Err(FileProblem::whole(file, "the work would not read back as it is", "nothing was written")),
        Err(problem) => {
            Err(FileProblem::whole(file, format!("the work would be refused: {}", problem.what), "nothing was written"))
        }
    }
}
