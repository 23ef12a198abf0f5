//! What of a glTF description is read: where triangles stand, and nothing of how they look.

use serde::Deserialize;

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Root {
    pub scene: Option<usize>,
    #[serde(default)]
    pub scenes: Vec<Scene>,
    #[serde(default)]
    pub nodes: Vec<Node>,
    #[serde(default)]
    pub meshes: Vec<Mesh>,
    #[serde(default)]
    pub accessors: Vec<Accessor>,
    #[serde(default)]
    pub buffer_views: Vec<BufferView>,
    #[serde(default)]
    pub buffers: Vec<Buffer>,
    #[serde(default)]
    pub extensions_required: Vec<String>,
}

#[derive(Deserialize)]
pub(super) struct Scene {
    #[serde(default)]
    pub nodes: Vec<usize>,
}

#[derive(Deserialize)]
pub(super) struct Node {
    #[serde(default)]
    pub children: Vec<usize>,
    pub mesh: Option<usize>,
    /// Column by column.
    pub matrix: Option<[f64; 16]>,
    pub translation: Option<[f64; 3]>,
    /// x, y, z and the real part.
    pub rotation: Option<[f64; 4]>,
    pub scale: Option<[f64; 3]>,
}

#[derive(Deserialize)]
pub(super) struct Mesh {
    #[serde(default)]
    pub primitives: Vec<Primitive>,
}

#[derive(Deserialize)]
pub(super) struct Primitive {
    #[serde(default)]
    pub attributes: Attributes,
    pub indices: Option<usize>,
    /// 4 for triangles, 5 for a strip, 6 for a fan; less for points and lines.
    pub mode: Option<u32>,
}

#[derive(Default, Deserialize)]
pub(super) struct Attributes {
    #[serde(rename = "POSITION")]
    pub position: Option<usize>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Accessor {
    pub buffer_view: Option<usize>,
    #[serde(default)]
    pub byte_offset: usize,
    pub component_type: u32,
    pub count: usize,
    #[serde(rename = "type")]
    pub kind: String,
    pub sparse: Option<serde::de::IgnoredAny>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct BufferView {
    pub buffer: usize,
    #[serde(default)]
    pub byte_offset: usize,
    pub byte_length: usize,
    pub byte_stride: Option<usize>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Buffer {
    pub byte_length: usize,
    pub uri: Option<String>,
}
