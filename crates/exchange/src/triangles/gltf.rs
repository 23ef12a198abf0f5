//! The triangles of a glTF scene, each laid where its nodes put it.

use std::borrow::Cow;

use elbowroom_geometry::{Point3, Vector3};

use super::gltf_json::{Accessor, Node, Primitive, Root};
use super::soup::Soup;
use crate::error::TextError;

/// The deepest nesting of nodes that is followed: a file that goes deeper goes in circles.
const DEEPEST: usize = 64;

/// So many triangles more than bytes may come of one mesh being laid in many places.
const INSTANCED: usize = 1_000_000;

const FLOAT: u32 = 5126;
const BYTE: u32 = 5121;
const SHORT: u32 = 5123;
const INTEGER: u32 = 5125;

/// A linear map and an offset.
#[derive(Clone, Copy)]
struct Affine {
    columns: [Vector3<f64>; 3],
    offset: Vector3<f64>,
}

/// What is put together.
struct Scene<'a> {
    root: &'a Root,
    buffers: &'a [Cow<'a, [u8]>],
    most: usize,
    soup: Soup,
}

/// The triangles of the scene that a file shows; of all its meshes where it has no scene.
///
/// # Errors
/// Says which mesh, node or accessor points to what is not there.
pub(super) fn triangles(root: &Root, buffers: &[Cow<[u8]>]) -> Result<Soup, TextError> {
    let bytes: usize = buffers.iter().map(|buffer| buffer.len()).sum();
    let mut scene = Scene { root, buffers, most: bytes.saturating_add(INSTANCED), soup: Soup::default() };
    match root.scenes.get(root.scene.unwrap_or(0)) {
        Some(shown) => {
            for node in &shown.nodes {
                scene.node(*node, &Affine::IDENTITY, 0)?;
            }
        }
        None if root.scene.is_some() => {
            return Err(TextError::whole("the scene that it shows is not there", "export it again"));
        }
        None => {
            for mesh in 0..root.meshes.len() {
                scene.mesh(mesh, &Affine::IDENTITY)?;
            }
        }
    }
    if scene.soup.triangles.is_empty() {
        return Err(TextError::whole("there are no triangles in it", "export the body as a mesh of triangles"));
    }
    Ok(scene.soup)
}

impl<'a> Scene<'a> {
    fn node(&mut self, index: usize, above: &Affine, depth: usize) -> Result<(), TextError> {
        let Some(node) = self.root.nodes.get(index) else { return Err(not_there("node", index)) };
        if depth > DEEPEST {
            let what = format!("its nodes are nested more than {DEEPEST} deep at node {index}");
            return Err(TextError::whole(what, "nodes must not go in circles; export it again"));
        }
        let here = above.then(&Affine::of(node));
        if let Some(mesh) = node.mesh {
            self.mesh(mesh, &here)?;
        }
        node.children.iter().try_for_each(|child| self.node(*child, &here, depth + 1))
    }

    fn mesh(&mut self, index: usize, placed: &Affine) -> Result<(), TextError> {
        let Some(mesh) = self.root.meshes.get(index) else { return Err(not_there("mesh", index)) };
        mesh.primitives.iter().try_for_each(|primitive| self.primitive(primitive, index, placed))
    }

    fn primitive(&mut self, primitive: &Primitive, mesh: usize, placed: &Affine) -> Result<(), TextError> {
        // Points and lines take no room.
        let mode = primitive.mode.unwrap_or(4);
        if mode < 4 {
            return Ok(());
        }
        let Some(position) = primitive.attributes.position else {
            return Err(TextError::whole(format!("mesh {mesh} has no positions"), "export it again"));
        };
        let first = self.soup.next_point();
        let points = self.accessor(position)?;
        if (points.kind.as_str(), points.component_type) != ("VEC3", FLOAT) {
            let what = format!("the positions of mesh {mesh} are no three single-precision numbers");
            return Err(TextError::whole(what, "export it without quantisation"));
        }
        let (count, bytes, stride) = self.laid_out(points, position, 12)?;
        for point in 0..count {
            let at = |axis: usize| {
                let from = point * stride + 4 * axis;
                f64::from(f32::from_le_bytes([0, 1, 2, 3].map(|byte| bytes[from + byte])))
            };
            let placed = placed.laid(Point3::new(at(0), at(1), at(2)));
            self.soup.points.push([placed.x, placed.y, placed.z]);
        }
        let corners = match primitive.indices {
            None => (0..u32::try_from(count).unwrap_or(u32::MAX)).collect(),
            Some(indices) => self.corners(indices, count, mesh)?,
        };
        let mut triangle = |a: usize, b: usize, c: usize| {
            if self.soup.triangles.len() >= self.most {
                let what =
                    format!("mesh {mesh} is laid in so many places that there are more than {} triangles", self.most);
                return Err(TextError::whole(what, "leave out what is far away"));
            }
            self.soup.triangle(None, [first + corners[a], first + corners[b], first + corners[c]])
        };
        match mode {
            4 if !corners.len().is_multiple_of(3) => {
                let what = format!("mesh {mesh} has {} corners", corners.len());
                Err(TextError::whole(what, "triangles must have three each; take a whole copy of the file"))
            }
            4 => (0..corners.len() / 3).try_for_each(|at| triangle(3 * at, 3 * at + 1, 3 * at + 2)),
            // A strip turns round with every triangle.
            5 => (2..corners.len()).try_for_each(|at| {
                if at % 2 == 0 { triangle(at - 2, at - 1, at) } else { triangle(at - 1, at - 2, at) }
            }),
            6 => (2..corners.len()).try_for_each(|at| triangle(0, at - 1, at)),
            _ => Err(TextError::whole(format!("mesh {mesh} is of the unknown mode {mode}"), "export it as triangles")),
        }
    }

    fn corners(&self, index: usize, points: usize, mesh: usize) -> Result<Vec<u32>, TextError> {
        let accessor = self.accessor(index)?;
        let size = match (accessor.kind.as_str(), accessor.component_type) {
            ("SCALAR", BYTE) => 1,
            ("SCALAR", SHORT) => 2,
            ("SCALAR", INTEGER) => 4,
            _ => {
                let what = format!("the corners of mesh {mesh} are no whole numbers");
                return Err(TextError::whole(what, "export it again"));
            }
        };
        let (count, bytes, stride) = self.laid_out(accessor, index, size)?;
        let mut corners = Vec::with_capacity(count);
        for at in 0..count {
            let mut four = [0; 4];
            four[..size].copy_from_slice(&bytes[at * stride..at * stride + size]);
            let corner = u32::from_le_bytes(four);
            if corner as usize >= points {
                let what = format!("corner {} of mesh {mesh} names vertex {corner}", at + 1);
                return Err(TextError::whole(
                    what,
                    format!("there are {points}, counted from 0; take a whole copy of the file"),
                ));
            }
            corners.push(corner);
        }
        Ok(corners)
    }

    fn accessor(&self, index: usize) -> Result<&'a Accessor, TextError> {
        let accessor = self.root.accessors.get(index).ok_or_else(|| not_there("accessor", index))?;
        if accessor.sparse.is_some() {
            let what = format!("accessor {index} is sparse");
            return Err(TextError::whole(what, "export it without sparse data"));
        }
        Ok(accessor)
    }

    /// How many values an accessor has, the bytes they stand in, and how far apart, all of which is there.
    fn laid_out(&self, accessor: &Accessor, index: usize, size: usize) -> Result<(usize, &'a [u8], usize), TextError> {
        let place = accessor.buffer_view.ok_or_else(|| not_there("buffer view of accessor", index))?;
        let view = self.root.buffer_views.get(place).ok_or_else(|| not_there("buffer view", place))?;
        let buffer: &'a [u8] = self.buffers.get(view.buffer).ok_or_else(|| not_there("buffer", view.buffer))?;
        let stride = view.byte_stride.unwrap_or(size);
        let within = || {
            let viewed = buffer.get(view.byte_offset..view.byte_offset.checked_add(view.byte_length)?)?;
            let bytes = viewed.get(accessor.byte_offset..)?;
            let needed = match accessor.count {
                0 => 0,
                count => (count - 1).checked_mul(stride)?.checked_add(size)?,
            };
            (stride >= size && needed <= bytes.len()).then_some(bytes)
        };
        let bytes = within().ok_or_else(|| {
            let what =
                format!("accessor {index} claims {} values, which run past the data that are there", accessor.count);
            TextError::whole(what, "take a whole copy of the file")
        })?;
        Ok((accessor.count, bytes, stride))
    }
}

fn not_there(what: &str, index: usize) -> TextError {
    TextError::whole(format!("{what} {index} is not there"), "take a whole copy of the file, or export it again")
}

impl Affine {
    const IDENTITY: Self = Self {
        columns: [Vector3::new(1.0, 0.0, 0.0), Vector3::new(0.0, 1.0, 0.0), Vector3::new(0.0, 0.0, 1.0)],
        offset: Vector3::new(0.0, 0.0, 0.0),
    };

    /// What a node says of its place: a matrix, or scale, then rotation, then translation.
    fn of(node: &Node) -> Self {
        if let Some(m) = node.matrix {
            let column = |index: usize| Vector3::new(m[4 * index], m[4 * index + 1], m[4 * index + 2]);
            return Self { columns: [column(0), column(1), column(2)], offset: column(3) };
        }
        let [x, y, z, w] = node.rotation.unwrap_or([0.0, 0.0, 0.0, 1.0]);
        let scale = node.scale.unwrap_or([1.0; 3]);
        let columns = [
            Vector3::new(1.0 - 2.0 * (y * y + z * z), 2.0 * (x * y + z * w), 2.0 * (x * z - y * w)) * scale[0],
            Vector3::new(2.0 * (x * y - z * w), 1.0 - 2.0 * (x * x + z * z), 2.0 * (y * z + x * w)) * scale[1],
            Vector3::new(2.0 * (x * z + y * w), 2.0 * (y * z - x * w), 1.0 - 2.0 * (x * x + y * y)) * scale[2],
        ];
        Self { columns, offset: Vector3::from(node.translation.unwrap_or_default()) }
    }

    fn turned(&self, of: &Vector3<f64>) -> Vector3<f64> {
        self.columns[0] * of.x + self.columns[1] * of.y + self.columns[2] * of.z
    }

    fn laid(&self, point: Point3<f64>) -> Point3<f64> {
        Point3::from(self.turned(&point.coords) + self.offset)
    }

    /// This map after another one.
    fn then(&self, first: &Self) -> Self {
        Self {
            columns: first.columns.map(|column| self.turned(&column)),
            offset: self.turned(&first.offset) + self.offset,
        }
    }
}
