//! Another library reads the PDF: its pages, their size, the text and the faces embedded in it.

use elbowroom_exchange::sheet::Paper;
use elbowroom_geometry::units::LengthUnit;
use lopdf::{Document, Object};

use super::parts::{demo_parts, options, plain, sheet, texts, winding};

fn packed(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn another_reader_finds_pages_text_and_faces() {
    for paper in [Paper::A4, Paper::Letter] {
        let sheet = sheet(&winding(12), &options(paper, LengthUnit::Millimetre));
        let bytes = sheet.pdf().unwrap();
        let read = Document::load_mem(&bytes).unwrap();
        let pages = read.get_pages();
        assert_eq!(pages.len(), sheet.pages.len());
        for ((number, id), page) in pages.iter().zip(&sheet.pages) {
            let object = read.get_dictionary(*id).unwrap();
            let sides: Vec<f32> = object
                .get(b"MediaBox")
                .unwrap()
                .as_array()
                .unwrap()
                .iter()
                .map(|side| side.as_float().unwrap())
                .collect();
            // 72 points to the inch.
            assert!((f64::from(sides[2]) - page.size[0] * 72.0 / 25.4).abs() < 0.01, "{sides:?}");
            assert!((f64::from(sides[3]) - page.size[1] * 72.0 / 25.4).abs() < 0.01, "{sides:?}");
            let text = packed(&read.extract_text(&[*number]).unwrap());
            for label in page.labels() {
                assert!(text.contains(&packed(&label.text)), "sheet {number} lacks \"{}\":\n{text}", label.text);
            }
        }
        let mut faces = 0;
        for object in read.objects.values() {
            let Object::Dictionary(dictionary) = object else { continue };
            if dictionary.has_type(b"FontDescriptor") {
                assert!(dictionary.has(b"FontFile3") || dictionary.has(b"FontFile2"), "a face is not embedded");
                faces += 1;
            }
        }
        assert_eq!(faces, 2, "regular and bold");
    }
}

#[test]
fn a_sheet_is_small() {
    for part in demo_parts().iter().chain([&winding(30)]) {
        let size = plain(part).pdf().unwrap().len();
        assert!(size < 500_000, "{}: {size} bytes", part.name);
    }
}

#[test]
fn the_same_sheet_is_the_same_file() {
    let part = winding(4);
    assert_eq!(plain(&part).pdf().unwrap(), plain(&part).pdf().unwrap());
    assert!(!texts(&plain(&part)).is_empty());
}
