//! What a file must not do, whatever stands in it: act when it is shown, or pass a number that no shop has.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{self, jargon::JARGON};
use elbowroom_bending::forming::springback::SpringbackLine;
use elbowroom_bending::{Edit, Knowledge, KnowledgeEdit};
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{FileProblem, built_in_shop, read_part, read_shop, write_part, write_shop};
use elbowroom_workbench::measured_table::{Kind, read_measured};
use elbowroom_workbench::{Command, Home, Question, Workbench};

/// Clears a screen, writes to a clipboard, turns the direction, ends a text, and cannot be seen.
const HOSTILE: &str = "a\u{1b}[2J\u{1b}]52;c;ZQ==\u{7}b\u{9b}c\u{202e}d\0e\u{200b}f\rg\u{feff}";

fn quoted(text: &str) -> String {
    text.chars().map(|sign| format!("\\u{{{:x}}}", u32::from(sign))).collect()
}

fn acts(text: &str) -> bool {
    text.contains(|sign: char| sign.is_control() || HOSTILE.contains(sign) && !sign.is_ascii_graphic())
}

#[test]
fn names_of_a_part_do_nothing_and_are_saved_as_they_are_shown() {
    let text = write_part(&common::zigzag());
    let text = text
        .replacen("\"test part\"", &format!("\"{}\"", quoted(HOSTILE)), 1)
        .replacen("\"304 stainless\"", &format!("\"{}\"", quoted(HOSTILE)), 1)
        .replacen("note: \"\"", &format!("note: \"{}\\nsecond line\"", quoted(HOSTILE)), 1);
    let part = read_part(&text, "a").unwrap();
    assert!(part.name.starts_with("a\u{fffd}[2J") && !acts(&part.name), "{:?}", part.name);
    assert!(!acts(&part.tube.material) && part.note.ends_with("\nsecond line") && !acts(&part.note.replace('\n', "")));
    assert_eq!(read_part(&write_part(&part), "a").unwrap(), part);
    let renamed = Edit::Rename(HOSTILE.into()).applied_to(&part).unwrap();
    assert_eq!(renamed.name, part.name);
}

#[test]
fn names_of_a_shop_do_nothing() {
    let shop = built_in_shop();
    let die = shop.die_sets[0].name.clone();
    let text = write_shop(&shop)
        .replace(&format!("\"{die}\""), &format!("\"{}\"", quoted(HOSTILE)))
        .replace(&format!("\"{}\"", shop.name), &format!("\"{}\"", quoted(HOSTILE)))
        .replace(&format!("\"{}\"", shop.machine.name), &format!("\"{}\"", quoted(HOSTILE)));
    let read = read_shop(&text, "a").unwrap();
    for name in [&read.name, &read.machine.name, &read.die_sets[0].name] {
        assert!(name.contains('\u{fffd}') && !acts(name), "{name:?}");
    }
}

#[test]
fn refusals_quote_harmlessly() {
    let text = write_part(&common::zigzag()).replacen("welded", &format!("r#x{HOSTILE}"), 1);
    let said = read_part(&text, &format!("file{HOSTILE}.ron")).unwrap_err().to_string();
    assert!(said.contains("line ") && !acts(&said), "{said:?}");
    for table in [format!("{HOSTILE} y z\n0 0 0"), format!("0 0 0\n1 2 {HOSTILE}"), format!("x_mm{HOSTILE},y,z\n0,0,0")]
    {
        let said = read_measured(&table, Kind::Points, LengthUnit::Millimetre).unwrap_err().to_string();
        assert!(!acts(&said), "{said:?}");
    }
    assert!(!acts(&FileProblem::whole(HOSTILE, HOSTILE, HOSTILE).to_string()));
}

#[test]
fn file_and_window_refuse_the_same_springback() {
    let shop = built_in_shop();
    let record = |what: &str| {
        let record = format!("springback: [(die: \"50.8 on 76.2\", material: \"304 stainless\", {what})],\n    limits");
        let text = write_shop(&shop);
        assert!(text.contains("    limits"));
        read_shop(&text.replacen("limits", &record, 1), "shop.ron").map_err(|problem| problem.to_string())
    };
    let edit = |what| {
        let (die, material) = ("50.8 on 76.2".to_owned(), "304 stainless".to_owned());
        KnowledgeEdit { die, material, what }.applied_to(&shop).map_err(|refusal| refusal.to_string())
    };
    let line = |a: f64, b: f64| {
        let typed = SpringbackLine::new(Angle::from_degrees(a), b).map_err(|refusal| refusal.to_string());
        let typed = typed.and_then(|line| edit(Knowledge::Line(Some(line))));
        (record(&format!("line: (a_deg: {a:?}, b: {b:?})")), typed)
    };
    assert!(matches!(line(1.5, 0.02), (Ok(_), Ok(_))));
    for (a, b) in [(45.0, 0.0), (-45.0, 0.0), (90.0, 0.0), (0.0, 0.5), (0.0, -0.5), (0.0, 2.0)] {
        let (read, typed) = line(a, b);
        let (read, typed) = (read.unwrap_err(), typed.unwrap_err());
        assert!(read.starts_with("shop.ron, line ") && read.contains(&typed), "{read}\n{typed}");
    }
    for trial in [
        "set_deg: 90.0, measured_deg: 9.0",
        "set_deg: 0.0, measured_deg: 0.0",
        "set_deg: 90.0, measured_deg: 88.0, measured_radius_mm: -1.0",
    ] {
        let said = record(&format!("trials: [({trial})]")).unwrap_err();
        assert!(said.contains("of trial 1 is "), "{said}");
    }
    assert!(record("stretch: 0.5").unwrap_err().contains("the stretch is 50 %"));
}

#[test]
fn no_figure_that_a_shop_cannot_have_is_read() {
    let text = write_shop(&built_in_shop());
    for (field, bad) in [
        ("longest_blank_mm", "0.0"),
        ("longest_blank_mm", "2e7"),
        ("tail_hold_mm", "-1.0"),
        ("tail_hold_mm", "1e5"),
        ("clr_mm", "1e5"),
        ("clr_mm", "1.0"),
        ("od_mm", "0.0"),
        ("od_mm", "1e5"),
        ("length_mm", "0.0"),
        ("length_mm", "1e5"),
        ("proved_to_deg", "0.0"),
        ("proved_to_deg", "360.0"),
        ("largest_angle_deg", "1e6"),
        ("mark_free_bite_mm", "-0.1"),
        ("largest_bite_mm", "1e5"),
        ("square_end_diameters", "1e3"),
        ("least_wall", "1.0"),
        ("seam_from_outside_deg", "91.0"),
    ] {
        let at = text.find(&format!("{field}: ")).unwrap_or_else(|| panic!("{field}")) + field.len() + 2;
        let end = at + text[at..].find([',', ')', '\n']).unwrap();
        let said = read_shop(&format!("{}{bad}{}", &text[..at], &text[end..]), "shop.ron").unwrap_err().to_string();
        assert!(said.starts_with("shop.ron, line ") && said.contains("must be"), "{field} {bad}: {said}");
    }
    let part = write_part(&common::zigzag());
    for bad in ["1e9", "1.1e7", "-1e8"] {
        let said = read_part(&part.replacen("400.0, 0.0", &format!("{bad}, 0.0"), 1), "a").unwrap_err().to_string();
        assert!(said.contains("must be a number from -10000000 to 10000000 mm"), "{said}");
    }
}

#[test]
fn every_field_spoilt_is_refused_in_plain_words_with_its_line() {
    let texts = [write_part(&common::zigzag()), write_shop(&built_in_shop())];
    let mut refused = 0;
    for (kind, text) in texts.iter().enumerate() {
        let read = |text: &str| match kind {
            0 => read_part(text, "a.ron").err(),
            _ => read_shop(text, "a.ron").err(),
        };
        let lines: Vec<&str> = text.lines().collect();
        for (number, line) in lines.iter().enumerate().take(120) {
            let Some((field, _)) = line.split_once(": ") else { continue };
            if field.contains("//") {
                continue;
            }
            for bad in
                ["60,3", "", "hello", "\"hello\"", "-", "[", "12.5.3", "(1, 2)", "true", "'x'", "1e400", "#", "nan mm"]
            {
                let mut spoilt = lines.clone();
                let with = format!("{field}: {bad},");
                spoilt[number] = &with;
                let Some(problem) = read(&spoilt.join("\n")) else { continue };
                refused += 1;
                let said = problem.to_string();
                assert!(problem.line.is_some(), "{with}: {said}");
                let right = ["must", "write", "are", "parts", "take", "ends", "between", "begins", "compare", "remove"];
                assert!(right.iter().any(|word| said.contains(word)), "{with}: {said}");
                assert!(!JARGON.iter().any(|word| said.contains(word)), "{with}: {said}");
            }
        }
    }
    assert!(refused > 200, "{refused}");
}

#[test]
fn a_decimal_comma_in_a_file_is_named() {
    let text = write_part(&common::zigzag());
    let said = |good: &str, bad: &str| read_part(&text.replacen(good, bad, 1), "a.ron").unwrap_err().to_string();
    let line = text.lines().position(|line| line.contains("od_mm: 50.8")).unwrap() + 1;
    let wanted =
        format!("a.ron, line {line}: 50,8 stands where a number must stand; write decimals with a point: 50.8");
    assert_eq!(said("od_mm: 50.8", "od_mm: 50,8"), wanted);
}

#[test]
fn no_column_of_a_measured_table_is_dropped() {
    let read =
        |text: &str| read_measured(text, Kind::Points, LengthUnit::Millimetre).map_err(|problem| problem.to_string());
    let said = read("x_mm,y_mm,z_mm\n0,0,0\n1053,226,141,5").unwrap_err();
    assert!(
        said.starts_with("line 3: it has 4 columns, \u{201c}1053,226,141,5\u{201d}; it must have x, y and z"),
        "{said}"
    );
    assert!(read("0,0,0\n1053,226,141,5").is_err());
    let rows = "straight_mm,rotation_deg,angle_deg\n100,0,90,5\n120";
    assert!(read(rows).unwrap_err().starts_with("line 2: it has 4 columns"));
    let plain = read("0\t0\t0\n1053\t226\t141.5").unwrap();
    for text in
        ["0;0;0\n1053;226;141,5", "0\t0\t0\n1053\t226\t141,5", "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n1053,226,141.5,\n"]
    {
        assert_eq!(read(text).as_ref(), Ok(&plain), "{text}");
    }
}

#[test]
fn a_name_that_acts_ends_neither_window_nor_recovery() {
    let folder = tempfile::tempdir().unwrap();
    let start = || Workbench::at_home(Home::at(folder.path()));
    let shown = |workbench: &Workbench| {
        let screen = workbench.screen();
        let message = screen.message.as_ref().map(|message| message.text.clone()).unwrap_or_default();
        assert!(!message.lines().any(acts), "{message:?}");
        message
    };
    // Typed or pasted, lost in a crash, offered again and taken back.
    let mut workbench = start();
    workbench.perform(Command::Edit(Edit::Rename(HOSTILE.into())));
    workbench.flush();
    drop(workbench);
    // And as another program, or an older one, would have left it.
    let recovery = std::fs::read_dir(Home::at(folder.path()).recovery()).unwrap().map(|entry| entry.unwrap().path());
    let work = recovery.into_iter().find(|path| path.extension().is_some_and(|end| end == "ron")).unwrap();
    let text = std::fs::read_to_string(&work).unwrap();
    let was = text.lines().find(|line| line.trim_start().starts_with("name: ")).unwrap().to_owned();
    let text = text.replace(&was, &format!("        name: \"{}\",", quoted(HOSTILE)));
    std::fs::write(&work, text.replacen("file: None", &format!("file: \"/tmp/{}\"", quoted(HOSTILE)), 1)).unwrap();
    let mut workbench = start();
    let Some(Question::Recovery { name, .. }) = workbench.screen().question.clone() else { panic!("nothing offered") };
    assert!(name.starts_with("a\u{fffd}[2J") && !acts(&name), "{name:?}");
    workbench.perform(Command::TakeBackRecovery);
    assert!(!acts(&workbench.part().name));
    shown(&workbench);
    // A file's name with a NUL can be no file's: that is told, and the work stays.
    workbench.perform(Command::SaveAs(folder.path().join("a\0b.ron")));
    assert!(shown(&workbench).starts_with("Not saved."));
    for command in [Command::Open, Command::UseShop, Command::OpenMeasurement] {
        workbench.perform(command(folder.path().join(format!("{}.ron", HOSTILE.replace('/', "")))));
        assert!(!shown(&workbench).is_empty());
    }
    // One with everything else is saved, opened again and told.
    let name: String = HOSTILE.chars().filter(|sign| *sign != '\0').collect();
    workbench.perform(Command::SaveAs(folder.path().join(name + ".ron")));
    assert!(shown(&workbench).starts_with("Saved to ") && !workbench.unsaved());
    let file = workbench.file().unwrap().clone();
    workbench.perform(Command::Open(file));
    assert_eq!(workbench.screen().message, None);
    workbench.perform(Command::OpenDemo(HOSTILE.into()));
    shown(&workbench);
}
