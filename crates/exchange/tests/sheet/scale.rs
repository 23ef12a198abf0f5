//! What is drawn, times the scale that the title names, is as long as the tube; and templates are as large as it is.

use elbowroom_bending::specimen::{part, row_at};
use elbowroom_exchange::sheet::{At, Item, Page, Pen, Segment};

use super::parts::{plain, texts, winding};

/// The straight lines of a pen on a page, by their ends.
fn straights(page: &Page, pen: Pen) -> Vec<[At; 2]> {
    let mut lines = Vec::new();
    for item in &page.items {
        let Item::Stroke(path, of) = item else { continue };
        if *of != pen {
            continue;
        }
        let mut at = At::new(0.0, 0.0);
        for segment in path {
            match *segment {
                Segment::Move(to) => at = to,
                Segment::Line(to) => {
                    lines.push([at, to]);
                    at = to;
                }
                Segment::Cubic(_, _, to) => at = to,
                Segment::Close => {}
            }
        }
    }
    lines
}

fn long(lines: &[[At; 2]], length: f64) -> usize {
    lines.iter().filter(|[a, b]| ((a.x - b.x).hypot(a.y - b.y) - length).abs() < 0.002).count()
}

/// 1000 mm straight, tube of 50.8 mm: at 1:10 a rectangle of 100 by 5.08 mm in front and top view. By hand.
#[test]
fn a_straight_tube_is_drawn_to_the_scale_that_is_named() {
    let sheet = plain(&part(vec![], 1000.0).unwrap());
    let page = &sheet.pages[0];
    assert!(page.labels().any(|label| label.text.starts_with("1:10")), "{:?}", texts(&sheet));
    let lines = straights(page, Pen::Wide);
    assert!(long(&lines, 100.0) >= 4, "both sides in front and top view: {lines:?}");
    let sizes: Vec<_> = page.labels().filter(|label| label.text == "1000.0").collect();
    assert!(sizes.len() >= 2 && page.labels().filter(|label| label.text == "50.8").count() >= 2);
}

/// Legs of 400 − 76.2 and 300 − 76.2 mm round a square corner: at 1:5 straights of 64.76 and 44.76 mm. By hand.
#[test]
fn straights_of_a_bent_tube_are_drawn_to_scale() {
    let sheet = plain(&part(vec![row_at(323.8, 0.0, 90.0, 76.2)], 223.8).unwrap());
    let page = &sheet.pages[0];
    let named = page.labels().find(|label| label.text.starts_with("1:")).unwrap().text.clone();
    let of: f64 = named[2..].split(' ').next().unwrap().parse().unwrap();
    let lines = straights(page, Pen::Wide);
    for straight in [323.8, 223.8] {
        assert!(long(&lines, straight / of) >= 2, "{straight} at {named}: {lines:?}");
    }
    // Over all 400 + 25.4 and 300 + 25.4 mm.
    for size in ["425.4", "325.4", "50.8"] {
        assert!(page.labels().any(|label| label.text == size), "{size}: {:?}", texts(&sheet));
    }
}

/// The legs of the template of a bend: both outlines 90 mm long, as it says, across the tube 50.8 mm; the bar 100 mm.
#[test]
fn templates_are_full_size() {
    let sheet = plain(&part(vec![row_at(323.8, 0.0, 60.0, 76.2)], 223.8).unwrap());
    let page = sheet.pages.last().unwrap();
    assert!(page.labels().any(|label| label.text == "Template of a bend, full size"));
    let lines = straights(page, Pen::Wide);
    // Across both ends, and the bar of 2 in.
    assert!(long(&lines, 50.8) == 3 && long(&lines, 100.0) == 1, "{lines:?}");
    let legs =
        lines.iter().map(|[a, b]| (a.x - b.x).hypot(a.y - b.y)).filter(|length| *length > 60.0 && *length < 99.0);
    assert_eq!(legs.count(), 4);
}

/// A bend on CLR 400 mm is 400 mm across and more: no paper takes it, and it says so.
#[test]
fn what_does_not_fit_is_named_and_not_drawn_smaller() {
    let sheet = plain(&part(vec![row_at(323.8, 0.0, 90.0, 400.0)], 223.8).unwrap());
    let page = sheet.pages.last().unwrap();
    let all: Vec<_> = page.labels().map(|label| label.text.as_str()).collect();
    assert!(all.contains(&"Templates that do not fit"), "{all:?}");
    assert!(all.iter().any(|text| text.contains("90.0° on CLR 400.0 mm")), "{all:?}");
}

/// Marks lie on the strip where the program says, from 0 to the end of the blank.
#[test]
fn marks_lie_along_the_strip_in_proportion() {
    use elbowroom_bending::plan::plan;
    let (tube, shop) = (winding(4), super::parts::shop());
    let program = plan(&tube, &shop).unwrap().program;
    let page = &plain(&tube).pages[0];
    let strip =
        page.items.iter().filter_map(Item::area).find(|area| (area.height - 5.0).abs() < 1e-6 && area.width > 200.0);
    let strip = strip.unwrap();
    for step in &program.steps {
        let wanted = strip.x + strip.width * step.mark.mm() / program.blank.mm();
        let marks = straights(page, Pen::Narrow).into_iter().filter(|[a, b]| {
            (a.x - wanted).abs() < 1e-6 && (b.x - wanted).abs() < 1e-6 && (a.y - strip.y).abs() < 1e-6
        });
        assert_eq!(marks.count(), 1, "{}", step.mark.mm());
    }
}

/// The drawing on the screen is the drawing on paper.
#[test]
fn the_svg_holds_the_same_drawing() {
    let sheet = plain(&winding(4));
    let svg = sheet.svg();
    assert!(svg.contains("width=\"297mm\"") && svg.contains("viewBox=\"0 0 297 210\""));
    let drawn = &sheet.drawings[0];
    assert_eq!(svg.matches("<text ").count(), drawn.labels().count());
    assert_eq!(svg.matches("<path ").count(), drawn.items.len() - drawn.labels().count());
    for item in &drawn.items {
        assert!(sheet.pages[0].items.contains(item), "{item:?}");
    }
}
