//! Meshes of what stands around a tube: STL (text and binary), OBJ and glTF (`.glb`, and `.gltf` that holds its own data).
//!
//! Only points and triangles are read; colours, normals and names are passed over. A file that is cut short, holds numbers
//! that are none, points to what is not there or claims more than it has is refused with its place: half an obstacle would look
//! like room that is not there. Nothing is set aside on the word of a file: memory follows what is really in it.

mod glb;
mod gltf;
mod gltf_json;
mod obj;
mod soup;
mod stl_binary;
mod stl_text;

use std::path::Path;

use elbowroom_bending::{MeshUnit, UpAxis};
use elbowroom_geometry::{Refusal, TriangleMesh};
use elbowroom_workbench::file::{FileProblem, read_bytes_up_to, text_of};

use crate::error::TextError;
use soup::Soup;

/// The largest mesh file that is read, bytes: ten million triangles of binary STL.
pub const LARGEST_MESH_FILE: u64 = 512 << 20;

/// How a mesh file is to be taken: what it does not say itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MeshFrame {
    /// Its unit. glTF is in metres; STL and OBJ do not say.
    pub unit: Option<MeshUnit>,
    /// Its axis upwards. glTF is y-up; of STL and OBJ z is presumed.
    pub up: Option<UpAxis>,
}

/// A mesh that was read, and how it was taken.
#[derive(Clone, Debug)]
pub struct ReadMesh {
    /// The mesh in the drawing's axes, mm.
    pub mesh: TriangleMesh,
    /// The unit that it was taken in.
    pub unit: MeshUnit,
    /// The axis that was taken for the one upwards.
    pub up: UpAxis,
    /// By which the bytes of the file are known again: their BLAKE3 hash in hexadecimal.
    pub fingerprint: String,
}

/// A kind of mesh file.
struct Kind {
    name: &'static str,
    extension: &'static str,
    read: fn(&[u8], &str) -> Result<Soup, FileProblem>,
    /// What the kind itself says of unit and axis.
    says: Option<(MeshUnit, UpAxis)>,
}

const GLTF: Option<(MeshUnit, UpAxis)> = Some((MeshUnit::Metre, UpAxis::Y));

/// Every kind there is.
static KINDS: &[Kind] = &[
    Kind { name: "STL", extension: "stl", read: read_stl, says: None },
    Kind { name: "OBJ", extension: "obj", read: read_obj, says: None },
    Kind { name: "glTF", extension: "glb", read: glb::read, says: GLTF },
    Kind { name: "glTF", extension: "gltf", read: glb::read_json, says: GLTF },
];

/// Reads a mesh file of the kind that its extension tells.
///
/// # Errors
/// Says what is wrong with the file, and where in it; and that its unit has to be named, where the kind does not say.
pub fn read_mesh(file: &Path, frame: MeshFrame) -> Result<ReadMesh, FileProblem> {
    let name = file.display().to_string();
    let kind = kind_of(file)?;
    // Before megabytes are read for nothing.
    taken(kind, frame, &name)?;
    mesh_of(&read_bytes_up_to(file, LARGEST_MESH_FILE)?, file, frame)
}

/// Reads the bytes of a mesh file; `file` tells the kind, and stands in the errors.
///
/// # Errors
/// Those of [`read_mesh`].
pub fn mesh_of(bytes: &[u8], file: &Path, frame: MeshFrame) -> Result<ReadMesh, FileProblem> {
    let name = file.display().to_string();
    let kind = kind_of(file)?;
    let (unit, up) = taken(kind, frame, &name)?;
    let soup = (kind.read)(bytes, &name)?;
    let point = |point: &[f64; 3]| up.turned(*point).map(|at| at * unit.in_mm()).into();
    let mesh = TriangleMesh::new(soup.points.iter().map(point).collect(), soup.triangles)
        .map_err(|refusal| soup.places.of(&refusal).in_file(&name))?;
    Ok(ReadMesh { mesh, unit, up, fingerprint: fingerprint(bytes) })
}

/// By which the bytes of a file are known again.
pub fn fingerprint(bytes: &[u8]) -> String {
    blake3::hash(bytes).to_hex().to_string()
}

/// Whether a file's extension is that of a mesh.
pub fn is_mesh(file: &Path) -> bool {
    kind_of(file).is_ok()
}

/// The extensions of mesh files.
pub fn extensions() -> impl Iterator<Item = &'static str> {
    KINDS.iter().map(|kind| kind.extension)
}

/// The unit and axis that a file is taken in.
fn taken(kind: &Kind, frame: MeshFrame, file: &str) -> Result<(MeshUnit, UpAxis), FileProblem> {
    if let Some((unit, up)) = kind.says {
        return Ok((frame.unit.unwrap_or(unit), frame.up.unwrap_or(up)));
    }
    let unit = frame.unit.ok_or_else(|| {
        let what = format!("{} does not say in which unit it is drawn", kind.name);
        FileProblem::whole(file, what, "name it: mm, in or m")
    })?;
    Ok((unit, frame.up.unwrap_or_default()))
}

fn kind_of(file: &Path) -> Result<&'static Kind, FileProblem> {
    let extension = file.extension().map(|extension| extension.to_string_lossy().to_lowercase());
    KINDS.iter().find(|kind| extension.as_deref() == Some(kind.extension)).ok_or_else(|| {
        let known: Vec<_> = KINDS.iter().map(|kind| format!(".{}", kind.extension)).collect();
        let what = "its name does not end as that of a mesh does";
        FileProblem::whole(file.display().to_string(), what, format!("known are {}", known.join(", ")))
    })
}

fn read_stl(bytes: &[u8], file: &str) -> Result<Soup, FileProblem> {
    let soup =
        if stl_binary::is_binary(bytes) { stl_binary::read(bytes) } else { stl_text::read(text_of(bytes, file)?) };
    soup.map_err(|error| error.in_file(file))
}

fn read_obj(bytes: &[u8], file: &str) -> Result<Soup, FileProblem> {
    obj::read(text_of(bytes, file)?).map_err(|error| error.in_file(file))
}

impl soup::Places {
    /// A refusal of the mesh with the line that it is about, where there are lines.
    fn of(&self, refusal: &Refusal) -> TextError {
        let what = format!("{} is {}", refusal.field, refusal.was);
        TextError { line: self.line_of(&refusal.field), what, right: format!("it must be {}", refusal.may_be) }
    }
}
