//! The codes are read again by another library, and hold the bend rows.

use elbowroom_bending::Part;
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::specimen::{part, row};
use elbowroom_exchange::sheet::{CODE_HEAD, Item, Page, Segment};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::parts::{plain, text, winding};

/// Squares of the picture in a millimetre: four in each square of a code.
const FINE: f64 = 8.0;

/// Everything of a page that is filled black, as a picture. Every fill of a code is a row of upright rectangles.
fn codes(page: &Page) -> Vec<String> {
    let size = page.size.map(|side| (side * FINE).ceil() as usize);
    let mut black = vec![false; size[0] * size[1]];
    for item in &page.items {
        let Item::Fill(path, shade) = item else { continue };
        if *shade < 1.0 {
            continue;
        }
        for corner in path.chunks_exact(5) {
            let [Segment::Move(from), _, Segment::Line(to), _, Segment::Close] = corner else { continue };
            let cells = |from: f64, to: f64| (from * FINE).round() as usize..(to * FINE).round() as usize;
            for y in cells(from.y, to.y) {
                for x in cells(from.x, to.x) {
                    black[y * size[0] + x] = true;
                }
            }
        }
    }
    let shade = |x: usize, y: usize| if black[y * size[0] + x] { 0 } else { 255 };
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(size[0], size[1], shade);
    let mut found: Vec<_> = picture
        .detect_grids()
        .iter()
        .map(|grid| (grid.bounds[0].x, grid.bounds[0].y, grid.decode().unwrap().1))
        .collect();
    found.sort();
    let mut texts: Vec<(i32, String)> = found.into_iter().map(|(_, y, text)| (y, text)).collect();
    texts.sort();
    texts.into_iter().map(|(_, text)| text).collect()
}

fn read_again(part: &Part) -> Vec<String> {
    plain(part).pages.iter().flat_map(codes).collect()
}

#[test]
fn the_code_gives_the_rows_back() {
    let odd = part(vec![row(123.456, 0.0, 33.333), row(201.007, -17.123, 91.919)], 77.777).unwrap();
    for part in [winding(0), winding(1), odd, winding(12)] {
        let bends = part.path.bend_form().path.rows().len();
        let codes = read_again(&part);
        assert_eq!(codes.len(), 1, "{bends}");
        let rows = read_measured(&codes[0], Kind::Rows, LengthUnit::Millimetre).unwrap();
        let Measurement::Rows(rows, tail) = rows else { panic!("no rows: {rows:?}") };
        let path = part.path.bend_form().path;
        assert_eq!(rows.len(), bends);
        for (read, drawn) in rows.iter().zip(path.rows()) {
            assert!((read.straight - drawn.straight).abs().mm() < 6e-4);
            assert!((read.rotation - drawn.rotation).abs().degrees() < 6e-4);
            assert!((read.angle - drawn.angle).abs().degrees() < 6e-4);
        }
        assert!((tail - path.tail()).abs().mm() < 6e-4);
    }
}

#[test]
fn many_rows_come_in_several_codes_in_turn() {
    let part = winding(67);
    let codes = read_again(&part);
    assert!(codes.len() > 1, "{codes:?}");
    let mut all = format!("{CODE_HEAD}\n");
    let mut pieces: Vec<&str> = codes.iter().map(|code| code.strip_prefix(&all).unwrap()).collect();
    // Which is first is printed beside it; here the tail, which is alone on its line, tells the last.
    let last = pieces.iter().position(|piece| !piece.lines().last().unwrap().contains(',')).unwrap();
    assert_eq!(last, pieces.len() - 1, "in the order in which they stand on paper");
    all.extend(pieces.drain(..));
    let Measurement::Rows(rows, _) = read_measured(&all, Kind::Rows, LengthUnit::Millimetre).unwrap() else {
        panic!("no rows")
    };
    assert_eq!(rows.len(), 67);
    let said = text(&plain(&part));
    assert!(said.contains(&format!("Code 1 of {}", codes.len())), "{said}");
}

#[test]
fn too_many_rows_are_left_out_with_words() {
    let part = winding(200);
    assert_eq!(read_again(&part), Vec::<String>::new());
    assert!(text(&plain(&part)).contains("are too long for 4 codes"));
}
