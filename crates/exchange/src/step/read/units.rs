//! The unit of length of what a file shows.

use super::exchange::Exchange;
use super::value::{Record, Value};
use crate::error::TextError;

/// How deep units may be said in units: an inch in millimetres is one deep.
const DEEPEST: usize = 8;

impl Exchange<'_> {
    /// How many mm the unit of length of a representation's context is.
    ///
    /// # Errors
    /// A context that names no unit of length is refused: a guess would make a tube of another size.
    pub fn unit_mm(&self, context: u64) -> Result<f64, TextError> {
        let record = self.record(context)?;
        let units = record.of("GLOBAL_UNIT_ASSIGNED_CONTEXT").and_then(|values| values.first());
        for unit in units.map(Value::list).unwrap_or_default().iter().filter_map(Value::reference) {
            let unit = self.record(unit)?;
            if unit.of("LENGTH_UNIT").is_some() || unit.kind() == "SI_UNIT" && is_metre(unit.values()) {
                return self.length_mm(&unit, DEEPEST);
            }
        }
        let right = "it must say whether lengths are mm, inches or others; write the file again with its units";
        Err(self.wrong(context, "names no unit of length", right))
    }

    fn length_mm(&self, unit: &Record<'_>, depth: usize) -> Result<f64, TextError> {
        let unknown = || self.wrong(unit.number, "is no unit of length", "it must be a metre or be said in metres");
        if let Some(values) = unit.of("SI_UNIT") {
            return if is_metre(values) {
                prefix(values).map(|of| of * 1000.0).ok_or_else(unknown)
            } else {
                Err(unknown())
            };
        }
        let factor = unit.of("CONVERSION_BASED_UNIT").and_then(|values| values.get(1)).and_then(Value::reference);
        let (Some(factor), Some(depth)) = (factor, depth.checked_sub(1)) else { return Err(unknown()) };
        let measure = self.record(factor)?;
        let (value, of) = measured(&measure).ok_or_else(unknown)?;
        let mm = value * self.length_mm(&self.record(of)?, depth)?;
        // Between a nanometre and a kilometre.
        if (1e-6..=1e6).contains(&mm) { Ok(mm) } else { Err(unknown()) }
    }
}

/// Whether the values of an SI unit are those of the metre. Behind NAMED_UNIT they stand alone, else behind its dimensions.
fn is_metre(values: &[Value<'_>]) -> bool {
    values.last() == Some(&Value::Choice("METRE"))
}

fn prefix(values: &[Value<'_>]) -> Option<f64> {
    match values.len().checked_sub(2).and_then(|before| values.get(before)) {
        None | Some(Value::Nothing) => Some(1.0),
        Some(Value::Choice(prefix)) => match *prefix {
            "KILO" => Some(1e3),
            "DECI" => Some(1e-1),
            "CENTI" => Some(1e-2),
            "MILLI" => Some(1e-3),
            "MICRO" => Some(1e-6),
            _ => None,
        },
        Some(_) => None,
    }
}

/// The value of a measure and the unit that it is in.
fn measured(measure: &Record<'_>) -> Option<(f64, u64)> {
    let kinds = ["LENGTH_MEASURE_WITH_UNIT", "MEASURE_WITH_UNIT"];
    let values = kinds.iter().find_map(|kind| measure.of(kind).filter(|values| values.len() == 2))?;
    Some((values[0].number()?, values[1].reference()?))
}
