//! Full-size templates: the ends of the tube, and each kind of bend in its own plane, to lay the tube on; with a bar to check
//! the printer by. What does not fit the paper is named instead of being drawn smaller.

use elbowroom_geometry::ElementKind;
use elbowroom_geometry::units::format_number;

use super::title;
use crate::sheet::ink::{
    Along, Area, At, Draw, Face, Item, Items, Page, Paper, Pen, Segment, arc, high, lines, wrapped,
};
use crate::sheet::layout::{FOOT, TEXT};
use crate::sheet::work::Work;

/// The margin round a template, mm: more than most printers leave white.
const MARGIN: f64 = 10.0;
/// Room for what is said, above, and for the bar, below, mm.
const SAID: f64 = 16.0;
const BAR: f64 = 18.0;
/// The longest and the shortest legs of a bend that are drawn, mm.
const LEGS: [f64; 2] = [90.0, 15.0];

/// Bends that share an angle and a radius.
struct Kind {
    bends: Vec<usize>,
    angle_rad: f64,
    clr_mm: f64,
    od_mm: f64,
}

/// The paper, lying or standing.
#[derive(Clone, Copy)]
struct Turned {
    paper: Paper,
    lies: bool,
}

impl Turned {
    fn page(self) -> Page {
        if self.lies { Page::lying(self.paper) } else { Page::standing(self.paper) }
    }

    fn frame(self) -> Area {
        let [width, height] = self.page().size;
        Area::new(0.0, 0.0, width, height).within(MARGIN)
    }

    /// Where a template may lie.
    fn room(self) -> Area {
        let frame = self.frame();
        Area::new(frame.x + 2.0, frame.y + SAID, frame.width - 4.0, frame.height - SAID - BAR - FOOT)
    }
}

/// The pages of a tube.
pub fn pages(work: &Work, paper: Paper) -> Vec<Page> {
    let mut too_large = Vec::new();
    let mut pages = Vec::new();
    match ends(work, paper) {
        Some(page) => pages.push(page),
        None => too_large.push(format!("The ends of the tube, {} across.", work.length(work.part.tube.od.mm()))),
    }
    for kind in kinds(work) {
        match bend(work, paper, &kind) {
            Some(page) => pages.push(page),
            None => too_large.push(format!("{}.", said(work, &kind))),
        }
    }
    if !too_large.is_empty() {
        pages.push(refused(paper, &too_large));
    }
    pages
}

/// Bends of one angle and radius, as far as both are shown alike.
fn kinds(work: &Work) -> Vec<Kind> {
    let mut kinds: Vec<Kind> = Vec::new();
    let same = |a: f64, b: f64| (a - b).abs() < 0.05;
    for (index, _) in work.solved.bends.iter().enumerate().filter(|(_, bend)| bend.is_bent()) {
        let Some(ElementKind::Arc { radius_mm, angle_rad }) = work.solved.centreline.arc(index).map(|arc| arc.kind)
        else {
            continue;
        };
        let known = kinds
            .iter_mut()
            .find(|kind| same(kind.angle_rad.to_degrees(), angle_rad.to_degrees()) && same(kind.clr_mm, radius_mm));
        match known {
            Some(kind) => kind.bends.push(index),
            None => {
                kinds.push(Kind { bends: vec![index], angle_rad, clr_mm: radius_mm, od_mm: work.part.tube.od.mm() })
            }
        }
    }
    kinds
}

fn said(work: &Work, kind: &Kind) -> String {
    let numbers: Vec<String> = kind.bends.iter().map(|bend| (bend + 1).to_string()).collect();
    let bends = if numbers.len() == 1 { "Bend" } else { "Bends" };
    format!(
        "{bends} {}: {}° on CLR {}, as drawn, in the plane of the bend",
        numbers.join(", "),
        format_number(kind.angle_rad.to_degrees(), 1),
        work.length(kind.clr_mm)
    )
}

/// A place of a bend whose middle is straight up: at an angle from there, so far from its centre.
fn spoke(centre: At, angle: f64, reach: f64) -> At {
    centre.moved(angle.sin() * reach, -angle.cos() * reach)
}

impl Kind {
    /// The box of the bend with legs of that length about the centre of its arc: left, top, right, bottom.
    fn extent(&self, leg: f64) -> Area {
        let radius = self.od_mm / 2.0;
        let half = self.angle_rad / 2.0;
        let origin = At::new(0.0, 0.0);
        let mut spots: Vec<At> = Vec::new();
        for step in 0..=64 {
            let angle = -half + self.angle_rad * f64::from(step) / 64.0;
            spots.extend([-radius, radius].map(|side| spoke(origin, angle, self.clr_mm + side)));
        }
        for side in [-radius, radius] {
            for sign in [-1.0, 1.0] {
                let at = spoke(origin, half * sign, self.clr_mm + side);
                spots.push(at.moved(half.cos() * leg * sign, half.sin() * leg));
            }
        }
        let fold = |pick: fn(f64, f64) -> f64, of: fn(&At) -> f64, from: f64| spots.iter().map(of).fold(from, pick);
        let (left, top) = (fold(f64::min, |at| at.x, f64::INFINITY), fold(f64::min, |at| at.y, f64::INFINITY));
        let right = fold(f64::max, |at| at.x, f64::NEG_INFINITY);
        Area::new(left, top, right - left, fold(f64::max, |at| at.y, f64::NEG_INFINITY) - top)
    }
}

/// The page of a kind of bend; `None` where it does not fit with legs of any use.
fn bend(work: &Work, paper: Paper, kind: &Kind) -> Option<Page> {
    let [longest, shortest] = LEGS;
    let mut leg = longest;
    let turned = loop {
        let extent = kind.extent(leg);
        let fits = |lies: &bool| {
            let room = Turned { paper, lies: *lies }.room();
            extent.width <= room.width && extent.height <= room.height
        };
        if let Some(lies) = [true, false].into_iter().find(fits) {
            break Turned { paper, lies };
        }
        leg -= 5.0;
        if leg < shortest {
            return None;
        }
    };
    let mut page = turned.page();
    let (room, extent) = (turned.room(), kind.extent(leg));
    let middle = room.centre();
    let centre = At::new(middle.x - extent.x - extent.width / 2.0, middle.y - extent.y - extent.height / 2.0);
    profile(&mut page.items, centre, kind, leg);
    let text = format!(
        "{}. Lay the bent tube on it. What is drawn of its legs, {} each, begins at the short lines across.",
        said(work, kind),
        work.length(leg)
    );
    about(&mut page.items, turned, "Template of a bend, full size", &text);
    Some(page)
}

/// Outlines, centreline and the lines at which the legs begin.
fn profile(items: &mut Items, centre: At, kind: &Kind, leg: f64) {
    let (half, radius) = (kind.angle_rad / 2.0, kind.od_mm / 2.0);
    let up = -std::f64::consts::FRAC_PI_2;
    let run = |reach: f64| {
        let out = |sign: f64| spoke(centre, half * sign, reach).moved(half.cos() * leg * sign, half.sin() * leg);
        let mut path = vec![Segment::Move(out(-1.0)), Segment::Line(spoke(centre, -half, reach))];
        path.extend(arc(centre, reach, up - half, kind.angle_rad).into_iter().skip(1));
        path.push(Segment::Line(out(1.0)));
        path
    };
    for side in [-radius, radius] {
        if kind.clr_mm + side > 0.0 {
            items.push(Item::Stroke(run(kind.clr_mm + side), Pen::Wide));
        }
    }
    items.push(Item::Stroke(run(kind.clr_mm), Pen::Centre));
    for sign in [-1.0, 1.0] {
        let across = |away: f64| {
            [-radius, radius].map(|side| {
                spoke(centre, half * sign, (kind.clr_mm + side).max(0.0))
                    .moved(half.cos() * away * sign, half.sin() * away)
            })
        };
        let [from, to] = across(0.0);
        items.line(from, to, Pen::Narrow);
        let [from, to] = across(leg);
        items.line(from, to, Pen::Wide);
    }
}

/// The ends of the tube, seen from outside; `None` where they do not fit.
fn ends(work: &Work, paper: Paper) -> Option<Page> {
    let turned = Turned { paper, lies: true };
    let room = turned.room();
    let od = work.part.tube.od.mm();
    let count = ((room.width / (od + 14.0)).floor() as usize).min(2);
    if count == 0 || od + 14.0 > room.height {
        return None;
    }
    let mut page = turned.page();
    for index in 0..count {
        let middle = At::new(room.x + room.width * (index as f64 + 0.5) / count as f64, room.centre().y);
        let items = &mut page.items;
        items.circle(middle, od / 2.0, Pen::Wide);
        let bore = od / 2.0 - work.part.tube.wall.mm();
        items.circle(middle, bore, Pen::Wide);
        let reach = od / 2.0 + 3.0;
        items.line(middle.moved(-reach, 0.0), middle.moved(reach, 0.0), Pen::Centre);
        items.line(middle.moved(0.0, -reach), middle.moved(0.0, reach), Pen::Centre);
        let name = ["Start", "Finish"][index];
        items.text(middle.moved(0.0, reach + 4.0), Along::Middle, (Face::Bold, TEXT), name);
        let mut bends =
            work.solved.bends.iter().enumerate().filter(|(_, bend)| bend.is_bent()).map(|(bend, _)| bend + 1);
        let nearest = if index == 0 { bends.next() } else { bends.next_back() };
        if let Some(bend) = nearest {
            let towards = format!("towards the inside of bend {bend}");
            items.text(middle.moved(0.0, -reach - 1.2), Along::Middle, (Face::Regular, TEXT), &towards);
        }
    }
    let bore = work.part.tube.od.mm() - 2.0 * work.part.tube.wall.mm();
    let text = format!("Outside {} and bore {}, both ends square.", work.length(od), work.length(bore));
    about(&mut page.items, turned, "Templates of the ends, full size", &text);
    Some(page)
}

/// What does not fit.
fn refused(paper: Paper, too_large: &[String]) -> Page {
    let turned = Turned { paper, lies: true };
    let mut page = turned.page();
    let text = format!("Too large for {} at full size, so not drawn; nothing is drawn smaller here.", paper.name());
    about(&mut page.items, turned, "Templates that do not fit", &text);
    let room = turned.room();
    let mut down = 0.0;
    for (index, line) in too_large.iter().enumerate() {
        let wrapped = wrapped(Face::Regular, TEXT, line, room.width);
        if down + high(TEXT, wrapped.len() + 1) > room.height {
            let more = [format!("And {} more.", too_large.len() - index)];
            lines(&mut page.items, Area::new(room.x, room.y + down, room.width, 0.0), (Face::Regular, TEXT), &more);
            break;
        }
        down +=
            lines(&mut page.items, Area::new(room.x, room.y + down, room.width, 0.0), (Face::Regular, TEXT), &wrapped);
    }
    page
}

/// What a template is, and the bar to check the printer by.
fn about(items: &mut Items, turned: Turned, title: &str, text: &str) {
    let frame = turned.frame();
    items.text(At::new(frame.x + 2.0, frame.y + 5.0), Along::Begins, (Face::Bold, 3.6), title);
    let wrapped = wrapped(Face::Regular, TEXT, text, frame.width - 4.0);
    lines(items, Area::new(frame.x + 2.0, frame.y + 6.5, frame.width - 4.0, 0.0), (Face::Regular, TEXT), &wrapped);
    let y = frame.bottom() - FOOT - 7.0;
    let left = frame.x + 6.0;
    let bar = |items: &mut Items, left: f64, step: f64, count: u32, name: &str| {
        let right = left + step * f64::from(count);
        items.line(At::new(left, y), At::new(right, y), Pen::Wide);
        for tick in 0..=count {
            let x = left + step * f64::from(tick);
            let long = if tick == 0 || tick == count { 3.0 } else { 1.8 };
            items.line(At::new(x, y), At::new(x, y - long), Pen::Narrow);
        }
        items.text(At::new((left + right) / 2.0, y + 3.6), Along::Middle, (Face::Regular, TEXT), name);
        right
    };
    let right = bar(items, left, 10.0, 10, "100 mm: measure it. Is it shorter or longer, print again at 100 %.");
    bar(items, right + 8.0, 25.4, 2, "2 in");
}

/// The frame and the line at the foot.
pub fn foot(page: &mut Page, told: &str, number: [usize; 2]) {
    let [width, height] = page.size;
    let frame = Area::new(0.0, 0.0, width, height).within(MARGIN);
    page.items.frame(frame, Pen::Narrow);
    title::foot(&mut page.items, frame, told, number);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bend_on_paper_is_as_large_as_it_is() {
        // 90° on CLR 100 of tube 50, legs of 60, its middle straight up. From the centre the outermost reach across is that
        // of a leg's outer corner: 125 sin 45° + 60 cos 45° = 130.81 mm to both sides; up 125; down 60 sin 45° − 75 cos 45°.
        let kind = Kind { bends: vec![0], angle_rad: std::f64::consts::FRAC_PI_2, clr_mm: 100.0, od_mm: 50.0 };
        let extent = kind.extent(60.0);
        assert!((extent.width - 2.0 * 130.815).abs() < 0.01, "{extent:?}");
        assert!((extent.y + 125.0).abs() < 0.01, "{extent:?}");
        assert!((extent.bottom() - (60.0 - 75.0) * 0.5_f64.sqrt()).abs() < 0.01, "{extent:?}");
    }
}
