//! A part worked out to the end, and what that may take.

use elbowroom_bending::compare::compare;
use elbowroom_bending::first_off::Tolerance;
use elbowroom_bending::first_off::job::Job;
use elbowroom_bending::plan::plan;
use elbowroom_bending::program_sheet::ProgramSheet;
use elbowroom_bending::requirements::requirements;
use elbowroom_bending::setup::Setup;
use elbowroom_bending::{Part, Shop, Words, solve};
use elbowroom_exchange::points_table;
use elbowroom_exchange::report::{
    JudgedJob, TextContext, compare_to_json, compare_to_text, first_off_to_json, first_off_to_text, program_to_csv,
    program_to_json, program_to_text, to_json, to_text,
};
use elbowroom_geometry::{SkinOptions, skin, tolerance_within};
use elbowroom_workbench::file::{read_part, write_part};
use serde_json::Value;

/// A report of a handful of bends, in bytes; ten times what the longest of sound parts takes.
const LONGEST_REPORT: usize = 200_000;
/// Findings of a handful of bends; each check tells a bend once.
const MOST_FINDINGS: usize = 200;
/// Vertices of a skin that keeps within a budget of half as many.
const MOST_VERTICES: usize = 400_000;

/// Solves, checks, plans, reports and draws. Panics say what is not as it must be.
pub fn out(part: &Part, shop: &Shop) {
    let (solved, context) = (solve(part, shop), TextContext { shop, shop_from: "test" });
    assert!(solved.findings.len() <= MOST_FINDINGS, "{} findings", solved.findings.len());
    let words = Words::new(part, shop, &solved);
    said(&solved.verdict(&words).text);
    let report = to_json(part, shop, &solved).unwrap();
    is_json(&report, &["developed_length_mm", "blank_length_mm", "lead_trim_mm", "tail_trim_mm"]);
    let report: Value = serde_json::from_str(&report).unwrap();
    for bend in report["bends"].as_array().unwrap() {
        for field in ["rotation_deg", "angle_deg", "clr_mm", "arc_mm", "starts_at_mm"] {
            assert!(bend[field].is_number(), "{field}: {bend}");
        }
    }
    assert!(report["straights_mm"].as_array().unwrap().iter().all(Value::is_number), "{report}");
    said(&to_text(part, &solved, context));
    let (compared, required) = (compare(part, shop), requirements(part, shop, &solved));
    is_json(&compare_to_json(&compared, &required).unwrap(), &[]);
    said(&compare_to_text(part, &compared, &required, context));
    if let Ok(plan) = plan(part, shop) {
        let setup = Setup::of(&plan, shop);
        is_json(&program_to_json(&plan, &ProgramSheet::of(&plan, shop, setup.clone())).unwrap(), &["blank_length_mm", "tail_mm"]);
        said(&program_to_text(&plan, &setup, context));
        said(&program_to_csv(&plan).unwrap());
        said(&format!("{:?}", ProgramSheet::of(&plan, shop, setup).verdict.text));
        let tolerance = Tolerance::usual(solved.bends.len(), part.tube.od);
        let job = Job::of(&plan, &part.pieces, &tolerance);
        let judged =
            JudgedJob { plan: &plan, tolerance, chosen: part.tooling.tolerance, machine: &shop.machine, job: &job };
        is_json(&first_off_to_json(judged).unwrap(), &[]);
        said(&first_off_to_text(judged));
    }
    let mut options = SkinOptions { od_mm: part.tube.od.mm(), ..SkinOptions::default() };
    options.chord_tolerance_mm = tolerance_within(&solved.centreline, &options, MOST_VERTICES / 2);
    let mesh = skin(&solved.centreline, &options);
    assert!(mesh.positions.len() <= MOST_VERTICES, "{} vertices", mesh.positions.len());
    assert!(mesh.positions.iter().all(|at| at.iter().all(|value| value.is_finite())), "the skin is not finite");
    let mut kept = part.clone();
    // Which place is which is kept by numbers of its own.
    kept.name = "part".into();
    assert_eq!(read_part(&write_part(&kept), "a").as_ref(), Ok(&kept), "saved, it cannot be opened again");
    if let Ok(path) = points_table::of_part(part) {
        assert_eq!(points_table::read(&points_table::write(&path), "a").as_ref(), Ok(&path));
    }
}

fn is_json(text: &str, numbers: &[&str]) {
    said(text);
    let report: Value = serde_json::from_str(text).unwrap();
    for field in numbers {
        assert!(report[field].is_number(), "{field} is {}", report[field]);
    }
}

/// Passes what a person or a script reads: it ends, and every figure in it is a number.
fn said(text: &str) {
    assert!(text.len() <= LONGEST_REPORT, "{} bytes", text.len());
    let of_word = |sign: char| sign.is_alphanumeric();
    let odd = text.split(|sign| !of_word(sign)).find(|word| ["NaN", "nan", "inf"].contains(word));
    assert_eq!(odd, None, "{}", shortened(text, odd));
    // A figure so long was never meant to be read; full precision takes 17 digits and zeros behind them.
    let long = text.split(|sign: char| !sign.is_ascii_digit()).find(|digits| digits.len() > 30);
    assert_eq!(long, None, "{}", shortened(text, long));
}

/// The line with a word of a text.
fn shortened<'a>(text: &'a str, word: Option<&str>) -> String {
    let line = |word: &str| text.lines().find(|line: &&'a str| line.contains(word));
    word.and_then(line).unwrap_or_default().chars().take(300).collect()
}
