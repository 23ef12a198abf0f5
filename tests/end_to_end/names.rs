//! Names that would act: escape sequences, line breaks, signs that turn the direction of writing and formulas, in every
//! place that a name comes from and in every form that a report has. They are shown and do nothing.

use elbowroom_bending::text::harmless_lines;

use super::support::{Bench, Ran};

/// Clears the screen, writes to the clipboard, breaks the line, turns the direction, cannot be seen, asks a terminal.
const ACTS: &str = "A\u{1b}[2J\u{1b}]52;c;ZQ==\u{7}\nINJECTED \u{202e}x\u{200b}\u{9b}6n\rINJECTED";
/// What a spreadsheet would work out.
const FORMULAS: [&str; 5] = ["=1+2", "+60", "-60", "@SUM(A1)", "=cmd|' /C x'!A0"];

/// A name as it may stand between quotes in a native file.
fn quoted(name: &str) -> String {
    name.chars().map(|sign| format!("\\u{{{:x}}}", u32::from(sign))).collect()
}

/// Holds that nothing in what was printed acts, and that no name has begun a line of its own.
#[track_caller]
fn harmless(ran: &Ran) {
    for text in [&ran.out, &ran.err] {
        assert!(!text.contains("panicked"), "{text}");
        assert_eq!(harmless_lines(text), *text, "{ran:?}");
        assert!(!text.contains('\t'), "{ran:?}");
        assert!(!text.lines().any(|line| line.starts_with("INJECTED")), "{text}");
    }
}

/// A bench with a part, a points table, a shop and measurements, all of whose names act.
fn bench(name: &str) -> Bench {
    let bench = Bench::new();
    let root = elbowroom_tests::root();
    let demo = std::fs::read_to_string(root.join("demo-parts/sump-sweep.ron")).unwrap();
    let shop = std::fs::read_to_string(root.join("assets/shop.ron")).unwrap();
    let after = |text: &str, field: &str, name: &str| {
        let at = text.find(field).unwrap() + field.len();
        let end = at + text[at..].find('"').unwrap();
        format!("{}{}{}", &text[..at], quoted(name), &text[end..])
    };
    let mut part = after(&after(&demo, " name: \"", name), "material: \"", name);
    if part.contains("note: \"") {
        part = after(&part, "note: \"", name);
    }
    bench.write("part.ron", &part);
    // Every name in the shop: its own, the machine's, that of every die set, every material.
    let mut named = String::new();
    let mut dies = 0;
    for line in shop.lines() {
        let die = line.trim_start().starts_with("name: \"");
        dies += usize::from(die);
        let name = format!("{name}{dies}");
        named += &if die { after(line, "name: \"", &name) } else { line.to_owned() };
        named.push('\n');
    }
    assert!(dies > 5);
    bench.write("shop.ron", named);
    bench.write("points.csv", "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n400,0,0,90.5\n400,400,0,\n");
    bench.write("measured.csv", "straight_mm,rotation_deg,angle_deg\n309.5,0,90\n309.5\n");
    bench
}

#[test]
fn no_verb_lets_a_name_act() {
    let bench = bench(ACTS);
    // A file may be called anything, too.
    let (part, points) = (format!("{}.ron", ACTS.replace('/', "")), format!("{}.csv", ACTS.replace('/', "")));
    std::fs::copy(bench.path("part.ron"), bench.path(&part)).unwrap();
    std::fs::copy(bench.path("points.csv"), bench.path(&points)).unwrap();
    let (part, points) = (part.as_str(), points.as_str());
    let tube = ["--tube", "60.3x2", "--shop", "shop.ron"];
    let mut seen = 0;
    for verb in ["check", "program", "compare"] {
        for format in ["text", "json", "csv"] {
            for file in [
                &["part.ron", "--shop", "shop.ron"][..],
                &[part, "--shop", "built-in"],
                &[&[points][..], &tube].concat(),
            ] {
                let ran = bench.run(&[&[verb], file, &["--format", format]].concat());
                harmless(&ran);
                if ran.code != Some(2) {
                    assert!(format != "text" || ran.out.contains('\u{fffd}'), "{verb} {file:?}: {ran:?}");
                    seen += 1;
                }
                if format == "json" {
                    serde_json::from_str::<serde_json::Value>(&ran.out).unwrap();
                }
            }
        }
    }
    assert!(seen >= 18, "{seen}");
    for format in ["text", "json"] {
        let ran = bench.run(&[&["first-off", points, "measured.csv", "--format", format][..], &tube].concat());
        harmless(&ran);
        assert!(matches!(ran.code, Some(0 | 1)), "{ran:?}");
    }
    let out = format!("out-{points}");
    for arguments in [vec!["convert", part, &out], vec!["convert", points, "out.ron", "--tube", "60.3x2"]] {
        let ran = bench.run(&arguments);
        harmless(&ran);
        assert_eq!(ran.code, Some(0), "{ran:?}");
    }
    harmless(&bench.run(&["explain", "clamp-across-arc"]));
}

#[test]
fn no_refusal_lets_a_name_act() {
    let bench = bench(ACTS);
    let file = format!("{ACTS}.csv");
    bench.write("head.csv", format!("{ACTS},y_mm,z_mm\n0,0,0\n1,1,1\n"));
    bench.write("cell.csv", format!("x_mm,y_mm,z_mm\n0,0,0\n1,{ACTS},1\n"));
    bench.write("field.ron", format!("(format: \"elbowroom-part/1\", {}: 3)", ACTS.replace('\n', " ")));
    bench.write("format.ron", format!("(format: \"{}\")", quoted(ACTS)));
    bench.write(
        "variant.ron",
        std::fs::read_to_string(bench.path("part.ron")).unwrap().replacen("welded", &format!("r#{ACTS}"), 1),
    );
    let built = ["--shop", "built-in"];
    let option = format!("--{ACTS}");
    let value = format!("--tube={ACTS}");
    let cases: Vec<Vec<&str>> = vec![
        vec!["check", &file, "--tube", "60.3x2"],
        vec!["check", ACTS],
        vec!["check", "points.csv", "--tube", ACTS],
        vec!["check", "points.csv", &value],
        vec!["check", "part.ron", "--clamp", ACTS],
        vec!["check", "part.ron", "--die", ACTS],
        vec!["check", "part.ron", "--shop", ACTS],
        vec!["check", "part.ron", "--shop", "shop.ron", "--die", "none"],
        vec!["check", "part.ron", "--format", ACTS],
        vec!["check", "part.ron", "--from", ACTS],
        vec!["check", "part.ron", &option],
        vec!["check", "part.ron", ACTS],
        vec!["check", "points.csv"],
        vec![ACTS, "part.ron"],
        vec![&option],
        vec!["explain", ACTS],
        vec!["convert", &file, ACTS],
        vec!["convert", &file, &file],
        vec!["convert", "points.csv", ACTS],
        vec!["program", ACTS],
        vec!["compare", &file],
        vec!["first-off", "part.ron", &file],
        vec!["first-off", "part.ron", "head.csv"],
        vec!["first-off", "part.ron", "cell.csv"],
        vec!["first-off", &file, "measured.csv"],
        vec!["first-off", "part.ron", "--angle-tolerance", ACTS],
        vec!["first-off", "part.ron", "--length-tolerance", ACTS],
        vec!["check", "field.ron"],
        vec!["check", "format.ron"],
        vec!["check", "variant.ron"],
    ];
    for mut arguments in cases {
        if arguments.first() != Some(&"explain")
            && arguments[0] != "convert"
            && arguments[0].len() < 12
            && !arguments.contains(&"--shop")
        {
            arguments.extend(built);
        }
        let ran = bench.run(&arguments);
        harmless(&ran);
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{arguments:?}: {ran:?}");
        assert!(ran.err.len() > 10, "{ran:?}");
    }
}

#[test]
fn no_cell_of_any_table_is_a_formula() {
    for name in FORMULAS {
        let bench = bench(name);
        let tube = ["--tube", "60.3x2", "--shop", "shop.ron"];
        let program = bench.run(&[&["program", "points.csv", "--format", "csv"][..], &tube].concat());
        assert!(matches!(program.code, Some(0 | 1)), "{program:?}");
        let written = bench.run(&["convert", "part.ron", "out.csv"]);
        assert_eq!(written.code, Some(0), "{written:?}");
        let mut cells = 0;
        for table in [program.out, bench.read("out.csv")] {
            for record in csv::ReaderBuilder::new().has_headers(false).from_reader(table.as_bytes()).records() {
                for cell in record.unwrap().iter() {
                    cells += 1;
                    let number = cell.parse::<f64>().is_ok();
                    assert!(number || !cell.trim_start().starts_with(['=', '+', '-', '@', '\t', '\r']), "{cell:?}");
                }
            }
        }
        assert!(cells > 20);
    }
}
