//! Unsure figures look unsure in text and JSON, and the mark goes when the shop's own figures take their place.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::compare::compare;
use elbowroom_bending::first_off::ToleranceChoice;
use elbowroom_bending::first_off::job::{Job, tolerance};
use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_bending::program_sheet::ProgramSheet;
use elbowroom_bending::requirements::requirements;
use elbowroom_bending::setup::{Setup, UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_bending::specimen::{bent, part, proved, row, row_at, shop, trial};
use elbowroom_bending::{End, Hand, Part, Shop, solve};
use elbowroom_exchange::report::{
    JudgedJob, TextContext, compare_to_json, compare_to_text, first_off_to_json, program_to_csv, program_to_json,
    program_to_text, to_json, to_text,
};
use elbowroom_geometry::{Angle, BendPath, Length};
use serde_json::Value;

/// Short straights and ends, a bend that slips, and one beyond die and machine.
fn busy() -> Part {
    let rows = vec![row(90.0, 0.0, 45.0), row(115.0, 60.0, 60.0), row(60.0, 180.0, 90.0), row(108.5, 30.0, 20.0)];
    part(rows, 40.0).unwrap()
}

/// The three reports of a part as JSON and as text: check, program, compare.
fn reports(shop: &Shop, from: End) -> [(Value, String); 3] {
    let (drawn, part) = (busy(), bent(&busy(), from, Hand::Right));
    let context = TextContext { shop, shop_from: "test" };
    let (solved, turned) = (solve(&drawn, shop), solve(&part, shop));
    let read = |text: String| serde_json::from_str(&text).unwrap();
    let plan = plan(&part, shop).unwrap();
    let setup = Setup::of(&plan, shop);
    let (compared, required) = (compare(&part, shop), requirements(&part, shop, &turned));
    [
        (read(to_json(&drawn, shop, &solved).unwrap()), to_text(&drawn, &solved, context)),
        (
            read(program_to_json(&plan, &ProgramSheet::of(&plan, shop, setup.clone())).unwrap()),
            program_to_text(&plan, &setup, context),
        ),
        (read(compare_to_json(&compared, &required).unwrap()), compare_to_text(&part, &compared, &required, context)),
    ]
}

/// The paths of everything that says it is unsure, numbers of places left out.
fn unsure(at: &str, value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                let path = if at.is_empty() { name.clone() } else { format!("{at}.{name}") };
                let says = match field {
                    Value::String(word) if name == "from" || name.ends_with("basis") => {
                        ["theory", "common_practice", "memory", "doubtful_trials", "other_wall"]
                            .contains(&word.as_str())
                    }
                    Value::Bool(unsure) if name == "unsure" => *unsure,
                    _ => false,
                };
                if says && !found.contains(&path) {
                    found.push(path.clone());
                }
                unsure(&path, field, found);
            }
        }
        Value::Array(fields) => fields.iter().for_each(|field| unsure(at, field, found)),
        _ => {}
    }
}

fn paths(report: &Value) -> Vec<String> {
    let mut found = Vec::new();
    unsure("", report, &mut found);
    found.sort();
    found
}

#[test]
fn json_says_what_is_unsure_and_no_longer_says_so_when_the_shop_has_proved_it() {
    let wanted: [&[&str]; 3] = [
        &[
            "blank_length_basis",
            "bends.clamp.needs_straight_basis",
            "bends.formed.springback.basis",
            "bends.formed.springback.from",
            "bends.formed.walls.basis",
            "findings.limit_basis",
            "findings.measured_basis",
            "tail_trim_basis",
        ],
        &["blank_length_basis", "setup.unsure", "steps.springback.basis", "steps.springback.from", "tail_trim_basis"],
        &[
            "requirements.bite_basis",
            "requirements.grip_basis",
            "requirements.largest_angle_basis",
            "rows.tail_trim_basis",
            "rows.worst.limit_basis",
        ],
    ];
    // What no figure of a shop can take the place of: rules of thumb for walls, and advice on tooling that is
    // named as such.
    let stays: [&[&str]; 3] = [&["bends.formed.walls.basis"], &["setup.unsure"], &[]];
    let (default, own) = (shop(), proved(shop()));
    for from in [End::Start, End::Finish] {
        let (before, after) = (reports(&default, from), reports(&own, from));
        for (index, wanted) in wanted.iter().enumerate() {
            let found = paths(&before[index].0);
            for path in *wanted {
                assert!(found.iter().any(|found| found == path), "{path} is not among {found:?}");
            }
            let found = paths(&after[index].0);
            assert!(found.iter().all(|path| stays[index].contains(&path.as_str())), "still unsure: {found:?}");
        }
    }
}

/// The lines with the mark, the legend left out.
fn marked(text: &str) -> Vec<&str> {
    text.lines().filter(|line| line.contains(UNSURE_MARK) && *line != UNSURE_LEGEND).collect()
}

#[test]
fn text_marks_what_is_unsure_and_no_longer_does_when_the_shop_has_proved_it() {
    let (default, own) = (shop(), proved(shop()));
    for from in [End::Start, End::Finish] {
        let [check, program, compare] = reports(&default, from).map(|(_, text)| text);
        for (text, words) in [
            (&check, "needs ~107.6 mm here"),
            (&check, "Trim at the "),
            (&program, "Blank length"),
            (&program, "~50.8 at 1.5D: "),
            (&compare, "~107.6"),
            (&compare, "~180.0"),
        ] {
            assert!(marked(text).iter().any(|line| line.contains(words)), "{words}:\n{text}");
            assert!(text.contains(UNSURE_LEGEND), "{text}");
        }
        let [check, program, compare] = reports(&own, from).map(|(_, text)| text);
        // Of the check only the walls by rules of thumb stay unsure: lines of the forming table.
        let is_row = |line: &&str| line.split(' ').next().unwrap().parse::<usize>().is_ok();
        assert!(marked(&check).iter().all(is_row), "{check}");
        assert!(marked(&compare).is_empty() && !compare.contains(UNSURE_LEGEND), "{compare}");
        let (before_setup, setup) = program.split_once("\nSetup\n").unwrap();
        assert!(marked(before_setup).is_empty(), "{before_setup}");
        let names: Vec<String> = marked(setup)
            .iter()
            .map(|line| line.chars().skip(1).take(18).collect::<String>().trim().to_owned())
            .collect();
        let advice =
            ["Pressure die", "Mandrel balls", "Wiper", "Lubricant", "Weld seam", "Clean and deburr", "First piece"];
        assert!(names.iter().all(|name| advice.contains(&name.as_str())), "{names:?}");
    }
}

/// Trial bends that leave a doubt keep the mark in every output: one alone, too close together, closed further when
/// released, of another wall, of a wall that nobody noted.
#[test]
fn trials_in_doubt_are_marked_in_every_output() {
    let of_wall = |wall: Option<f64>| {
        [trial(40.0, 39.0), trial(120.0, 117.0)]
            .map(|one| one.with(|trial| trial.wall = wall.map(Length::from_mm)).unwrap())
            .to_vec()
    };
    for (trials, basis, said) in [
        (vec![trial(90.0, 88.0)], "doubtful_trials", "gives no slope"),
        (vec![trial(90.0, 88.0), trial(95.0, 92.9)], "doubtful_trials", "only 5.0° apart"),
        (vec![trial(30.0, 31.0), trial(120.0, 117.0)], "doubtful_trials", "closed further when it was released"),
        (of_wall(Some(2.0)), "other_wall", "another wall than this tube"),
        (of_wall(None), "other_wall", "a wall that nobody noted"),
    ] {
        let mut shop = proved(shop());
        for record in &mut shop.springback {
            record.change(|record| record.trials.clone_from(&trials)).unwrap();
        }
        let [(check, check_text), (program, program_text), _] = reports(&shop, End::Start);
        for bend in check["bends"].as_array().unwrap() {
            let springback = &bend["formed"]["springback"];
            assert_eq!((springback["from"].as_str(), springback["basis"].as_str()), (Some("trials"), Some(basis)));
            assert_eq!(springback["usually_opens_deg"], Value::Null);
        }
        assert_eq!(check["cut"]["basis"], basis);
        for step in program["steps"].as_array().unwrap() {
            assert_eq!(step["springback"]["basis"], basis);
        }
        assert_eq!(program["blank_length_basis"], basis);
        assert!(check_text.contains("Blank to cut") && check_text.contains(UNSURE_LEGEND), "{check_text}");
        let table = check_text.split("\nForming").nth(1).unwrap();
        let first = table.lines().find(|line| line.starts_with('1')).unwrap();
        assert!(first.contains("~4"), "the set angle of bend 1: {first}");
        assert!(program_text.contains(said), "{said}:\n{program_text}");
        assert!(marked(&program_text).iter().any(|line| line.contains("50.8 at 1.5D")), "{program_text}");
        let plan = plan(&busy(), &shop).unwrap();
        let csv = program_to_csv(&plan).unwrap();
        let place = csv.lines().next().unwrap().split(',').position(|name| name == "springback_basis").unwrap();
        assert!(csv.lines().skip(1).all(|line| line.split(',').nth(place) == Some(basis)), "{csv}");
    }
}

/// One trial on one die set says nothing of another die set, nor of another material.
#[test]
fn one_trial_does_not_take_every_mark_away() {
    let mut own = proved(shop());
    own.springback.retain(|record| record.die != own.die_sets[1].name);
    own.springback[0].change(|known| known.trials = vec![trial(90.0, 88.0)]).unwrap();
    let rows = vec![row(200.0, 0.0, 60.0), row_at(250.0, 60.0, 60.0, 101.6)];
    let part = part(rows, 300.0).unwrap();
    let plan = plan(&part, &own).unwrap();
    let program: Value =
        serde_json::from_str(&program_to_json(&plan, &ProgramSheet::of(&plan, &own, Setup::of(&plan, &own))).unwrap())
            .unwrap();
    let basis = |step: usize| program["steps"][step]["springback"]["basis"].as_str().unwrap().to_owned();
    assert_eq!([basis(0), basis(1)], ["doubtful_trials", "theory"]);
    assert_eq!(program["blank_length_basis"], "theory", "the weaker of the two");
}

/// The first-off says of each figure what it rests on: the usual tolerance, straights that springback leaves, set angles
/// and what follows from them where theory carries them far from what was measured.
#[test]
fn the_first_off_says_what_its_figures_rest_on() {
    let report = |shop: &Shop, chosen: ToleranceChoice| {
        let plan = plan(&busy(), shop).unwrap();
        let mut bent = plan.program.as_bent.clone();
        let mut rows = bent.rows().to_vec();
        rows[1].angle += Angle::from_degrees(4.0);
        bent = BendPath::new(*bent.start(), rows, bent.tail()).unwrap();
        let points = Measurement::Points(bent.to_vertex_form().unwrap().points().to_vec());
        let tolerance = tolerance(&plan, chosen);
        let job = Job::of(&plan, &[Piece::bent_by(&plan, &plan.program, 0, points).unwrap()], &tolerance);
        let judged = JudgedJob { plan: &plan, tolerance, chosen, machine: &shop.machine, job: &job };
        serde_json::from_str::<Value>(&first_off_to_json(judged).unwrap()).unwrap()
    };
    let found = paths(&report(&shop(), ToleranceChoice::default()));
    for path in [
        "found.straights_off_basis",
        "next.blank_length_basis",
        "next.steps.mark_basis",
        "next.steps.set_angle_basis",
        "next.steps.take_up_basis",
        "tolerance.length_basis",
    ] {
        assert!(found.iter().any(|found| found == path), "{path} is not among {found:?}");
    }
    // What lies ahead of the bend that theory carries far is as sure as it was measured.
    let steps = report(&shop(), ToleranceChoice::default())["next"]["steps"].clone();
    assert_eq!((&steps[1]["mark_basis"], &steps[2]["mark_basis"]), (&Value::Null, &Value::from("theory")));
    let own = ToleranceChoice::new(Some(Angle::from_degrees(1.0)), Some(Length::from_mm(1.0))).unwrap();
    assert_eq!(paths(&report(&proved(shop()), own)), Vec::<String>::new());
}

#[test]
fn theory_says_what_is_usual() {
    let report: Value = serde_json::from_str(&to_json(&busy(), &shop(), &solve(&busy(), &shop())).unwrap()).unwrap();
    let springback = &report["bends"][2]["formed"]["springback"];
    let degrees = |value: &Value| value.as_f64().unwrap();
    let opens = degrees(&springback["set_angle_deg"]) - degrees(&springback["free_angle_deg"]);
    for (place, times) in [(0, 2.0), (1, 5.0)] {
        // Real springback is 2 to 5 times what theory says, from memory.
        assert!((degrees(&springback["usually_opens_deg"][place]) - times * opens).abs() < 1e-9);
    }
}
