//! Pictures of panels without a graphics card: egui's own triangles, drawn by a small rasteriser.

use std::collections::HashMap;
use std::path::Path;

use egui::epaint::{ClippedPrimitive, ImageData, Primitive, Vertex};
use egui::{Color32, Pos2, TextureId, TexturesDelta, pos2};

/// An RGB picture.
pub struct Picture {
    /// Width in pixels.
    pub width: usize,
    /// Height in pixels.
    pub height: usize,
    /// Red, green, blue of every pixel, row by row.
    pub pixels: Vec<[f32; 3]>,
}

/// The textures that egui has asked for so far.
#[derive(Default)]
pub struct Textures {
    images: HashMap<TextureId, (usize, usize, Vec<Color32>)>,
}

impl Textures {
    /// Takes over what has changed.
    pub fn apply(&mut self, delta: &TexturesDelta) {
        for (id, change) in delta.set.iter().flat_map(|(id, changes)| changes.iter().map(move |change| (id, change))) {
            let ImageData::Color(image) = &change.image;
            let [width, height] = image.size;
            match change.pos {
                None => {
                    self.images.insert(*id, (width, height, image.pixels.clone()));
                }
                Some([left, top]) => {
                    let Some((across, _, pixels)) = self.images.get_mut(id) else { continue };
                    for row in 0..height {
                        let at = (top + row) * *across + left;
                        pixels[at..at + width].copy_from_slice(&image.pixels[row * width..(row + 1) * width]);
                    }
                }
            }
        }
    }

    fn at(&self, id: TextureId, uv: Pos2) -> [f32; 4] {
        let Some((width, height, pixels)) = self.images.get(&id) else { return [1.0; 4] };
        let (x, y) = (uv.x * *width as f32 - 0.5, uv.y * *height as f32 - 0.5);
        let (left, top) = (x.floor(), y.floor());
        let pixel = |dx: f32, dy: f32| {
            let column = (left + dx).clamp(0.0, *width as f32 - 1.0) as usize;
            let row = (top + dy).clamp(0.0, *height as f32 - 1.0) as usize;
            pixels[row * width + column].to_array().map(f32::from)
        };
        let (a, b, c, d) = (pixel(0.0, 0.0), pixel(1.0, 0.0), pixel(0.0, 1.0), pixel(1.0, 1.0));
        let (u, v) = (x - left, y - top);
        std::array::from_fn(|i| ((a[i] * (1.0 - u) + b[i] * u) * (1.0 - v) + (c[i] * (1.0 - u) + d[i] * u) * v) / 255.0)
    }
}

/// Draws what egui has tessellated, on `ground`.
pub fn draw(
    size: (usize, usize),
    ground: Color32,
    scale: f32,
    textures: &Textures,
    shapes: &[ClippedPrimitive],
) -> Picture {
    let [red, green, blue, _] = ground.to_array().map(|channel| f32::from(channel) / 255.0);
    let mut picture = Picture { width: size.0, height: size.1, pixels: vec![[red, green, blue]; size.0 * size.1] };
    for ClippedPrimitive { clip_rect, primitive } in shapes {
        let Primitive::Mesh(mesh) = primitive else { continue };
        let clip = *clip_rect * scale;
        for triangle in mesh.indices.chunks_exact(3) {
            let corners = [0, 1, 2].map(|corner| mesh.vertices[triangle[corner] as usize]);
            picture.triangle(corners, scale, clip, |uv| textures.at(mesh.texture_id, uv));
        }
    }
    picture
}

impl Picture {
    fn triangle(&mut self, corners: [Vertex; 3], scale: f32, clip: egui::Rect, texture: impl Fn(Pos2) -> [f32; 4]) {
        let [a, b, c] = corners.map(|corner| corner.pos * scale);
        let area = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
        if area == 0.0 {
            return;
        }
        let least = |values: [f32; 3], clip: f32| values.into_iter().fold(f32::INFINITY, f32::min).max(clip).max(0.0);
        let most = |values: [f32; 3], clip: f32| values.into_iter().fold(f32::NEG_INFINITY, f32::max).min(clip);
        let (left, right) = (least([a.x, b.x, c.x], clip.left()), most([a.x, b.x, c.x], clip.right()));
        let (top, bottom) = (least([a.y, b.y, c.y], clip.top()), most([a.y, b.y, c.y], clip.bottom()));
        for row in (top - 0.5).ceil().max(0.0) as usize..((bottom - 0.5).ceil().max(0.0) as usize).min(self.height) {
            for column in
                (left - 0.5).ceil().max(0.0) as usize..((right - 0.5).ceil().max(0.0) as usize).min(self.width)
            {
                let p = pos2(column as f32 + 0.5, row as f32 + 0.5);
                let edge = |a: Pos2, b: Pos2| (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
                let shares = [edge(b, c) / area, edge(c, a) / area, edge(a, b) / area];
                // A pixel on a shared side belongs to one triangle only (top and left sides).
                let owns = |share: f32, from: Pos2, to: Pos2| {
                    let (from, to) = if area > 0.0 { (from, to) } else { (to, from) };
                    share > 0.0 || (share == 0.0 && (to.y < from.y || (to.y == from.y && to.x > from.x)))
                };
                if !(owns(shares[0], b, c) && owns(shares[1], c, a) && owns(shares[2], a, b)) {
                    continue;
                }
                let mix = |value: fn(&Vertex) -> [f32; 4]| -> [f32; 4] {
                    let values = [value(&corners[0]), value(&corners[1]), value(&corners[2])];
                    std::array::from_fn(|i| (0..3).map(|corner| values[corner][i] * shares[corner]).sum())
                };
                let tint = mix(|vertex| vertex.color.to_array().map(|channel| f32::from(channel) / 255.0));
                let uv = mix(|vertex| [vertex.uv.x, vertex.uv.y, 0.0, 0.0]);
                let texel = texture(pos2(uv[0], uv[1]));
                let source: [f32; 4] = std::array::from_fn(|i| tint[i] * texel[i]);
                let pixel = &mut self.pixels[row * self.width + column];
                for channel in 0..3 {
                    pixel[channel] = source[channel] + pixel[channel] * (1.0 - source[3]);
                }
            }
        }
    }

    /// How many different colours it has.
    pub fn colours(&self) -> usize {
        let bytes = |pixel: &[f32; 3]| pixel.map(|share| (share.clamp(0.0, 1.0) * 255.0).round() as u8);
        self.pixels.iter().map(bytes).collect::<std::collections::HashSet<_>>().len()
    }

    /// Writes the picture as a PNG.
    pub fn save(&self, path: &Path) -> Result<(), Box<dyn std::error::Error>> {
        let bytes: Vec<u8> =
            self.pixels.iter().flatten().map(|share| (share.clamp(0.0, 1.0) * 255.0).round() as u8).collect();
        let file = std::io::BufWriter::new(std::fs::File::create(path)?);
        let mut encoder = png::Encoder::new(file, u32::try_from(self.width)?, u32::try_from(self.height)?);
        encoder.set_color(png::ColorType::Rgb);
        encoder.write_header()?.write_image_data(&bytes)?;
        Ok(())
    }
}
