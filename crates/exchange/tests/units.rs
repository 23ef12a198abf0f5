//! Text reports speak in the unit that the part shows; JSON keeps its millimetres whatever that is.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::compare::compare;
use elbowroom_bending::plan::plan;
use elbowroom_bending::program_sheet::ProgramSheet;
use elbowroom_bending::requirements::requirements;
use elbowroom_bending::setup::Setup;
use elbowroom_bending::specimen::{part, row, shop};
use elbowroom_bending::{End, Hand, Part, solve};
use elbowroom_exchange::report::{
    TextContext, compare_to_json, compare_to_text, program_to_csv, program_to_json, program_to_text, to_json, to_text,
};
use elbowroom_geometry::units::LengthUnit;
use serde_json::Value;

/// A part with something to say at every place, shown in a unit.
fn busy(unit: LengthUnit) -> Part {
    let rows = vec![row(90.0, 0.0, 90.0), row(60.0, 40.0, 60.0), row(115.0, 90.0, 45.0)];
    Part { units: unit, ..part(rows, 60.0).unwrap() }
}

fn texts(part: &Part) -> Vec<String> {
    let (shop, solved) = (shop(), solve(part, &shop()));
    let context = TextContext { shop: &shop, shop_from: "test" };
    let mut texts = vec![
        to_text(part, &solved, context),
        compare_to_text(part, &compare(part, &shop), &requirements(part, &shop, &solved), context),
    ];
    for from in [End::Start, End::Finish] {
        let plan = plan(&elbowroom_bending::specimen::bent(part, from, Hand::Right), &shop).unwrap();
        texts.push(program_to_text(&plan, &Setup::of(&plan, &shop), context));
    }
    texts
}

#[test]
fn no_text_report_of_a_part_in_inches_speaks_of_millimetres() {
    for text in texts(&busy(LengthUnit::Inch)) {
        let metric: Vec<&str> =
            text.lines().filter(|line| line.split([' ', ',', ';', ')']).any(|word| word == "mm")).collect();
        assert!(metric.is_empty(), "{metric:#?}");
        assert!(text.contains(" in"), "{text}");
    }
    for text in texts(&busy(LengthUnit::Millimetre)) {
        assert!(text.contains(" mm"), "{text}");
    }
}

#[test]
fn figures_by_hand() {
    // 90 mm is 3.543 in, 76.2 mm 3 in, 125 mm 4.921 in; the wall of 1.5 mm 0.0591 in.
    let report = &texts(&busy(LengthUnit::Inch))[0];
    assert!(report.contains("Tube     2 × 0.0591 in 304 stainless, welded"), "{report}");
    let first = report.lines().find(|line| line.starts_with("1 ")).unwrap();
    assert!(["3.543", "3.000", "4.921"].iter().all(|figure| first.contains(figure)), "{first}");
}

/// A report with every text in it left out.
fn figures(mut value: Value) -> Value {
    match &mut value {
        Value::Object(fields) => {
            fields.retain(|name, _| !["text", "value"].contains(&name.as_str()));
            fields.values_mut().for_each(|field| *field = figures(field.take()));
        }
        Value::Array(items) => items.iter_mut().for_each(|item| *item = figures(item.take())),
        _ => {}
    }
    value
}

#[test]
fn json_and_tables_hold_the_same_figures_in_every_unit() {
    let reports = |unit| {
        let (part, shop) = (busy(unit), shop());
        let solved = solve(&part, &shop);
        let plan = plan(&part, &shop).unwrap();
        let json = [
            to_json(&part, &shop, &solved).unwrap(),
            program_to_json(&plan, &ProgramSheet::of(&plan, &shop, Setup::of(&plan, &shop))).unwrap(),
            compare_to_json(&compare(&part, &shop), &requirements(&part, &shop, &solved)).unwrap(),
        ];
        let json: Vec<Value> = json.iter().map(|text| figures(serde_json::from_str(text).unwrap())).collect();
        (json, program_to_csv(&plan).unwrap())
    };
    let metric = reports(LengthUnit::Millimetre);
    assert!(metric.0[0]["findings"].as_array().unwrap().len() >= 3);
    for unit in LengthUnit::ALL {
        assert_eq!(reports(unit), metric, "{unit:?}");
    }
}
