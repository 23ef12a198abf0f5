//! The rooms of the workbench: the document knows neither desk nor shelf, so that nothing but its own edits changes it.

use super::tree::{none_of, texts};

#[test]
fn the_document_knows_neither_desk_nor_shelf() {
    let files = texts(|path: &str| path.starts_with("crates/workbench/src/document/") && path.ends_with(".rs"));
    assert!(files.len() >= 3, "the document lies elsewhere");
    let mut offences = Vec::new();
    for file in &files {
        for (number, line) in file.text.lines().enumerate() {
            let code = line.split("//").next().unwrap_or_default();
            if ["crate::", "super::super", "Workbench"].iter().any(|stranger| code.contains(stranger)) {
                offences.push(format!("{}:{}: {}", file.path, number + 1, line.trim()));
            }
            let opened = code.contains("pub(crate) committed:") || code.contains("pub committed:");
            if opened || code.contains("pub(crate) shown:") || code.contains("pub shown:") {
                offences.push(format!("{}:{}: a state that anybody may write", file.path, number + 1));
            }
        }
    }
    none_of(&offences, "the document stands on its own");
}
