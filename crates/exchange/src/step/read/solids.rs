//! The faces of a solid or shell.

use super::exchange::Exchange;
use super::value::{Record, Value};
use crate::error::TextError;

impl Exchange<'_> {
    /// The records of the faces of a solid or of the shells of a surface model, with whether each is turned inside out.
    pub fn faces_of(&self, number: u64) -> Result<Vec<(u64, bool)>, TextError> {
        let record = self.record(number)?;
        let mut faces = Vec::new();
        for (kind, values) in &record.kinds {
            match *kind {
                "MANIFOLD_SOLID_BREP" | "BREP_WITH_VOIDS" => {
                    // The name is left out where the record is of several kinds.
                    for value in values {
                        match value {
                            Value::Ref(shell) => self.shell(*shell, false, &mut faces)?,
                            Value::List(voids) => {
                                for void in voids.iter().filter_map(Value::reference) {
                                    self.shell(void, false, &mut faces)?;
                                }
                            }
                            _ => {}
                        }
                    }
                }
                "SHELL_BASED_SURFACE_MODEL" => {
                    for shell in values.iter().flat_map(|value| value.list()).filter_map(Value::reference) {
                        self.shell(shell, false, &mut faces)?;
                    }
                }
                _ => {}
            }
        }
        Ok(faces)
    }

    fn shell(&self, number: u64, turned: bool, faces: &mut Vec<(u64, bool)>) -> Result<(), TextError> {
        let record = self.record(number)?;
        let oriented = record.of("ORIENTED_CLOSED_SHELL").or_else(|| record.of("ORIENTED_OPEN_SHELL"));
        let (record, turned) = match oriented {
            Some(values) => {
                let inner = values.iter().find_map(Value::reference);
                let along = values.iter().find_map(Value::truth).unwrap_or(true);
                let inner = inner.ok_or_else(|| self.wrong(number, "turns no shell", "it must name a shell"))?;
                (self.record(inner)?, turned == along)
            }
            None => (record, turned),
        };
        let shell = record
            .of("CLOSED_SHELL")
            .or_else(|| record.of("OPEN_SHELL"))
            .or_else(|| record.of("CONNECTED_FACE_SET").filter(|_| record.of("CLOSED_SHELL").is_none()));
        let Some(shell) = shell else {
            return Err(self.wrong(number, "is no shell", "a solid must be closed by a shell of faces"));
        };
        for face in shell.iter().flat_map(|value| value.list()).filter_map(Value::reference) {
            let (face, turned) = self.unturned(face, turned)?;
            faces.push((face, turned));
        }
        Ok(())
    }

    /// The face behind an ORIENTED_FACE.
    fn unturned(&self, number: u64, turned: bool) -> Result<(u64, bool), TextError> {
        let record = self.record(number)?;
        let Some(values) = record.of("ORIENTED_FACE") else { return Ok((number, turned)) };
        let inner = values.iter().find_map(Value::reference);
        let along = values.iter().find_map(Value::truth).unwrap_or(true);
        let inner = inner.ok_or_else(|| self.wrong(number, "turns no face", "it must name a face"))?;
        Ok((inner, turned == along))
    }

    /// A curve behind what only says more of it: its traces on surfaces, or which part of it counts.
    pub fn curve(&self, number: u64) -> Result<Record<'_>, TextError> {
        let mut record = self.record(number)?;
        // Each step leads to a curve of fewer words; a file that goes in circles ends here.
        for _ in 0..4 {
            let wraps = ["SURFACE_CURVE", "SEAM_CURVE", "INTERSECTION_CURVE", "TRIMMED_CURVE"].contains(&record.kind());
            let Some(inner) = record.values().get(1).and_then(Value::reference).filter(|_| wraps) else { break };
            record = self.record(inner)?;
        }
        Ok(record)
    }
}
