//! Draws the strip. Nothing here changes anything.

use egui::{Align2, Color32, FontId, Painter, Rangef, Rect, Shape, Stroke, StrokeKind, pos2};
use elbowroom_bending::Severity;
use elbowroom_geometry::units::{LengthUnit, format_number};
use elbowroom_workbench::{Colour, Palette};

use super::edges::{Edge, length_text};
use super::held::Held;
use super::lanes::Lanes;
use super::model::{Footprint, Model, Piece};
use super::pattern::{hatch, paint_stretch};
use super::plan::Plan;
use super::ruler::ticks;
use crate::colours::colour;
use crate::widgets::UNSURE;

/// Pieces shorter than this are not drawn one by one, points.
const LEAST_PIECE: f32 = 0.5;
/// With so many pieces even what is widened so that it can be seen is left away where it is too short.
const MANY_PIECES: usize = 1000;
/// Pieces shorter than this have no room for a figure, points.
const LEAST_TEXT: f32 = 10.0;

/// What drawing needs.
pub struct Pen<'a> {
    /// Where to draw; cut at the strip's sides.
    pub painter: &'a Painter,
    /// The colours.
    pub palette: &'a Palette,
    /// Where everything goes.
    pub plan: Plan,
    /// The small text.
    pub font: FontId,
}

impl Pen<'_> {
    /// The whole strip.
    pub fn strip(&self, model: &Model, lanes: &Lanes) {
        self.ruler(model.unit);
        self.trims(model);
        self.ground(model);
        let seen = || model.pieces.iter().enumerate().filter(|(_, piece)| self.plan.sees(piece.from_mm, piece.to_mm()));
        seen().for_each(|(_, piece)| self.piece(piece));
        self.seam(model);
        seen().for_each(|(index, piece)| self.piece_text(model, index, piece));
        self.overlaps(model);
        // The worst comes first in the list and last onto the screen, on top of what it may share a lane with.
        for (mark, lane) in model.marks.iter().zip(&lanes.marks).rev() {
            if self.plan.sees(mark.from_mm, mark.to_mm) {
                let rect = self.plan.stretch(mark.from_mm, mark.to_mm, self.plan.mark_lane(*lane));
                paint_stretch(self.painter, widened(rect), mark.severity, self.palette);
            }
        }
        for (clamp, lane) in model.footprints.iter().zip(&lanes.clamps) {
            let tiny = self.plan.length(clamp.to_mm - clamp.from_mm) < LEAST_PIECE && !clamp.selected;
            if !tiny && self.plan.sees(clamp.from_mm, clamp.to_mm) {
                self.footprint(clamp, self.plan.clamp_lane(*lane), model.unit);
            }
        }
    }

    fn text_colour(&self) -> Color32 {
        colour(self.palette.text)
    }

    /// The longest of the texts that fits between two places, if any does.
    pub fn fitted(&self, texts: &[String], x: Rangef, y: f32, ink: Color32) -> Option<Rect> {
        // What is cut off at the strip's side is centred on what is in sight.
        let seen = Rangef::new(x.min.max(self.plan.x.min), x.max.min(self.plan.x.max));
        texts.iter().find_map(|text| {
            let galley = self.painter.layout_no_wrap(text.clone(), self.font.clone(), ink);
            (galley.size().x + 6.0 <= seen.span()).then(|| {
                let rect = Align2::CENTER_CENTER.anchor_size(pos2(seen.center(), y), galley.size());
                self.painter.galley(rect.min, galley, ink);
                rect
            })
        })
    }

    fn ruler(&self, unit: LengthUnit) {
        let plan = &self.plan;
        let ink = colour(self.palette.strip_ruler);
        self.painter.hline(plan.x, plan.ruler.min, Stroke::new(1.0, ink));
        let figure = self.painter.layout_no_wrap("000000.0".to_owned(), self.font.clone(), ink);
        let room = f64::from(figure.size().x + 14.0);
        for tick in ticks(plan.scale.shown_mm(plan.x), plan.scale.points_per_mm, unit, room) {
            let at = plan.at(tick.at_mm);
            let length = if tick.figure.is_some() { 8.0 } else { 4.0 };
            self.painter.vline(at, Rangef::new(plan.ruler.min, plan.ruler.min + length), Stroke::new(1.0, ink));
            if let Some(figure) = tick.figure {
                let text = if tick.at_mm == 0.0 { format!("{figure} {}", unit.symbol()) } else { figure };
                let galley = self.painter.layout_no_wrap(text, self.font.clone(), ink);
                // A figure at the side is shifted rather than cut.
                let half = galley.size().x / 2.0;
                let x = at.clamp(plan.x.min + half, (plan.x.max - half).max(plan.x.min + half));
                self.painter.galley(pos2(x - half, plan.ruler.max - galley.size().y), galley, ink);
            }
        }
    }

    fn trims(&self, model: &Model) {
        let (low, high) = (0.0, model.tail_at_mm);
        let [lead, tail] = model.trims_unsure;
        let trims = [(low - model.lead_trim_mm, low, low, lead), (high, high + model.tail_trim_mm, high, tail)];
        for (from_mm, to_mm, cut_mm, unsure) in trims {
            if to_mm <= from_mm {
                continue;
            }
            let rect = self.plan.stretch(from_mm, to_mm, self.plan.tube);
            let line = colour(self.palette.strip_ruler);
            self.painter.rect_filled(rect, 0.0, colour(self.palette.strip_trim));
            self.painter.extend(hatch(rect, 7.0, colour(self.palette.border)));
            self.painter.rect_stroke(rect, 0.0, Stroke::new(1.0, line), StrokeKind::Inside);
            let at = self.plan.at(cut_mm);
            let cut = [pos2(at, rect.top() - 8.0), pos2(at, self.plan.ruler.min)];
            self.painter.extend(Shape::dashed_line(&cut, Stroke::new(1.5, self.text_colour()), 6.0, 3.0));
            let length = length_text(to_mm - from_mm, model.unit);
            let length = if unsure { format!("{UNSURE}{length}") } else { length };
            let texts = [format!("cut off {length}"), length];
            // The text lies on a clean ground, so that the hatching does not cross it.
            let seen = rect.x_range();
            if let Some(place) = self.fitted(&texts, seen, rect.center().y, Color32::TRANSPARENT) {
                self.painter.rect_filled(place.expand2(egui::vec2(3.0, 1.0)), 2.0, colour(self.palette.strip_trim));
                self.fitted(&texts, seen, rect.center().y, self.text_colour());
            }
        }
    }

    /// Plain tube under everything, for pieces too short to be seen one by one.
    fn ground(&self, model: &Model) {
        let rect = self.plan.stretch(0.0, model.tail_at_mm, self.plan.tube);
        self.painter.rect_filled(rect, 0.0, colour(self.palette.strip_straight));
        self.painter.rect_stroke(rect, 0.0, Stroke::new(1.0, colour(self.palette.strip_ruler)), StrokeKind::Inside);
    }

    fn piece_fill(&self, piece: &Piece) -> Colour {
        let plain = if piece.arc.is_some() { self.palette.strip_arc } else { self.palette.strip_straight };
        match (piece.selected, piece.hovered) {
            (true, _) => self.palette.selection,
            (false, true) => self.palette.hovered,
            (false, false) => plain,
        }
    }

    fn piece(&self, piece: &Piece) {
        if piece.length_mm < 0.0 || (self.plan.length(piece.length_mm) < LEAST_PIECE && !piece.selected) {
            return;
        }
        let rect = self.plan.stretch(piece.from_mm, piece.to_mm(), self.plan.tube);
        self.painter.rect_filled(rect, 0.0, colour(self.piece_fill(piece)));
        let line = Stroke::new(1.0, colour(self.palette.strip_ruler));
        if let Some((angle_rad, _)) = piece.arc {
            self.bands(rect, angle_rad, line);
        }
        if rect.width() > 3.0 {
            self.painter.rect_stroke(rect, 0.0, line, StrokeKind::Inside);
        }
        if piece.selected || piece.hovered {
            let width = if piece.selected { 2.5 } else { 1.5 };
            let stroke = Stroke::new(width, colour(self.palette.accent));
            self.painter.rect_stroke(rect, 0.0, stroke, StrokeKind::Inside);
        }
    }

    /// The figures on a piece.
    fn piece_text(&self, model: &Model, index: usize, piece: &Piece) {
        if piece.length_mm < 0.0 || self.plan.length(piece.length_mm) < LEAST_TEXT {
            return;
        }
        // Where two arcs overlap, the figures keep to what is an arc's own.
        let neighbour =
            |at: Option<usize>| at.and_then(|at| model.pieces.get(at)).filter(|other| other.length_mm < 0.0);
        let from_mm = neighbour(index.checked_sub(1)).map_or(piece.from_mm, |before| before.from_mm.max(piece.from_mm));
        let to_mm = neighbour(Some(index + 1)).map_or(piece.to_mm(), |after| after.to_mm().min(piece.to_mm()));
        if from_mm >= to_mm {
            return;
        }
        let unit = model.unit;
        let rect = self.plan.stretch(from_mm, to_mm, self.plan.tube);
        let fill = self.piece_fill(piece);
        let texts = match piece.arc {
            Some((angle_rad, _)) => {
                let (number, degrees) = (index / 2 + 1, angle_rad.to_degrees());
                let (fine, coarse) = (format_number(degrees, 1), format_number(degrees, 0));
                vec![
                    format!("Bend {number}, {fine}°"),
                    format!("{number}: {fine}°"),
                    format!("{number}: {coarse}°"),
                    number.to_string(),
                ]
            }
            // The ruler has the unit. Where the decimals do not fit, only a round length is shown at all.
            None => {
                let units = piece.length_mm / unit.in_mm();
                let full = format_number(units, unit.decimals());
                let whole = full.trim_end_matches('0').strip_suffix('.').map(str::to_owned);
                std::iter::once(full.clone()).chain(whole).collect()
            }
        };
        // A patch of the piece's own colour keeps the seam out of the figures.
        if let Some(place) = self.fitted(&texts, rect.x_range(), rect.center().y, Color32::TRANSPARENT) {
            self.painter.rect_filled(place.expand2(egui::vec2(3.0, 0.0)), 2.0, colour(fill));
            self.fitted(&texts, rect.x_range(), rect.center().y, self.text_colour());
        }
    }

    /// Bands at the upper and lower edge of an arc: one line for every ten degrees.
    fn bands(&self, rect: Rect, angle_rad: f64, line: Stroke) {
        let degrees = angle_rad.to_degrees();
        let step = [10.0, 30.0, 90.0].into_iter().find(|step| f64::from(rect.width()) * step / degrees >= 4.0);
        let Some(step) = step else { return };
        let height = rect.height() * 0.2;
        let mut at = step;
        while at < degrees - 1e-6 {
            let x = rect.left() + rect.width() * (at / degrees) as f32;
            self.painter.vline(x, Rangef::new(rect.top(), rect.top() + height), line);
            self.painter.vline(x, Rangef::new(rect.bottom() - height, rect.bottom()), line);
            at += step;
        }
    }

    /// Where an arc starts before the last one ends.
    fn overlaps(&self, model: &Model) {
        let is_tiny = |piece: &Piece| self.plan.length(piece.length_mm.abs()) < LEAST_PIECE && !piece.selected;
        let overlaps = model.pieces.iter().filter(|piece| piece.length_mm < 0.0);
        // The findings mark those that are too short to be seen one by one.
        for piece in overlaps.filter(|piece| model.pieces.len() < MANY_PIECES || !is_tiny(piece)) {
            let y = self.plan.tube;
            let rect = self.plan.stretch(piece.from_mm, piece.to_mm(), y);
            let middle = Rangef::new(y.center() - y.span() * 0.22, y.center() + y.span() * 0.22);
            self.painter.rect_filled(rect, 0.0, colour(self.palette.panel));
            paint_stretch(
                self.painter,
                widened(rect.intersect(Rect::from_x_y_ranges(rect.x_range(), middle))),
                Severity::Stop,
                self.palette,
            );
            let stroke = Stroke::new(if piece.selected { 2.5 } else { 1.0 }, colour(self.palette.mark_outline));
            self.painter.rect_stroke(rect, 0.0, stroke, StrokeKind::Inside);
        }
    }

    fn seam(&self, model: &Model) {
        let Some(seam) = &model.seam else { return };
        let arcs = model.pieces.iter().filter(|piece| piece.arc.is_some());
        let arcs: Vec<_> = arcs.map(|piece| (piece.from_mm, piece.to_mm())).collect();
        let (middle, reach) = (self.plan.tube.center(), self.plan.tube.span() / 2.0 - 3.0);
        let stroke = Stroke::new(1.5, colour(self.palette.strip_seam));
        if self.plan.length(model.tail_at_mm) < 2.0 * arcs.len() as f32 {
            // Far more bends than points on the screen: the line would only be a smear.
            return;
        }
        let points = seam.line(&arcs, model.tail_at_mm, self.plan.scale.points_per_mm);
        let at = |index: usize| {
            let point = points[index];
            pos2(self.plan.at(point.at_mm), middle - reach * point.outward as f32)
        };
        // Runs of one side are drawn in one go: solid in front, dashed behind the tube.
        let mut start = 0;
        while start + 1 < points.len() {
            let near = points[start].near && points[start + 1].near;
            let mut end = start + 1;
            while end + 1 < points.len() && (points[end].near && points[end + 1].near) == near {
                end += 1;
            }
            if self.plan.sees(points[start].at_mm, points[end].at_mm) {
                let line: Vec<_> = (start..=end).map(at).collect();
                if near {
                    self.painter.add(Shape::line(line, stroke));
                } else {
                    self.painter.extend(Shape::dashed_line(&line, stroke, 4.0, 4.0));
                }
            }
            start = end;
        }
    }

    /// The edge under the pointer or in hand, with what it sets; and the ring of the keyboard's focus.
    pub fn edge_in_hand(&self, model: &Model, held: &Held, focused: bool) {
        if focused {
            let ring = Rect::from_x_y_ranges(self.plan.x, self.plan.tube.expand(3.0)).shrink2(egui::vec2(1.0, 0.0));
            self.painter.rect_stroke(ring, 3.0, Stroke::new(1.5, colour(self.palette.accent)), StrokeKind::Inside);
        }
        let edge = held.drag.map(|(drag, _)| drag.edge).or(held.near);
        let Some((edge, mm)) = edge.and_then(|edge| Edge::all(model).find(|(other, _)| *other == edge)) else { return };
        let at = self.plan.at(mm);
        let line = Rangef::new(self.plan.tube.min - 4.0, self.plan.tube.max + 4.0);
        self.painter.vline(at, line, Stroke::new(3.0, colour(self.palette.accent)));
        if held.drag.is_none() {
            return;
        }
        let text = edge.value_text(model);
        let galley = self.painter.layout_no_wrap(text, self.font.clone(), colour(self.palette.on_accent));
        let x = at.clamp(self.plan.x.min + galley.size().x / 2.0 + 6.0, self.plan.x.max - galley.size().x / 2.0 - 6.0);
        let rect = Align2::CENTER_BOTTOM.anchor_size(pos2(x, self.plan.tube.min - 5.0), galley.size());
        self.painter.rect_filled(rect.expand2(egui::vec2(6.0, 2.0)), 4.0, colour(self.palette.accent));
        self.painter.galley(rect.min, galley, colour(self.palette.on_accent));
    }

    fn footprint(&self, clamp: &Footprint, lane: Rangef, unit: LengthUnit) {
        let rect = self.plan.stretch(clamp.from_mm, clamp.to_mm, lane).shrink2(egui::vec2(1.0, 0.0));
        let width = if clamp.selected { 3.0 } else { 1.5 };
        let stroke = Stroke::new(width, colour(self.palette.strip_clamp));
        let bar = lane.max - 4.0;
        if clamp.selected {
            self.painter.rect_filled(
                Rect::from_x_y_ranges(rect.x_range(), Rangef::new(bar, lane.max)),
                0.0,
                colour(self.palette.clamp_block),
            );
        }
        if clamp.overlap_mm > 0.0 {
            let over = Rangef::new(bar - 2.5, bar + 2.5);
            let over = self.plan.stretch(clamp.from_mm, clamp.from_mm + clamp.overlap_mm, over);
            match clamp.severity {
                Some(severity) => paint_stretch(self.painter, over, severity, self.palette),
                None => {
                    self.painter.extend(hatch(over, 4.0, colour(self.palette.strip_clamp)));
                    self.painter.rect_stroke(
                        over,
                        0.0,
                        Stroke::new(1.0, colour(self.palette.strip_clamp)),
                        StrokeKind::Inside,
                    );
                }
            }
        }
        // A bracket: a bar with feet that point down at the tube.
        self.painter.line_segment([pos2(rect.left(), bar), pos2(rect.right(), bar)], stroke);
        if rect.width() > 8.0 {
            for x in [rect.left(), rect.right()] {
                self.painter.line_segment([pos2(x, bar), pos2(x, lane.max)], stroke);
            }
        }
        if rect.width() < LEAST_TEXT {
            return;
        }
        let length = length_text(clamp.to_mm - clamp.from_mm, unit);
        let number = clamp.bend + 1;
        let texts = [
            format!("clamp of bend {number}, {length}"),
            format!("clamp {number}: {length}"),
            format!("clamp {number}"),
            number.to_string(),
        ];
        self.fitted(&texts, rect.x_range(), lane.min + 6.0, self.text_colour());
    }
}

/// A mark that can be seen however short its stretch is.
fn widened(rect: Rect) -> Rect {
    let missing = (4.0 - rect.width()).max(0.0);
    rect.expand2(egui::vec2(missing / 2.0, 0.0))
}
