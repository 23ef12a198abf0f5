//! The material of the grid: the floor, or the plane of a side.

use bevy::mesh::MeshVertexBufferLayoutRef;
use bevy::pbr::{MaterialPipeline, MaterialPipelineKey};
use bevy::prelude::*;
use bevy::render::render_resource::{AsBindGroup, RenderPipelineDescriptor, ShaderType, SpecializedMeshPipelineError};
use bevy::shader::ShaderRef;

/// Where the shader lies within the program.
const GRID_SHADER: &str = "embedded://elbowroom_viewport/look/grid.wgsl";

/// What the shader knows of the floor. See `grid.wgsl`.
#[derive(Clone, Copy, Debug, Default, PartialEq, ShaderType)]
pub struct FloorUniform {
    /// Colour and opacity of the fine lines.
    pub fine: Vec4,
    /// Colour and opacity of every tenth line.
    pub coarse: Vec4,
    /// Colour and opacity of the two axes.
    pub axis: Vec4,
    /// The world's origin in the scene along the two directions, the fine step, how far the fine lines have faded.
    pub place: Vec4,
    /// Middle and radius of the part of the plane that is drawn.
    pub patch: Vec4,
    /// The first direction of the plane, and where along it the first strong line lies.
    pub along: Vec4,
    /// The second direction, likewise.
    pub upward: Vec4,
}

/// The material.
#[derive(Asset, TypePath, AsBindGroup, Clone, Debug, Default, PartialEq)]
pub struct Floor {
    /// The colours and the place.
    #[uniform(0)]
    pub uniform: FloorUniform,
}

impl Material for Floor {
    fn fragment_shader() -> ShaderRef {
        GRID_SHADER.into()
    }

    fn alpha_mode(&self) -> AlphaMode {
        AlphaMode::Blend
    }

    fn depth_bias(&self) -> f32 {
        // The floor comes before all else that is translucent.
        -1e9
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
        _key: MaterialPipelineKey<Self>,
    ) -> Result<(), SpecializedMeshPipelineError> {
        descriptor.primitive.cull_mode = None;
        Ok(())
    }
}
