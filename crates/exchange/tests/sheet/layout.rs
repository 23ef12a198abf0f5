//! No text meets another, and nothing reaches beyond its frame, whatever the part, the paper and the unit.

use elbowroom_bending::Part;
use elbowroom_exchange::sheet::{Area, Item, Page, Paper, Sheet, SheetOptions};
use elbowroom_geometry::units::LengthUnit;
use proptest::prelude::*;

use super::parts::{demo_parts, options, plain, sheet, shop, text, texts, winding};

/// The narrowest margin of any page, mm.
const MARGIN: f64 = 10.0;

fn offences(page: &Page, number: usize) -> Vec<String> {
    let [width, height] = page.size;
    let frame = Area::new(0.0, 0.0, width, height).within(MARGIN - 0.01);
    let mut offences = Vec::new();
    for item in &page.items {
        if let Some(area) = item.area().filter(|area| !frame.holds(area)) {
            let what = if let Item::Text(label) = item { label.text.clone() } else { "a line".into() };
            offences.push(format!("sheet {number}: {what} reaches out of the frame: {area:?}"));
        }
    }
    let labels: Vec<_> = page.labels().map(|label| (label, label.area())).collect();
    for (index, (label, area)) in labels.iter().enumerate() {
        for (other, there) in &labels[index + 1..] {
            if area.meets(there) {
                offences.push(format!("sheet {number}: \"{}\" meets \"{}\"", label.text, other.text));
            }
        }
    }
    offences
}

#[track_caller]
fn sound(part: &Part, options: &SheetOptions) -> Sheet {
    let sheet = sheet(part, options);
    let offences: Vec<_> = sheet.pages.iter().enumerate().flat_map(|(at, page)| offences(page, at + 1)).collect();
    assert!(offences.is_empty(), "{}, {:?}:\n{}", part.name, options.paper, offences.join("\n"));
    sheet
}

const EVERY: [(Paper, LengthUnit); 4] = [
    (Paper::A4, LengthUnit::Millimetre),
    (Paper::Letter, LengthUnit::Inch),
    (Paper::A4, LengthUnit::Inch),
    (Paper::Letter, LengthUnit::Millimetre),
];

#[test]
fn nothing_overlaps_and_nothing_is_cut_off_on_any_demo_part() {
    for part in demo_parts() {
        for (paper, units) in EVERY {
            sound(&part, &options(paper, units));
        }
    }
}

#[test]
fn nothing_overlaps_and_nothing_is_cut_off_from_no_bend_to_three_hundred() {
    for bends in [0, 1, 4, 12, 30, 67] {
        for (paper, units) in EVERY {
            sound(&winding(bends), &options(paper, units));
        }
    }
    sound(&winding(300), &options(Paper::A4, LengthUnit::Millimetre));
}

#[test]
fn long_names_are_printed_in_full_somewhere() {
    let mut part = winding(4);
    let long = "A very long name of an order that nobody would write on a title block ".repeat(6);
    part.name = long.clone();
    part.note = long.clone();
    part.tube = part.tube.of_material(&"wwwwwwwwwwwwwwwwwwww".repeat(6));
    let mut options = options(Paper::A4, LengthUnit::Millimetre);
    (options.customer, options.revision, options.drawn_by) = (long.clone(), long.clone(), long.clone());
    let sheet = sound(&part, &options);
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(one_line(&text(&sheet)).matches(&one_line(&long)).count() >= 4, "{:?}", texts(&sheet));
}

#[test]
fn letters_that_the_face_lacks_are_marks_of_a_question() {
    let mut part = winding(1);
    part.name = "排気管 \u{202e}x\u{7}".into();
    assert!(text(&sound(&part, &options(Paper::A4, LengthUnit::Millimetre))).contains("???"));
}

#[test]
fn a_drawing_that_is_no_tube_has_a_sheet_that_says_so() {
    let lost = demo_parts().into_iter().find(|part| part.name.contains("sketch")).unwrap();
    let sheet = plain(&lost);
    assert!(text(&sheet).contains("There is no program: the drawing makes no tube"), "{}", text(&sheet));
    assert!(sheet.stops.iter().any(|stop| stop.contains("no program")), "{:?}", sheet.stops);
}

#[test]
fn a_tube_of_more_bends_than_paper_takes_is_refused() {
    let part = winding(301);
    let refused = Sheet::of("x", &[part], &shop(), "built in", &SheetOptions::default()).unwrap_err().to_string();
    assert!(refused.contains("301 bends") && refused.contains("up to 300") && refused.contains("elbowroom program"));
}

#[test]
fn sheets_are_numbered_through_a_whole_system() {
    let parts = [winding(2), winding(4), winding(0)];
    let options = options(Paper::A4, LengthUnit::Millimetre);
    let sheet = Sheet::of("Three tubes", &parts, &shop(), "built in", &options).unwrap();
    let count = sheet.pages.len();
    for (index, page) in sheet.pages.iter().enumerate() {
        let offences = offences(page, index + 1);
        assert!(offences.is_empty(), "{offences:?}");
        let numbers = [format!("Sheet {} of {count}", index + 1), format!("{} of {count}", index + 1)];
        assert!(page.labels().any(|label| numbers.contains(&label.text)), "sheet {}", index + 1);
    }
    let first: Vec<_> = sheet.pages[0].labels().map(|label| label.text.as_str()).collect();
    for words in ["Winding tube of 2", "Winding tube of 4", "Parts list and cut list", "Cut blank to"] {
        assert!(first.contains(&words), "{words}: {first:?}");
    }
    // The parts list names the sheet on which each tube begins: its title block says so.
    let begins = sheet.pages.iter().position(|page| page.labels().any(|label| label.text == "Verdict")).unwrap() + 1;
    assert!(begins == 2 && first.contains(&"2"));
    assert_eq!(sheet.drawings.len(), 4);
}

#[test]
fn everything_that_the_program_says_is_on_the_sheet() {
    use elbowroom_bending::plan::plan;
    use elbowroom_bending::program_sheet::ProgramSheet;
    use elbowroom_bending::setup::{Setup, UNSURE_LEGEND};
    let (part, shop) = (winding(12), shop());
    let plan = plan(&part, &shop).unwrap();
    let said = ProgramSheet::of(&plan, &shop, Setup::of(&plan, &shop));
    let sheet = plain(&part);
    let printed: String = text(&sheet).split_whitespace().collect();
    let mut words = vec![said.verdict.text.clone(), said.explained.clone(), UNSURE_LEGEND.to_owned()];
    let lines = said.head.iter().chain(&said.blank).chain(&said.load);
    words.extend(lines.map(|line| format!("{} {}", line.name, line.value)));
    words.extend(said.springback.iter().map(|line| format!("{} ({})", line.value, line.source)));
    words.extend(said.findings.iter().map(|finding| finding.text.clone()));
    words.extend(said.setup.iter().map(|item| format!("{} ({})", item.value, item.source)));
    words.extend(said.cautions.iter().map(|caution| format!("{} ({})", caution.text, caution.source)));
    for step in &said.steps {
        words.extend([&step.feed, &step.rotation, &step.dial, &step.set, &step.free_clr, &step.mark].map(Clone::clone));
    }
    assert!(words.len() > 100 && said.findings.len() > 3);
    for words in words {
        let packed: String = words.split_whitespace().collect();
        // A section that goes on in the next column has its heading in between.
        let packed: Vec<&str> = packed.split_inclusive(['.', ';']).collect();
        for piece in packed {
            assert!(printed.contains(piece), "{piece}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn nothing_overlaps_on_any_tube(
        rows in prop::collection::vec((0.0..900.0f64, -180.0..180.0f64, 0.0..190.0f64), 0..14),
        tail in 0.0..900.0f64,
        letter in any::<bool>(),
    ) {
        let rows = rows.iter().map(|(straight, rotation, angle)| elbowroom_bending::specimen::row(*straight, *rotation, *angle));
        let part = elbowroom_bending::specimen::part(rows.collect(), tail).unwrap();
        let paper = if letter { Paper::Letter } else { Paper::A4 };
        sound(&part, &options(paper, LengthUnit::Millimetre));
    }
}
