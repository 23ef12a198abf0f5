//! The text of a part, made certain before anything is written.

use elbowroom_bending::Part;

use super::{FileProblem, read_part, write_part};

/// The text of a part, of which is certain that it reads back as the same part.
///
/// # Errors
/// Says why it would not; nothing must be written then.
pub(crate) fn certain_text(part: &Part, file: &str) -> Result<String, FileProblem> {
    let text = write_part(part);
    match read_part(&text, file).map(|back| as_held(back, part)) {
        Ok(back) if back == *part => Ok(text),
        Ok(_) => Err(FileProblem::whole(file, "the part would not read back as it is", "nothing was written")),
        Err(problem) => {
            Err(FileProblem::whole(file, format!("the part would be refused: {}", problem.what), "nothing was written"))
        }
    }
}

/// A part that was read back, with what its version of the file does not hold: from which end and to which side it is
/// bent.
fn as_held(mut back: Part, part: &Part) -> Part {
    (back.tooling.from, back.tooling.hand) = (part.tooling.from, part.tooling.hand);
    back
}
