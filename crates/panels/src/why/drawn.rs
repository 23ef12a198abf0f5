//! Draws what explains a finding which is not about the clamp.

use egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, TextStyle, Ui, Vec2, WidgetInfo,
    WidgetType, pos2, vec2,
};
use elbowroom_bending::Severity;
use elbowroom_workbench::Palette;

use super::picture::Picture;
use super::sketch::Spot;
use crate::colours::{colour, colours};
use crate::strip::paint_stretch;

/// Height of a drawing, points.
const HEIGHT: f32 = 190.0;
/// Height of one length beside others, points.
const LENGTH: f32 = 44.0;
/// A wall is drawn at least so thick, as a share of the radius: what a bend does to it shows then.
const LEAST_WALL: f64 = 0.16;

/// Draws a picture; `severity` is that of the finding.
pub fn picture(ui: &mut Ui, picture: &Picture, severity: Severity) {
    let height = match picture {
        Picture::Lengths(lengths) => LENGTH * lengths.len() as f32 + 6.0,
        Picture::Leg { .. } => 120.0,
        _ => HEIGHT,
    };
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let told = picture.to_string();
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, format!("Drawing: {told}")));
    if !ui.is_rect_visible(rect) {
        return;
    }
    let pen = Pen {
        painter: ui.painter_at(rect),
        palette: colours(ui),
        font: TextStyle::Small.resolve(ui.style()),
        body: rect.shrink2(vec2(6.0, 4.0)),
        severity,
    };
    match picture {
        Picture::Leg { leg_mm, takes, missing } => pen.leg(*leg_mm, takes, missing),
        Picture::Section { od_mm, wall_mm, walls_mm, texts } => pen.section(*od_mm, *wall_mm, *walls_mm, texts),
        Picture::Seam { seam_deg, limit_deg, texts } => pen.seam(*seam_deg, *limit_deg, texts),
        Picture::Radii { drawn, dies } => pen.radii(drawn, dies),
        Picture::Angle { drawn, most } => pen.angle(drawn, most),
        Picture::Meeting { od_mm, apart_mm, texts } => pen.meeting(*od_mm, *apart_mm, texts),
        Picture::Gap { od_mm, gap_mm, wanted_mm, texts } => pen.gap(*od_mm, [*gap_mm, *wanted_mm], texts),
        Picture::Vertices(spots) => pen.vertices(spots),
        Picture::Lengths(lengths) => pen.lengths(lengths),
    }
}

struct Pen<'a> {
    painter: Painter,
    palette: &'a Palette,
    font: FontId,
    body: Rect,
    severity: Severity,
}

impl Pen<'_> {
    fn ink(&self) -> Color32 {
        colour(self.palette.text)
    }

    fn thin(&self) -> Stroke {
        Stroke::new(1.0, colour(self.palette.weak_text))
    }

    fn wall(&self) -> Stroke {
        Stroke::new(1.0, colour(self.palette.strip_ruler))
    }

    fn marked(&self) -> Stroke {
        Stroke::new(2.5, colour(self.palette.severity(self.severity)))
    }

    /// A text by the side of a point, pushed into the drawing.
    fn text(&self, at: Pos2, side: Align2, text: &str) -> Rect {
        let galley = self.painter.layout(text.to_owned(), self.font.clone(), self.ink(), self.body.width());
        let rect = side.anchor_size(at, galley.size());
        let least = self.body.min.to_vec2();
        let most = (self.body.max - galley.size()).to_vec2().max(least);
        let rect = Rect::from_min_size(rect.min.to_vec2().clamp(least, most).to_pos2(), galley.size());
        self.painter.rect_filled(rect.expand2(vec2(3.0, 0.0)), 3.0, colour(self.palette.label_background));
        self.painter.galley(rect.min, galley, self.ink());
        rect
    }

    /// A stretch with the pattern of the finding's severity.
    fn stretch(&self, rect: Rect) {
        paint_stretch(&self.painter, rect, self.severity, self.palette);
        self.painter.rect_stroke(rect, 0.0, Stroke::new(1.0, colour(self.palette.mark_outline)), StrokeKind::Inside);
    }

    fn lengths(&self, lengths: &[(String, f64, String)]) {
        let most = lengths.iter().map(|(_, mm, _)| mm.abs()).fold(1e-9, f64::max);
        let limit = lengths.last().map_or(0.0, |(_, mm, _)| *mm);
        let x = |mm: f64| self.body.left() + self.body.width() * (mm.max(0.0) / most) as f32;
        for (index, (name, mm, text)) in lengths.iter().enumerate() {
            let top = self.body.top() + LENGTH * index as f32;
            self.text(pos2(self.body.left(), top + 8.0), Align2::LEFT_CENTER, &format!("{name}: {text}"));
            let bar = Rect::from_min_max(
                pos2(self.body.left(), top + 18.0),
                pos2(x(*mm).max(self.body.left() + 1.0), top + 36.0),
            );
            self.painter.rect(bar, 0.0, colour(self.palette.strip_straight), self.wall(), StrokeKind::Inside);
            let is_measured = index + 1 < lengths.len();
            if is_measured {
                // Where the two differ.
                let (from, to) = (x(mm.min(limit)), x(mm.max(limit)));
                if to - from > 1.0 {
                    self.stretch(Rect::from_min_max(pos2(from, bar.top()), pos2(to, bar.bottom())));
                }
            }
        }
    }

    fn leg(&self, leg_mm: f64, takes: &[(String, f64)], missing: &str) {
        let all_mm: f64 = takes.iter().map(|(_, mm)| mm).sum::<f64>().max(leg_mm);
        let x = |mm: f64| self.body.left() + self.body.width() * (mm / all_mm) as f32;
        let middle = self.body.center().y;
        // The leg lies in the middle of what both bends want.
        let shift = (all_mm - leg_mm) / 2.0;
        let (first, last) = (shift, shift + leg_mm);
        let ends = [pos2(x(first), middle), pos2(x(last), middle)];
        self.painter.line_segment(ends, Stroke::new(2.0, self.ink()));
        for end in ends {
            self.painter.circle(
                end,
                4.0,
                colour(self.palette.handle),
                Stroke::new(1.0, colour(self.palette.handle_outline)),
            );
        }
        let mut spans: Vec<(f64, f64)> = Vec::new();
        for (index, (name, mm)) in takes.iter().enumerate() {
            let from_start = index == 0 && takes.len() > 1;
            let (from, to) = if from_start { (first, first + mm) } else { (last - mm, last) };
            let y = if from_start { middle - 26.0 } else { middle + 26.0 };
            self.span(x(from), x(to), y);
            let side = if from_start { Align2::LEFT_BOTTOM } else { Align2::RIGHT_TOP };
            let at = pos2(if from_start { x(from) } else { x(to) }, y + if from_start { -4.0 } else { 4.0 });
            self.text(at, side, &format!("{name} takes this much"));
            spans.push((from, to));
        }
        let over = match spans[..] {
            [(_, to), (from, _)] => (from, to),
            [(from, _)] => (from, first),
            _ => return,
        };
        let rect =
            Rect::from_min_max(pos2(x(over.0), middle - 9.0), pos2(x(over.1).max(x(over.0) + 2.0), middle + 9.0));
        self.stretch(rect);
        self.text(rect.center() - vec2(0.0, 18.0), Align2::CENTER_CENTER, &format!("both want {missing}"));
    }

    /// A line with a stop at either end.
    fn span(&self, from: f32, to: f32, y: f32) {
        self.painter.line_segment([pos2(from, y), pos2(to, y)], self.thin());
        for x in [from, to] {
            self.painter.line_segment([pos2(x, y - 4.0), pos2(x, y + 4.0)], self.thin());
        }
    }

    fn section(&self, od_mm: f64, wall_mm: f64, walls_mm: (f64, Option<f64>), texts: &[String; 2]) {
        let radius = (self.body.height() / 2.0 - 22.0).min(self.body.width() / 4.0);
        let centre = pos2(self.body.center().x, self.body.center().y);
        // Thin walls are drawn thicker, all by as much, so that their difference shows.
        let times = (LEAST_WALL * od_mm / 2.0 / wall_mm).max(1.0);
        let points_per_mm = f64::from(radius) / (od_mm / 2.0);
        let thick = |mm: f64| (mm * times * points_per_mm) as f32;
        let outside = thick(walls_mm.0);
        // Where no rule tells the inside, the metal that left the outside is there.
        let inside = thick(walls_mm.1.unwrap_or(2.0 * wall_mm - walls_mm.0));
        let bore = (2.0 * radius - outside - inside).max(2.0) / 2.0;
        let bore_centre = centre + vec2(0.0, (outside - inside) / 2.0);
        self.painter.circle(centre, radius, colour(self.palette.strip_arc), self.wall());
        self.painter.circle(bore_centre, bore, colour(self.palette.panel), self.wall());
        let before = radius - thick(wall_mm);
        let ring: Vec<Pos2> = (0..=64).map(|step| centre + turned(step as f32 / 64.0 * 360.0) * before).collect();
        self.painter.extend(Shape::dashed_line(&ring, self.thin(), 4.0, 3.0));
        let top = centre - vec2(0.0, radius);
        self.painter.line_segment([top, top + vec2(0.0, outside)], self.marked());
        self.text(pos2(centre.x, self.body.top()), Align2::CENTER_TOP, &texts[0]);
        self.text(pos2(centre.x, self.body.bottom()), Align2::CENTER_BOTTOM, &texts[1]);
        if times > 1.0 {
            self.text(centre, Align2::CENTER_CENTER, &format!("walls {times:.1} times\nas thick as true"));
        }
        self.text(pos2(self.body.right(), top.y + 14.0), Align2::RIGHT_CENTER, "outside of the bend");
    }

    fn seam(&self, seam_deg: f64, limit_deg: f64, texts: &[String; 2]) {
        let radius = (self.body.height() / 2.0 - 18.0).min(self.body.width() / 4.0);
        let centre = self.body.center();
        self.painter.circle(centre, radius, colour(self.palette.strip_arc), self.wall());
        self.painter.circle(centre, radius * 0.84, colour(self.palette.panel), self.wall());
        let steps = 24;
        let arc: Vec<Pos2> = (0..=steps)
            .map(|step| centre + turned((2.0 * step as f32 / steps as f32 - 1.0) * limit_deg as f32) * (radius * 0.92))
            .collect();
        self.painter.add(Shape::line(arc, Stroke::new(radius * 0.14, colour(self.palette.severity(self.severity)))));
        for side in [-1.0, 1.0] {
            let towards = turned(side * limit_deg as f32);
            self.painter
                .line_segment([centre + towards * (radius * 0.7), centre + towards * (radius * 1.1)], self.thin());
        }
        let at = centre + turned(seam_deg as f32) * radius;
        self.painter.line_segment([centre, at], Stroke::new(1.5, colour(self.palette.tube_seam)));
        self.painter.circle(
            at,
            5.0,
            colour(self.palette.tube_seam),
            Stroke::new(1.0, colour(self.palette.mark_outline)),
        );
        self.text(pos2(centre.x, self.body.top()), Align2::CENTER_TOP, "outside of the bend: stretched");
        self.text(pos2(centre.x, self.body.bottom()), Align2::CENTER_BOTTOM, "inside: gathered");
        let side = if seam_deg >= 0.0 {
            (self.body.right(), Align2::RIGHT_CENTER)
        } else {
            (self.body.left(), Align2::LEFT_CENTER)
        };
        self.text(pos2(side.0, at.y), side.1, &texts[0]);
        self.text(pos2(self.body.left(), centre.y + radius * 0.5), Align2::LEFT_CENTER, &texts[1]);
    }

    fn radii(&self, drawn: &(f64, String), dies: &[(f64, String)]) {
        let most = dies.iter().map(|(mm, _)| *mm).chain([drawn.0]).fold(1e-9, f64::max);
        let reach = self.body.height() - 14.0;
        let corner = pos2(self.body.left() + 10.0, self.body.bottom() - 6.0);
        let arc = |mm: f64| -> Vec<Pos2> {
            let radius = reach * (mm / most) as f32;
            (0..=32).map(|step| corner + turned(step as f32 / 32.0 * 90.0) * radius).collect()
        };
        let mut at_y = self.body.top() + 8.0;
        let left = corner.x + reach + 16.0;
        let mut named = |pen: &Self, mm: f64, text: &str, stroke: Stroke| {
            // From the arc to its name, beside one another.
            let from = corner + turned(18.0) * (reach * (mm / most) as f32);
            let rect = pen.text(pos2(left, at_y), Align2::LEFT_CENTER, text);
            pen.painter.line_segment([from, pos2(rect.left() - 4.0, rect.center().y)], Stroke::new(1.0, stroke.color));
            at_y += rect.height() + 6.0;
        };
        let mut all: Vec<(f64, &str, bool)> = dies.iter().map(|(mm, name)| (*mm, name.as_str(), false)).collect();
        all.push((drawn.0, drawn.1.as_str(), true));
        // The largest at the top, so that no line crosses another.
        all.sort_by(|a, b| b.0.total_cmp(&a.0));
        for (mm, text, is_drawn) in all {
            let stroke = if is_drawn { self.marked() } else { Stroke::new(2.0, colour(self.palette.strip_clamp)) };
            if is_drawn {
                self.painter.extend(Shape::dashed_line(&arc(mm), stroke, 8.0, 4.0));
            } else {
                self.painter.add(Shape::line(arc(mm), stroke));
            }
            named(self, mm, text, stroke);
        }
        if dies.is_empty() {
            self.text(pos2(left, self.body.bottom() - 10.0), Align2::LEFT_CENTER, "no die set for this tube");
        }
    }

    fn angle(&self, drawn: &(f64, String), most: &(f64, String)) {
        let centre = self.body.center() + vec2(0.0, self.body.height() * 0.12);
        let reach = self.body.height() * 0.36;
        let arm = |deg: f64| turned(90.0 - deg as f32);
        self.painter.line_segment([centre - vec2(reach * 1.3, 0.0), centre], Stroke::new(2.0, self.ink()));
        let ray = |deg: f64, stroke: Stroke| {
            self.painter.line_segment([centre, centre + arm(deg) * reach * 1.2], stroke);
        };
        let sweep = |deg: f64, radius: f32| -> Vec<Pos2> {
            (0..=48).map(|step| centre + arm(deg * f64::from(step) / 48.0) * radius).collect()
        };
        self.painter.add(Shape::line(sweep(most.0, reach * 0.55), Stroke::new(2.0, colour(self.palette.strip_clamp))));
        self.painter.add(Shape::line(sweep(drawn.0, reach * 0.75), self.marked()));
        ray(most.0, Stroke::new(2.0, colour(self.palette.strip_clamp)));
        ray(drawn.0, self.marked());
        self.painter.extend(Shape::dashed_line(&[centre, centre + vec2(reach * 1.2, 0.0)], self.thin(), 4.0, 4.0));
        self.text(pos2(self.body.left(), self.body.top() + 8.0), Align2::LEFT_CENTER, &drawn.1);
        self.text(pos2(self.body.right(), self.body.top() + 8.0), Align2::RIGHT_CENTER, &most.1);
    }

    fn meeting(&self, od_mm: f64, apart_mm: f64, texts: &[String; 2]) {
        let whole = od_mm + apart_mm.max(od_mm * 0.05);
        let points_per_mm = (self.body.width() as f64 * 0.8 / whole).min(f64::from(self.body.height() - 56.0) / od_mm);
        let (radius, half) = ((od_mm / 2.0 * points_per_mm) as f32, (apart_mm / 2.0 * points_per_mm) as f32);
        let centre = self.body.center() - vec2(0.0, 6.0);
        let both = [centre - vec2(half, 0.0), centre + vec2(half, 0.0)];
        for at in both {
            self.painter.circle(at, radius, colour(self.palette.strip_arc).gamma_multiply(0.6), self.wall());
        }
        // The lens that both want: an arc of either about the other's middle.
        if half < radius {
            let reach = (half / radius).acos().to_degrees();
            let arc = |middle: Pos2, towards: f32| {
                (0..=24).map(move |step| middle + turned(towards - reach + reach * step as f32 / 12.0) * radius)
            };
            let lens: Vec<Pos2> = arc(both[0], 90.0).chain(arc(both[1], 270.0)).collect();
            let ink = colour(self.palette.severity(self.severity));
            let outline = Stroke::new(1.5, colour(self.palette.mark_outline));
            self.painter.add(Shape::convex_polygon(lens, ink.gamma_multiply(0.85), outline));
        }
        let y = centre.y + radius + 8.0;
        self.span(both[0].x, both[1].x, y);
        self.text(pos2(centre.x, y + 6.0), Align2::CENTER_TOP, &format!("{}, {}", texts[0], texts[1]));
        for at in both {
            self.painter.circle_filled(at, 2.5, self.ink());
        }
    }

    fn gap(&self, od_mm: f64, [gap_mm, wanted_mm]: [f64; 2], texts: &[String; 2]) {
        let across = od_mm * 1.5 + gap_mm.max(0.0).max(wanted_mm);
        let points_per_mm =
            (f64::from(self.body.width()) * 0.9 / across).min(f64::from(self.body.height() - 40.0) / od_mm);
        let points = |mm: f64| (mm * points_per_mm) as f32;
        let radius = points(od_mm / 2.0);
        let left = self.body.center().x - points(across) / 2.0;
        let centre = pos2(left + radius, self.body.center().y);
        let outside = centre.x + radius;
        let face = outside + points(gap_mm);
        // The other: a block whose face is as far away as it is.
        let block = Rect::from_min_max(
            pos2(face, centre.y - radius * 1.1),
            pos2((face + points(od_mm * 0.5)).min(self.body.right()), centre.y + radius * 1.1),
        );
        self.painter.rect(block, 0.0, colour(self.palette.strip_straight), self.wall(), StrokeKind::Inside);
        self.painter.circle(centre, radius, colour(self.palette.strip_arc).gamma_multiply(0.7), self.wall());
        if gap_mm < wanted_mm {
            let (from, to) = (outside.min(face), (outside + points(wanted_mm)).max(outside).max(face));
            let height = radius * 0.4;
            let short = Rect::from_min_max(pos2(from, centre.y - height), pos2(to.max(from + 2.0), centre.y + height));
            self.stretch(short);
        }
        let y = centre.y + radius * 1.1 + 10.0;
        self.span(outside.min(face), outside.max(face), y);
        let text = format!("{}, {}", texts[0], texts[1]);
        self.text(pos2((outside + face) / 2.0, y + 6.0), Align2::CENTER_TOP, &text);
    }

    fn vertices(&self, spots: &[Spot]) {
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for spot in spots {
            for axis in 0..2 {
                (low[axis], high[axis]) = (low[axis].min(spot[axis]), high[axis].max(spot[axis]));
            }
        }
        let size = [(high[0] - low[0]).max(1e-6), (high[1] - low[1]).max(1e-6)];
        let inner = self.body.shrink(24.0);
        let scale = (f64::from(inner.width()) / size[0]).min(f64::from(inner.height()) / size[1]);
        let middle = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
        let at = |spot: &Spot| {
            inner.center() + vec2(((spot[0] - middle[0]) * scale) as f32, (-(spot[1] - middle[1]) * scale) as f32)
        };
        let mut places: Vec<Pos2> = spots.iter().map(at).collect();
        // A leg that doubles back lies on the one before; drawn a little aside both are seen.
        if size[1] <= 1e-6 && places.len() == 3 {
            places[2].y += 14.0;
            self.painter.line_segment([places[1] + vec2(0.0, 14.0), places[2]], self.marked());
            self.painter.line_segment([places[0], places[1]], Stroke::new(2.0, self.ink()));
        } else {
            for pair in places.windows(2) {
                self.painter.line_segment([pair[0], pair[1]], Stroke::new(2.0, self.ink()));
            }
        }
        for place in &places {
            self.painter.circle(
                *place,
                4.0,
                colour(self.palette.handle),
                Stroke::new(1.0, colour(self.palette.handle_outline)),
            );
        }
        if let Some(meant) = places.get(1) {
            self.painter.circle_stroke(*meant, 10.0, self.marked());
        }
    }
}

/// A direction so many degrees clockwise from straight up.
fn turned(deg: f32) -> Vec2 {
    let (sin, cos) = deg.to_radians().sin_cos();
    vec2(sin, -cos)
}
