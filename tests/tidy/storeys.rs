//! The storeys of `bending` and `workbench`, and no circles of files in any crate: what a file uses can be read and built
//! without it.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use super::tree::{none_of, texts};
use super::uses::{Use, uses};

/// The folders and files of a crate's `src` from the ground up. Each may use itself and what stands before it.
const STOREYS: &[(&str, &[&str])] = &[
    ("crates/bending", &["model", "forming", "layout", "checks", "judge", "first_off", "specimen.rs"]),
    (
        "crates/workbench",
        &[
            "document",
            "desk",
            "waker.rs",
            "command.rs",
            "request.rs",
            "screen.rs",
            "shelf",
            "workbench.rs",
            "deeds",
            "catalogue",
        ],
    ),
];

/// Every crate with its files, by their paths from its root.
fn crates() -> BTreeMap<String, Vec<(String, String)>> {
    let mut crates: BTreeMap<String, Vec<(String, String)>> = BTreeMap::new();
    for file in texts(|path| path.starts_with("crates/") && path.ends_with(".rs")) {
        if let Some((name, path)) = file.path.split_once("/src/") {
            crates.entry(name.into()).or_default().push((path.into(), file.text.clone()));
        }
    }
    crates
}

fn said(used: &Use) -> String {
    format!("{}:{} uses {} of {}", used.from, used.line, used.written, used.to)
}

/// What uses a storey above its own.
fn upwards(uses: &[Use], storeys: &[&str]) -> Vec<String> {
    let storey = |file: &str| storeys.iter().position(|storey| file.split('/').next() == Some(storey));
    let mut offences = Vec::new();
    for used in uses {
        // The root passes names on, and is no storey.
        if ["lib.rs", "main.rs"].contains(&used.from.as_str()) {
            continue;
        }
        match (storey(&used.from), storey(&used.to)) {
            (Some(from), Some(to)) if from >= to => {}
            (Some(_), Some(_)) => offences.push(said(used)),
            _ => offences.push(format!("{}: on no storey", said(used))),
        }
    }
    offences
}

/// Of every knot of files that use each other, a smallest circle.
fn circles(uses: &[Use]) -> Vec<String> {
    let mut by_file: BTreeMap<&str, Vec<&Use>> = BTreeMap::new();
    for used in uses {
        by_file.entry(&used.from).or_default().push(used);
    }
    let mut told: BTreeSet<&str> = BTreeSet::new();
    let mut found: Vec<Vec<&Use>> = by_file.keys().filter_map(|file| circle_through(file, &by_file)).collect();
    found.sort_by_key(Vec::len);
    found.retain(|circle| {
        let is_new = circle.iter().all(|used| !told.contains(used.from.as_str()));
        told.extend(circle.iter().map(|used| used.from.as_str()));
        is_new
    });
    let words = |circle: &Vec<&Use>| circle.iter().map(|used| said(used)).collect::<Vec<_>>().join(", ");
    found.iter().map(|circle| format!("a circle of {} files: {}", circle.len(), words(circle))).collect()
}

/// The shortest way from a file back to itself.
fn circle_through<'a>(file: &str, by_file: &BTreeMap<&str, Vec<&'a Use>>) -> Option<Vec<&'a Use>> {
    let mut came_by: BTreeMap<&str, &Use> = BTreeMap::new();
    let mut waiting = VecDeque::from([file]);
    while let Some(at) = waiting.pop_front() {
        for &used in by_file.get(at).into_iter().flatten() {
            if came_by.contains_key(used.to.as_str()) {
                continue;
            }
            came_by.insert(&used.to, used);
            if used.to == file {
                let mut circle = vec![used];
                while circle[0].from != file {
                    circle.insert(0, came_by[circle[0].from.as_str()]);
                }
                return Some(circle);
            }
            waiting.push_back(&used.to);
        }
    }
    None
}

#[test]
fn a_file_uses_its_own_storey_and_those_below() {
    let crates = crates();
    for (name, storeys) in STOREYS {
        let (uses, refused) = uses(&crates[*name]);
        none_of(&refused, "every use can be followed");
        assert!(uses.len() > 100, "only {} uses were found in {name}: the rule would prove nothing", uses.len());
        none_of(&upwards(&uses, storeys), &format!("{name} is built from the ground up"));
    }
}

#[test]
fn no_files_of_a_crate_use_each_other_in_a_circle() {
    let mut offences = Vec::new();
    let crates = crates();
    assert!(crates.len() >= 2, "only {} crates were found", crates.len());
    for (name, files) in crates {
        let (uses, refused) = uses(&files);
        assert!(uses.len() >= 10, "only {} uses were found in {name}", uses.len());
        offences.extend(refused.into_iter().chain(circles(&uses)).map(|offence| format!("{name}: {offence}")));
    }
    none_of(&offences, "files use each other one way");
}

/// A made-up crate.
fn tree(files: &[(&str, &str)]) -> (Vec<Use>, Vec<String>) {
    uses(&files.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect::<Vec<_>>())
}

/// The files that a file of a made-up crate uses.
fn used_by(files: &[(&str, &str)], from: &str) -> Vec<String> {
    tree(files).0.into_iter().filter(|used| used.from == from).map(|used| used.to).collect()
}

#[test]
fn a_use_is_followed_to_the_file_that_holds_what_is_named() {
    let root = ("lib.rs", "mod model; mod layout; pub use model::{Part, tube}; pub use layout::Solved as Done;");
    let model = ("model/mod.rs", "mod part; pub mod tube; pub use part::Part;");
    let part = ("model/part.rs", "pub struct Part;");
    let tube = ("model/tube.rs", "pub struct Tube;");
    let layout = ("layout.rs", "pub struct Solved;");
    for (text, wanted) in [
        ("use crate::Part;", vec!["model/part.rs"]),
        ("use crate::{Done, Part};", vec!["layout.rs", "model/part.rs"]),
        ("use crate::tube::Tube;", vec!["model/tube.rs"]),
        ("use super::model::{part::{self, Part}, tube};", vec!["model/part.rs", "model/tube.rs"]),
        (
            "fn f(part: &crate::Part) -> crate::tube::Tube { crate::tube::Tube::of(part) }",
            vec!["model/part.rs", "model/tube.rs"],
        ),
        ("fn f() { print!(\"{}\", [crate::Part]); }", vec!["model/part.rs"]),
        ("mod inner { use super::super::Part; }", vec!["model/part.rs"]),
        // Neither words in text and remarks, nor what leads out of the crate, nor what only tests use.
        ("// crate::Part\n/// [`crate::Part`]\nfn f() -> &'static str { \"crate::Part\" }", vec![]),
        ("use std::path::Path; use other::Part; fn f() { Part::new(); ::model::part(); }", vec![]),
        ("#[cfg(test)] use crate::Part; #[cfg(test)]\n#[allow(x)]\nmod tests { use crate::Part; }", vec![]),
        ("#[cfg(test)] mod tests { use crate::Part; } fn f(part: crate::Part) {}", vec!["model/part.rs"]),
    ] {
        let files = [root, model, part, tube, layout, ("judge.rs", text)];
        assert_eq!(used_by(&files, "judge.rs"), wanted, "{text}");
    }
    let files = [root, model, part, tube, layout];
    assert!(tree(&files).0.is_empty(), "names passed on are no uses: {:?}", tree(&files));
    let (_, refused) = tree(&[root, ("judge.rs", "use std::fmt::*; use crate::model::*;")]);
    assert_eq!(refused, ["judge.rs:1: a * hides what is used; name it"]);
}

#[test]
fn a_parent_uses_its_children_where_it_speaks_of_them() {
    let child = ("a/child.rs", "pub struct Child;");
    for (text, wanted) in [
        ("mod child; pub use child::Child;", vec![]),
        ("mod child; pub use child::Child; struct A(Child);", vec!["a/child.rs"]),
        ("mod child; use child::Child;", vec!["a/child.rs"]),
        ("mod child; struct A(child::Child);", vec!["a/child.rs"]),
        ("macro_rules! all { ($($file:ident),+) => { $(mod $file;)+ } } all! { child }", vec!["a/child.rs"]),
        ("#[cfg(test)] mod child;", vec![]),
    ] {
        assert_eq!(used_by(&[("lib.rs", "mod a;"), ("a/mod.rs", text), child], "a/mod.rs"), wanted, "{text}");
    }
    let tests =
        [("lib.rs", "mod a;"), ("a.rs", "#[cfg(test)]\nmod tests;"), ("a/tests.rs", "use crate::b::B;"), ("b.rs", "")];
    assert!(tree(&tests).0.is_empty(), "{:?}", tree(&tests));
}

#[test]
fn a_circle_is_found_and_named() {
    let files = [
        ("lib.rs", "mod a; mod b; mod c; mod d; pub use c::C;"),
        ("a.rs", "use crate::b::B;"),
        ("b.rs", "\npub struct B(crate::C);"),
        ("c.rs", "use super::a;"),
        ("d.rs", "use crate::{a::A, C};"),
    ];
    let found = circles(&tree(&files).0);
    let wanted = "a circle of 3 files: a.rs:1 uses crate::b::B of b.rs, b.rs:2 uses crate::C of c.rs, c.rs:1 uses super::a of a.rs";
    assert_eq!(found, [wanted]);
    let parent = [
        ("lib.rs", "mod a;"),
        ("a/mod.rs", "mod b; pub use b::B; pub struct A(B);"),
        ("a/b.rs", "use super::A; struct B(A);"),
    ];
    assert_eq!(circles(&tree(&parent).0).len(), 1);
    let parent = [
        ("lib.rs", "mod a;"),
        ("a/mod.rs", "mod b; pub use b::B; pub struct A;"),
        ("a/b.rs", "use super::A; struct B(A);"),
    ];
    assert!(circles(&tree(&parent).0).is_empty());
}

#[test]
fn a_use_of_a_higher_storey_is_found_and_named() {
    let files = [
        ("lib.rs", "mod high; mod low; mod odd; pub use high::High; pub use low::Low;"),
        ("high/mod.rs", "mod one; pub use one::High;"),
        ("high/one.rs", "use crate::Low; pub struct High;"),
        ("low.rs", "pub struct Low(crate::High);"),
        ("odd.rs", "use crate::Low;"),
    ];
    let found = upwards(&tree(&files).0, &["low.rs", "high"]);
    let wanted = ["low.rs:1 uses crate::High of high/one.rs", "odd.rs:1 uses crate::Low of low.rs: on no storey"];
    assert_eq!(found, wanted);
}
