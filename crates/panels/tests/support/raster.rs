//! Draws a frame of egui without a graphics card, so that pictures of panels come out the same everywhere.

use egui::epaint::{ClippedPrimitive, Mesh, Primitive, Vertex};
use egui::{Color32, ColorImage, Rect};

/// A picture, row by row, red, green, blue.
pub struct Picture {
    /// Pixels a row.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Three bytes a pixel.
    pub bytes: Vec<u8>,
}

/// Draws shapes over a background.
pub fn draw(context: &egui::Context, output: &egui::FullOutput, size: egui::Vec2, background: Color32) -> Picture {
    let scale = output.pixels_per_point;
    let (width, height) = ((size.x * scale).round() as usize, (size.y * scale).round() as usize);
    let mut canvas = Canvas { width, height, pixels: vec![background; width * height], scale };
    let atlas = context.fonts(|fonts| fonts.image());
    for ClippedPrimitive { clip_rect, primitive } in context.tessellate(output.shapes.clone(), scale) {
        if let Primitive::Mesh(mesh) = primitive {
            canvas.mesh(&mesh, clip_rect, &atlas);
        }
    }
    let bytes = canvas.pixels.iter().flat_map(|pixel| [pixel.r(), pixel.g(), pixel.b()]).collect();
    Picture { width, height, bytes }
}

struct Canvas {
    width: usize,
    height: usize,
    pixels: Vec<Color32>,
    scale: f32,
}

impl Canvas {
    fn mesh(&mut self, mesh: &Mesh, clip: Rect, atlas: &ColorImage) {
        for corners in mesh.indices.chunks_exact(3) {
            let [a, b, c] = [0, 1, 2].map(|corner| mesh.vertices[corners[corner] as usize]);
            self.triangle([a, b, c], clip, atlas);
        }
    }

    fn triangle(&mut self, [a, b, c]: [Vertex; 3], clip: Rect, atlas: &ColorImage) {
        let at = |vertex: &Vertex| (vertex.pos.x * self.scale, vertex.pos.y * self.scale);
        let ((ax, ay), (bx, by), (cx, cy)) = (at(&a), at(&b), at(&c));
        let area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
        if area.abs() < 1e-9 {
            return;
        }
        let low = |values: [f32; 3], edge: f32| values.into_iter().fold(f32::INFINITY, f32::min).max(edge).floor();
        let high = |values: [f32; 3], edge: f32| values.into_iter().fold(f32::NEG_INFINITY, f32::max).min(edge).ceil();
        let left = low([ax, bx, cx], (clip.left() * self.scale).round()).max(0.0) as usize;
        let right = (high([ax, bx, cx], (clip.right() * self.scale).round()).max(0.0) as usize).min(self.width);
        let top = low([ay, by, cy], (clip.top() * self.scale).round()).max(0.0) as usize;
        let bottom = (high([ay, by, cy], (clip.bottom() * self.scale).round()).max(0.0) as usize).min(self.height);
        for y in top..bottom {
            for x in left..right {
                let (px, py) = (x as f32 + 0.5, y as f32 + 0.5);
                let (ea, eb, ec) = (
                    edge((bx, by), (cx, cy), (px, py)) * area.signum(),
                    edge((cx, cy), (ax, ay), (px, py)) * area.signum(),
                    edge((ax, ay), (bx, by), (px, py)) * area.signum(),
                );
                // Pixels on a shared edge belong to one of the two triangles only.
                let inside = |weight: f32, from: (f32, f32), to: (f32, f32)| {
                    let owns = (from.1, from.0) < (to.1, to.0);
                    weight > 0.0 || (weight == 0.0 && owns == (area > 0.0))
                };
                let hit =
                    inside(ea, (bx, by), (cx, cy)) && inside(eb, (cx, cy), (ax, ay)) && inside(ec, (ax, ay), (bx, by));
                let (wa, wb, wc) = (ea / area.abs(), eb / area.abs(), ec / area.abs());
                if !hit {
                    continue;
                }
                let mix = |of: fn(&Vertex) -> f32| wa * of(&a) + wb * of(&b) + wc * of(&c);
                let colour = [
                    mix(|vertex| f32::from(vertex.color.r())),
                    mix(|vertex| f32::from(vertex.color.g())),
                    mix(|vertex| f32::from(vertex.color.b())),
                    mix(|vertex| f32::from(vertex.color.a())),
                ];
                let texel = sample(atlas, mix(|vertex| vertex.uv.x), mix(|vertex| vertex.uv.y));
                let source: [f32; 4] = std::array::from_fn(|channel| colour[channel] * texel[channel] / 255.0);
                let under = &mut self.pixels[y * self.width + x];
                let keep = 1.0 - source[3] / 255.0;
                let over = |new: f32, old: u8| (new + keep * f32::from(old)).round().clamp(0.0, 255.0) as u8;
                *under = Color32::from_rgb(
                    over(source[0], under.r()),
                    over(source[1], under.g()),
                    over(source[2], under.b()),
                );
            }
        }
    }
}

/// Twice the area of the triangle from an edge to a point, exactly opposite for the edge turned round.
fn edge(from: (f32, f32), to: (f32, f32), point: (f32, f32)) -> f32 {
    let area = |a: (f32, f32), b: (f32, f32)| (b.0 - a.0) * (point.1 - a.1) - (point.0 - a.0) * (b.1 - a.1);
    if from < to { area(from, to) } else { -area(to, from) }
}

/// The font atlas at a place, between its four nearest texels.
fn sample(atlas: &ColorImage, u: f32, v: f32) -> [f32; 4] {
    let [width, height] = atlas.size;
    let (x, y) = (u * width as f32 - 0.5, v * height as f32 - 0.5);
    let texel = |x: f32, y: f32| {
        let column = (x.max(0.0) as usize).min(width - 1);
        let row = (y.max(0.0) as usize).min(height - 1);
        atlas.pixels[row * width + column].to_array().map(f32::from)
    };
    let (left, top) = (x.floor(), y.floor());
    let (right, down) = (x - left, y - top);
    let (a, b) = (texel(left, top), texel(left + 1.0, top));
    let (c, d) = (texel(left, top + 1.0), texel(left + 1.0, top + 1.0));
    std::array::from_fn(|channel| {
        let above = a[channel] * (1.0 - right) + b[channel] * right;
        let below = c[channel] * (1.0 - right) + d[channel] * right;
        above * (1.0 - down) + below * down
    })
}
