//! Pages as a PDF: text that can be searched, in embedded subsets of the faces.

use krilla::Document;
use krilla::color::luma;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

use crate::sheet::ink::{At, Face, Item, Label, Page, Pen, Segment};

/// Points of PDF in a millimetre: 72 in an inch.
const POINTS: f64 = 72.0 / 25.4;

/// A PDF of pages under a title.
///
/// # Errors
/// Says what the writer of PDF says. None is known that these pages bring about.
pub fn pdf(pages: &[Page], title: &str) -> Result<Vec<u8>, String> {
    let mut document = Document::new();
    let fonts = Fonts { faces: [font(Face::Regular)?, font(Face::Bold)?] };
    for page in pages {
        let [width, height] = page.size.map(|side| (side * POINTS) as f32);
        let settings = PageSettings::from_wh(width, height).ok_or("a page has no size")?;
        let mut paper = document.start_page_with(settings);
        let mut surface = paper.surface();
        for item in &page.items {
            draw(&mut surface, item, &fonts);
        }
        surface.finish();
        paper.finish();
    }
    let made_by = format!("Elbowroom {}", env!("CARGO_PKG_VERSION"));
    document.set_metadata(Metadata::new().title(title.to_owned()).creator(made_by).language("en-GB".into()));
    document.finish().map_err(|error| format!("{error:?}"))
}

struct Fonts {
    faces: [Font; 2],
}

impl Fonts {
    fn of(&self, face: Face) -> Font {
        match face {
            Face::Regular => self.faces[0].clone(),
            Face::Bold => self.faces[1].clone(),
        }
    }
}

fn font(face: Face) -> Result<Font, String> {
    Font::new(face.bytes().into(), 0).ok_or_else(|| "a face of the program cannot be read".to_owned())
}

fn point(at: At) -> [f32; 2] {
    [(at.x * POINTS) as f32, (at.y * POINTS) as f32]
}

fn path(segments: &[Segment]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for segment in segments {
        match *segment {
            Segment::Move(at) => {
                let [x, y] = point(at);
                path.move_to(x, y);
            }
            Segment::Line(at) => {
                let [x, y] = point(at);
                path.line_to(x, y);
            }
            Segment::Cubic(a, b, c) => {
                let ([ax, ay], [bx, by], [cx, cy]) = (point(a), point(b), point(c));
                path.cubic_to(ax, ay, bx, by, cx, cy);
            }
            Segment::Close => path.close(),
        }
    }
    path.finish()
}

fn shade(black: f64) -> luma::Color {
    luma::Color::new(((1.0 - black.clamp(0.0, 1.0)) * 255.0).round() as u8)
}

fn fill(black: f64) -> Fill {
    Fill { paint: shade(black).into(), opacity: NormalizedF32::ONE, rule: FillRule::NonZero }
}

fn stroke(pen: Pen) -> Stroke {
    let dashes: Vec<f32> = pen.dashes().iter().map(|dash| (dash * POINTS) as f32).collect();
    Stroke {
        paint: shade(1.0).into(),
        width: (pen.width() * POINTS) as f32,
        miter_limit: 4.0,
        line_cap: LineCap::Round,
        line_join: LineJoin::Round,
        opacity: NormalizedF32::ONE,
        dash: (!dashes.is_empty()).then_some(StrokeDash { array: dashes, offset: 0.0 }),
    }
}

fn draw(surface: &mut Surface, item: &Item, fonts: &Fonts) {
    match item {
        Item::Stroke(segments, pen) => {
            surface.set_fill(None);
            surface.set_stroke(Some(stroke(*pen)));
            if let Some(path) = path(segments) {
                surface.draw_path(&path);
            }
        }
        Item::Fill(segments, black) => {
            surface.set_stroke(None);
            surface.set_fill(Some(fill(*black)));
            if let Some(path) = path(segments) {
                surface.draw_path(&path);
            }
        }
        Item::Text(label) => text(surface, label, fonts.of(label.face)),
    }
}

/// The letters are set where they were measured.
fn text(surface: &mut Surface, label: &Label, font: Font) {
    surface.set_stroke(None);
    surface.set_fill(Some(fill(1.0)));
    let glyph = |(from, letter): (usize, char)| {
        let drawn = label.face.drawn(letter)?;
        let range = from..from + letter.len_utf8();
        Some(KrillaGlyph::new(GlyphId::new(drawn.glyph), drawn.advance as f32, 0.0, 0.0, 0.0, range, None))
    };
    let glyphs: Vec<KrillaGlyph> = label.text.char_indices().filter_map(glyph).collect();
    let [x, y] = point(label.at);
    let size = (label.size * POINTS) as f32;
    if label.upright {
        surface.push_transform(&Transform::from_rotate_at(-90.0, x, y));
    }
    surface.draw_glyphs(Point::from_xy(x, y), &glyphs, font, &label.text, size, false);
    if label.upright {
        surface.pop();
    }
}
