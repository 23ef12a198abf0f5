//! The fit as a small plot: springback over set angle, the trial bends, the line, and what is left between.

use egui::{
    Align2, Color32, Painter, Pos2, Rect, Sense, Shape, Stroke, TextStyle, Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use elbowroom_bending::Severity;
use elbowroom_bending::forming::springback::SpringbackFit;

use super::Known;
use crate::colours::{colour, colours};

/// Height of the plot, points.
const HEIGHT: f32 = 150.0;

/// What the plot shows, in degrees.
struct Scale {
    area: Rect,
    widest: f64,
    low: f64,
    high: f64,
}

impl Scale {
    fn of(area: Rect, known: &Known) -> Self {
        let sets = known.trials.iter().map(|trial| trial.set.degrees());
        let drawn = known.bends.iter().map(|bend| bend.set.degrees());
        let widest = sets.chain(drawn).fold(90.0, f64::max) * 1.1;
        let springs = known.trials.iter().map(|trial| (trial.set - trial.measured).degrees());
        let ends = [0.0, known.line.a().degrees(), known.line.a().degrees() + known.line.b() * widest];
        let all: Vec<f64> = springs.chain(ends).collect();
        let low = all.iter().copied().fold(0.0, f64::min);
        let high = all.iter().copied().fold(low + 1.0, f64::max);
        let room = (high - low) * 0.12;
        Self { area, widest, low: if low < 0.0 { low - room } else { 0.0 }, high: high + room }
    }

    fn at(&self, set: f64, spring: f64) -> Pos2 {
        let x = (set / self.widest) as f32;
        let y = ((spring - self.low) / (self.high - self.low)) as f32;
        pos2(self.area.left() + x * self.area.width(), self.area.bottom() - y * self.area.height())
    }
}

pub(super) fn ui(ui: &mut Ui, known: &Known) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    let points = known.trials.len();
    let label = format!("Springback over set angle: the line {} and {points} trial bends", known.line_text());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, &label));
    let palette = colours(ui);
    let (ink, weak, accent) = (colour(palette.text), colour(palette.weak_text), colour(palette.accent));
    let painter = ui.painter_at(rect);
    painter.rect(rect, 4.0, colour(palette.field), Stroke::new(1.0, colour(palette.border)), egui::StrokeKind::Inside);
    let area = Rect::from_min_max(rect.min + vec2(34.0, 20.0), rect.max - vec2(12.0, 22.0));
    let scale = Scale::of(area, known);
    axes(ui, &painter, &scale, weak);
    let spring = |set: f64| known.line.a().degrees() + known.line.b() * set;
    let ends = [scale.at(0.0, spring(0.0)), scale.at(scale.widest, spring(scale.widest))];
    if known.unsure() {
        painter.extend(Shape::dashed_line(&ends, Stroke::new(2.0, accent), 6.0, 4.0));
    } else {
        painter.line_segment(ends, Stroke::new(2.0, accent));
    }
    let odd = known.fit.as_ref().and_then(SpringbackFit::odd);
    for (index, trial) in known.trials.iter().enumerate() {
        let (set, back) = (trial.set.degrees(), (trial.set - trial.measured).degrees());
        // What is left between the trial and the line that is used.
        painter.line_segment([scale.at(set, back), scale.at(set, spring(set))], Stroke::new(1.5, ink));
        let at = scale.at(set, back);
        if odd == Some(index) {
            // A cross: it is no part of the line.
            for way in [vec2(5.0, 5.0), vec2(5.0, -5.0)] {
                painter
                    .line_segment([at - way, at + way], Stroke::new(2.5, colour(palette.severity(Severity::Caution))));
            }
        } else {
            painter.circle(at, 4.0, colour(palette.panel), Stroke::new(2.0, ink));
        }
    }
}

fn axes(ui: &Ui, painter: &Painter, scale: &Scale, ink: Color32) {
    let font = TextStyle::Small.resolve(ui.style());
    let stroke = Stroke::new(1.0, ink);
    let (left, right) = (scale.area.left(), scale.area.right());
    let floor = scale.at(0.0, 0.0).y;
    painter.line_segment([pos2(left, floor), pos2(right, floor)], stroke);
    painter.line_segment([scale.area.left_top(), scale.area.left_bottom()], stroke);
    for step in 0..=3 {
        let set = (scale.widest / 3.0 / 15.0).floor().max(1.0) * 15.0 * f64::from(step);
        if set <= scale.widest {
            let at = scale.at(set, 0.0);
            painter.line_segment([at, at + vec2(0.0, 4.0)], stroke);
            // Beside the axis, which may run on below it.
            let (beside, align) = if step == 0 { (4.0, Align2::LEFT_TOP) } else { (0.0, Align2::CENTER_TOP) };
            painter.text(at + vec2(beside, 5.0), align, format!("{set:.0}°"), font.clone(), ink);
        }
    }
    for spring in [0.0, rounded(scale.high / 2.0), rounded(scale.high * 0.95)] {
        let at = scale.at(0.0, spring);
        painter.line_segment([at, at - vec2(4.0, 0.0)], stroke);
        painter.text(at - vec2(6.0, 0.0), Align2::RIGHT_CENTER, format!("{spring:.1}°"), font.clone(), ink);
    }
    let over = scale.area.left_top() - vec2(28.0, 17.0);
    painter.text(over, Align2::LEFT_TOP, "Springback over set angle", font, ink);
}

fn rounded(degrees: f64) -> f64 {
    (degrees * 10.0).floor() / 10.0
}
