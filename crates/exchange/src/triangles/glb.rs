//! The container of binary glTF, and glTF as plain JSON that holds its data itself.
//!
//! After the Khronos glTF 2.0 specification (from memory): a head of 12 bytes, then chunks of a length, a kind and as many
//! bytes, JSON first and the buffer behind it.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use elbowroom_workbench::file::FileProblem;

use super::gltf::triangles;
use super::gltf_json::Root;
use super::soup::Soup;
use crate::error::TextError;

const MAGIC: u32 = 0x4654_6c67;
const JSON: u32 = 0x4e4f_534a;
const BIN: u32 = 0x004e_4942;
const WHOLE: &str = "take a whole copy of the file";

/// Reads binary glTF.
pub(super) fn read(bytes: &[u8], file: &str) -> Result<Soup, FileProblem> {
    in_chunks(bytes).map_err(|error| error.in_file(file))
}

/// Reads glTF from JSON; one whose buffers lie in other files is refused.
pub(super) fn read_json(bytes: &[u8], file: &str) -> Result<Soup, FileProblem> {
    of_json(bytes, None).map_err(|error| error.in_file(file))
}

fn in_chunks(bytes: &[u8]) -> Result<Soup, TextError> {
    let number = |at: usize| {
        let four: [u8; 4] = bytes.get(at..at.checked_add(4)?)?.try_into().ok()?;
        Some(u32::from_le_bytes(four))
    };
    let (Some(magic), Some(version), Some(length)) = (number(0), number(4), number(8)) else {
        return Err(TextError::whole(format!("it ends after {} bytes, within its head", bytes.len()), WHOLE));
    };
    if magic != MAGIC {
        return Err(TextError::whole("it does not begin as binary glTF does", "export it as .glb again"));
    }
    if version != 2 {
        return Err(TextError::whole(
            format!("it is glTF of version {version}"),
            "version 2 is read: export it as that",
        ));
    }
    if length as usize != bytes.len() {
        let what = format!("it says that it is {length} bytes long, and it is {}", bytes.len());
        return Err(TextError::whole(what, WHOLE));
    }
    let (mut at, mut json, mut binary) = (12, None, None);
    while at < bytes.len() {
        let (length, kind) = (number(at), at.checked_add(4).and_then(number));
        let chunk = length.and_then(|length| {
            let from = at.checked_add(8)?;
            bytes.get(from..from.checked_add(length as usize)?)
        });
        let (Some(kind), Some(chunk)) = (kind, chunk) else {
            return Err(TextError::whole(format!("the chunk at byte {at} runs past the end of the file"), WHOLE));
        };
        match kind {
            JSON if json.is_none() => json = Some(chunk),
            BIN if binary.is_none() => binary = Some(chunk),
            _ => {}
        }
        at += 8 + chunk.len();
    }
    let json = json.ok_or_else(|| TextError::whole("there is no description in it", WHOLE))?;
    of_json(json, binary)
}

fn of_json(json: &[u8], binary: Option<&[u8]>) -> Result<Soup, TextError> {
    let root: Root = serde_json::from_slice(json).map_err(|error| {
        let what = format!("its description cannot be read at line {}, column {}", error.line(), error.column());
        TextError::whole(what, format!("{}; {WHOLE}", super::stl_text::shown(&error.to_string())))
    })?;
    if let Some(extension) = root.extensions_required.first() {
        let what = format!("it needs the extension \u{201c}{}\u{201d}", super::stl_text::shown(extension));
        return Err(TextError::whole(what, "export it without compression and extensions"));
    }
    let mut buffers: Vec<std::borrow::Cow<[u8]>> = Vec::new();
    for (index, buffer) in root.buffers.iter().enumerate() {
        let bytes = match &buffer.uri {
            None if index == 0 => std::borrow::Cow::Borrowed(binary.unwrap_or_default()),
            Some(uri) if uri.starts_with("data:") => decoded(uri, index)?.into(),
            _ => {
                let what = format!("buffer {index} lies in another file");
                return Err(TextError::whole(what, "export it as .glb, which holds everything"));
            }
        };
        if bytes.len() < buffer.byte_length {
            let what = format!("buffer {index} is to have {} bytes, and there are {}", buffer.byte_length, bytes.len());
            return Err(TextError::whole(what, WHOLE));
        }
        buffers.push(bytes);
    }
    triangles(&root, &buffers)
}

fn decoded(uri: &str, index: usize) -> Result<Vec<u8>, TextError> {
    let data = uri.split_once(";base64,").map(|(_, data)| data);
    data.and_then(|data| STANDARD.decode(data).ok())
        .ok_or_else(|| TextError::whole(format!("the data of buffer {index} are no base64"), "export it as .glb"))
}
