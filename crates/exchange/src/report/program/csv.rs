//! The steps of a program as comma-separated text.

use elbowroom_bending::plan::Plan;
use elbowroom_bending::program_table::{COLUMNS, rows};

/// The steps as comma-separated text: a header with units, then one line a step, numbers in full precision.
///
/// # Errors
/// None that is known: it is written to memory. The type is that of the writer.
pub fn program_to_csv(plan: &Plan) -> Result<String, std::io::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for row in rows(plan) {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    String::from_utf8(bytes).map_err(std::io::Error::other)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use elbowroom_bending::plan::plan;
    use elbowroom_bending::specimen;

    #[test]
    fn a_reader_finds_every_column() {
        let mut shop = specimen::shop();
        specimen::change_die(&mut shop, 0, |die| die.name = "big, \"old\" die".into());
        let part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0)], 400.0).unwrap();
        let plan = plan(&part, &shop).unwrap();
        let text = program_to_csv(&plan).unwrap();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        assert_eq!(reader.headers().unwrap().iter().collect::<Vec<_>>(), COLUMNS);
        let record = reader.records().next().unwrap().unwrap();
        assert_eq!(&record[11], "big, \"old\" die");
        assert_eq!(record[2].parse::<f64>().unwrap(), plan.program.steps[0].feed.mm());
    }

    #[test]
    fn no_cell_is_a_formula() {
        for name in ["=1+2", "+60", "-60", "@SUM(A1)", "\t=1", "  =1"] {
            let mut shop = specimen::shop();
            specimen::change_die(&mut shop, 0, |die| die.name = name.into());
            let part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0)], 400.0).unwrap();
            let plan = plan(&part, &shop).unwrap();
            let text = program_to_csv(&plan).unwrap();
            let record = csv::Reader::from_reader(text.as_bytes()).records().next().unwrap().unwrap();
            assert!(
                !record[11].trim_start().starts_with(['=', '+', '-', '@', '\t', '\r']),
                "{name:?}: {:?}",
                &record[11]
            );
        }
    }
}
