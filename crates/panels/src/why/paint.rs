//! Draws the clamp on the tube, and the gauges under it.

use egui::{
    Align2, Color32, FontId, Mesh, Painter, Pos2, Rangef, Rect, Sense, Shape, Stroke, StrokeKind, TextStyle, Ui,
    WidgetInfo, WidgetType, pos2, vec2,
};
use elbowroom_bending::Severity;
use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, format_length};
use elbowroom_workbench::Palette;

use super::gauge::Gauge;
use super::sketch::{Run, Sketch, Spot};
use crate::colours::{colour, colours};
use crate::strip::paint_stretch;

/// The least and the most height of the drawing itself, points.
const HEIGHT: Rangef = Rangef { min: 90.0, max: 220.0 };
/// Room above the drawing for the figure of the bite, points.
const ABOVE: f32 = 22.0;
/// Room for one line of dimensions, points.
const DIMENSION: f32 = 20.0;

/// Draws the clamp on the tube with its dimensions.
pub fn sketch(ui: &mut Ui, sketch: &Sketch, severity: Option<Severity>, unit: LengthUnit) {
    let (low, high) = sketch.bounds_mm();
    let width = ui.available_width();
    let size_mm = [high[0] - low[0], high[1] - low[1]];
    let wanted = f64::from(width - 8.0) / size_mm[0] * size_mm[1];
    let height = HEIGHT.clamp(wanted as f32);
    let points_per_mm = (f64::from(width - 8.0) / size_mm[0]).min(f64::from(height) / size_mm[1]);
    let below = DIMENSION * 2.0 + 4.0;
    let (rect, response) = ui.allocate_exact_size(vec2(width, ABOVE + height + below), Sense::hover());
    response.widget_info(|| {
        WidgetInfo::labeled(WidgetType::Image, true, format!("Clamp of bend {} on the tube", sketch.bend + 1))
    });
    if !ui.is_rect_visible(rect) {
        return;
    }
    let body = Rect::from_min_size(rect.min + vec2(0.0, ABOVE), vec2(width, height));
    let middle = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
    let pen = Pen {
        painter: ui.painter_at(rect),
        palette: colours(ui),
        centre: body.center(),
        middle,
        points_per_mm,
        font: TextStyle::Small.resolve(ui.style()),
        body,
        unit,
        severity,
    };
    pen.draw(sketch);
}

struct Pen<'a> {
    painter: Painter,
    palette: &'a Palette,
    centre: Pos2,
    middle: Spot,
    points_per_mm: f64,
    font: FontId,
    body: Rect,
    unit: LengthUnit,
    severity: Option<Severity>,
}

impl Pen<'_> {
    fn at(&self, spot: Spot) -> Pos2 {
        let off = |axis: usize| ((spot[axis] - self.middle[axis]) * self.points_per_mm) as f32;
        self.centre + vec2(off(0), -off(1))
    }

    fn text(&self, mm: f64) -> String {
        format_length(Length::from_mm(mm), self.unit, self.unit.decimals())
    }

    fn draw(&self, sketch: &Sketch) {
        for run in &sketch.runs {
            self.tube(run, sketch.od_mm / 2.0);
        }
        self.jaws(sketch);
        self.bites(sketch);
        self.axis(sketch);
        self.names(sketch);
        self.dimensions(sketch);
    }

    /// The tube's walls on either side of a run of the centreline.
    fn tube(&self, run: &Run, radius_mm: f64) {
        let fill = colour(if run.bend.is_some() { self.palette.strip_arc } else { self.palette.strip_straight });
        let line = Stroke::new(1.0, colour(self.palette.strip_ruler));
        let [upper, lower] =
            walls(&run.spots, radius_mm).map(|wall| wall.into_iter().map(|spot| self.at(spot)).collect::<Vec<_>>());
        let mut mesh = Mesh::default();
        for (above, below) in upper.iter().zip(&lower) {
            mesh.colored_vertex(*above, fill);
            mesh.colored_vertex(*below, fill);
        }
        for pair in 1..upper.len() as u32 {
            let first = 2 * (pair - 1);
            mesh.add_triangle(first, first + 1, first + 2);
            mesh.add_triangle(first + 1, first + 2, first + 3);
        }
        self.painter.add(Shape::mesh(mesh));
        for wall in [upper, lower] {
            self.painter.add(Shape::line(wall, line));
        }
        let centre: Vec<_> = run.spots.iter().map(|spot| self.at(*spot)).collect();
        self.painter.extend(Shape::dashed_line(&centre, Stroke::new(1.0, colour(self.palette.weak_text)), 7.0, 3.0));
    }

    fn jaws(&self, sketch: &Sketch) {
        let (radius, jaw) = (sketch.od_mm / 2.0, sketch.od_mm / 2.0 + sketch.jaw_mm());
        for ((from, to), name) in [(radius, jaw), (-jaw, -radius)].into_iter().zip(sketch.jaws.names()) {
            let rect = Rect::from_two_pos(self.at([-sketch.clamp_mm, from]), self.at([0.0, to]));
            self.painter.rect_filled(rect, 2.0, colour(self.palette.clamp_block));
            self.painter.rect_stroke(rect, 2.0, Stroke::new(1.5, colour(self.palette.strip_clamp)), StrokeKind::Inside);
            self.label(self.at([-sketch.clamp_mm / 2.0, (from + to) / 2.0]), name, colour(self.palette.text));
        }
    }

    /// Where tube and jaws want the same room.
    fn bites(&self, sketch: &Sketch) {
        let radius = sketch.od_mm / 2.0;
        let jaw = radius + sketch.jaw_mm();
        let ink = self.severity.map_or(self.palette.strip_clamp, |severity| self.palette.severity(severity));
        let ink = colour(ink);
        for run in sketch.runs.iter().filter(|run| run.bend != Some(sketch.bend)) {
            for (wall, side) in walls(&run.spots, radius).into_iter().zip([1.0, -1.0]) {
                let inside = |spot: &Spot| spot[0] >= -sketch.clamp_mm && spot[0] <= 0.0 && spot[1] * side > radius;
                for pair in wall.windows(2).filter(|pair| pair.iter().all(inside)) {
                    let held = |spot: Spot| [spot[0], side * (spot[1] * side).min(jaw)];
                    let corners =
                        [held(pair[0]), held(pair[1]), [pair[1][0], side * radius], [pair[0][0], side * radius]];
                    let corners = corners.map(|spot| self.at(spot)).to_vec();
                    self.painter.add(Shape::convex_polygon(corners, ink, Stroke::new(0.5, ink)));
                }
            }
        }
        let Some([at, bite]) = sketch.bite else { return };
        let (foot, tip) = (self.at([at, 0.0]), self.at([at, bite]));
        let strong = Stroke::new(2.0, colour(self.palette.text));
        self.painter.line_segment([foot, tip], strong);
        for end in [foot, tip] {
            self.painter.line_segment([end - vec2(4.0, 0.0), end + vec2(4.0, 0.0)], strong);
        }
        // The figure stands above the drawing, joined to the bite by a thin line.
        let above = pos2(tip.x, self.body.top() - 3.0);
        self.painter.line_segment([tip, above], Stroke::new(1.0, colour(self.palette.text)));
        let text = format!("bite {}", self.text(bite));
        let galley = self.painter.layout_no_wrap(text, self.font.clone(), colour(self.palette.text));
        let x = (above.x - galley.size().x / 2.0).clamp(self.body.left(), self.body.right() - galley.size().x);
        self.painter.galley(pos2(x, above.y - galley.size().y), galley, colour(self.palette.text));
    }

    fn axis(&self, sketch: &Sketch) {
        let line = [self.at([-sketch.clamp_mm, 0.0]), self.at([0.0, 0.0])];
        self.painter.line_segment(line, Stroke::new(1.5, colour(self.palette.accent)));
    }

    fn names(&self, sketch: &Sketch) {
        for run in &sketch.runs {
            let (Some(bend), Some(spot)) = (run.bend, run.spots.get(run.spots.len() / 2)) else { continue };
            let at = self.at(*spot);
            let name = format!("bend {}", bend + 1);
            if self.body.shrink(4.0).contains(at) {
                self.label(at, &name, colour(self.palette.text));
            }
        }
    }

    fn label(&self, at: Pos2, text: &str, ink: Color32) {
        let galley = self.painter.layout_no_wrap(text.to_owned(), self.font.clone(), ink);
        let rect = Align2::CENTER_CENTER.anchor_size(at, galley.size());
        let inside = self.body.shrink(1.0);
        let shift = vec2(
            (inside.left() - rect.left()).max(0.0) - (rect.right() - inside.right()).max(0.0),
            (inside.top() - rect.top()).max(0.0) - (rect.bottom() - inside.bottom()).max(0.0),
        );
        let rect = rect.translate(shift);
        self.painter.rect_filled(rect.expand2(vec2(3.0, 0.0)), 3.0, colour(self.palette.label_background));
        self.painter.galley(rect.min, galley, ink);
    }

    /// The clamp's length, and under it what of the tube lies along it.
    fn dimensions(&self, sketch: &Sketch) {
        let first = self.body.bottom() + DIMENSION * 0.65;
        let second = first + DIMENSION;
        let clamp = [-sketch.clamp_mm, 0.0];
        self.dimension(clamp, first, &[format!("clamp {}", self.text(sketch.clamp_mm)), "clamp".to_owned()]);
        let straight = self.text(sketch.straight_mm);
        if sketch.straight_mm > 0.0 {
            let from = (-sketch.straight_mm)
                .max((f64::from(self.body.left() - self.centre.x)) / self.points_per_mm + self.middle[0]);
            self.dimension([from, 0.0], second, &[format!("straight {straight}"), straight.clone()]);
        }
        if sketch.overlap_mm > 0.0 {
            let over = self.text(sketch.overlap_mm);
            let to = -sketch.straight_mm.max(0.0);
            self.dimension(
                [-sketch.clamp_mm, to],
                second,
                &[format!("over the bend {over}"), format!("over {over}"), over.clone()],
            );
        } else if sketch.at_tip && sketch.clamp_mm > sketch.straight_mm {
            let missing = self.text(sketch.clamp_mm - sketch.straight_mm);
            self.dimension(
                [-sketch.clamp_mm, -sketch.straight_mm],
                second,
                &[format!("extra stock {missing}"), missing.clone()],
            );
        }
    }

    /// A line with arrows between two places along the axis, with the longest text that fits.
    fn dimension(&self, along: [f64; 2], y: f32, texts: &[String]) {
        let [from, to] = along.map(|mm| self.at([mm, 0.0]).x);
        let ink = colour(self.palette.text);
        let stroke = Stroke::new(1.0, colour(self.palette.weak_text));
        for x in [from, to] {
            self.painter.line_segment([pos2(x, self.body.bottom() - 2.0), pos2(x, y + 5.0)], stroke);
        }
        let galleys = texts.iter().map(|text| self.painter.layout_no_wrap(text.clone(), self.font.clone(), ink));
        let fits = galleys.into_iter().find(|galley| galley.size().x + 14.0 <= to - from);
        let gap = fits.as_ref().map_or(0.0, |galley| galley.size().x / 2.0 + 4.0);
        let middle = (from + to) / 2.0;
        for (tip, inner) in [(from, middle - gap), (to, middle + gap)] {
            self.painter.line_segment([pos2(tip, y), pos2(inner, y)], stroke);
            let back = (inner - tip).signum() * 5.0_f32.min((inner - tip).abs());
            for side in [-2.5, 2.5] {
                self.painter.line_segment([pos2(tip, y), pos2(tip + back, y + side)], stroke);
            }
        }
        if let Some(galley) = fits {
            let at = Align2::CENTER_CENTER.anchor_size(pos2(middle, y), galley.size());
            self.painter.galley(at.min, galley, ink);
        }
    }
}

/// The two walls of a run: its spots moved square to the way it goes, up and down.
fn walls(spots: &[Spot], radius_mm: f64) -> [Vec<Spot>; 2] {
    let mut walls = [Vec::with_capacity(spots.len()), Vec::with_capacity(spots.len())];
    for (index, spot) in spots.iter().enumerate() {
        let (before, after) = (spots[index.saturating_sub(1)], spots[(index + 1).min(spots.len() - 1)]);
        let (along, up) = (after[0] - before[0], after[1] - before[1]);
        let length = along.hypot(up);
        // A tube seen end on has no walls to draw.
        let [along, up] = if length > 0.0 { [along / length, up / length] } else { [-1.0, 0.0] };
        // Runs go from right to left, so the upper wall lies to the right of the way.
        walls[0].push([spot[0] + up * radius_mm, spot[1] - along * radius_mm]);
        walls[1].push([spot[0] - up * radius_mm, spot[1] + along * radius_mm]);
    }
    walls
}

/// A bar with zones, the measure as a pointer on it, and both in words.
pub fn gauge(ui: &mut Ui, gauge: &Gauge) {
    let palette = colours(ui);
    let meaning = gauge.zone().map_or("", |zone| zone.meaning);
    let sentence = format!("{} {}: {meaning}", gauge.name, gauge.text);
    ui.label(&sentence);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 30.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::ProgressIndicator, true, &sentence));
    let painter = ui.painter_at(rect);
    let bar =
        Rect::from_min_max(pos2(rect.left() + 6.0, rect.top() + 6.0), pos2(rect.right() - 6.0, rect.top() + 14.0));
    let x = |mm: f64| bar.left() + bar.width() * (mm / gauge.end_mm()).clamp(0.0, 1.0) as f32;
    let font = TextStyle::Small.resolve(ui.style());
    let ink = colour(palette.weak_text);
    let mut from = 0.0;
    let mut free_from = rect.left();
    for zone in &gauge.zones {
        let stretch = Rect::from_x_y_ranges(Rangef::new(x(from), x(zone.to_mm)), bar.y_range());
        match zone.severity {
            Some(Severity::Stop) => {
                painter.rect_filled(stretch, 0.0, colour(palette.stop));
            }
            Some(severity) => paint_stretch(&painter, stretch, severity, palette),
            None => {
                painter.rect_filled(stretch, 0.0, colour(palette.strip_straight));
            }
        }
        if zone.to_mm.is_finite() {
            let limit = format!("{} {}", gauge.limit(zone.to_mm), gauge.unit.symbol());
            painter.vline(x(zone.to_mm), Rangef::new(bar.top() - 2.0, bar.bottom() + 3.0), Stroke::new(1.0, ink));
            let galley = painter.layout_no_wrap(limit, font.clone(), ink);
            let at = (x(zone.to_mm) - galley.size().x / 2.0).clamp(rect.left(), rect.right() - galley.size().x);
            // Limits that lie close together push one another aside.
            let at = at.max(free_from);
            if at + galley.size().x <= rect.right() {
                free_from = at + galley.size().x + 6.0;
                painter.galley(pos2(at, bar.bottom() + 2.0), galley, ink);
            }
        }
        from = zone.to_mm;
    }
    painter.rect_stroke(bar, 0.0, Stroke::new(1.0, colour(palette.mark_outline)), StrokeKind::Outside);
    let tip = x(gauge.measured_mm);
    let pointer = vec![pos2(tip, bar.top() + 3.0), pos2(tip - 5.0, bar.top() - 6.0), pos2(tip + 5.0, bar.top() - 6.0)];
    painter.add(Shape::convex_polygon(pointer, colour(palette.text), Stroke::NONE));
    painter.vline(tip, bar.y_range(), Stroke::new(2.0, colour(palette.text)));
}
