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

/// Where the shader lies within the program.
pub const SCENE_SHADER: &str = "embedded://elbowroom_viewport/look/scene.wgsl";

/// What the shader knows of a surface. See `scene.wgsl` for the meaning of each alpha.
#[derive(Clone, Copy, Debug, Default, PartialEq, ShaderType)]
pub struct PaintUniform {
    /// Colour and opacity.
    pub base: Vec4,
    /// Colour and pattern of a mark.
    pub mark: Vec4,
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
    pub fn stretch(palette: &Palette, severity: Option<Severity>, lit: Lit) -> Self {
        let mut paint = Self::of(palette, linear(palette.tube, 1.0), 0.0);
        if let Some(severity) = severity {
            let pattern = match severity {
                Severity::Note => 1.0,
                Severity::Caution => 2.0,
                Severity::Stop => 3.0,
            };
            paint.uniform.mark = linear(palette.severity(severity), pattern);
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
}
