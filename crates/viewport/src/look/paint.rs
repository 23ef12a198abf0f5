//! The material of tube, handles and clamp block: one shader, its colours from the theme.

use bevy::mesh::MeshVertexBufferLayoutRef;
use bevy::pbr::{MaterialPipeline, MaterialPipelineKey};
use bevy::prelude::*;
use bevy::render::render_resource::{
    AsBindGroup, CompareFunction, RenderPipelineDescriptor, ShaderType, SpecializedMeshPipelineError,
};
use bevy::shader::ShaderRef;
use elbowroom_bending::Severity;
use elbowroom_workbench::{Colour, Palette};

use super::Grain;

/// Where the shader lies within the program.
pub const SCENE_SHADER: &str = "embedded://elbowroom_viewport/look/scene.wgsl";

/// What the shader knows of a surface. See `scene.wgsl` for the meaning of each alpha.
#[derive(Clone, Copy, Debug, Default, PartialEq, ShaderType)]
pub struct PaintUniform {
    /// Colour and opacity.
    pub base: Vec4,
    /// Colour and pattern of a mark.
    pub mark: Vec4,
    /// Colour of what lies between the dots and stripes of a mark, and how much of it.
    pub ground: Vec4,
    /// How often the pattern of a mark repeats, round the tube and along it, of the steps that the mesh counts.
    pub grain: Vec4,
    /// Colour between stripes and around handles; kind of surface.
    pub ink: Vec4,
    /// Colour and strength of a highlight.
    pub glow: Vec4,
    /// Main light.
    pub light: Vec4,
    /// Light from all sides.
    pub ambient: Vec4,
    /// Inside of the tube.
    pub inside: Vec4,
}

/// The material.
#[derive(Asset, TypePath, AsBindGroup, Clone, Debug, PartialEq)]
#[bind_group_data(PaintKey)]
pub struct Paint {
    /// The colours.
    #[uniform(0)]
    pub uniform: PaintUniform,
    /// Whether it is seen through everything else.
    pub on_top: bool,
}

/// What makes a difference to the pipeline.
#[repr(C)]
#[derive(Eq, PartialEq, Hash, Copy, Clone)]
pub struct PaintKey {
    on_top: bool,
    translucent: bool,
}

impl From<&Paint> for PaintKey {
    fn from(paint: &Paint) -> Self {
        Self { on_top: paint.on_top, translucent: paint.is_translucent() }
    }
}

impl Material for Paint {
    fn fragment_shader() -> ShaderRef {
        SCENE_SHADER.into()
    }

    fn alpha_mode(&self) -> AlphaMode {
        if self.on_top || self.is_translucent() { AlphaMode::Blend } else { AlphaMode::Opaque }
    }

    fn depth_bias(&self) -> f32 {
        // Transparent things are sorted by depth; what is on top comes last.
        if self.on_top { 1e9 } else { 0.0 }
    }

    fn enable_prepass() -> bool {
        false
    }

    fn enable_shadows() -> bool {
        false
    }

    fn specialize(
        _pipeline: &MaterialPipeline,
        descriptor: &mut RenderPipelineDescriptor,
        _layout: &MeshVertexBufferLayoutRef,
        key: MaterialPipelineKey<Self>,
    ) -> Result<(), SpecializedMeshPipelineError> {
        if key.bind_group_data.on_top {
            if let Some(depth) = descriptor.depth_stencil.as_mut() {
                depth.depth_compare = Some(CompareFunction::Always);
            }
        } else if !key.bind_group_data.translucent {
            // One looks into the open ends of a tube.
            descriptor.primitive.cull_mode = None;
        }
        Ok(())
    }
}

/// How a stretch is lit up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Lit {
    /// Not at all.
    #[default]
    Plain,
    /// It lies under the pointer.
    Hovered,
    /// It is selected.
    Selected,
}

/// A colour of the theme in linear light, with `w` behind it.
pub fn linear(colour: Colour, w: f32) -> Vec4 {
    let [red, green, blue] = colour.rgb();
    Color::srgb_u8(red, green, blue).to_linear().to_vec3().extend(w)
}

/// The opacity of a colour of the theme.
pub fn opacity(colour: Colour) -> f32 {
    f32::from(colour.rgba()[3]) / 255.0
}

/// Between dots and stripes, so much of the ground lies over the metal.
const GROUND: f32 = 0.9;

/// What lies between the dots or stripes of a mark: the outline of marks or the background, whichever differs more from
/// the mark in brightness, so that a pattern is one in grey as well.
pub fn ground(palette: &Palette, severity: Severity) -> Colour {
    let (outline, background) = (palette.mark_outline, palette.scene_background);
    let mark = palette.severity(severity);
    if mark.contrast(outline) >= mark.contrast(background) { outline } else { background }
}

/// What is bright on dark metal.
fn bright(palette: &Palette) -> Colour {
    let (outline, background) = (palette.mark_outline, palette.scene_background);
    if outline.luminance() <= background.luminance() { background } else { outline }
}

/// What is dark on bright metal: the outline of marks, or in a dark theme the background.
fn dark_ink(palette: &Palette) -> Colour {
    let (outline, background) = (palette.mark_outline, palette.scene_background);
    if outline.luminance() <= background.luminance() { outline } else { background }
}

impl Paint {
    fn of(palette: &Palette, base: Vec4, surface: f32) -> Self {
        let uniform = PaintUniform {
            base,
            ink: linear(dark_ink(palette), surface),
            light: linear(palette.light, 1.0),
            ambient: linear(palette.ambient, 1.0),
            inside: linear(palette.tube_end, 1.0),
            ..PaintUniform::default()
        };
        Self { uniform, on_top: false }
    }

    fn is_translucent(&self) -> bool {
        self.uniform.base.w < 1.0
    }

    /// A stretch of tube.
    pub fn stretch(palette: &Palette, severity: Option<Severity>, lit: Lit, grain: Grain) -> Self {
        let mut paint = Self::of(palette, linear(palette.tube, 1.0), 0.0);
        if let Some(severity) = severity {
            let pattern = match severity {
                Severity::Note => 1.0,
                Severity::Caution => 2.0,
                Severity::Stop => 3.0,
            };
            paint.uniform.mark = linear(palette.severity(severity), pattern);
            paint.uniform.ground = linear(ground(palette, severity), GROUND);
            paint.uniform.grain = grain.shares().extend(0.0).extend(0.0);
        }
        paint.uniform.glow = match lit {
            Lit::Plain => Vec4::ZERO,
            Lit::Hovered => linear(palette.tube_hovered, 0.8),
            Lit::Selected => linear(palette.tube_selected, 1.0),
        };
        paint
    }

    /// A tube that is not worked on: plain, without the shine of the other.
    pub fn other_tube(palette: &Palette, hovered: bool) -> Self {
        Self::of(palette, linear(if hovered { palette.tube_hovered } else { palette.other_tube }, 1.0), 3.0)
    }

    /// The ring at each end of a stop.
    pub fn ring(palette: &Palette) -> Self {
        Self::of(palette, linear(dark_ink(palette), 1.0), 3.0)
    }

    /// The bright line along the middle of that ring: one of the two differs from whatever lies behind.
    pub fn ring_line(palette: &Palette) -> Self {
        Self::of(palette, linear(bright(palette), 1.0), 3.0)
    }

    /// The cut face of the tube.
    pub fn end_face(palette: &Palette) -> Self {
        Self::of(palette, linear(palette.tube_end, 1.0), 3.0)
    }

    /// A handle: a disc, or a ring through which one sees what lies below.
    pub fn handle(palette: &Palette, lit: Lit, hollow: bool) -> Self {
        let colour = if lit == Lit::Plain { palette.handle } else { palette.handle_hovered };
        let mut paint = Self::of(palette, linear(colour, 1.0), 1.0);
        let rim = if lit == Lit::Selected { palette.text } else { palette.handle_outline };
        paint.uniform.ink = linear(rim, if hollow { 4.0 } else { 1.0 });
        paint.on_top = true;
        paint
    }

    /// The clamp of the selected bend.
    pub fn clamp(palette: &Palette) -> Self {
        Self::of(palette, linear(palette.clamp_block, opacity(palette.clamp_block)), 2.0)
    }

    /// The measured first-off laid over the tube.
    pub fn ghost(palette: &Palette) -> Self {
        Self::of(palette, linear(palette.ghost, opacity(palette.ghost)), 2.0)
    }

    /// Something that stands around the tubes: dull and pale, so that the tube stands out before it.
    pub fn obstacle(palette: &Palette) -> Self {
        Self::of(palette, linear(palette.obstacle, 1.0), 3.0)
    }

    /// The tube as a change would make it that is pointed at.
    pub fn proposal(palette: &Palette) -> Self {
        Self::of(palette, linear(palette.proposal, opacity(palette.proposal)), 2.0)
    }
}

#[cfg(test)]
mod tests {
    use elbowroom_workbench::{Theme, palette};

    use super::*;

    /// Graphical objects that carry meaning want this contrast (W3C, Web Content Accessibility Guidelines 2.1, success
    /// criterion 1.4.11; written from memory).
    const CONTRAST: f64 = 3.0;

    /// The contrast of two linear colours once they are turned to grey: both luminances are what grey keeps.
    fn contrast_in_grey(a: Vec4, b: Vec4) -> f64 {
        let luminance = |colour: Vec4| f64::from(colour.truncate().dot(Vec3::new(0.2126, 0.7152, 0.0722)));
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn dots_and_stripes_are_seen_in_grey_in_both_themes() {
        for theme in [Theme::Light, Theme::Dark] {
            for severity in [Severity::Note, Severity::Caution] {
                let PaintUniform { base, mark, ground, .. } =
                    Paint::stretch(palette(theme), Some(severity), Lit::Plain, Grain::default()).uniform;
                // What lies between them is the ground with a breath of the metal below.
                let between = base.lerp(ground, ground.w);
                let contrast = contrast_in_grey(mark, between);
                assert!(contrast >= CONTRAST, "{theme:?} {severity:?}: {contrast:.2}");
            }
        }
    }

    #[test]
    fn the_rings_of_a_stop_are_seen_in_grey_whatever_lies_behind() {
        for theme in [Theme::Light, Theme::Dark] {
            let palette = palette(theme);
            let rings = [Paint::ring(palette), Paint::ring_line(palette)].map(|paint| paint.uniform.base);
            assert!(contrast_in_grey(rings[0], rings[1]) >= 7.0, "{theme:?}");
            for behind in [palette.tube, palette.stop, palette.scene_background, palette.tube_selected] {
                let contrast = rings.map(|ring| contrast_in_grey(ring, linear(behind, 1.0)));
                assert!(contrast[0].max(contrast[1]) >= CONTRAST, "{theme:?} {behind:?}: {contrast:?}");
            }
        }
    }

    #[test]
    fn each_severity_has_a_pattern_of_its_own_and_sound_tube_has_none() {
        let pattern = |severity| Paint::stretch(palette(Theme::Light), severity, Lit::Plain, Grain(2)).uniform;
        let severities = [None, Some(Severity::Note), Some(Severity::Caution), Some(Severity::Stop)];
        assert_eq!(severities.map(|severity| pattern(severity).mark.w), [0.0, 1.0, 2.0, 3.0]);
        assert_eq!(pattern(Some(Severity::Caution)).grain, Vec4::new(0.25, 0.25, 0.0, 0.0));
    }
}
