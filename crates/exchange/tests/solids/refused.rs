//! What has no solid, and STEP files that are not whole or say too little.

use elbowroom_bending::Part;
use elbowroom_exchange::{Document, step};

use super::parts::{part, system};

fn text() -> String {
    step::write(&system(vec![part(&[(200.0, 0.0, 90.0, 90.5)], 300.0)]), "a.step").unwrap()
}

fn said(text: &str) -> String {
    step::read(text.as_bytes(), "a.step").unwrap_err().to_string()
}

#[test]
fn an_impossible_tube_has_no_solid() {
    let cases: [(Part, &str); 4] = [
        (part(&[(200.0, 0.0, 90.0, 90.5), (-12.5, 0.0, 90.0, 90.5)], 100.0), "the straight before bend 2 is -12.5 mm"),
        (part(&[(200.0, 0.0, 90.0, 90.5)], -1.0), "the straight behind the last bend is -1 mm"),
        (part(&[(200.0, 0.0, 90.0, 30.15)], 100.0), "bend 1 has a CLR of 30.15 mm"),
        (part(&[], 0.0), "it has no length"),
    ];
    for (part, wanted) in cases {
        let said = step::write(&system(vec![part]), "a.step").unwrap_err().to_string();
        assert!(said.starts_with("a.step: the tube “Downpipe”") && said.contains(wanted), "{said}");
    }
}

#[test]
fn a_file_that_is_not_whole_is_refused_with_its_line() {
    let text = text();
    let lines: Vec<&str> = text.lines().collect();
    let until = |count: usize| lines[..count].join("\n");
    let without = |word: &str| lines.iter().filter(|line| !line.contains(word)).copied().collect::<Vec<_>>().join("\n");
    let place = |word: &str| 1 + lines.iter().position(|line| line.contains(word)).unwrap();
    let torus = place("TOROIDAL_SURFACE");
    for (broken, wanted) in [
        (until(lines.len() - 1), "END-ISO-10303-21 is missing".to_owned()),
        (until(lines.len() / 2), "the file breaks off".into()),
        (without("TOROIDAL_SURFACE"), "and there is no such record".into()),
        (text.replacen("TOROIDAL_SURFACE('',", "TOROIDAL_SURFACE('' ", 1), format!("line {torus}")),
        (text.replace("AUTOMOTIVE_DESIGN", "HOUSE_DESIGN"), "the schema HOUSE_DESIGN".into()),
        (text.replacen("#2=", "#1=", 1), "record #1 stands twice".into()),
        (text.replacen("ISO-10303-21;", "ISO-10303-22;", 1), "does not begin with ISO-10303-21".into()),
        (text.replace("(LENGTH_UNIT()", "(MASS_UNIT()"), "names no unit of length".into()),
        (
            text.replace("DIRECTION('',(1.0,0.0,0.0))", "DIRECTION('',(0.0,0.0,0.0))"),
            "is a direction to nowhere".into(),
        ),
        (text.replacen("CARTESIAN_POINT('',(", "CARTESIAN_POINT('',(1e999,", 1), "is no number".into()),
        (text.replacen("CARTESIAN_POINT('',", &format!("CARTESIAN_POINT('',{}", "(".repeat(90_000)), 1), "deep".into()),
    ] {
        let said = said(&broken);
        assert!(said.starts_with("a.step") && said.contains(&wanted), "wanted {wanted}\nsaid {said}");
    }
}

#[test]
fn a_solid_that_is_no_bent_tube_is_told() {
    let text = text();
    let torus = text.replace("TOROIDAL_SURFACE", "DEGENERATE_TOROIDAL_SURFACE");
    let said_of = said(&torus);
    assert!(said_of.contains("holds no bent tube") && said_of.contains("degenerate toroidal surface"), "{said_of}");
    // Of another radius than its rims a face is none of a tube's, and the tube is not taken to end there.
    let wider =
        text.replace("TOROIDAL_SURFACE('',#", "TOROIDAL_SURFACE ('',#").replacen(",90.5,30.15)", ",91.5,30.15)", 1);
    let said_of = said(&wider);
    assert!(said_of.contains("holds no bent tube") && said_of.contains("flat face"), "{said_of}");
}

#[test]
fn a_bore_that_is_missing_makes_a_rod_and_an_inch_is_an_inch() {
    let text = text();
    let inch = text.replace(
        "(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))",
        "(CONVERSION_BASED_UNIT('INCH',#90001)LENGTH_UNIT()NAMED_UNIT(#90003))",
    );
    let more = "#90001=LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE(25.4),#90002);\n\
                #90002=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.));\n\
                #90003=DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.);\nENDSEC;\nEND-ISO";
    let inch = inch.replace("ENDSEC;\nEND-ISO", more);
    // The same inch, said in metres.
    let in_metres = inch.replace("LENGTH_MEASURE(25.4)", "LENGTH_MEASURE(0.0254)");
    let last = in_metres.rfind(".MILLI.").unwrap();
    let in_metres = format!("{}${}", &in_metres[..last], &in_metres[last + ".MILLI.".len()..]);
    for text in [&inch, &in_metres] {
        let Document::System(system) = step::read(text.as_bytes(), "a.step").unwrap().document else {
            panic!("a tube")
        };
        let part = &system.tubes()[0].part;
        assert!((part.tube.od.mm() - 60.3 * 25.4).abs() < 1e-9);
        assert!((part.path.bend_form().path.rows()[0].clr.mm() - 90.5 * 25.4).abs() < 1e-9);
    }
    // Without the faces of the bore what is left is a rod, of which nobody knows the wall.
    let bore = |line: &str| line.contains("SURFACE('',") && line.ends_with(",28.15);");
    let is_bore: Vec<&str> =
        text.lines().filter(|line| bore(line)).map(|line| &line[..line.find('=').unwrap()]).collect();
    assert_eq!(is_bore.len(), 3);
    let shell = text.lines().find(|line| line.contains("CLOSED_SHELL")).unwrap();
    let faces = text.lines().filter(|line| is_bore.iter().any(|bore| line.contains(&format!("),{bore},.F.)"))));
    let solid = faces.fold(shell.to_owned(), |shell, face| {
        let number = &face[..face.find('=').unwrap()];
        shell.replace(&format!("{number},"), "").replace(&format!(",{number})"), ")")
    });
    let read = step::read(text.replace(shell, &solid).as_bytes(), "a.step").unwrap();
    assert!(matches!(read.document, Document::Lines(lines) if lines.len() == 1 && lines[0].name == "Downpipe"));
    assert!(read.notes.iter().any(|note| note.contains("without a bore (OD 60.3 mm)")), "{:?}", read.notes);
}
