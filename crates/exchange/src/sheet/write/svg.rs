//! Pages as an SVG, under one another, in millimetres. Text stays text, each set to the length that was measured.

use std::fmt::Write;

use crate::sheet::ink::{At, Face, Item, Label, Page, Pen, Segment};

/// Between two pages, mm.
const BETWEEN: f64 = 10.0;

/// An SVG of pages under a title.
pub fn svg(pages: &[Page], title: &str) -> String {
    let width = pages.iter().map(|page| page.size[0]).fold(0.0, f64::max);
    let height: f64 = pages.iter().map(|page| page.size[1] + BETWEEN).sum::<f64>() - BETWEEN;
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    line(
        &mut out,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" \
             font-family=\"B612, sans-serif\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">"
        ),
    );
    line(&mut out, format_args!("<title>{}</title>", escaped(title)));
    line(&mut out, format_args!("<rect width=\"{width}\" height=\"{height}\" fill=\"white\"/>"));
    let mut down = 0.0;
    for page in pages {
        line(&mut out, format_args!("<g transform=\"translate(0 {})\">", number(down)));
        for item in &page.items {
            draw(&mut out, item);
        }
        line(&mut out, format_args!("</g>"));
        down += page.size[1] + BETWEEN;
    }
    out.push_str("</svg>\n");
    out
}

/// Writing to a string cannot fail.
fn line(out: &mut String, what: std::fmt::Arguments) {
    let _ = out.write_fmt(what);
    out.push('\n');
}

/// A figure to a thousandth of a millimetre.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.into() }
}

fn place(at: At) -> String {
    format!("{} {}", number(at.x), number(at.y))
}

fn path(segments: &[Segment]) -> String {
    let each = |segment: &Segment| match *segment {
        Segment::Move(at) => format!("M{}", place(at)),
        Segment::Line(at) => format!("L{}", place(at)),
        Segment::Cubic(a, b, c) => format!("C{} {} {}", place(a), place(b), place(c)),
        Segment::Close => "Z".into(),
    };
    segments.iter().map(each).collect()
}

fn draw(out: &mut String, item: &Item) {
    match item {
        Item::Stroke(segments, pen) => {
            let dashes: Vec<String> = pen.dashes().into_iter().map(number).collect();
            let dashes =
                if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dashes.join(" ")) };
            line(
                out,
                format_args!(
                    "<path class=\"{}\" d=\"{}\" stroke=\"black\" stroke-width=\"{}\"{dashes}/>",
                    class(*pen),
                    path(segments),
                    number(pen.width())
                ),
            );
        }
        Item::Fill(segments, black) => line(
            out,
            format_args!("<path d=\"{}\" fill=\"black\" fill-opacity=\"{}\"/>", path(segments), number(*black)),
        ),
        Item::Text(label) => text(out, label),
    }
}

const fn class(pen: Pen) -> &'static str {
    match pen {
        Pen::Wide => "wide",
        Pen::Narrow => "narrow",
        Pen::Hidden => "hidden",
        Pen::Centre => "centre",
    }
}

fn text(out: &mut String, label: &Label) {
    let weight = if label.face == Face::Bold { " font-weight=\"bold\"" } else { "" };
    let turn = if label.upright { format!(" transform=\"rotate(-90 {})\"", place(label.at)) } else { String::new() };
    line(
        out,
        format_args!(
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" fill=\"black\"{weight}{turn}>{}</text>",
            number(label.at.x),
            number(label.at.y),
            number(label.size),
            number(label.width),
            escaped(&label.text)
        ),
    );
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
