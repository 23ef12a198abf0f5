//! The arrows between crates, and what the windowless build must never pull in.

use std::collections::BTreeMap;
use std::process::Command;

use super::tree::none_of;

/// What each package may use of the workspace. `tests` may use whatever it tests.
const ARROWS: &[(&str, &[&str])] = &[
    ("elbowroom-geometry", &[]),
    ("elbowroom-bending", &["geometry"]),
    ("elbowroom-workbench", &["geometry", "bending"]),
    ("elbowroom-exchange", &["geometry", "bending", "workbench"]),
    ("elbowroom-panels", &["geometry", "bending", "workbench"]),
    ("elbowroom-viewport", &["geometry", "bending", "workbench"]),
    ("elbowroom", &["geometry", "bending", "workbench", "exchange", "panels", "viewport"]),
    ("elbowroom-tests", &["geometry", "bending", "workbench", "exchange"]),
];

/// What a package must never use from outside, because it is another package's business.
const STRANGERS: &[(&str, &[&str])] = &[
    ("elbowroom-geometry", &["serde", "bevy", "egui", "bevy_egui", "dirs", "tempfile"]),
    ("elbowroom-bending", &["serde", "bevy", "egui", "bevy_egui", "dirs", "tempfile"]),
    ("elbowroom-workbench", &["bevy", "egui", "bevy_egui", "rfd", "winit"]),
    ("elbowroom-exchange", &["bevy", "egui", "bevy_egui", "rfd", "winit"]),
    ("elbowroom-panels", &["bevy", "bevy_egui", "winit"]),
    ("elbowroom-viewport", &["egui", "bevy_egui"]),
];

fn cargo(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO")).args(arguments).current_dir(elbowroom_tests::root()).output().unwrap();
    let told = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "cargo {} failed: {told}", arguments.join(" "));
    String::from_utf8(output.stdout).unwrap()
}

/// Each package of the workspace with the names of what it depends on, development left out.
fn dependencies() -> BTreeMap<String, Vec<String>> {
    let text = cargo(&["metadata", "--format-version", "1", "--no-deps", "--offline"]);
    let metadata: serde_json::Value = serde_json::from_str(&text).unwrap();
    let packages = metadata["packages"].as_array().unwrap().iter();
    packages
        .map(|package| {
            let used = package["dependencies"].as_array().unwrap().iter();
            let used = used.filter(|dependency| dependency["kind"] != "dev");
            let names = used.map(|dependency| dependency["name"].as_str().unwrap().to_owned());
            (package["name"].as_str().unwrap().to_owned(), names.collect())
        })
        .collect()
}

#[test]
fn a_crate_uses_only_what_stands_before_it() {
    let mut offences = Vec::new();
    for (package, used) in dependencies() {
        let Some((_, allowed)) = ARROWS.iter().find(|(name, _)| *name == package) else {
            offences.push(format!("{package} is not in the plan"));
            continue;
        };
        for name in used.iter().filter_map(|name| name.strip_prefix("elbowroom-")) {
            if !allowed.contains(&name) {
                offences.push(format!("{package} -> {name}"));
            }
        }
    }
    none_of(&offences, "forbidden arrows between crates");
}

#[test]
fn a_crate_keeps_to_its_business() {
    let dependencies = dependencies();
    let mut offences = Vec::new();
    for (package, strangers) in STRANGERS {
        let used = dependencies.get(*package).unwrap_or_else(|| panic!("{package} is missing"));
        offences.extend(
            used.iter().filter(|name| strangers.contains(&name.as_str())).map(|name| format!("{package} -> {name}")),
        );
    }
    none_of(&offences, "forbidden dependencies");
}

#[test]
fn the_windowless_command_pulls_in_no_window() {
    let arguments =
        ["tree", "-p", "elbowroom", "--no-default-features", "-e", "normal,build", "--prefix", "none", "--offline"];
    let tree = cargo(&arguments);
    assert!(tree.contains("clap"), "the tree is empty:\n{tree}");
    let window = ["bevy", "egui", "epaint", "winit", "wgpu", "rfd", "elbowroom-panels", "elbowroom-viewport"];
    let names = tree.lines().filter_map(|line| line.split(' ').next());
    let found: Vec<_> =
        names.filter(|name| window.iter().any(|w| name == w || name.starts_with(&format!("{w}_")))).collect();
    assert!(found.is_empty(), "the windowless build pulls in {found:?}");
}
