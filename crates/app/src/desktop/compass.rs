//! The world's axes in the upper right corner of the scene, with the name of the view. A click on the tip of an axis looks
//! from there.

use bevy_egui::egui;
use egui::{
    Align2, Area, Color32, FontId, Id, Order, Pos2, Rect, Sense, Stroke, TextStyle, Vec2, WidgetInfo, WidgetType,
};
use elbowroom_panels::{colour, colours};
use elbowroom_viewport::Compass;
use elbowroom_workbench::{Command, ViewCommand, ViewFrom};

/// Length of an axis in the plane of the picture, points.
const REACH: f32 = 30.0;
/// Radius of a tip, points.
const TIP: f32 = 9.0;
/// Width and height of the whole, points.
const SIZE: Vec2 = Vec2::new(88.0, 88.0);
/// In a scene smaller than this, points, it would lie over the tube.
const ROOM: Vec2 = Vec2::new(260.0, 220.0);

/// An end of an axis: its letter where it is the positive one, and from where one looks who clicks it.
const TIPS: [(usize, f32, &str, ViewFrom); 6] = [
    (0, 1.0, "x", ViewFrom::Right),
    (0, -1.0, "", ViewFrom::Left),
    (1, 1.0, "y", ViewFrom::Back),
    (1, -1.0, "", ViewFrom::Front),
    (2, 1.0, "z", ViewFrom::Top),
    (2, -1.0, "", ViewFrom::Bottom),
];

/// What a direction to look from is called.
fn called(from: ViewFrom) -> &'static str {
    match from {
        ViewFrom::Front => "From the front",
        ViewFrom::Back => "From the back",
        ViewFrom::Left => "From the left",
        ViewFrom::Right => "From the right",
        ViewFrom::Top => "From above",
        ViewFrom::Bottom => "From below",
        ViewFrom::Isometric => "From a corner",
    }
}

/// The name of the view.
pub fn name(compass: &Compass) -> String {
    let lens = if compass.parallel { "parallel" } else { "perspective" };
    format!("{}, {lens}", compass.from.map_or("Free view", called))
}

/// Draws it into the corner of the scene and says what was asked for.
pub fn show(ctx: &egui::Context, scene: Rect, compass: &Compass) -> Option<Command> {
    if scene.width() < ROOM.x || scene.height() < ROOM.y {
        return None;
    }
    let corner = scene.right_top() + Vec2::new(-8.0, 6.0);
    let area = Area::new(Id::new("compass")).order(Order::Middle).movable(false).pivot(Align2::RIGHT_TOP);
    let shown = area.fixed_pos(corner).constrain(false).show(ctx, |ui| {
        let (palette, visuals) = (colours(ui), ui.visuals().clone());
        let (rect, _) = ui.allocate_exact_size(SIZE, Sense::hover());
        let centre = rect.center();
        ui.painter().circle_filled(centre, SIZE.x / 2.0, colour(palette.label_background));
        let tip = |axis: usize, sign: f32| {
            let [right, up, back] = compass.axes[axis];
            (centre + Vec2::new(right, -up) * (sign * REACH), sign * back)
        };
        let mut tips: Vec<_> = TIPS.iter().map(|tip_of| (tip(tip_of.0, tip_of.1), *tip_of)).collect();
        // What points towards the eye lies on top.
        tips.sort_by(|a, b| a.0.1.total_cmp(&b.0.1));
        let mut asked = None;
        for ((at, back), (_, sign, letter, from)) in tips {
            let place = Rect::from_center_size(at, Vec2::splat(2.0 * TIP));
            let response = ui.interact(place, ui.id().with(called(from)), Sense::click());
            response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, called(from)));
            let far = 0.55 + 0.45 * (back + 1.0) / 2.0;
            let ink = colour(palette.axis).gamma_multiply(far);
            if sign > 0.0 {
                ui.painter().line_segment([centre, at], Stroke::new(2.0, ink));
            }
            let fill = if response.hovered() {
                colour(palette.accent)
            } else if sign > 0.0 {
                ink
            } else {
                colour(palette.panel)
            };
            ui.painter().circle(at, if sign > 0.0 { TIP } else { TIP - 3.0 }, fill, Stroke::new(1.5, ink));
            let text = if response.hovered() { palette.on_accent } else { palette.panel };
            write(ui.painter(), at, letter, TextStyle::Body.resolve(ui.style()), colour(text));
            if response.on_hover_text(called(from)).clicked() {
                asked = Some(Command::View(ViewCommand::From(from)));
            }
        }
        let text = egui::RichText::new(name(compass)).small().color(visuals.text_color());
        ui.vertical_centered(|ui| ui.label(text));
        asked
    });
    shown.inner
}

fn write(painter: &egui::Painter, at: Pos2, text: &str, font: FontId, ink: Color32) {
    if !text.is_empty() {
        painter.text(at, Align2::CENTER_CENTER, text, font, ink);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_axis_is_clicked_from_where_it_comes_towards_the_eye() {
        // The sides as the scene defines them: from the right one sees +x come towards the eye, from above +z.
        for (axis, sign, _, from) in TIPS {
            let towards = match from {
                ViewFrom::Right => (0, 1.0),
                ViewFrom::Left => (0, -1.0),
                ViewFrom::Back => (1, 1.0),
                ViewFrom::Front => (1, -1.0),
                ViewFrom::Top => (2, 1.0),
                ViewFrom::Bottom | ViewFrom::Isometric => (2, -1.0),
            };
            assert_eq!((axis, sign), towards, "{from:?}");
        }
    }

    #[test]
    fn the_view_is_called_by_where_one_looks_from_and_through_what() {
        let free = Compass::default();
        assert_eq!(name(&free), "Free view, perspective");
        let front = Compass { from: Some(ViewFrom::Front), parallel: true, ..free };
        assert_eq!(name(&front), "From the front, parallel");
    }
}
